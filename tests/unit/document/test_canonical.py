"""The canonical form, rule by rule, and the hash that is a document's identity."""

from __future__ import annotations

import hashlib
import json
from typing import Any

import pytest

from layouts.document import canonical_bytes, canonical_tree, document_hash, read_kit, read_kit_tree
from tests.unit.document.making import REMOVED, WHOLE, at, changed, walk

LEAST: dict[str, Any] = {"format": "kitproof/1", "code": "c", "title": "t", "unit": "in"}
PIECE = {"id": "A", "name": "panel", "size": ["1", "1"]}
PAPER = {"id": "q", "name": "Quill", "size": ["8", "8"], "sheets": 1, "front": {"name": "Quill"}}


def canonical(tree: Any) -> Any:
    return canonical_tree(read_kit_tree(tree))


def in_project(**members: Any) -> dict[str, Any]:
    return {**LEAST, "papers": [PAPER], "projects": [{"id": "p", "title": "P", **members}]}


def test_the_bytes_and_the_hash_of_a_document_written_out_by_hand():
    """Keys by code point, no white space, UTF-8, lengths in their canonical text; defaults and nulls are gone."""
    written = """
    { "unit": "mm", "title": "Cafe\\u0301 \\u2014 \\"Sow\\"\\n", "format": "kitproof/1", "code": "2027-06",
      "printed": {"mm": "1 mm", "in": "1/8 in"}, "cutting": {"slack": "0 in"}, "tools": [], "accepted": null,
      "pads": [{"size": ["20.00 cm", "8 in"], "name": "Pad", "id": "pad"}],
      "papers": [{"id": "leaf", "name": "Leaf", "pad": "pad", "sheets": 2, "back": null, "x_b": [null, {}],
                  "front": {"name": "Leaf", "reads": "up", "repeat": "two-way"},
                  "spoilt": {"left": "0", "top": "2,50"}}],
      "x_Z": {"b": 1, "B": 2}, "x_a": null }
    """
    expected = (
        '{"code":"2027-06","format":"kitproof/1","pads":[{"id":"pad","name":"Pad","size":["200","8 in"]}],'
        '"papers":[{"front":{"name":"Leaf","repeat":"two-way"},"id":"leaf","name":"Leaf","pad":"pad","sheets":2,'
        '"spoilt":{"top":"2.5"},"x_b":[null,{}]}],"printed":{"in":"1/8 in"},"title":"Caf\u00e9 \u2014 \\"Sow\\"\\n",'
        '"unit":"mm","x_Z":{"B":2,"b":1},"x_a":null}'
    ).encode()
    kit = read_kit(written.encode())
    assert canonical_bytes(kit) == expected
    assert document_hash(kit) == hashlib.sha256(expected).hexdigest()


def test_the_least_document_is_its_own_canonical_form():
    kit = read_kit_tree(LEAST)
    assert canonical_bytes(kit) == b'{"code":"c","format":"kitproof/1","title":"t","unit":"in"}'
    # Recomputed with another program (sha256sum) from these 58 bytes.
    assert document_hash(kit) == "f032c9e5512d1eb373eedcc18491f41cbffa9f87d67978b28b7ef4619628e475"


@pytest.mark.parametrize(
    ("written", "kept"),
    [
        # Documents in inches.
        pytest.param("2⅞", "2 7/8", id="vulgar fraction"),
        pytest.param("2-7/8", "2 7/8", id="hyphen"),
        pytest.param("2.875", "2 7/8", id="decimal inches"),
        pytest.param("2,875 in", "2 7/8", id="decimal inches with a comma and the unit"),
        pytest.param("46/16", "2 7/8", id="not in lowest terms"),
        pytest.param('3"', "3", id="a quote"),
        pytest.param("73.50 mm", "73.5 mm", id="millimetres keep their system and their unit"),
        pytest.param("7.35cm", "73.5 mm", id="cm becomes mm"),
        pytest.param("25.4 mm", "25.4 mm", id="an inch in millimetres stays in millimetres"),
    ],
)
def test_lengths_take_their_canonical_text(written, kept):
    assert at(canonical(changed(("/pads/0/size/0", written))), "/pads/0/size/0") == kept


