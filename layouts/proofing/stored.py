"""What is kept of a proof: its text, and the answer of one print as JSON, to be used again by whoever asks the same."""

from __future__ import annotations

import json
from typing import Any

from layouts.cutting import Culprits
from layouts.proofing.families import CutOutAnswer
from layouts.proofing.plans import PrintAnswer
from layouts.proofing.prints import PrintPart

__all__ = ["answer_from_json", "answer_to_json", "proof_text"]


def proof_text(proof: Any) -> str:
    """Return a proof as `manage.py proof --json` prints it; members stand in the order in which they were made."""
    return json.dumps(proof, ensure_ascii=False, indent=1) + "\n"


def answer_to_json(answer: PrintAnswer) -> str:
    """Return the answer without its part, which is the key that it is kept under.

    Members are not sorted: a plan that is read again must print the same bytes as one just made.
    """
    culprits = answer.culprits
    value = {
        "verdict": answer.verdict,
        "reason": answer.reason,
        "at_least": answer.at_least,
        "at_most": answer.at_most,
        "plan": answer.plan,
        "impossible": [[want.place, why] for want, why in answer.impossible],
        "refused": [[one.host, one.window.id, one.state, one.pieces] for one in answer.refused],
        "dead_fit": answer.dead_fit,
        "is_spent": answer.is_spent,
        "culprits": None if culprits is None else [culprits.copies, culprits.because, culprits.is_smallest],
    }
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))


def answer_from_json(text: str, part: PrintPart) -> PrintAnswer:
    """Read what `answer_to_json` wrote for an equal part. Raises: ValueError, KeyError, TypeError."""
    value = json.loads(text)
    wants = {want.place: want for want in part.wants}
    windows = {(want.place, window.id): window for want in part.wants for window in want.windows}
    return PrintAnswer(
        part=part,
        verdict=value["verdict"],
        reason=value["reason"],
        at_least=value["at_least"],
        at_most=value["at_most"],
        plan=tuple(value["plan"]),
        impossible=tuple((wants[place], why) for place, why in value["impossible"]),
        refused=tuple(
            CutOutAnswer(host, windows[host, window], state, tuple(pieces))
            for host, window, state, pieces in value["refused"]
        ),
        dead_fit=value["dead_fit"],
        culprits=_culprits(value["culprits"]),
        is_spent=value["is_spent"],
    )


def _culprits(value: Any) -> Culprits | None:
    if value is None:
        return None
    copies, because, is_smallest = value
    return Culprits(tuple((place, number) for place, number in copies), because, is_smallest)
