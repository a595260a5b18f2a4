"""The order of cuts and their settings, worked out by hand on small sheets (ticks are plain numbers here)."""

from __future__ import annotations

import pytest

from layouts.cutting.behind import seen_from_behind
from layouts.cutting.sequence import CutStep, Rectangle, Taken, cuts_of
from tests.unit.cutting.trees import cut, offcut, piece


def _told(steps: tuple[CutStep, ...]) -> list[tuple[object, ...]]:
    """Which part, along which way, how far from which edge, and what comes of it."""
    return [
        (
            None if step.taken is None else (step.taken.cut, step.taken.side),
            step.along,
            step.setting,
            step.edge,
            [(one.side, one.place.rpartition(":")[2] or one.kind) for one in step.outcomes],
        )
        for step in steps
    ]


# 12 wide, 8 high: a column of two pieces at the left, a strip over at the right.
COLUMN = cut("y", 4, piece("A", 0, 0, 5, 4), piece("B", 0, 4, 5, 4))
SHEET = cut("x", 5, COLUMN, offcut(5, 0, 7, 8))


def test_a_sheet_that_is_one_piece_needs_no_cut():
    assert cuts_of(piece("A", 0, 0, 5, 4)) == ()


def test_every_cut_says_which_part_to_take_and_how_far_from_which_edge():
    assert _told(cuts_of(SHEET)) == [
        (None, "x", 5, "left", [("left", "part"), ("right", "offcut")]),
        ((1, "left"), "y", 4, "bottom", [("bottom", "A"), ("top", "B")]),
    ]


def test_a_setting_is_measured_from_the_part_in_hand_and_the_line_lies_on_the_sheet():
    inner = cut("x", 9, piece("A", 5, 0, 4, 8), piece("B", 9, 0, 3, 8))
    _, second = cuts_of(cut("x", 5, piece("C", 0, 0, 5, 8), inner))
    assert (second.setting, second.at, second.length, second.part) == (4, 9, 8, Rectangle(5, 0, 7, 8))
    assert second.taken == Taken(1, "right")


def test_cuts_with_the_setting_of_the_last_one_come_before_longer_ones():
    """After the cut at 6, the two parts offer 5 across (long) and 3 up; 3 is what the trimmer stands at."""
    left = cut("y", 3, piece("A", 0, 0, 6, 3), cut("y", 6, piece("B", 0, 3, 6, 3), offcut(0, 6, 6, 14)))
    right = cut("x", 11, piece("C", 6, 0, 5, 20), offcut(11, 0, 4, 20))
    steps = cuts_of(cut("x", 6, left, right))
    assert [(step.along, step.setting, step.length) for step in steps] == [
        ("x", 6, 20),
        ("x", 5, 20),  # the longest: nothing else stands at 6
        ("y", 3, 6),
        ("y", 3, 6),  # the same setting again, though it lies within the part that just came off
    ]


def test_equal_settings_across_and_up_are_not_one_setting():
    """A square that is cut at 3 both ways: the part is turned, and its edge laid on anew."""
    left = cut("y", 3, piece("A", 0, 0, 3, 3), piece("B", 0, 3, 3, 9))
    right = cut("x", 6, piece("C", 3, 0, 3, 12), offcut(6, 0, 6, 12))
    assert [(step.along, step.setting) for step in cuts_of(cut("x", 3, left, right))] == [("x", 3), ("x", 3), ("y", 3)]


def test_of_equally_long_cuts_the_lower_then_the_left_one_comes_first():
    def pair(x: int, y: int, at: int, names: str) -> dict[str, object]:
        return cut("x", x + at, piece(names[0], x, y, at, 4), piece(names[1], x + at, y, 9 - at, 4))

    lower = cut("x", 9, pair(0, 0, 4, "AB"), pair(9, 0, 3, "CD"))
    upper = cut("x", 9, pair(0, 4, 2, "EF"), pair(9, 4, 1, "GH"))
    made = [(step.part.x, step.part.y) for step in cuts_of(cut("y", 4, lower, upper)) if step.part.width == 9]
    assert made == [(0, 0), (9, 0), (0, 4), (9, 4)]


