"""The proof of a kit: all checks over it, as one plain JSON value.

`print_parts` says what is asked of each print, `prove_print` answers for one of them with a solver, and `prove` puts
the answers together with everything that needs no search. The three are apart so that a caller may run the prints side
by side, reuse stored answers, and show the first while the last is still open.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

from layouts.assembly import order_of, steps_of, time_of
from layouts.cutting import Solver, solve
from layouts.document import Accepted, Kit, document_hash
from layouts.printed import figures
from layouts.proofing.checking import check_plan
from layouts.proofing.findings import Finding, in_order
from layouts.proofing.plans import PrintAnswer, plan_print
from layouts.proofing.prints import PrintPart
from layouts.proofing.rules import contents, faces, papers, steps, text, windows
from layouts.proofing.sparing import Sparing
from layouts.proofing.yields import yield_of
from layouts.shapes.faces import lying_in

__all__ = ["ENGINE", "RULES", "paper_data", "prove", "prove_print"]

# Raised by hand whenever any rule, bound or search may answer differently: stored answers are keyed by it.
ENGINE = 2

RULES = (*papers.RULES, *windows.RULES, *steps.RULES, *text.RULES, *contents.RULES, *faces.RULES)


def prove_print(part: PrintPart, solver: Solver) -> PrintAnswer:
    """Answer for one print; a plan has passed the independent checker.

    Raises: PlanFails where a plan does not (a defect, never an answer), and what the solver's child raises when it is
    stopped or dies.
    """
    sparing = Sparing(solver)
    answer = plan_print(part, lambda problem: solve(problem, sparing))
    check_plan(answer)
    return answer


def prove(kit: Kit, answers: Sequence[PrintAnswer]) -> dict[str, Any]:
    """Return the proof `kitproof-proof/1` of a kit; `answers` are those of its prints, in document order."""
    printed = figures(kit)
    planned = steps_of(kit)
    order = order_of(kit, planned)
    lying = lying_in(kit)
    found = [
        *papers.findings(kit, answers),
        *windows.findings(kit),
        *steps.findings(kit, planned, order),
        *text.findings(kit, planned, printed),
        *contents.findings(kit, planned),
        *faces.findings(kit, lying),
    ]
    judged = list(_with_acceptances(in_order(found), kit.accepted))
    return {
        "format": "kitproof-proof/1",
        "document": document_hash(kit),
        "engine": ENGINE,
        "verdict": _verdict(judged, answers),
        "findings": [_finding(one) for one in judged],
        "papers": [paper_data(answer) for answer in answers],
        "order": order.as_data(),
        "time": time_of(kit, planned).as_data(),
        "printed": [
            {"at": figure.at, "in": figure.inches, "mm": figure.mm, "exact_mm": figure.exact_mm} for figure in printed
        ],
    }


def _with_acceptances(findings: Sequence[Finding], accepted: Sequence[Accepted]) -> Iterator[Finding]:
    """Mark what a person has accepted: rule, places and the hash of the why must all three be those of today."""
    waived = {(one.rule, one.at, one.why) for one in accepted}
    for finding in findings:
        yield replace(finding, accepted=(finding.rule, finding.at, finding.why_hash) in waived)


def _verdict(findings: Sequence[Finding], answers: Sequence[PrintAnswer]) -> str:
    if any(finding.weight in ("stop", "fix") and not finding.accepted for finding in findings):
        return "not-ready"
    return "unknown" if any(answer.verdict == "unknown" for answer in answers) else "ready"


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "rule": finding.rule,
        "weight": finding.weight,
        "at": list(finding.at),
        "message": finding.message,
        "why": dict(finding.why),
        "accepted": finding.accepted,
        "mend": [],
    }


def paper_data(answer: PrintAnswer) -> dict[str, Any]:
    """Return the answer for one print as it stands in the proof."""
    return {
        "paper": answer.part.paper,
        "verdict": answer.verdict,
        "sheets": answer.part.sheets,
        "needed": {"at_least": answer.at_least, "at_most": answer.at_most},
        "yield": yield_of(answer),
        "reason": {"kind": answer.reason},
        "plan": list(answer.plan),
    }
