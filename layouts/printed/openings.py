"""Sums of pieces: margins and opening against the whole, and what is cut larger for a decorative edge."""

from __future__ import annotations

from collections.abc import Iterator

from layouts.document import Kit, Opening, Size, piece_place
from layouts.printed.sums import PrintedSum, Summed
from layouts.shapes import resolve
from layouts.shapes.cut_sizes import bites, cut_size, finished_size

__all__ = ["cut_sums", "opening_sums"]

_AXES = (("left", "width", "right", "width"), ("bottom", "height", "top", "height"))


def opening_sums(kit: Kit) -> Iterator[Summed]:
    """Yield both axes of every window and of every opening of a face."""
    for project in kit.projects:
        for piece in project.pieces:
            place = piece_place(project.id, piece.id)
            for window in piece.windows:
                yield from _across(f"{place}/window:{window.id}", window, place, piece.size)
    for blank in kit.blanks:
        for face in blank.faces:
            if face.opening is not None:
                place = f"blank:{blank.id}/face:{face.id}"
                yield from _across(f"{place}/opening", face.opening, place, face.size)


def cut_sums(kit: Kit) -> Iterator[Summed]:
    """Yield, for pieces with edges that are bitten away, the finished size and the bites against the size to cut."""
    tools = {tool.id: tool for tool in kit.tools}
    for project in kit.projects:
        for piece in project.pieces:
            taken = bites(piece, tools)
            place = piece_place(project.id, piece.id)
            cut, finished = cut_size(piece, tools), finished_size(piece, tools)
            edges = piece.edges
            for side, ends, bite in (
                ("width", (edges.left, edges.right), taken.left + taken.right),
                ("height", (edges.bottom, edges.top), taken.bottom + taken.top),
            ):
                if not bite:
                    continue
                stated, derived = ("size", "cut") if piece.size_is == "finished" else ("finished", "size")
                named = {"cut": f"{place}/{derived}/{side}", "finished": f"{place}/{stated}/{side}"}
                parts = [(1, named["finished"])]
                parts += [(1, f"tool:{end}/bite") for end in ends if end is not None and tools[end].bite]
                yield Summed(
                    PrintedSum(tuple(parts), named["cut"], f"{place}/size/{side}"),
                    {named["cut"]: getattr(cut, side).ticks, named["finished"]: getattr(finished, side).ticks},
                )


def _across(place: str, opening: Opening, whole: str, size: Size) -> Iterator[Summed]:
    aperture = resolve(opening, size)
    for low, span, high, side in _AXES:
        names = (low, span, high)
        derived = {f"{place}/{name}": getattr(aperture, name).ticks for name in names}
        total = f"{whole}/size/{side}"
        yield Summed(PrintedSum(tuple((1, f"{place}/{name}") for name in names), total, total), derived)
