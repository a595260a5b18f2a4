"""What changes people."""

from __future__ import annotations

from collections.abc import Iterable

from django.contrib.auth.password_validation import validate_password
from django.db import transaction
from django.utils import timezone

from kits.members.models import Person, PersonRole, Role

__all__ = ["person_add", "role_grant", "role_withdraw"]


@transaction.atomic
def person_add(*, email: str, name: str, password: str, roles: Iterable[Role], by: Person | None) -> Person:
    """Add somebody who can sign in, with these roles. Raises: ValidationError for the address or the password."""
    validate_password(password, Person(email=email, name=name))
    person = Person.objects.create_user(email=email, name=name, password=password)
    for role in roles:
        role_grant(person=person, role=role, by=by)
    return person


@transaction.atomic
def role_grant(*, person: Person, role: Role, by: Person | None) -> PersonRole:
    """Give a person a role; one that they have already stays as it was granted. `by` is None for the system."""
    held, _ = PersonRole.objects.get_or_create(
        person=person, role=Role(role), withdrawn_at=None, defaults={"granted_at": timezone.now(), "granted_by": by}
    )
    return held


def role_withdraw(*, person: Person, role: Role, by: Person | None) -> bool:
    """Take a role from a person, and tell whether they had it."""
    held = PersonRole.objects.filter(person=person, role=Role(role), withdrawn_at__isnull=True)
    return held.update(withdrawn_at=timezone.now(), withdrawn_by=by) == 1
