"""What the cutting room answers: fits, short or the honest unknown, and what it knows about the number of sheets."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Literal

from layouts.cutting.tree import Region, region_from_json, region_to_json

__all__ = ["Answer", "Reason", "Verdict"]

Verdict = Literal["fits", "short", "unknown"]

# plan: here it is · area: more paper than there is · bound: a sharper proof · exhausted: every way was tried ·
# budget: the listed searches are over · too-big: more copies than the searches take on.
Reason = Literal["plan", "area", "bound", "exhausted", "budget", "too-big"]


@dataclass(frozen=True, slots=True)
class Answer:
    """The verdict on one problem, and its reason.

    `at_least`: so many identical sheets are needed, proven, however many there were (one more than there are where no
    number would do). `at_most`: the sheets of the best plan found with however many sheets, None if there is none.
    `sheets`: that plan, one tree a sheet; empty where the verdict is short.
    """

    verdict: Verdict
    reason: Reason
    at_least: int
    at_most: int | None
    sheets: tuple[Region, ...] = ()

    def __post_init__(self) -> None:
        if self.at_most is not None and self.at_most < self.at_least:
            raise ValueError(f"at least {self.at_least} sheets and at most {self.at_most}")
        if (self.verdict == "fits") != (self.reason == "plan"):
            raise ValueError(f"{self.verdict} because of {self.reason}")
        if len(self.sheets) != (0 if self.verdict == "short" else self.at_most or 0):
            raise ValueError(f"{self.verdict}, but a plan of {len(self.sheets)} sheets")

    def to_json(self) -> str:
        """Canonical text, to be kept under the problem's hash."""
        value = {
            "at_least": self.at_least,
            "at_most": self.at_most,
            "reason": self.reason,
            "sheets": [region_to_json(sheet) for sheet in self.sheets],
            "verdict": self.verdict,
        }
        return json.dumps(value, ensure_ascii=False, separators=(",", ":"), sort_keys=True)

    @classmethod
    def from_json(cls, text: str) -> Answer:
        """Read what `to_json` wrote. Raises: ValueError, KeyError, TypeError."""
        value = json.loads(text)
        sheets = tuple(region_from_json(sheet) for sheet in value["sheets"])
        return cls(value["verdict"], value["reason"], value["at_least"], value["at_most"], sheets)
