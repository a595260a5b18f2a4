"""One print for which ways are looked for, with all that is known of the kit by then."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from layouts.document import Paper, Piece, Project, piece_place
from layouts.lengths import Length
from layouts.proofing.mends.hidden import Hidden
from layouts.proofing.plans import PrintAnswer
from layouts.proofing.prints import Want, printed_step

__all__ = ["Candidate", "Case"]


@dataclass(frozen=True, slots=True)
class Candidate:
    """A piece that is cut from the print, and what is asked of the print for it."""

    project: Project
    piece: Piece
    want: Want

    @property
    def place(self) -> str:
        return self.want.place

    @property
    def copies(self) -> int:
        return self.project.makes * self.piece.count

    @property
    def area(self) -> int:
        """Of one copy, in square ticks."""
        return self.want.width * self.want.height

    @property
    def name(self) -> str:
        """What people call it inside a sentence: its letter and name."""
        id_, name = self.piece.id, self.piece.name.strip()
        return id_ if not name or name.casefold() == id_.casefold() else f"{id_}, {name},"

    @property
    def called(self) -> str:
        """The same where a sentence goes on without it."""
        return self.name.removesuffix(",")


class Case:
    """A print that is to suffice, or to do with less; `pieces` are those to be changed, the largest first.

    `answers` are those of all prints of the kit, `hidden` what of its pieces nobody sees.
    """

    def __init__(self, hidden: Hidden, answer: PrintAnswer, answers: Sequence[PrintAnswer], most: int) -> None:
        self.kit, self.hidden, self.answer, self.answers = hidden.kit, hidden, answer, tuple(answers)
        self.pieces = tuple(self._suspects())[:most]

    @cached_property
    def paper(self) -> Paper:
        return next(paper for paper in self.kit.papers if paper.id == self.answer.part.paper)

    @cached_property
    def step(self) -> Length:
        """The printed step of the kit."""
        return printed_step(self.kit)

    @cached_property
    def made(self) -> dict[str, tuple[Project, Piece]]:
        """All pieces of the kit, by their places."""
        return {
            piece_place(project.id, piece.id): (project, piece)
            for project in self.kit.projects
            for piece in project.pieces
        }

    @cached_property
    def direct(self) -> tuple[Candidate, ...]:
        """The pieces that are cut from sheets of this print, and from no other as well; in document order."""
        return tuple(
            Candidate(*self.made[want.place], want)
            for want in self.answer.part.direct
            if want.place in self.made and isinstance(self.made[want.place][1].paper, str)
        )

    def _suspects(self) -> Iterator[Candidate]:
        """Where the print is short, the pieces among the culprits: of a smallest set that does not fit, something must
        give. Else all of them, those that take the most paper first."""
        if self.answer.verdict != "short":
            yield from sorted(self.direct, key=lambda one: -one.area * one.copies)
        elif self.answer.culprits is not None:
            wants = {want.place: want for want in self.answer.part.direct}
            guilty = [place for place, _ in self.answer.culprits.copies if place in self.made]
            found = [Candidate(*self.made[place], wants[place]) for place in guilty]
            yield from sorted(found, key=lambda one: -one.area)
