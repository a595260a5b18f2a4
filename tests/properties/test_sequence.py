"""What holds for the order of cuts of every tree: it can be carried out, whichever side of the sheet lies up."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from layouts.cutting.behind import seen_from_behind
from layouts.cutting.sequence import Rectangle, sequence_of
from tests.unit.cutting.trees import cut, offcut, piece

type Tree = dict[str, Any]


@st.composite
def trees(draw: st.DrawFn) -> Tree:
    """A sheet cut up at random, with slack, margins and edges that are only trimmed."""
    slack = draw(st.integers(0, 2))
    width, height = draw(st.integers(10, 60)), draw(st.integers(10, 60))
    letters = iter(f"P{number}" for number in range(1000))

    def grown(x: int, y: int, across: int, up: int, depth: int) -> Tree:
        along = draw(st.sampled_from(["x", "y", "end"])) if depth else "end"
        length = across if along == "x" else up
        if along == "end" or length < 3 + slack:
            return piece(next(letters), x, y, across, up) if draw(st.booleans()) else offcut(x, y, across, up)
        start = x if along == "x" else y
        first = draw(st.integers(1, length - 1))
        rest = length - first - slack
        whole = (x, y, across, up)

        def at(offset: int, size: int) -> Tree:
            if along == "x":
                return grown(x + offset, y, size, up, depth - 1)
            return grown(x, y + offset, across, size, depth - 1)

        if rest <= 0:
            return cut(along, start + first, at(0, first), whole=whole)
        # An offcut in front is a margin, as the engine makes them: what is kept lies behind it.
        return cut(along, start + first, at(0, first), at(first + slack, rest), whole=whole)

    return grown(0, 0, width, height, draw(st.integers(0, 5)))


def _nodes(tree: Tree) -> Iterator[Tree]:
    yield tree
    for part in tree.get("parts", ()):
        yield from _nodes(part)


def _area(node: Tree) -> Rectangle:
    return Rectangle(node["x"], node["y"], node["width"], node["height"])


def _lines(tree: Tree) -> list[tuple[str, int, int]]:
    """Every cut of a tree as a line: its direction, where it begins, and how long it is."""
    found = []
    for node in _nodes(tree):
        if "cut" in node:
            along = node["cut"]["along"]
            found.append((along, node["y"] if along == "x" else node["x"], node["height" if along == "x" else "width"]))
    return sorted(found)


@given(trees(), st.booleans(), st.sampled_from([None, 3, 8]))
def test_every_cut_is_made_once_and_its_part_came_out_of_an_earlier_one(tree, from_behind, narrowest):
    seen = seen_from_behind(tree) if from_behind else tree
    steps = sequence_of(seen, from_behind=from_behind, narrowest=narrowest).steps
    lines = sorted((step.along, step.part.y if step.along == "x" else step.part.x, step.length) for step in steps)
    assert lines == _lines(seen)
    for number, step in enumerate(steps, start=1):
        assert step.number == number
        if step.taken is None:
            assert step.part == _area(seen)
        else:
            assert step.taken.cut < number
            came = [one for one in steps[step.taken.cut - 1].outcomes if one.side == step.taken.side]
            assert [(one.kind, one.area, one.next_cut) for one in came] == [("part", step.part, number)]
    finished = [(one.kind, str(one.area)) for step in steps for one in step.outcomes if one.kind != "part"]
    leaves = [node for node in _nodes(seen) if "cut" not in node] if "cut" in seen else []
    assert sorted(finished) == sorted(("piece" if "piece" in one else "offcut", str(_area(one))) for one in leaves)


@given(trees(), st.booleans(), st.sampled_from([None, 3, 8]))
def test_the_line_runs_as_far_from_its_edge_as_the_setting_says_along_something_kept(tree, from_behind, narrowest):
    seen = seen_from_behind(tree) if from_behind else tree
    for step in sequence_of(seen, from_behind=from_behind, narrowest=narrowest).steps:
        low, span = (step.part.x, step.part.width) if step.along == "x" else (step.part.y, step.part.height)
        assert 0 < step.setting < span
        assert step.at == (low + span - step.setting if step.edge in ("right", "top") else low + step.setting)
        assert step.edge in (("left", "right") if step.along == "x" else ("bottom", "top"))
        ends = set()
        for one in step.outcomes:
            start = one.area.x if step.along == "x" else one.area.y
            ends |= {start, start + (one.area.width if step.along == "x" else one.area.height)}
        assert step.at in ends
        assert step.is_held == (step.setting >= (narrowest or 0))


@given(trees())
def test_turned_over_a_sheet_needs_as_many_settings_and_turns(tree):
    before, behind = sequence_of(tree), sequence_of(seen_from_behind(tree), from_behind=True)
    assert (behind.settings, behind.turns, behind.fewest) == (before.settings, before.turns, before.fewest)


@given(trees())
def test_turned_over_twice_a_sheet_lies_as_before(tree):
    again = seen_from_behind(seen_from_behind(tree))
    assert [_area(node) for node in _nodes(again)] == [_area(node) for node in _nodes(tree)]