@pytest.mark.parametrize(
    ("written", "kept"),
    [
        pytest.param("73.50", "73.5", id="millimetres without unit"),
        pytest.param("7.35 cm", "73.5", id="cm becomes mm, without unit"),
        pytest.param('2 7/8"', "2 7/8 in", id="inches keep their system and get their unit"),
        pytest.param("1 in", "1 in", id="25.4 mm in inches stay in inches"),
    ],
)
def test_lengths_in_a_metric_document(written, kept):
    tree = {**LEAST, "unit": "mm", "pads": [{"id": "pad", "name": "", "size": [written, "10"]}]}
    assert at(canonical(tree), "/pads/0/size/0") == kept


@pytest.mark.parametrize(
    ("pointer", "default"),
    [
        # Every default that the contract states.
        pytest.param("/printed/in", "1/16", id="printed in"),
        pytest.param("/printed/mm", "1 mm", id="printed mm"),
        pytest.param("/cutting/slack", "0", id="slack"),
        pytest.param("/papers/0/front/reads", "up", id="reads"),
        pytest.param("/papers/0/front/repeat", "any", id="repeat"),
        pytest.param("/papers/0/back/reads", "up", id="reads of a back"),
        pytest.param("/papers/0/undersize", "0", id="undersize"),
        pytest.param("/papers/0/spoilt/left", "0", id="spoilt left"),
        pytest.param("/papers/0/spoilt/right", "0 mm", id="spoilt right: zero has no system"),
        pytest.param("/papers/0/spoilt/top", "0/4", id="spoilt top"),
        pytest.param("/papers/0/spoilt/bottom", "0.0", id="spoilt bottom"),
        pytest.param("/embellishments/0/sheets", 1, id="sheets of an embellishment"),
        pytest.param("/embellishments/0/elements/0/two_sided", False, id="two-sided"),
        pytest.param("/blanks/0/count", 1, id="count of a blank"),
        pytest.param("/blanks/0/faces/0/count", 1, id="count of a face"),
        pytest.param("/blanks/0/faces/0/inside", False, id="inside"),
        pytest.param("/blanks/0/faces/0/opening/cut_out", "waste", id="cut-out of an opening"),
        pytest.param("/supplies/0/from", "kit", id="from the kit"),
        pytest.param("/projects/1/makes", 1, id="makes"),
        pytest.param("/projects/0/pieces/0/side", "front", id="side of a piece"),
        pytest.param("/projects/0/pieces/0/size_is", "cut", id="size is"),
        pytest.param("/projects/0/pieces/0/count", 1, id="count of a piece"),
        pytest.param("/projects/0/pieces/0/print_reads", "up", id="print reads of a piece"),
        pytest.param("/projects/0/pieces/0/shape", {"kind": "rect"}, id="shape of a piece"),
        pytest.param("/projects/0/pieces/0/windows/0/shape", {"kind": "rect"}, id="shape of a window"),
        pytest.param("/projects/0/pieces/0/windows/0/cut_out", "waste", id="cut-out of a window"),
        pytest.param("/projects/0/forms/0/side", "front", id="side of a form"),
        pytest.param("/projects/0/forms/0/count", 1, id="count of a form"),
        pytest.param("/projects/0/forms/0/print_reads", "any", id="print reads of a form"),
        pytest.param("/projects/0/forms/0/walls", "single", id="walls"),
        pytest.param("/projects/0/forms/0/turn_in", "1", id="turn-in of a double wall: the depth"),
        pytest.param("/projects/0/forms/0/flange", "0", id="flange"),
        pytest.param("/projects/0/forms/0/corner", "tab", id="corner of a tray"),
        pytest.param("/projects/0/forms/2/clearance", "1/32", id="clearance of a lid"),
        pytest.param("/projects/0/forms/5/clearance", "1/32", id="clearance of a sleeve"),
        pytest.param("/projects/0/forms/6/join", "1/2", id="join"),
        pytest.param("/projects/0/forms/6/first_fold", "mountain", id="first fold"),
        pytest.param("/projects/0/forms/7/open", "top", id="open"),
        pytest.param("/projects/0/forms/8/corner", "mitre", id="corner of a frame"),
        pytest.param("/projects/0/forms/9/clearance", "1/16", id="clearance of an envelope"),
        pytest.param("/projects/0/forms/10/corner", "0", id="corner of a tag"),
        pytest.param("/projects/0/forms/11/scores/0/fold", "valley", id="fold"),
        pytest.param("/projects/0/forms/11/corners", "keep", id="corners"),
        pytest.param("/projects/0/placements/2/on/skin", "outside", id="skin"),
        pytest.param("/projects/0/placements/0/layer", "over", id="layer"),
        pytest.param("/projects/0/placements/0/copies", "each", id="copies"),
        pytest.param("/projects/0/placements/0/turn", 0, id="turn"),
        pytest.param("/projects/0/placements/3/copies/0/turn", 0, id="turn of a copy"),
        pytest.param("/projects/0/steps/0/use/0/count", 1, id="count of what is used"),
        pytest.param("/projects/0/steps/0/held", "by-hand", id="held"),
    ],
)
def test_every_default_is_dropped_and_hashes_like_what_is_left_out(pointer, default):
    stated, absent = read_kit_tree(changed((pointer, default))), read_kit_tree(changed((pointer, REMOVED)))
    assert pointer not in [where for where, _ in walk(canonical_tree(stated))]
    assert document_hash(stated) == document_hash(absent)
    assert stated == absent


