"""What is asked about people."""

from __future__ import annotations

from kits.members.models import Person, PersonRole, Role

__all__ = ["has_role", "is_team", "people_with", "roles_of", "team_people"]


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


def people_with(*roles: Role) -> list[Person]:
    """Return who has at least one of these roles and may sign in, by name."""
    held = PersonRole.objects.filter(role__in=roles, withdrawn_at__isnull=True).values("person")
    return list(Person.objects.filter(is_active=True, pk__in=held).order_by("name", "email"))


def team_people() -> list[Person]:
    """Return who works on kits, by name."""
    return people_with(*(role for role in Role if role != Role.MEMBER))
