"""One pair of hands: in which order one person best makes everything, and what they do while glue dries."""

from __future__ import annotations

import heapq
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from layouts.assembly.network import Network, network_of
from layouts.assembly.order import Order
from layouts.assembly.precedence import Precedence
from layouts.assembly.schedule import Bar, bars_of
from layouts.assembly.steps import KitSteps
from layouts.document import Kit

__all__ = ["OnePerson", "Wait", "one_person", "waits_of"]

# How many steps are named for one wait, and how many later steps are looked at for them: all for all would be the
# square of a long list, and nobody does more in the half hour that glue takes.
_MOST_NAMED = 12
_MOST_LOOKED_AT = 200


@dataclass(frozen=True, slots=True)
class OnePerson:
    """How one person makes a kit: steps in the order of their beginning, bars, and the seconds until all is dry.

    `bound_s`: no order of the same steps takes one person less. `waited_s` is how long the hands have nothing to do
    before the last step is out of them.
    """

    order: tuple[str, ...]
    bars: tuple[Bar, ...]
    length_s: int
    bound_s: int
    waited_s: int

    @property
    def gap_s(self) -> int:
        """By how many seconds at most a better order would be quicker; 0 proves that there is none."""
        return self.length_s - self.bound_s


@dataclass(frozen=True, slots=True)
class Wait:
    """Clamps or glue of one step, for a reader who takes projects and steps in the order of making.

    Times are seconds on that reader's clock, who does nothing meanwhile. `meanwhile` are later steps, of this or of
    another project, in the order in which one pair of hands can do them all within the wait; `begin` is one more that
    can be begun after them but takes longer, if there is one.
    """

    place: str
    kind: Literal["clamp", "dry"]
    start_s: int
    end_s: int
    meanwhile: tuple[str, ...]
    begin: str | None


def one_person(kit: Kit, steps: KitSteps) -> OnePerson | None:
    """Return how one person makes everything, waits used, or None where there is no network (see `network_of`).

    Whenever the hands are free, of the steps that can be begun the most urgent is begun, of several the first in
    document order; a step once begun is not left. Urgent is what has the longest time from its beginning to the end of
    the kit or, if the kit is done sooner so, from when it is out of the hands. This is no proof of the best order;
    `gap_s` says how far it can be from it.
    Source: list scheduling by the longest tail, from memory; the bound is that of `_bound`.
    """
    network = network_of(kit, steps)
    if network is None:
        return None
    tails = network.tails()
    behind = {place: tail - network.planned[place].hands_on_s for place, tail in tails.items()}
    position = {one.place: at for at, one in enumerate(steps)}
    tried = [_by_urgency(network, urgency, position) for urgency in (tails, behind)]
    starts = min(tried, key=lambda starts: _done(network, starts))
    bars = (bar for place, start in starts.items() for bar in bars_of(network.planned[place], start))
    hands = sum(planned.hands_on_s for planned in network.planned.values())
    busy_until = max((start + network.planned[place].hands_on_s for place, start in starts.items()), default=0)
    return OnePerson(
        order=tuple(starts),
        bars=tuple(bars),
        length_s=_done(network, starts),
        bound_s=_bound(network, behind),
        waited_s=busy_until - hands,
    )


def waits_of(kit: Kit, steps: KitSteps, order: Order) -> tuple[Wait, ...]:
    """Return every wait of a kit in the order of making, none where there is no network (see `network_of`).

    A step can be done meanwhile if all that must come before it is done, and nothing that it handles is still in
    clamps or drying. A step that states no work counts as one that takes no time.
    """
    network = network_of(kit, steps)
    if network is None:
        return ()
    reading = _reading_order(network, order)
    clock = _in_order(network, reading)
    found: list[Wait] = []
    for at, place in enumerate(reading):
        planned = network.planned[place]
        in_hands = clock[place] + planned.hands_on_s
        if planned.clamped_s:
            found.append(_wait(place, "clamp", in_hands, planned.clamped_s, network, reading, at, clock))
        if planned.dry_s:
            released = in_hands + planned.clamped_s
            found.append(_wait(place, "dry", released, planned.dry_s, network, reading, at, clock))
    return tuple(found)


