"""Durations, sizes and what reading depends on."""

from __future__ import annotations

import json
from typing import Any

import pytest

from layouts.document import Duration, Kit, Point, Refused, Size, read_kit_tree, reread_kit
from layouts.document.values import Box
from layouts.lengths import Length
from tests.unit.document.making import REMOVED, WHOLE, changed, refusals


@pytest.mark.parametrize(
    ("text", "seconds"),
    [
        pytest.param("60 s", 60, id="seconds"),
        pytest.param("30 min", 1800, id="minutes"),
        pytest.param("2 h", 7200, id="hours"),
        pytest.param("1 s", 1, id="the shortest"),
        pytest.param("10000 h", 36_000_000, id="the longest"),
    ],
)
def test_durations_in_seconds(text, seconds):
    duration = Duration.read(text)
    assert duration.seconds == seconds
    assert str(duration) == text


def test_sizes_know_their_sides():
    size = Size.of("7", "5")
    assert list(size) == [Length.of("7 in"), Length.of("5 in")]
    assert Size.of("70", "50", "mm").height == Length.of("50 mm")
    assert (Size.names, Point.names, Box.names) == (
        ("width", "height"),
        ("width", "height"),
        ("width", "depth", "height"),
    )


@pytest.mark.parametrize("unit", ["ft", 5, None, REMOVED])
@pytest.mark.parametrize(
    ("size", "expected"),
    [
        pytest.param(["1/2", "12.5"], [], id="each is a length in one of both units"),
        pytest.param(["1/3", "x"], ["not-a-length", "not-a-length"], id="these are in none"),
        pytest.param(["0", "½ mm"], ["out-of-range", "not-a-length"], id="nor are these"),
    ],
)
def test_where_the_unit_is_refused_either_reading_of_a_bare_length_will_do(unit, size, expected):
    told = refusals(changed(("/unit", unit), ("/pads/0/size", size)))
    assert [code for pointer, code in told if pointer.startswith("/pads")] == expected
    assert [pointer for pointer, _ in told if pointer in ("/unit", "")]


@pytest.mark.parametrize(
    ("printed", "said"),
    [
        pytest.param({"in": "1/8"}, "write 1/4 in or 3/8 in", id="of the document"),
        pytest.param({}, "write 1/4 in or 5/16 in", id="by default"),
        pytest.param(None, "write 1/4 in or 5/16 in", id="of null"),
        pytest.param({"in": "x"}, "write 1/4 in or 5/16 in", id="that is refused"),
        pytest.param({"in": 5}, "write 1/4 in or 5/16 in", id="that is no text"),
        pytest.param({"in": "0"}, "write 1/4 in or 5/16 in", id="of nothing"),
        pytest.param([], "write 1/4 in or 5/16 in", id="in a list"),
    ],
)
def test_neighbours_lie_on_the_printed_step(printed, said):
    """0.3 in lies between 1/4 in and 5/16 in, and on eighths between 1/4 in and 3/8 in."""
    with pytest.raises(Refused) as refusal:
        read_kit_tree(changed(("/printed", printed), ("/pads/0/size/0", "0.3")))
    (told,) = [error for error in refusal.value.errors if error.pointer == "/pads/0/size/0"]
    assert told.code == "off-grid"
    assert said in told.message


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_a_tree_with_numbers_that_are_none_is_no_json(value):
    assert refusals(changed(("/x_note", value))) == [("", "not-json")]
    assert refusals(changed(("/papers/0/sheets", value))) == [("", "not-json")]


def test_reading_uses_up_no_tree_that_was_given():
    tree = changed(("/title", "cafe\u0301"), ("/x_note", ["e\u0301"]))
    before = json.dumps(tree)
    read_kit_tree(tree)
    reread_kit(tree)
    assert json.dumps(tree) == before


def test_a_document_may_be_read_again_that_is_longer_than_one_may_come_in():
    tree: dict[str, Any] = {**WHOLE, "x_long": "a" * 5_000_000}
    assert refusals(tree) == [("", "too-large")]
    assert isinstance(reread_kit(tree), Kit)
    with pytest.raises(Refused):
        reread_kit({**tree, "unit": "ft"})


def test_a_kit_cannot_be_changed():
    kit = read_kit_tree(WHOLE)
    with pytest.raises(ValueError, match="frozen"):
        kit.title = "Another"  # type: ignore[misc]
    with pytest.raises(ValueError, match="frozen"):
        kit.papers[0].sheets = 5  # type: ignore[misc]
    assert isinstance(kit.papers, tuple)
