"""The order with the fewest settings, then turns, against one that tries every order there is.

The other way shares no code with the first: it walks through all orders, one cut after the other, in plain recursion.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layouts.cutting.sequence import sequence_of
from layouts.cutting.sequence.bounds import settings_needed
from layouts.cutting.sequence.exact import searched
from layouts.cutting.sequence.greedy import cost_of, greedy
from layouts.cutting.sequence.strips import parts_of
from layouts.cutting.sequence.ways import Sheet
from tests.unit.cutting.trees import cut, offcut, piece

type Tree = dict[str, Any]
# What lies side by side: from where to where, and what it is.
type Row = tuple[str, tuple[tuple[int, int, Tree | None], ...]]
type Cost = tuple[int, int, int]

_SIDES = {"x": ("left", "right"), "y": ("bottom", "top")}
_CLOCK = ["left", "bottom", "right", "top"]


@st.composite
def small_trees(draw: st.DrawFn) -> Tree:
    """A sheet of up to seven cuts whose parts are a few units wide, so that settings meet again."""
    rest = [draw(st.integers(1, 7))]
    slack = draw(st.sampled_from([0, 0, 1]))

    def grown(x: int, y: int, across: int, up: int) -> Tree:
        along = draw(st.sampled_from("xy"))
        length = across if along == "x" else up
        if not rest[0] or length < 3 + slack:
            return piece("A", x, y, across, up) if draw(st.integers(0, 3)) else offcut(x, y, across, up)
        rest[0] -= 1
        first = draw(st.integers(1, length - slack))
        sizes = [(0, first), (first + slack, length - first - slack)]
        parts = [
            grown(x + at, y, size, up) if along == "x" else grown(x, y + at, across, size)
            for at, size in sizes
            if size > 0
        ]
        return cut(along, (x if along == "x" else y) + first, *parts, whole=(x, y, across, up))

    tree = grown(0, 0, draw(st.integers(6, 12)), draw(st.integers(6, 12)))
    # With a slack of 0, a part as wide as the whole would be a cut of nothing.
    return tree if _is_sound(tree) else piece("A", 0, 0, 5, 5)


def _is_sound(node: Tree) -> bool:
    if "cut" not in node:
        return True
    alone = len(node["parts"]) == 1
    same = alone and all(node["parts"][0][side] == node[side] for side in ("width", "height"))
    return not same and all(_is_sound(part) for part in node["parts"])


def _fills(node: Tree, along: str) -> bool:
    if "cut" not in node:
        return "piece" in node
    parts = [_fills(part, along) for part in node["parts"]]
    if node["cut"]["along"] == along:
        return len(parts) == 2 and all(parts)
    return any(parts)


def _flat(node: Tree, along: str) -> list[Tree]:
    if "cut" in node and node["cut"]["along"] == along and len(node["parts"]) == 2:
        return [one for part in node["parts"] for one in _flat(part, along)]
    return [node]


def _row(node: Tree) -> Row:
    along = node["cut"]["along"]
    low, span = ("x", "width") if along == "x" else ("y", "height")
    parts = _flat(node, along) if len(node["parts"]) == 2 else node["parts"]
    strips: list[tuple[int, int, Tree | None]] = [(one[low], one[low] + one[span], one) for one in parts]
    if len(strips) == 1:
        start, end = node[low], node[low] + node[span]
        [(begins, ends, _)] = strips
        strips = [(start, begins, None), *strips] if begins > start else [*strips, (ends, end, None)]
    return along, tuple(strips)


def _moves(row: Row, narrowest: int) -> Iterator[tuple[int, str, bool, list[Row]]]:
    """Every cut that can be made of a row: the setting, the edge at the fence, whether it holds, what is left."""
    along, strips = row
    start, stop = strips[0][0], strips[-1][1]
    good = [end for end in (0, -1) if (node := strips[end][2]) is not None and _fills(node, along)] or [0]
    for end in good:
        begins, ends, node = strips[end]
        kept = node is not None and "offcut" not in node
        if end == 0:
            line = ends if kept else strips[1][0]
            own, other = line - start, stop - line
        else:
            line = begins if kept else strips[-2][1]
            own, other = stop - line, line - start
        edges = _SIDES[along] if end == 0 else _SIDES[along][::-1]
        left = [strips[1:] if end == 0 else strips[:-1], (strips[end],)]
        after: list[Row] = []
        for side in left:
            if len(side) > 1:
                after.append((along, side))
            elif (alone := side[0][2]) is not None and "cut" in alone:
                after.append(_row(alone))
        if own < narrowest <= other:
            yield other, edges[1], True, after
        else:
            yield own, edges[0], own >= narrowest, after


def _best(tree: Tree, narrowest: int) -> Cost:
    """The least of all orders: cuts that do not hold, settings, quarter turns."""
    best: list[Cost] = [(99, 99, 99)]

    def walk(rows: list[Row], cost: Cost, setting: int | None, edge: str | None) -> None:
        if cost >= best[0]:
            return
        if not rows:
            best[0] = cost
        for number, row in enumerate(rows):
            for wanted, at, holds, after in _moves(row, narrowest):
                apart = 0 if edge is None else (_CLOCK.index(edge) - _CLOCK.index(at)) % 4
                further = (cost[0] + (not holds), cost[1] + (wanted != setting), cost[2] + min(apart, 4 - apart))
                walk([*rows[:number], *rows[number + 1 :], *after], further, wanted, at)

    walk([_row(tree)] if "cut" in tree else [], (0, 0, 0), None, None)
    return best[0]


@given(small_trees(), st.sampled_from([0, 0, 2, 3, 4]))
def test_no_order_is_better_than_the_one_found(tree, narrowest):
    sequence = sequence_of(tree, narrowest=narrowest)
    unheld = sum(not step.is_held for step in sequence.steps)
    assert (unheld, sequence.settings, sequence.turns) == _best(tree, narrowest)
    assert sequence.fewest == sequence.settings


@given(small_trees(), st.sampled_from([0, 0, 2, 3, 4]), st.integers(0, 40))
def test_what_is_said_to_be_needed_is_no_more_than_the_best_order_needs(tree, narrowest, steps):
    sheet = Sheet(parts_of(tree), from_behind=False, narrowest=narrowest)
    best = _best(tree, narrowest)
    assert searched(sheet, steps).at_least <= best
    assert searched(sheet, steps, turning=False).at_least[:2] <= best[:2]
    assert searched(sheet, 10_000, turning=False).at_least == (*best[:2], 0)
    assert settings_needed(sheet) <= best[1]
    assert cost_of(greedy(sheet)) >= best


ORDERS = [
    pytest.param([2, 3, 2, 3, 2, 3], 3, id="two widths in turn"),
    pytest.param([2, 2, 2, 2], 1, id="all alike"),
    pytest.param([1, 2, 3, 4], 3, id="none alike"),
    pytest.param([4, 1, 4], 1, id="alike at both ends"),
]


@pytest.mark.parametrize(("widths", "settings"), ORDERS)
def test_strips_of_a_full_sheet_by_hand(widths, settings):
    """Of two widths in turn, 2 comes off the left; 3 off both ends of 3, 2, 3, 2, 3; 2 off both ends of 2, 3, 2."""
    tree, at = None, sum(widths)
    for width in reversed(widths):
        at -= width
        strip = piece("A", at, 0, width, 9)
        tree = strip if tree is None else cut("x", at + width, strip, tree)
    assert tree is not None
    assert sequence_of(tree).settings == settings == _best(tree, 0)[1]
