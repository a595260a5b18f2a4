"""What is asked about people."""

from __future__ import annotations

from kits.members.models import Person, PersonRole, Role

__all__ = ["has_role", "is_team", "roles_of"]


def roles_of(person: Person) -> frozenset[Role]:
    """Return the roles that a person has now; somebody who may not sign in has none."""
    if not person.is_active:
        return frozenset()
    held = PersonRole.objects.filter(person=person, withdrawn_at__isnull=True).values_list("role", flat=True)
    return frozenset(Role(role) for role in held)


def has_role(person: Person, *roles: Role) -> bool:
    """Whether a person has at least one of these roles."""
    return not roles_of(person).isdisjoint(roles)


def is_team(person: Person) -> bool:
    """Whether a person works on kits, not only makes them."""
    return bool(roles_of(person) - {Role.MEMBER})
