"""Findings as data: exact facts, one order, each told once, and a hash that names the facts."""

from __future__ import annotations

import hashlib
import random

import pytest

from layouts.proofing.findings import Finding, Rule, canonical_why, in_order

STOP = Rule("b-rule", "stop", "Stops.", {"n": {"type": "integer"}})
FIX = Rule("a-rule", "fix", "Wants mending.", {"n": {"type": "integer"}})
NOTE = Rule("a-note", "note", "Is worth knowing.", {"n": {"type": "integer"}})


def _finding(rule: Rule, *at: str, n: int = 0) -> Finding:
    return rule.finding(*at, message="words", n=n)


def test_a_finding_has_the_name_and_weight_of_its_rule():
    finding = _finding(STOP, "paper:oak", n=3)

    assert (finding.rule, finding.weight, finding.at, finding.why) == ("b-rule", "stop", ("paper:oak",), {"n": 3})
    assert not finding.accepted


@pytest.mark.parametrize("why", [{}, {"n": 1, "m": 2}, {"m": 2}], ids=["lacking", "too many", "another"])
def test_a_finding_holds_exactly_the_facts_of_its_rule(why):
    with pytest.raises(ValueError, match="the why of b-rule holds"):
        STOP.finding("paper:oak", message="words", **why)


def test_findings_stand_by_weight_then_rule_then_places_then_facts():
    ordered = [
        _finding(STOP, "paper:oak"),
        _finding(FIX, "paper:ash", n=10),
        _finding(FIX, "paper:ash", n=9),  # as text: "10" stands before "9"
        _finding(FIX, "paper:ash", "paper:oak"),
        _finding(FIX, "paper:oak"),
        _finding(NOTE, "paper:ash"),
    ]
    mixed = random.Random(3).sample(ordered, len(ordered))

    assert in_order(mixed) == ordered


def test_what_is_found_twice_is_told_once():
    twice = [_finding(STOP, "paper:oak"), _finding(STOP, "paper:oak"), _finding(STOP, "paper:oak", n=1)]

    assert in_order(twice) == twice[1:]


def test_the_hash_of_a_why_is_that_of_its_canonical_bytes():
    why = {"b": ["é", 1], "a": {"d": None, "c": True}}

    # Keys sorted, no white space, UTF-8: written out by hand.
    assert canonical_why(why) == '{"a":{"c":true,"d":null},"b":["é",1]}'.encode()
    assert _finding(STOP, "x", n=7).why_hash == hashlib.sha256(b'{"n":7}').hexdigest()
