"""How thick what is put on something is: papers upon papers, and whatever else has a thickness."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from layouts.document import Blank, Form, Kit, Piece, Placement
from layouts.document.forms import Concertina, Envelope, Pocket
from layouts.shapes.forms.folded import Side

__all__ = ["MOST_DEEP", "Layers"]

# Layers upon layers, and cut-outs of cut-outs. Nobody glues the seventeenth; a piece put on itself is met here too.
MOST_DEEP = 16

# A kind, and the ids that name a thing of it.
_Key = tuple[str, ...]


class _Stack(NamedTuple):
    """What is put on one copy of a support, in micrometres: the thickest that lies beside others, and all overlaps."""

    beside: int
    over: int

    @property
    def height(self) -> int:
        return self.beside + self.over

    def with_(self, other: _Stack) -> _Stack:
        return _Stack(max(self.beside, other.beside), self.over + other.over)


class Layers:
    """The placements of a kit by what they are put on, and how thick each thing that is put is.

    A paper counts by its caliper, once for each layer of a form that lies flat (two for a pocket, three for an
    envelope, the panels of a concertina); of papers that differ from copy to copy the thickest counts. A supply and a
    blank count by their own thickness. What states none counts nothing, and so do elements, which cannot state any.
    Things on one support lie side by side, so that the thickest of them counts, unless they intend to overlap: those
    count all. What is put on a thing, or behind it, comes on top.
    Source: common practice, no source.
    """

    __slots__ = ("_kit", "_known", "_placements", "_walls", "blanks", "forms", "papers", "pieces", "supplies")

    def __init__(self, kit: Kit) -> None:
        self._kit = kit
        self.pieces = {(project.id, piece.id): piece for project in kit.projects for piece in project.pieces}
        self.forms = {(project.id, form.id): form for project in kit.projects for form in project.forms}
        self.blanks = {blank.id: blank for blank in kit.blanks}
        self.supplies = {supply.id: supply for supply in kit.supplies}
        self.papers = {paper.id: paper for paper in kit.papers}
        # Put in order when the first lid asks: most kits have none, and flat sizes are asked for by many.
        self._placements: dict[_Key, list[tuple[str, Placement]]] | None = None
        self._known: dict[tuple[_Key, int], int] = {}
        self._walls: dict[_Key, tuple[int, int]] = {}

    def on_walls_of_blank(self, blank: Blank) -> tuple[int, int]:
        """Return how much what is put on its walls adds to the width and to the depth of a blank, in micrometres.

        Walls are the faces that are not inside and are as large as the outside is wide or deep, and high. What is on
        the two with most on them counts, of opposite walls. Where width and depth are equal a face may be any wall: it
        counts for both, and the lid is at worst a little wide. What is put behind a wall is inside.
        """
        key = ("blank", blank.id)
        if key not in self._walls:
            self._walls[key] = self._of_faces(blank)
        return self._walls[key]

    def on_walls_of_form(self, project: str, form: str) -> tuple[int, int]:
        """Return how much what is on the outside of its walls adds to the width and depth of a box (micrometres)."""
        key = ("form", project, form)
        if key not in self._walls:
            sides: tuple[Side, ...] = ("left", "right", "bottom", "top")
            left, right, bottom, top = (
                sum(self._on_copies(("panel", project, form, f"wall-{side}", "outside"), 1)) for side in sides
            )
            self._walls[key] = left + right, bottom + top
        return self._walls[key]

    @property
    def _put_on(self) -> Mapping[_Key, list[tuple[str, Placement]]]:
        if self._placements is None:
            self._placements = {}
            for project in self._kit.projects:
                for placement in project.placements:
                    self._placements.setdefault(_support(project.id, placement), []).append((project.id, placement))
        return self._placements

    def _of_faces(self, blank: Blank) -> tuple[int, int]:
        box = blank.outside
        fronts: list[int] = []
        ends: list[int] = []
        for face in blank.faces:
            if box is None or face.inside or face.size.height != box.height:
                continue
            on_copies = self._on_copies(("face", blank.id, face.id), face.count)
            if face.size.width == box.width:
                fronts.extend(on_copies)
            if face.size.width == box.depth:
                ends.extend(on_copies)
        return sum(sorted(ends)[-2:]), sum(sorted(fronts)[-2:])

    def _on_copies(self, support: _Key, copies: int) -> list[int]:
        """How thick it is on the copies of a support that have most on them: on two at most, in micrometres."""
        several = min(copies, 2)
        each, listed = self._by_copy(support, behind=False)
        common = self._stack(each, 0)
        heights = [common.with_(self._stack(some, 0)).height for some in listed.values()]
        heights.extend([common.height] * max(several - len(listed), 0))
        return sorted(heights)[-several:]

    def _by_copy(
        self, support: _Key, *, behind: bool
    ) -> tuple[list[tuple[str, Placement]], dict[int, list[tuple[str, Placement]]]]:
        """What is put on every copy of a support, and what else on some of them."""
        each: list[tuple[str, Placement]] = []
        listed: dict[int, list[tuple[str, Placement]]] = {}
        for project, placement in self._put_on.get(support, ()):
            if (placement.layer == "behind") != behind:
                continue
            if isinstance(placement.copies, str):
                each.append((project, placement))
                continue
            for copy in placement.copies:
                listed.setdefault(copy.on_copy, []).append((project, placement))
        return each, listed

    def _stack(self, placements: Iterable[tuple[str, Placement]], deep: int) -> _Stack:
        beside = over = 0
        for project, placement in placements:
            thick = self._thickness(project, placement, deep)
            if "overlap" in placement.intends:
                over += thick
            else:
                beside = max(beside, thick)
        return _Stack(beside, over)

    def _thickness(self, project: str, placement: Placement, deep: int) -> int:
        """How thick the thing that is put is, with what is put on it and behind it."""
        put = placement.put
        if put.piece is not None:
            return self._of_paper(self._source(project, put.piece)) + self._upon(("piece", project, put.piece), deep)
        if put.form is not None:
            form = self.forms[project, put.form]
            supports = [("panel", project, form.id, name, "outside") for name in ("base", "panel-1")]
            return _layers(form) * self._of_paper(form) + max(self._upon(support, deep) for support in supports)
        if put.blank is not None:
            return self.blanks[put.blank].thickness_um or 0
        return 0 if put.supply is None else self.supplies[put.supply].thickness_um or 0

    def _upon(self, support: _Key, deep: int) -> int:
        if deep == MOST_DEEP or support not in self._put_on:
            return 0
        if (support, deep) not in self._known:
            # Each layer is looked at once for each depth, however many ways lead there.
            self._known[support, deep] = sum(self._thickest(support, deep + 1, behind) for behind in (False, True))
        return self._known[support, deep]

    def _thickest(self, support: _Key, deep: int, behind: bool) -> int:
        each, listed = self._by_copy(support, behind=behind)
        common = self._stack(each, deep)
        return max((common.with_(self._stack(some, deep)).height for some in listed.values()), default=common.height)

    def _source(self, project: str, name: str) -> Piece:
        """The piece that this one comes out of in the end."""
        piece = self.pieces[project, name]
        for _ in range(MOST_DEEP):
            if piece.from_ is None:
                break
            host, inner, _ = piece.from_.split("/")
            piece = self.pieces[host, inner]
        return piece

    def _of_paper(self, made: Piece | Form) -> int:
        if made.paper is None:
            return 0
        names = (made.paper,) if isinstance(made.paper, str) else made.paper.each
        return max(self.papers[name].caliper_um or 0 for name in names)


def _layers(form: Form) -> int:
    """How many layers of paper lie on each other."""
    if isinstance(form, Concertina):
        return form.panels
    return 3 if isinstance(form, Envelope) else 2 if isinstance(form, Pocket) else 1


def _support(project: str, placement: Placement) -> _Key:
    on = placement.on
    names: tuple[str | None, ...]
    if on.blank is not None:
        names = ("face", on.blank, on.face)
    elif on.piece is not None:
        names = ("piece", project, on.piece)
    else:
        names = ("panel", project, on.form, on.panel, on.skin)
    return tuple(name or "" for name in names)
