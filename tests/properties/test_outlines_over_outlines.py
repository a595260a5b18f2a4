"""Outlines over each other, against distances of circles, clipped triangles and points that lie in both."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from hypothesis import assume, given
from hypothesis import strategies as st

from layouts.document import Shape
from layouts.document.values import Point
from layouts.lengths import Length
from layouts.shapes.faces.holes import Corner, Hole, area_of
from layouts.shapes.faces.rectangles import Rectangle
from layouts.shapes.faces.sharing import outlines_share_area

_OVAL = Shape(kind="ellipse")
_PLACE = st.integers(-40, 40)
_SPOT = st.tuples(st.integers(0, 12), st.integers(0, 12))


def _around(left: Fraction, bottom: Fraction, width: int, height: int, shape: Shape) -> Hole:
    return Hole("", "", Rectangle(left, bottom, left + width, bottom + height), shape)


def _polygon(corners: list[tuple[int, int]]) -> Hole:
    left, bottom = min(x for x, _ in corners), min(y for _, y in corners)
    width, height = max(x for x, _ in corners) - left, max(y for _, y in corners) - bottom
    points = tuple(Point(Length(x - left, "mm"), Length(y - bottom, "mm")) for x, y in corners)
    return _around(Fraction(left), Fraction(bottom), width, height, Shape(kind="polygon", points=points))


def _side(a: Corner, b: Corner, c: Corner) -> Fraction:
    """Positive when c lies left of the line from a to b."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _common_area(one: list[Corner], other: list[Corner]) -> Fraction:
    """The area common to two triangles: one clipped by the sides of the other."""
    if _side(*other) < 0:
        other = other[::-1]
    for a, b in pairwise((*other, other[0])):
        left: list[Corner] = []
        for p, q in pairwise((*one, one[0])) if one else ():
            at_p, at_q = _side(a, b, p), _side(a, b, q)
            if at_p >= 0:
                left.append(p)
            if at_p * at_q < 0:
                share = at_p / (at_p - at_q)
                left.append((p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])))
        one = left
    return area_of(one)


@given(st.integers(1, 20), st.integers(1, 20), _PLACE, _PLACE, st.sampled_from((1, 2, 3, 7)))
def test_circles_share_an_area_where_their_middles_are_nearer_than_both_radii(first, second, x, y, over):
    """Radii in hundreds of ticks. Chords take less than 1/4096 of a radius from each: nearer is not asked."""
    one = _around(Fraction(-100 * first), Fraction(-100 * first), 200 * first, 200 * first, _OVAL)
    middle = Fraction(100 * x, over), Fraction(100 * y, over)
    other = _around(middle[0] - 100 * second, middle[1] - 100 * second, 200 * second, 200 * second, _OVAL)
    apart, reach = middle[0] ** 2 + middle[1] ** 2, Fraction(100 * (first + second)) ** 2
    assume(not reach * Fraction(2047, 2048) <= apart < reach)

    assert outlines_share_area(one, other) is (apart < reach)


@given(st.lists(_SPOT, min_size=3, max_size=3), st.lists(_SPOT, min_size=3, max_size=3))
def test_triangles_share_an_area_where_one_clipped_by_the_other_leaves_some(one, other):
    first, second = ([(Fraction(x), Fraction(y)) for x, y in corners] for corners in (one, other))
    assume(area_of(first) and area_of(second))

    assert outlines_share_area(_polygon(one), _polygon(other)) is (_common_area(first, second) > 0)


@given(
    st.lists(st.integers(0, 12), min_size=2, max_size=6),
    st.lists(st.integers(0, 12), min_size=2, max_size=6),
    st.integers(-14, 14),
    st.integers(-14, 14),
)
def test_stairs_share_an_area_where_a_point_lies_in_both(one, other, x, y):
    """Towers of whole tenths side by side, each on the ground: every square that both hold has its middle in both."""

    def tower(heights: list[int]) -> list[tuple[int, int]]:
        """The outline of towers 2 wide, one higher than its height so that none is nothing."""
        top = [(2 * at + step, high + 1) for at, high in enumerate(heights) for step in (0, 2)]
        return [(0, 0), (2 * len(heights), 0), *reversed(top)]

    first, second = _polygon(tower(one)), _polygon([(a + x, b + y) for a, b in tower(other)])
    squares = [
        {
            (2 * at + step + right, low + up)
            for at, high in enumerate(heights)
            for step in (0, 1)
            for low in range(high + 1)
        }
        for heights, right, up in ((one, 0, 0), (other, x, y))
    ]

    assert outlines_share_area(first, second) is bool(squares[0] & squares[1])


@given(
    st.sampled_from(("ellipse", "arch", "rounded")),
    st.integers(2, 40),
    st.integers(2, 40),
    st.integers(0, 3),
    st.lists(_SPOT, min_size=3, max_size=3),
    _PLACE,
    _PLACE,
)
def test_what_lies_in_a_curve_and_in_a_triangle_is_found(kind, width, height, turns, corners, x, y):
    """Against a grid of points: one well in both is a shared area; without any in either rectangle there is none."""
    assume(area_of([(Fraction(a), Fraction(b)) for a, b in corners]))
    size = Length(1 + min(width, height) // 2, "mm")
    shape = {
        "ellipse": _OVAL,
        "arch": Shape(kind="arch", rise=size),
        "rounded": Shape(kind="rounded", radius=size),
    }[kind]
    curve = _around(Fraction(0), Fraction(0), width, height, shape).turned(
        90 * turns, Fraction(width), Fraction(height)
    )
    triangle = _polygon([(a + x // 2, b + y // 2) for a, b in corners])
    spots = triangle.corners()
    inner = [
        (
            (spots[0][0] * i + spots[1][0] * j + spots[2][0] * k) / 8,
            (spots[0][1] * i + spots[1][1] * j + spots[2][1] * k) / 8,
        )
        for i in range(1, 7)
        for j in range(1, 8 - i)
        for k in [8 - i - j]
    ]
    found = outlines_share_area(curve, triangle)
    assert outlines_share_area(triangle, curve) is found
    if any(_is_well_inside(curve, spot) for spot in inner):
        assert found is True
    if curve.around.common(triangle.around) is None:
        assert found is False


def _is_well_inside(curve: Hole, spot: Corner) -> bool:
    """Whether a small square about a point lies in a convex outline."""
    x, y = spot
    by = Fraction(1, 8)
    return curve.encloses([(x - by, y - by), (x + by, y - by), (x + by, y + by), (x - by, y + by)])
