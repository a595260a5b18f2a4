"""Steps as a network: which must be done before which, and how long after."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from layouts.assembly.handling import handled_by_steps
from layouts.assembly.precedence import Precedence
from layouts.assembly.steps import KitSteps, PlannedStep
from layouts.document import Kit

__all__ = ["Link", "Network", "network_of"]

# How many pairs of a step and an earlier one that glued the same thing are looked at. Kits that people make have some
# hundreds; thousands of steps can be made to have hundreds of millions.
_MOST_PAIRS = 200_000


@dataclass(frozen=True, slots=True)
class Link:
    """`then` begins no earlier than `lag_s` seconds after `first` is done, clamps included."""

    first: str
    then: str
    lag_s: int
    reason: Literal["after", "drying", "cut-out"]


@dataclass(frozen=True, slots=True)
class Network:
    """The steps of a kit by place, each after all that it is linked to, and the links into and out of each."""

    planned: dict[str, PlannedStep]
    into: Mapping[str, tuple[Link, ...]]
    out_of: Mapping[str, tuple[Link, ...]]

    def earliest(self) -> dict[str, int]:
        """Return when each step can begin at the earliest, in seconds, if there are hands for everything."""
        starts: dict[str, int] = {}
        for place in self.planned:
            starts[place] = max((self.ready(link, starts[link.first]) for link in self.into[place]), default=0)
        return starts

    def ready(self, link: Link, start: int) -> int:
        """Return when a link lets the later step begin, where the earlier one begins at `start`."""
        return start + self.planned[link.first].active_s + link.lag_s

    def tails(self) -> dict[str, int]:
        """Return for each step the least time from its beginning until the whole kit is made and dry, in seconds."""
        tails: dict[str, int] = {}
        for place in reversed(self.planned):
            planned = self.planned[place]
            rest = max((link.lag_s + tails[link.then] for link in self.out_of[place]), default=0)
            tails[place] = planned.active_s + max(planned.dry_s, rest)
        return tails


def network_of(kit: Kit, steps: KitSteps) -> Network | None:
    """Return the network of a kit, or None where steps go round in a circle or are tangled beyond measure.

    Links are what a step says, or by custom has, as `after`; drying, to every step that comes after and handles what
    was glued, less the links that follow from others; and cut-outs: what is cut out of a kept window comes after the
    steps that cut the piece with the window. A cut-out that contradicts `after` is left out: another rule tells that.
    """
    if steps.precedence.circles:
        return None
    planned = {one.place: one for one in steps}
    before = {place: list(one.after) for place, one in planned.items()}
    cut_outs = list(_cut_outs(kit, steps))
    for link in cut_outs:
        before[link.then].append(link.first)
    both = Precedence(tuple(planned), before)
    if both.circles:
        cut_outs, both = [], steps.precedence
    in_turn = both.in_turn_by(lambda place: 0)
    drying = _drying(kit, steps, in_turn)
    if drying is None:
        return None
    after = [Link(first, place, 0, "after") for place, one in planned.items() for first in one.after]
    into: dict[str, list[Link]] = {place: [] for place in in_turn}
    out_of: dict[str, list[Link]] = {place: [] for place in in_turn}
    for link in (*after, *drying, *cut_outs):
        into[link.then].append(link)
        out_of[link.first].append(link)
    return Network(
        {place: planned[place] for place in in_turn},
        {place: tuple(links) for place, links in into.items()},
        {place: tuple(links) for place, links in out_of.items()},
    )


def _cut_outs(kit: Kit, steps: KitSteps) -> Iterator[Link]:
    """A link from every step that cuts a piece with a kept window to every step that cuts a piece out of that."""
    cut_by: dict[str, list[str]] = {}
    for planned in steps:
        for name in dict.fromkeys(planned.step.cut):
            cut_by.setdefault(f"{planned.project.id}/{name}", []).append(planned.place)
    for project in kit.projects:
        for piece in project.pieces:
            hosts = cut_by.get(piece.from_.rpartition("/")[0], []) if piece.from_ else []
            guests = cut_by.get(f"{project.id}/{piece.id}", [])
            # Several steps seldom cut one piece: the first and the last stand for a crowd.
            for first in dict.fromkeys([*hosts[:1], *hosts[-1:]]):
                for then in dict.fromkeys([*guests[:1], *guests[-1:]]):
                    if first != then and not steps.precedence.precedes(then, first):
                        yield Link(first, then, 0, "cut-out")


def _drying(kit: Kit, steps: KitSteps, in_turn: tuple[str, ...]) -> list[Link] | None:
    """The links by which glue delays later steps, or None where there are too many pairs to look at.

    Where a step between two others handles the same thing, the first delays that one, and the last comes after it:
    only the nearest handlers before a step matter. A drying that delays nothing else delays the end of the kit.
    """
    handled = handled_by_steps(kit, steps)
    planned = {one.place: one for one in steps}
    order = Precedence(in_turn, {place: planned[place].after for place in in_turn})
    handlers: dict[str, int] = {}
    glued: set[str] = set()
    links: dict[tuple[str, str], Link] = {}
    pairs = 0
    for then in in_turn:
        earlier = order.before(then)
        for thing in sorted(handled[then]):
            # Bits stand in turn, so that the highest of a set is a handler that no other of the set comes after.
            rest = earlier & handlers.get(thing, 0) if thing in glued else 0
            while rest:
                pairs += 1
                if pairs > _MOST_PAIRS:
                    return None
                first = in_turn[rest.bit_length() - 1]
                dry_s = planned[first].dry_s
                if dry_s:
                    links[first, then] = Link(first, then, dry_s, "drying")
                rest &= ~(order.before(first) | order.bit(first))
        for thing in handled[then]:
            handlers[thing] = handlers.get(thing, 0) | order.bit(then)
            if planned[then].dry_s:
                glued.add(thing)
    return list(links.values())
