"""Verdicts as sentences."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from frontend.words.numbers import counted

__all__ = ["WEIGHTS", "Said", "said_of_proof", "to_mend"]

# Each weight with its word, and what it means for whoever reads the list.
WEIGHTS = {
    "stop": ("Stop", "cannot be made as it is"),
    "fix": ("Fix", "would mislead whoever makes it"),
    "note": ("Note", "worth knowing"),
}


@dataclass(frozen=True, slots=True)
class Said:
    """A verdict: the shape of its bar, and a sentence in three parts of which the middle one is set strong."""

    shape: str
    before: str
    strong: str
    after: str = ""

    def __str__(self) -> str:
        return " ".join(part for part in (self.before, f"{self.strong}{self.after}") if part)


def said_of_proof(proof: Mapping[str, Any], papers: Mapping[str, str]) -> Said:
    """Return the verdict of a proof; `papers` are names by id."""
    fit = _fit(proof["papers"], papers)
    mend = to_mend(proof["findings"])
    if mend:
        # No-break spaces: a number at the end of a line has lost what it counts.
        return Said(
            "not-ready",
            fit,
            f"{counted(mend, 'thing')} to mend".replace(" ", "\N{NO-BREAK SPACE}"),
            " before it can go to print.",
        )
    if proof["verdict"] == "ready" and proof["papers"] and all(one.get("plan") == [] for one in proof["papers"]):
        return Said("unknown", "", "Nothing to check yet", ": no piece is cut for this kit.")
    if proof["verdict"] == "ready":
        return Said("ready", fit, "Nothing to mend.")
    return Said("unknown", fit, "Nothing else to mend.")


def to_mend(findings: list[dict[str, Any]]) -> int:
    return sum(one["weight"] in ("stop", "fix") and not one["accepted"] for one in findings)


def _fit(answers: list[dict[str, Any]], papers: Mapping[str, str]) -> str:
    short = [papers.get(one["paper"], one["paper"]) for one in answers if one["verdict"] == "short"]
    unknown = [papers.get(one["paper"], one["paper"]) for one in answers if one["verdict"] == "unknown"]
    if len(short) == 1:
        return f"{short[0]} is short of paper."
    if short:
        return f"{counted(len(short), 'print')} are short of paper."
    if len(unknown) == 1:
        return f"Whether everything fits on {unknown[0]} is undecided."
    if unknown:
        return f"Whether everything fits on {counted(len(unknown), 'print')} is undecided."
    return "Every piece fits." if answers else "This kit has no paper yet."
