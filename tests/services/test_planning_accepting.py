"""Findings that an editor lets stand, and that count again, on each database."""

from __future__ import annotations

from typing import Any

import pytest

from kits.members.models import Role
from kits.planning.documents import build, build_bytes
from kits.planning.errors import NoReason, NotAccepted, NotAllowed, RevisionMoved
from kits.planning.services import draft_restore, finding_accept, finding_recall, piece_change
from layouts.proofing import prove_at_once
from layouts.proofing.findings import why_hash
from tests.services.planning_cast import A, drafted, ines, person

pytestmark = pytest.mark.django_db

FINDING: dict[str, Any] = {"rule": "border-differs", "at": ["project:box/placement:A"], "why": "f" * 64}


@pytest.fixture
def editor():
    return person("Runa Holm", Role.EDITOR)


def test_a_finding_is_accepted_by_name_and_for_a_reason(editor):
    draft = finding_accept(draft=drafted(ines()), **FINDING, because="  tried on the sample ", revision=1, by=editor)
    assert build(draft).accepted[-1].model_dump() | {"carried": {}} == {
        **FINDING,
        "at": ("project:box/placement:A",),
        "because": "tried on the sample",
        "by": "Runa Holm",
        "carried": {},
    }
    assert len(build(draft).accepted) == 2
    change = draft.changes.get(revision=2)
    assert (change.what, change.place, change.before) == ("accepted", "project:box/placement:A", None)


def test_accepted_again_it_has_the_new_reason_alone(editor):
    draft = drafted(ines())
    finding_accept(draft=draft, **FINDING, because="one", revision=1, by=editor)
    draft = finding_accept(draft=draft, **FINDING, because="two", revision=2, by=editor)
    assert [one.because for one in build(draft).accepted] == ["tried", "two"]


def test_it_counts_again_and_earlier_states_come_back(editor):
    by = ines()
    draft = drafted(by)
    before = build_bytes(draft)
    finding_accept(draft=draft, **FINDING, because="one", revision=1, by=editor)
    accepted = build_bytes(draft)
    draft = finding_recall(draft=draft, **FINDING, revision=2, by=editor)
    assert build_bytes(draft) == before
    draft = draft_restore(draft=draft, to=2, revision=3, by=by)
    assert build_bytes(draft) == accepted


def test_a_proof_takes_it_as_accepted_until_its_facts_change(editor):
    """The lid of the box leaves other borders than it claims: 1/8 in all round a piece that is larger than the face."""
    by = ines()
    draft = drafted(by)

    def found() -> list[dict]:
        return [one for one in prove_at_once(build(draft))["findings"] if one["rule"] == "border-differs"]

    (finding,) = found()
    named = {"rule": finding["rule"], "at": finding["at"], "why": why_hash(finding["why"])}
    draft = finding_accept(draft=draft, **named, because="it shows on purpose", revision=1, by=editor)
    assert [one["accepted"] for one in found()] == [True]
    draft = piece_change(draft=draft, place=A, field="size", value=["6 1/4", "4"], revision=2, by=by)
    assert [one["accepted"] for one in found()] == [False]


@pytest.mark.parametrize("because", ["", "  \n"])
def test_nothing_is_accepted_without_a_reason(editor, because):
    draft = drafted(ines())
    with pytest.raises(NoReason):
        finding_accept(draft=draft, **FINDING, because=because, revision=1, by=editor)
    draft.refresh_from_db()
    assert draft.revision == 1


def test_what_is_not_accepted_does_not_count_again(editor):
    with pytest.raises(NotAccepted):
        finding_recall(draft=drafted(ines()), **FINDING, revision=1, by=editor)


def test_a_finding_is_accepted_on_the_revision_that_was_read(editor):
    by = ines()
    draft = drafted(by)
    piece_change(draft=draft, place=A, field="count", value=2, revision=1, by=by)
    with pytest.raises(RevisionMoved):
        finding_accept(draft=draft, **FINDING, because="one", revision=1, by=editor)


@pytest.mark.parametrize("role", [Role.PLANNER, Role.CARE, Role.STOCK, Role.MEMBER])
def test_only_editors_accept_and_recall(role):
    """Who plans a kit does not waive what is found in it."""
    draft, other = drafted(ines()), person(f"{role.value} x", role)
    with pytest.raises(NotAllowed):
        finding_accept(draft=draft, **FINDING, because="one", revision=1, by=other)
    with pytest.raises(NotAllowed):
        finding_recall(draft=draft, **FINDING, revision=1, by=other)
