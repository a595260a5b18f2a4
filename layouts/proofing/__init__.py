"""The proof of a kit: rules, runner, report."""

from layouts.proofing.at_once import prove_at_once
from layouts.proofing.findings import Finding, Rule
from layouts.proofing.plans import PrintAnswer
from layouts.proofing.prints import PrintPart, print_parts
from layouts.proofing.questions import Questions
from layouts.proofing.report import refusal_report, report
from layouts.proofing.runner import ENGINE, RULES, paper_data, prove, prove_print
from layouts.proofing.stored import answer_from_json, answer_to_json, proof_text

__all__ = [
    "ENGINE",
    "RULES",
    "Finding",
    "PrintAnswer",
    "PrintPart",
    "Questions",
    "Rule",
    "answer_from_json",
    "answer_to_json",
    "paper_data",
    "print_parts",
    "proof_text",
    "prove",
    "prove_at_once",
    "prove_print",
    "refusal_report",
    "report",
]
