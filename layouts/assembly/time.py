"""How long a kit takes: hands at work, waiting, and the chain of steps that nobody can shorten by helping."""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from layouts.assembly.handling import handled_by_steps
from layouts.assembly.steps import KitSteps
from layouts.document import Kit

__all__ = ["Time", "time_of"]

# How often a step is held against a later one that handles what it glued: kits that people make need some hundreds,
# thousands of steps can be made to need hundreds of millions.
_MOST_LOOKED_AT = 1_000_000


@dataclass(frozen=True, slots=True)
class Time:
    """Seconds at work (None where a step does not state its work) and of waiting; the places of the longest chain of
    steps, and the seconds it takes."""

    hands_on_s: int | None
    waiting_s: int
    critical: tuple[str, ...]
    critical_s: int

    def as_data(self) -> dict[str, Any]:
        """Return the member `time` of a proof."""
        return {"hands_on_s": self.hands_on_s, "waiting_s": self.waiting_s, "critical": list(self.critical)}


def time_of(kit: Kit, steps: KitSteps) -> Time:
    """Return how long the kit takes.

    Work and holding by hand count once for every copy that a project makes; drying and clamped holding count once a
    step, since copies dry side by side.
    """
    stated = all(planned.has_work for planned in steps)
    critical, critical_s = _longest_chain(kit, steps)
    return Time(
        hands_on_s=sum(planned.hands_on_s for planned in steps) if stated else None,
        waiting_s=sum(planned.waiting_s for planned in steps),
        critical=critical,
        critical_s=critical_s,
    )


def _longest_chain(kit: Kit, steps: KitSteps) -> tuple[tuple[str, ...], int]:
    """Return the chain of steps that takes longest, and its seconds; nothing where steps go round in a circle, or
    where so many glue the same thing that it takes too long to look at them.

    A chain leads from a step to one that comes after it, which begins when the first is done, clamps included; or to
    one that comes after it, directly or not, and handles what it glued, which begins when that is dry. It ends when
    its last step's glue is dry. Of chains that take equally long the first in document order, compared step by step,
    without steps at either end that take no time.
    Source: the critical path (Kelley and Walker 1959, from memory) with finish-to-start lags.
    """
    if steps.precedence.circles:
        return (), 0
    network = _Network(kit, steps)
    if network.is_tangled:
        return (), 0
    longest = max(network.tail.values(), default=0)
    if not longest:
        return (), 0
    chain = [next(at for at in network.planned if network.tail[at] == longest and network.takes_part(at))]
    while (following := network.next_on_chain(chain[-1], is_first=len(chain) == 1)) is not None:
        chain.append(following)
    return tuple(chain), longest


class _Network:
    """Steps and the links between them; `tail` is the longest time from the beginning of a step to the end of all."""

    def __init__(self, kit: Kit, steps: KitSteps) -> None:
        self.planned = {planned.place: planned for planned in steps}
        self.position = {place: at for at, place in enumerate(self.planned)}
        self.precedence = steps.precedence
        self.handled = handled_by_steps(kit, steps)
        self.followers: dict[str, list[str]] = {place: [] for place in self.planned}
        for planned in steps:
            for first in planned.after:
                self.followers[first].append(planned.place)
        self.is_tangled = False
        self._looked_at = 0
        self.tail: dict[str, int] = {}
        self._glued = frozenset(thing for one in steps if one.dry_s for thing in self.handled[one.place])
        # For each thing that is glued the later steps that handle it, those with the longest tail last.
        self.handlers: dict[str, list[tuple[int, str]]] = {}
        # For each of these things all steps that come before one of those, one bit each.
        self._before_handlers: dict[str, int] = {}
        for place in reversed(self.precedence.in_turn()):
            self._add(place)
            if self.is_tangled:
                break

    def _add(self, place: str) -> None:
        planned = self.planned[place]
        rest = [planned.dry_s, *(self.tail[then] for then in self.followers[place])]
        if planned.dry_s:
            rest.append(planned.dry_s + max(self._longest_handlers(place), default=0))
        self.tail[place] = planned.active_s + max(rest)
        for thing in self.handled[place] & self._glued:
            insort(self.handlers.setdefault(thing, []), (self.tail[place], place))
            self._before_handlers[thing] = self._before_handlers.get(thing, 0) | self.precedence.before(place)

    def _longest_handlers(self, place: str) -> Iterator[int]:
        """For each thing handled, the longest tail of a step that comes after `place` and handles it too."""
        itself = self.precedence.bit(place)
        for thing in self.handled[place]:
            if not self._before_handlers.get(thing, 0) & itself:
                continue
            for tail, then in reversed(self.handlers[thing]):
                self._looked_at += 1
                if self._looked_at > _MOST_LOOKED_AT:
                    self.is_tangled = True
                    return
                if self.precedence.precedes(place, then):
                    yield tail
                    break

    def takes_part(self, place: str) -> bool:
        """Whether a longest chain that begins with this step owes it any time, in work or in drying."""
        return self.planned[place].active_s > 0 or self._ends_here(place) or any(self._dried_for(place))

    def next_on_chain(self, place: str, *, is_first: bool) -> str | None:
        """Return the step that follows on the longest chain from this one, or None where the chain ends.

        From a first step that takes no time itself the chain goes on by its drying: else it would not take part.
        """
        if self._ends_here(place):
            return None
        rest = self._rest(place)
        following = set(self._dried_for(place))
        if not is_first or self.planned[place].active_s:
            following.update(then for then in self.followers[place] if self.tail[then] == rest)
        return min(following, key=self.position.__getitem__)

    def _rest(self, place: str) -> int:
        return self.tail[place] - self.planned[place].active_s

    def _ends_here(self, place: str) -> bool:
        return self._rest(place) == self.planned[place].dry_s

    def _dried_for(self, place: str) -> Iterator[str]:
        """The steps after this one that wait for its glue and take all the time that is left then."""
        dry = self.planned[place].dry_s
        left = self._rest(place) - dry
        if not dry or not left:
            return
        for thing in self.handled[place]:
            handlers = self.handlers[thing]
            for at in range(bisect_left(handlers, (left, "")), len(handlers)):
                tail, then = handlers[at]
                if tail > left:
                    break
                if self.precedence.precedes(place, then):
                    yield then
