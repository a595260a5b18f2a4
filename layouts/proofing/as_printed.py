"""The sheets as they are printed, each system a document of its own: whether what they say to cut comes out of the box.

Shown sizes differ from the exact ones by less than a printed step, and a list that just fits may fit no more. Then the
figures are rounded again with some of them held down, so that it fits wherever any choice does.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from layouts.document import Kit, Piece, Size, piece_place
from layouts.document.places import with_lengths
from layouts.lengths import Length, System
from layouts.printed import Printing, ShownFigures
from layouts.proofing.plans import PrintAnswer
from layouts.proofing.prints import KeptWindow, PrintPart, Want, kept_window
from layouts.proofing.resized import resized
from layouts.shapes import NotBuilt

__all__ = ["MOST_HELD", "MOST_TRIES", "AsPrinted", "AsPrintedSearch"]

# Sizes on one print that may be held down for it, in document order, and how many of them are tried one at a time
# before all are taken at once.
MOST_HELD = 24
MOST_TRIES = 6
# Figures rounded in all these tries together, for all prints: a large kit of many prints has fewer tries for each.
_MOST_ROUNDED = 400_000

_SYSTEMS: tuple[System, ...] = ("in", "mm")

type Answers = Mapping[str, PrintAnswer]


@dataclass(frozen=True, slots=True)
class AsPrinted:
    """The kit as printed in one system: its figures, and the answers for the prints that differ from the exact ones.

    Only prints that suffice exactly are asked for. An answer may be `short` or `unknown`: no choice of figures helps.
    """

    shown: ShownFigures
    answers: tuple[PrintAnswer, ...]


class AsPrintedSearch:
    """Finds the figures of one kit and asks what must be known for it. What it asks follows from the kit and from the
    answers alone, whoever gives them, and in whatever order.

    With no `most_tries`, as few as possible are asked: whether a print suffices is known then as well, but more figures
    may be held down than need be.
    """

    def __init__(self, kit: Kit, parts: Sequence[PrintPart], printing: Printing, most_tries: int = MOST_TRIES) -> None:
        self._parts = parts
        self._most_tries = most_tries
        self._keys = [part.key for part in parts]
        self._printing = printing
        self._pieces: dict[str, Piece] = {
            piece_place(project.id, piece.id): piece for project in kit.projects for piece in project.pieces
        }
        self._looks: dict[tuple[System, tuple[str, ...]], _Look] = {}
        self._steps: dict[tuple[System, tuple[str, ...], int], list[tuple[str, ...]]] = {}
        self._resized: dict[tuple[int, tuple[Want, ...]], PrintAnswer | None] = {}
        self._most_held = min(MOST_HELD, _MOST_ROUNDED // max(1, len(printing.exact) * len(parts)))

    def open(self, answers: Answers) -> tuple[PrintPart, ...]:
        """Return the parts to be answered next; empty once all is known, or waits for exact answers."""
        asked: dict[str, PrintPart] = {}
        if not any(key in answers for key in self._keys):
            return ()  # so that the exact prints are begun before any figure is rounded
        for system in _SYSTEMS:
            found = self._search(system, answers)
            if not isinstance(found, AsPrinted):
                asked.update((part.key, part) for part in found)
        return tuple(asked.values())

    def found(self, system: System, answers: Answers) -> AsPrinted:
        """Return the kit as printed in one system, as far as it is answered: wholly once nothing is open."""
        found = self._search(system, answers)
        if isinstance(found, AsPrinted):
            return found
        look = self._look(system, ())
        return AsPrinted(look.shown, tuple(self._answers(look, answers)))

    def both(self, answers: Answers) -> dict[System, AsPrinted]:
        return {system: self.found(system, answers) for system in _SYSTEMS}

    def _search(self, system: System, answers: Answers) -> AsPrinted | tuple[PrintPart, ...]:
        """The figures in one system, or what must be answered first."""
        if any(key not in answers for key in self._keys):
            # What can be asked already is asked; nothing is decided before all prints are known.
            return tuple(self._unanswered(self._look(system, ()), answers))
        held: tuple[str, ...] = ()
        helped: set[int] = set()
        while True:
            look = self._look(system, held)
            waiting = tuple(self._unanswered(look, answers))
            if waiting:
                return waiting
            bad = next((n for n in look.parts if n not in helped and not self._fits(look, n, answers)), None)
            if bad is None:
                return AsPrinted(look.shown, tuple(self._answers(look, answers)))
            helped.add(bad)
            help_ = self._help(system, held, bad, answers)
            if isinstance(help_, _Asks):
                return help_.parts
            held = help_

    def _help(self, system: System, held: tuple[str, ...], number: int, answers: Answers) -> tuple[str, ...] | _Asks:
        """Which figures to hold down so that a print fits: what is held already where nothing helps, or what to ask.

        All that can be held down is tried first: if that does not do, nothing does. Then one more at a time, in
        document order; a figure whose holding down would break a sum is passed over.
        """
        key = (system, held, number)
        if key not in self._steps:
            self._steps[key] = list(self._further(system, held, number))
        steps = self._steps[key]
        if not steps:
            return held
        for tried in (steps[-1], *steps[: min(self._most_tries, len(steps) - 1)]):
            look = self._look(system, tried)
            part = look.parts.get(number)
            if part is not None and self._answer(look, number, answers) is None:
                return _Asks((part,))
            fits = part is None or self._fits(look, number, answers)
            if tried is steps[-1] and not fits:
                return held
            if tried is not steps[-1] and fits:
                return tried
        return steps[-1]

    def _further(self, system: System, held: tuple[str, ...], number: int) -> Iterator[tuple[str, ...]]:
        """Yield ever more figures to hold down: those of the sizes on a print that are shown larger than they are."""
        shown = self._look(system, held).shown
        broken = set(shown.broken)
        places = dict.fromkeys(place for want in self._parts[number].wants for place in self._sources(want))
        for place in list(places)[: self._most_held]:
            if shown.by_place[place] <= self._printing.exact[place] or not self._printing.may_be_lowered(system, place):
                continue
            more = (*held, place)
            lowered = self._printing.shown(system, more)
            if lowered.by_place[place] < self._printing.exact[place] and broken.issuperset(lowered.broken):
                held = more
                yield held

    def _look(self, system: System, held: tuple[str, ...]) -> _Look:
        if (system, held) not in self._looks:
            shown = self._printing.shown(system, held)
            parts = {}
            for number, part in enumerate(self._parts):
                wants = tuple(self._as_shown(want, shown) for want in part.wants)
                if wants != part.wants:
                    parts[number] = replace(part, wants=wants, tighter=part.sheet, tighter_slack=part.slack)
            self._looks[system, held] = _Look(shown, parts)
        return self._looks[system, held]

    def _as_shown(self, want: Want, shown: ShownFigures) -> Want:
        width, height = (
            shown.by_place.get(place, exact) if self._printing.exact.get(place) == exact else exact
            for place, exact in zip(self._sources(want), (want.width, want.height), strict=True)
        )
        windows = tuple(self._window(want.place, window, shown) for window in want.windows)
        return replace(want, width=width, height=height, windows=windows)

    def _window(self, place: str, kept: KeptWindow, shown: ShownFigures) -> KeptWindow:
        """What a window of the shown measures offers."""
        piece = self._pieces[place]

        def change(at: str, length: Length) -> Length:
            return Length(shown.by_place.get(at, length.ticks), length.system)

        window = with_lengths(
            next(one for one in piece.windows if one.id == kept.id), change, f"{place}/window:{kept.id}"
        )
        size = Size(*(change(f"{place}/size/{side}", getattr(piece.size, side)) for side in ("width", "height")))
        try:
            return kept_window(window, size)
        except NotBuilt:
            return kept

    def _sources(self, want: Want) -> tuple[str, str]:
        """The places of the figures that a want's width and height are: the size to cut of a piece, or a flat size."""
        exact = self._printing.exact

        def source(side: str) -> str:
            names = (f"{want.place}/{kind}/{side}" for kind in ("cut", "flat", "size"))
            return next((name for name in names if name in exact), "")

        return source("width"), source("height")

    def _unanswered(self, look: _Look, answers: Answers) -> Iterator[PrintPart]:
        for number, part in look.parts.items():
            if self._is_asked(number, answers) and self._answer(look, number, answers) is None:
                yield part

    def _is_asked(self, number: int, answers: Answers) -> bool:
        exact = answers.get(self._keys[number])
        return exact is not None and exact.verdict == "fits"

    def _answers(self, look: _Look, answers: Answers) -> Iterator[PrintAnswer]:
        for number in look.parts:
            answer = self._answer(look, number, answers) if self._is_asked(number, answers) else None
            if answer is not None:
                yield answer

    def _fits(self, look: _Look, number: int, answers: Answers) -> bool:
        """Whether everything that comes out exactly comes out as printed; what is not asked for is no matter here."""
        if not self._is_asked(number, answers):
            return True
        answer = self._answer(look, number, answers)
        return answer is not None and is_as_good(answer, answers[self._keys[number]])

    def _answer(self, look: _Look, number: int, answers: Answers) -> PrintAnswer | None:
        """The answer for one print as printed: by the exact plan where that does, else as it was given."""
        part = look.parts[number]
        key = (number, part.wants)  # most prints are the same whatever is held down for another
        if key not in self._resized:
            self._resized[key] = resized(answers[self._keys[number]], part)
        plain = self._resized[key]
        if plain is not None:
            return replace(plain, part=part)
        given = answers.get(look.key(number))
        return None if given is None else replace(given, part=part)


def is_as_good(answer: PrintAnswer, exact: PrintAnswer) -> bool:
    """Whether a print yields as printed what it yields exactly, out of its windows too."""
    refused = {place for one in exact.refused for place in one.pieces}
    return answer.verdict == "fits" and refused.issuperset(place for one in answer.refused for place in one.pieces)


@dataclass(frozen=True, slots=True)
class _Look:
    """Figures with some of them held down, and the prints whose sizes then differ from the exact ones, by number."""

    shown: ShownFigures
    parts: Mapping[int, PrintPart]
    _keys: dict[int, str] = field(default_factory=dict)

    def key(self, number: int) -> str:
        if number not in self._keys:
            self._keys[number] = self.parts[number].key
        return self._keys[number]


@dataclass(frozen=True, slots=True)
class _Asks:
    parts: tuple[PrintPart, ...]
