"""The judge on plans written by hand: good ones pass, and every single fault is found.

Sources: the guillotine checker vectors (a pinwheel packs 3 x 3 but cannot be cut from edge to edge, the grid of units
can) and the optimal layout of cgcut1 (Christofides and Whitlock 1977, value 244), both recomputed from the definition.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Any

import pytest

from layouts.cutting import CutOut, Sheet, Wanted, verify_plan

ANY = frozenset({0, 90, 180, 270})
ONE = frozenset({1})

type Node = dict[str, Any]
type Box = tuple[int, int, int, int]


def _piece(x: int, y: int, width: int, height: int, name: str, number: int = 1, turn: int = 0, **more: Any) -> Node:
    place = {"x": x, "y": y, "width": width, "height": height}
    return place | {"piece": name, "copy": number, "turn": turn} | more


def _offcut(x: int, y: int, width: int, height: int) -> Node:
    return {"x": x, "y": y, "width": width, "height": height, "offcut": True}


def _cut(x: int, y: int, width: int, height: int, along: str, at: int, *parts: Node) -> Node:
    place = {"x": x, "y": y, "width": width, "height": height}
    return place | {"cut": {"along": along, "at": at}, "parts": list(parts)}


def _sheets(*trees: Node) -> list[dict[str, Any]]:
    return [{"sheet": number, "tree": tree} for number, tree in enumerate(trees, start=1)]


# Two sheets of 20 x 10 with spoilt margins of 2 at the left and 1 at the top, a slack of 1, and two pieces.
SHEET = Sheet(20, 10, 2, 0, 20, 9, 1, 2)
WANTED = {"A": Wanted(8, 5, frozenset({1, 2}), frozenset({0, 180})), "B": Wanted(9, 3, ONE, frozenset({90}))}


class Good:
    """A good plan in its parts, so that a test can spoil one of them.

    On the first sheet the margin at the left is cut off (1 of it is the cut's own), then the one at the top, which its
    cut takes whole; then a column with A below an offcut, and B on its side beside one. On the second the other A.
    """

    def __init__(self) -> None:
        self.a = _piece(2, 0, 8, 5, "A", 1)
        self.above = _offcut(2, 6, 8, 3)
        self.column = _cut(2, 0, 8, 9, "y", 5, self.a, self.above)
        self.b = _piece(11, 0, 3, 9, "B", 1, 90)
        self.strip = _cut(11, 0, 9, 9, "x", 14, self.b, _offcut(15, 0, 5, 9))
        self.usable = _cut(2, 0, 18, 9, "x", 10, self.column, self.strip)
        self.topped = _cut(2, 0, 18, 10, "y", 9, self.usable)
        self.first = _cut(0, 0, 20, 10, "x", 1, _offcut(0, 0, 1, 10), self.topped)
        self.other_a = _piece(2, 0, 8, 5, "A", 2, 180)
        self.corner = _cut(2, 0, 8, 10, "y", 5, self.other_a, _offcut(2, 6, 8, 4))
        self.rest = _cut(2, 0, 18, 10, "x", 10, self.corner, _offcut(11, 0, 9, 10))
        self.second = _cut(0, 0, 20, 10, "x", 1, _offcut(0, 0, 1, 10), self.rest)
        self.plan = _sheets(self.first, self.second)


def test_a_good_plan_has_no_faults():
    assert verify_plan(Good().plan, SHEET, WANTED) == ()


def test_nothing_to_cut_needs_no_sheet():
    assert verify_plan([], SHEET, {}) == ()


def _drop(node: Node, *names: str) -> None:
    for name in names:
        del node[name]


def _on_margin() -> Node:
    column = _cut(0, 0, 8, 10, "y", 5, _piece(0, 0, 8, 5, "A", 2), _offcut(0, 6, 8, 4))
    return _cut(0, 0, 20, 10, "x", 8, column, _offcut(9, 0, 11, 10))


SPOILT = {
    "a sheet too many": (lambda good: good.plan.append({"sheet": 3, "tree": _on_margin()}), "3 sheets are cut, 2 are"),
    "an untouched sheet": (lambda good: good.plan[1].update(tree=_offcut(0, 0, 20, 10)), "nothing is cut from it"),
    "sheets misnumbered": (lambda good: good.plan[1].update(sheet=3), "numbered 3"),
    "no tree": (lambda good: _drop(good.plan[1], "tree"), "starts from None"),
    "another sheet": (lambda good: good.first.update(width=21), "starts from"),
    "a sheet elsewhere": (lambda good: good.first.update(x=1), "starts from"),
    "a part too wide": (lambda good: good.b.update(width=4), "edge to edge"),
    "a part elsewhere": (lambda good: good.b.update(y=1), "edge to edge"),
    "a cut elsewhere": (lambda good: good.usable["cut"].update(at=11), "edge to edge"),
    "a cut across": (lambda good: good.usable["cut"].update(along="y"), "edge to edge"),
    "a cut with nothing before it": (lambda good: good.usable["cut"].update(at=2), "edge to edge"),
    "a cut along nothing": (lambda good: good.usable["cut"].update(along="z"), "no cut along x or y"),
    "a cut at no place": (lambda good: good.usable["cut"].update(at=10.0), "no cut along x or y"),
    "a part missing": (lambda good: good.usable["parts"].pop(), "where only up to 1 may be lost"),
    "parts exchanged": (lambda good: good.usable["parts"].reverse(), "edge to edge"),
    "a part more": (lambda good: good.usable["parts"].append(_offcut(0, 0, 1, 1)), "neither one part nor two"),
    "no parts": (lambda good: _drop(good.usable, "parts"), "neither one part nor two"),
    "more lost than the cut takes": (lambda good: good.topped["parts"][0].update(height=8), "edge to edge"),
    "a part without a size": (lambda good: _drop(good.above, "width"), "without a place or a size"),
    "a part whose size is a truth": (lambda good: good.above.update(width=True), "without a place or a size"),
    "a part that is no part": (lambda good: good.column["parts"].__setitem__(1, "offcut"), "without a place or a size"),
    "an empty part": (lambda good: good.above.update(height=0), "an empty part"),
    "a piece left out": (lambda good: good.rest["parts"].__setitem__(0, _offcut(2, 0, 8, 10)), "A copy 2: not cut"),
    "a piece twice": (lambda good: good.other_a.update(copy=1), "A copy 1: cut 2 times"),
    "a copy beyond the count": (lambda good: good.other_a.update(copy=3), "A copy 3: cut, but nobody asked for it"),
    "a stranger": (lambda good: good.b.update(piece="C"), "C copy 1 is not to be cut here"),
    "another size": (lambda good: good.b.update(piece="A", copy=1), "is cut 3 x 9, wanted"),
    "a turn with the wrong size": (lambda good: good.b.update(turn=0), "is cut 3 x 9, wanted 9 x 3"),
    "a forbidden turn": (lambda good: good.a.update(turn=90), "turned by 90, which it may not be"),
    "no turn": (lambda good: _drop(good.a, "turn"), "turned by None"),
    "a turn that is a truth": (lambda good: good.a.update(turn=False), "turned by False"),
    "no number": (lambda good: _drop(good.a, "copy"), "no name or number"),
    "a number that is a truth": (lambda good: good.a.update(copy=True), "no name or number"),
    "on the spoilt margin": (lambda good: good.plan[1].update(tree=_on_margin()), "beyond the usable paper"),
    "piece and offcut at once": (lambda good: good.a.update(offcut=True), "not one of cut, piece and offcut"),
    "nothing at all": (lambda good: _drop(good.a, "piece"), "not one of cut, piece and offcut"),
    "an offcut that is none": (lambda good: good.above.update(offcut=False), "not one of cut, piece and offcut"),
    "an offcut with parts": (lambda good: good.above.update(parts=[]), "not one of cut, piece and offcut"),
    "a piece with parts": (lambda good: good.a.update(parts=[]), "is a piece and has parts"),
    "a cut-out nobody offers": (lambda good: good.a.update(cut_outs={"W": _offcut(0, 0, 1, 1)}), "no cut-out 'W'"),
    "cut-outs that are none": (lambda good: good.a.update(cut_outs=[1]), "no cut-out [1]"),
}


@pytest.mark.parametrize("fault", SPOILT)
def test_every_fault_is_found(fault):
    spoil, says = SPOILT[fault]
    good = Good()
    spoil(good)
    found = verify_plan(good.plan, SHEET, WANTED)
    assert any(says in line for line in found), found


# Cut-outs: W of F is 6 x 4; copies 1 and 2 of S come from it, one of which has a window of its own with a T in it.
T = Wanted(1, 1, ONE, ANY)
S = Wanted(3, 4, frozenset({1, 2}), frozenset({0}), {"V": CutOut(2, 2, {"T": T})})
FRAME = {"F": Wanted(10, 10, ONE, ANY, {"W": CutOut(6, 4, {"S": S})})}


def _frame(*parts: Node, **more: Any) -> list[dict[str, Any]]:
    """A sheet of 10 x 10 that is one F, with this in its window."""
    window = _cut(0, 0, 6, 4, "x", 3, *parts)
    return _sheets(_piece(0, 0, 10, 10, "F", cut_outs={"W": window}, **more))


def _nested(x: int = 0, y: int = 0, **more: Any) -> Node:
    strip = _cut(0, 0, 2, 1, "x", 1, _piece(0, 0, 1, 1, "T", **more), _offcut(1, 0, 1, 1))
    return _cut(x, y, 2, 2, "y", 1, strip, _offcut(0, 1, 2, 1))


WHOLE = Sheet(10, 10, 0, 0, 10, 10, 0, 1)


def test_cut_outs_are_judged_to_any_depth():
    plan = _frame(_piece(0, 0, 3, 4, "S", 1, cut_outs={"V": _nested()}), _piece(3, 0, 3, 4, "S", 2))
    assert verify_plan(plan, WHOLE, FRAME) == ()


def test_a_cut_out_has_coordinates_of_its_own():
    # F lies turned, and on a sheet with a margin: neither has anything to do with what is cut from its window.
    sheet = Sheet(12, 10, 2, 0, 12, 10, 0, 1)
    (entry,) = _frame(_piece(0, 0, 3, 4, "S", 1, cut_outs={"V": _nested()}), _piece(3, 0, 3, 4, "S", 2), turn=90)
    frame = entry["tree"] | {"x": 2}
    plan = _sheets(_cut(0, 0, 12, 10, "x", 2, _offcut(0, 0, 2, 10), frame))
    assert verify_plan(plan, sheet, FRAME) == ()


@pytest.mark.parametrize(
    ("plan", "says"),
    [
        pytest.param(
            _frame(_piece(0, 0, 3, 4, "S", 1, cut_outs={"V": _nested()}), _offcut(3, 0, 3, 4)),
            "S copy 2: not cut",
            id="a copy missing",
        ),
        pytest.param(
            _frame(_piece(0, 0, 3, 4, "S", 1, cut_outs={"V": _nested(1)}), _piece(3, 0, 3, 4, "S", 2)),
            "not from 0, 0, 2 x 2",
            id="coordinates of the piece",
        ),
        pytest.param(
            _frame(_piece(0, 0, 3, 4, "S", 1), _piece(3, 0, 3, 4, "S", 2)), "T copy 1: not cut", id="nothing of it"
        ),
        pytest.param(
            _frame(_piece(0, 0, 3, 4, "S", 1, 180, cut_outs={"V": _nested()}), _piece(3, 0, 3, 4, "S", 2)),
            "S copy 1 is turned by 180",
            id="a turn forbidden within",
        ),
        pytest.param(
            _frame(_piece(0, 0, 3, 4, "S", 1, cut_outs={"V": _nested(piece="S")}), _piece(3, 0, 3, 4, "S", 2)),
            "S copy 1 is not to be cut here",
            id="a piece from a cut-out that is not its own",
        ),
        pytest.param(_sheets(_piece(0, 0, 10, 10, "F", cut_outs={"W": None})), "starts from None", id="no tree"),
    ],
)
def test_faults_within_cut_outs_are_found(plan, says):
    found = verify_plan(plan, WHOLE, FRAME)
    assert any(says in line for line in found), found


def test_what_comes_from_a_cut_out_may_not_come_from_the_sheet():
    wanted = {"F": Wanted(4, 10, ONE, ANY, {"W": CutOut(3, 4, {"S": Wanted(3, 4, ONE, ANY)})})}
    column = _cut(4, 0, 6, 10, "y", 4, _cut(4, 0, 6, 4, "x", 7, _piece(4, 0, 3, 4, "S"), _offcut(7, 0, 3, 4)),
                  _offcut(4, 4, 6, 6))  # fmt: skip
    found = verify_plan(_sheets(_cut(0, 0, 10, 10, "x", 4, _piece(0, 0, 4, 10, "F"), column)), WHOLE, wanted)
    assert found == ("sheet 1: S copy 1 is not to be cut here",)


def test_a_cut_out_is_not_larger_than_its_piece():
    wanted = {"F": Wanted(10, 10, ONE, ANY, {"W": CutOut(11, 4, {"S": Wanted(11, 4, ONE, ANY)})})}
    plan = _sheets(_piece(0, 0, 10, 10, "F", cut_outs={"W": _piece(0, 0, 11, 4, "S")}))
    assert verify_plan(plan, WHOLE, wanted) == ("sheet 1: F copy 1: the cut-out W is larger than its piece",)


def test_a_cut_may_lose_all_that_the_slack_allows_and_no_more():
    sheet, wanted = Sheet(12, 5, 0, 0, 12, 5, 2, 1), {"A": Wanted(10, 5, ONE, ANY)}
    plan = _sheets(_cut(0, 0, 12, 5, "x", 10, _piece(0, 0, 10, 5, "A")))
    assert verify_plan(plan, sheet, wanted) == ()
    (fault,) = verify_plan(plan, Sheet(12, 5, 0, 0, 12, 5, 1, 1), wanted)
    assert "2 beyond it" in fault
    # A cut at the very edge is none.
    edge = _sheets(_cut(0, 0, 10, 5, "x", 10, _piece(0, 0, 10, 5, "A")))
    assert verify_plan(edge, Sheet(10, 5, 0, 0, 10, 5, 2, 1), wanted) != ()


def _tree(rectangles: Sequence[tuple[str, Box]], box: Box, counted: Counter[str]) -> Node | None:
    """A tree that cuts these rectangles from a box, by trying every cut that runs through none of them."""
    x, y, width, height = box
    if not rectangles:
        return _offcut(*box)
    if len(rectangles) == 1 and rectangles[0][1] == box:
        counted[rectangles[0][0]] += 1
        return _piece(*box, rectangles[0][0], counted[rectangles[0][0]])
    for along, start, length in (("x", 0, 2), ("y", 1, 3)):
        for at in sorted({r[1][start] for r in rectangles} | {r[1][start] + r[1][length] for r in rectangles}):
            low = [r for r in rectangles if r[1][start] + r[1][length] <= at]
            high = [r for r in rectangles if r[1][start] >= at]
            if not box[start] < at < box[start] + box[length] or len(low) + len(high) < len(rectangles):
                continue
            first = (x, y, at - x, height) if along == "x" else (x, y, width, at - y)
            second = (at, y, x + width - at, height) if along == "x" else (x, at, width, y + height - at)
            before, beyond = _tree(low, first, counted), _tree(high, second, counted)
            return _cut(*box, along, at, before, beyond) if before and beyond else None
    return None


@pytest.mark.parametrize(
    ("x", "y", "good"),
    [
        pytest.param(1, 1, True, id="within all margins"),
        pytest.param(0, 1, False, id="left"),
        pytest.param(2, 1, False, id="right"),
        pytest.param(1, 0, False, id="bottom"),
        pytest.param(1, 2, False, id="top"),
    ],
)
def test_no_piece_lies_on_a_spoilt_margin(x, y, good):
    tree = _tree([("A", (x, y, 8, 8))], (0, 0, 10, 10), Counter())
    assert tree is not None
    found = verify_plan(_sheets(tree), Sheet(10, 10, 1, 1, 9, 9, 0, 1), {"A": Wanted(8, 8, ONE, ANY)})
    assert found == (() if good else ("sheet 1: A copy 1 lies beyond the usable paper",))


@pytest.mark.parametrize("turn", [90, 270])
def test_a_piece_on_its_side_shows_its_height_along_x(turn):
    plan = _sheets(_piece(0, 0, 10, 4, "A", 1, turn))
    sheet = Sheet(10, 4, 0, 0, 10, 4, 0, 1)
    assert verify_plan(plan, sheet, {"A": Wanted(4, 10, ONE, ANY)}) == ()
    assert verify_plan(plan, sheet, {"A": Wanted(10, 4, ONE, ANY)}) != ()


PINWHEEL: list[Box] = [(0, 0, 2, 1), (2, 0, 1, 2), (1, 2, 2, 1), (0, 1, 1, 2), (1, 1, 1, 1)]


def test_the_pinwheel_has_no_tree():
    assert _tree([(str(n), box) for n, box in enumerate(PINWHEEL)], (0, 0, 3, 3), Counter()) is None


@pytest.mark.parametrize(("along", "at"), [("x", 1), ("x", 2), ("y", 1), ("y", 2)])
def test_a_pinwheel_passed_off_as_a_tree_is_found_out(along, at):
    """The first cut runs through a rectangle whichever it is: one of its parts holds a piece that reaches beyond it."""
    start = 0 if along == "x" else 1
    low = [box for box in PINWHEEL if box[start] < at]
    high = [box for box in PINWHEEL if box[start] >= at]
    names = {box: str(n) for n, box in enumerate(PINWHEEL)}
    parts = [_chain(boxes, names) for boxes in (low, high)]
    plan = _sheets(_cut(0, 0, 3, 3, along, at, *parts))
    wanted = {name: Wanted(box[2], box[3], ONE, frozenset({0})) for box, name in names.items()}
    assert any("edge to edge" in line for line in verify_plan(plan, Sheet(3, 3, 0, 0, 3, 3, 0, 1), wanted))


def _chain(boxes: Sequence[Box], names: dict[Box, str]) -> Node:
    """Pieces hung into one part one after the other, as if each came off with a cut."""
    node = _piece(*boxes[-1], names[boxes[-1]])
    for box in reversed(boxes[:-1]):
        left, bottom = min(box[0], node["x"]), min(box[1], node["y"])
        right = max(box[0] + box[2], node["x"] + node["width"])
        top = max(box[1] + box[3], node["y"] + node["height"])
        node = _cut(left, bottom, right - left, top - bottom, "x", box[0] + box[2], _piece(*box, names[box]), node)
    return node


def test_the_grid_of_units_can_be_cut():
    grid = [("U", (x, y, 1, 1)) for x in range(3) for y in range(3)]
    tree = _tree(grid, (0, 0, 3, 3), Counter())
    assert tree is not None
    wanted = {"U": Wanted(1, 1, frozenset(range(1, 10)), frozenset({0}))}
    assert verify_plan(_sheets(tree), Sheet(3, 3, 0, 0, 3, 3, 0, 1), wanted) == ()


def test_the_best_layout_of_cgcut1_can_be_cut():
    layout = [
        ("6", (0, 0, 3, 2)),
        ("4", (0, 2, 3, 4)),
        ("4", (0, 6, 3, 4)),
        ("5", (3, 0, 3, 3)),
        ("2", (3, 3, 3, 7)),
        ("3", (6, 0, 8, 2)),
        ("1", (6, 2, 8, 4)),
        ("1", (6, 6, 8, 4)),
    ]
    tree = _tree(layout, (0, 0, 15, 10), Counter())
    assert tree is not None
    number = Counter(name for name, _ in layout)
    wanted = {
        name: Wanted(box[2], box[3], frozenset(range(1, number[name] + 1)), frozenset({0})) for name, box in layout
    }
    assert verify_plan(_sheets(tree), Sheet(15, 10, 0, 0, 15, 10, 0, 1), wanted) == ()


def test_a_tree_ten_thousand_cuts_deep_is_judged_like_any_other():
    node = _piece(9999, 0, 1, 1, "U", 10_000)
    for n in range(9998, -1, -1):
        node = _cut(n, 0, 10_000 - n, 1, "x", n + 1, _piece(n, 0, 1, 1, "U", n + 1), node)
    wanted = {"U": Wanted(1, 1, frozenset(range(1, 10_001)), frozenset({0}))}
    assert verify_plan(_sheets(node), Sheet(10_000, 1, 0, 0, 10_000, 1, 0, 1), wanted) == ()
