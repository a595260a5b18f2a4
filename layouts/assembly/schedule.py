"""When each step can be done, and when it must be, with hands for everything; and what a bar drawing shows of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from layouts.assembly.network import Link, Network, network_of
from layouts.assembly.steps import KitSteps, PlannedStep
from layouts.document import Kit

__all__ = ["Bar", "Schedule", "ScheduledStep", "bars_of", "schedule_of"]


@dataclass(frozen=True, slots=True)
class Bar:
    """What happens to one step from one second to another: work and holding need hands, clamps and glue do not."""

    place: str
    kind: Literal["work", "hold", "clamp", "dry"]
    start_s: int
    end_s: int


@dataclass(frozen=True, slots=True)
class ScheduledStep:
    """One step, in seconds from the beginning of the kit.

    It can begin at `start_s` and is then done, clamps included, at `end_s`; it must begin at `latest_s`, or the whole
    kit is done later. Its drying follows; `bars` show all of it from `start_s` on.
    """

    place: str
    start_s: int
    end_s: int
    latest_s: int
    bars: tuple[Bar, ...]

    @property
    def slack_s(self) -> int:
        """By how many seconds it may begin later without delaying the whole kit."""
        return self.latest_s - self.start_s


@dataclass(frozen=True, slots=True)
class Schedule:
    """All steps in document order, how long the kit takes with hands for everything, and the longest chain.

    `critical` holds the places of a longest chain, of several the first in document order, without steps at either end
    that take no time. It differs from the chain in a proof only where that neglects a cut-out (see `network_of`).
    """

    steps: tuple[ScheduledStep, ...]
    length_s: int
    critical: tuple[str, ...]

    @property
    def bars(self) -> tuple[Bar, ...]:
        return tuple(bar for step in self.steps for bar in step.bars)


def schedule_of(kit: Kit, steps: KitSteps) -> Schedule | None:
    """Return when each step of a kit can and must be done, or None where there is no network (see `network_of`).

    Source: the critical path method (Kelley and Walker 1959, from memory) with finish-to-start lags for drying.
    """
    network = network_of(kit, steps)
    if network is None:
        return None
    starts, tails = network.earliest(), network.tails()
    length = max(tails.values(), default=0)
    scheduled = tuple(
        ScheduledStep(
            place=planned.place,
            start_s=starts[planned.place],
            end_s=starts[planned.place] + planned.active_s,
            latest_s=length - tails[planned.place],
            bars=bars_of(planned, starts[planned.place]),
        )
        for planned in steps
    )
    return Schedule(scheduled, length, _longest_chain(network, tails, [one.place for one in steps]))


def bars_of(planned: PlannedStep, start_s: int) -> tuple[Bar, ...]:
    """Return the bars of a step that begins at `start_s`; of several copies the work is shown first, then the rest."""
    spans: tuple[tuple[Literal["work", "hold", "clamp", "dry"], int], ...] = (
        ("work", planned.work_s),
        ("hold", planned.held_s),
        ("clamp", planned.clamped_s),
        ("dry", planned.dry_s),
    )
    bars = []
    at = start_s
    for kind, span in spans:
        if span:
            bars.append(Bar(planned.place, kind, at, at + span))
        at += span
    return tuple(bars)


def _longest_chain(network: Network, tails: Mapping[str, int], in_document: list[str]) -> tuple[str, ...]:
    longest = max(tails.values(), default=0)
    if not longest:
        return ()
    position = {place: at for at, place in enumerate(in_document)}

    def rest(place: str) -> int:
        return tails[place] - network.planned[place].active_s

    def following(place: str) -> list[Link]:
        return [link for link in network.out_of[place] if link.lag_s + tails[link.then] == rest(place)]

    def ends(place: str) -> bool:
        return rest(place) == network.planned[place].dry_s

    def takes_part(place: str) -> bool:
        return network.planned[place].active_s > 0 or ends(place) or any(link.lag_s for link in following(place))

    chain = [next(place for place in in_document if tails[place] == longest and takes_part(place))]
    while not ends(chain[-1]):
        links = following(chain[-1])
        if len(chain) == 1 and not network.planned[chain[0]].active_s:
            links = [link for link in links if link.lag_s]  # by its drying alone does the first step take part
        chain.append(min((link.then for link in links), key=position.__getitem__))
    return tuple(chain)
