"""The proof of a kit: all checks over it, as one plain JSON value.

`print_parts` says what is asked of each print, `prove_print` answers for one of them with a solver, and `prove` puts
the answers together with everything that needs no search. The three are apart so that a caller may run the prints side
by side, reuse stored answers, and show the first while the last is still open.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from layouts.assembly import KitSteps, order_of, steps_of, time_of, typed_numbers
from layouts.cutting import Solver, find_culprits, gather_leftovers, is_proven_short, solve
from layouts.document import Accepted, Kit, document_hash
from layouts.lengths import System
from layouts.printed import Figure, Printing
from layouts.proofing.as_printed import AsPrinted, AsPrintedSearch, is_as_good
from layouts.proofing.checking import check_plan
from layouts.proofing.findings import Finding, in_order
from layouts.proofing.mends import Mend
from layouts.proofing.plans import PrintAnswer, plan_print
from layouts.proofing.prints import PrintPart, print_parts
from layouts.proofing.rules import (
    characters,
    claims,
    contents,
    counts,
    edges,
    faces,
    fineness,
    forms,
    grain,
    lids,
    papers,
    steps,
    templates,
    text,
    tools,
    waits,
    windows,
    words,
)
from layouts.proofing.rules import printed as printed_rules
from layouts.proofing.spare import is_spent, spare_of
from layouts.proofing.sparing import Sparing
from layouts.proofing.yields import yield_of
from layouts.shapes.faces import lying_in

__all__ = [
    "ENGINE",
    "RULES",
    "faults_in_text",
    "faults_without_plans",
    "paper_data",
    "prove",
    "prove_as_printed",
    "prove_print",
]

# Raised by hand whenever any rule, bound or search may answer differently: stored answers are keyed by it.
ENGINE = 4

# Steps of the enumeration of builds for the question whether one more of a piece could be cut.
STEPS_FOR_ONE_MORE = 4_000_000

RULES = (
    *papers.RULES,
    *printed_rules.RULES,
    *windows.RULES,
    *steps.RULES,
    *text.RULES,
    *characters.RULES,
    *contents.RULES,
    *faces.RULES,
    *forms.RULES,
    *grain.RULES,
    *lids.RULES,
    *edges.RULES,
    *claims.RULES,
    *words.RULES,
    *counts.RULES,
    *tools.RULES,
    *fineness.RULES,
    *templates.RULES,
    *waits.RULES,
)


def prove_print(part: PrintPart, solver: Solver) -> PrintAnswer:
    """Answer for one print; a plan has passed the independent checker.

    Raises: PlanFails where a plan does not (a defect, never an answer), and what the solver's child raises when it is
    stopped or dies.
    """
    sparing = Sparing(solver, is_quick=part.is_quick, is_glance=part.is_glance)
    answer = plan_print(
        part,
        lambda problem: solve(problem, sparing),
        lambda problem: find_culprits(problem, sparing),
        # What is only tried needs a plan, not the best one.
        lambda problem, answer: answer if part.is_quick else gather_leftovers(problem, answer),
    )
    check_plan(answer)
    if part.is_verdict_enough:
        return answer
    spent = is_spent(answer, lambda problem: is_proven_short(problem, sparing, STEPS_FOR_ONE_MORE))
    return replace(answer, is_spent=spent)


def prove(kit: Kit, answers: Sequence[PrintAnswer]) -> dict[str, Any]:
    """Return the proof `kitproof-proof/1` of a kit; `answers` are those of its prints, in document order.

    As printed, only what the plans of these answers show is judged; `Questions` asks for the rest as well.
    """
    printing = Printing(kit)
    search = AsPrintedSearch(kit, [answer.part for answer in answers], printing)
    known = {answer.part.key: answer for answer in answers}
    return prove_as_printed(kit, answers, printing, search.both(known))


def faults_without_plans(kit: Kit) -> frozenset[tuple[str, tuple[str, ...]]]:
    """Return rule and places of what keeps a kit from being ready, as far as no plan is needed to see it."""
    planned = steps_of(kit)
    unplanned = [PrintAnswer(part, "unknown", "unasked", 0, None) for part in print_parts(kit)]
    found = (*_seen_without_plans(kit, planned), *tools.findings(kit, planned, unplanned))
    return frozenset((one.rule, one.at) for one in found if one.weight != "note")


def faults_in_text(kit: Kit) -> frozenset[tuple[str, tuple[str, ...]]]:
    """Return rule, place and hash of the why of what is wrong with the text of steps. To see whether a typed measure is
    one of the plan all figures must be worked out, which takes longer than all other rules together."""
    planned = steps_of(kit)
    figures: tuple[Figure, ...] = ()
    if any(any(typed_numbers(one.step.text)) for one in planned):
        printing = Printing(kit)
        inches, mm = printing.shown("in"), printing.shown("mm")
        figures = (*printing.figures(inches, mm), *printing.derived_sides(inches, mm))
    found = text.findings(kit, planned, figures)
    return frozenset((one.rule, (*one.at, one.why_hash)) for one in found if one.weight != "note")


def _seen_without_plans(kit: Kit, planned: KitSteps) -> Iterator[Finding]:
    lying = lying_in(kit)
    yield from windows.findings(kit)
    yield from steps.findings(kit, planned, order_of(kit, planned))
    yield from contents.findings(kit, planned)
    yield from faces.findings(kit, lying)
    yield from forms.findings(kit)
    yield from grain.findings(kit)
    yield from lids.findings(kit)
    yield from edges.findings(kit, lying)
    yield from claims.findings(kit, planned, lying)
    yield from words.findings(kit, planned)
    yield from characters.findings(kit)
    yield from counts.findings(kit, planned)
    yield from fineness.findings(kit)
    yield from templates.findings(kit)
    yield from waits.findings(kit, planned)


def prove_as_printed(
    kit: Kit,
    answers: Sequence[PrintAnswer],
    printing: Printing,
    as_printed: Mapping[System, AsPrinted],
    mends: Mapping[str, Sequence[Mend]] = MappingProxyType({}),
    ideas: Mapping[str, Sequence[Mend]] = MappingProxyType({}),
) -> dict[str, Any]:
    """Return the proof of a kit with what was found of it as printed in each system, what mends its short prints, and
    what would save paper of those that fit.

    `mends` and `ideas` are those of each print, by its paper; mends of a piece that does not come out of its cut-out
    stand under its place.
    """
    inches, mm = as_printed["in"].shown, as_printed["mm"].shown
    printed = printing.figures(inches, mm)
    planned = steps_of(kit)
    order = order_of(kit, planned)
    found = [
        *papers.findings(kit, answers),
        *printed_rules.findings(kit, answers, as_printed),
        *text.findings(kit, planned, [*printed, *printing.derived_sides(inches, mm)]),
        *tools.findings(kit, planned, answers),
        *_seen_without_plans(kit, planned),
    ]
    judged = list(_with_acceptances(in_order(found), kit.accepted))
    return {
        "format": "kitproof-proof/1",
        "document": document_hash(kit),
        "engine": ENGINE,
        "verdict": _verdict(judged, answers, as_printed),
        "findings": [_finding(one, mends) for one in judged],
        "papers": [paper_data(answer, ideas.get(answer.part.paper, ())) for answer in answers],
        "order": order.as_data(),
        "time": time_of(kit, planned).as_data(),
        "printed": [_figure(figure) for figure in printed],
        "as_printed": {system: _plans(found, answers) for system, found in as_printed.items()},
    }


def _with_acceptances(findings: Sequence[Finding], accepted: Sequence[Accepted]) -> Iterator[Finding]:
    """Mark what a person has accepted: rule, places and the hash of the why must all three be those of today."""
    waived = {(one.rule, one.at, one.why) for one in accepted}
    for finding in findings:
        yield replace(finding, accepted=(finding.rule, finding.at, finding.why_hash) in waived)


def _verdict(
    findings: Sequence[Finding], answers: Sequence[PrintAnswer], as_printed: Mapping[System, AsPrinted]
) -> str:
    if any(finding.weight in ("stop", "fix") and not finding.accepted for finding in findings):
        return "not-ready"
    all_answers = [*answers, *(answer for found in as_printed.values() for answer in found.answers)]
    return "unknown" if any(answer.verdict == "unknown" for answer in all_answers) else "ready"


def _figure(figure: Figure) -> dict[str, Any]:
    data = {"at": figure.at, "in": figure.inches, "mm": figure.mm, "exact_mm": figure.exact_mm}
    # The systems in which a sum that a reader can check does not come to this figure: sheets mark it there.
    return {**data, "off_sum": list(figure.off_sum)} if figure.off_sum else data


def _plans(found: AsPrinted, answers: Sequence[PrintAnswer]) -> list[dict[str, Any]]:
    """The plans of the prints whose sizes as printed differ from the exact ones: sheets in that system cut by them."""
    exact = {answer.part.paper: answer for answer in answers}
    return [
        {"paper": answer.part.paper, "plan": list(answer.plan)}
        for answer in found.answers
        if is_as_good(answer, exact[answer.part.paper])
    ]


def _finding(finding: Finding, mends: Mapping[str, Sequence[Mend]]) -> dict[str, Any]:
    mended = mends.get(finding.at[0].removeprefix("paper:"), ()) if finding.rule in papers.MENDED else ()
    return {
        "rule": finding.rule,
        "weight": finding.weight,
        "at": list(finding.at),
        "message": finding.message,
        "why": dict(finding.why),
        "accepted": finding.accepted,
        "mend": [mend.as_data() for mend in mended],
    }


def paper_data(answer: PrintAnswer, ideas: Sequence[Mend] = ()) -> dict[str, Any]:
    """Return the answer for one print as it stands in the proof, with the changes that would save paper of it."""
    spare = spare_of(answer)
    return {
        "paper": answer.part.paper,
        "verdict": answer.verdict,
        "sheets": answer.part.sheets,
        "needed": {"at_least": answer.at_least, "at_most": answer.at_most},
        "yield": yield_of(answer),
        "reason": {"kind": answer.reason},
        "plan": list(answer.plan),
        "spare": None if spare is None else spare.as_data(),
        "ideas": [idea.as_data() for idea in ideas],
    }
