"""How long a kit takes, and which chain of steps takes longest. Networks from outside are in tests/reference."""

from __future__ import annotations

from itertools import pairwise, permutations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from layouts.assembly import Time, steps_of, time_of
from layouts.assembly.handling import handled_by_steps
from layouts.document import Kit
from tests.unit.assembly.small_kits import CARD, Tree, kit_of, piece, project, step, tag


def _time(kit: Kit) -> Time:
    return time_of(kit, steps_of(kit))


def _one(*steps: Tree, **members: object) -> Kit:
    """A kit of one project, shelf, with two panels of which B goes on A, and a tag."""
    pieces = [piece("A"), piece("B"), piece("C")]
    placements = [{"id": "on-A", "put": {"piece": "B"}, "on": {"piece": "A"}, "centred": True, "middle": True}]
    return kit_of(
        project("shelf", pieces=pieces, forms=[tag("T")], placements=placements, steps=list(steps)),
        papers=[CARD],
        **members,
    )


def _chain(time: Time) -> str:
    return " ".join(place.rpartition(":")[2] for place in time.critical)


def test_hands_and_waiting_add_up_over_the_kit():
    kit = kit_of(
        project("shelf", makes=2, steps=[step("a", work="10 min", hold="30 s"), step("b", work="1 min", dry="1 h")]),
        project("tray", steps=[step("a", work="5 min", hold="2 min", held="clamped")]),
    )

    # Hands: 2 × (630 + 60) + 300 s; waiting: 3600 + 120 s, once for both shelves.
    assert (_time(kit).hands_on_s, _time(kit).waiting_s) == (1680, 3720)


def test_one_step_without_work_leaves_hands_unknown_but_not_the_chain():
    time = _time(_one(step("a", work="10 min"), step("b"), step("c", work="5 min")))

    assert (time.hands_on_s, _chain(time), time.critical_s) == (None, "a b c", 900)


def test_drying_is_a_lag_from_finish_to_start():
    # Check values 5.4, identity: 10 min of work, 30 min lag, 5 min of work: 45 min elapsed, 15 min hands-on.
    time = _time(
        _one(
            step("a", work="10 min", dry="30 min", use=[{"piece": "A"}]), step("b", work="5 min", use=[{"piece": "A"}])
        )
    )

    assert (time.critical_s, time.hands_on_s, time.waiting_s, _chain(time)) == (2700, 900, 1800, "a b")


@pytest.mark.parametrize(
    ("first", "second", "elapsed"),
    [
        pytest.param({"use": [{"piece": "A"}]}, {"use": [{"piece": "A"}]}, 40, id="uses what was glued"),
        pytest.param({"use": [{"piece": "A"}]}, {"use": [{"piece": "B"}]}, 40, id="puts something on it"),
        pytest.param({"use": [{"piece": "B"}]}, {"use": [{"piece": "A"}]}, 40, id="uses what it was glued to"),
        pytest.param({"cut": ["T"]}, {"use": [{"form": "T"}]}, 40, id="a form that was cut and glued"),
        pytest.param({"closes": ["T"]}, {"use": [{"form": "T"}]}, 40, id="a form that was closed"),
        pytest.param({"use": [{"piece": "A"}]}, {"use": [{"piece": "C"}]}, 32, id="another thing goes on meanwhile"),
        pytest.param({"use": [{"piece": "A"}]}, {}, 32, id="a step that handles nothing goes on"),
        pytest.param({}, {"use": [{"piece": "A"}]}, 32, id="nothing was glued"),
        pytest.param({"use": [{"blank": "box"}]}, {"use": [{"blank": "box"}]}, 40, id="a blank"),
        pytest.param({"use": [{"supply": "lamp"}]}, {"use": [{"supply": "lamp"}]}, 40, id="the only lamp"),
        pytest.param({"use": [{"supply": "brads"}]}, {"use": [{"supply": "brads"}]}, 32, id="another fastener"),
        pytest.param({"use": [{"supply": "twine"}]}, {"use": [{"supply": "twine"}]}, 32, id="more of a roll"),
        pytest.param({"use": [{"supply": "tape"}]}, {"use": [{"supply": "tape"}]}, 32, id="tape"),
        pytest.param({"use": [{"element": "e/many"}]}, {"use": [{"element": "e/many"}]}, 32, id="another element"),
        pytest.param({"use": [{"element": "e/one"}]}, {"use": [{"element": "e/one"}]}, 40, id="the only element"),
    ],
)
def test_drying_delays_only_what_handles_the_glued_thing(first, second, elapsed):
    kit = _one(
        step("a", work="2 min", dry="30 min", **first),
        step("b", work="8 min", **second),
        blanks=[{"id": "box", "name": "box", "faces": []}],
        supplies=[
            {"id": "lamp", "name": "lamp", "kind": "light"},
            {"id": "brads", "name": "brads", "kind": "fastener", "count": 12},
            {"id": "twine", "name": "twine", "kind": "ribbon", "length": "24"},
            {"id": "tape", "name": "tape", "kind": "adhesive-tape"},
        ],
        embellishments=[
            {
                "id": "e",
                "name": "e",
                "elements": [{"id": "many", "name": "m", "count": 2}, {"id": "one", "name": "o", "count": 1}],
            }
        ],
    )

    # 2 + 30 + 8 min where the second waits; else it is done after 10 min, and the glue is dry after 32.
    assert _time(kit).critical_s == elapsed * 60


def test_two_alike_sheets_hold_more_than_one_of_an_element():
    sheet = {"id": "e", "name": "e", "sheets": 2, "elements": [{"id": "one", "name": "o", "count": 1}]}
    kit = kit_of(project("shelf", steps=[step("a", use=[{"element": "e/one"}])]), embellishments=[sheet])

    assert handled_by_steps(kit, steps_of(kit)) == {"project:shelf/step:a": frozenset()}


