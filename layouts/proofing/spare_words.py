"""What there is to spare, as sentences: of one print, and of a kit's weakest point."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from layouts.document import Kit
from layouts.proofing.weakest import WeakPoint, is_spare_known, weakest_point

__all__ = ["spare_sentence", "weakest_sentence"]

type Data = Mapping[str, Any]
# What something that is cut is called, by its place.
type Called = Callable[[str], str]

# Pieces that are named in a sentence.
_MOST_NAMED = 6


def spare_sentence(spare: Data, letter: Called) -> str:
    """Return what could be cut once more of one print; `spare` is that of its answer in a proof.

    >>> spare_sentence({"pieces": [{"at": "A", "from": None}, {"at": "B", "from": {"sheet": 1}}]}, str)
    'One more of 1 of its 2 pieces could be cut from what is left of its sheets; none of A.'
    """
    pieces = spare["pieces"]
    lost = [letter(piece["at"]) for piece in pieces if piece["from"] is None]
    again = len(pieces) - len(lost)
    if len(pieces) == 1:
        (only,) = pieces
        name = letter(only["at"])
        if lost:
            return f"Nothing that is left of its sheets is large enough for one more of {name}."
        return f"One more of {name} could be cut from what is left of its sheets."
    if not again:
        return f"None of its {len(pieces)} pieces could be cut again from what is left of its sheets."
    each = ", one at a time" if again > 1 else ""
    if not lost:
        return f"One more of each of its {len(pieces)} pieces could be cut from what is left of its sheets{each}."
    some = f"One more of {again} of its {len(pieces)} pieces could be cut from what is left of its sheets{each}"
    return f"{some}; none of {_or(lost)}."


def weakest_sentence(kit: Kit, papers: Sequence[Data], name: Called) -> str:
    """Return what is a kit's weakest point, and why; `papers` are those of its proof.

    Nothing where no print has a plan; a kit all of whose pieces could be cut again is told so.
    """
    if not is_spare_known(papers):
        return ""
    point = weakest_point(kit, papers)
    if point is None:
        known = all(answer["verdict"] == "fits" for answer in papers)
        so_far = "" if known else "On the prints that have a plan, "
        sentence = f"{so_far}every piece could be cut once more from what is left of the sheets, one at a time."
        return sentence[0].upper() + sentence[1:]
    papers_by_id = {paper.id: paper.name for paper in kit.papers}
    return (
        f"Weakest point: {name(point.place)} on {papers_by_id[point.paper]}. Nothing that is left of its sheets would "
        f"give one more of it, and {_why(point)}."
    )


def _why(point: WeakPoint) -> str:
    work = _and(list(_jobs(point)))
    if point.copies > 1:
        return f"{point.copies} of it are cut" + (f", each to be {work}" if work else "")
    if work:
        return f"it is yet to be {work}"
    if point.others:
        return f"it is the largest of the {point.others + 1} pieces that cannot be cut again"
    return "it is the only piece that cannot be cut again"


def _jobs(point: WeakPoint) -> Iterator[str]:
    handling = point.handling
    if handling.is_shaped:
        yield "trimmed to its shape"
    if handling.windows:
        yield f"given {_counted(handling.windows, 'window')}"
    if handling.edges:
        yield f"given {_counted(handling.edges, 'decorative edge')}"
    if handling.is_folded:
        yield "folded"


def _counted(number: int, thing: str) -> str:
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"


def _and(words: Sequence[str]) -> str:
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def _or(names: Sequence[str]) -> str:
    told = list(names[:_MOST_NAMED])
    if len(names) > _MOST_NAMED:
        told.append(f"{len(names) - _MOST_NAMED} more")
    return " or ".join([", ".join(told[:-1]), told[-1]] if len(told) > 1 else told)
