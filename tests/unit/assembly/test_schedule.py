"""Schedules of small kits, by hand. Networks from outside are in tests/reference, a solver that tries everything in
tests/properties."""

from __future__ import annotations

from typing import Any

import pytest

from layouts.assembly import handling, one_person, order_of, schedule_of, steps_of, waits_of
from layouts.assembly import network as networks
from layouts.document import Kit
from tests.unit.assembly.small_kits import Tree, kit_of, piece, project, step

BOX: Tree = {"id": "box", "name": "box"}
_GLUED: Tree = {"use": [{"blank": "box"}]}


def _shelf(*own: Tree, **members: Any) -> Kit:
    return kit_of(project("shelf", steps=list(own), **members), blanks=[BOX])


def _name(place: str) -> str:
    return place.rpartition(":")[2]


def _schedule(kit: Kit) -> dict[str, tuple[int, int, int]]:
    """Earliest beginning, end and slack of each step in minutes."""
    schedule = schedule_of(kit, steps_of(kit))
    assert schedule is not None
    return {_name(one.place): (one.start_s // 60, one.end_s // 60, one.slack_s // 60) for one in schedule.steps}


def test_a_step_that_handles_no_glue_goes_on_while_it_dries():
    kit = _shelf(
        step("glue", work="2 min", dry="30 min", **_GLUED),
        step("write", work="8 min"),
        step("turn", work="5 min", **_GLUED),
    )
    assert _schedule(kit) == {"glue": (0, 2, 0), "write": (2, 10, 22), "turn": (32, 37, 0)}


def test_clamps_come_off_before_what_comes_after():
    kit = _shelf(step("press", work="1 min", hold="10 min", held="clamped"), step("write", work="2 min"))
    assert _schedule(kit) == {"press": (0, 11, 0), "write": (11, 13, 0)}
    schedule = schedule_of(kit, steps_of(kit))
    assert schedule is not None
    assert [(_name(bar.place), bar.kind, bar.start_s, bar.end_s) for bar in schedule.bars] == [
        ("press", "work", 0, 60),
        ("press", "clamp", 60, 660),
        ("write", "work", 660, 780),
    ]


def test_copies_are_worked_on_one_by_one_and_dry_side_by_side():
    kit = _shelf(step("glue", work="2 min", hold="30 s", dry="10 min"), makes=3)
    schedule = schedule_of(kit, steps_of(kit))
    assert schedule is not None
    assert [(bar.kind, bar.start_s, bar.end_s) for bar in schedule.bars] == [
        ("work", 0, 360),
        ("hold", 360, 450),
        ("dry", 450, 1050),
    ]


_WINDOW: Tree = {"id": "w", "left": "1", "right": "1", "top": "1", "bottom": "1", "cut_out": "kept"}


def _calendar(**cut: Any) -> Kit:
    """The calendar's picture comes out of the shelf's window."""
    return kit_of(
        project("shelf", pieces=[piece("A", windows=[_WINDOW])], steps=[step("open", work="6 min", cut=["A"])]),
        project(
            "calendar",
            pieces=[piece("M", size=["1", "1"], **{"from": "shelf/A/w"})],
            steps=[step("picture", work="5 min", cut=["M"], **cut)],
        ),
    )


def test_what_comes_out_of_a_window_is_cut_after_it():
    assert _schedule(_calendar()) == {"open": (0, 6, 0), "picture": (6, 11, 0)}


def test_a_cut_out_that_contradicts_after_is_left_out():
    kit = kit_of(
        project(
            "shelf",
            pieces=[piece("A", windows=[_WINDOW]), piece("M", size=["1", "1"], **{"from": "shelf/A/w"})],
            steps=[step("picture", work="5 min", cut=["M"]), step("open", work="6 min", cut=["A"])],
        )
    )
    assert _schedule(kit) == {"picture": (0, 5, 0), "open": (5, 11, 0)}


def test_cut_outs_that_go_round_in_a_circle_with_each_other_are_left_out():
    pieces = [
        piece("A", windows=[_WINDOW]),
        piece("B", windows=[_WINDOW]),
        piece("M", size=["1", "1"], **{"from": "shelf/A/w"}),
        piece("N", size=["1", "1"], **{"from": "shelf/B/w"}),
    ]
    one, other = step("one", work="2 min", cut=["A", "N"]), step("other", work="3 min", cut=["B", "M"], after=[])
    assert _schedule(_shelf(one, other, pieces=pieces)) == {"one": (0, 2, 1), "other": (0, 3, 0)}


def test_a_kit_without_steps_takes_no_time():
    kit = _shelf()
    schedule, alone = schedule_of(kit, steps_of(kit)), one_person(kit, steps_of(kit))
    assert schedule is not None
    assert alone is not None
    assert (schedule.steps, schedule.length_s, schedule.critical) == ((), 0, ())
    assert (alone.order, alone.length_s, alone.bound_s) == ((), 0, 0)


def test_steps_in_a_circle_have_no_schedule():
    kit = _shelf(step("a", work="1 min", after=["b"]), step("b", work="1 min"))
    steps = steps_of(kit)
    assert schedule_of(kit, steps) is None
    assert one_person(kit, steps) is None
    assert waits_of(kit, steps, order_of(kit, steps)) == ()


def test_steps_that_are_tangled_beyond_measure_have_no_schedule(monkeypatch: pytest.MonkeyPatch):
    # Three that glue the box, then three that handle it: nine pairs, since none of either three comes after another.
    glue = [step(f"g{at}", dry=f"{at + 1} min", after=[], **_GLUED) for at in range(3)]
    turn = [step(f"t{at}", after=["hub"], **_GLUED) for at in range(3)]
    kit = _shelf(*glue, step("hub", after=["g0", "g1", "g2"]), *turn)
    monkeypatch.setattr(networks, "_MOST_PAIRS", 9)
    assert _schedule(kit)["t2"] == (3, 3, 0)
    monkeypatch.setattr(networks, "_MOST_PAIRS", 8)
    assert schedule_of(kit, steps_of(kit)) is None


def test_what_leaves_most_to_wait_for_comes_first_where_that_is_quicker():
    """From its beginning the long work takes 10 minutes and the glue 1 + 8 = 9: in that order all is done after
    10 + 1 + 8. What is left once they are out of the hands is 0 and 8: in that order after 1 + 10."""
    kit = _shelf(step("long", work="10 min"), step("glue", work="1 min", dry="8 min", after=[], **_GLUED))
    alone = one_person(kit, steps_of(kit))
    assert alone is not None
    assert ([_name(place) for place in alone.order], alone.length_s, alone.gap_s) == (["glue", "long"], 11 * 60, 0)


def test_the_hands_are_not_always_used_best_and_the_gap_says_so():
    """Whoever does not sit out the minute in clamps is done after 10 + 1 + 20 minutes. Sitting it out, or leaving the
    long work for the glue, would take 1 + 1 + 20."""
    kit = _shelf(
        step("press", hold="1 min", held="clamped"),
        step("glue", work="1 min", dry="20 min", **_GLUED),
        step("long", work="10 min", after=[]),
    )
    alone = one_person(kit, steps_of(kit))
    assert alone is not None
    assert (alone.length_s, alone.bound_s, alone.gap_s) == (31 * 60, 22 * 60, 9 * 60)


def test_a_wait_names_what_fits_and_what_can_be_begun():
    kit = _shelf(
        step("glue", work="2 min", dry="10 min", **_GLUED),
        step("turn", work="1 min", **_GLUED),
        step("a", work="6 min", after=[]),
        step("b", work="5 min", after=[]),
        step("c", work="3 min", after=["a"]),
        step("d", after=["c"]),
    )
    (wait,) = waits_of(kit, steps_of(kit), order_of(kit, steps_of(kit)))
    # 6 + 3 of the ten minutes; 5 do not fit behind the 6; d states no time.
    assert ([_name(place) for place in wait.meanwhile], _name(wait.begin or "")) == (["a", "c", "d"], "b")
    assert (wait.kind, wait.start_s, wait.end_s) == ("dry", 120, 720)


def test_what_comes_after_clamps_is_not_done_while_they_are_on():
    kit = _shelf(
        step("press", work="1 min", hold="10 min", held="clamped"),
        step("next", work="2 min"),
        step("else", work="3 min", after=[]),
    )
    (wait,) = waits_of(kit, steps_of(kit), order_of(kit, steps_of(kit)))
    assert (wait.kind, [_name(place) for place in wait.meanwhile], wait.begin) == ("clamp", ["else"], None)


def test_a_step_of_the_next_project_is_done_meanwhile():
    kit = kit_of(
        project("shelf", steps=[step("glue", work="2 min", dry="10 min", **_GLUED), step("turn", **_GLUED)]),
        project("tray", steps=[step("fold", work="4 min")]),
        blanks=[BOX],
    )
    (wait,) = waits_of(kit, steps_of(kit), order_of(kit, steps_of(kit)))
    assert wait.meanwhile == ("project:tray/step:fold",)


@pytest.mark.parametrize(
    ("each", "in_all", "handled"),
    [
        pytest.param(2, 2, {"piece:A", "blank:box", "blank:tray"}, id="as many supports as are looked at"),
        pytest.param(1, 2, {"piece:A", "blank:box"}, id="one more: the first alone"),
        pytest.param(2, 1, {"piece:A"}, id="one more over all steps: none"),
    ],
)
def test_of_very_many_supports_some_are_left_out(monkeypatch: pytest.MonkeyPatch, each, in_all, handled):
    monkeypatch.setattr(handling, "_MOST_SUPPORTS", each)
    monkeypatch.setattr(handling, "_MOST_SUPPORTS_IN_ALL", in_all)
    face = {"id": "f", "size": ["4", "4"]}
    put = {"put": {"piece": "A"}, "centred": True, "middle": True}
    kit = kit_of(
        project(
            "shelf",
            pieces=[piece("A")],
            placements=[{"id": name, "on": {"blank": name, "face": "f"}, **put} for name in ("box", "tray")],
            steps=[step("lay", use=[{"piece": "A"}])],
        ),
        blanks=[{"id": name, "name": name, "faces": [face]} for name in ("box", "tray")],
    )
    (found,) = handling.handled_by_steps(kit, steps_of(kit)).values()
    assert {place.removeprefix("project:shelf/") for place in found} == handled
