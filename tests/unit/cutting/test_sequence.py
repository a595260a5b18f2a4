"""The order of cuts and their settings, worked out by hand on small sheets (ticks are plain numbers here)."""

from __future__ import annotations

import pytest

from layouts.cutting.behind import seen_from_behind
from layouts.cutting.sequence import CutStep, Rectangle, Taken, cuts_of, sequence_of
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
    """After the cut at 6, the two parts offer 5 across (long) and 3 up; 3 is what the trimmer stands at after 3."""
    left = cut("y", 3, piece("A", 0, 0, 6, 3), cut("y", 6, piece("B", 0, 3, 6, 3), offcut(0, 6, 6, 14)))
    right = cut("x", 11, piece("C", 6, 0, 5, 20), offcut(11, 0, 4, 20))
    steps = cuts_of(cut("x", 6, left, right))
    assert [(step.along, step.setting, step.length, step.is_same_setting, step.turns) for step in steps] == [
        ("x", 6, 20, False, 0),
        ("x", 5, 20, False, 0),  # another way in which nothing is turned: 3 first would be two turns
        ("y", 3, 6, False, 1),
        ("y", 3, 6, True, 0),
    ]


def test_an_equal_distance_after_a_quarter_turn_is_the_same_setting():
    """A square that is cut at 3 both ways: the part is turned, and the fence stays where it is."""
    left = cut("y", 3, piece("A", 0, 0, 3, 3), piece("B", 0, 3, 3, 9))
    right = cut("x", 6, piece("C", 3, 0, 3, 12), offcut(6, 0, 6, 12))
    sequence = sequence_of(cut("x", 3, left, right))
    assert [(step.along, step.setting, step.is_same_setting, step.turns) for step in sequence.steps] == [
        ("x", 3, False, 0),
        ("x", 3, True, 0),
        ("y", 3, True, 1),
    ]
    assert (sequence.settings, sequence.turns, sequence.fewest, sequence.is_fewest) == (1, 1, 1, True)


def test_a_setting_that_comes_back_later_is_waited_for():
    """Longest first would set 6, 5, 4, and 5 again: the cut at 4 frees a part of the column that is cut at 5, too."""
    freed = cut("x", 5, piece("A", 0, 0, 5, 4), offcut(5, 0, 1, 4))
    column = cut("y", 4, freed, offcut(0, 4, 6, 6))
    beside = cut("x", 11, piece("B", 6, 0, 5, 10), offcut(11, 0, 3, 10))
    steps = cuts_of(cut("x", 6, column, beside))
    assert [step.setting for step in steps] == [6, 4, 5, 5]


def test_strips_come_off_either_end_so_that_equal_ones_are_cut_together():
    """4, 2, 4 with nothing left over: 4 from the left, 4 from the right, and 2 is what is left."""
    tree = cut("x", 4, piece("A", 0, 0, 4, 9), cut("x", 6, piece("B", 4, 0, 2, 9), piece("C", 6, 0, 4, 9)))
    sequence = sequence_of(tree)
    assert _told(sequence.steps) == [
        (None, "x", 4, "left", [("left", "A"), ("right", "part")]),
        ((1, "right"), "x", 4, "right", [("left", "B"), ("right", "C")]),
    ]
    assert (sequence.settings, sequence.turns, sequence.fewest) == (1, 2, 1)


def test_strips_that_the_tree_halves_are_cut_off_one_by_one():
    """Four strips of 3: the tree cuts at 6 and then both halves; one setting does for all."""
    halves = [cut("x", x + 3, piece("A", x, 0, 3, 9), piece("A", x + 3, 0, 3, 9)) for x in (0, 6)]
    steps = cuts_of(cut("x", 6, *halves))
    assert [(step.setting, step.edge, step.part.x) for step in steps] == [
        (3, "left", 0),
        (3, "left", 3),
        (3, "left", 6),
    ]


