"""What there is to spare: which pieces of a print could be cut again from which offcut, and a kit's weakest point."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from frontend.words.numbers import percent
from frontend.words.places import Places
from layouts.document import Kit
from layouts.drawing import Letters, OffcutLetters
from layouts.printed import grid_of, shown
from layouts.proofing.spare_words import spare_sentence, weakest_sentence
from layouts.proofing.weakest import weakest_point

__all__ = ["SparePart", "SpareRow", "SpareWords", "WeakestPart", "weakest_part"]

type Data = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class SpareRow:
    """A piece with the words for where one more could be cut from; `is_lost` where from nowhere."""

    letter: str
    name: str
    anchor: str
    source: str
    is_lost: bool


@dataclass(frozen=True, slots=True)
class SparePart:
    """What is left of a print: a sentence, the share of its pieces that could be cut again, and every piece."""

    sentence: str
    share: str
    rows: tuple[SpareRow, ...]


@dataclass(frozen=True, slots=True)
class WeakestPart:
    """A kit's weakest point as a sentence, and the ids of the piece and the print; none where there is no such."""

    sentence: str
    piece: str
    paper: str


class SpareWords:
    """Words for what is left of the prints of one kit; `offcuts` are the letters of their offcuts."""

    def __init__(self, kit: Kit, offcuts: OffcutLetters) -> None:
        self._unit = kit.unit
        self._offcuts = offcuts
        self._letters = Letters(kit)
        self._places = Places(kit)
        self._step = grid_of(kit, kit.unit)

    def of(self, answer: Data) -> SparePart | None:
        """Return what is left of a print; None where there is no plan, or nothing is known of it."""
        spare = answer.get("spare")
        if not spare:
            return None
        rows = tuple(self._rows(answer))
        again = sum(not row.is_lost for row in rows)
        return SparePart(spare_sentence(spare, self._letters.of), percent(again, len(rows)), rows)

    def _rows(self, answer: Data) -> Iterator[SpareRow]:
        for piece in answer["spare"]["pieces"]:
            place, source = piece["at"], piece["from"]
            words = "nothing that is left" if source is None else self._source(answer, source)
            letter, name = self._letters.of(place), self._places.words(place)
            yield SpareRow(letter, name, self._places.anchor(place), words, source is None)

    def _source(self, answer: Data, source: Data) -> str:
        letter = self._offcuts.of(answer["paper"], source)
        if not letter:
            return f"sheet {source['sheet']}, which is not cut"
        size = " × ".join(shown(source[side], self._unit, self._step) for side in ("width", "height"))
        return f"offcut {letter} of sheet {source['sheet']}, {size} {self._unit}"


def weakest_part(kit: Kit, papers: Sequence[Data]) -> WeakestPart | None:
    """Return the weakest point of a kit; `papers` are those of its proof. None where nothing is known of it."""
    names = Places(kit)
    sentence = weakest_sentence(kit, papers, names.words)
    if not sentence:
        return None
    point = weakest_point(kit, papers)
    if point is None:
        return WeakestPart(sentence, "", "")
    return WeakestPart(sentence, names.anchor(point.place), f"paper:{point.paper}")
