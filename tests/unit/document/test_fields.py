"""Every field of the contract with every kind of wrong value: the exact pointers and codes."""

from __future__ import annotations

import re
from typing import Any

import pytest

from layouts.document import canonical_tree, read_kit_tree
from tests.unit.document.contract import FIELDS, Field, field_at, places_of
from tests.unit.document.making import REMOVED, WHOLE, at, changed, refusals, unlike, walk

# Members of a pair or triple of lengths are told by the rows of their list.
_MEMBERS = [f"{pointer}/{n}" for pointer, value in walk(WHOLE) if isinstance(value, list) for n in range(len(value))]


OBJECTS = [pointer for pointer in unlike(WHOLE) if isinstance(at(WHOLE, pointer), dict)]
ROWS: dict[str, Field] = {pointer: row for pointer, _ in walk(WHOLE) if (row := field_at(pointer)) is not None}
POINTERS = list(
    {(re.sub("[0-9]+", "*", pointer), ROWS[pointer].pattern): pointer for pointer in reversed(ROWS)}.values()
)


def _needed(how: str) -> list[str]:
    return [pointer for pointer in POINTERS if ROWS[pointer].need == how]


def test_the_whole_document_is_read():
    assert refusals(WHOLE) == []


def test_the_table_covers_every_field_of_the_whole_document_and_names_no_other():
    uncovered = [pointer for pointer, _ in walk(WHOLE) if pointer and not field_at(pointer)]
    assert [pointer for pointer in uncovered if pointer not in _MEMBERS] == []
    assert [row.pattern for row in FIELDS if not places_of(row)] == []


def _expected(pointer: str, refused: Any) -> list[tuple[str, str]]:
    if isinstance(refused, str):
        return [(pointer, refused)]
    return [(pointer + suffix, code) for suffix, code in refused]


@pytest.mark.parametrize("pointer", POINTERS)
def test_a_wrong_value_is_refused_at_its_pointer_and_nothing_else_is(pointer):
    for value, refused in ROWS[pointer].kind.bad:
        assert refusals(changed((pointer, value))) == _expected(pointer, refused), value


@pytest.mark.parametrize("pointer", [pointer for pointer in POINTERS if ROWS[pointer].kind.good])
def test_every_good_value_is_taken(pointer):
    for value in ROWS[pointer].kind.good:
        # Another id or kind may leave something else wanting; the value itself is not refused.
        told = [where for where, _ in refusals(changed((pointer, value))) if where.startswith(pointer)]
        assert told == [], value


@pytest.mark.parametrize("pointer", _needed("needed"))
def test_a_needed_field_is_missed_by_the_object_that_lacks_it(pointer):
    above = pointer.rpartition("/")[0]
    assert refusals(changed((pointer, REMOVED))) == [(above, "missing")]
    assert refusals(changed((pointer, None))) == [(pointer, "wrong-type")]


@pytest.mark.parametrize("pointer", _needed("choice"))
def test_of_several_fields_one_is_needed_and_null_is_none(pointer):
    above = pointer.rpartition("/")[0]
    for nothing in (REMOVED, None):
        told = refusals(changed((pointer, nothing)))
        assert (above, "missing") in told or (above, "not-together") in told, nothing
        assert {where for where, _ in told} == {above}


@pytest.mark.parametrize("pointer", _needed("optional"))
def test_null_on_an_optional_field_means_that_it_is_absent(pointer):
    absent, null = changed((pointer, REMOVED)), changed((pointer, None))
    told = refusals(absent)
    assert refusals(null) == told
    assert not [where for where, _ in told if where.startswith(pointer)]
    if not told:
        assert canonical_tree(read_kit_tree(null)) == canonical_tree(read_kit_tree(absent))


@pytest.mark.parametrize("pointer", _needed("member"))
def test_null_is_no_member_of_a_list(pointer):
    assert (pointer, "wrong-type") in refusals(changed((pointer, None)))


