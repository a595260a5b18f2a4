from __future__ import annotations

import pytest

from layouts.document import (
    Change,
    Refused,
    UnknownPlace,
    Window,
    added,
    change_to,
    changed,
    document_hash,
    plain_at,
    read_kit_tree,
    value_at,
)
from layouts.lengths import Length

KIT = read_kit_tree(
    {
        "format": "kitproof/1",
        "code": "k",
        "title": "K",
        "unit": "in",
        "papers": [{"id": "oak", "name": "Oak", "size": ["8", "8"], "sheets": 2, "front": {"name": "Oak"}}],
        "projects": [
            {
                "id": "p",
                "title": "P",
                "pieces": [{"id": "A", "name": "a", "paper": "oak", "size": ["3", "2 1/2"], "count": 2}],
                "placements": [{"id": "on", "put": {"piece": "A"}, "on": {"piece": "A"}, "border": "1/8"}],
            }
        ],
    }
)
A = "project:p/piece:A"


@pytest.mark.parametrize(
    ("place", "value", "before", "after"),
    [
        pytest.param(f"{A}/count", 1, 2, 1, id="a count, to its default"),
        pytest.param(f"{A}/size/height", Length.of("2 1/4 in"), "2 1/2", "2 1/4", id="one side of a pair"),
        pytest.param(f"{A}/print_reads", "any", "up", "any", id="a default that was not written"),
        pytest.param("paper:oak/sheets", 3, 2, 3, id="of a paper"),
        pytest.param("cutting/slack", Length.of("1/16 in"), "0", "1/16", id="within an object that was not written"),
        pytest.param("project:p/placement:on/border", Length.of("3/16 in"), "1/8", "3/16", id="a border"),
    ],
)
def test_a_value_is_changed_and_changed_back(place, value, before, after):
    change = change_to(KIT, place, value)
    assert change == Change(place, before, after)
    kit = changed(KIT, [change])
    assert value_at(kit, place) == value
    assert document_hash(changed(kit, [Change(place, after, before)])) == document_hash(KIT)


def test_an_optional_value_that_is_absent_is_put_there_and_taken_away():
    change = change_to(KIT, "project:p/placement:on/left", Length.of("1/2 in"))
    assert change == Change("project:p/placement:on/left", None, "1/2")
    kit = changed(KIT, [change])
    away = change_to(kit, "project:p/placement:on/left", None)
    assert (away.before, away.after) == ("1/2", None)
    assert document_hash(changed(kit, [away])) == document_hash(KIT)


NEW = {"id": "B", "put": {"piece": "A"}, "on": {"piece": "A"}}


@pytest.mark.parametrize(
    ("behind", "order"),
    [
        pytest.param("", ["on", "off", "B"], id="last"),
        pytest.param("on", ["on", "B", "off"], id="behind another"),
        pytest.param("gone", ["on", "off", "B"], id="last, where the other is gone"),
    ],
)
def test_a_thing_is_added_to_its_list_and_removed_again(behind, order):
    two = changed(KIT, [Change("project:p/placement:off", None, {**NEW, "id": "off"})])
    three = changed(two, [Change("project:p/placement:B", None, NEW, behind)])
    assert [one.id for one in three.projects[0].placements] == order
    back = changed(three, [Change("project:p/placement:B", NEW, None)])
    assert document_hash(back) == document_hash(two)


def test_a_new_thing_is_written_as_the_canonical_form_writes_it():
    window = Window(
        id="eye",
        left=Length.of("1/2 in"),
        width=Length.of("1 in"),
        top=Length.of("1/2 in"),
        height=Length.of("25.4 mm"),
        cut_out="kept",
    )
    change = added(KIT, f"{A}/window:eye", window)
    plain = {"id": "eye", "left": "1/2", "width": "1", "top": "1/2", "height": "25.4 mm", "cut_out": "kept"}
    assert change == Change(f"{A}/window:eye", None, plain)
    assert plain_at(changed(KIT, [change]), f"{A}/window:eye") == plain


def test_a_change_is_read_as_it_was_written():
    for change in (Change("cutting/slack", "0", "1/8"), Change("project:p/placement:B", None, NEW, "on")):
        assert Change.of(change.as_data()) == change


def test_a_change_that_leaves_no_valid_document_is_refused():
    with pytest.raises(Refused):
        changed(KIT, [Change(f"{A}/paper", "oak", "ash")])


@pytest.mark.parametrize(
    "place",
    [f"{A}/sise", "project:q/title", A, f"{A}/placement:B", "project:q/piece:B", f"{A}/size/depth", "piece:B"],
)
def test_a_place_that_names_no_value_is_refused(place):
    with pytest.raises(UnknownPlace):
        changed(KIT, [Change(place, None, "x"), change_to(KIT, place, 1)])


def test_what_stood_before_stays_as_it_was():
    hash_ = document_hash(KIT)
    changed(KIT, [change_to(KIT, f"{A}/count", 1)])
    assert document_hash(KIT) == hash_
