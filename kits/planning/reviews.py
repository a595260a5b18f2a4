"""What is asked about comments, handovers and test builds. Each query takes the same number of statements."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.db.models import Prefetch, Q, QuerySet

from kits.members.models import Person
from kits.planning.models import Comment, CommentEntry, Draft, Handover, Holder, Kit, KitDates, TestBuild
from kits.planning.services.reviews import may_hand_over, may_take_back

__all__ = ["Standing", "around", "builds_of", "comments_at", "comments_of", "open_comments", "standing_of_kit"]


@dataclass(frozen=True, slots=True)
class Standing:
    """Who has a kit, since the newest handover, and what the person who asks may do about it."""

    holder: Holder
    last: Handover | None
    number: int
    earlier: tuple[Handover, ...]
    may_hand_over: bool
    may_take_back: bool


def around(kit: Kit) -> dict[str, Any]:
    """Return what the page of a kit says beside its document: its dates, who has it, how many comments are open."""
    last = Handover.objects.filter(kit=kit).first()
    return {
        "dates": KitDates.objects.filter(kit=kit).first(),
        "holder": Holder.PLANNER if last is None else Holder(last.to),
        "open_comments": open_comments(kit),
    }


def comments_of(kit: Kit) -> list[Comment]:
    """Return all comments of a kit with what became of them, the open ones first, the newest first."""
    return list(_whole(Comment.objects.filter(kit=kit)))


def comments_at(draft: Draft, place: str) -> list[Comment]:
    """Return the comments on a thing of a kit and on what is in it, the open ones first."""
    within = f"{place}/"
    found = _whole(Comment.objects.filter(Q(place=place) | Q(place__startswith=within), kit=draft.kit_id))
    # SQLite finds ids in other capitals as well.
    return [one for one in found if one.place == place or one.place.startswith(within)]


def open_comments(kit: Kit) -> int:
    return Comment.objects.filter(kit=kit, is_open=True).count()


def standing_of_kit(kit: Kit, person: Person) -> Standing:
    """Return who has a kit, and what a person may do about it."""
    handovers = tuple(Handover.objects.filter(kit=kit).select_related("by")[:20])
    last = handovers[0] if handovers else None
    return Standing(
        holder=Holder.PLANNER if last is None else Holder(last.to),
        last=last,
        number=0 if last is None else last.number,
        earlier=handovers[1:],
        may_hand_over=may_hand_over(kit, last, person),
        may_take_back=may_take_back(last, person),
    )


def builds_of(kit: Kit) -> list[TestBuild]:
    """Return the test builds of a kit, the newest first."""
    return list(TestBuild.objects.filter(kit=kit).select_related("by").prefetch_related("photos"))


def _whole(comments: QuerySet[Comment]) -> QuerySet[Comment]:
    entries = CommentEntry.objects.select_related("by", "to")
    return comments.select_related("by", "assigned_to").prefetch_related(Prefetch("entries", entries))