def _wait(
    place: str,
    kind: Literal["clamp", "dry"],
    start: int,
    span: int,
    network: Network,
    reading: Sequence[str],
    at: int,
    clock: Mapping[str, int],
) -> Wait:
    now, end = start, start + span
    begun: dict[str, int] = {}
    meanwhile: list[str] = []
    begin = None
    for later in reading[at + 1 : at + 1 + _MOST_LOOKED_AT]:
        if len(meanwhile) == _MOST_NAMED or now >= end:
            break
        ready = _ready(later, network, clock, begun, clock[place])
        if ready is None or ready > now:
            continue
        hands = network.planned[later].hands_on_s
        if now + hands <= end:
            meanwhile.append(later)
            begun[later] = now
            now += hands
        elif begin is None:
            begin = later
    return Wait(place, kind, start, end, tuple(meanwhile), begin if now < end else None)


def _ready(
    place: str, network: Network, clock: Mapping[str, int], meanwhile: Mapping[str, int], here: int
) -> int | None:
    """Return when a step can begin, or None where something before it is neither done by now nor done meanwhile."""
    ready = 0
    for link in network.into[place]:
        start = meanwhile.get(link.first, clock[link.first])
        if link.first not in meanwhile and start > here:
            return None
        ready = max(ready, network.ready(link, start))
    return ready


def _reading_order(network: Network, order: Order) -> tuple[str, ...]:
    """All steps as they are made: project by project, within one each after what must come before it."""
    projects = {project: at for at, project in enumerate(order.projects or ())}
    before = {place: [link.first for link in links] for place, links in network.into.items()}
    rank = {place: projects.get(planned.project.id, 0) for place, planned in network.planned.items()}
    return Precedence(tuple(network.planned), before).in_turn_by(rank.__getitem__)


def _in_order(network: Network, reading: Sequence[str]) -> dict[str, int]:
    """When each step begins for a reader who does one after the other and sits out every wait that is in the way."""
    starts: dict[str, int] = {}
    free = 0
    for place in reading:
        ready = max((network.ready(link, starts[link.first]) for link in network.into[place]), default=0)
        starts[place] = max(free, ready)
        free = starts[place] + network.planned[place].hands_on_s
    return starts


def _done(network: Network, starts: Mapping[str, int]) -> int:
    """When everything is made and dry."""
    ends = (start + network.planned[place].active_s + network.planned[place].dry_s for place, start in starts.items())
    return max(ends, default=0)


def _by_urgency(network: Network, urgency: Mapping[str, int], position: Mapping[str, int]) -> dict[str, int]:
    """Return when each step begins, in the order of their beginning."""
    ready = dict.fromkeys(network.planned, 0)
    missing = {place: len(links) for place, links in network.into.items()}
    later = [(0, position[place], place) for place, links in missing.items() if not links]
    heapq.heapify(later)
    now: list[tuple[int, int, str]] = []
    starts: dict[str, int] = {}
    free = 0
    while later or now:
        while later and later[0][0] <= free:
            _, at, place = heapq.heappop(later)
            heapq.heappush(now, (-urgency[place], at, place))
        if not now:
            free = later[0][0]
            continue
        _, _, place = heapq.heappop(now)
        starts[place] = free
        for link in network.out_of[place]:
            ready[link.then] = max(ready[link.then], network.ready(link, free))
            missing[link.then] -= 1
            if not missing[link.then]:
                heapq.heappush(later, (ready[link.then], position[link.then], link.then))
        free += network.planned[place].hands_on_s
    return starts


def _bound(network: Network, behind: Mapping[str, int]) -> int:
    """Return how long one person needs at least; `behind` is what must follow each step once it is out of the hands.

    Each step has a head (when it can begin at the earliest), hands, and what must follow when it is out of them. Were
    a person free to leave a step for one with more behind it and to come back, always doing the most urgent would be
    the best; who may not leave a step is no quicker.
    Source: Jackson's preemptive schedule for one machine with heads and tails (in Carlier 1982, from memory).
    """
    earliest = network.earliest()
    coming = sorted(network.planned, key=earliest.__getitem__, reverse=True)
    hands = {place: planned.hands_on_s for place, planned in network.planned.items()}
    urgent: list[tuple[int, str]] = []
    clock = bound = 0
    while coming or urgent:
        if not urgent:
            clock = max(clock, earliest[coming[-1]])
        while coming and earliest[coming[-1]] <= clock:
            place = coming.pop()
            heapq.heappush(urgent, (-behind[place], place))
        place = urgent[0][1]
        span = min(hands[place], earliest[coming[-1]] - clock) if coming else hands[place]
        clock += span
        hands[place] -= span
        if not hands[place]:
            heapq.heappop(urgent)
            bound = max(bound, clock + behind[place])
    return bound
