"""The proof as a whole: its members, its verdict, and what people have accepted."""

from __future__ import annotations

import ast
import hashlib
import inspect
import json
import pkgutil
from typing import Any

import pytest

from layouts.cutting import Answer, gather_leftovers
from layouts.document import Kit, canonical_bytes, read_kit
from layouts.proofing import ENGINE, prove, prove_at_once, rules, runner
from layouts.proofing.plans import PrintAnswer, plan_print
from layouts.proofing.prints import print_parts
from layouts.proofing.sparing import MOST_STEPS, MOST_WORK, Sparing
from tests.unit.proofing.small_prints import Tree, decided, kit_of, paper, piece, project

_A = "project:p/piece:A"


def _step(*letters: str, **more: Any) -> Tree:
    return {"id": "s", "text": "", "cut": list(letters), "use": [{"piece": one} for one in letters], **more}


def _kit(*, count: int = 1, typed: str = "", accepted: list[Tree] | None = None, **more: Any) -> Kit:
    """A kit that is ready; with a count of two or more its paper is short, with a text the step types a number."""
    made = project(piece("A", "60", "70", count=count), steps=[_step("A", text=typed)])
    return kit_of(made, accepted=accepted or [], **more)


def _answers(kit: Kit, solve=decided) -> list[PrintAnswer]:
    return [plan_print(part, solve, gather=gather_leftovers) for part in print_parts(kit)]


def _proof(kit: Kit, solve=decided) -> dict[str, Any]:
    return prove(kit, _answers(kit, solve))


def _undecided(_: object) -> Answer:
    return Answer("unknown", "budget", 1, None)


