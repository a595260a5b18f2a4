"""The published JSON Schema: as old as the models, and of one mind with the reader about shape."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

import layouts.document
from layouts.document import schema_text
from tests.unit.document.making import REMOVED, WHOLE, at, changed, refusals, unlike
from tests.unit.lengths.test_parsing import ACCEPTED, REFUSED

FILE = Path(layouts.document.__file__).parent / "kitproof-1.schema.json"
SCHEMA = json.loads(schema_text())
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)


def test_the_published_file_is_what_the_models_say():
    assert FILE.read_text(encoding="utf-8") == schema_text()


def test_it_is_a_valid_schema():
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


def test_it_takes_the_whole_document_and_the_first_kit():
    first = json.loads((Path(__file__).parents[2] / "reference" / "first-kit.json").read_text(encoding="utf-8"))
    for tree in (WHOLE, first):
        assert [error.message for error in VALIDATOR.iter_errors(tree)] == []


def test_it_shows_no_insides_of_the_program():
    assert "carried" not in schema_text()
    assert "\\u0000" not in schema_text()


# A form is held against nine constructions, which takes most of the time: elsewhere in the document two forms will do,
# and of a document that was changed in a form only that form is judged.
FEW = changed(("/projects/0/forms", [at(WHOLE, "/projects/0/forms/0"), at(WHOLE, "/projects/0/forms/2")]))
ITEMS = SCHEMA["$defs"]["Project"]["properties"]["forms"]["anyOf"][0]["items"]
FORM = jsonschema.Draft202012Validator({**ITEMS, "$defs": SCHEMA["$defs"]})
# A pointer, and the document in which it is changed.
PLACES = [(pointer, FEW) for pointer in unlike(FEW) if "/forms/" not in pointer]
PLACES += [(pointer, WHOLE) for pointer in unlike(WHOLE) if "/forms/" in pointer]
OBJECTS = [(pointer, tree) for pointer, tree in PLACES if isinstance(at(tree, pointer), dict)]
MEMBERS = [(f"{pointer}/{name}", tree) for pointer, tree in OBJECTS for name in at(tree, pointer)]


def is_taken(tree: Any, pointer: str) -> bool:
    if "/forms/" not in pointer:
        return VALIDATOR.is_valid(tree)
    return FORM.is_valid(at(tree, "/".join(pointer.split("/")[:5])))


@pytest.mark.parametrize(("pointer", "tree"), OBJECTS)
def test_it_takes_fields_of_ones_own_and_no_unknown_ones(pointer, tree):
    assert is_taken(changed((f"{pointer}/x_note", [None, {"a": 1}]), tree=tree), pointer)
    assert not is_taken(changed((f"{pointer}/nosuch", 1), tree=tree), pointer)


def test_it_takes_null_where_the_reader_does():
    for pointer, tree in MEMBERS:
        null = changed((pointer, None), tree=tree)
        told = refusals(null)
        if not told:
            assert is_taken(null, pointer), pointer
        if (pointer, "wrong-type") in told:
            assert not is_taken(null, pointer), pointer


def test_it_misses_only_what_the_reader_misses():
    for pointer, tree in MEMBERS:
        less = changed((pointer, REMOVED), tree=tree)
        if not is_taken(less, pointer):
            assert (pointer.rpartition("/")[0], "missing") in refusals(less), pointer


@pytest.mark.parametrize("value", [5, "?", [], {}])
def test_it_is_never_stricter_than_the_reader(value):
    """A document that is read satisfies it, whatever stands anywhere in it."""
    for pointer, tree in PLACES:
        other = changed((pointer, value), tree=tree)
        if not refusals(other):
            assert is_taken(other, pointer), pointer


def length_schema() -> dict[str, Any]:
    found: dict[str, Any] = SCHEMA["$defs"]["Score"]["properties"]["at"]
    return found


def test_its_lengths_are_those_of_the_grammar():
    lengths = jsonschema.Draft202012Validator(length_schema())
    for case in ACCEPTED:
        assert lengths.is_valid(case.values[0]), case.id
    for case in REFUSED:
        # In Python's regular expressions, not in those of JSON Schema, `$` also stands before a last newline.
        if not str(case.values[0]).endswith("\n"):
            assert not lengths.is_valid(case.values[0]), case.id