@pytest.mark.parametrize(
    ("pointer", "same_ticks"),
    [
        pytest.param("/printed/in", "1.5875 mm", id="1/16 in"),
        pytest.param("/printed/mm", "0.1 cm", id="1 mm in cm is the same system, so it is dropped"),
        pytest.param("/projects/0/forms/6/join", "12.7 mm", id="1/2 in"),
        pytest.param("/projects/0/forms/9/clearance", "1.5875 mm", id="1/16 in of an envelope"),
        pytest.param("/projects/0/forms/0/turn_in", "25.4 mm", id="the depth of 1 in"),
    ],
)
def test_a_default_in_the_other_system_is_kept(pointer, same_ticks):
    above, _, name = pointer.rpartition("/")
    kept = at(canonical(changed((pointer, same_ticks))), above).get(name)
    assert kept == (None if "cm" in same_ticks else same_ticks)


def test_the_defaults_of_a_metric_document_are_the_same_lengths():
    tree = {**LEAST, "unit": "mm", "printed": {"in": "1/16 in", "mm": "1"}}
    assert canonical(tree) == {**LEAST, "unit": "mm"}
    assert canonical({**tree, "printed": {"mm": "1/16 in"}}) == {**LEAST, "unit": "mm", "printed": {"mm": "1/16 in"}}


@pytest.mark.parametrize(
    ("turn_in", "walls", "kept"),
    [
        pytest.param("3/4", "double", False, id="as deep as the wall"),
        pytest.param("1/2", "double", True, id="less than the wall"),
        pytest.param("0", "double", True, id="nothing, where the depth is usual"),
        pytest.param("3/4", "single", True, id="a single wall that is turned in"),
        pytest.param("0", "single", False, id="nothing, as is usual for a single wall"),
    ],
)
def test_a_turn_in_is_dropped_where_it_is_the_usual_one(turn_in, walls, kept):
    form = {"id": "f", "name": "f", "as": "tray", "paper": "q", "inside": ["2", "2"], "depth": "3/4"}
    tree = canonical(in_project(forms=[{**form, "walls": walls, "turn_in": turn_in}]))
    assert ("turn_in" in at(tree, "/projects/0/forms/0")) is kept


