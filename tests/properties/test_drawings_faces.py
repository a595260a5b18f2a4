"""Faces with random things on them, and random schedules: whatever is drawn can be read."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from layouts.assembly import schedule_of, steps_of
from layouts.document import Kit
from layouts.drawing import face_drawing, schedule_drawing, stacks_of
from layouts.printed import shown
from layouts.shapes.faces import lying_in
from tests.unit.drawing.meetings import collisions, outside
from tests.unit.proofing.small_prints import kit_of, piece, project

MM = 320


def tenths(most: int) -> st.SearchStrategy[str]:
    return st.integers(1, most).map(lambda n: f"{n // 10}.{n % 10}")


SHAPES = st.sampled_from([{}, {"shape": {"kind": "ellipse"}}, {"shape": {"kind": "rounded", "radius": "4"}}])


@st.composite
def things(draw: st.DrawFn, name: str) -> dict[str, Any]:
    """A piece of any size, now and then with an oval or a rectangular window in its middle."""
    width, height = draw(st.integers(2, 120)), draw(st.integers(2, 120))
    made = piece(name, str(width), str(height), count=9, **draw(SHAPES))
    if draw(st.booleans()) and min(width, height) > 12 and "shape" not in made:
        hole = {"id": "w", "left": "2", "right": "2", "top": "2", "bottom": "2", **draw(SHAPES)}
        made["windows"] = [hole]
    return made


@st.composite
def positions(draw: st.DrawFn) -> dict[str, Any]:
    across = draw(
        st.one_of(
            st.just({"centred": True}),
            tenths(600).map(lambda at: {"left": at}),
            tenths(600).map(lambda at: {"right": at}),
            st.just({}),
        )
    )
    up = draw(
        st.one_of(
            st.just({"middle": True}),
            tenths(600).map(lambda at: {"bottom": at}),
            tenths(600).map(lambda at: {"top": at}),
        )
    )
    return across | up | {"turn": draw(st.sampled_from([0, 0, 0, 90, 180, 270]))}


@st.composite
def kits(draw: st.DrawFn) -> Kit:
    """A box whose face, with or without an opening, carries pieces, and pieces upon those."""
    names = [f"{letter}{draw(st.sampled_from(['', '-with-a-long-name']))}" for letter in "ABCDE"]
    pieces = [draw(things(name)) for name in names]
    placements = []
    for number in range(draw(st.integers(1, 7))):
        on = {"blank": "box", "face": "front"}
        put = draw(st.sampled_from(names))
        under = draw(st.sampled_from(["", "", *names]))
        if under and names.index(under) < names.index(put):
            on = {"piece": under}
        layer = draw(st.sampled_from(["over", "over", "behind"])) if "blank" in on else "over"
        placed = {"id": f"p{number}", "put": {"piece": put}, "on": on, "layer": layer, **draw(positions())}
        if draw(st.booleans()):
            placed["border"] = draw(tenths(60))
        placements.append(placed)
    face: dict[str, Any] = {"id": "front", "size": [str(draw(st.integers(10, 150))), str(draw(st.integers(10, 150)))]}
    if draw(st.booleans()):
        face["opening"] = {"left": "3", "right": "3", "top": "3", "bottom": "3", **draw(SHAPES)}
    box = {"id": "box", "name": "box", "count": 1, "faces": [face]}
    return kit_of(project(*pieces, placements=placements), blanks=[box])


@settings(max_examples=100, deadline=None)
@given(kits(), st.integers(25, 90), st.sampled_from([145, 229]))
def test_figures_and_letters_on_faces_meet_neither_each_other_nor_a_line(kit, room, line):
    for stack in stacks_of(lying_in(kit)):
        drawn = face_drawing(
            stack,
            lambda ticks: shown(ticks, "mm", 32),
            name="n",
            title="Face",
            unit="mm",
            room=(room * MM, room * MM),
            line=line,
            step=32,
        )
        for one in (drawn.assembled, drawn.exploded):
            if one is not None:
                assert collisions(one.svg) == []
                assert outside(one.svg) == []


@st.composite
def steps(draw: st.DrawFn, name: str) -> dict[str, Any]:
    minutes = st.integers(1, 3000).map(lambda n: f"{n} min")
    step: dict[str, Any] = {"id": name, "text": "Do it."}
    for field in ("work", "hold", "dry"):
        if draw(st.booleans()):
            step[field] = draw(minutes)
    if "hold" in step:
        step["held"] = draw(st.sampled_from(["by-hand", "clamped"]))
    if draw(st.booleans()):
        step["after"] = []
    return step


@settings(max_examples=100, deadline=None)
@given(st.data(), st.integers(90, 190), st.sampled_from([145, 229]))
def test_numbers_and_times_of_a_schedule_can_be_read(data, width, line):
    projects = [
        project(id_=f"p{number}", steps=[data.draw(steps(f"s{n}")) for n in range(data.draw(st.integers(1, 9)))])
        for number in range(data.draw(st.integers(1, 3)))
    ]
    kit = kit_of(*projects)
    schedule = schedule_of(kit, steps_of(kit))
    assert schedule is not None
    drawn = schedule_drawing(
        kit, schedule.bars, schedule.critical, name="n", title="Time.", width=width * MM, line=line
    )
    assert collisions(drawn.drawing.svg) == []
    assert outside(drawn.drawing.svg) == []