def test_what_the_cut_loses_lies_beyond_what_is_measured():
    """Slack 1: the piece of 5 is measured, and the other part begins at 6."""
    tree = cut("x", 5, piece("A", 0, 0, 5, 8), piece("B", 6, 0, 4, 8))
    [step] = cuts_of(tree)
    assert (step.setting, step.at, [one.side for one in step.outcomes]) == (5, 5, ["left", "right"])


def test_a_margin_is_measured_to_where_the_rest_begins():
    """A spoilt margin of 10 with slack 1: 9 fall off, 1 is lost, and the rest begins 10 from the edge."""
    tree = cut("y", 9, offcut(0, 0, 20, 9), piece("A", 0, 10, 20, 5))
    [step] = cuts_of(tree)
    assert (step.setting, step.at, step.edge) == (10, 10, "bottom")
    assert [(one.side, one.kind) for one in step.outcomes] == [("bottom", "offcut"), ("top", "piece")]


@pytest.mark.parametrize(
    ("part", "setting", "at", "side"),
    [
        pytest.param(piece("A", 0, 0, 19, 8), 19, 19, "left", id="the far edge is trimmed"),
        pytest.param(piece("A", 1, 0, 19, 8), 1, 1, "right", id="the near edge is trimmed"),
    ],
)
def test_an_edge_of_no_more_than_the_slack_is_trimmed_off(part, setting, at, side):
    [step] = cuts_of(cut("x", 19, part, whole=(0, 0, 20, 8)))
    assert (step.setting, step.at, [one.side for one in step.outcomes]) == (setting, at, [side])


def test_pieces_tell_what_is_kept_of_them_and_which_side_they_show():
    host = piece("A", 0, 0, 5, 8, cut_outs={"pane": offcut(0, 0, 2, 2)})
    [step] = cuts_of(cut("x", 5, host, piece("B", 5, 0, 7, 8, side="back", copy=3)))
    first, second = step.outcomes
    assert (first.keep, first.back, first.copy) == (("pane",), False, 1)
    assert (second.keep, second.back, second.copy) == ((), True, 3)


def test_from_behind_upright_cuts_are_measured_from_the_right_by_the_same_figures():
    assert _told(cuts_of(seen_from_behind(SHEET), from_behind=True)) == [
        (None, "x", 5, "right", [("left", "offcut"), ("right", "part")]),
        ((1, "right"), "y", 4, "bottom", [("bottom", "A"), ("top", "B")]),
    ]


def test_from_behind_the_slack_lies_on_the_other_side():
    tree = cut("x", 5, piece("A", 0, 0, 5, 8), piece("B", 6, 0, 4, 8))
    [step] = cuts_of(seen_from_behind(tree), from_behind=True)
    assert (step.setting, step.edge, step.at) == (5, "right", 5)
    assert [(one.side, one.area.x) for one in step.outcomes] == [("left", 0), ("right", 5)]


def test_from_behind_a_margin_at_the_left_is_one_at_the_right():
    tree = cut("x", 9, offcut(0, 0, 9, 4), piece("A", 10, 0, 20, 4))
    [step] = cuts_of(seen_from_behind(tree), from_behind=True)
    assert (step.setting, step.edge, step.at) == (10, "right", 20)
    assert [(one.side, one.kind) for one in step.outcomes] == [("left", "piece"), ("right", "offcut")]


@pytest.mark.parametrize("x", [0, 1], ids=["the far edge is trimmed", "the near edge is trimmed"])
def test_from_behind_edges_are_trimmed_by_the_same_figures(x):
    tree = cut("x", 19 if x == 0 else 1, piece("A", x, 0, 19, 8), whole=(0, 0, 20, 8))
    [before] = cuts_of(tree)
    [behind] = cuts_of(seen_from_behind(tree), from_behind=True)
    assert (behind.setting, behind.edge) == (before.setting, "right")
    assert behind.outcomes[0].area == Rectangle(1 - x, 0, 19, 8)
