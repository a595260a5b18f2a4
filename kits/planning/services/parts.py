"""The team's library of parts: a thing of a kit is kept under a name, used in another kit, and forgotten."""

from __future__ import annotations

from collections.abc import Mapping

from django.db import IntegrityError, transaction
from django.utils import timezone

from kits.members.models import Person
from kits.planning.documents import build
from kits.planning.editing import locked
from kits.planning.errors import NameTaken, NoName
from kits.planning.fragments import fragment_of, used
from kits.planning.models import Draft, Part
from kits.planning.permissions import ensure_may_edit
from kits.planning.services.things import things_add
from layouts.document import UnknownPlace

__all__ = ["part_forget", "part_keep", "part_use"]


@transaction.atomic
def part_keep(*, draft: Draft, place: str, name: str, note: str, by: Person) -> Part:
    """Keep a piece, folded part or blank, as it is now, under a name that no other part has.

    Raises: NotAllowed, UnknownPlace, NoName, NameTaken.
    """
    ensure_may_edit(by)
    # Locked, so that the revision is the one whose thing is kept.
    now = locked(draft)
    fragment = fragment_of(build(now), place)
    if not name.strip():
        raise NoName("a part is kept under a name")
    part = Part(
        name=name.strip(),
        note=note.strip(),
        kind=place.rpartition("/")[2].partition(":")[0],
        place=fragment.place,
        document=fragment.document,
        kit=now.kit,
        revision=now.revision,
        by=by,
        at=timezone.now(),
    )
    try:
        with transaction.atomic():
            part.save()
    except IntegrityError:
        if not Part.objects.filter(name__iexact=part.name).exists():
            raise
        raise NameTaken(part.name) from None
    return part


@transaction.atomic
def part_use(
    *, part: Part, draft: Draft, project: str, prints: Mapping[str, str], revision: int, by: Person
) -> Mapping[str, str]:
    """Add a part to a project of a draft in one change, and return what its things are called there.

    `prints` says which print of the draft each print of the part is; those that are not named come along.
    Raises: NotAllowed, RevisionMoved, UnknownPlace, DraftRefused.
    """
    ensure_may_edit(by)
    kit = build(draft)
    into = next((one for one in kit.projects if one.id == project), None)
    if into is None:
        raise UnknownPlace(f"there is no project {project} in this kit")
    use = used(part.fragment, kit, into, prints)
    if use.things:
        things_add(draft=draft, things=use.things, revision=revision, by=by)
    return use.called


def part_forget(*, part: Part, by: Person) -> None:
    """Take a part out of the library; kits that used it keep what they made of it. Raises: NotAllowed."""
    ensure_may_edit(by)
    part.delete()
