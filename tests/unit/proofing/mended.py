"""Proofs of small kits with their mends and ideas, and what must hold for each of these."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from layouts.cutting import Solver
from layouts.document import Change, Kit, canonical_bytes, changed
from layouts.proofing import PrintAnswer, prove_print
from layouts.proofing.questions import Questions

__all__ = ["Proof", "check_each", "ideas", "kinds", "mends", "proved", "taken"]

type Proof = dict[str, Any]
type Offered = Mapping[str, Any]


def proved(kit: Kit, solver: Solver) -> Proof:
    questions = Questions(kit)
    answers: dict[str, PrintAnswer] = {}
    while asked := questions.open(answers):
        answers |= {part.key: prove_print(part, solver) for part in asked}
    return questions.proof(answers)


def mends(proof: Proof) -> list[dict[str, Any]]:
    """Those of all prints that are short."""
    return [mend for one in proof["findings"] if one["rule"] == "paper-short" for mend in one["mend"]]


def ideas(proof: Proof) -> list[dict[str, Any]]:
    """Those of all prints."""
    return [idea for paper in proof["papers"] for idea in paper["ideas"]]


def kinds(offered: Sequence[Offered]) -> list[tuple[str, ...]]:
    """What each costs besides sheets, by name."""
    return [tuple(name for name in one["cost"] if name not in ("sheets", "saved")) for one in offered]


def taken(kit: Kit, one: Offered) -> Kit:
    """The kit with a mend or an idea made in it; taking it back gives the same bytes."""
    changes = [Change.of(change) for change in one["change"]]
    after = changed(kit, changes)
    back = changed(after, [Change(change.at, change.after, change.before) for change in changes])
    assert canonical_bytes(back) == canonical_bytes(kit)
    return after


def check_each(kit: Kit, proof: Proof, solver: Solver) -> None:
    """Every mend does away with its finding, every idea saves what it says, and neither brings anything new to mend."""
    before = _faults(proof)
    for finding in proof["findings"]:
        for mend in finding["mend"]:
            after = proved(taken(kit, mend), solver)
            if finding["rule"] == "paper-short":
                assert _paper(after, finding["at"][0].removeprefix("paper:"))["verdict"] == "fits", mend
            assert (finding["rule"], finding["at"][0]) not in _faults(after), mend
            assert _faults(after) <= before, mend
    for paper in proof["papers"]:
        for idea in paper["ideas"]:
            after = proved(taken(kit, idea), solver)
            now = _paper(after, paper["paper"])
            assert now["verdict"] == "fits", idea
            assert now["sheets"] == paper["sheets"] + idea["cost"]["sheets"], idea
            assert now["needed"]["at_most"] <= paper["needed"]["at_most"] + idea["cost"]["sheets"], idea
            assert _faults(after) <= before, idea


def _paper(proof: Proof, paper: str) -> dict[str, Any]:
    found: dict[str, Any] = next(one for one in proof["papers"] if one["paper"] == paper)
    return found


def _faults(proof: Proof) -> set[tuple[str, ...]]:
    """Rule and first place of what keeps the kit from being ready."""
    return {(one["rule"], one["at"][0]) for one in proof["findings"] if one["weight"] != "note"}
