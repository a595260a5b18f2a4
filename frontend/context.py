"""What every page shows: who has signed in, and as what."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest

from frontend.access import roles_in
from kits.members.models import Role

__all__ = ["who"]


def who(request: HttpRequest) -> dict[str, Any]:
    """Return the roles of whoever asks, as words in the order of the work; of strangers, none."""
    # A request that is refused early, for its host say, never came to know who asks.
    person = getattr(request, "user", None)
    if person is None or not person.is_authenticated:
        return {"roles": [], "in_team": False, "plans": False}
    roles = roles_in(request)
    return {
        "roles": [str(role.label) for role in Role if role in roles],
        "in_team": bool(roles - {Role.MEMBER}),
        "plans": Role.PLANNER in roles,
    }
