"""Fields that exclude or need each other: the exact pointers and codes."""

from __future__ import annotations

from typing import Any

import pytest

from tests.unit.document.making import REMOVED, changed, refusals

PAPER, PIECE, FORM = "/papers/0", "/projects/0/pieces/0", "/projects/0/forms/0"
PLACEMENT, COPY, STEP = "/projects/0/placements/0", "/projects/0/placements/3/copies/0", "/projects/0/steps/0"
WINDOW, FACE = f"{PIECE}/windows/0", "/blanks/0/faces/0"
RECT = {"left": "1", "width": "1", "top": "1", "height": "1"}


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        # papers
        pytest.param([(f"{PAPER}/size", ["8", "8"])], [(PAPER, "not-together")], id="a pad and a size"),
        pytest.param([(f"{PAPER}/pad", REMOVED)], [(PAPER, "missing")], id="neither pad nor size"),
        pytest.param([(f"{PAPER}/pad", None)], [(PAPER, "missing")], id="a pad of null"),
        pytest.param(
            [(f"{PAPER}/size", ["8", "x"])],
            [(PAPER, "not-together"), (f"{PAPER}/size/1", "not-a-length")],
            id="a pad and a wrong size: both are told",
        ),
        pytest.param(
            [(f"{PAPER}/pad", REMOVED), (f"{PAPER}/sheets", "2"), (f"{PAPER}/name", REMOVED)],
            [(PAPER, "missing"), (PAPER, "missing"), (f"{PAPER}/sheets", "wrong-type")],
            id="no pad, no name and wrong sheets: all are told",
        ),
        # pieces
        pytest.param(
            [(f"{PIECE}/from", "table/A/pane")],
            [(PIECE, "not-together"), (f"{PIECE}/from", "own-cut-out")],
            id="paper and cut-out",
        ),
        pytest.param([(f"{PIECE}/paper", REMOVED)], [], id="neither paper nor cut-out is a draft"),
        pytest.param([(f"{PIECE}/paper", None), (f"{PIECE}/from", None)], [], id="nulls are neither"),
        pytest.param(
            [("/projects/0/pieces/1/paper", "moss"), ("/projects/0/pieces/1/count", 0)],
            [("/projects/0/pieces/1", "not-together"), ("/projects/0/pieces/1/count", "out-of-range")],
            id="both, and a wrong count",
        ),
        # paper each
        pytest.param(
            [(f"{PIECE}/paper/each", ["moss"])],
            [(f"{PIECE}/paper/each", "out-of-range")],
            id="one paper for two copies",
        ),
        pytest.param(
            [(f"{PIECE}/paper/each", ["moss", "card", "moss"])],
            [(f"{PIECE}/paper/each", "out-of-range"), (f"{PIECE}/paper/each/2", "duplicate-id")],
            id="three papers for two copies, one twice",
        ),
        pytest.param(
            [(f"{PIECE}/paper/each", ["moss", "moss"])],
            [(f"{PIECE}/paper/each/1", "duplicate-id")],
            id="one paper twice",
        ),
        pytest.param(
            [(f"{PIECE}/paper/each", ["moss", "MOSS"])],
            [(f"{PIECE}/paper/each/1", "unknown-id")],
            id="another case is another paper",
        ),
        pytest.param(
            [(f"{PIECE}/paper/each", [])], [(f"{PIECE}/paper/each", "out-of-range")], id="no paper for two copies"
        ),
        pytest.param([(f"{PIECE}/paper", {})], [(f"{PIECE}/paper", "missing")], id="each is missing"),
        pytest.param([(f"{PIECE}/paper", {"each": None})], [(f"{PIECE}/paper/each", "wrong-type")], id="each is null"),
        pytest.param(
            [("/projects/0/makes", REMOVED)],
            [(f"{PIECE}/paper/each", "out-of-range")],
            id="two papers for one copy, which is the default",
        ),
        pytest.param(
            [("/projects/0/makes", None)],
            [(f"{PIECE}/paper/each", "out-of-range")],
            id="two papers for one copy, by null",
        ),
        pytest.param(
            [("/projects/0/makes", 0)],
            [("/projects/0/makes", "out-of-range")],
            id="a refused number of copies is not compared",
        ),
        pytest.param(
            [("/projects/0/makes", True)], [("/projects/0/makes", "wrong-type")], id="true copies are not compared"
        ),
        pytest.param(
            [(f"{FORM}/paper", {"each": ["card", "card"]})], [(f"{FORM}/paper/each/1", "duplicate-id")], id="of a form"
        ),
        # shapes
        pytest.param(
            [(f"{PIECE}/shape", {"kind": "arch"})], [(f"{PIECE}/shape", "missing")], id="an arch without rise"
        ),
        pytest.param(
            [(f"{PIECE}/shape", {"kind": "rounded", "rise": "1"})],
            [(f"{PIECE}/shape", "missing"), (f"{PIECE}/shape", "not-together")],
            id="rounded with a rise and no radius",
        ),
        pytest.param(
            [(f"{PIECE}/shape", {"kind": "polygon"})], [(f"{PIECE}/shape", "missing")], id="a polygon without corners"
        ),
        pytest.param(
            [(f"{PIECE}/shape", {"kind": "rect", "radius": "1"})],
            [(f"{PIECE}/shape", "not-together")],
            id="a rectangle with a radius",
        ),
        pytest.param(
            [(f"{PIECE}/shape", {"radius": "1"})],
            [(f"{PIECE}/shape", "not-together")],
            id="a rectangle by default with a radius",
        ),
        pytest.param([(f"{PIECE}/shape", {"kind": "ellipse"})], [], id="an ellipse needs nothing"),
        pytest.param(
            [(f"{PIECE}/shape", {"kind": "star", "radius": "1"})],
            [(f"{PIECE}/shape/kind", "out-of-range")],
            id="of a kind that is refused nothing is said",
        ),
        pytest.param([(f"{PIECE}/shape", {"kind": None, "radius": None})], [], id="nulls are a rectangle"),
        pytest.param(
            [(f"{PIECE}/shape", {"kind": "polygon", "points": [["0", "0"], ["1", "0"]]})],
            [(f"{PIECE}/shape/points", "out-of-range")],
            id="two corners",
        ),
        pytest.param(
            [(f"{PIECE}/shape", {"kind": "polygon", "points": []})],
            [(f"{PIECE}/shape/points", "out-of-range")],
            id="no corners",
        ),
        pytest.param(
            [(f"{PIECE}/shape", {"kind": "polygon", "points": [5, 5, ["0", "0"]]})],
            [(f"{PIECE}/shape/points/0", "wrong-type"), (f"{PIECE}/shape/points/1", "wrong-type")],
            id="refused corners do not make a list short",
        ),
        pytest.param(
            [(f"{PIECE}/shape", {"kind": "polygon", "points": [["0", "x"], ["0", "y"], ["z", "0"]]})],
            [
                (f"{PIECE}/shape/points/0/1", "not-a-length"),
                (f"{PIECE}/shape/points/1/1", "not-a-length"),
                (f"{PIECE}/shape/points/2/0", "not-a-length"),
            ],
            id="each coordinate is told",
        ),
        # windows and openings
        pytest.param([(WINDOW, {"id": "pane", **RECT})], [], id="two measures an axis"),
        pytest.param(
            [(WINDOW, {"id": "pane", "left": "1", "right": "1", "bottom": "1", "height": "1"})], [], id="other two"
        ),
        pytest.param(
            [(WINDOW, {"id": "pane", "left": "1", "top": "1", "height": "1"})], [(WINDOW, "missing")], id="one across"
        ),
        pytest.param(
            [(WINDOW, {"id": "pane", "left": "1", "width": "1", "top": "1"})], [(WINDOW, "missing")], id="one upright"
        ),
        pytest.param([(WINDOW, {"id": "pane"})], [(WINDOW, "missing"), (WINDOW, "missing")], id="none"),
        pytest.param(
            [(WINDOW, {"id": "pane", **RECT, "width": "x"})],
            [(f"{WINDOW}/width", "not-a-length")],
            id="a refused measure counts as given",
        ),
        pytest.param([(WINDOW, {"id": "pane", **RECT, "width": None})], [(WINDOW, "missing")], id="a null does not"),
        pytest.param([(f"{FACE}/opening", RECT)], [], id="an opening of a face"),
        pytest.param(
            [(f"{FACE}/opening", {**RECT, "id": "o"})],
            [(f"{FACE}/opening/id", "unknown-field")],
            id="an opening has no id",
        ),
        pytest.param(
            [(f"{FACE}/opening", {**RECT, "cut_out": "kept"})],
            [],
            id="an opening has the same fields as a window otherwise",
        ),
        pytest.param(
            [(f"{FACE}/opening", {"left": "1"})],
            [(f"{FACE}/opening", "missing"), (f"{FACE}/opening", "missing")],
            id="an opening needs two measures an axis",
        ),
        # put and use: exactly one thing
        pytest.param([(f"{PLACEMENT}/put", {})], [(f"{PLACEMENT}/put", "missing")], id="nothing is put"),
        pytest.param(
            [(f"{PLACEMENT}/put", {"piece": "A", "form": "f0"})],
            [(f"{PLACEMENT}/put", "not-together")],
            id="two things are put",
        ),
        pytest.param([(f"{PLACEMENT}/put", {"piece": "A", "form": None})], [], id="one thing and a null"),
        pytest.param(
            [(f"{PLACEMENT}/put", {"piece": "A", "supply": "no such"})],
            [(f"{PLACEMENT}/put", "not-together"), (f"{PLACEMENT}/put/supply", "bad-id")],
            id="two things, one of them wrong",
        ),
        pytest.param([(f"{STEP}/use/0", {"count": 2})], [(f"{STEP}/use/0", "missing")], id="nothing is used"),
        pytest.param(
            [(f"{STEP}/use/0", {"piece": "A", "blank": "box", "element": "labels/oval"})],
            [(f"{STEP}/use/0", "not-together")],
            id="three things are used",
        ),
        # on
        pytest.param([(f"{PLACEMENT}/on", {})], [(f"{PLACEMENT}/on", "missing")], id="on nothing"),
        pytest.param(
            [(f"{PLACEMENT}/on", {"blank": "box"})], [(f"{PLACEMENT}/on", "missing")], id="on a blank without face"
        ),
        pytest.param(
            [(f"{PLACEMENT}/on", {"form": "f0"})], [(f"{PLACEMENT}/on", "missing")], id="on a form without panel"
        ),
        pytest.param(
            [(f"{PLACEMENT}/on", {"piece": "B", "face": "front"})],
            [(f"{PLACEMENT}/on", "not-together")],
            id="on a face of a piece",
        ),
        pytest.param(
            [(f"{PLACEMENT}/on", {"piece": "B", "panel": "base"})],
            [(f"{PLACEMENT}/on", "not-together")],
            id="on a panel of a piece",
        ),
        pytest.param(
            [(f"{PLACEMENT}/on", {"blank": "box", "face": "front", "piece": "B"})],
            [(f"{PLACEMENT}/on", "not-together")],
            id="on two things",
        ),
        pytest.param(
            [(f"{PLACEMENT}/on", {"blank": "box", "face": "front", "skin": "inside"})],
            [(f"{PLACEMENT}/on", "not-together")],
            id="on the inside of a blank",
        ),
        pytest.param(
            [(f"{PLACEMENT}/on", {"blank": "box", "face": "front", "skin": "outside"})],
            [],
            id="the default says nothing",
        ),
        # positions
        pytest.param([(f"{PLACEMENT}/left", "1")], [(PLACEMENT, "not-together")], id="left and centred"),
        pytest.param(
            [(f"{PLACEMENT}/right", "1"), (f"{PLACEMENT}/left", "1"), (f"{PLACEMENT}/centred", None)],
            [(PLACEMENT, "not-together")],
            id="left and right",
        ),
        pytest.param([(f"{PLACEMENT}/bottom", "1")], [(PLACEMENT, "not-together")], id="bottom and middle"),
        pytest.param(
            [(f"{PLACEMENT}/bottom", "1"), (f"{PLACEMENT}/left", "1")],
            [(PLACEMENT, "not-together")] * 2,
            id="two on both axes",
        ),
        pytest.param(
            [(f"{PLACEMENT}/left", "x")],
            [(PLACEMENT, "not-together"), (f"{PLACEMENT}/left", "not-a-length")],
            id="one of two is wrong: both are told",
        ),
        pytest.param([(f"{COPY}/centred", True)], [(COPY, "not-together")], id="of a copy"),
        pytest.param(
            [(f"{PLACEMENT}/copies", [{"on_copy": 1}])],
            [(PLACEMENT, "not-together")],
            id="positions beside a list of copies",
        ),
        pytest.param(
            [("/projects/0/placements/3/turn", 90)],
            [("/projects/0/placements/3", "not-together")],
            id="a turn beside a list of copies",
        ),
        pytest.param([("/projects/0/placements/3/turn", 0)], [], id="no turn beside a list of copies"),
        pytest.param([("/projects/0/placements/3/copies", "each")], [], id="each in words"),
        # forms
        pytest.param([(f"{FORM}/outside", ["5", "4"])], [(FORM, "not-together")], id="a tray by inside and outside"),
        pytest.param([(f"{FORM}/inside", REMOVED)], [(FORM, "missing")], id="a tray of no size"),
        pytest.param(
            [(f"{FORM}/fits", {"blank": "box"})], [(f"{FORM}/fits", "unknown-field")], id="a tray fits nothing"
        ),
        pytest.param(
            [(f"{FORM}/inside", REMOVED), (f"{FORM}/depth", REMOVED)],
            [(FORM, "missing"), (FORM, "missing")],
            id="no size and no depth: both are told",
        ),
        pytest.param(
            [("/projects/0/forms/2/inside", ["5", "4"])],
            [("/projects/0/forms/2", "not-together")],
            id="a lid by inside and by what it fits",
        ),
        pytest.param(
            [("/projects/0/forms/2/fits", REMOVED)], [("/projects/0/forms/2", "missing")], id="a lid of no size"
        ),
        pytest.param(
            [("/projects/0/forms/2/fits", {"blank": "box", "form": "f0"})],
            [("/projects/0/forms/2/fits", "not-together")],
            id="a lid for two things",
        ),
        pytest.param(
            [("/projects/0/forms/2/fits", {})], [("/projects/0/forms/2/fits", "missing")], id="a lid for nothing"
        ),
        pytest.param(
            [("/projects/0/forms/2/fits", ["5", "0"])],
            [("/projects/0/forms/2/fits/1", "out-of-range")],
            id="a lid for a size with a nought",
        ),
        pytest.param([(f"{FORM}/as", None)], [(f"{FORM}/as", "wrong-type")], id="a construction of null"),
        pytest.param([(f"{FORM}/as", REMOVED)], [(FORM, "missing")], id="no construction"),
        pytest.param(
            [(f"{FORM}/as", "frame")],
            sorted(
                [(FORM, "missing")] * 2
                + [(f"{FORM}/{name}", "unknown-field") for name in ("inside", "depth", "walls", "turn_in", "flange")]
                + [(f"{FORM}/corner", "out-of-range")]
            ),
            id="another construction's fields",
        ),
    ],
)
def test_what_does_not_go_together(changes, expected):
    assert refusals(changed(*changes)) == expected


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        pytest.param(
            {"\0object": {"each": 1}},
            [("/projects/0/pieces/0/paper", "missing"), ("/projects/0/pieces/0/paper/\0object", "bad-text")],
            id="a branch's own name",
        ),
        pytest.param(
            {"<object>": {"each": 1}},
            [("/projects/0/pieces/0/paper", "missing"), ("/projects/0/pieces/0/paper/<object>", "unknown-field")],
            id="a name in brackets",
        ),
        pytest.param({"each": {"each": []}}, [("/projects/0/pieces/0/paper/each", "wrong-type")], id="each in each"),
    ],
)
def test_a_key_named_like_a_branch_of_a_union_leads_no_pointer_astray(value: Any, expected):
    assert refusals(changed(("/projects/0/pieces/0/paper", value))) == expected


