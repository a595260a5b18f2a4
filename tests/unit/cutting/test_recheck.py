"""Proofs checked again: what is no proof is not taken for one, and every proof that is given is found to be one."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from layouts.cutting.builds.deciding import decide
from layouts.cutting.recheck import has_no_plan, is_proof, prices_prove_short
from tests.unit.cutting.builds.questions import question
from tests.unit.cutting.exact import sheets_needed
from tests.unit.cutting.plans import problem

LISTS = Path(__file__).parents[2] / "reference" / "bench" / "kit_lists.json"
SHORT = [case for case in json.loads(LISTS.read_text())["cases"] if case["verdict"] == "short"]
ENOUGH = 10_000_000


@pytest.mark.parametrize(
    ("sheets", "kinds", "prices", "is_proof"),
    [
        # 10 x 10 holds four 4 x 4s, whatever they cost; nine are more than two sheets hold.
        pytest.param([(10, 10, 2)], [(4, 4, 9, False)], [3], True, id="nine where eight fit"),
        pytest.param([(10, 10, 2)], [(4, 4, 8, False)], [3], False, id="eight where eight fit"),
        pytest.param([(10, 10, 2)], [(4, 4, 9, False)], [0], False, id="worth nothing"),
        pytest.param([(10, 10, 2)], [(4, 4, 9, False)], [-1], False, id="worth less than nothing"),
        pytest.param([(10, 10, 2)], [(4, 4, 9, False)], [3, 3], False, id="more prices than kinds"),
        # The pinwheel: four bars and the middle are 9, and so are nine middles.
        pytest.param(
            [(3, 3, 1)], [(2, 1, 2, False), (1, 2, 2, False), (1, 1, 1, False)], [2, 2, 1], False, id="9 of 9"
        ),
        # 4 x 2 holds a 3 x 2 and a 1 x 2, or four 1 x 2s: 4 of the 5 that are wanted.
        pytest.param([(4, 2, 1)], [(3, 2, 1, False), (1, 2, 2, False)], [3, 1], True, id="5 of 4"),
        pytest.param([(4, 3, 1)], [(3, 2, 2, True)], [1], False, id="6 by area, and turned they fit"),
        pytest.param([(4, 3, 1)], [(3, 2, 2, False)], [1], True, id="neither beside nor above"),
        # Four on the 7 x 7, one on the 3 x 3.
        pytest.param([(7, 7, 1), (3, 3, 1)], [(3, 3, 5, False)], [1], False, id="two sizes, five"),
        pytest.param([(7, 7, 1), (3, 3, 1)], [(3, 3, 6, False)], [1], True, id="two sizes, six"),
        # Each sheet holds a 5 x 5 and a 3 x 5, which is 40: the 3 x 2 is one too many.
        pytest.param([(8, 5, 2)], [(5, 5, 2, False), (3, 5, 2, False), (3, 2, 1, False)], [25, 15, 1], True, id="full"),
    ],
)
def test_prices_are_a_proof_or_none(sheets, kinds, prices, is_proof):
    assert prices_prove_short(sheets, kinds, prices) == is_proof


TINY = st.lists(
    st.tuples(st.integers(1, 8), st.integers(1, 8), st.integers(1, 2), st.booleans()), max_size=4, min_size=1
)


def _fits(pieces, width: int, height: int, sheets: int) -> bool:
    needed = sheets_needed(problem(width, height, sheets, pieces))
    return needed is not None and needed <= sheets


@settings(max_examples=200, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(TINY, st.integers(4, 9), st.integers(4, 9), st.integers(1, 2), st.data())
def test_no_prices_whatever_prove_a_list_short_that_fits_and_trying_again_finds_out(
    pieces, width, height, sheets, data
):
    prices = data.draw(st.lists(st.integers(0, 40), min_size=len(pieces), max_size=len(pieces)))
    fits = _fits(pieces, width, height, sheets)
    assert not (fits and prices_prove_short([(width, height, sheets)], pieces, prices))
    assert has_no_plan([(width, height, sheets)], pieces, prices, ENOUGH) == (not fits)


@settings(max_examples=150, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@example([(1, 1, 1, False), (3, 5, 2, False), (3, 5, 2, True)], 4, 6, 3)  # of the last only one way fits
@given(TINY, st.integers(4, 9), st.integers(4, 9), st.integers(1, 3))
def test_every_proof_of_a_tiny_list_is_one(pieces, width, height, sheets):
    asked = question([(width, height, sheets)], pieces)
    for stage in ("first", "whole"):
        found = decide(asked | {"stage": stage})
        assert found["by"] is not None
        assert (found["by"] == "plan") == _fits(pieces, width, height, sheets)
        assert found["by"] == "plan" or is_proof(asked, found, ENOUGH)


# Every eleventh short list: fifteen proofs by prices, two by trying everything.
@pytest.mark.parametrize("case", [pytest.param(case, id=case["name"]) for case in SHORT[::11]])
def test_every_proof_of_a_kit_list_is_one(case: dict[str, Any]):
    sheets, pieces = case["sheets"], case["pieces"]
    asked = question(sheets, pieces)
    found = decide(asked)
    assert is_proof(asked, found, ENOUGH) is True
    if found["by"] == "prices":
        # A single piece of the first kind fits: the same prices prove nothing about it.
        fewer = [(width, height, 1, turns) for width, height, _, turns in pieces[:1]]
        assert not prices_prove_short(sheets, fewer, found["prices"][:1])


@pytest.mark.parametrize(
    "changed",
    [
        pytest.param({"copies": [10]}, id="a part that is more than all"),
        pytest.param({"copies": [-1]}, id="a part that is less than none"),
        pytest.param({"copies": [8]}, id="a part that fits"),
        pytest.param({"by": "too-big"}, id="a piece that fits a sheet"),
        pytest.param({"by": "plan"}, id="a plan"),
    ],
)
def test_an_answer_that_says_what_is_not_so_is_no_proof(changed):
    asked = question([(10, 10, 2)], [(4, 4, 9, False)])
    answer = {"by": "prices", "prices": [3], "copies": [9]}
    assert is_proof(asked, answer, ENOUGH) is True
    assert is_proof(asked, answer | changed, ENOUGH) is False


def test_more_pairs_than_one_may_look_at_prove_nothing():
    pinwheel = [(2, 1, 2, False), (1, 2, 2, False), (1, 1, 1, False)]
    assert has_no_plan([(3, 3, 1)], pinwheel, [2, 2, 1], 10) is None
