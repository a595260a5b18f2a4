"""From rough sheets to cut trees; every expected tree is worked out on paper."""

from __future__ import annotations

from layouts.cutting import Cut, Item, Offcut, Problem, Region, Taken, taken
from layouts.cutting.reduced import reduced
from layouts.cutting.regions import regions, regions_of, roughs_of
from layouts.cutting.rough import Laid, Rough, Split, Waste, row
from tests.unit.cutting.plans import faults, problem


def test_a_plan_in_units_becomes_a_tree_in_ticks():
    asked = problem(100, 70, 1, [(40, 30, 2)])
    small = reduced(asked)  # units of 40 by 30: the sheet is 2 by 2
    assert small is not None
    rough = row("y", [row("x", [Laid(1, 1, 0), Laid(1, 1, 0)]), Waste(2, 1)])
    (sheet,) = regions(asked, small, [rough])
    low = Region(
        0, 0, 100, 30,
        Cut("x", 40, (
            Region(0, 0, 40, 30, Taken("P00", False)),
            Region(40, 0, 60, 30, Cut("x", 80, (
                Region(40, 0, 40, 30, Taken("P00", False)),
                Region(80, 0, 20, 30, Offcut()),
            ))),
        )),
    )  # fmt: skip
    assert sheet == Region(0, 0, 100, 70, Cut("y", 30, (low, Region(0, 30, 100, 40, Offcut()))))


def test_slack_lies_between_the_parts_of_a_cut():
    asked = problem(21, 5, 1, [(10, 5, 2)], slack=1)
    small = reduced(asked)
    assert small is not None
    (sheet,) = regions(asked, small, [row("x", [Laid(1, 1, 0), Laid(1, 1, 0)])])
    parts = (Region(0, 0, 10, 5, Taken("P00", False)), Region(11, 0, 10, 5, Taken("P00", False)))
    assert sheet == Region(0, 0, 21, 5, Cut("x", 10, parts))


def test_a_rest_of_no_more_than_the_slack_is_lost():
    asked = problem(12, 5, 1, [(10, 5, 1)], slack=2)
    small = reduced(asked)
    assert small is not None
    (sheet,) = regions(asked, small, [Laid(1, 1, 0)])
    assert sheet == Region(0, 0, 12, 5, Cut("x", 10, (Region(0, 0, 10, 5, Taken("P00", False)),)))


def test_a_rest_of_more_than_the_slack_is_an_offcut():
    asked = problem(13, 5, 1, [(10, 5, 1)], slack=2)
    small = reduced(asked)
    assert small is not None
    (sheet,) = regions(asked, small, [Laid(1, 1, 0)])
    parts = (Region(0, 0, 10, 5, Taken("P00", False)), Region(12, 0, 1, 5, Offcut()))
    assert sheet == Region(0, 0, 13, 5, Cut("x", 10, parts))


def test_copies_of_one_kind_are_handed_out_by_key():
    items = (Item("B", 10, 20, 1, True, True), Item("A", 20, 10, 1, True, True))
    asked = Problem(40, 10, 1, items)
    small = reduced(asked)
    assert small is not None
    (sheet,) = regions(asked, small, [row("x", [Laid(1, 1, 0), Laid(1, 1, 0)])])
    # Both lie 20 wide and 10 high: A upright, B on its side.
    assert [what for _, what in taken(sheet)] == [Taken("A", False), Taken("B", True)]


def test_a_square_that_may_lie_on_its_side_only_is_said_to_lie_so():
    asked = Problem(10, 10, 1, (Item("A", 10, 10, 1, False, True),))
    small = reduced(asked)
    assert small is not None
    (sheet,) = regions(asked, small, [Laid(1, 1, 0)])
    assert sheet.what == Taken("A", True)


def test_a_hundred_strips_do_not_make_a_tree_a_hundred_deep():
    asked = problem(100, 5, 1, [(1, 5, 100)])
    small = reduced(asked)
    assert small is not None
    (sheet,) = regions(asked, small, [row("x", [Laid(1, 1, 0)] * 100)])
    assert faults(asked, [sheet]) == ()
    assert _depth(sheet) <= 20  # halved thrice to 12 or 13 strips, then one by one


def _depth(region: Region) -> int:
    return 1 + max(map(_depth, region.what.parts)) if isinstance(region.what, Cut) else 1


def test_a_plan_is_read_back_as_it_was_written():
    items = (Item("A", 30, 20, 3, True, True), Item("B", 10, 50, 1, True, False))
    asked = Problem(100, 60, 2, items, 2)
    small = reduced(asked)
    assert small is not None
    a, b = Laid(32, 22, 0), Laid(12, 52, 1)
    first = row("x", [row("y", [a, a, Waste(32, 18)]), row("y", [b, Waste(12, 10)]), Waste(58, 62)])
    second = row("y", [row("x", [a, Waste(70, 22)]), Waste(102, 40)])
    assert roughs_of(asked, small, regions_of(asked, small, [first, second])) == [_binary(first), _binary(second)]


def test_what_was_lost_to_a_cut_is_read_back_as_waste():
    asked = problem(12, 5, 1, [(10, 5, 1)], slack=2)
    small = reduced(asked)
    assert small is not None
    written = regions(asked, small, [Laid(1, 1, 0)])
    assert roughs_of(asked, small, written) == [row("x", [Laid(12, 7, 0), Waste(2, 7)])]


def _binary(rough: Rough) -> Rough:
    """The tree as it is cut: one part after the other."""
    if not isinstance(rough, Split):
        return rough
    *others, last = map(_binary, rough.parts)
    for part in reversed(others):
        last = row(rough.along, [part, last])
    return last
