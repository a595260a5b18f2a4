"""Offcuts that a piece could be cut again from: by which letters they are called, and their marks on a sheet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain, count
from typing import Any

from layouts.document import Kit
from layouts.drawing.lettering import Label, text_width
from layouts.drawing.svg import GRAPHITE, INK, PAPER, Box, Drawing
from layouts.lengths import TICKS_PER_MM

__all__ = ["Mark", "OffcutLetters", "mark_boxes", "mark_sheet"]

type Data = Mapping[str, Any]

# From the end of the alphabet: pieces are mostly called by its beginning. I and O would be read as numbers of cuts.
_LETTERS = "ZYXWVUTSRQPNMLKJHGFEDCBA"
# In lines (`unit`): how small the letter of a mark may get in a narrow offcut.
_LEAST = 5


@dataclass(frozen=True, slots=True)
class Mark:
    """The area of an offcut, in ticks from the lower left of its sheet as the sheet is seen, and its letter."""

    letter: str
    box: Box

    def seen_from_behind(self, width: int) -> Mark:
        """Return the mark on the sheet turned like a page; `width` is that of the sheet."""
        box = self.box
        return Mark(self.letter, Box(width - box.x - box.width, box.y, box.width, box.height))


class OffcutLetters:
    """The letters of those offcuts of a kit that a piece could be cut again from, by their sheets.

    `papers` are prints as a proof holds them, each with its `plan` and its `spare`. A letter by which a piece or a form
    is called is no offcut's; a sheet that is not touched needs none.
    """

    def __init__(self, kit: Kit, papers: Iterable[Data]) -> None:
        free = _free_letters(kit)
        self._letters: dict[tuple[str, int, Box], str] = {}
        for answer in papers:
            for sheet, box in sorted(set(_sources(answer)), key=lambda one: (one[0], one[1].x, one[1].y)):
                self._letters[answer["paper"], sheet, box] = next(free)

    def of(self, paper: str, source: Data) -> str:
        """Return the letter of a source as a proof holds it; nothing for a sheet that is not touched."""
        return self._letters.get((paper, source["sheet"], _box(source)), "")

    def on(self, paper: str, sheet: int) -> tuple[Mark, ...]:
        """Return the marks of a sheet, its front up."""
        return tuple(Mark(letter, box) for (of, on, box), letter in self._letters.items() if (of, on) == (paper, sheet))


def mark_boxes(marks: Sequence[Mark], taken: Sequence[Box], unit: int, lines: int = 8) -> list[Box]:
    """Return what marks take with their letters, each where nothing of what is `taken` stands, if that can be."""
    return [_disc(label) for label in _labels(marks, taken, unit, lines)]


def mark_sheet(drawing: Drawing, marks: Sequence[Mark], taken: Sequence[Box], unit: int, lines: int = 8) -> None:
    """Hatch marked offcuts both ways, and write the letter of each on a white disc; `unit` is the thickness of a line,
    and a letter is so many `lines` high where there is room.

    Draw it over the sheet, under all that is written.
    """
    if not marks:
        return
    both_ways = drawing.hatching(
        apart=4 * unit, stroke=GRAPHITE, width=unit // 2, texture="crossed", called="cut-again"
    )
    line = str(max(1, unit * 10 // TICKS_PER_MM))
    for mark in marks:
        drawing.box(mark.box, fill=PAPER, stroke="none")
        drawing.box(mark.box, fill=both_ways, stroke=INK, stroke_width=line)
    for label in _labels(marks, taken, unit, lines):
        disc = _disc(label)
        radius = disc.width // 2
        drawing.circle(disc.x + radius, disc.y + radius, radius, fill=PAPER, stroke=INK, stroke_width=line)
        label.draw(drawing)


def _disc(label: Label) -> Box:
    """The square around the disc behind a letter."""
    box = label.box
    radius = max(box.width, box.height) * 5 // 8
    # The middle of a capital: it is seven tenths of the type high, above its baseline.
    x, y = label.x, label.y + label.size * 7 // 20
    return Box(x - radius, y - radius, 2 * radius, 2 * radius)


def _labels(marks: Sequence[Mark], taken: Sequence[Box], unit: int, lines: int) -> Iterator[Label]:
    most = lines * unit
    for mark in marks:
        box = mark.box
        widest = box.width * 2 // 3 * most // max(1, text_width(mark.letter, most))
        size = max(_LEAST * unit, min(most, box.height * 2 // 3, widest))
        spots = [_label(mark, size, eighths) for eighths in (4, 6, 2, 7, 1)]
        yield next((one for one in spots if not any(_disc(one).overlaps(other) for other in taken)), spots[0])


def _label(mark: Mark, size: int, eighths: int) -> Label:
    """The letter of a mark, so many eighths along the longer side of its area."""
    box = mark.box
    along, across = (eighths, 4) if box.width > box.height else (4, eighths)
    middle, level = box.x + box.width * along // 8, box.y + box.height * across // 8
    return Label(mark.letter, middle, level - size * 7 // 20, size, middle=True)


def _sources(answer: Data) -> Iterator[tuple[int, Box]]:
    for piece in (answer.get("spare") or {}).get("pieces", ()):
        source = piece["from"]
        if source is not None and source["sheet"] <= len(answer["plan"]):
            yield source["sheet"], _box(source)


def _box(source: Data) -> Box:
    return Box(source["x"], source["y"], source["width"], source["height"])


def _free_letters(kit: Kit) -> Iterator[str]:
    """The letters from the last to the first, then each with a number: those that nothing else is called by."""
    things = (thing for project in kit.projects for thing in (*project.pieces, *project.forms))
    used = {thing.id.casefold() for thing in things}
    numbered = (f"{letter}{number}" for number in count(2) for letter in _LETTERS)
    return (letter for letter in chain(_LETTERS, numbered) if letter.casefold() not in used)
