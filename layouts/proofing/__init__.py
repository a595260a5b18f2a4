"""The proof of a kit: rules, runner, report."""

from layouts.proofing.at_once import prove_at_once
from layouts.proofing.findings import Finding, Rule
from layouts.proofing.plans import PrintAnswer
from layouts.proofing.prints import PrintPart, print_parts
from layouts.proofing.report import refusal_report, report
from layouts.proofing.runner import ENGINE, RULES, prove, prove_print

__all__ = [
    "ENGINE",
    "RULES",
    "Finding",
    "PrintAnswer",
    "PrintPart",
    "Rule",
    "print_parts",
    "prove",
    "prove_at_once",
    "prove_print",
    "refusal_report",
    "report",
]
