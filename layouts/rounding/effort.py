"""How much work may go into one rounding, counted in steps and never in seconds."""

from __future__ import annotations

from layouts.errors import KitproofError

__all__ = ["Effort", "Exhausted"]


class Exhausted(KitproofError):
    """A system was not decided within its steps; whoever asked does with less."""

    code = "rounding-exhausted"


class Effort:
    """Steps that may be spent, on account of a larger effort if there is one. One step is one look at one term."""

    def __init__(self, steps: int, of: Effort | None = None) -> None:
        self._steps = steps
        self._of = of
        self.spent = 0

    @property
    def left(self) -> int:
        own = self._steps - self.spent
        return own if self._of is None else min(own, self._of.left)

    def spend(self, steps: int) -> None:
        """Raises: Exhausted when there are not as many left; what was asked for is then not begun."""
        if steps > self.left:
            raise Exhausted("the figures hang together in too many ways")
        effort: Effort | None = self
        while effort is not None:
            effort.spent += steps
            effort = effort._of
