"""What comes out of an opening, as a rectangle that other pieces can be cut from."""

from __future__ import annotations

from collections.abc import Callable
from math import isqrt

from layouts.document import Opening, Shape, Size
from layouts.lengths import Length
from layouts.shapes.outlines import corner_radius, corners_of
from layouts.shapes.polygons import largest_rectangle
from layouts.shapes.windows import resolve

__all__ = ["cut_out"]


def cut_out(opening: Opening, whole: Size) -> Size | None:
    """Return the largest axis-parallel rectangle in what comes out of an opening, or None where there is none.

    A rect gives itself. Else width and height are those of the largest rectangle of all, each rounded down to a whole
    tick; of a polygon, see `polygons`. None: the opening has no positive size, or its polygon holds no tick.
    Raises: NotBuilt for a polygon of very many corners.

    >>> round_ = Opening(left=Length.of("1 in"), width=Length.of("2 in"), bottom=Length.of("1 in"),
    ...     height=Length.of("2 in"), shape=Shape(kind="ellipse"))
    >>> cut_out(round_, Size.of("4", "4")).width.ticks  # 2 × 8128 / √2 = 11494.7…
    11494
    """
    aperture = resolve(opening, whole)
    width, height = aperture.width.ticks, aperture.height.ticks
    if width <= 0 or height <= 0:
        return None
    if opening.shape.kind == "rect":
        return aperture.size
    across, upright = _INSCRIBED[opening.shape.kind](opening.shape, width, height)
    if across < 1 or upright < 1:
        return None
    return Size(Length(across, aperture.width.system), Length(upright, aperture.height.system))


def _in_ellipse(_: Shape, width: int, height: int) -> tuple[int, int]:
    """Both sides over √2: the corners lie at 45° in the ellipse's own measure (text exercise, from memory)."""
    return isqrt(width * width // 2), isqrt(height * height // 2)


def _in_arch(shape: Shape, width: int, height: int) -> tuple[int, int]:
    """The rectangle stands on the base and touches the curve.

    With k = height - rise below the curve and the upper corners at the fraction u of the half width, its area is
    proportional to u (k + rise √(1 - u²)), which is concave in u. Its derivative is zero where c = √(1 - u²) solves
    2 rise c² + k c - rise = 0. With D = k² + 8 rise²: c = (√D - k) / 4 rise; the height is k + rise c = (3 k + √D) / 4
    and the width w √(1 - c²), where 1 - c² = (4 rise² - k² + k √D) / 8 rise².
    Source: derived here; with k = 0 it is the half disc, w / √2 by r / √2 (text exercise, from memory).
    """
    rise = shape.rise.ticks if shape.rise else 0
    below = height - rise
    square = below * below + 8 * rise * rise
    upright = (3 * below + isqrt(square)) // 4
    # Whole numbers n ≤ x ± √y: the root is rounded towards what keeps n on the safe side, exactly.
    root = width * width * below
    root = isqrt(root * root * square) if below >= 0 else -_root_up(root * root * square)
    eighths = width * width * (4 * rise * rise - below * below) + root
    return isqrt(max(eighths, 0) // (8 * rise * rise)), upright


def _in_rounded(shape: Shape, width: int, height: int) -> tuple[int, int]:
    """The corners lie on the quarter circles; p and q, from a circle's centre to the corner, satisfy p² + q² = r².

    With the straight parts A and B of the sides, the area (A + 2p)(B + 2q) is greatest where p (A + 2p) = q (B + 2q),
    whose left side rises and right side falls with p: each side is found by halving, with exact comparisons.
    Source: derived here (Lagrange); with A = B both are r / √2.
    """
    double = corner_radius(shape, width, height)
    straight = (width - double, height - double)
    return _rounded_side(double, *straight), _rounded_side(double, *reversed(straight))


def _rounded_side(double_radius: int, straight: int, other: int) -> int:
    """The side along `straight`, rounded down; lengths in ticks, the radius given twice."""

    def short_of_best(side: int) -> bool:
        """Whether p (A + 2p) ≤ q (B + 2q) at this side, with P = 2p and Q = 2q: P side ≤ Q B + Q²."""
        reach = side - straight
        square = double_radius * double_radius - reach * reach
        lacking = reach * side - square
        return lacking <= 0 or lacking * lacking <= other * other * square

    low, high = straight, straight + double_radius
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if short_of_best(middle) else (low, middle - 1)
    return low


def _in_polygon(shape: Shape, _width: int, _height: int) -> tuple[int, int]:
    found = largest_rectangle(corners_of(shape))
    return (found.width, found.height) if found is not None else (0, 0)


def _root_up(square: int) -> int:
    root = isqrt(square)
    return root if root * root == square else root + 1


_INSCRIBED: dict[str, Callable[[Shape, int, int], tuple[int, int]]] = {
    "ellipse": _in_ellipse,
    "arch": _in_arch,
    "rounded": _in_rounded,
    "polygon": _in_polygon,
}
