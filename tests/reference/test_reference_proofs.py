"""The reference proofs stay as they are for as long as the engine number does."""

from __future__ import annotations

import pytest

from layouts.proofing import ENGINE
from tests.reference.reference_proofs import DOCUMENTS, NotRenewed, Proofs, kept_proofs, proof_hash, renewed

RENEW = "python -m tests.reference.renew_proofs"


def test_the_kept_proofs_are_those_of_this_engine():
    assert kept_proofs().engine == ENGINE, f"the engine number was raised: {RENEW}"


def test_every_document_has_its_proof_and_no_other_is_kept():
    assert set(kept_proofs().hashes) == set(DOCUMENTS), f"documents came or went: {RENEW}"


@pytest.mark.parametrize("name", DOCUMENTS)
def test_a_reference_proof_changes_only_with_the_engine_number(name):
    assert proof_hash(name) == kept_proofs().hashes.get(name), (
        f"raise ENGINE in layouts/proofing/runner.py, then {RENEW}"
    )


OLD = Proofs(3, {"a": "1", "b": "2"})


@pytest.mark.parametrize(
    ("now", "same_engine"),
    [
        pytest.param(OLD, False, id="nothing has changed"),
        pytest.param(Proofs(4, {"a": "9", "b": "9"}), False, id="all has changed, and the number was raised"),
        pytest.param(Proofs(4, {"a": "1", "b": "2"}), False, id="the number alone was raised"),
        pytest.param(Proofs(3, {"a": "9", "b": "2"}), True, id="before the first release, and told so"),
        pytest.param(Proofs(3, {"a": "1", "b": "2", "c": "3"}), False, id="a document has joined"),
        pytest.param(Proofs(3, {"a": "1"}), False, id="a document has gone"),
    ],
)
def test_proofs_are_renewed(now, same_engine):
    assert renewed(OLD, now, same_engine=same_engine) == now


@pytest.mark.parametrize(
    ("now", "same_engine", "words"),
    [
        pytest.param(Proofs(3, {"a": "9", "b": "2"}), False, "the proofs of a have changed", id="one has changed"),
        pytest.param(Proofs(2, {"a": "1", "b": "2"}), False, "sunk from 3 to 2", id="the number has sunk"),
        pytest.param(Proofs(2, {"a": "9", "b": "9"}), True, "sunk from 3 to 2", id="sunk, told or not"),
    ],
)
def test_proofs_are_not_renewed(now, same_engine, words):
    with pytest.raises(NotRenewed, match=words):
        renewed(OLD, now, same_engine=same_engine)
