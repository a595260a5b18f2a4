"""What must come before what: hand-drawn cases, and a comparison with trying every path."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layouts.assembly import Precedence


def _drawn(drawing: str) -> Precedence:
    """Read `a>b b>c d`: a before b, b before c, and d; names in order of first mention."""
    before: dict[str, list[str]] = {}
    for word in drawing.split():
        first, _, then = word.partition(">")
        before.setdefault(first, [])
        if then:
            before.setdefault(then, []).append(first)
    return Precedence(tuple(before), before)


@pytest.mark.parametrize(
    ("drawing", "first", "then", "answer"),
    [
        pytest.param("a>b", "a", "b", True, id="said so"),
        pytest.param("a>b", "b", "a", False, id="not the other way round"),
        pytest.param("a>b b>c", "a", "c", True, id="by way of another"),
        pytest.param("a>b c>b", "a", "c", False, id="side by side"),
        pytest.param("a>b", "a", "a", False, id="not before itself"),
        pytest.param("a>b b>a", "a", "a", True, id="in a circle before itself too"),
        pytest.param("a>b b>a b>c", "a", "c", True, id="out of a circle"),
    ],
)
def test_one_comes_before_another(drawing, first, then, answer):
    assert _drawn(drawing).precedes(first, then) is answer


@pytest.mark.parametrize(
    ("drawing", "circles"),
    [
        pytest.param("a>b b>c a>c", (), id="none"),
        # Check values 5.4: the cycle A→B→A must be reported with its members.
        pytest.param("a>b b>a", (("a", "b"),), id="two"),
        pytest.param("a>a b", (("a",),), id="one thing before itself"),
        pytest.param("a>b b>c c>a", (("a", "b", "c"),), id="three in turn"),
        pytest.param("c>b b>a a>c", (("c", "b", "a"),), id="begins with the first named, goes the way of the making"),
        pytest.param("a>b b>a c>d d>c", (("a", "b"), ("c", "d")), id="two knots"),
        pytest.param("a>b b>c c>d d>a c>a", (("a", "b", "c"),), id="the shortest of a knot"),
        pytest.param("x a>b b>a a>x", (("a", "b"),), id="what hangs on a circle is not in it"),
    ],
)
def test_circles_are_named_with_their_members(drawing, circles):
    assert _drawn(drawing).circles == circles


def test_what_may_come_next_is_taken_by_rank_and_then_as_named():
    making = _drawn("a b c>d e")

    assert making.in_turn_by(lambda name: {"e": -2, "d": -9}.get(name, 0)) == ("e", "a", "b", "c", "d")


def test_what_goes_in_a_circle_has_no_order_by_rank():
    with pytest.raises(ValueError, match="circle"):
        _drawn("a>b b>a").in_turn_by(lambda name: 0)


def test_thousands_in_a_row_are_no_matter():
    names = [f"s{n}" for n in range(20_000)]
    row = Precedence(names, {then: [first] for first, then in pairwise(names)})

    assert row.precedes("s0", "s19999")
    assert row.in_turn() == tuple(names)


_SMALL = st.lists(st.tuples(st.integers(0, 6), st.integers(0, 6)), max_size=14)


@given(_SMALL)
def test_answers_are_those_of_walking_every_path(pairs):
    names = tuple("abcdefg")
    before = {name: [names[first] for first, then in pairs if names[then] == name] for name in names}
    making = Precedence(names, before)

    reached = {(first, then) for then in names for first in before[then]}
    for _ in names:  # a path is no longer than there are names
        reached |= {(a, d) for a, b in reached for c, d in reached if b == c}
    assert {(a, b) for a in names for b in names if making.precedes(a, b)} == reached
    knotted = {name for name in names if (name, name) in reached}
    assert {name for circle in making.circles for name in circle} <= knotted
    assert bool(making.circles) == bool(knotted)
    for circle in making.circles:
        assert all(a in before[b] for a, b in zip(circle, (*circle[1:], circle[0]), strict=True))
    if not knotted:
        order = making.in_turn()
        assert all(order.index(a) < order.index(b) for a, b in reached)
