"""Three hundred kits made by chance: the plan checker from outside accepts each plan, and the findings are in order."""

from __future__ import annotations

import json
from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema
import pytest

import kits
from layouts.document import read_kit
from layouts.proofing import RULES, prove_at_once
from layouts.proofing.findings import canonical_why
from tests.reference.kit_maker import made_kit
from tests.reference.verify_plan import Checker

KITS, IN_ONE = 300, 20
EXAMPLES = sorted((Path(kits.__path__[0]) / "examples").glob("*.json"))
FIRST = Path(__file__).with_name("first-kit.json")
SEEDS = [pytest.param(range(n, n + IN_ONE), id=f"{n} to {n + IN_ONE - 1}") for n in range(0, KITS, IN_ONE)]


def _proof(tree: Any) -> dict[str, Any]:
    return prove_at_once(read_kit(json.dumps(tree).encode()))


@cache
def _made(seed: int) -> tuple[Any, dict[str, Any]]:
    tree = made_kit(seed)
    return tree, _proof(tree)


def _why_schema(rule: str) -> dict[str, Any]:
    (properties,) = [one.why for one in RULES if one.name == rule]
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "type": "object",
        "properties": dict(properties),
        "required": sorted(properties),
        "additionalProperties": False,
    }


def _disorder(proof: dict[str, Any]) -> list[str]:
    """What is wrong with the findings of a proof: their facts, their order, their weights."""
    weights = {rule.name: rule.weight for rule in RULES}
    faults = []
    for one in proof["findings"]:
        schema = _why_schema(one["rule"])
        faults += [
            f"{one['rule']}: {error.message}"
            for error in jsonschema.Draft202012Validator(schema).iter_errors(one["why"])
        ]
        if weights[one["rule"]] != one["weight"]:
            faults.append(f"{one['rule']} weighs {one['weight']}")
    order = [
        (["stop", "fix", "note"].index(one["weight"]), one["rule"], one["at"], canonical_why(one["why"]))
        for one in proof["findings"]
    ]
    if order != sorted(order) or len({str(key) for key in order}) != len(order):
        faults.append("the findings are out of order, or one is told twice")
    return faults


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_the_schema_of_every_why_is_one(rule):
    jsonschema.Draft202012Validator.check_schema(_why_schema(rule.name))


def test_no_two_rules_have_one_name():
    assert [name for name, number in Counter(rule.name for rule in RULES).items() if number > 1] == []


@pytest.mark.parametrize("document", [*EXAMPLES, FIRST], ids=lambda path: path.stem)
def test_the_findings_of_an_example_are_in_order(document):
    assert _disorder(_proof(json.loads(document.read_text("utf-8")))) == []


@pytest.mark.parametrize("seeds", SEEDS)
def test_every_plan_can_be_cut_and_every_finding_is_in_order(seeds):
    faults = {}
    for seed in seeds:
        tree, proof = _made(seed)
        checker = Checker(tree, proof)
        checker.run()
        faults[seed] = checker.faults + _disorder(proof)

    assert {seed: found for seed, found in faults.items() if found} == {}


def test_the_kits_are_worth_the_trouble():
    """Counted over the first sixty: papers that suffice or not, and plans with cut-outs, backs and turned pieces."""
    proofs = [_made(seed)[1] for seed in range(60)]
    papers = [paper for proof in proofs for paper in proof["papers"]]
    plans = json.dumps([paper["plan"] for paper in papers])
    fired = {finding["rule"] for proof in proofs for finding in proof["findings"]}

    assert {paper["verdict"] for paper in papers} >= {"fits", "short"}
    assert all(plans.count(word) > 10 for word in ('"cut_outs"', '"side": "back"', '"turn": 90', '"turn": 180'))
    assert fired >= {"paper-short", "side-missing", "turn-impossible", "cut-out-too-small", "cut-out-overdrawn"}