@pytest.mark.parametrize("pointer", OBJECTS)
def test_an_unknown_field_is_refused_in_every_object(pointer):
    assert refusals(changed((f"{pointer}/nosuch", 1))) == [(f"{pointer}/nosuch", "unknown-field")]
    assert refusals(changed((f"{pointer}/nosuch", None))) == [(f"{pointer}/nosuch", "unknown-field")]


@pytest.mark.parametrize("pointer", OBJECTS)
def test_a_field_of_ones_own_is_taken_in_every_object_and_kept_whole(pointer):
    content: dict[str, Any] = {
        "b": [None, {}, [], "", 0, True, -(2**53), 2**53],
        "a": {"id": None, "nosuch": 5, "x_": None},
    }
    kept = canonical_tree(read_kit_tree(changed((f"{pointer}/x_own", content))))
    assert at(kept, f"{pointer}/x_own") == content


@pytest.mark.parametrize("pointer", OBJECTS)
def test_names_of_the_insides_of_the_program_are_unknown_fields(pointer):
    for name in ("carried", "as_", "from_", "in_", "model_config", "model_fields", "__pydantic_extra__", "__class__"):
        assert refusals(changed((f"{pointer}/{name}", {}))) == [(f"{pointer}/{name}", "unknown-field")]
    told = refusals(changed((f"{pointer}/\0carried", {"x_a": 1})))
    assert told == [(f"{pointer}/\0carried", "bad-text")]


@pytest.mark.parametrize("pointer", OBJECTS)
def test_names_of_branches_of_unions_lead_no_pointer_astray(pointer):
    for name in ("<object>", "<plain>", "<tray>", "each", "tray", "list[Copy]"):
        inside = {"each": 1, "id": 5, "depth": "x"}
        if name in at(WHOLE, pointer) or pointer.endswith("/paper"):
            continue
        told = refusals(changed((f"{pointer}/{name}", inside)))
        assert told == [(f"{pointer}/{name}", "unknown-field")], name


def test_all_is_told_at_once_sorted_by_pointer():
    tree = changed(
        ("/unit", "ft"),
        ("/papers/0/id", "a b"),
        ("/papers/0/sheets", -1),
        ("/papers/1/size/0", "x"),
        ("/papers/1/front/name", REMOVED),
        ("/projects/0/pieces/0/size/1", "0"),
        ("/projects/0/steps/0/work", "1"),
        ("/projects/1/steps/0/after", ["nosuch"]),
        ("/tools/0/nosuch", 1),
        ("/title", "\x07"),
    )
    assert refusals(tree) == [
        ("/papers/0/id", "bad-id"),
        ("/papers/0/sheets", "out-of-range"),
        ("/papers/1/front", "missing"),
        ("/papers/1/size/0", "not-a-length"),
        ("/projects/0/pieces/0/size/1", "out-of-range"),
        ("/projects/0/steps/0/work", "wrong-type"),
        ("/projects/1/steps/0/after/0", "unknown-id"),
        ("/title", "bad-text"),
        ("/tools/0/nosuch", "unknown-field"),
        ("/unit", "out-of-range"),
    ]


@pytest.mark.parametrize("tree", [None, 5, 1.5, True, "a", [], [WHOLE]])
def test_a_document_is_an_object(tree):
    assert refusals(tree) == [("", "wrong-type")]


def test_an_empty_object_lacks_four_fields():
    assert refusals({}) == [("", "missing")] * 4


@pytest.mark.parametrize(
    "name", ["printed", "cutting", "pads", "papers", "embellishments", "blanks", "supplies", "tools", "projects"]
)
def test_every_list_and_object_of_the_document_may_be_left_out_or_empty(name):
    least = {"format": "kitproof/1", "code": "c", "title": "t", "unit": "mm"}
    empty: Any = {} if name in ("printed", "cutting") else []
    assert refusals(least) == refusals({**least, name: empty}) == refusals({**least, name: None}) == []
    assert canonical_tree(read_kit_tree({**least, name: empty})) == least
