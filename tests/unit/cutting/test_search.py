"""The schedule: what decides, and who is asked what. The solver here is a stand-in that notes its questions."""

from __future__ import annotations

from math import isqrt
from typing import Any

import pytest

from layouts.cutting import Answer, Cancelled, Item, Problem, solve, taken
from tests.unit.cutting.plans import faults, problem

# B97_24 of the kit lists: seven pieces on one sheet, 97 % of it. Our own plans take two.
SEVEN = [
    (65, 25, 1, 1),
    (63, 58, 1, 1),
    (62, 21, 1, 0),
    (61, 46, 1, 1),
    (36, 32, 1, 0),
    (35, 69, 1, 0),
    (28, 101, 1, 0),
]
TIGHT = problem(128, 128, 1, SEVEN)

# L9_186 of the kit lists: fifteen pieces on two sheets, 93 % of them.
FIFTEEN = [
    (66, 51, 1, 1),
    (63, 48, 1, 1),
    (58, 21, 2, 1),
    (58, 9, 1, 1),
    (54, 29, 1, 1),
    (54, 11, 2, 1),
    (41, 36, 1, 1),
    (35, 31, 1, 1),
    (34, 5, 1, 1),
    (25, 25, 2, 0),
    (23, 23, 2, 0),
]


class Silent:
    """A solver that never finds or proves anything, or answers the library's questions as it is told to."""

    def __init__(self, **answer: Any) -> None:
        self.answer = {"at_least": 1, "plan": None} | answer
        self.asked: list[dict[str, Any]] = []

    def check(self) -> None:
        pass

    def ask(self, question: dict[str, Any]) -> dict[str, Any]:
        self.asked.append(question)
        return self.answer if question["task"] == "packingsolver" else {"by": None, "steps": 0}

    @property
    def questions(self) -> list[tuple[str, int]]:
        """Each by its way and, for the library, its queue; builds by their stage."""
        return [
            (one["way"], one["queue"]) if one["task"] == "packingsolver" else (one["stage"], one["sheets"][0][2])
            for one in self.asked
        ]


@pytest.mark.parametrize(
    ("asked", "answer"),
    [
        pytest.param(problem(10, 10, 2, []), ("fits", "plan", 0, 0), id="nothing to cut"),
        pytest.param(problem(10, 10, 0, []), ("fits", "plan", 0, 0), id="nothing of nothing"),
        pytest.param(problem(10, 10, 2, [(11, 2, 1)]), ("short", "bound", 3, None), id="a piece too big"),
        pytest.param(problem(10, 10, 2, [(11, 2, 1)], turn=True), ("short", "bound", 3, None), id="too big, turned"),
        pytest.param(problem(10, 10, 0, [(2, 2, 1)]), ("short", "area", 1, 1), id="no paper"),
        pytest.param(problem(10, 10, 1, [(5, 5, 5)]), ("short", "area", 2, 2), id="too much area"),
        pytest.param(problem(10, 10, 2, [(6, 6, 3)]), ("short", "bound", 3, 3), id="pieces that exclude each other"),
        pytest.param(problem(10, 10, 2, [(4, 4, 10)]), ("short", "bound", 3, 3), id="four of 4 x 4 a sheet"),
        pytest.param(problem(10, 10, 5, [(5, 5, 5)]), ("fits", "plan", 2, 2), id="fewest sheets, not all"),
        pytest.param(problem(21, 5, 1, [(10, 5, 2)], slack=1), ("fits", "plan", 1, 1), id="slack just fits"),
        pytest.param(problem(20, 5, 1, [(10, 5, 2)], slack=1), ("short", "area", 2, 2), id="slack does not"),
        pytest.param(problem(-3, 5, 1, [(10, 5, 2)]), ("short", "bound", 2, None), id="margins that leave nothing"),
    ],
)
def test_easy_lists_need_no_solver(asked, answer):
    solver = Silent()
    found = solve(asked, solver)
    assert (found.verdict, found.reason, found.at_least, found.at_most) == answer
    assert solver.asked == []
    assert found.verdict == "short" or faults(asked, found.sheets) == ()


# Plans in three stages by other measures, in many narrow searches.
OTHER_MEASURES = [
    ("level", 64), ("upright", 64), ("upright-again", 64), ("level", 128), ("upright", 128), ("level", 256),
    ("level-again", 256),
]  # fmt: skip


def test_an_undecided_list_on_one_sheet_is_asked_in_every_way():
    solver = Silent()
    found = solve(TIGHT, solver)
    assert (found.verdict, found.reason, found.at_least, found.at_most) == ("unknown", "budget", 1, 2)
    # Seven kinds: filling the sheet counts like a queue of 20,000 / 7. Builds are asked for the one sheet.
    assert solver.questions == [
        ("tree", 256),
        ("stages", 256),
        ("first", 1),
        *OTHER_MEASURES,
        ("spaces", 2857),
        ("whole", 1),
        ("wide", 1),
        ("more-spaces", 256),
        ("tree", 2048),
        ("other", 1),
    ]


def test_an_undecided_list_on_two_sheets_is_also_filled_sheet_by_sheet():
    solver = Silent()
    assert solve(problem(96, 96, 2, FIFTEEN), solver).verdict == "unknown"
    assert [way for way, _ in solver.questions] == [
        "tree", "stages", "stage-values", "first", *(way for way, _ in OTHER_MEASURES),
        "sheets", "values", "whole", "wide", "tree", "other",
    ]  # fmt: skip


