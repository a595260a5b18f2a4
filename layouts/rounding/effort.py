"""How much work may go into one rounding, counted in steps and never in seconds."""

from __future__ import annotations

from layouts.errors import KitproofError

__all__ = ["Effort", "Exhausted"]


class Exhausted(KitproofError):
    """A system was not decided within its steps; whoever asked does with less."""

    code = "rounding-exhausted"


class Effort:
    """Steps that are left. One step is one look at one equation, or what costs as much."""

    def __init__(self, steps: int) -> None:
        self._left = steps

    @property
    def left(self) -> int:
        return self._left

    def spend(self, steps: int) -> None:
        """Raises: Exhausted when there are not as many left; what was asked for is then not begun."""
        if steps > self._left:
            self._left = 0
            raise Exhausted("the figures hang together in too many ways")
        self._left -= steps

    def part(self, most: int) -> Effort:
        """Return an effort of its own of at most so many of these steps; `settle` takes off what it has used."""
        return Effort(min(most, self._left))

    def settle(self, part: Effort, most: int) -> None:
        """Take off what a part of at most `most` steps has used."""
        self._left = max(0, self._left - (min(most, self._left) - part.left))
