"""What is built from the rows of a draft is the document that was loaded into them, whatever it held."""

from __future__ import annotations

from contextlib import contextmanager
from pathlib import Path

import pytest
from django.db import transaction
from hypothesis import given, settings

from kits.planning.documents import build_bytes, load
from kits.planning.models import Draft, Kit
from layouts.document import Kit as Document
from layouts.document import canonical_bytes, read_kit
from tests.properties.written_documents import written_documents

pytestmark = pytest.mark.django_db

CHECKOUT = Path(__file__).resolve().parents[2]
EXAMPLES = [*sorted((CHECKOUT / "kits" / "examples").glob("*.json")), CHECKOUT / "tests/reference/first-kit.json"]


@contextmanager
def nothing_kept():
    with transaction.atomic():
        yield
        transaction.set_rollback(True)


def drafted(kit: Document) -> Draft:
    draft = Draft(kit=Kit.objects.create(code=kit.code))
    load(draft, kit)
    return Draft.objects.select_related("kit").get(pk=draft.pk)


@settings(max_examples=80)
@given(kit=written_documents())
def test_what_is_built_is_what_was_loaded(kit):
    with nothing_kept():
        assert build_bytes(drafted(kit)) == canonical_bytes(kit)


@settings(max_examples=20)
@given(kit=written_documents(), other=written_documents())
def test_what_replaces_a_document_leaves_nothing_of_it(kit, other):
    with nothing_kept():
        draft = drafted(kit)
        load(draft, other)
        assert build_bytes(draft) == canonical_bytes(other)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.name)
def test_the_examples_come_back_as_they_are(path):
    kit = read_kit(path.read_bytes())
    assert build_bytes(drafted(kit)) == canonical_bytes(kit)
