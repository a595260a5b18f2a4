"""Whether lists are decided, and rightly. The independent judge tries everything on tiny lists."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from layouts.cutting.builds import deciding
from layouts.cutting.builds.grid import Grid
from layouts.cutting.builds.passing import Beam
from layouts.cutting.builds.valuing import valuations
from tests.unit.cutting.builds.questions import asked, decided, faults
from tests.unit.cutting.exact import sheets_needed
from tests.unit.cutting.plans import problem
from tests.unit.cutting.test_search import FIFTEEN

# Of the kit lists, proven short there: area and pairs of dual feasible functions allow the sheets there are.
C2_0 = ([(32, 32, 2)], [(20, 19, 2, False), (10, 13, 4, False), (8, 8, 8, False), (3, 10, 1, False), (3, 7, 8, False)])
C2_24 = ([(64, 64, 1)], [(43, 16, 4, True), (19, 16, 4, True), (19, 5, 1, True)])
PINWHEEL = ([(3, 3, 1)], [(2, 1, 2, False), (1, 2, 2, False), (1, 1, 1, False)])


@pytest.mark.parametrize(
    ("asking", "by"),
    [
        pytest.param(C2_0, "prices", id="prices, C2_0"),
        pytest.param(C2_24, "prices", id="prices, C2_24"),
        pytest.param(PINWHEEL, "exhausted", id="the pinwheel: it packs, but no cut begins it"),
        pytest.param(([(3, 3, 1)], [(1, 1, 9, False)]), "plan", id="nine units on 3 by 3"),
        pytest.param(([(3, 3, 1)], [(1, 1, 10, False)]), "prices", id="ten units on 3 by 3"),
        pytest.param(([(5, 5, 1)], [(6, 2, 1, True)]), "too-big", id="a piece too big"),
        # The 6 x 2 finds room on the wide sheet alone, the 3 x 3 on the square one.
        pytest.param(([(7, 2, 1), (3, 3, 1)], [(2, 6, 1, True), (3, 3, 1, False)]), "plan", id="two sizes of sheet"),
        pytest.param(([(7, 2, 2), (3, 3, 1)], [(2, 6, 1, True), (3, 3, 2, False)]), "prices", id="two sizes, short"),
    ],
)
def test_lists_are_decided(asking, by):
    sheets, pieces = asking
    found = decided(sheets, pieces)
    assert found["by"] == by
    assert by != "plan" or faults(sheets, pieces, found["plan"]) == []


SIZES = st.lists(
    st.tuples(st.integers(1, 8), st.integers(1, 8), st.integers(1, 2), st.booleans()), max_size=4, min_size=1
)


@settings(max_examples=300, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(SIZES, st.integers(4, 9), st.integers(4, 9), st.integers(1, 3))
def test_tiny_lists_are_all_decided_as_by_trying_everything(pieces, width, height, sheets):
    found = decided([(width, height, sheets)], pieces)
    needed = sheets_needed(problem(width, height, sheets, pieces))
    fits = needed is not None and needed <= sheets
    assert found["by"] in (["plan"] if fits else ["too-big", "prices", "exhausted"])
    if fits:
        assert faults([(width, height, sheets)], pieces, found["plan"]) == []
    elif needed is not None:
        assert found.get("at_least", 0) <= needed


@settings(max_examples=100, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(SIZES, st.integers(4, 9), st.integers(4, 9))
def test_a_sheet_split_into_sizes_is_decided_like_whole_ones(pieces, width, height):
    """Two sheets of one size named as two sizes of one sheet each: the same question in other words."""
    one, two = decided([(width, height, 2)], pieces), decided([(width, height, 1), (width, height, 1)], pieces)
    assert (one["by"] == "plan") == (two["by"] == "plan")
    assert two["by"] != "plan" or faults([(width, height, 1)] * 2, pieces, two["plan"]) == []


@settings(max_examples=100, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(SIZES, st.integers(4, 9), st.integers(1, 3))
def test_every_beam_is_honest(pieces, side, sheets):
    """A pass that threw something away proves nothing; one that did not agrees with trying everything."""
    narrow = {"first": deciding.Stage((Beam(16), Beam(16, "filling")), 10**9)}
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(deciding, "STAGES", narrow)
        found = decided([(side, side, sheets)], pieces)
    needed = sheets_needed(problem(side, side, sheets, pieces))
    fits = needed is not None and needed <= sheets
    assert found["by"] in (["plan", None] if fits else ["too-big", "prices", "exhausted", None])


# B97_24 of the kit lists: seven pieces on one sheet, 97 % of it.
SEVEN = (
    [(128, 128, 1)],
    [
        (65, 25, 1, True),
        (63, 58, 1, True),
        (62, 21, 1, False),
        (61, 46, 1, True),
        (36, 32, 1, False),
        (35, 69, 1, False),
        (28, 101, 1, False),
    ],
)


def test_a_pass_that_threw_builds_away_never_calls_a_list_exhausted(monkeypatch):
    # The list fits (L9_186 of the kit lists); one build for each class of value is too few to find that out.
    monkeypatch.setattr(deciding, "STAGES", {"first": deciding.Stage((Beam(16),), 10**9)})
    pieces = [(width, height, copies, bool(turns)) for width, height, copies, turns in FIFTEEN]
    assert decided([(96, 96, 2)], pieces)["by"] is None


# E20F15 of Clautiaux, Carlier and Moukrim 2007: with a fifth of the sheet to spare, yet its largest pieces do not fit.
E20F15 = (
    [(20, 20, 1)],
    [
        (1, 12, 1, False),
        (13, 5, 1, False),
        (2, 11, 1, False),
        (5, 10, 1, False),
        (13, 4, 1, False),
        (6, 2, 1, False),
        (3, 9, 1, False),
        (17, 2, 1, False),
        (8, 2, 1, False),
        (3, 2, 1, False),
        (1, 3, 2, False),
        (1, 5, 1, False),
        (1, 4, 1, False),
        (3, 3, 1, False),
    ],
)


def test_a_list_whose_largest_pieces_do_not_fit_is_short():
    found = decided(*E20F15, stage="whole")
    assert found["by"] == "exhausted"
    copies = found["copies"]
    assert sum(copies) < sum(piece[2] for piece in E20F15[1])
    # They are the largest: none that is left out has more area than one of them.
    kept, left = (
        [w * h for (w, h, *_), number in zip(E20F15[1], copies, strict=True) if bool(number) == is_kept]
        for is_kept in (True, False)
    )
    assert min(kept) >= max(left)


def test_a_part_that_fits_proves_nothing():
    # The half of nine units that is looked at first fits 3 by 3, and so do all nine.
    assert decided([(3, 3, 1)], [(1, 1, 9, False)], stage="whole")["by"] == "plan"


def test_steps_are_told_and_without_them_nothing_is_decided_that_prices_do_not_prove():
    found = decided(*SEVEN)
    assert found["by"] == "plan"
    assert found["steps"] > 0
    assert decided(*SEVEN, steps=0)["by"] is None
    assert decided(*C2_0, steps=0)["by"] == "prices"


@given(SIZES, st.integers(4, 9), st.integers(1, 3))
@settings(max_examples=60, deadline=None)
def test_the_tight_valuation_is_never_looser_than_that_by_area(pieces, side, sheets):
    what = asked([(side, side, sheets)], pieces)
    if not what.is_too_big:
        tight, by_area = valuations(Grid.of(what), what)
        assert not by_area.is_tighter(tight)
