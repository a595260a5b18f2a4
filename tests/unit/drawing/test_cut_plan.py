"""Sheets of a plan as they are drawn: where windows lie, whatever way their piece does, and where letters stand."""

from __future__ import annotations

import pytest

from layouts.drawing import Letters, sheet_drawing
from layouts.drawing.cut_plan import turned_within
from layouts.drawing.svg import Box
from tests.unit.drawing.reading import read, texts
from tests.unit.proofing.small_prints import kit_of, piece, project

# A thing 10 wide and 20 high with a window 3 by 4 in it, 1 from its left and 2 from its lower edge. By hand: turned
# anticlockwise by 90 its top lies left, so that 20 - 2 - 4 is left of the window and 1 below it.
WINDOW = Box(1, 2, 3, 4)
LIES = [
    (0, False, Box(1, 2, 3, 4)),
    (90, False, Box(14, 1, 4, 3)),
    (180, False, Box(6, 14, 3, 4)),
    (270, False, Box(2, 6, 4, 3)),
    # Seen through the leaf left and right are exchanged, in the width as it lies: 10, or 20 where it lies on its side.
    (0, True, Box(6, 2, 3, 4)),
    (90, True, Box(2, 1, 4, 3)),
    (180, True, Box(1, 14, 3, 4)),
    (270, True, Box(14, 6, 4, 3)),
]


@pytest.mark.parametrize(
    ("turn", "from_behind", "lies"), LIES, ids=[f"{t} {'behind' if b else 'front'}" for t, b, _ in LIES]
)
def test_a_window_lies_where_its_piece_puts_it(turn, from_behind, lies):
    assert turned_within(WINDOW, (10, 20), turn, from_behind=from_behind) == lies


MM = 320
PANE = {"id": "pane", "left": "5", "width": "10", "bottom": "4", "height": "20"}


def _leaf(letter: str, width: int, height: int, **more: object) -> dict[str, object]:
    sides = {"x": 0, "y": 0, "width": width * MM, "height": height * MM}
    return {**sides, "piece": f"project:p/piece:{letter}", "copy": 1, "turn": 0, **more}


def _dashed(svg: str) -> list[tuple[float, float, float, float]]:
    """The windows, in tenths of a millimetre from the upper left."""
    return [(one.x, one.y, one.width, one.height) for one in read(svg, "rect") if "stroke-dasharray" in one]


def test_windows_are_drawn_as_the_piece_lies():
    """A piece 40 by 60 lying on its side: 60 across, 40 up; its window is 60 - 4 - 20 from the left, 5 from below."""
    kit = kit_of(project(piece("A", "40", "60", windows=[PANE])))
    svg = sheet_drawing(kit, {"sheet": 1, "tree": _leaf("A", 60, 40, turn=90)}, name="n", title="t")
    assert _dashed(svg) == [(360, 250, 200, 100)]  # 40 - 5 - 10 from the top


def test_windows_are_measured_on_the_finished_piece():
    """The cut piece is larger by the bites: 3 at the left, so that the window lies 3 further in."""
    punch = {"id": "punch", "kind": "punch", "bite": "3"}
    edges = {"edges": {"left": "punch", "top": "punch"}, "size_is": "finished"}
    kit = kit_of(project(piece("A", "40", "60", windows=[PANE], **edges)), tools=[punch])
    svg = sheet_drawing(kit, {"sheet": 1, "tree": _leaf("A", 43, 63)}, name="n", title="t")
    assert _dashed(svg) == [(80, 390, 100, 200)]


def test_a_window_that_is_not_inside_its_piece_is_not_drawn():
    kit = kit_of(project(piece("A", "40", "60", windows=[{**PANE, "left": "35"}])))
    svg = sheet_drawing(kit, {"sheet": 1, "tree": _leaf("A", 40, 60)}, name="n", title="t")
    assert _dashed(svg) == []


@pytest.mark.parametrize(("width", "words"), [("20", "keep for M"), ("10", "keep"), ("4", None)])
def test_letters_and_what_is_kept_stand_on_the_sheet_where_there_is_room(width, words):
    kit = kit_of(project(piece("A", "40", "60", windows=[{**PANE, "width": width, "cut_out": "kept"}])))
    kept = {"pane": {"x": 0, "y": 0, "width": 3200, "height": 6400, "piece": "project:p/piece:M", "copy": 1, "turn": 0}}
    svg = sheet_drawing(kit, {"sheet": 1, "tree": _leaf("A", 40, 60, cut_outs=kept)}, name="n", title="t")
    assert texts(svg) == (["A", words] if words else ["A"])


def test_drawings_carry_presentation_attributes_only():
    """A style sheet of the page does not reach into them, and a strict content policy blocks styles."""
    kit = kit_of(project(piece("A", "40", "60", windows=[PANE])))
    svg = sheet_drawing(kit, {"sheet": 1, "tree": _leaf("A", 40, 60)}, name="n", title='<b> & "t"')
    assert "style" not in svg
    assert "<b>" not in svg
    assert [one.text for one in read(svg, "title")] == ['<b> & "t"']


def test_letters_that_two_projects_use_name_their_project():
    kit = kit_of(project(piece("A", "40", "60"), piece("B", "40", "60")), project(piece("A", "10", "10"), id_="tray"))
    letters = Letters(kit)
    told = [letters.of(f"project:{place}") for place in ("p/piece:A", "p/piece:B", "tray/piece:A", "p/form:lid/part:2")]
    assert told == ["A (p)", "B", "A (tray)", "lid 2"]
