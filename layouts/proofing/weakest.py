"""A kit's weakest point: the piece that cannot be cut again and most easily goes wrong. Read out of a proof."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import chain
from typing import Any

from layouts.document import Kit, Piece, form_place, piece_place

__all__ = ["Handling", "WeakPoint", "is_spare_known", "weakest_point"]

type Data = Mapping[str, Any]

# The constructions whose flat parts are not folded.
_UNFOLDED = ("frame", "tag")


@dataclass(frozen=True, slots=True)
class Handling:
    """What is done to each copy of a piece or flat part once it is cut: all of it can go wrong."""

    windows: int = 0
    edges: int = 0
    is_shaped: bool = False
    is_folded: bool = False

    @property
    def jobs(self) -> int:
        return self.windows + self.edges + self.is_shaped + self.is_folded


@dataclass(frozen=True, slots=True)
class WeakPoint:
    """A piece or flat part of which no offcut and no sheet left over gives one more: on which paper, how many `copies`
    of it are cut, how large it is cut (ticks), and what is done to each; `others` cannot be cut again either."""

    paper: str
    place: str
    copies: int
    width: int
    height: int
    handling: Handling
    others: int

    @property
    def chances(self) -> int:
        """How often it can be spoilt: in being cut, and in whatever is done to it then, every copy of it."""
        return self.copies * (1 + self.handling.jobs)


def is_spare_known(papers: Sequence[Data]) -> bool:
    """Whether anything is known of what could be cut again; `papers` are those of a proof."""
    return any(answer.get("spare") for answer in papers)


def weakest_point(kit: Kit, papers: Sequence[Data]) -> WeakPoint | None:
    """Return the weakest point of a kit; None where every piece that has a plan could be cut once more.

    `papers` are those of its proof. Of the pieces that cannot be cut again it is the one that can be spoilt most often,
    `chances`; of equals the largest, then the first in the order of the proof.
    """
    handled = _handling(kit)
    found = [one for answer in papers for one in _of_print(answer, handled)]
    if not found:
        return None
    weakest = max(found, key=lambda one: (one.chances, one.width * one.height))
    return replace(weakest, others=len({one.place for one in found}) - 1)


def _of_print(answer: Data, handled: Mapping[str, Handling]) -> Iterator[WeakPoint]:
    lost = [piece["at"] for piece in (answer.get("spare") or {}).get("pieces", ()) if piece["from"] is None]
    if not lost:
        return
    cut: dict[str, list[Data]] = {}
    for leaf in _leaves(sheet["tree"] for sheet in answer["plan"]):
        cut.setdefault(leaf["piece"], []).append(leaf)
    for place in lost:
        # What its cut-out does not yield is nowhere in the plan: a finding says so.
        if place in cut:
            first = cut[place][0]
            handling = handled.get(place.partition("/part:")[0], Handling())
            yield WeakPoint(answer["paper"], place, len(cut[place]), first["width"], first["height"], handling, 0)


def _handling(kit: Kit) -> dict[str, Handling]:
    handled: dict[str, Handling] = {}
    for project in kit.projects:
        handled |= {piece_place(project.id, piece.id): _of_piece(piece) for piece in project.pieces}
        handled |= {
            form_place(project.id, form.id): Handling(is_folded=form.as_ not in _UNFOLDED) for form in project.forms
        }
    return handled


def _of_piece(piece: Piece) -> Handling:
    edges = (piece.edges.left, piece.edges.right, piece.edges.top, piece.edges.bottom)
    return Handling(
        windows=len(piece.windows),
        edges=sum(edge is not None for edge in edges),
        is_shaped=piece.shape.kind != "rect",
    )


def _leaves(trees: Iterable[Data]) -> Iterator[Data]:
    """Everything that is cut, also what comes out of cut-outs."""
    waiting = list(trees)
    while waiting:
        here = waiting.pop()
        waiting.extend(chain(here.get("parts", ()), here.get("cut_outs", {}).values()))
        if "piece" in here:
            yield here
