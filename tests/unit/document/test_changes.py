from __future__ import annotations

import pytest

from layouts.document import Change, Refused, UnknownPlace, change_to, changed, document_hash, read_kit_tree, value_at
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


def test_a_change_that_leaves_no_valid_document_is_refused():
    with pytest.raises(Refused):
        changed(KIT, [Change(f"{A}/paper", "oak", "ash")])


@pytest.mark.parametrize("place", [f"{A}/sise", "project:q/title", A])
def test_a_place_that_names_no_value_is_refused(place):
    with pytest.raises(UnknownPlace):
        changed(KIT, [Change(place, None, "x"), change_to(KIT, place, 1)])


def test_what_stood_before_stays_as_it_was():
    hash_ = document_hash(KIT)
    changed(KIT, [change_to(KIT, f"{A}/count", 1)])
    assert document_hash(KIT) == hash_
