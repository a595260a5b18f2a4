"""Records of test builds: a kit made from its sheets alone by somebody who did not plan it."""

from __future__ import annotations

from collections.abc import Sequence

from django.db import transaction
from django.utils import timezone

from kits.members.models import Person
from kits.planning.editing import state_at
from kits.planning.errors import BadPicture, BadRecord, NotAllowed, PlannedIt
from kits.planning.models import Change, Draft, KitDates, TestBuild, TestBuildPhoto
from kits.planning.permissions import ensure_in_team
from kits.planning.services.pictures import drawn_anew
from kits.sheets.files import keep
from layouts.document import document_hash

__all__ = ["MOST_PHOTOS", "build_add_photos", "build_record", "planned_it"]

MOST_PHOTOS = 6
_LONGEST = 10_000
_MOST_TOOLS = 500
_MOST_DEVIATIONS = 10_000


@transaction.atomic
def build_record(
    *, draft: Draft, revision: int, unit: str, tools: str, minutes: int | None, deviations: str, by: Person
) -> TestBuild:
    """Record that a person made the kit from the sheets of one revision alone, in one system, and what was different.

    Raises: NotAllowed, PlannedIt, BadRecord.
    """
    ensure_in_team(by)
    if planned_it(draft, by):
        raise PlannedIt("whoever planned a kit knows what its sheets should say")
    # One of the databases keeps no text with this character in it, and no keyboard has it.
    tools, deviations = (text.replace("\0", "").strip() for text in (tools, deviations))
    document = state_at(draft, revision)
    if document is None:
        raise BadRecord("revision", "choose the state of the kit whose sheets you had")
    if unit not in ("in", "mm"):
        raise BadRecord("unit", "say whether your sheets were in inches or in millimetres")
    if not tools:
        raise BadRecord("tools", "say which tools you used")
    if len(tools) > _MOST_TOOLS:
        raise BadRecord("tools", f"name your tools in at most {_MOST_TOOLS} characters")
    if minutes is None or not 1 <= minutes <= _LONGEST:
        raise BadRecord("minutes", f"say how many minutes it took, from 1 to {_LONGEST:,}")
    if len(deviations) > _MOST_DEVIATIONS:
        raise BadRecord("deviations", f"say it in at most {_MOST_DEVIATIONS:,} characters")
    return TestBuild.objects.create(
        kit=draft.kit,
        document_hash=document_hash(document),
        revision=revision,
        unit=unit,
        tools=tools,
        minutes=minutes,
        deviations=deviations,
        by=by,
        at=timezone.now(),
    )


def build_add_photos(*, build: TestBuild, photos: Sequence[bytes], by: Person) -> None:
    """Add photographs to a record, as whoever made it: all of them, or none. Raises: NotAllowed, BadPicture."""
    if build.by_id != by.pk:
        raise NotAllowed("photographs are added by whoever made the kit")
    if not photos:
        raise BadPicture("choose a photograph first")
    # Drawn before the database is asked: whoever waits for it must not wait for this.
    drawn = [drawn_anew(photo) for photo in photos[: MOST_PHOTOS + 1]]
    with transaction.atomic():
        TestBuild.objects.select_for_update(of=("self",)).get(pk=build.pk)
        there = TestBuildPhoto.objects.filter(build=build).count()
        if there + len(drawn) > MOST_PHOTOS:
            raise BadPicture(f"a record has at most {MOST_PHOTOS} photographs")
        for number, (content, width, height) in enumerate(drawn, start=there + 1):
            TestBuildPhoto.objects.create(
                build=build, number=number, file=keep(content, "jpg"), width=width, height=height
            )


def planned_it(draft: Draft, person: Person) -> bool:
    """Whether a person changed the draft, whatever they have changed, or answers for it as its planner.

    An editor who let a finding stand has planned nothing.
    """
    changed = Change.objects.filter(draft=draft, by=person).exclude(what__in=("accepted", "recalled"))
    return changed.exists() or KitDates.objects.filter(kit=draft.kit, planner=person).exists()
