"""Things of the catalogue that a draft takes over as its own."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.db import transaction

from inventory.models import CatalogueItem
from kits.members.models import Person
from kits.planning.bringing import brought_items
from kits.planning.columns import TABLES
from kits.planning.documents import build
from kits.planning.models import Draft
from kits.planning.permissions import ensure_may_edit
from kits.planning.services.things import things_add

__all__ = ["items_bring"]


@transaction.atomic
def items_bring(*, draft: Draft, items: Sequence[CatalogueItem], revision: int, by: Person) -> Draft:
    """Add items of the catalogue to a draft, with ids that are free in it, all of them or none; each keeps its item.

    Raises: NotAllowed, RevisionMoved, DraftRefused.
    """
    ensure_may_edit(by)
    things = brought_items(build(draft), [(item.kind, item.name, item.facts) for item in items])
    after = things_add(draft=draft, things=things, revision=revision, by=by)
    tables: dict[str, Any] = {table.kind: table.model for table in TABLES}
    for item, (place, _) in zip(items, things, strict=True):
        kind, _, ident = place.partition(":")
        tables[kind].objects.filter(draft=after, ident=ident).update(item=item)
    return after