def _accepted(finding: dict[str, Any], **changed: Any) -> Tree:
    """An acceptance of a finding: its rule, its places, and the hash of its facts in canonical bytes."""
    canonical = json.dumps(finding["why"], sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()
    whole = {"rule": finding["rule"], "at": finding["at"], "why": hashlib.sha256(canonical).hexdigest()}
    return {**whole, "because": "known", "by": "E. Ditor", **changed}


def test_a_proof_has_the_members_of_the_contract():
    kit = _kit()

    proof = _proof(kit)

    assert list(proof) == [
        *("format", "document", "engine", "verdict", "findings", "papers", "order", "time", "printed", "as_printed")
    ]
    assert (proof["format"], proof["engine"]) == ("kitproof-proof/1", ENGINE)
    assert proof["document"] == hashlib.sha256(canonical_bytes(kit)).hexdigest()
    (one,) = proof["papers"]
    assert list(one) == ["paper", "verdict", "sheets", "needed", "yield", "reason", "plan", "spare", "ideas"]
    # 60 x 70 of 100 x 80
    assert (one["paper"], one["verdict"], one["sheets"], one["yield"]) == ("oak", "fits", 1, "0.525")
    assert (one["needed"], one["reason"]) == ({"at_least": 1, "at_most": 1}, {"kind": "plan"})
    assert [sheet["sheet"] for sheet in one["plan"]] == [1]


def test_a_finding_has_the_members_of_the_contract():
    finding = _proof(_kit(count=2))["findings"][0]

    assert list(finding) == ["rule", "weight", "at", "message", "why", "accepted", "mend"]
    assert (finding["rule"], finding["weight"], finding["at"]) == ("paper-short", "stop", ["paper:oak", _A])
    assert (finding["accepted"], finding["mend"]) == (False, [])


@pytest.mark.parametrize(
    ("paper_", "pieces", "expected"),
    [
        pytest.param(
            paper(sheets=3), [], {"verdict": "fits", "needed": {"at_least": 0, "at_most": 0}}, id="nothing is cut"
        ),
        pytest.param(
            paper(sheets=0), [], {"verdict": "fits", "needed": {"at_least": 0, "at_most": 0}}, id="nothing is there"
        ),
        pytest.param(
            paper(sheets=3),
            [piece("A", "101", "9")],
            {"verdict": "short", "needed": {"at_least": 4, "at_most": None}, "reason": {"kind": "bound"}},
            id="a piece too big: one sheet more than there are, and null",
        ),
        pytest.param(
            paper(sheets=1),
            [piece("A", "60", "80", count=3)],
            {"verdict": "short", "needed": {"at_least": 3, "at_most": 3}, "reason": {"kind": "bound"}},
            id="short, and three sheets would do",
        ),
    ],
)
def test_a_print_without_a_plan(paper_, pieces, expected):
    (one,) = _proof(kit_of(project(*pieces), papers=[paper_]))["papers"]

    assert {name: one[name] for name in expected} == expected
    assert (one["plan"], one["yield"]) == ([], None)


def test_every_paper_stands_in_document_order():
    kit = kit_of(project(piece("A", "9", "9")), papers=[paper(id_) for id_ in ("yew", "oak", "ash")])

    assert [one["paper"] for one in _proof(kit)["papers"]] == ["yew", "oak", "ash"]


_NUMBER = "Cut 3.5 mm off."  # a fix: no figure of the plan is 3.5 mm


@pytest.mark.parametrize(
    ("count", "typed", "solve", "verdict"),
    [
        pytest.param(1, "", decided, "ready", id="nothing stands"),
        pytest.param(2, "", decided, "not-ready", id="a stop"),
        pytest.param(1, _NUMBER, decided, "not-ready", id="a fix"),
        pytest.param(1, "Cut 60 mm.", decided, "ready", id="a note alone: a typed number that the plan has"),
        pytest.param(1, "", _undecided, "unknown", id="an unknown print"),
        pytest.param(1, _NUMBER, _undecided, "not-ready", id="a fix and an unknown print"),
    ],
)
def test_the_verdict(count, typed, solve, verdict):
    assert _proof(_kit(count=count, typed=typed), solve)["verdict"] == verdict


@pytest.mark.parametrize(
    ("count", "typed", "solve", "verdict"),
    [
        pytest.param(2, "", decided, "ready", id="an accepted stop stands in nobody's way"),
        pytest.param(1, _NUMBER, decided, "ready", id="nor does an accepted fix"),
        pytest.param(1, _NUMBER, _undecided, "unknown", id="what is unknown stays unknown"),
        pytest.param(1, "", _undecided, "unknown", id="also where its note is accepted"),
    ],
)
def test_the_verdict_once_everything_is_accepted(count, typed, solve, verdict):
    found = _proof(_kit(count=count, typed=typed), solve)["findings"]
    kit = _kit(count=count, typed=typed, accepted=[_accepted(one) for one in found])

    proof = _proof(kit, solve)

    assert [one["accepted"] for one in proof["findings"]] == [True] * len(found)
    assert proof["verdict"] == verdict


def test_one_finding_accepted_of_two_is_not_enough():
    found = _proof(_kit(count=2, typed=_NUMBER))["findings"]
    assert [one["rule"] for one in found] == ["paper-short", "number-not-in-plan"]

    proof = _proof(_kit(count=2, typed=_NUMBER, accepted=[_accepted(found[0])]))

    assert [one["accepted"] for one in proof["findings"]] == [True, False]
    assert proof["verdict"] == "not-ready"


@pytest.mark.parametrize(
    "changed",
    [
        pytest.param({"rule": "dead-fit"}, id="another rule"),
        pytest.param({"at": ["paper:oak"]}, id="fewer places"),
        pytest.param({"at": [_A, "paper:oak"]}, id="the places in another order"),
        pytest.param({"why": "0" * 64}, id="other facts"),
    ],
)
def test_an_acceptance_of_something_else_has_no_effect(changed):
    (finding,) = _proof(_kit(count=2))["findings"]

    proof = _proof(_kit(count=2, accepted=[_accepted(finding, **changed)]))

    assert [one["accepted"] for one in proof["findings"]] == [False]
    assert proof["verdict"] == "not-ready"


@pytest.mark.parametrize(
    "change",
    [
        pytest.param({"count": 3}, id="one copy more"),
        pytest.param({"count": 2, "cutting": {"slack": "1"}}, id="more slack"),
        pytest.param({"count": 2, "papers": [paper(undersize="1")]}, id="a smaller sheet"),
    ],
)
def test_an_acceptance_lapses_when_the_facts_change(change):
    (finding,) = _proof(_kit(count=2))["findings"]

    proof = _proof(_kit(accepted=[_accepted(finding)], **change))

    assert [(one["rule"], one["accepted"]) for one in proof["findings"]] == [("paper-short", False)]


def test_an_acceptance_stands_when_something_else_changes():
    (finding,) = _proof(_kit(count=2))["findings"]

    proof = _proof(_kit(count=2, accepted=[_accepted(finding)], title="Other"))

    assert [one["accepted"] for one in proof["findings"]] == [True]


def test_prints_side_by_side_answer_as_they_do_one_by_one():
    papers = [paper(f"paper-{n}") for n in range(8)]
    pieces = [{**piece(f"P{n}", str(40 + n), "30", count=2), "paper": f"paper-{n}"} for n in range(8)]
    kit = kit_of(project(*pieces), papers=papers)

    assert prove_at_once(kit) == _proof(kit)


class _Counting:
    """A solver that finds nothing and counts how often it was asked."""

    asked = 0

    def check(self) -> None:
        pass

    def ask(self, question: dict[str, Any]) -> dict[str, Any]:
        self.asked += 1
        return {"at_least": 1, "plan": None}


def test_a_print_is_answered_without_the_solver_once_it_has_had_its_share():
    solver = _Counting()
    sparing = Sparing(solver)
    # 10 kinds x 100 copies in all x 2048 are 2,048,000 steps: five such questions are within the share.
    question = {"task": "packingsolver", "kinds": [[1, 1, 10, True]] * 10, "queue": 2048}

    answers = [sparing.ask(question) for _ in range(8)]

    assert MOST_WORK // (10 * 100 * 2048) == 5
    assert ["failed" in answer for answer in answers] == [False] * 5 + [True] * 3
    assert solver.asked == 5


def test_at_a_glance_nothing_is_asked_of_the_solver():
    solver = _Counting()
    sparing = Sparing(solver, is_quick=True, is_glance=True)
    tree = {"task": "packingsolver", "kinds": [[1, 1, 1, True]], "queue": 16}
    assert ["failed" in sparing.ask(one) for one in (tree, {"task": "builds", "steps": 10})] == [True, True]
    assert solver.asked == 0


class _Building(_Counting):
    """A solver that spends all steps that it is given, and notes how many they were."""

    def __init__(self) -> None:
        self.given: list[int] = []

    def ask(self, question: dict[str, Any]) -> dict[str, Any]:
        self.given.append(question["steps"])
        return {"by": None, "steps": question["steps"]}


def test_builds_are_given_what_is_left_of_the_steps_of_a_print():
    solver = _Building()
    sparing = Sparing(solver)
    answers = [sparing.ask({"task": "builds", "steps": MOST_STEPS * 2 // 3}) for _ in range(4)]
    assert solver.given == [MOST_STEPS * 2 // 3, MOST_STEPS - MOST_STEPS * 2 // 3]
    assert ["failed" in answer for answer in answers] == [False, False, True, True]


def test_every_room_of_rules_is_asked_by_the_proof():
    """A rule that is listed and never asked is a promise that nobody keeps: so it was with the grain."""
    asked = {
        node.func.value.id
        for node in ast.walk(ast.parse(inspect.getsource(runner)))
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Attribute)
        and node.func.attr == "findings"
        and isinstance(node.func.value, ast.Name)
    }
    rooms = {room.name for room in pkgutil.iter_modules(rules.__path__)}
    assert asked == {"printed_rules" if room == "printed" else room for room in rooms}


def test_a_fold_across_the_grain_is_found_by_the_proof():
    """A card of 10 × 7 in, folded in the middle of its length: the fold lies upright, the grain runs sideways."""
    card: Tree = {"id": "card", "name": "Card", "size": ["12", "12"], "sheets": 1, "grain": "sideways"}
    card |= {"caliper_um": 350, "front": {"name": "Card", "reads": "up", "repeat": "one-way"}}
    form: Tree = {"id": "F", "name": "card", "as": "scored", "paper": "card", "size": ["10", "7"], "print_reads": "up"}
    form["scores"] = [{"from": "left", "at": "5"}]
    document: Tree = {"format": "kitproof/1", "code": "c", "title": "t", "unit": "in", "papers": [card]}
    document["projects"] = [{"id": "p", "title": "p", "forms": [form]}]
    proof = prove_at_once(read_kit(json.dumps(document).encode()))
    assert "fold-across-grain" in [finding["rule"] for finding in proof["findings"]]
