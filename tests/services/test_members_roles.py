"""Who may do what: roles granted and withdrawn, on each database."""

from __future__ import annotations

import threading
from concurrent.futures import ThreadPoolExecutor

import pytest
from django.db import IntegrityError, connection, transaction
from django.utils import timezone

from kits.members.models import Person, PersonRole, Role
from kits.members.queries import has_role, is_team, roles_of
from kits.members.services import role_grant, role_withdraw

pytestmark = pytest.mark.django_db


@pytest.fixture
def ines() -> Person:
    return Person.objects.create_user(email="ines@example.org", name="Ines Varga")


@pytest.fixture
def mila() -> Person:
    return Person.objects.create_user(email="mila@example.org", name="Mila Okoro")


def test_a_person_starts_with_no_role(ines):
    assert roles_of(ines) == frozenset()
    assert not is_team(ines)


def test_a_person_may_have_several_roles(ines, mila):
    for role in (Role.PLANNER, Role.CARE):
        role_grant(person=ines, role=role, by=mila)
    assert roles_of(ines) == {"planner", "care"}
    assert roles_of(mila) == frozenset()


@pytest.mark.parametrize(
    ("role", "team"),
    [(Role.PLANNER, True), (Role.EDITOR, True), (Role.CARE, True), (Role.STOCK, True), (Role.MEMBER, False)],
)
def test_all_but_members_are_the_team(ines, role, team):
    role_grant(person=ines, role=role, by=None)
    assert is_team(ines) is team


def test_one_of_the_asked_roles_is_enough(ines):
    role_grant(person=ines, role=Role.EDITOR, by=None)
    assert has_role(ines, Role.PLANNER, Role.EDITOR)
    assert not has_role(ines, Role.PLANNER)


def test_who_may_not_sign_in_has_no_role(ines):
    role_grant(person=ines, role=Role.PLANNER, by=None)
    ines.is_active = False
    assert roles_of(ines) == frozenset()
    assert not is_team(ines)


def test_a_role_granted_twice_is_held_once(ines, mila):
    first = role_grant(person=ines, role=Role.PLANNER, by=mila)
    assert role_grant(person=ines, role=Role.PLANNER, by=None) == first
    assert first.granted_by == mila


def test_a_withdrawn_role_is_gone_and_yet_on_record(ines, mila):
    role_grant(person=ines, role=Role.PLANNER, by=mila)
    assert role_withdraw(person=ines, role=Role.PLANNER, by=mila)
    assert roles_of(ines) == frozenset()
    record = PersonRole.objects.get(person=ines)
    assert (record.role, record.granted_by, record.withdrawn_by) == ("planner", mila, mila)
    assert record.withdrawn_at is not None
    assert record.granted_at <= record.withdrawn_at
    role_grant(person=ines, role=Role.PLANNER, by=mila)
    assert roles_of(ines) == {"planner"}
    assert PersonRole.objects.filter(person=ines).count() == 2


def test_withdrawing_what_nobody_has_tells_so(ines):
    assert not role_withdraw(person=ines, role=Role.PLANNER, by=None)


@pytest.mark.parametrize("change", [role_grant, role_withdraw])
def test_there_are_no_other_roles(ines, change):
    with pytest.raises(ValueError, match="boss"):
        change(person=ines, role="boss", by=None)


@pytest.mark.parametrize(
    "wrong",
    [
        pytest.param({"role": "boss"}, id="an unknown role"),
        pytest.param({"role": "planner"}, id="one held already"),
    ],
)
def test_the_database_itself_refuses(ines, wrong):
    role_grant(person=ines, role=Role.PLANNER, by=None)
    with pytest.raises(IntegrityError), transaction.atomic():
        PersonRole.objects.bulk_create([PersonRole(person=ines, granted_at=timezone.now(), **wrong)])


@pytest.mark.django_db(transaction=True)
def test_two_who_grant_the_same_role_at_once_both_get_through(ines):
    both = threading.Barrier(2, timeout=10)

    def grant(_: int) -> int:
        both.wait()
        try:
            return role_grant(person=ines, role=Role.STOCK, by=None).pk
        finally:
            connection.close()

    with ThreadPoolExecutor() as threads:
        assert len(set(threads.map(grant, range(2)))) == 1
