"""The person model, on each database."""

from __future__ import annotations

import pytest
from django.contrib.auth import authenticate, get_user_model
from django.core.exceptions import ValidationError
from django.core.management import call_command
from django.db import IntegrityError, connection, transaction

from kits.members.models import Person

pytestmark = pytest.mark.django_db


def test_the_database_is_the_kind_that_the_test_asked_for(database):
    assert connection.vendor == database


def test_a_person_is_the_user_model():
    assert get_user_model() is Person


def test_the_models_and_the_migrations_agree():
    call_command("makemigrations", "--check", "--dry-run", verbosity=0)


@pytest.mark.parametrize("typed", ["ines@example.org", "Ines@Example.ORG", "  INES@example.org "])
def test_a_person_signs_in_however_the_address_is_typed(typed):
    ines = Person.objects.create_user(email="Ines@Example.org", password="tide table lantern")
    assert ines.email == "ines@example.org"
    assert authenticate(username=typed, password="tide table lantern") == ines
    assert authenticate(username=typed, password="tide table lanterns") is None


@pytest.mark.parametrize("password", [None, ""])
def test_nobody_signs_in_without_a_password(password):
    Person.objects.create_user(email="ines@example.org")
    assert authenticate(username="ines@example.org", password=password) is None


def test_an_inactive_person_does_not_sign_in():
    ines = Person.objects.create_user(email="ines@example.org", password="tide table lantern")
    Person.objects.filter(pk=ines.pk).update(is_active=False)
    assert authenticate(username="ines@example.org", password="tide table lantern") is None


def test_one_address_is_one_person_in_whatever_letters():
    Person.objects.create_user(email="ines@example.org")
    with pytest.raises(ValidationError) as refused:
        Person.objects.create_user(email="INES@Example.org")
    assert refused.value.message_dict == {"email": ["There is already a person with this e-mail address."]}
    assert Person.objects.count() == 1


@pytest.mark.parametrize(
    "email",
    [
        pytest.param("", id="nothing"),
        pytest.param("ines", id="no at sign"),
        pytest.param("ines@", id="no host"),
        pytest.param(f"{'i' * 250}@example.org", id="too long"),
    ],
)
def test_what_is_no_address_is_refused(email):
    with pytest.raises(ValidationError) as refused:
        Person.objects.create_user(email=email)
    assert list(refused.value.message_dict) == ["email"]


@pytest.mark.parametrize(
    "email",
    [
        pytest.param("ines@example.org", id="the same"),
        pytest.param("INES@example.org", id="the same in other letters"),
        pytest.param("Mila@example.org", id="another with a capital"),
    ],
)
def test_the_database_itself_refuses_a_second_spelling(email):
    """A row that comes past create_user (an import, a query by hand) meets the same rule."""
    Person.objects.create_user(email="ines@example.org")
    with pytest.raises(IntegrityError), transaction.atomic():
        Person.objects.bulk_create([Person(email=email)])


@pytest.mark.parametrize(("name", "shown"), [("Ines Varga", "Ines Varga"), ("", "ines@example.org")])
def test_a_person_is_shown_by_name_or_else_by_address(name, shown):
    assert str(Person.objects.create_user(email="ines@example.org", name=name)) == shown
