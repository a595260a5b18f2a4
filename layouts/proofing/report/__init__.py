"""A proof as a person reads it on a terminal."""

from layouts.proofing.report.pages import refusal_report, report

__all__ = ["refusal_report", "report"]
