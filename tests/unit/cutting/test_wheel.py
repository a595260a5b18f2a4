from __future__ import annotations

import pytest

from layouts.cutting import Item, SolverWrong
from layouts.cutting.child import WAYS, ask_packingsolver
from layouts.cutting.reduced import Kind, Reduced
from layouts.cutting.rough import Laid, Waste, row
from layouts.cutting.wheel import Found, found, question

ITEMS = (Item("A", 4, 8, 1, True, False), Item("B", 6, 4, 1, True, True))
SMALL = Reduced(10, 8, (Kind(4, 8, 1, False), Kind(4, 6, 1, True)), ((ITEMS[0],), (ITEMS[1],)), 1, 1)

# [parent, left, right, bottom, top, kind], as the wheel gives them: the root carries the number of its sheet, -2 is an
# inner node, -1 waste, -3 what is left over.
NODES = [
    [-1, 0, 10, 0, 8, 0],
    [0, 0, 6, 0, 8, -2],
    [1, 0, 6, 0, 4, 1],
    [1, 0, 6, 4, 8, -1],
    [0, 6, 10, 0, 8, 0],
]


def test_a_question_names_everything_the_wheel_needs():
    assert question(SMALL, 2, 256) == {
        "task": "packingsolver",
        "width": 10,
        "height": 8,
        "sheets": 2,
        "kinds": [[4, 8, 1, False], [4, 6, 1, True]],
        "way": "tree",
        "queue": 256,
    }


@pytest.mark.parametrize("way", WAYS)
def test_every_way_finds_the_plan_that_is_at_hand_and_the_same_again(way):
    # 4 x 8 beside 6 x 4, on one sheet of 10 x 8.
    first, again = (ask_packingsolver({**question(SMALL, 1, 64), "way": way}) for _ in range(2))
    assert first == again
    read = found(SMALL, first)
    assert read.plan is not None
    assert len(read.plan) == 1


def test_a_plan_is_read_from_its_nodes():
    sheet = row("x", [row("y", [Laid(6, 4, 1), Waste(6, 4)]), Laid(4, 8, 0)])
    assert found(SMALL, {"at_least": 1, "plan": [[1, NODES]]}) == Found(1, (sheet,))


def test_equal_sheets_come_once_with_their_number():
    twice = Reduced(10, 8, (Kind(10, 8, 2, False),), ((ITEMS[0],),), 1, 1)
    whole = [[-1, 0, 10, 0, 8, 0], [0, 0, 10, 0, 8, 0]]
    assert found(twice, {"at_least": 2, "plan": [[2, whole]]}) == Found(2, (Laid(10, 8, 0), Laid(10, 8, 0)))


def test_no_plan_may_still_be_a_proof():
    assert found(SMALL, {"at_least": 3, "plan": None}) == Found(3, None)


def test_a_question_that_the_library_fails_on_is_not_decided():
    assert found(SMALL, {"failed": "something about perfect fills"}) == Found(0, None)


def _changed(number: int, *node: int) -> list[list[int]]:
    return [list(node) if n == number else old for n, old in enumerate(NODES)]


@pytest.mark.parametrize(
    "nodes",
    [
        pytest.param(_changed(0, -1, 0, 10, 0, 9, 0), id="another sheet"),
        pytest.param(_changed(2, 1, 0, 5, 0, 4, 1), id="a piece too small"),
        pytest.param(_changed(4, 0, 6, 10, 0, 8, -1), id="a piece missing"),
        pytest.param(_changed(3, 1, 0, 6, 5, 8, -1), id="a gap"),
        pytest.param(_changed(1, 0, 0, 7, 0, 8, -2), id="parts that overlap"),
        pytest.param(
            [[-1, 0, 10, 0, 8, 0], [0, 0, 6, 0, 8, -2], [1, 0, 4, 0, 6, 1], [1, 4, 6, 0, 8, -1], [0, 6, 10, 0, 8, 0]],
            id="a part that reaches no edge",
        ),
    ],
)
def test_what_cannot_be_cut_is_a_defect_and_no_plan(nodes):
    with pytest.raises(SolverWrong):
        found(SMALL, {"at_least": 1, "plan": [[1, nodes]]})
