"""Faces with what is put on them: which borders are shown, what lies on what, and how much is drawn at most."""

from __future__ import annotations

from typing import Any

import pytest

from layouts.assembly import schedule_of, steps_of
from layouts.document import Kit
from layouts.drawing import FaceDrawing, face_drawing, schedule_drawing, stacks_of
from layouts.printed import shown
from layouts.shapes.faces import lying_in
from tests.unit.drawing.reading import read, texts
from tests.unit.proofing.small_prints import kit_of, piece, project

MM = 320
BOX = {"id": "box", "name": "box", "count": 1, "faces": [{"id": "front", "size": ["100", "60"]}]}


def _put(name: str, on: str = "", **more: Any) -> dict[str, Any]:
    support = {"piece": on} if on else {"blank": "box", "face": "front"}
    return {"id": f"put-{name}-{len(more)}-{on}", "put": {"piece": name}, "on": support, **more}


MIDDLE: dict[str, Any] = {"centred": True, "middle": True}


def _kit(*placements: dict[str, Any], **more: Any) -> Kit:
    pieces = [piece("A", "90", "50"), piece("B", "41", "30"), piece("C", "10", "10", count=99)]
    return kit_of(project(*pieces, placements=list(placements), **more), blanks=[BOX])


def _drawn(kit: Kit) -> list[FaceDrawing]:
    return [
        face_drawing(
            stack,
            lambda ticks: shown(ticks, "mm", MM),
            name="n",
            title=stack.surface.name,
            unit="mm",
            room=(80 * MM, 80 * MM),
            line=145,
            step=MM,
        )
        for stack in stacks_of(lying_in(kit))
    ]


def _figures(drawn: FaceDrawing) -> list[str]:
    return sorted(text for text in texts(drawn.assembled.svg) if text.isdigit())


def test_borders_all_round_are_shown_where_they_are_equal_or_claimed():
    """90 by 50 in the middle of 100 by 60 leaves 5 on every side."""
    (one,) = _drawn(_kit(_put("A", **MIDDLE, border="5")))
    assert _figures(one) == sorted(["100", "60", "5", "5", "5", "5"])
    assert "A (piece A): layer 1, borders left 5, right 5, top 5, bottom 5." in one.words


def test_only_the_sides_that_the_plan_speaks_of_have_a_border():
    """10 from the left, 15 from below; what is left at the right and above nobody measures."""
    (one,) = _drawn(_kit(_put("A", left="4", bottom="7")))
    assert _figures(one) == sorted(["100", "60", "4", "7"])


def test_half_of_an_odd_rest_is_not_given():
    """(100 − 41) / 2 = 29.5 is off the step of 1 mm: the middle is found without it. (60 − 30) / 2 = 15."""
    (one,) = _drawn(_kit(_put("B", **MIDDLE)))
    assert _figures(one) == sorted(["100", "60", "15", "15"])


def test_what_lies_on_a_piece_shows_on_the_face_below_it():
    """B on A, 3 from its left: one stack of three levels, B's border told from the edge of A."""
    (one,) = _drawn(_kit(_put("A", **MIDDLE), _put("B", "A", left="3", bottom="4")))
    assert _figures(one) == sorted(["100", "60", "5", "5", "5", "5", "3", "4"])
    assert one.exploded is not None
    assert texts(one.exploded.svg) == ["front of box", "A", "A (piece A)", "B", "B (piece B)"]


def test_openings_are_seen_through():
    """A window is a hole in the outline of its piece, so that what lies below shows: one path, filled evenly odd."""
    pane = {"id": "w", "left": "10", "right": "10", "top": "10", "bottom": "10"}
    kit = kit_of(project(piece("A", "90", "50", windows=[pane]), placements=[_put("A", **MIDDLE)]), blanks=[BOX])
    (one,) = _drawn(kit)
    filled = [path for path in read(one.assembled.svg, "path") if path["fill"] != "none"]
    assert [path["d"].count("M") for path in filled] == [1, 2]
    assert {path["fill-rule"] for path in filled} == {"evenodd"}