def test_an_undecided_list_shows_the_best_plan_there_is():
    found = solve(TIGHT, Silent())
    assert faults(TIGHT, found.sheets, supply=2) == ()


def test_a_list_that_fits_is_asked_in_a_few_quick_ways_whether_fewer_sheets_would_do():
    more = Problem(TIGHT.width, TIGHT.height, 5, TIGHT.items)
    solver = Silent()
    found = solve(more, solver)
    assert (found.verdict, found.at_least, found.at_most) == ("fits", 1, 2)
    assert solver.questions == [("tree", 256), ("stages", 256), ("first", 1), *OTHER_MEASURES]


def test_where_a_sheet_has_few_pieces_ways_to_cut_one_are_chosen_among():
    # The seven pieces of one sheet, and one that takes another: eight on two sheets. Seven on one are too many.
    for asked, is_asked in ((problem(128, 128, 2, [*SEVEN, (120, 120, 1)]), True), (TIGHT, False)):
        solver = Silent()
        solve(asked, solver)
        assert (("columns", 256) in solver.questions) == is_asked


@pytest.mark.parametrize(("copies", "asked"), [(36, True), (35, False)])
def test_a_long_list_fills_one_sheet_in_more_ways(copies, asked):
    # Pieces of all sorts, of which a square has room for as many by area, with less than a fiftieth to spare.
    pieces = [(17 + n % 11, 13 + n % 7, 1) for n in range(copies)]
    side = isqrt(sum(width * height for width, height, _ in pieces) * 51 // 50)
    solver = Silent()
    assert solve(problem(side, side, 1, pieces), solver).verdict == "unknown"
    assert (("spaces-48", 256) in solver.questions) == asked


def test_what_the_solver_proves_counts():
    solver = Silent(at_least=2)
    found = solve(TIGHT, solver)
    assert (found.verdict, found.reason, found.at_least, found.at_most) == ("short", "bound", 2, 2)
    assert solver.questions == [("tree", 256)]


def test_a_question_that_the_solver_fails_on_is_passed_over():
    solver = Silent(failed="a defect of the library")
    assert solve(TIGHT, solver).verdict == "unknown"
    assert len(solver.asked) == 9 + len(OTHER_MEASURES)


def test_long_lists_are_never_given_to_the_solver():
    solver = Silent()
    found = solve(problem(100, 100, 9, [(33 - n, 21 + n, 30) for n in range(11)]), solver)
    assert found.at_least < (found.at_most or 0)
    assert solver.asked == []


@pytest.mark.parametrize(
    ("asked", "queues"),
    [
        # 100 kinds x 100 copies x 256 is within the work allowed, 2048 is not; for 200 x 200 even 256 is not.
        pytest.param(problem(200, 200, 5, [(31 + n % 37, 20 + n % 43, 1) for n in range(100)]), [256], id="wide"),
        pytest.param(problem(500, 500, 13, [(31 + n % 101, 197 - n % 83, 1) for n in range(200)]), [64], id="wider"),
    ],
)
def test_wide_lists_are_given_with_a_narrower_queue(asked, queues):
    solver = Silent()
    solve(asked, solver)
    assert [queue for way, queue in solver.questions if way == "tree"] == queues


def test_more_than_ten_thousand_copies_are_judged_by_bounds_alone():
    few = solve(problem(10, 10, 9, [(1, 1, 10_001)]), Silent())
    assert (few.verdict, few.reason, few.at_least, few.at_most) == ("short", "area", 101, None)
    many = solve(problem(10, 10, 200, [(1, 1, 10_001)]), Silent())
    assert (many.verdict, many.reason, many.at_least, many.at_most) == ("unknown", "too-big", 101, None)


def test_nobody_waits_for_an_answer_that_was_called_off():
    class CalledOff(Silent):
        def check(self) -> None:
            raise Cancelled("called off")

    with pytest.raises(Cancelled):
        solve(TIGHT, CalledOff())


def test_keys_sizes_and_lies_come_back_as_asked():
    items = (
        Item("up", 30, 10, 2, True, False),
        Item("side", 30, 10, 2, False, True),
        Item("any", 5, 40, 1, True, True),
    )
    asked = Problem(60, 60, 1, items)
    found = solve(asked, Silent())
    assert found.verdict == "fits"
    lies = sorted((what.key, what.sideways) for sheet in found.sheets for _, what in taken(sheet) if what.key != "any")
    assert lies == [("side", True), ("side", True), ("up", False), ("up", False)]
    assert faults(asked, found.sheets) == ()


@pytest.mark.parametrize(
    "values",
    [
        pytest.param(("fits", "budget", 1, 1, ()), id="fits without a plan"),
        pytest.param(("short", "area", 3, 2, ()), id="at least more than at most"),
        pytest.param(("fits", "plan", 1, 1, ()), id="a plan of no sheets"),
    ],
)
def test_an_answer_cannot_be_built_wrong(values):
    with pytest.raises(ValueError, match=r"sheets|because"):
        Answer(*values)


def test_an_answer_is_read_back_from_its_text():
    found = solve(problem(21, 12, 2, [(10, 5, 5)], slack=1), Silent())
    assert found.sheets
    assert Answer.from_json(found.to_json()) == found