@pytest.mark.parametrize(
    ("tree", "expected"),
    [
        pytest.param({**LEAST, "cutting": {}, "printed": {}}, LEAST, id="empty objects"),
        pytest.param({**LEAST, "cutting": {"slack": "0"}}, LEAST, id="an object of nothing but a default"),
        pytest.param({**LEAST, "pads": [], "papers": None}, LEAST, id="an empty list, a null"),
        pytest.param(
            {**LEAST, "cutting": {"slack": "0", "x_why": None}},
            {**LEAST, "cutting": {"x_why": None}},
            id="an object with a field of one's own is not empty",
        ),
        pytest.param(
            in_project(pieces=[{**PIECE, "edges": {}, "shape": {"kind": "rect"}, "windows": []}], steps=[]),
            in_project(pieces=[PIECE]),
            id="inside a piece",
        ),
        pytest.param(
            in_project(pieces=[{**PIECE, "edges": {"top": None}}]), in_project(pieces=[PIECE]), id="edges of nulls"
        ),
        pytest.param(
            {**LEAST, "papers": [{**PAPER, "spoilt": {"left": "0", "right": "0 in"}}]},
            {**LEAST, "papers": [PAPER]},
            id="spoilt by nothing",
        ),
        pytest.param(
            {**LEAST, "accepted": [{"rule": "", "at": [], "why": "", "because": "", "by": ""}]},
            {**LEAST, "accepted": [{"rule": "", "why": "", "because": "", "by": ""}]},
            id="an empty list of places; empty texts stay",
        ),
    ],
)
def test_what_says_nothing_is_dropped_from_objects(tree, expected):
    assert canonical(tree) == expected


def test_a_border_on_no_side_is_none():
    placement = {"id": "l", "put": {"piece": "A"}, "on": {"piece": "A"}}
    none = read_kit_tree(in_project(pieces=[PIECE], placements=[placement]))
    for empty in ({}, {"left": None}):
        kit = read_kit_tree(in_project(pieces=[PIECE], placements=[{**placement, "border": empty}]))
        assert kit == none
        assert canonical_bytes(kit) == canonical_bytes(none)
    kept = canonical(in_project(pieces=[PIECE], placements=[{**placement, "border": {"x_a": 1}}]))
    assert at(kept, "/projects/0/placements/0/border") == {"x_a": 1}


@pytest.mark.parametrize(
    ("after", "kept"),
    [
        pytest.param({"after": []}, {"after": []}, id="at once"),
        pytest.param({"after": None}, {}, id="null"),
        pytest.param({}, {}, id="after the step before"),
        pytest.param({"after": ["b"]}, {"after": ["b"]}, id="after a step"),
    ],
)
def test_after_nothing_is_kept(after, kept):
    steps = [{"id": "a", "text": "", **after}, {"id": "b", "text": ""}]
    assert at(canonical(in_project(steps=steps)), "/projects/0/steps/0") == {"id": "a", "text": "", **kept}
    # Only of steps: an empty list is dropped elsewhere.
    assert "cut" not in at(canonical(in_project(steps=[{"id": "a", "text": "", "cut": []}])), "/projects/0/steps/0")


def test_members_of_lists_are_never_dropped_and_keep_their_order():
    polygon = {"kind": "polygon", "points": [["0", "0"], ["0", "0"], ["1", "0 mm"]]}
    border = {"put": {"piece": "A"}, "on": {"piece": "A"}, "wraps": ["top", "left", "top"]}
    tree = in_project(
        pieces=[{**PIECE, "shape": polygon}],
        placements=[{"id": "l", **border, "copies": [{"on_copy": 1, "turn": 0}, {"on_copy": 1}]}],
    )
    kept = canonical(tree)["projects"][0]
    assert kept["pieces"][0]["shape"] == {"kind": "polygon", "points": [["0", "0"], ["0", "0"], ["1", "0"]]}
    assert kept["placements"][0] == {"id": "l", **border, "copies": [{"on_copy": 1}, {"on_copy": 1}]}


def test_the_superfluous_measures_of_a_window_are_kept():
    window = {"id": "w", "left": "1/4", "right": "1/4", "width": "1/2", "top": "1/4", "bottom": "1/4", "height": "1/2"}
    tree = in_project(pieces=[{**PIECE, "windows": [window]}])
    assert at(canonical(tree), "/projects/0/pieces/0/windows/0") == window


def test_a_field_of_ones_own_keeps_its_content_whole():
    own: dict[str, Any] = {
        "z": None,
        "a": [],
        "m": {},
        "unit": "mm",
        "length": "2⅞",
        "n": [1, None, True, "x", {"x_": None}],
    }
    assert canonical({**LEAST, "x_own": own, "x_null": None, "x_": "", "x_empty": {}}) == {
        **LEAST,
        "x_own": own,
        "x_null": None,
        "x_": "",
        "x_empty": {},
    }


