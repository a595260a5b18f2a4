"""The days of kits, and the secret addresses at which calendar programs get them."""

from __future__ import annotations

import hashlib
import secrets
from datetime import date
from typing import Any

from django.db import transaction
from django.utils import timezone

from kits.members.models import Person, Role
from kits.members.queries import has_role
from kits.planning.errors import BadDates, DatesMoved
from kits.planning.models import CalendarAddress, Kit, KitDates, KitDatesChange
from kits.planning.permissions import ensure_in_team, ensure_may_edit

__all__ = ["calendar_renew", "calendar_revoke", "dates_set", "secret_hash"]


@transaction.atomic
def dates_set(
    *,
    kit: Kit,
    print_day: date | None,
    post_day: date | None,
    planner: Person | None,
    editor: Person | None,
    version: int,
    by: Person,
) -> KitDates | None:
    """Write the days of a kit and who answers for it, and note what they were. `version` is the one that was read, 0
    where the kit had none; None comes back where it still has none.

    Raises: NotAllowed, BadDates, DatesMoved.
    """
    ensure_may_edit(by)
    if print_day is not None and post_day is not None and post_day < print_day:
        raise BadDates("post_day", "a kit is posted on the day that it is printed, or later")
    if planner is not None and not has_role(planner, Role.PLANNER):
        raise BadDates("planner", f"{planner} is no planner")
    if editor is not None and not has_role(editor, Role.EDITOR):
        raise BadDates("editor", f"{editor} is no technical editor")
    # The kit's own row is there before its days are: whoever comes second waits for it.
    Kit.objects.select_for_update(of=("self",)).get(pk=kit.pk)
    now = KitDates.objects.filter(kit=kit).first()
    last = 0 if now is None else now.version
    if last != version:
        changed = KitDatesChange.objects.filter(kit=kit).select_related("by").first()
        raise DatesMoved(version, last, "Somebody" if changed is None else str(changed.by))
    before = _plain(now)
    dates = now or KitDates(kit=kit, version=0)
    dates.print_day, dates.post_day, dates.planner, dates.editor = print_day, post_day, planner, editor
    if _plain(dates) == before:
        return now
    dates.version, dates.at = dates.version + 1, timezone.now()
    dates.save()
    KitDatesChange.objects.create(
        kit=kit, version=dates.version, by=by, at=dates.at, before=before, after=_plain(dates)
    )
    return dates


@transaction.atomic
def calendar_renew(*, by: Person) -> str:
    """Give a person a new secret for their calendar's address; an earlier one opens nothing any more.

    The secret is told once: only its hash is kept.
    Raises: NotAllowed.
    """
    ensure_in_team(by)
    secret = secrets.token_urlsafe(32)
    CalendarAddress.objects.update_or_create(
        person=by, defaults={"secret_hash": secret_hash(secret), "at": timezone.now()}
    )
    return secret


def calendar_revoke(*, by: Person) -> bool:
    """Take back the address of a person's calendar; tell whether there was one."""
    return CalendarAddress.objects.filter(person=by).delete()[0] > 0


def secret_hash(secret: str) -> str:
    """Return what is kept of a secret. It is long and random, so that a quick hash is enough."""
    return hashlib.sha256(secret.encode()).hexdigest()


def _plain(dates: KitDates | None) -> dict[str, Any]:
    if dates is None:
        return {"print_day": None, "post_day": None, "planner": None, "editor": None}
    return {
        "print_day": None if dates.print_day is None else dates.print_day.isoformat(),
        "post_day": None if dates.post_day is None else dates.post_day.isoformat(),
        "planner": dates.planner_id,
        "editor": dates.editor_id,
    }
