"""The boxes of a few parts, worked out on paper. An offcut here is worth its area."""

from __future__ import annotations

import pytest

from layouts.cutting.blocks import Block
from layouts.cutting.boxes import MOST_BOXES, Boxes, Room, work
from layouts.cutting.rough import Laid


def boxes(*kinds: tuple[int, ...], size: tuple[int, int] = (20, 20), most_waste: int = 400) -> Boxes:
    """Kinds as (width, height, copies) or (width, height, copies, may turn)."""
    lies = [
        [Block.of(Laid(w, h, n)), *([Block.of(Laid(h, w, n))] if turns else [])]
        for n, (w, h, _, *turns) in enumerate(kinds)
    ]
    room = Room(*size, most_waste, lambda width, height: width * height)
    return Boxes(lies, [copies for _, _, copies, *_ in kinds], room)


@pytest.mark.parametrize(
    ("asked", "counts", "sizes"),
    [
        pytest.param(boxes((5, 9, 1)), (1,), {(5, 9, 0)}, id="a piece"),
        pytest.param(boxes((5, 9, 1, 1)), (1,), {(5, 9, 0), (9, 5, 0)}, id="a piece that turns"),
        pytest.param(boxes((5, 9, 2)), (2,), {(10, 9, 0), (5, 18, 0)}, id="two alike"),
        pytest.param(boxes((5, 9, 3)), (2,), {(10, 9, 0), (5, 18, 0)}, id="two of three"),
        pytest.param(boxes((5, 9, 1), (3, 2, 1)), (1, 1), {(8, 9, 21), (5, 11, 4)}, id="two that differ"),
        pytest.param(boxes((5, 9, 2), size=(9, 20)), (2,), {(5, 18, 0)}, id="too wide for the sheet"),
        pytest.param(boxes((5, 9, 3), size=(9, 20)), (3,), set(), id="they fit no sheet"),
        pytest.param(boxes((5, 9, 1), (3, 2, 1), most_waste=20), (1, 1), {(5, 11, 4)}, id="no more waste than said"),
        # 2 x 2 and two of 1 x 1: both beside it or above it, nothing is left; in a row, two are; round a corner, three.
        pytest.param(
            boxes((2, 2, 1), (1, 1, 2)), (1, 2), {(3, 2, 0), (2, 3, 0), (4, 2, 2), (2, 4, 2), (3, 3, 3)}, id="three",
        ),
    ],
)  # fmt: skip
def test_boxes(asked, counts, sizes):
    assert set(asked.sizes(counts)) == sizes


def test_a_box_is_filled_by_its_block():
    asked = boxes((5, 9, 1), (3, 2, 2))
    for number, (width, height, _) in enumerate(asked.sizes((1, 2))):
        block = asked.block((1, 2), number)
        assert (block.width, block.height, block.area) == (width, height, 45 + 12)


def test_few_boxes_are_kept_and_those_that_waste_least():
    asked = boxes(*((3 + n, 2 + n * n, 1, 1) for n in range(4)), size=(60, 60), most_waste=3600)
    areas = [width * height for width, height, _ in asked.sizes((1, 1, 1, 1))]
    assert len(areas) == MOST_BOXES
    assert areas == sorted(areas)


@pytest.mark.parametrize(
    ("copies", "pairs"),
    [
        pytest.param([1], 0, id="nothing to put together"),
        pytest.param([1, 1], 1, id="A beside B"),
        pytest.param([3], 2, id="one and one; one and two"),
        # Three pairs of two, and each of them with the third.
        pytest.param([1, 1, 1], 6, id="three that differ"),
    ],
)
def test_work_is_known_beforehand(copies, pairs):
    assert work(copies) == pairs
