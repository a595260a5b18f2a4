"""What holds for every document that is read, and for everything that is refused."""

from __future__ import annotations

import copy
import json
from typing import Any

import jsonschema
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from layouts.document import (
    Kit,
    Refused,
    canonical_bytes,
    canonical_tree,
    document_hash,
    lengths_of,
    read_kit,
    read_kit_tree,
    schema_text,
    value_at,
)
from tests.properties.written_documents import Writer

SCHEMA = jsonschema.Draft202012Validator(json.loads(schema_text()))
# Large values, drawn member by member.
wide = settings(suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large], max_examples=40)


@st.composite
def trees(draw: Any) -> dict[str, Any]:
    return Writer(draw).document()


@wide
@given(trees())
def test_the_canonical_form_is_read_as_the_same_kit_and_is_its_own_canonical_form(tree):
    kit = read_kit_tree(tree)
    written = canonical_bytes(kit)
    again = read_kit(written)
    assert again == kit
    assert canonical_bytes(again) == written
    assert document_hash(again) == document_hash(kit)
    assert (
        written == json.dumps(json.loads(written), ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode()
    )


@wide
@given(trees(), st.randoms(use_true_random=False), st.sampled_from([None, 1, "\t"]), st.booleans())
def test_the_order_of_keys_and_white_space_mean_nothing(tree, chance, indent, ascii_only):
    def shuffled(value: Any) -> Any:
        if isinstance(value, dict):
            return {key: shuffled(value[key]) for key in chance.sample(sorted(value), len(value))}
        return [shuffled(member) for member in value] if isinstance(value, list) else value

    text = json.dumps(shuffled(tree), indent=indent, ensure_ascii=ascii_only)
    assert canonical_bytes(read_kit(text.encode())) == canonical_bytes(read_kit_tree(tree))


@wide
@given(trees())
def test_a_null_means_what_is_left_out_but_in_ones_own_fields(tree):
    def without_nulls(value: Any) -> Any:
        if isinstance(value, dict):
            return {
                key: member if key.startswith("x_") else without_nulls(member)
                for key, member in value.items()
                if member is not None or key.startswith("x_")
            }
        return [without_nulls(member) for member in value] if isinstance(value, list) else value

    assert canonical_bytes(read_kit_tree(without_nulls(tree))) == canonical_bytes(read_kit_tree(tree))


@wide
@given(trees())
def test_every_length_has_one_place_that_names_it_and_the_hash_decides_which_there_are(tree):
    kit = read_kit_tree(tree)
    found = list(lengths_of(kit))
    assert len({place for place, _ in found}) == len(found)
    for place, length in found:
        assert value_at(kit, place) is length
    again = list(lengths_of(read_kit(canonical_bytes(kit))))
    assert [(place, length.text()) for place, length in again] == [(place, length.text()) for place, length in found]


@settings(wide, max_examples=25)
@given(trees())
def test_the_published_schema_takes_what_is_read_and_its_canonical_form(tree):
    SCHEMA.validate(tree)
    SCHEMA.validate(canonical_tree(read_kit_tree(tree)))


# What is refused ----------------------------------------------------------------------------------------------------

values = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.text(max_size=5)
    | st.sampled_from(["1", "0", "1/3", "0.1", "A", "trellis", "lid/A/pane", "\ud800", "\x00", "each", "tray"]),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.text(max_size=3) | st.sampled_from(["id", "x_a", "each", "as", "left", "\0plain"]), inner)
    ),
    max_leaves=6,
)


def resolved(tree: Any, pointer: str) -> Any:
    """The value at a JSON Pointer (RFC 6901). Raises: LookupError, ValueError."""
    for part in pointer.split("/")[1:]:
        part = part.replace("~1", "/").replace("~0", "~")
        tree = tree[int(part)] if isinstance(tree, list) else tree[part]
    return tree


def paths(value: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    members = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return [path, *(found for key, member in members for found in paths(member, (*path, key)))]


@st.composite
def damaged(draw: Any) -> Any:
    """A document in which some values are replaced, taken away or added."""
    tree: Any = copy.deepcopy(Writer(draw).document())
    for _ in range(draw(st.integers(1, 4))):
        path = draw(st.sampled_from(paths(tree)))
        above = tree
        for key in path[:-1]:
            above = above[key]
        if not path:
            above = tree
        how = draw(st.sampled_from(["replace", "remove", "add"]))
        if how == "remove" and path:
            del above[path[-1]]
        elif how == "replace" and path:
            above[path[-1]] = draw(values)
        elif isinstance(above, dict):
            above[draw(st.text(max_size=4))] = draw(values)
        else:
            above.append(draw(values))
    return tree


def outcome(data: bytes) -> Kit | Refused:
    try:
        return read_kit(data)
    except Refused as refusal:
        return refusal


@settings(wide, max_examples=120)
@given(damaged())
def test_a_damaged_document_is_refused_with_pointers_that_lead_somewhere_or_still_read(tree):
    data = json.dumps(tree).encode()
    found = outcome(data)
    if isinstance(found, Refused):
        assert list(found.errors) == sorted(set(found.errors))
        as_parsed = json.loads(data)
        for error in found.errors:
            resolved(as_parsed, error.pointer)
            assert error.message
            error.message.encode()
    else:
        assert read_kit(canonical_bytes(found)) == found


@given(values)
def test_any_json_is_a_document_or_refused(value):
    found = outcome(json.dumps(value).encode())
    assert isinstance(found, Refused)
    assert found.errors


@given(
    st.binary(max_size=60) | st.text(alphabet='{}[]",:\\ \n0123456789eE+-.truefalsn\ufeff', max_size=60).map(str.encode)
)
def test_any_bytes_are_a_document_or_refused(data):
    assert isinstance(outcome(data), Refused)
