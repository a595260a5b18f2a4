"""Openings and what comes out of them, for any measures. Ticks; every judge here is exact and written apart."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from layouts.document import Opening, Point, Shape, Size
from layouts.lengths import Length
from layouts.shapes import contradictions, cut_out, is_inside, resolve
from layouts.shapes.polygons import largest_rectangle

LENGTHS = st.integers(1, 40_000)
SMALL = st.integers(1, 60)


def ticks(value: int) -> Length:
    return Length(value, "mm")


def offered(width: int, height: int, shape: Shape) -> tuple[int, int]:
    one = ticks(1)
    opening = Opening(left=one, width=ticks(width), bottom=one, height=ticks(height), shape=shape)
    found = cut_out(opening, Size(ticks(width + 2), ticks(height + 2)))
    return (found.width.ticks, found.height.ticks) if found else (0, 0)


@given(LENGTHS, LENGTHS, LENGTHS, LENGTHS, LENGTHS, LENGTHS)
def test_any_two_measures_of_an_axis_give_the_third(left, width, right, bottom, height, top):
    whole = Size(ticks(left + width + right), ticks(bottom + height + top))
    across = {"left": ticks(left), "width": ticks(width), "right": ticks(right)}
    upright = {"bottom": ticks(bottom), "height": ticks(height), "top": ticks(top)}
    for out in across:
        for lost in upright:
            fields = {name: length for name, length in (across | upright).items() if name not in (out, lost)}
            found = resolve(Opening(**fields), whole)
            assert {name: getattr(found, name) for name in across | upright} == across | upright
    every = Opening(**across, **upright)
    assert contradictions(every, whole) == ()
    assert is_inside(every, whole)
    assert len(contradictions(every, Size(whole.width + ticks(1), whole.height + ticks(1)))) == 2


def in_ellipse(width: int, height: int, across: int, upright: int) -> bool:
    return (across * height) ** 2 + (upright * width) ** 2 <= (width * height) ** 2


def in_arch(width: int, height: int, rise: int, across: int, upright: int) -> bool:
    over = upright - (height - rise)
    return across <= width and (over <= 0 or (across * rise) ** 2 + (over * width) ** 2 <= (width * rise) ** 2)


def in_rounded(width: int, height: int, radius: int, across: int, upright: int) -> bool:
    """In half ticks, so that half a side is a whole number."""
    least = min(2 * radius, width, height)
    x, y = least - (width - across), least - (height - upright)
    return across <= width and upright <= height and (x <= 0 or y <= 0 or x * x + y * y <= least * least)


def largest_of(fits, width: int, height: int) -> int:
    """The greatest area of a rectangle of whole ticks, by trying them all."""
    return max((a * b for a in range(width + 1) for b in range(height + 1) if fits(a, b)), default=0)


@given(LENGTHS, LENGTHS)
def test_the_rectangle_of_an_ellipse_lies_inside_and_no_side_can_grow_towards_the_best(width, height):
    across, upright = offered(width, height, Shape(kind="ellipse"))
    assert 2 * across**2 <= width**2 < 2 * (across + 1) ** 2 or across == upright == 0
    assert in_ellipse(width, height, across, upright)
    assert not in_ellipse(width, height, across + 1, upright + 1)


@given(LENGTHS, LENGTHS, st.data())
def test_the_rectangles_of_arches_and_rounded_openings_lie_inside_and_cannot_grow_both_ways(width, height, data):
    rise, radius = data.draw(st.integers(1, height)), data.draw(LENGTHS)
    across, upright = offered(width, height, Shape(kind="arch", rise=ticks(rise)))
    assert in_arch(width, height, rise, across, upright)
    assert not in_arch(width, height, rise, across + 1, upright + 1) or not across
    across, upright = offered(width, height, Shape(kind="rounded", radius=ticks(radius)))
    assert in_rounded(width, height, radius, across, upright)
    assert not in_rounded(width, height, radius, across + 1, upright + 1) or not across


@given(SMALL, SMALL, st.data())
def test_no_rectangle_in_a_small_curved_opening_is_larger(width, height, data):
    """Both sides of the best are less than a tick larger, so no area exceeds that of one tick more each way."""
    rise, radius = data.draw(st.integers(1, height)), data.draw(SMALL)
    for shape, fits in (
        (Shape(kind="ellipse"), lambda a, b: in_ellipse(width, height, a, b)),
        (Shape(kind="arch", rise=ticks(rise)), lambda a, b: in_arch(width, height, rise, a, b)),
        (Shape(kind="rounded", radius=ticks(radius)), lambda a, b: in_rounded(width, height, radius, a, b)),
    ):
        across, upright = offered(width, height, shape)
        assert not across or largest_of(fits, width, height) <= (across + 1) * (upright + 1)


def test_an_arch_higher_than_its_opening_is_still_judged_inside():
    """The curve starts below the base: rise 10 over a height of 6, 20 wide."""
    across, upright = offered(20, 6, Shape(kind="arch", rise=ticks(10)))
    assert in_arch(20, 6, 10, across, upright)
    assert largest_of(lambda a, b: in_arch(20, 6, 10, a, b), 20, 6) <= (across + 1) * (upright + 1)


# Polygons ------------------------------------------------------------------------------------------------------------

Corner = tuple[int, int]


def edges(corners):
    return list(pairwise((*corners, corners[0])))


def crosses_open_box(a, b, left, bottom, right, top) -> bool:
    """Whether a segment passes through the inside of a box (clipped to it, exactly)."""
    low, high = Fraction(0), Fraction(1)
    for start, step, least, most in ((a[0], b[0] - a[0], left, right), (a[1], b[1] - a[1], bottom, top)):
        if step == 0:
            if not least < start < most:
                return False
            continue
        first, last = sorted(((least - start) / Fraction(step), (most - start) / Fraction(step)))
        low, high = max(low, first), min(high, last)
    return low < high


def holds(corners, x, y) -> bool:
    """Whether a point off the outline lies inside: a ray to the right."""
    inside = False
    for (ax, ay), (bx, by) in edges(corners):
        if (ay > y) != (by > y) and ax + (y - ay) * Fraction(bx - ax, by - ay) > x:
            inside = not inside
    return inside


def box_inside(corners, left, bottom, right, top) -> bool:
    clear = not any(crosses_open_box(a, b, left, bottom, right, top) for a, b in edges(corners))
    return clear and holds(corners, (left + right) / Fraction(2), (bottom + top) / Fraction(2))


def widest(corners, bottom, top) -> Fraction:
    """The widest box between two heights: the largest gap between the shadows of the edges, if it is inside."""
    shadows = []
    for a, b in edges(corners):
        (ax, ay), (bx, by) = sorted((a, b), key=lambda corner: corner[1])
        low, high = max(ay, bottom), min(by, top)
        if ay == by:
            if bottom < ay < top:
                shadows.append(sorted((Fraction(ax), Fraction(bx))))
        elif low < high:
            at = [ax + (y - ay) * Fraction(bx - ax, by - ay) for y in (low, high)]
            shadows.append(sorted(at))
    best, reached = Fraction(0), None
    for start, end in sorted(shadows):
        if reached is not None and start - reached > best and box_inside(corners, reached, bottom, start, top):
            best = start - reached
        reached = end if reached is None else max(reached, end)
    return best


@st.composite
def polygons(draw, size: int) -> list[Corner]:
    """Polygons whose corners are all seen from a point within, so that no edges cross."""
    rays = [(1, 0), (3, 1), (1, 1), (1, 3), (0, 1), (-1, 3), (-1, 1), (-3, 1),
            (-1, 0), (-3, -1), (-1, -1), (-1, -3), (0, -1), (1, -3), (1, -1), (3, -1)]  # fmt: skip
    chosen = sorted(draw(st.sets(st.sampled_from(range(16)), min_size=3, max_size=9)))
    # A gap of half a turn or more would leave the middle outside, and the closing edge might cross another.
    assume(all((after - before) % 16 < 8 for before, after in pairwise((*chosen, chosen[0]))))
    far = 3 * size
    return [(far + rays[i][0] * (n := draw(st.integers(1, size))), far + rays[i][1] * n) for i in chosen]


ELL_LIKE = st.tuples(*[st.integers(1, 12)] * 4).map(
    lambda n: [(0, 0), (n[0] + n[1], 0), (n[0] + n[1], n[2]), (n[0], n[2]), (n[0], n[2] + n[3]), (0, n[2] + n[3])]
)


@given(polygons(5_000))
def test_the_rectangle_of_a_polygon_lies_inside_it(corners):
    found = largest_rectangle(corners)
    if found is not None:
        right, top = found.x + found.width, found.y + found.height
        assert box_inside(corners, found.x, found.y, right, top)


@given(polygons(6) | ELL_LIKE)
def test_no_rectangle_in_a_small_polygon_is_larger(corners):
    found = largest_rectangle(corners)
    across, upright = (found.width, found.height) if found else (0, 0)
    lowest, highest = min(y for _, y in corners), max(y for _, y in corners)
    for height in range(1, highest - lowest + 1):
        for halves in range(2 * (highest - lowest - height) + 1):
            bottom = lowest + Fraction(halves, 2)
            width = widest(corners, bottom, bottom + height)
            if height == upright:
                assert width < across + 1
            if found is not None or width >= 1:
                assert height * width < (across + 1) * max(upright, 1)


@given(polygons(500))
@settings(max_examples=30)
def test_a_polygon_offers_the_same_whichever_way_round_it_is_listed(corners):
    size = max(max(corner) for corner in corners)

    def offer(listed):
        return offered(size, size, Shape(kind="polygon", points=tuple(Point(ticks(x), ticks(y)) for x, y in listed)))

    assert offer(corners) == offer(corners[::-1]) == offer(corners[1:] + corners[:1])
