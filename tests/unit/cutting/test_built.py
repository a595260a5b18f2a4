from __future__ import annotations

import pytest

from layouts.cutting import SolverWrong
from layouts.cutting.bounds import Bound
from layouts.cutting.built import Built, question, read
from layouts.cutting.reduced import Reduced, reduced
from layouts.cutting.rough import Laid, laid
from tests.unit.cutting.plans import problem

# In their smallest numbers: 4 x 8, and two pieces of 4 x 3 and 2 x 4, of which the second turns.
_reduced = reduced(problem(40, 80, 2, [(40, 30, 1, 0), (20, 40, 1, 1)]))
assert _reduced is not None
SMALL: Reduced = _reduced


def test_a_question_names_everything_the_enumeration_needs():
    assert question(SMALL, 2, "first") == {
        "task": "builds",
        "sheets": [[4, 7, 2]],
        "kinds": [[4, 3, 1, False], [2, 4, 1, True]],
        "stage": "first",
        "steps": 1_000_000_000,
    }


@pytest.mark.parametrize(
    ("answer", "low"),
    [
        pytest.param({"by": None, "steps": 7}, Bound(0, "bound"), id="nothing decided"),
        pytest.param({"by": None, "steps": 7, "at_least": 2}, Bound(2, "bound"), id="prices say how many at least"),
        pytest.param({"by": "prices", "steps": 0, "at_least": 3}, Bound(3, "bound"), id="short by prices"),
        pytest.param({"by": "exhausted", "steps": 7, "at_least": 1}, Bound(3, "exhausted"), id="every way was tried"),
        pytest.param({"failed": "a defect"}, Bound(0, "bound"), id="a question it failed on"),
    ],
)
def test_proofs_are_read(answer, low):
    assert read(SMALL, 2, answer) == Built(low, None)


def test_a_plan_is_read_with_its_waste():
    answer = {"by": "plan", "steps": 1, "plan": [[0, ["y", [0, 4, 3], [1, 4, 2]]]]}
    built = read(SMALL, 2, answer)
    assert built.plan is not None
    (sheet,) = built.plan
    assert (sheet.width, sheet.height) == (4, 7)
    assert list(laid(sheet)) == [Laid(4, 3, 0), Laid(4, 2, 1)]


@pytest.mark.parametrize(
    "plan",
    [
        pytest.param([[0, [0, 4, 3]]], id="a piece is missing"),
        pytest.param([[0, ["y", [0, 3, 4], [1, 4, 2]]]], id="a piece turned that may not turn"),
        pytest.param([[0, ["x", [0, 4, 3], [1, 2, 4]]]], id="wider than the sheet"),
        pytest.param([[0, [0, 4, 3]], [0, [1, 2, 4]], [0, [1, 2, 4]]], id="one sheet and one piece too many"),
    ],
)
def test_a_plan_that_is_none_is_a_defect(plan):
    with pytest.raises(SolverWrong):
        read(SMALL, 2, {"by": "plan", "steps": 1, "plan": plan})
