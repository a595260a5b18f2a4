"""`manage.py person`: the way to a team's first planner."""

from __future__ import annotations

import io

import pytest
from django.core.management import CommandError, call_command

from kits.members.models import Person, Role
from kits.members.queries import roles_of

pytestmark = pytest.mark.django_db


def _add(monkeypatch: pytest.MonkeyPatch, password: str, *arguments: str) -> str:
    monkeypatch.setattr("sys.stdin", io.StringIO(f"{password}\n"))
    said = io.StringIO()
    call_command("person", *arguments, stdout=said)
    return said.getvalue()


def test_a_person_is_added_with_roles_and_can_sign_in(monkeypatch):
    said = _add(
        monkeypatch, "glasshouse-and-furrow", "Ada@Shed.example", "--name", "Ada", "--role", "planner", "--role", "care"
    )
    person = Person.objects.get(email="ada@shed.example")
    assert person.check_password("glasshouse-and-furrow")
    assert roles_of(person) == {Role.PLANNER, Role.CARE}
    assert said == "ada@shed.example can sign in (planner, care)\n"


@pytest.mark.parametrize(
    ("email", "password", "words"),
    [
        pytest.param("ada@shed.example", "short", "too short", id="a password too short"),
        pytest.param("no address", "glasshouse-and-furrow", "valid email", id="no address"),
    ],
)
def test_what_cannot_be_is_refused_and_leaves_nobody(monkeypatch, email, password, words):
    with pytest.raises(CommandError, match=words):
        _add(monkeypatch, password, email)
    assert not Person.objects.exists()


def test_an_address_is_taken_once(monkeypatch):
    _add(monkeypatch, "glasshouse-and-furrow", "ada@shed.example")
    with pytest.raises(CommandError, match="already a person"):
        _add(monkeypatch, "glasshouse-and-furrow", "ADA@shed.example")
