"""Schedules of small kits against a solver that knows nothing of networks: it writes down every condition that the
words of the contract make, and tries everything."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise, permutations

from hypothesis import assume, given
from hypothesis import strategies as st

from layouts.assembly import one_person, order_of, schedule_of, steps_of, waits_of
from layouts.document import Kit
from tests.unit.assembly.small_kits import Tree, kit_of, piece, project, step

_THINGS = "ABC"
_HOST, _GUEST = "A", "C"  # C is cut out of A's window


@dataclass(frozen=True)
class Drawn:
    """One step as it was drawn, in minutes: what it handles, and which earlier ones (by number) it comes after."""

    place: str
    work: int
    hold: int
    clamped: int
    dry: int
    handles: frozenset[str]
    cuts: frozenset[str]
    after: frozenset[int]

    @property
    def hands(self) -> int:
        return self.work + self.hold

    @property
    def active(self) -> int:
        return self.hands + self.clamped


_STEP = st.tuples(
    st.integers(0, 3),
    st.integers(0, 2),
    st.sampled_from(("by-hand", "clamped")),
    st.integers(0, 4),
    st.sets(st.sampled_from(_THINGS)),
    st.sets(st.integers(0, 5)),
    st.booleans(),  # in the first project, or in the second
)


# (first, then, minutes): `then` begins at least so long after the beginning of `first`
type Conditions = list[tuple[int, int, int]]


@st.composite
def kits(draw: st.DrawFn) -> tuple[Kit, list[Drawn], Conditions]:
    """A kit of two projects whose steps may wait for those of the other, what it says in plain numbers, and the
    conditions that follow."""
    drawn = draw(st.lists(_STEP, min_size=1, max_size=6))
    # The blanks are shared by both projects, the pieces are the first one's.
    homes = ["p" if home else "q" for *_, home in drawn]
    trees: dict[str, list[Tree]] = {"p": [], "q": []}
    plain: dict[str, list[Drawn]] = {"p": [], "q": []}
    places = [f"project:{home}/step:s{at}" for at, home in enumerate(homes)]
    for at, (work, hold, held, dry, things, after, _) in enumerate(drawn):
        home = homes[at]
        earlier = frozenset(first for first in after if first < at)
        cuts = frozenset(things & {_HOST, _GUEST}) if home == "p" and at % 2 else frozenset()
        used = sorted(things - cuts)
        members: Tree = {
            "use": [{"blank": name} if home == "q" or name == "B" else {"piece": name} for name in used],
            "cut": sorted(cuts),
            "held": held,
            "after": [f"{homes[first]}/s{first}" for first in sorted(earlier)],
        }
        members |= {"work": f"{work} min"} if work else {}
        members |= {"hold": f"{hold} min"} if hold else {}
        members |= {"dry": f"{dry} min"} if dry else {}
        trees[home].append(step(f"s{at}", **members))
        handles = frozenset(f"{'blank' if home == 'q' or name == 'B' else 'piece'}:{name}" for name in used) | {
            f"piece:{name}" for name in cuts
        }
        by_hand, clamped = (hold, 0) if held == "by-hand" else (0, hold)
        plain[home].append(Drawn(places[at], work, by_hand, clamped, dry, handles, cuts, earlier))
    window = {"id": "w", "left": "1/2", "right": "1/2", "top": "1/2", "bottom": "1/2", "cut_out": "kept"}
    pieces = [piece("A", windows=[window]), piece("C", size=["2", "1"], **{"from": "p/A/w"})]
    kit = kit_of(
        project("p", pieces=pieces, steps=trees["p"]),
        project("q", steps=trees["q"]),
        blanks=[{"id": name, "name": name} for name in _THINGS],
    )
    both = [*plain["p"], *plain["q"]]
    found = conditions(both)
    assume(found is not None)
    assert found is not None
    return kit, both, found


def conditions(drawn: list[Drawn]) -> Conditions | None:
    """Return every condition, or None where they go round in a circle."""
    number = {int(one.place.rpartition(":s")[2]): at for at, one in enumerate(drawn)}
    after = {(number[first], then) for then, one in enumerate(drawn) for first in one.after}
    come_after = set(after)
    while more := {(a, d) for a, b in come_after for c, d in come_after if b == c} - come_after:
        come_after |= more
    found = [(first, then, drawn[first].active) for first, then in after]
    for first, then in come_after:
        if drawn[first].dry and drawn[first].handles & drawn[then].handles:
            found.append((first, then, drawn[first].active + drawn[first].dry))
    for first, one in enumerate(drawn):
        for then, other in enumerate(drawn):
            is_host = _HOST in one.cuts and _GUEST in other.cuts and first != then
            if is_host and (then, first) not in come_after:
                found.append((first, then, one.active))
    reached = {(first, then) for first, then, _ in found}
    while more := {(a, d) for a, b in reached for c, d in reached if b == c} - reached:
        reached |= more
    return None if any(first == then for first, then in reached) else found


def pushed_back(count: int, found: Conditions) -> list[int]:
    """The earliest beginnings: everything begins at 0 and is pushed back until every condition holds."""
    starts = [0] * count
    for _ in range(count):
        for first, then, minutes in found:
            starts[then] = max(starts[then], starts[first] + minutes)
    return starts


def done(drawn: list[Drawn], starts: list[int]) -> int:
    return max(start + one.active + one.dry for one, start in zip(drawn, starts, strict=True))


@given(kits())
def test_steps_begin_as_early_and_as_late_as_every_condition_lets_them(made):
    kit, drawn, found = made
    schedule = schedule_of(kit, steps_of(kit))
    assert schedule is not None
    earliest = pushed_back(len(drawn), found)
    length = done(drawn, earliest)
    assert schedule.length_s == 60 * length
    assert [one.place for one in schedule.steps] == [one.place for one in drawn]
    assert [one.start_s for one in schedule.steps] == [60 * start for start in earliest]
    assert [one.end_s for one in schedule.steps] == [
        60 * (start + one.active) for start, one in zip(earliest, drawn, strict=True)
    ]
    for at, one in enumerate(schedule.steps):
        slack = one.slack_s // 60
        for later in (slack, slack + 1):
            delayed = pushed_back(len(drawn), [*found])
            delayed[at] = earliest[at] + later
            for _ in drawn:
                for first, then, minutes in found:
                    delayed[then] = max(delayed[then], delayed[first] + minutes)
            assert (done(drawn, delayed) > length) == (later > slack)


@given(kits())
def test_the_chain_runs_from_the_beginning_to_the_end_without_slack(made):
    kit, drawn, found = made
    schedule = schedule_of(kit, steps_of(kit))
    assert schedule is not None
    at = {one.place: number for number, one in enumerate(drawn)}
    chain = [schedule.steps[at[place]] for place in schedule.critical]
    assert bool(chain) == bool(schedule.length_s)
    if chain:
        assert chain[0].start_s == 0
        assert chain[-1].end_s + 60 * drawn[at[chain[-1].place]].dry == schedule.length_s
    assert [one.slack_s for one in chain] == [0] * len(chain)
    for one, following in pairwise(chain):
        lags = [60 * lag for first, then, lag in found if (first, then) == (at[one.place], at[following.place])]
        assert following.start_s - one.start_s == max(lags)


@given(kits())
def test_the_bars_of_a_schedule_are_what_each_step_says(made):
    kit, drawn, _ = made
    schedule = schedule_of(kit, steps_of(kit))
    assert schedule is not None
    for one, said in zip(schedule.steps, drawn, strict=True):
        spans = {"work": said.work, "hold": said.hold, "clamp": said.clamped, "dry": said.dry}
        assert [(bar.kind, bar.end_s - bar.start_s) for bar in one.bars] == [
            (kind, 60 * minutes) for kind, minutes in spans.items() if minutes
        ]
        ends = [one.start_s, *(bar.end_s for bar in one.bars)]
        assert [bar.start_s for bar in one.bars] == ends[:-1]
        assert {bar.place for bar in one.bars} <= {one.place}


def serial(drawn: list[Drawn], found: Conditions, order: tuple[int, ...]) -> list[int] | None:
    """When each step begins if one pair of hands does them in this order, or None where that cannot be."""
    starts = [-1] * len(drawn)
    free = 0
    for at in order:
        before = [(first, minutes) for first, then, minutes in found if then == at]
        if any(starts[first] < 0 for first, _ in before):
            return None
        starts[at] = max([free, *(starts[first] + minutes for first, minutes in before)])
        free = starts[at] + drawn[at].hands
    return starts


@given(kits())
def test_one_person_keeps_every_condition_and_no_order_beats_the_bound(made):
    kit, drawn, found = made
    alone = one_person(kit, steps_of(kit))
    assert alone is not None
    at = {one.place: number for number, one in enumerate(drawn)}
    order = tuple(at[place] for place in alone.order)
    starts = serial(drawn, found, order)
    assert starts is not None
    assert alone.length_s == 60 * done(drawn, starts)
    begun = {bar.place: bar.start_s for bar in reversed(alone.bars)}
    assert begun == {
        drawn[number].place: 60 * starts[number] for number in order if drawn[number].active or drawn[number].dry
    }
    hands = sum(one.hands for one in drawn)
    busy_until = max(start + one.hands for one, start in zip(drawn, starts, strict=True))
    assert alone.waited_s == 60 * (busy_until - hands)
    every = (serial(drawn, found, tried) for tried in permutations(range(len(drawn))))
    best = min(done(drawn, tried) for tried in every if tried is not None)
    assert alone.bound_s <= 60 * best <= alone.length_s
    assert alone.gap_s == alone.length_s - alone.bound_s


@given(kits())
def test_what_is_done_during_a_wait_can_be_done_then(made):
    kit, drawn, found = made
    steps = steps_of(kit)
    order = order_of(kit, steps)
    at = {one.place: number for number, one in enumerate(drawn)}
    waits = waits_of(kit, steps, order)
    assert sorted((wait.place, wait.kind) for wait in waits) == sorted(
        (one.place, kind) for one in drawn for kind, minutes in (("clamp", one.clamped), ("dry", one.dry)) if minutes
    )
    for wait in waits:
        here = at[wait.place]
        now = wait.start_s // 60
        one = drawn[here]
        minutes = one.clamped if wait.kind == "clamp" else one.dry
        assert wait.end_s - wait.start_s == 60 * minutes
        in_hands = now - one.hands - (one.clamped if wait.kind == "dry" else 0)
        begun = {here: in_hands}
        named = [*wait.meanwhile, *([wait.begin] if wait.begin else [])]
        assert len(set(named) | {wait.place}) == len(named) + 1
        for place in named:
            later = at[place]
            for first, then, lag in found:
                if then == later and first in begun:
                    assert begun[first] + lag <= now
            if place == wait.begin:
                assert now * 60 < wait.end_s < (now + drawn[later].hands) * 60
            else:
                begun[later] = now
                now += drawn[later].hands
                assert now * 60 <= wait.end_s
