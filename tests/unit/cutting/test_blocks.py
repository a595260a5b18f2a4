"""Blocks, and where what they leave is cut off; worked out on paper. An offcut here is worth its area squared."""

from __future__ import annotations

import pytest

from layouts.cutting.blocks import Block, Spread, block_of, joined, turned
from layouts.cutting.rough import Laid, Waste, row

A, B, C = Laid(5, 9, 0), Laid(5, 2, 1), Laid(2, 2, 2)


def squared(width: int, height: int) -> int:
    return (width * height) ** 2


def test_a_block_is_a_tree_without_its_waste():
    tree = row("x", [row("y", [A, Waste(5, 1)]), row("y", [B, Waste(5, 8)]), Waste(3, 10)])
    block = block_of(tree)
    assert block is not None
    assert (block.width, block.height, block.area) == (10, 9, 55)
    assert block.sign == joined("x", [Block.of(A), Block.of(B)]).sign


def test_waste_alone_is_no_block():
    assert block_of(row("x", [Waste(2, 3), row("y", [Waste(1, 1), Waste(1, 2)])])) is None


def test_rows_of_one_axis_are_one_row():
    inner = joined("x", [Block.of(A), Block.of(B)])
    assert len(joined("x", [inner, Block.of(C)]).parts) == 3
    assert len(joined("y", [inner, Block.of(C)]).parts) == 2


def test_a_turned_block_has_its_axes_exchanged():
    block = turned(joined("x", [Block.of(A), Block.of(B)]))
    assert (block.width, block.height, block.along) == (9, 10, "y")
    assert [part.piece for part in block.parts] == [Laid(9, 5, 0), Laid(2, 5, 1)]


@pytest.mark.parametrize(
    ("block", "size", "tree", "worth"),
    [
        pytest.param(Block.of(A), (5, 9), A, 0, id="nothing left"),
        pytest.param(Block.of(C), (2, 5), row("y", [C, Waste(2, 3)]), 36, id="left on one axis"),
        pytest.param(
            # 8 x 3 and 6 x 2 are 576 and 144; 6 x 5 and 2 x 3 are 900 and 36.
            Block.of(C), (8, 5), row("x", [row("y", [C, Waste(2, 3)]), Waste(6, 5)]), 936, id="in a corner",
        ),
        pytest.param(
            # Off the whole first: 10 x 1 and 5 x 7 are 100 and 1225. Later: 5 x 1 and 5 x 8 are 25 and 1600.
            joined("x", [Block.of(A), Block.of(B)]), (10, 10),
            row("x", [row("y", [A, Waste(5, 1)]), row("y", [B, Waste(5, 8)])]), 1625, id="long columns of their own",
        ),
        pytest.param(
            # 10 x 5 and nothing else are 2500, two halves of it 1250.
            joined("x", [Block.of(A), Block.of(A)]), (10, 14),
            row("y", [row("x", [A, A]), Waste(10, 5)]), 2500, id="one strip above both",
        ),
        pytest.param(
            # What is beside both goes to the shorter: 6 x 7 and 1 x 2 are 1764 and 4, where 1 x 9 and 5 x 7 are 1306.
            joined("x", [Block.of(A), Block.of(B)]), (11, 9),
            row("x", [A, row("y", [row("x", [B, Waste(1, 2)]), Waste(6, 7)])]), 1768, id="beside and above the shorter",
        ),
    ],
)  # fmt: skip
def test_the_best_way_to_cut_off_what_is_left(block, size, tree, worth):
    spread = Spread(squared)
    assert spread.worth(block, *size) == worth
    assert spread.rough(block, *size) == tree
