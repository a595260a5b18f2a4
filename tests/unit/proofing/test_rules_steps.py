"""Rules about steps: for each a kit where it fires and one where it just does not."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from layouts.assembly import order_of, steps_of
from layouts.document import Kit, read_kit
from layouts.proofing.findings import Finding
from layouts.proofing.rules import steps
from tests.unit.assembly.small_kits import CARD, Tree, kit_of, piece, project, step, tag


def _findings(kit: Kit) -> list[Finding]:
    planned = steps_of(kit)
    return list(steps.findings(kit, planned, order_of(kit, planned)))


def _fired(kit: Kit) -> list[tuple[str, tuple[str, ...]]]:
    return [(finding.rule, finding.at) for finding in _findings(kit)]


def _shelf(*own: Tree, tools: tuple[Tree, ...] = (), supplies: tuple[Tree, ...] = (), **members: Any) -> Kit:
    members.setdefault("pieces", [])
    return kit_of(project("shelf", steps=list(own), **members), papers=[CARD], tools=tools, supplies=supplies)


_A = "project:shelf/piece:A"
_T = "project:shelf/form:T"
_USE_A = [{"piece": "A"}]
_USE_T = [{"form": "T"}]


def _on(step_: str) -> str:
    return f"project:shelf/step:{step_}"


@pytest.mark.parametrize(
    ("pieces", "forms", "own", "fired"),
    [
        pytest.param([piece("A")], [], [step("s", cut=["A"], use=_USE_A)], [], id="a piece that is cut and used"),
        pytest.param([], [tag("T")], [step("s", cut=["T"], use=_USE_T)], [], id="a form that is cut and used"),
        pytest.param([piece("A")], [], [step("s", cut=["A"])], [("never-used", (_A,))], id="a piece never used"),
        pytest.param([], [tag("T")], [step("s", cut=["T"])], [("never-used", (_T,))], id="a form never used"),
        pytest.param(
            [piece("A")],
            [],
            [step("s", use=_USE_A)],
            [("never-cut", (_A,)), ("used-before-cut", (_on("s"), _A))],
            id="a piece never cut: so no step cuts it before it is used",
        ),
        pytest.param(
            [piece("A")],
            [tag("T")],
            [],
            [(rule, (at,)) for at in (_A, _T) for rule in ("never-cut", "never-used")],
            id="no steps yet",
        ),
        pytest.param(
            [piece("A")],
            [],
            [step("cut", cut=["A"]), step("glue", use=_USE_A)],
            [],
            id="cut in the step before",
        ),
        pytest.param(
            [piece("A")],
            [],
            [step("cut", cut=["A"]), step("fold"), step("glue", use=_USE_A)],
            [],
            id="cut two steps before",
        ),
        pytest.param(
            [piece("A")],
            [],
            [step("cut", cut=["A"]), step("glue", use=_USE_A, after=[])],
            [("used-before-cut", (_on("glue"), _A))],
            id="cut before in the list, but used at once",
        ),
        pytest.param(
            [piece("A")],
            [],
            [step("glue", use=_USE_A), step("cut", cut=["A"])],
            [("used-before-cut", (_on("glue"), _A))],
            id="cut after",
        ),
        pytest.param(
            [piece("A")],
            [],
            [step("glue", use=_USE_A, after=["cut"]), step("cut", cut=["A"], after=[])],
            [],
            id="cut after in the list, but first to be made",
        ),
        pytest.param(
            [piece("A")],
            [],
            [step("late", cut=["A"], after=["glue"]), step("early", cut=["A"], after=[]), step("glue", use=_USE_A)],
            [],
            id="cut twice, once before",
        ),
        pytest.param(
            [piece("A")],
            [],
            [step("glue", use=[*_USE_A, *_USE_A]), step("cut", cut=["A"])],
            [("used-before-cut", (_on("glue"), _A))],
            id="used twice in a step: said once",
        ),
    ],
)
def test_everything_is_cut_and_then_used(pieces, forms, own, fired):
    assert _fired(_shelf(*own, pieces=pieces, forms=forms)) == fired


def test_a_thing_of_the_same_id_in_another_project_is_another_thing():
    kit = kit_of(
        project("shelf", pieces=[piece("A")], steps=[step("s", cut=["A"])]),
        project("tray", pieces=[piece("A")], steps=[step("s", cut=["A"], use=_USE_A)]),
    )

    assert _fired(kit) == [("never-used", (_A,))]


def test_a_step_of_another_project_may_stand_between():
    kit = kit_of(
        project(
            "shelf",
            pieces=[piece("A")],
            steps=[step("cut", cut=["A"]), step("glue", use=_USE_A, after=["tray/dry"])],
        ),
        project("tray", steps=[step("dry", after=["shelf/cut"])]),
    )

    assert "used-before-cut" not in {rule for rule, _ in _fired(kit)}


def test_why_names_the_steps_that_cut_it_too_late():
    (finding,) = _findings(_shelf(step("glue", use=_USE_A), step("cut", cut=["A"]), pieces=[piece("A")]))

    assert finding.why == {"cut_by": [_on("cut")]}
    assert finding.message == (
        "Step glue of “Shelf” uses A (panel A), but it is cut in step cut, which need not come first. "
        "Let this step come after that."
    )


def _tool(kind: str, id_: str = "tool") -> Tree:
    return {"id": id_, "name": f"the {kind}", "kind": kind}


def _supply(kind: str) -> Tree:
    return {"id": "thing", "name": f"the {kind}", "kind": kind}


@pytest.mark.parametrize(
    ("kind", "caution"),
    [("knife", "blade"), ("heat", "heat"), ("hot-glue", "heat"), ("solvent-glue", "solvent")],
)
def test_a_dangerous_tool_needs_its_caution(kind, caution):
    bare = _shelf(step("s", tools=["tool"]), tools=(_tool(kind),))
    warned = _shelf(step("s", tools=["tool"], cautions=[caution]), tools=(_tool(kind),))
    other = _shelf(step("s", tools=["tool"], cautions=["small-parts"]), tools=(_tool(kind),))

    assert _fired(warned) == []
    for kit in (bare, other):
        (finding,) = _findings(kit)
        assert (finding.rule, finding.weight, finding.at) == ("caution-needed", "stop", (_on("s"),))
        assert finding.why == {"caution": caution, "because": ["tool:tool"]}


@pytest.mark.parametrize("kind", ["trimmer", "scissors", "punch", "decorative", "scorer", "wet-glue", "tape", "other"])
def test_other_tools_need_none(kind):
    assert _fired(_shelf(step("s", tools=["tool"]), tools=(_tool(kind),))) == []


@pytest.mark.parametrize(("kind", "caution"), [("light", "flame"), ("button-cell", "cell")])
def test_a_dangerous_supply_needs_its_caution_where_it_is_used(kind, caution):
    use = [{"supply": "thing"}]
    (finding,) = _findings(_shelf(step("s", use=use), supplies=(_supply(kind),)))

    assert (finding.rule, finding.at) == ("caution-needed", (_on("s"),))
    assert finding.why == {"caution": caution, "because": ["supply:thing"]}
    assert _fired(_shelf(step("s", use=use, cautions=[caution]), supplies=(_supply(kind),))) == []
    assert _fired(_shelf(step("s"), supplies=(_supply(kind),))) == []


@pytest.mark.parametrize("kind", ["ribbon", "foam", "glazing", "battery", "fastener", "adhesive-tape", "other"])
def test_other_supplies_need_none(kind):
    assert _fired(_shelf(step("s", use=[{"supply": "thing"}]), supplies=(_supply(kind),))) == []


def test_one_finding_for_each_step_and_missing_caution():
    kit = _shelf(
        step("s", tools=["iron", "gun", "knife"]),
        step("t", tools=["gun"]),
        tools=(_tool("heat", "iron"), _tool("hot-glue", "gun"), _tool("knife", "knife")),
    )

    assert [(finding.at, finding.why) for finding in _findings(kit)] == [
        ((_on("s"),), {"caution": "heat", "because": ["tool:iron", "tool:gun"]}),
        ((_on("s"),), {"caution": "blade", "because": ["tool:knife"]}),
        ((_on("t"),), {"caution": "heat", "because": ["tool:gun"]}),
    ]


def _bound(**first_step: Any) -> Kit:
    """The calendar needs a cut-out of the shelf; what the shelf's step waits for is given."""
    window = {"id": "pane", "left": "1/2", "width": "3", "bottom": "1/2", "height": "2", "cut_out": "kept"}
    return kit_of(
        project("tray"),
        project(
            "shelf",
            pieces=[piece("A", windows=[window])],
            steps=[step("cut", cut=["A"], use=_USE_A, **first_step)],
        ),
        project(
            "calendar",
            pieces=[piece("H", **{"from": "shelf/A/pane"}, size=["3", "2"])],
            steps=[step("cut", cut=["H"], use=[{"piece": "H"}])],
        ),
    )


