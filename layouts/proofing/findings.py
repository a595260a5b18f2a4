"""Findings: one line of a proof, as data. Every rule has one weight and a published schema of its `why`."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Literal

__all__ = ["Finding", "Rule", "Weight", "canonical_why", "in_order", "why_hash"]

Weight = Literal["stop", "fix", "note"]
_HEAVIEST_FIRST: tuple[Weight, ...] = ("stop", "fix", "note")


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule: its name, its one weight, what it means in a sentence, and the JSON Schema properties of its `why`."""

    name: str
    weight: Weight
    meaning: str
    why: Mapping[str, Any]

    def finding(self, *at: str, message: str, **why: Any) -> Finding:
        """Return a finding of this rule. `at` are places, the first the one to go to; `why` holds exactly the facts
        of the rule's schema (texts, whole numbers, lists of them): when they change, an acceptance lapses."""
        if set(why) != set(self.why):
            raise ValueError(f"the why of {self.name} holds {sorted(self.why)}, not {sorted(why)}")
        return Finding(self.name, self.weight, at, message, why)


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that is wrong or worth knowing: which rule, where, in words, and why as data."""

    rule: str
    weight: Weight
    at: tuple[str, ...]
    message: str
    why: Mapping[str, Any]
    accepted: bool = False

    @property
    def why_hash(self) -> str:
        return why_hash(self.why)


def why_hash(why: Mapping[str, Any]) -> str:
    """Return the SHA-256 by which an acceptance names the facts of a finding."""
    return hashlib.sha256(canonical_why(why)).hexdigest()


def canonical_why(why: Mapping[str, Any]) -> bytes:
    """Return the bytes whose SHA-256 an acceptance names: sorted keys, no white space, UTF-8."""
    return json.dumps(why, ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode()


def in_order(findings: Iterable[Finding]) -> list[Finding]:
    """Sort by weight (stop, fix, note), rule, places and canonical why; what two prints tell alike is told once."""
    once = {(_HEAVIEST_FIRST.index(one.weight), one.rule, one.at, canonical_why(one.why)): one for one in findings}
    return [once[key] for key in sorted(once)]
