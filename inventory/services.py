"""What changes the catalogue. Kits that took an item over keep what they copied."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.contrib.auth.base_user import AbstractBaseUser
from django.db import transaction
from django.utils import timezone

from inventory.facts import read_facts
from inventory.models import CatalogueItem, ItemKind
from layouts.lengths import System

__all__ = ["item_add", "item_change"]


@transaction.atomic
def item_add(
    *, kind: ItemKind, name: str, facts: Mapping[str, Any], unit: System, by: AbstractBaseUser | None
) -> CatalogueItem:
    """Add an item. Raises: FactsRefused; ValidationError if its kind has one of this name, in whatever letters."""
    read = read_facts(ItemKind(kind), name, facts, unit)
    item = CatalogueItem(kind=kind, name=name, facts=read, changed_at=timezone.now(), changed_by_id=_pk(by))
    item.full_clean()
    item.save()
    return item


@transaction.atomic
def item_change(
    *, item: CatalogueItem, name: str, facts: Mapping[str, Any], unit: System, by: AbstractBaseUser | None
) -> CatalogueItem:
    """Change what an item says of itself. Raises: FactsRefused; ValidationError as item_add."""
    changed = CatalogueItem.objects.select_for_update().get(pk=item.pk)
    changed.name, changed.facts = name, read_facts(ItemKind(changed.kind), name, facts, unit)
    changed.changed_at, changed.changed_by_id = timezone.now(), _pk(by)
    changed.full_clean()
    changed.save()
    return changed


def _pk(person: AbstractBaseUser | None) -> int | None:
    return None if person is None else person.pk