def test_texts_are_composed_everywhere_names_of_ones_own_included():
    e = "e\u0301"
    tree = {**LEAST, "title": e, f"x_{e}": {e: [e]}, "papers": [{**PAPER, "front": {"name": e}}]}
    kept = canonical(tree)
    assert (kept["title"], kept["papers"][0]["front"]["name"]) == ("\u00e9", "\u00e9")
    assert kept["x_\u00e9"] == {"\u00e9": ["\u00e9"]}


def test_texts_are_composed_and_nothing_more():
    """NFC, not NFKC: 2½ stays, and so do the ligature, the wide letter and the Angstrom sign's own composition."""
    kept = canonical({**LEAST, "title": "2½ ﬁ Ａ \u212b"})
    assert kept["title"] == "2½ ﬁ Ａ \u00c5"


def test_keys_are_sorted_by_code_point_at_every_depth():
    """By code point, not by UTF-16 unit: U+FF5E stands before U+1F426."""
    own: dict[str, int] = {"\U0001f426": 1, "\uff5e": 2, "b": 3, "B": 4, "_": 5, "é": 6, "10": 7, "9": 8}
    text = canonical_bytes(read_kit_tree({**LEAST, "x_own": {"in": own}})).decode()
    inner = text.partition('"x_own":{"in":')[2]
    assert inner == '{"10":7,"9":8,"B":4,"_":5,"b":3,"é":6,"\uff5e":2,"\U0001f426":1}}}'


def test_letters_are_written_as_themselves_and_only_what_json_demands_is_escaped():
    text = canonical_bytes(read_kit_tree({**LEAST, "title": 'é\u2028\U0001f426"\\/\n\t<'})).decode()
    assert '"title":"é\u2028\U0001f426\\"\\\\/\\n\\t<"' in text


def test_durations_and_texts_stay_as_they_are_written():
    step = {"id": "a", "text": " two  spaces ", "work": "120 s", "hold": "60 min", "dry": "1 h"}
    assert at(canonical(in_project(steps=[step])), "/projects/0/steps/0") == step


def test_a_duration_with_zeros_in_front_is_the_same_duration():
    assert (
        at(canonical(in_project(steps=[{"id": "a", "text": "", "work": "060 s"}])), "/projects/0/steps/0/work")
        == "60 s"
    )


@pytest.mark.parametrize("tree", [pytest.param(WHOLE, id="the whole document"), pytest.param(LEAST, id="the least")])
def test_the_canonical_form_is_a_fixed_point(tree):
    kit = read_kit_tree(tree)
    once = canonical_bytes(kit)
    again = read_kit(once)
    assert again == kit
    assert canonical_bytes(again) == once


def test_the_whole_document_loses_nothing_that_was_written():
    """It holds no default, so nothing may be dropped, and every text of it is canonical already."""
    assert canonical(WHOLE) == WHOLE


def test_the_order_of_keys_white_space_and_escapes_make_no_other_document():
    shuffled = json.dumps(dict(reversed(list(WHOLE.items()))), indent=3, ensure_ascii=True).replace(
        "Moss", "M\\u006fss"
    )
    assert document_hash(read_kit(shuffled.encode())) == document_hash(read_kit_tree(WHOLE))


@pytest.mark.parametrize(
    ("pointer", "value"),
    [
        pytest.param("/title", "Another", id="a text"),
        pytest.param("/papers/0/sheets", 3, id="a count"),
        pytest.param("/pads/0/size/0", "203.2 mm", id="the system of a length"),
        pytest.param("/projects/0/steps/1/after", [], id="at once instead of after the step before"),
        pytest.param("/projects/0/steps/0/cut", ["f0", "A"], id="the order of a list"),
        pytest.param("/x_note", None, id="a field of one's own"),
        pytest.param("/accepted", [], id="what is accepted"),
    ],
)
def test_whatever_means_something_changes_the_hash(pointer, value):
    assert document_hash(read_kit_tree(changed((pointer, value)))) != document_hash(read_kit_tree(WHOLE))