def test_what_is_measured_is_kept_and_never_what_is_left_over():
    """What is left over lies between two pieces: each is measured from its own edge of the sheet."""
    left = cut("x", 2, piece("A", 0, 0, 2, 9), offcut(2, 0, 3, 9))
    assert _told(cuts_of(cut("x", 5, left, piece("B", 5, 0, 4, 9)))) == [
        (None, "x", 2, "left", [("left", "A"), ("right", "part")]),
        ((1, "right"), "x", 4, "right", [("left", "offcut"), ("right", "B")]),
    ]


def test_of_equally_long_cuts_the_lower_then_the_left_one_comes_first():
    lower = cut("x", 4, piece("A", 0, 0, 4, 6), offcut(4, 0, 5, 6))
    upper = cut("x", 5, piece("B", 0, 6, 5, 6), offcut(5, 6, 4, 6))
    assert [step.setting for step in cuts_of(cut("y", 6, lower, upper))] == [6, 4, 5]
    left = cut("y", 4, piece("A", 0, 0, 6, 4), offcut(0, 4, 6, 5))
    right = cut("y", 5, piece("B", 6, 0, 6, 5), offcut(6, 5, 6, 4))
    assert [step.setting for step in cuts_of(cut("x", 6, left, right))] == [6, 4, 5]


def test_what_the_cut_loses_lies_beyond_what_is_measured():
    """Slack 1: the piece of 5 is measured, and the other part begins at 6."""
    tree = cut("x", 5, piece("A", 0, 0, 5, 8), piece("B", 6, 0, 4, 8))
    [step] = cuts_of(tree)
    assert (step.setting, step.at, [one.side for one in step.outcomes]) == (5, 5, ["left", "right"])


def test_a_margin_is_measured_to_where_the_rest_begins():
    """A spoilt margin of 10 with slack 1: 9 fall off, 1 is lost, and the rest, with waste of its own, begins at 10."""
    rest = cut("y", 15, piece("A", 0, 10, 20, 5), offcut(0, 15, 20, 5))
    step, _ = cuts_of(cut("y", 9, offcut(0, 0, 20, 9), rest))
    assert (step.setting, step.at, step.edge) == (10, 10, "bottom")
    assert [(one.side, one.kind) for one in step.outcomes] == [("bottom", "offcut"), ("top", "part")]


def test_a_margin_beside_a_piece_is_what_is_left_of_measuring_the_piece():
    [step] = cuts_of(cut("y", 9, offcut(0, 0, 20, 9), piece("A", 0, 10, 20, 5)))
    assert (step.setting, step.at, step.edge) == (5, 10, "top")
    assert [(one.side, one.kind) for one in step.outcomes] == [("bottom", "offcut"), ("top", "piece")]


@pytest.mark.parametrize(
    ("part", "at", "side"),
    [
        pytest.param(piece("A", 0, 0, 19, 8), 19, "left", id="the far edge is trimmed"),
        pytest.param(piece("A", 1, 0, 19, 8), 1, "right", id="the near edge is trimmed"),
    ],
)
def test_an_edge_of_no_more_than_the_slack_is_trimmed_off(part, at, side):
    [step] = cuts_of(cut("x", 19, part, whole=(0, 0, 20, 8)))
    assert (step.setting, step.edge, step.at, [one.side for one in step.outcomes]) == (19, side, at, [side])


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
    assert (step.setting, step.edge, step.at) == (20, "left", 20)
    assert [(one.side, one.kind) for one in step.outcomes] == [("left", "piece"), ("right", "offcut")]


@pytest.mark.parametrize("x", [0, 1], ids=["the far edge is trimmed", "the near edge is trimmed"])
def test_from_behind_edges_are_trimmed_by_the_same_figures(x):
    tree = cut("x", 19 if x == 0 else 1, piece("A", x, 0, 19, 8), whole=(0, 0, 20, 8))
    [before] = cuts_of(tree)
    [behind] = cuts_of(seen_from_behind(tree), from_behind=True)
    assert (behind.setting, behind.edge) == (before.setting, "right" if before.edge == "left" else "left")
    assert behind.outcomes[0].area == Rectangle(1 - x, 0, 19, 8)