@pytest.mark.parametrize(
    ("window", "dashed"),
    [
        # A card of 41 × 30 mm lies 10 from the left and 9 from below, under a mat of 90 × 50 mm.
        pytest.param(None, True, id="under a whole mat"),
        pytest.param({"left": "20", "right": "20", "top": "10", "bottom": "10"}, True, id="its edges under the rim"),
        pytest.param({"left": "2", "right": "2", "top": "2", "bottom": "2"}, False, id="all of it in the window"),
    ],
)
def test_an_edge_that_lies_under_something_is_dashed_where_a_border_is_measured_from_it(window, dashed):
    windows = [] if window is None else [{"id": "w", **window}]
    pieces = [piece("A", "90", "50", windows=windows), piece("B", "41", "30")]
    low, high = _put("B", left="10", bottom="9"), _put("A", **MIDDLE)
    (one,) = _drawn(kit_of(project(*pieces, placements=[low, high]), blanks=[BOX]))
    assert ("stroke-dasharray" in one.assembled.svg) is dashed
    assert any("Dashes" in sentence for sentence in one.beside) is dashed


def test_what_lies_behind_a_face_is_dashed():
    (one,) = _drawn(_kit(_put("B", left="10", bottom="9", layer="behind")))
    assert "stroke-dasharray" in one.assembled.svg


def test_no_edge_is_dashed_where_all_are_seen():
    (one,) = _drawn(_kit(_put("A", **MIDDLE), _put("B", "A", left="3", bottom="4")))
    assert "stroke-dasharray" not in one.assembled.svg


def test_what_is_too_small_for_its_name_is_named_beside_it_once():
    """C of 2 × 2 mm lies there twice: one name, and one line from it that ends in a dot within a C."""
    pieces = [piece("C", "2", "2", count=2)]
    copies = [{"on_copy": 1, "left": "20", "bottom": "20"}, {"on_copy": 1, "left": "60", "bottom": "20"}]
    (one,) = _drawn(kit_of(project(*pieces, placements=[_put("C", copies=copies)]), blanks=[BOX]))
    assert texts(one.assembled.svg).count("C") == 1
    assert one.assembled.svg.count("<circle") == 1


def test_what_is_seen_through_a_window_is_named_too():
    """C of 2 × 2 mm lies under A, in the middle of its window."""
    window = {"id": "w", "left": "20", "right": "20", "top": "10", "bottom": "10"}
    pieces = [piece("A", "90", "50", windows=[window]), piece("C", "2", "2")]
    (one,) = _drawn(kit_of(project(*pieces, placements=[_put("C", **MIDDLE), _put("A", **MIDDLE)]), blanks=[BOX]))
    assert "C" in texts(one.assembled.svg)
    assert "<circle" in one.assembled.svg


def test_a_rim_that_shows_is_named_too():
    """Of C 5 mm show inside the window of A all round, and no letter fits there."""
    wide = {"id": "w", "left": "5", "right": "5", "top": "5", "bottom": "5"}
    pieces = [
        piece("A", "90", "50", windows=[wide]),
        piece("C", "88", "48", windows=[{"id": "v", "left": "9", "right": "9", "top": "9", "bottom": "9"}]),
    ]
    (one,) = _drawn(kit_of(project(*pieces, placements=[_put("C", **MIDDLE), _put("A", **MIDDLE)]), blanks=[BOX]))
    assert "C" in texts(one.assembled.svg)


def test_nothing_leads_to_what_is_not_seen():
    """C lies wholly under A."""
    pieces = [piece("A", "90", "50"), piece("C", "2", "2")]
    low, high = _put("C", left="50", bottom="30"), _put("A", **MIDDLE)
    (one,) = _drawn(kit_of(project(*pieces, placements=[low, high]), blanks=[BOX]))
    assert "C" not in texts(one.assembled.svg)
    assert "<circle" not in one.assembled.svg


@pytest.mark.parametrize(
    ("names", "lines"),
    [
        # A leader for each of two levels and two guides to each thing; a bracket is three lines more.
        pytest.param(["A"], 4, id="one name"),
        pytest.param(["B", "C"], 9, id="two names"),
    ],
)
def test_the_names_of_a_level_stand_in_one_bracket(names, lines):
    lefts = {"A": "0", "B": "10", "C": "60"}
    (one,) = _drawn(_kit(*(_put(name, left=lefts[name], bottom="5") for name in names)))
    assert one.exploded is not None
    assert one.exploded.svg.count("<line") == lines


def test_what_nobody_placed_is_told():
    (one,) = _drawn(_kit(_put("A", centred=True), _put("B", **MIDDLE)))
    assert "A (piece A) is put on it too; the plan does not say where." in one.beside


