"""What can be done while glue dries, and what to make when: sentences and rows, by hand."""

from __future__ import annotations

import pytest

from kits.sheets.content.room import room_of
from kits.sheets.content.schedule import kit_schedule
from kits.sheets.content.waits import wait_words
from layouts.assembly import steps_of
from tests.unit.assembly.small_kits import CARD, kit_of, piece, project, step
from tests.unit.sheets.proofs import INCHES

A = piece("A", paper="card")
GLUED = step("a", cut=["A"], use=[{"piece": "A"}], work="5 min", dry="30 min")


def _kit(*steps, other=()):
    return kit_of(project("shelf", pieces=[A], steps=list(steps)), project("tray", steps=list(other)), papers=[CARD])


def _words(*steps, other=()):
    kit = _kit(*steps, other=other)
    return wait_words(kit, steps_of(kit)).get(("project:shelf/step:a", "dry"))


FREE = [step(name, work="5 min", after=[]) for name in "bcde"]
TOLD = [
    pytest.param([], [], None, id="nothing else to do"),
    pytest.param([step("b", use=[{"piece": "A"}], work="5 min")], [], None, id="it handles what dries"),
    pytest.param(FREE[:1], [], "do step 2", id="one"),
    pytest.param(FREE[:2], [], "do steps 2 and 3", id="two"),
    pytest.param(FREE, [], "do steps 2 to 5", id="a run"),
    pytest.param([step("b", work="1 h", after=[])], [], "begin step 2", id="longer than the wait"),
    pytest.param([*FREE[:1], step("c", work="1 h", after=[])], [], "do step 2 and begin step 3", id="both"),
    pytest.param([], FREE[:2], "do steps 1 and 2 of the Tray", id="another project"),
    pytest.param(FREE[:1], FREE[:1], "do step 2, then step 1 of the Tray", id="here, then another project"),
]


@pytest.mark.parametrize(("steps", "other", "doing"), TOLD)
def test_what_can_be_done_while_it_dries_is_told_by_number_and_project(steps, other, doing):
    assert _words(GLUED, *steps, other=other) == (doing and f"While this dries, you can {doing}.")


def test_clamps_leave_the_hands_free_too():
    kit = _kit(step("a", hold="10 min", held="clamped"), step("b", work="5 min", after=[]))
    words = wait_words(kit, steps_of(kit))
    assert words["project:shelf/step:a", "clamp"] == "While this is clamped, you can do step 2."


def _schedule(*steps, other=()):
    kit = _kit(*steps, other=other)
    return kit_schedule(kit, steps_of(kit), (), width=180 * 320, line=145)


def test_rows_stand_in_the_order_of_their_beginning_with_what_follows():
    """5 min of work, then 30 of drying, in which 5 min of the other project are done."""
    last = step("b", use=[{"piece": "A"}], work="10 min")
    schedule = _schedule(GLUED, last, other=[step("1", work="5 min")])
    assert schedule is not None
    rows = [(row.begins, row.step, row.takes, row.then) for row in schedule.rows]
    assert rows == [
        ("0:00", "Shelf 1", "5 min", "dries until 0:35"),
        ("0:05", "Tray 1", "5 min", ""),
        ("0:35", "Shelf 2", "10 min", ""),
    ]
    assert schedule.words[:2] == (
        "One person has everything made and dry in 45 min.",
        "For 25 min of that there is nothing to do but wait.",
    )


def test_seconds_are_told_on_the_clock_where_there_are_any():
    schedule = _schedule(step("a", work="90 s"), step("b", work="1 min"))
    assert schedule is not None
    assert [row.begins for row in schedule.rows] == ["0:00:00", "0:01:30"]


def test_steps_without_a_time_are_said_to_count_as_none():
    schedule = _schedule(step("a", work="5 min"), step("b"))
    assert schedule is not None
    assert schedule.words[-1] == "A step that does not say how long it takes counts as none."
    assert [row.step for row in schedule.rows] == ["Shelf 1"]


@pytest.mark.parametrize("steps", [
    [step("a"), step("b")],
    [step("a", after=["b"], work="5 min"), step("b", after=["a"], work="5 min")],
    [],
], ids=["no times", "a circle", "no steps"])  # fmt: skip
def test_without_times_or_in_a_circle_there_is_nothing_to_tell(steps):
    assert _schedule(*steps) is None


def test_more_bars_than_a_page_holds_are_told_in_rows_alone():
    """Forty projects take some 23 lines of 0.45 mm each, and more than the 248 mm of a page."""
    kit = kit_of(*(project(f"p{number}", steps=[step("1", work="1 min")]) for number in range(40)), papers=[CARD])
    room = room_of(INCHES)
    found = [kit_schedule(kit, steps_of(kit), (), width=room.width, line=room.line, room=one) for one in (room, None)]
    assert [one is not None and one.drawn is not None for one in found] == [False, True]
    assert all(one is not None and len(one.rows) == 40 for one in found)
