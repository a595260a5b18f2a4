"""Claims of equal sides in the text of steps: where they are true, where not, and what they are about."""

from __future__ import annotations

from typing import Any

import pytest

from layouts.assembly import steps_of
from layouts.proofing.findings import Finding
from layouts.proofing.rules import claims
from layouts.shapes.faces import lying_in
from tests.unit.proofing.small_prints import MM, kit_of, piece, project

# A window 7 mm from the left, 9 mm from the right, 5 mm from top and bottom; B lies 10 mm from the left of A, 20 from
# its right; C lies 4 mm from its left and another 4 mm from its right.
_PIECES = [
    piece("A", "40", "30", windows=[{"id": "w", "left": "7", "right": "9", "top": "5", "bottom": "5"}]),
    piece("B", "10", "10"),
    piece("C", "5", "5", count=2),
]
_ON_A = {"on": {"piece": "A"}, "top": "0"}
_PLACEMENTS = [
    {"id": "b", "put": {"piece": "B"}, **_ON_A, "left": "10"},
    {"id": "c-left", "put": {"piece": "C"}, **_ON_A, "left": "4"},
    {"id": "c-right", "put": {"piece": "C"}, **_ON_A, "right": "4"},
    {"id": "star", "put": {"element": "s/e"}, **_ON_A, "left": "4"},
]
_FORMS = [
    {
        "id": "lid",
        "name": "lid",
        "as": "scored",
        "paper": "oak",
        "size": ["60", "40"],
        "scores": [{"from": "left", "at": "10"}, {"from": "right", "at": "10"}, {"from": "top", "at": "10"}],
    }
]


def _found(text: str) -> list[Finding]:
    steps: list[dict[str, Any]] = [{"id": "s", "text": text}]
    kit = kit_of(
        project(*_PIECES, forms=_FORMS, placements=_PLACEMENTS, steps=steps),
        embellishments=[{"id": "s", "name": "sheet", "elements": [{"id": "e", "name": "star", "count": 9}]}],
    )
    return list(claims.findings(kit, steps_of(kit), lying_in(kit)))


@pytest.mark.parametrize(
    ("text", "told"),
    [
        pytest.param("Open it {A.w.left} in from each side.", ("A.w.left", 7, 9), id="each side of a window"),
        pytest.param("Open it {A.w.right} in from both sides.", ("A.w.right", 9, 7), id="both sides"),
        pytest.param("Open it {A.w.top} in from each side.", None, id="top and bottom are equal"),
        pytest.param("On each side leave {A.w.left} of paper.", ("A.w.left", 7, 9), id="the measure comes after"),
        pytest.param("Leave {A.w.left} of {A} on each side.", ("A.w.left", 7, 9), id="another reference between"),
        pytest.param("Open it {A.w.left} from the left.", None, id="no claim"),
        pytest.param("Open it {A.w.left} in. Glue both sides.", None, id="another sentence"),
        pytest.param("Open it {A.w.left} in, then glue both sides.", None, id="another clause"),
        pytest.param("Leave {A.w.left} and {A.w.right} on both sides.", None, id="both are named"),
        pytest.param("Cut {A}, {A.width} wide, and glue both sides.", None, id="a width is of no side"),
        pytest.param("Glue B {b.left} in from each side.", ("b.left", 10, 20), id="a placement"),
        pytest.param("Glue C {c-left.left} in from each side.", None, id="its twin lies as far from the other side"),
        pytest.param("Glue a star {star.left} in from each side.", None, id="nobody knows what is left on the right"),
        pytest.param("Score {lid.scores.1.at} in from both sides.", None, id="scored from left and right"),
        pytest.param("Score {lid.scores.3.at} in from both sides.", ("lid.scores.3.at", 10, 0), id="from the top only"),
        pytest.param("Open it {A.w.north} in from each side.", None, id="what leads nowhere is another rule's"),
    ],
)
def test_a_claim_of_equal_sides_is_held_against_the_plan(text, told):
    found = [(one.why["reference"], one.why["said"] // MM, one.why["other"] // MM) for one in _found(text)]

    assert found == ([] if told is None else [told])


def test_the_same_claim_is_told_once_a_step():
    (found,) = _found("Open it {A.w.left} in from each side: {A.w.left} in from each side.")

    assert (found.rule, found.weight, found.at) == ("claim-each-side", "fix", ("project:p/step:s",))
    assert "7 mm on the left" in found.message
    assert "9 mm" in found.message