def test_a_thousand_things_on_one_face_are_counted_and_not_drawn():
    copies = [{"on_copy": 1, "left": str(n % 80), "bottom": str(n % 40)} for n in range(1000)]
    (one,) = _drawn(_kit(_put("C", copies=copies)))
    assert "… and 976 more, not drawn." in one.beside
    assert len(one.assembled.svg) < 100_000


def test_things_on_things_on_things_do_not_explode():
    """Ten copies on each of ten copies, six deep, would be a million layers."""
    pieces = [piece(name, "90", "50", count=10) for name in "ABCDEFG"]
    placements = [
        {"id": "a", "put": {"piece": "A"}, "on": {"blank": "box", "face": "front"}, "left": "0", "bottom": "0"}
    ]
    for lower, upper in zip("ABCDEF", "BCDEFG", strict=True):
        for number in range(10):
            put = {"id": f"{upper}{number}".lower(), "put": {"piece": upper}, "on": {"piece": lower}}
            placements.append({**put, "left": "0", "bottom": "0"})
    (one,) = _drawn(kit_of(project(*pieces, placements=placements), blanks=[BOX]))
    assert "… and at least 1,976 more, not drawn." in one.beside


def test_copies_that_look_different_are_drawn_each_and_those_that_look_alike_once():
    box = {**BOX, "count": 3}
    copies = [{"on_copy": 1, "left": "1", "bottom": "1"}, {"on_copy": 2, "left": "9", "bottom": "1"}]
    copies.append({"on_copy": 3, "left": "1", "bottom": "1"})
    kit = kit_of(project(piece("C", "10", "10", count=3), placements=[_put("C", copies=copies)]), blanks=[box])
    assert [stack.copies for stack in stacks_of(lying_in(kit))] == [(1, 3), (2,)]


STEPS = [
    {"id": "glue", "text": "Glue.", "work": "10 min", "hold": "5 min", "held": "clamped", "dry": "30 min"},
    {"id": "paint", "text": "Paint.", "work": "20 min", "after": []},
]


def _bars(width: int, **more: Any):
    kit = _kit(steps=STEPS, **more)
    schedule = schedule_of(kit, steps_of(kit))
    assert schedule is not None
    return schedule_drawing(kit, schedule.bars, schedule.critical, name="n", title="Time.", width=width * MM, line=145)


def test_kinds_of_time_differ_by_hatching_and_are_named():
    drawn = _bars(180)
    patterns = {box["fill"] for box in read(drawn.drawing.svg, "rect") if box["fill"].startswith("url")}
    assert patterns == {"url(#n-clamp)", "url(#n-dry)"}
    assert {"hands at work", "in clamps", "drying"} <= set(texts(drawn.drawing.svg))
    assert "held by hand" not in texts(drawn.drawing.svg)


def test_the_longest_chain_is_underlined_and_said():
    """Step 1 takes 10 + 5 + 30 minutes, step 2 beside it 20."""
    drawn = _bars(180)
    assert (
        drawn.words == "Time. P: step 1 (longest chain): hands at work 0:00 to 0:10, in clamps 0:10 to 0:15, "
        "drying 0:15 to 0:45; step 2: hands at work 0:00 to 0:20."
    )
    lines = [box for box in read(drawn.drawing.svg, "rect") if "stroke" not in box and box.get("fill") == "#17212b"]
    assert len(lines) == 2  # under step 1, and in the key


def test_every_step_has_its_number_however_short_it_is():
    """Nine steps of a minute before one of ten hours, on a phone: numbers stand behind bars, in lanes of their own."""
    short = [{"id": f"s{n}", "text": "x", "work": "1 min", "after": []} for n in range(1, 10)]
    kit = _kit(steps=[*short, {"id": "long", "text": "x", "work": "600 min"}])
    schedule = schedule_of(kit, steps_of(kit))
    assert schedule is not None
    drawn = schedule_drawing(kit, schedule.bars, (), name="n", title="Time.", width=100 * MM, line=145)
    assert {str(n) for n in range(1, 11)} <= set(texts(drawn.drawing.svg))


@pytest.mark.parametrize("width", [180, 100])
def test_type_stays_as_large_on_a_phone(width):
    sizes = {float(text["font-size"]) for text in read(_bars(width).drawing.svg, "text")}
    assert min(sizes) > 27  # tenths of a millimetre: 7.7 points
