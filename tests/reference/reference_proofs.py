"""Which proofs are kept as reference, and what is kept of them: the SHA-256 of their bytes beside the engine number."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from pathlib import Path

import kits
from layouts.document import read_kit
from layouts.errors import KitproofError
from layouts.proofing import ENGINE, proof_text, prove_at_once

__all__ = ["DOCUMENTS", "KEPT", "NotRenewed", "Proofs", "kept_proofs", "made_now", "proof_hash", "renewed"]

HERE = Path(__file__).parent
KEPT = HERE / "proofs.json"
DOCUMENTS = {
    path.stem: path
    for path in (
        *sorted((Path(kits.__path__[0]) / "examples").glob("*.json")),
        HERE / "first-kit.json",
        *sorted((HERE / "documents").glob("*.json")),
    )
}


class NotRenewed(KitproofError):
    """Answers have changed, and the engine number has not been raised."""

    code = "not-renewed"


@dataclass(frozen=True, slots=True)
class Proofs:
    """The engine number, and the hash of each proof by the name of its document."""

    engine: int
    hashes: dict[str, str]

    def to_json(self) -> str:
        return json.dumps({"engine": self.engine, "proofs": self.hashes}, indent=1, sort_keys=True) + "\n"

    @classmethod
    def from_json(cls, text: str) -> Proofs:
        value = json.loads(text)
        return cls(value["engine"], value["proofs"])


def proof_hash(name: str) -> str:
    """Return the SHA-256 of the bytes that `manage.py proof --json` prints for a document."""
    proof = prove_at_once(read_kit(DOCUMENTS[name].read_bytes()))
    return hashlib.sha256(proof_text(proof).encode()).hexdigest()


def made_now() -> Proofs:
    return Proofs(ENGINE, {name: proof_hash(name) for name in DOCUMENTS})


def kept_proofs() -> Proofs:
    return Proofs.from_json(KEPT.read_text("utf-8"))


def renewed(kept: Proofs, now: Proofs, *, same_engine: bool) -> Proofs:
    """Return what is to be kept from now on.

    New documents may join at any time. `same_engine` lets answers change without a new number: before the first
    release only, when nobody has stored an answer yet.
    Raises: NotRenewed where a proof that is kept has changed and the engine number is the old one, or has sunk.
    """
    if now.engine < kept.engine:
        raise NotRenewed(f"the engine number has sunk from {kept.engine} to {now.engine}")
    changed = [name for name, hash_ in kept.hashes.items() if now.hashes.get(name, hash_) != hash_]
    if changed and now.engine == kept.engine and not same_engine:
        raise NotRenewed(
            f"the proofs of {', '.join(sorted(changed))} have changed and the engine number is still {now.engine}: "
            "raise ENGINE in layouts/proofing/runner.py, so that no stored answer is taken for one of today"
        )
    return now
