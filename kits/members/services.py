"""What changes people."""

from __future__ import annotations

from django.db import transaction
from django.utils import timezone

from kits.members.models import Person, PersonRole, Role

__all__ = ["role_grant", "role_withdraw"]


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
