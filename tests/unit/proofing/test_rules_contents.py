"""Rules about contents: what is asked for against what the kit holds, each judged just above and at its limit."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from layouts.assembly import steps_of
from layouts.document import Kit, read_kit
from layouts.proofing.findings import Finding
from layouts.proofing.rules import contents
from tests.unit.assembly.small_kits import CARD, Tree, kit_of, piece, project, step, tag

_TROWEL = "embellishment:labels/element:trowel"


def _findings(kit: Kit) -> list[Finding]:
    return list(contents.findings(kit, steps_of(kit)))


def _kit(*projects: Tree, **lists: Any) -> Kit:
    """A kit with 2 sheets of 3 trowels, 2 boxes of 2 alike sides each, 4 feet, and a lamp."""
    held = {
        "papers": [CARD],
        "embellishments": [
            {
                "id": "labels",
                "name": "Label sheet",
                "sheets": 2,
                "elements": [{"id": "trowel", "name": "trowel", "count": 3}],
            }
        ],
        "blanks": [
            {"id": "box", "name": "box", "count": 2, "faces": [{"id": "side", "size": ["4", "3"], "count": 2}]},
            {"id": "feet", "name": "bun feet", "count": 4, "faces": []},
        ],
        "supplies": [{"id": "lamp", "name": "battery lamp", "kind": "light", "count": 1}],
    }
    return kit_of(*projects, **(held | lists))


def _use(thing: str, id_: str, count: int = 1, **members: Any) -> Tree:
    return {thing: id_, "count": count, **members}


def _put(put: Tree, on: Tree, copies: int | None = None) -> Tree:
    """One on every copy of the support, or a list of so many copies."""
    placed = {"id": "there", "put": put, "on": on}
    return placed if copies is None else {**placed, "copies": [{"on_copy": 1}] * copies}


@pytest.mark.parametrize(
    ("thing", "id_", "rule", "place", "held"),
    [
        pytest.param(
            "element", "labels/trowel", "embellishment-short", _TROWEL, 6, id="elements: 3 on each of 2 sheets"
        ),
        pytest.param("blank", "feet", "blank-overdrawn", "blank:feet", 4, id="blanks"),
        pytest.param("supply", "lamp", "supply-short", "supply:lamp", 1, id="supplies"),
    ],
)
def test_no_more_is_used_than_the_kit_holds(thing, id_, rule, place, held):
    enough = _kit(project("shelf", steps=[step("s", use=[_use(thing, id_, held)])]))
    short = _kit(project("shelf", steps=[step("s", use=[_use(thing, id_, held + 1)])]))

    assert _findings(enough) == []
    (finding,) = _findings(short)
    assert (finding.rule, finding.weight) == (rule, "stop")
    assert finding.at == (place, "project:shelf/step:s")
    by = {"by": "count"} if thing == "supply" else {}
    assert finding.why == {**by, "held": held, "used": held + 1, "placed": 0}


@pytest.mark.parametrize(
    ("projects", "used"),
    [
        pytest.param([project("a", steps=[step("s", use=[_use("element", "labels/trowel", 6)])])], None, id="6 of 6"),
        pytest.param(
            [project("a", makes=2, steps=[step("s", use=[_use("element", "labels/trowel", 3)])])], None, id="2 × 3"
        ),
        pytest.param(
            [project("a", makes=2, steps=[step("s", use=[_use("element", "labels/trowel", 4)])])], 8, id="2 × 4"
        ),
        pytest.param(
            [
                project("a", steps=[step("s", use=[_use("element", "labels/trowel", 4)])]),
                project("b", steps=[step("s", use=[_use("element", "labels/trowel", 3)])]),
            ],
            7,
            id="4 here, 3 there",
        ),
        pytest.param(
            [
                project(
                    "a",
                    steps=[
                        step("s", use=[_use("element", "labels/trowel", 3)]),
                        step("t", use=[_use("element", "labels/trowel", 3), _use("element", "labels/trowel", 1)]),
                    ],
                )
            ],
            7,
            id="3 and 3 and 1",
        ),
    ],
)
def test_uses_add_up_over_steps_copies_and_projects(projects, used):
    assert [finding.why["used"] for finding in _findings(_kit(*projects))] == ([] if used is None else [used])


def test_the_message_has_the_numbers_and_what_to_do():
    (finding,) = _findings(_kit(project("a", steps=[step("s", use=[_use("element", "labels/trowel", 7)])])))

    assert finding.message == (
        "The kit holds 6 of “trowel” on “Label sheet”, the steps use 7. Put 1 more into the kit, or use fewer."
    )


_ON_A: Tree = {"piece": "A"}
_ON_SIDE: Tree = {"blank": "box", "face": "side"}


@pytest.mark.parametrize(
    ("put", "on", "copies", "makes", "placed"),
    [
        # 6 trowels, 4 feet, 1 lamp are held. A has 3 copies, T has 5; the side of the box comes 2 × 2 times.
        pytest.param({"element": "labels/trowel"}, _ON_A, None, 2, None, id="one on each of 3 × 2 pieces"),
        pytest.param({"element": "labels/trowel"}, _ON_A, None, 3, 9, id="one on each of 3 × 3 pieces"),
        pytest.param({"element": "labels/trowel"}, _ON_A, 6, 1, None, id="a list of 6"),
        pytest.param({"element": "labels/trowel"}, _ON_A, 7, 1, 7, id="a list of 7"),
        pytest.param({"element": "labels/trowel"}, _ON_A, 4, 2, 8, id="a list of 4 in both copies"),
        pytest.param({"blank": "feet"}, {"form": "T", "panel": "base"}, None, 1, 5, id="one on each of 5 forms"),
        pytest.param({"blank": "feet"}, _ON_SIDE, None, 1, None, id="one on each of 2 × 2 faces"),
        pytest.param({"blank": "feet"}, _ON_SIDE, None, 2, None, id="faces are those of the whole kit"),
        pytest.param({"supply": "lamp"}, _ON_SIDE, None, 1, 4, id="a supply on each of 2 × 2 faces"),
        pytest.param({"supply": "lamp"}, _ON_SIDE, 1, 1, None, id="a supply once"),
        pytest.param({"piece": "A"}, _ON_SIDE, 9, 9, None, id="a support is not used, and pieces are no contents"),
    ],
)
def test_no_more_is_placed_than_the_kit_holds(put, on, copies, makes, placed):
    kit = _kit(
        project(
            "shelf",
            makes=makes,
            pieces=[piece("A", count=3)],
            forms=[tag("T", count=5)],
            placements=[_put(put, on, copies)],
        )
    )

    assert [(one.why["placed"], one.at[1:]) for one in _findings(kit)] == (
        [] if placed is None else [(placed, ("project:shelf/placement:there",))]
    )


@pytest.mark.parametrize(
    ("used", "copies", "why"),
    [
        pytest.param(6, 6, None, id="the same things are used and placed: 6, not 12"),
        pytest.param(2, 7, {"held": 6, "used": 2, "placed": 7}, id="more is placed"),
        pytest.param(8, 7, {"held": 6, "used": 8, "placed": 7}, id="more is used"),
    ],
)
def test_the_greater_of_used_and_placed_counts(used, copies, why):
    kit = _kit(
        project(
            "shelf",
            pieces=[piece("A")],
            placements=[_put({"element": "labels/trowel"}, _ON_A, copies)],
            steps=[step("s", use=[_use("element", "labels/trowel", used)])],
        )
    )

    assert [finding.why for finding in _findings(kit)] == ([] if why is None else [why])


def _ribbon(**members: Any) -> Tree:
    return {"id": "thing", "name": "garden twine", "kind": "ribbon", **members}


@pytest.mark.parametrize(
    ("supply", "uses", "makes", "why"),
    [
        pytest.param(_ribbon(length="24"), [("24", 1)], 1, None, id="all of it"),
        pytest.param(_ribbon(length="24"), [("24 1/64", 1)], 1, ("length", 24, "24 1/64"), id="1/64 in too much"),
        pytest.param(_ribbon(length="24"), [("8", 3)], 1, None, id="three lengths of it"),
        pytest.param(_ribbon(length="24"), [("8", 2), ("8 1/2", 1)], 1, ("length", 24, "24 1/2"), id="in two uses"),
        pytest.param(_ribbon(length="24"), [("9", 1)], 3, ("length", 24, "27"), id="for three copies"),
        pytest.param(_ribbon(length="24", count=2), [("12", 4)], 1, None, id="two rolls of it"),
        pytest.param(_ribbon(length="24", count=2), [("12", 4), ("1", 1)], 1, ("length", 48, "49"), id="more than two"),
        pytest.param(_ribbon(length="24"), [(None, 9)], 1, None, id="no length stated in the use"),
        pytest.param(_ribbon(length="24", count=2), [(None, 3)], 1, ("count", 2, 3), id="three whole rolls"),
        pytest.param(_ribbon(count=2), [("12", 3)], 1, ("count", 2, 3), id="no length stated in the kit"),
        pytest.param(_ribbon(), [("12", 3), (None, 9)], 1, None, id="the kit states nothing"),
    ],
)
def test_a_supply_is_judged_by_length_and_by_count(supply, uses, makes, why):
    use = [_use("supply", "thing", count, **({} if length is None else {"length": length})) for length, count in uses]
    kit = _kit(project("shelf", makes=makes, steps=[step("s", use=use)]), supplies=[supply])

    found = [(one.why["by"], one.why["held"], one.why["used"]) for one in _findings(kit)]
    if why is None:
        assert found == []
    else:
        by, held, used = why
        # 8128 ticks to the inch, 127 to a 64th of it (24 FR 5348: 1 in = 25.4 mm; a tick is 1/320 mm).
        ticks = {"24 1/64": 195_199, "24 1/2": 199_136, "27": 219_456, "49": 398_272, 3: 3}[used]
        assert found == [(by, held * 8128 if by == "length" else held, ticks)]


def test_the_message_about_a_length_has_the_lengths():
    use = [_use("supply", "thing", length="25 1/2")]
    kit = _kit(project("shelf", steps=[step("s", use=use)]), supplies=[_ribbon(length="24", **{"from": "member"})])

    (finding,) = _findings(kit)
    assert finding.message == (
        "The member is asked for 24 in of “garden twine”, the steps use 25 1/2 in: 1 1/2 in more than there is. "
        "Ask for more, or cut it shorter."
    )


def test_parts_cut_from_a_length_are_not_counted_where_they_are_placed():
    placed = _put({"supply": "thing"}, _ON_A, 6)
    kit = _kit(
        project(
            "shelf",
            pieces=[piece("A")],
            placements=[placed],
            steps=[step("s", use=[_use("supply", "thing", 6, length="2")])],
        ),
        supplies=[_ribbon(length="24", count=1)],
    )

    assert _findings(kit) == []


def test_every_rule_of_this_family_has_its_weight():
    assert {rule.name: rule.weight for rule in contents.RULES} == {
        "embellishment-short": "stop",
        "blank-overdrawn": "stop",
        "supply-short": "stop",
    }


def test_the_first_kit_holds_enough():
    first_kit = Path(__file__).parents[2] / "reference" / "first-kit.json"

    assert _findings(read_kit(first_kit.read_bytes())) == []
