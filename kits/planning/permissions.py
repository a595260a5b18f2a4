"""Who may do what with drafts."""

from __future__ import annotations

from kits.members.models import Person, Role
from kits.members.queries import has_role, is_team
from kits.planning.errors import NotAllowed

__all__ = [
    "ensure_in_team",
    "ensure_may_accept",
    "ensure_may_check",
    "ensure_may_edit",
    "may_accept",
    "may_check",
    "may_edit",
    "may_see",
]


def may_see(person: Person) -> bool:
    """Whether a person sees drafts: the team does, a member sees none."""
    return is_team(person)


def may_edit(person: Person) -> bool:
    return has_role(person, Role.PLANNER)


def may_check(person: Person) -> bool:
    return has_role(person, Role.PLANNER, Role.EDITOR)


def may_accept(person: Person) -> bool:
    """Whether a person may let a finding stand: who plans a kit does not waive what is found in it."""
    return has_role(person, Role.EDITOR)


def ensure_may_accept(person: Person) -> None:
    """Raises: NotAllowed."""
    if not may_accept(person):
        raise NotAllowed("only editors accept findings")


def ensure_may_edit(person: Person) -> None:
    """Raises: NotAllowed."""
    if not may_edit(person):
        raise NotAllowed("only planners change drafts")


def ensure_may_check(person: Person) -> None:
    """Raises: NotAllowed."""
    if not may_check(person):
        raise NotAllowed("only planners and editors have drafts checked")


def ensure_in_team(person: Person) -> None:
    """Raises: NotAllowed."""
    if not may_see(person):
        raise NotAllowed("only the team works on kits")
