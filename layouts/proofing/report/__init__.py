"""A proof as a person reads it on a terminal."""

from layouts.proofing.report.mends import mends_report, numbered_mends
from layouts.proofing.report.pages import refusal_report, report

__all__ = ["mends_report", "numbered_mends", "refusal_report", "report"]