@pytest.mark.parametrize(
    ("changes", "pointer", "said"),
    [
        pytest.param([(f"{PAPER}/pad", REMOVED)], PAPER, "one of pad, size is needed", id="one of two"),
        pytest.param([(f"{PAPER}/name", REMOVED)], PAPER, "“name” is missing", id="a field"),
        pytest.param(
            [(WINDOW, {"id": "pane", **RECT, "left": None})], WINDOW, "two of left, right, width", id="a window"
        ),
        pytest.param([(f"{PIECE}/shape", {"kind": "arch"})], f"{PIECE}/shape", "needs its rise", id="a shape"),
        pytest.param([(f"{PAPER}/undersize", "1/3 {brace}")], f"{PAPER}/undersize", "“1/3 {brace}”", id="braces typed"),
        pytest.param(
            [(f"{PAPER}/undersize", "0.1")],
            f"{PAPER}/undersize",
            "3/32 in or 1/8 in",
            id="neighbours at the printed step of the document",
        ),
        pytest.param(
            [(f"{PAPER}/undersize", "0.01 mm")],
            f"{PAPER}/undersize",
            "0 or 0.5 mm",
            id="neighbours in the other system",
        ),
        pytest.param([(f"{FORM}/as", "box")], f"{FORM}/as", "use tray, lid, sleeve", id="the constructions there are"),
        pytest.param([("/unit", "ft")], "/unit", "must be in or mm", id="the words there are"),
    ],
)
def test_the_sentence_says_what_to_do(changes, pointer, said):
    from layouts.document import Refused, read_kit_tree

    with pytest.raises(Refused) as refusal:
        read_kit_tree(changed(*changes))
    assert [error.message for error in refusal.value.errors if error.pointer == pointer and said in error.message]