def test_projects_in_a_circle_are_named_in_document_order_with_what_binds_them():
    assert _fired(_bound()) == []

    (finding,) = _findings(_bound(after=["calendar/cut"]))
    assert (finding.rule, finding.weight) == ("order-circle", "stop")
    assert finding.at == ("project:shelf", "project:calendar")
    assert finding.why == {"circle": ["project:shelf", "project:calendar"]}
    assert finding.message == (
        "These projects go round in a circle: “Shelf” before “Calendar”, for piece H comes from its cut-out; "
        "“Calendar” before “Shelf”, for step cut waits for it. Change one of these, or nobody can begin."
    )


@pytest.mark.parametrize(
    ("own", "at"),
    [
        pytest.param([step("a"), step("b")], None, id="one after the other"),
        pytest.param([step("a", after=["b"]), step("b")], ("a", "b"), id="two"),
        pytest.param([step("a", after=["a"])], ("a",), id="a step after itself"),
        pytest.param(
            [step("a", after=["c"]), step("b", after=["a"]), step("c"), step("d")], ("a", "b", "c"), id="three"
        ),
    ],
)
def test_steps_of_a_project_in_a_circle_are_named(own, at):
    expected = [] if at is None else [("order-circle", tuple(map(_on, at)))]

    assert _fired(_shelf(*own)) == expected


def test_every_rule_of_this_family_has_its_weight():
    assert {rule.name: rule.weight for rule in steps.RULES} == {
        "never-cut": "fix",
        "never-used": "fix",
        "used-before-cut": "fix",
        "caution-needed": "stop",
        "order-circle": "stop",
    }


def test_the_first_kit_has_nothing_wrong_with_its_steps():
    first_kit = Path(__file__).parents[2] / "reference" / "first-kit.json"

    assert _fired(read_kit(first_kit.read_bytes())) == []