def test_drying_also_delays_a_step_that_comes_later_by_way_of_others():
    kit = _one(
        step("a", work="2 min", dry="30 min", use=[{"piece": "A"}]),
        step("b", work="8 min", use=[{"piece": "C"}]),
        step("c", work="5 min", use=[{"piece": "A"}]),
    )

    assert (_time(kit).critical_s, _chain(_time(kit))) == (37 * 60, "a c")


def test_a_step_that_need_not_come_after_is_not_delayed():
    kit = _one(
        step("a", work="2 min", dry="30 min", use=[{"piece": "A"}]),
        step("b", work="5 min", use=[{"piece": "A"}], after=[]),
    )

    assert (_time(kit).critical_s, _chain(_time(kit))) == (32 * 60, "a")


def test_clamps_come_off_before_the_next_step_begins():
    kit = _one(step("a", work="1 min", hold="10 min", held="clamped"), step("b", work="2 min", use=[{"piece": "C"}]))

    assert _time(kit).critical_s == 13 * 60


def test_work_counts_for_every_copy_on_the_chain_and_drying_once():
    kit = kit_of(project("shelf", makes=3, steps=[step("a", work="1 min", dry="5 min")]))

    assert _time(kit).critical_s == 8 * 60


@pytest.mark.parametrize(
    ("steps", "chain"),
    [
        pytest.param([step("a", work="5 min"), step("b", work="5 min", after=[])], "a", id="alone"),
        pytest.param(
            [
                step("a", work="1 min"),
                step("b", work="3 min", after=["a"]),
                step("c", work="3 min", after=["a"]),
                step("d", work="1 min", after=["b", "c"]),
            ],
            "a b d",
            id="two ways",
        ),
        pytest.param(
            [step("d", work="4 min"), step("a", work="1 min", after=[]), step("b", work="3 min")],
            "d",
            id="compared step by step",
        ),
        pytest.param([step("a"), step("b", work="2 min"), step("c")], "b", id="no idle step at either end"),
        pytest.param([step("a", work="1 min"), step("b"), step("c", work="1 min")], "a b c", id="one between is named"),
    ],
)
def test_of_equally_long_chains_the_first_in_the_document_is_named(steps, chain):
    assert _chain(_time(_one(*steps))) == chain


@pytest.mark.parametrize(
    "steps",
    [
        pytest.param([], id="no steps"),
        pytest.param([step("a"), step("b")], id="no times"),
        pytest.param([step("a", work="1 min", after=["b"]), step("b", work="1 min")], id="in a circle"),
    ],
)
def test_there_may_be_no_longest_chain(steps):
    assert _time(_one(*steps)).critical == ()


def test_the_member_of_a_proof_is_plain_data():
    assert _time(_one(step("a", work="1 min", dry="30 min"))).as_data() == {
        "hands_on_s": 60,
        "waiting_s": 1800,
        "critical": ["project:shelf/step:a"],
    }


_STEP = st.tuples(
    st.integers(0, 3),  # minutes of work
    st.integers(0, 4),  # minutes of drying
    st.sets(st.sampled_from("ABC")),
    st.none() | st.sets(st.integers(0, 5)),
)


# A first step that takes no time belongs to the chain by its drying, not by what merely comes after it.
@example([(0, 1, {"A"}, None), (1, 0, set(), None), (0, 0, {"A"}, None), (0, 1, set(), None)])
@given(st.lists(_STEP, min_size=1, max_size=6))
def test_the_longest_chain_is_the_first_of_the_longest_of_all_chains(drawn):
    """Every chain of steps is tried; its time is what the words of the docstring say, added up."""
    trees = []
    for at, (work, dry, things, after) in enumerate(drawn):
        members: Tree = {"use": [{"piece": name} for name in sorted(things)]}
        if work:
            members["work"] = f"{work} min"
        if dry:
            members["dry"] = f"{dry} min"
        if after is not None:
            members["after"] = [f"s{first}" for first in sorted(after) if first < at]
        trees.append(step(f"s{at}", **members))
    kit = _one(*trees)
    steps = steps_of(kit)
    planned = list(steps)
    handles = [things | ({"A"} if "B" in things else set()) for _, _, things, _ in drawn]

    def link(a: int, b: int) -> int | None:
        """The longest lag of a link from a to b, or None if they are not linked."""
        lags = [0] if planned[a].place in planned[b].after else []
        if drawn[a][1] and handles[a] & handles[b] and steps.precedence.precedes(planned[a].place, planned[b].place):
            lags.append(drawn[a][1])
        return max(lags, default=None)

    def minutes(chain: tuple[int, ...]) -> int | None:
        total: int = drawn[chain[-1]][1] + sum(drawn[at][0] for at in chain)
        for a, b in pairwise(chain):
            lag = link(a, b)
            if lag is None:
                return None
            total += lag
        return total

    chains = [chain for size in range(1, len(drawn) + 1) for chain in permutations(range(len(drawn)), size)]
    times = {chain: found for chain in chains if (found := minutes(chain)) is not None}
    longest = max(times.values())

    def begins_in_earnest(chain: tuple[int, ...]) -> bool:
        first = chain[0]
        lag = link(first, chain[1]) if len(chain) > 1 else drawn[first][1]
        return drawn[first][0] > 0 or bool(lag)

    time = time_of(kit, steps)
    assert time.critical_s == longest * 60
    if longest:
        named = tuple([one.place for one in planned].index(place) for place in time.critical)
        # Tuples compare step by step, and a chain comes before one that goes on longer for nothing.
        assert named == min(chain for chain, took in times.items() if took == longest and begins_in_earnest(chain))
    else:
        assert time.critical == ()
