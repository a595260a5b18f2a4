"""The catalogue: what things say of themselves, on each database."""

from __future__ import annotations

from typing import Any

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.utils import timezone

from inventory.facts import FactsRefused, read_facts
from inventory.models import CatalogueItem, ItemKind
from inventory.services import item_add, item_change
from kits.members.models import Person

pytestmark = pytest.mark.django_db

LEAF = {"size": ["12", "8 1/2 in"], "front": {"name": "Dune"}, "caliper_um": 220}


def add(kind: ItemKind = ItemKind.PAPER, name: str = "Dune", facts: Any = None, **more: Any) -> CatalogueItem:
    return item_add(kind=kind, name=name, facts=LEAF if facts is None else facts, unit="in", by=None, **more)


@pytest.mark.parametrize(
    ("kind", "facts", "kept"),
    [
        pytest.param("pad", {"size": ["8", "20 cm"]}, {"size": ["8 in", "200 mm"]}, id="pad"),
        pytest.param(
            "paper",
            {"size": ["12", "12"], "front": {"name": "Dune", "reads": "up"}, "undersize": "0", "x_mill": "north"},
            {"size": ["12 in", "12 in"], "front": {"name": "Dune"}, "x_mill": "north"},
            id="paper: defaults are left out, fields of one's own kept",
        ),
        pytest.param(
            "embellishment",
            {"elements": [{"id": "oval", "name": "oval", "count": 6, "size": ["2", "1¼"]}]},
            {"elements": [{"id": "oval", "name": "oval", "count": 6, "size": ["2 in", "1 1/4 in"]}]},
            id="embellishment",
        ),
        pytest.param("blank", {"outside": ["7", "4", "5"]}, {"outside": ["7 in", "4 in", "5 in"]}, id="blank"),
        pytest.param("blank", {}, {}, id="blank of which nothing is known"),
        pytest.param("supply", {"kind": "ribbon"}, {"kind": "ribbon"}, id="supply"),
        pytest.param("tool", {"kind": "trimmer", "step": "1/16"}, {"kind": "trimmer", "step": "1/16 in"}, id="tool"),
    ],
)
def test_facts_are_kept_as_in_a_kit_document_with_every_unit(kind, facts, kept):
    item = add(ItemKind(kind), facts=facts)
    assert CatalogueItem.objects.get(pk=item.pk).facts == kept


@pytest.mark.parametrize(
    ("kind", "facts", "where"),
    [
        pytest.param("paper", {**LEAF, "size": ["12 1/3", "8"]}, "size/0", id="no length"),
        pytest.param("paper", {"front": {"name": "Dune"}}, "", id="no size"),
        pytest.param("paper", {**LEAF, "colour": "red"}, "colour", id="an unknown fact"),
        pytest.param("paper", {**LEAF, "sheets": 2}, "sheets", id="how many a member gets"),
        pytest.param("paper", {**LEAF, "pad": "shore"}, "pad", id="a pad of some kit"),
        pytest.param("blank", {"count": 2}, "count", id="how many blanks"),
        pytest.param("supply", {"kind": "ribbon", "length": "24"}, "length", id="how much ribbon"),
        pytest.param("tool", {"kind": "spoon"}, "kind", id="an unknown kind of tool"),
        pytest.param("tool", {"kind": "knife", "id": "k"}, "id", id="an id"),
    ],
)
def test_facts_that_cannot_be_are_refused(kind, facts, where):
    with pytest.raises(FactsRefused) as refused:
        add(ItemKind(kind), facts=facts)
    assert [fact for fact, _ in refused.value.errors] == [where]
    assert not CatalogueItem.objects.exists()


def test_a_bare_length_is_read_in_the_unit_of_whoever_typed_it():
    assert read_facts(ItemKind.PAD, "n", {"size": ["8", "8 in"]}, "mm") == {"size": ["8 mm", "8 in"]}


@pytest.mark.parametrize("name", ["Dune", "DUNE"])
def test_two_of_a_kind_have_two_names(name):
    add()
    with pytest.raises(ValidationError):
        add(name=name)
    add(ItemKind.PAD, name=name, facts={"size": ["8", "8"]})
    assert CatalogueItem.objects.count() == 2


def test_an_item_needs_a_name():
    with pytest.raises(ValidationError):
        add(name="")


def test_an_item_is_changed_and_says_by_whom():
    ines = Person.objects.create_user(email="ines@example.org")
    item = add()
    changed = item_change(item=item, name="Marram", facts={**LEAF, "caliper_um": 300}, unit="mm", by=ines)
    assert (changed.pk, changed.name, changed.changed_by) == (item.pk, "Marram", ines)
    assert changed.facts == {"size": ["12 mm", "8 1/2 in"], "front": {"name": "Dune"}, "caliper_um": 300}
    assert changed.changed_at >= item.changed_at


def test_a_wrong_change_leaves_an_item_as_it_is():
    item = add()
    with pytest.raises(FactsRefused):
        item_change(item=item, name="Marram", facts={}, unit="in", by=None)
    item.refresh_from_db()
    assert (item.name, item.facts["caliper_um"]) == ("Dune", 220)


@pytest.mark.parametrize(
    "wrong", [{"kind": "paper", "name": "DUNE"}, {"kind": "spoon", "name": "n"}], ids=["a name twice", "a kind"]
)
def test_the_database_itself_refuses(wrong):
    add()
    with pytest.raises(IntegrityError), transaction.atomic():
        CatalogueItem.objects.create(changed_at=timezone.now(), **wrong)