def test_a_part_that_is_put_aside_says_which_cut_takes_it_again():
    first, second = cuts_of(SHEET)
    assert [one.next_cut for one in first.outcomes] == [2, 0]
    assert [one.next_cut for one in second.outcomes] == [0, 0]


# 2 is narrower than the 3 that the trimmer holds.
NARROW = [
    pytest.param(cut("x", 2, piece("A", 0, 0, 2, 9), offcut(2, 0, 8, 9)), 8, "right", True, id="the rest is held"),
    pytest.param(cut("x", 2, piece("A", 0, 0, 2, 9), piece("B", 2, 0, 8, 9)), 8, "right", False, id="a piece is held"),
    pytest.param(cut("x", 8, piece("A", 0, 0, 8, 9), offcut(8, 0, 2, 9)), 8, "left", False, id="waste falls off"),
]


@pytest.mark.parametrize(("tree", "setting", "edge", "over_rest"), NARROW)
def test_a_strip_too_narrow_to_hold_is_cut_while_the_large_part_is_held(tree, setting, edge, over_rest):
    [step] = sequence_of(tree, narrowest=3).steps
    assert (step.setting, step.edge, step.is_held) == (setting, edge, True)


def test_a_strip_too_narrow_to_hold_is_the_last_of_its_part():
    """From the left 2, 5 and 4 would come; 2 can not be held: 4, then 5, and 2 is what is left."""
    rest = cut("x", 7, piece("B", 2, 0, 5, 9), piece("C", 7, 0, 4, 9))
    steps = sequence_of(cut("x", 2, piece("A", 0, 0, 2, 9), rest), narrowest=3).steps
    assert [(step.setting, step.edge, step.is_held, step.over_rest) for step in steps] == [
        (4, "right", True, False),
        (5, "right", True, False),
    ]


def test_where_nothing_can_be_held_the_cut_says_so():
    [step] = sequence_of(cut("x", 2, piece("A", 0, 0, 2, 9), piece("B", 2, 0, 2, 9)), narrowest=3).steps
    assert (step.setting, step.edge, step.is_held, step.over_rest) == (2, "left", False, False)


def test_a_long_plan_is_cut_by_rules_and_says_what_is_not_proven():
    """Seventy columns, each as wide as no other, and each with a piece as high as another column is wide.

    Columns come off at 70 settings; their pieces could be cut at some of these, but not searched through for which.
    """
    column, at = offcut(0, 0, 1, 1), sum(range(10, 80))
    column = offcut(at, 0, 5, 200)
    for wide in range(10, 80):
        at -= wide
        up = 10 + (wide * 7) % 70
        one = cut("y", up, piece("A", at, 0, wide, up), offcut(at, up, wide, 200 - up))
        column = cut("x", at + wide, one, column)
    sequence = sequence_of(column)
    assert len(sequence.steps) == 140
    assert sequence.fewest >= 70
    assert sequence.gap == sequence.settings - sequence.fewest


def test_of_narrow_strips_as_few_as_can_be_are_cut_without_being_held():
    """Strips of 2, 2 and 1 where 4 can be held: 1 comes off while the other two are held, and these are not.

    Either 2 first would leave 2 and 1, and neither cut would hold.
    """
    strips = cut("y", 4, cut("y", 2, piece("A", 0, 0, 8, 2), piece("A", 0, 2, 8, 2)), piece("B", 0, 4, 8, 1))
    tree = cut("y", 5, cut("x", 8, strips, piece("C", 8, 0, 1, 5)), piece("D", 0, 5, 9, 5))
    sequence = sequence_of(tree, narrowest=4)
    assert [(step.setting, step.edge, step.is_held, step.over_rest) for step in sequence.steps] == [
        (5, "bottom", True, False),
        (8, "left", True, False),
        (4, "bottom", True, True),
        (2, "bottom", False, False),
    ]
    assert (sequence.settings, sequence.turns, sequence.fewest) == (4, 2, 4)
