"""The second pass: ids that differ, references that lead somewhere, cut-outs that form no loop."""

from __future__ import annotations

from typing import Any

import pytest

from tests.unit.document.making import REMOVED, WHOLE, at, changed, refusals

PROJECT = "/projects/0"
PIECE, FORM, STEP = f"{PROJECT}/pieces/0", f"{PROJECT}/forms/0", f"{PROJECT}/steps/0"
RECT = {"left": "1", "width": "1", "top": "1", "height": "1"}


def like(pointer: str, **fields: Any) -> dict[str, Any]:
    return {**at(WHOLE, pointer), **fields}


def piece(id_: str, **fields: Any) -> dict[str, Any]:
    return {"id": id_, "name": "piece", "size": ["1", "1"], **fields}


def window(id_: str, **fields: Any) -> dict[str, Any]:
    return {"id": id_, **RECT, "cut_out": "kept", **fields}


@pytest.mark.parametrize(
    ("pointer", "member"),
    [
        pytest.param("/pads/1", like("/pads/0"), id="pads"),
        pytest.param("/papers/2", like("/papers/0"), id="papers"),
        pytest.param("/embellishments/1", like("/embellishments/0"), id="embellishments"),
        pytest.param("/embellishments/0/elements/1", like("/embellishments/0/elements/0"), id="elements"),
        pytest.param("/blanks/1", like("/blanks/0"), id="blanks"),
        pytest.param("/blanks/0/faces/1", like("/blanks/0/faces/0"), id="faces"),
        pytest.param("/supplies/1", like("/supplies/0"), id="supplies"),
        pytest.param("/tools/1", like("/tools/0"), id="tools"),
        pytest.param("/projects/2", like("/projects/1"), id="projects"),
        pytest.param(f"{PROJECT}/pieces/2", piece("A"), id="pieces"),
        pytest.param(f"{PROJECT}/forms/12", like(FORM), id="forms"),
        pytest.param(f"{PIECE}/windows/1", window("pane"), id="windows"),
        pytest.param(f"{PROJECT}/placements/5", like(f"{PROJECT}/placements/0"), id="placements"),
        pytest.param(f"{PROJECT}/steps/2", {"id": "cut", "text": "Again."}, id="steps"),
    ],
)
def test_ids_differ_within_their_list_ignoring_case_and_the_later_is_told(pointer, member):
    alike = member["id"].swapcase() if member["id"].swapcase() != member["id"] else member["id"]
    assert refusals(changed((pointer, member))) == [(f"{pointer}/id", "duplicate-id")]
    assert refusals(changed((pointer, {**member, "id": alike}))) == [(f"{pointer}/id", "duplicate-id")]
    assert refusals(changed((pointer, {**member, "id": "another"}))) == []


def test_pieces_and_forms_of_one_project_share_one_list_and_the_form_is_the_later():
    assert refusals(
        changed(
            (f"{FORM}/id", "a"),
            (f"{STEP}/cut/1", "a"),
            (f"{STEP}/use/1/form", "a"),
            (f"{STEP}/closes/0", "a"),
            (f"{PROJECT}/forms/3/fits/form", "a"),
            (f"{PROJECT}/placements/2/on/form", "a"),
        )
    ) == [(f"{FORM}/id", "duplicate-id")]


def test_the_third_of_three_alike_is_told_too():
    tree = changed(("/pads/1", like("/pads/0")), ("/pads/2", like("/pads/0", id="PAD")))
    assert refusals(tree) == [("/pads/1/id", "duplicate-id"), ("/pads/2/id", "duplicate-id")]


@pytest.mark.parametrize(
    "changes",
    [
        pytest.param([("/pads/0/id", "card"), ("/papers/0/pad", "card")], id="a pad and a paper"),
        pytest.param([("/projects/1/id", "moss"), (f"{STEP}/after/0", "moss/saw")], id="a project and a paper"),
        pytest.param([("/projects/1/pieces", [piece("A")])], id="pieces of two projects"),
        pytest.param([(f"{PROJECT}/steps/1/id", "A"), (f"{STEP}/after/1", "A")], id="a step and a piece"),
        pytest.param([(f"{PROJECT}/pieces/1/windows", [window("pane")])], id="windows of two pieces"),
        pytest.param([(f"{PROJECT}/placements/1/id", "B")], id="a placement and a piece"),
    ],
)
def test_ids_of_different_lists_may_be_alike(changes):
    assert refusals(changed(*changes)) == []


@pytest.mark.parametrize("name", ["cut-guide", "templates", "Cut-Guide", "TEMPLATES"])
def test_the_names_of_the_other_sheets_are_no_ids_of_projects(name):
    tree = changed(("/projects/1/id", name), (f"{STEP}/after", [f"{name}/saw"]))
    assert refusals(tree) == [("/projects/1/id", "bad-id")]
    assert (
        refusals(
            changed(
                (f"{PROJECT}/pieces/1/id", "templates"), (f"{PIECE}/mirror_of", REMOVED), (f"{PROJECT}/placements", [])
            )
        )
        == []
    )


@pytest.mark.parametrize(
    ("pointer", "value"),
    [
        pytest.param(f"{PIECE}/mirror_of", "f0", id="a form is no piece to mirror"),
        pytest.param(f"{PIECE}/edges/top", "moss", id="a paper is no tool"),
        pytest.param("/papers/0/pad", "moss", id="a paper is no pad"),
        pytest.param("/papers/0/pad", "PAD", id="another case is another pad"),
        pytest.param(f"{FORM}/paper", "pad", id="a pad is no paper"),
        pytest.param(f"{PROJECT}/forms/2/fits/blank", "f0", id="a form is no blank"),
        pytest.param(f"{PROJECT}/forms/3/fits/form", "A", id="a piece is no form"),
        pytest.param(f"{PROJECT}/placements/0/put/piece", "f0", id="a form is no piece to put"),
        pytest.param(f"{PROJECT}/placements/0/on/face", "rear", id="a face the blank does not have"),
        pytest.param(f"{PROJECT}/placements/1/put/element", "labels", id="an embellishment without element"),
        pytest.param(f"{PROJECT}/placements/1/put/element", "oval", id="an element without embellishment"),
        pytest.param(f"{PROJECT}/placements/1/put/element", "labels/oval/oval", id="an element of an element"),
        pytest.param(f"{PROJECT}/placements/1/put/element", "Labels/oval", id="another case is another sheet"),
        pytest.param(f"{STEP}/cut/0", "cut", id="a step cannot be cut"),
        pytest.param(f"{STEP}/closes/0", "A", id="a piece cannot be closed"),
        pytest.param(f"{STEP}/closes/0", "twine", id="a supply cannot be closed"),
        pytest.param(f"{STEP}/tools/0", "twine", id="a supply is no tool"),
        pytest.param(f"{STEP}/use/4/supply", "trimmer", id="a tool is no supply"),
        pytest.param(f"{STEP}/after/0", "saw", id="a step of another project by its name alone"),
        pytest.param(f"{STEP}/after/0", "shelf", id="a project is no step"),
        pytest.param(f"{STEP}/after/0", "shelf/", id="no step of a project"),
        pytest.param(f"{STEP}/after/0", "/saw", id="no project"),
        pytest.param(f"{STEP}/after/0", "shelf/cut", id="a step that is in the other project"),
        pytest.param(f"{STEP}/after/0", "table/shelf/saw", id="three names"),
        pytest.param(f"{PROJECT}/pieces/1/from", "A/pane", id="a cut-out without project"),
        pytest.param(f"{PROJECT}/pieces/1/from", "shelf/A/pane", id="a cut-out of another project"),
        pytest.param(f"{PROJECT}/pieces/1/from", "table/f0/pane", id="a cut-out of a form"),
        pytest.param(f"{PROJECT}/pieces/1/from", "table/A/door", id="a window the piece does not have"),
        pytest.param(f"{PROJECT}/pieces/1/from", "table/A/pane/", id="four names"),
    ],
)
def test_a_reference_leads_to_its_own_kind_of_thing(pointer, value):
    assert refusals(changed((pointer, value))) == [(pointer, "unknown-id")]


def test_a_step_may_wait_for_a_step_of_its_own_project_by_its_full_name():
    assert refusals(changed((f"{STEP}/after", ["table/glue"]))) == []


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        pytest.param([("/pads", "x")], [("/pads", "wrong-type")], id="pads are no list"),
        pytest.param([("/papers", 5)], [("/papers", "wrong-type")], id="papers are no list"),
        pytest.param([("/papers/0/id", 5)], [("/papers/0/id", "wrong-type")], id="one paper's id is no text"),
        pytest.param([("/papers/0/id", REMOVED)], [("/papers/0", "missing")], id="one paper has no id"),
        pytest.param([("/papers/1", 5)], [("/papers/1", "wrong-type")], id="one paper is no object"),
        pytest.param([("/tools", {})], [("/tools", "wrong-type")], id="tools are no list"),
        pytest.param([("/blanks/0/faces", 5)], [("/blanks/0/faces", "wrong-type")], id="faces are no list"),
        pytest.param(
            [("/embellishments/0/elements", 5)], [("/embellishments/0/elements", "wrong-type")], id="elements"
        ),
        pytest.param([(f"{PIECE}/windows", 5)], [(f"{PIECE}/windows", "wrong-type")], id="windows are no list"),
        pytest.param([(f"{PROJECT}/steps", 5)], [(f"{PROJECT}/steps", "wrong-type")], id="steps are no list"),
        pytest.param([(f"{PROJECT}/pieces", 5)], [(f"{PROJECT}/pieces", "wrong-type")], id="pieces are no list"),
        pytest.param([(f"{PROJECT}/forms", 5)], [(f"{PROJECT}/forms", "wrong-type")], id="forms are no list"),
        pytest.param([("/projects/1/id", "no id")], [("/projects/1/id", "bad-id")], id="a project's id is refused"),
        pytest.param([("/papers/0/id", "mo\0ss")], [("/papers/0/id", "bad-text")], id="a paper's id is no text"),
    ],
)
def test_a_reference_into_a_refused_list_is_not_judged(changes, expected):
    assert refusals(changed(*changes)) == expected


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        pytest.param(
            [(f"{PROJECT}/id", "no id"), (f"{PIECE}/mirror_of", "nosuch"), (f"{STEP}/tools/0", "nosuch")],
            [(f"{PROJECT}/id", "bad-id"), (f"{PIECE}/mirror_of", "unknown-id"), (f"{STEP}/tools/0", "unknown-id")],
            id="inside a project whose id is refused",
        ),
        pytest.param(
            [("/projects/1/id", "TABLE"), ("/projects/1/steps/0/tools", ["nosuch"]), (f"{STEP}/after/0", "TABLE/saw")],
            [("/projects/1/id", "duplicate-id"), ("/projects/1/steps/0/tools/0", "unknown-id")],
            id="inside a project whose id is taken",
        ),
        pytest.param(
            [(f"{PIECE}/id", "no id"), (f"{PIECE}/windows/1", window("pane")), (f"{PIECE}/edges/top", "nosuch")],
            [
                (f"{PIECE}/edges/top", "unknown-id"),
                (f"{PIECE}/id", "bad-id"),
                (f"{PIECE}/windows/1/id", "duplicate-id"),
            ],
            id="inside a piece whose id is refused",
        ),
        pytest.param(
            [("/blanks/0/id", 5), ("/blanks/0/faces/1", like("/blanks/0/faces/0"))],
            [("/blanks/0/faces/1/id", "duplicate-id"), ("/blanks/0/id", "wrong-type")],
            id="inside a blank whose id is refused",
        ),
        pytest.param(
            [("/embellishments/1", {"id": "labels", "name": "", "elements": [{"id": "o"}, {"id": "O"}]})],
            [("/embellishments/1/elements/0", "missing")] * 2
            + [("/embellishments/1/elements/1", "missing")] * 2
            + [("/embellishments/1/elements/1/id", "duplicate-id"), ("/embellishments/1/id", "duplicate-id")],
            id="inside an embellishment whose id is taken",
        ),
        pytest.param(
            [("/papers/0/front", 5), ("/papers/0/pad", "nosuch")],
            [("/papers/0/front", "wrong-type"), ("/papers/0/pad", "unknown-id")],
            id="beside a value that is refused",
        ),
        pytest.param(
            [(f"{PROJECT}/makes", "two"), (f"{PIECE}/paper/each/0", "nosuch")],
            [(f"{PROJECT}/makes", "wrong-type"), (f"{PIECE}/paper/each/0", "unknown-id")],
            id="in a project whose copies are refused",
        ),
    ],
)
def test_everything_is_judged_where_it_stands(changes, expected):
    assert refusals(changed(*changes)) == sorted(expected)


def chained(*sources: str | None) -> dict[str, Any]:
    """A document of pieces P0, P1 … in one project, each from the cut-out that is named, with the window `w`."""
    pieces = [
        piece(f"P{number}", windows=[window("w")], **({} if source is None else {"from": source}))
        for number, source in enumerate(sources)
    ]
    tree: dict[str, Any] = changed(("/projects/1/pieces", pieces))
    return tree


@pytest.mark.parametrize(
    ("sources", "loop"),
    [
        pytest.param(["shelf/P0/w"], [0], id="out of itself"),
        pytest.param(["shelf/P1/w", "shelf/P0/w"], [0, 1], id="two out of each other"),
        pytest.param(["shelf/P1/w", "shelf/P2/w", "shelf/P0/w"], [0, 1, 2], id="three in a ring"),
        pytest.param(["shelf/P1/w", "shelf/P2/w", "shelf/P1/w"], [1, 2], id="a way into a ring is no part of it"),
        pytest.param(["shelf/P0/w", "shelf/P1/w"], [0, 1], id="two rings of one"),
        pytest.param(["shelf/P1/w", "shelf/P2/w", None], [], id="nested twice is no loop"),
        pytest.param([None, "shelf/P0/w", "shelf/P0/w", "shelf/P1/w"], [], id="several from one cut-out"),
    ],
)
def test_a_piece_out_of_its_own_cut_out_is_refused_once_for_each_of_the_loop(sources, loop):
    assert refusals(chained(*sources)) == [(f"/projects/1/pieces/{number}/from", "own-cut-out") for number in loop]


def test_a_loop_may_lead_through_two_projects():
    tree = changed(
        ("/projects/1/pieces", [piece("C", windows=[window("w")], **{"from": "table/B/hole"})]),
        (f"{PROJECT}/pieces/1", piece("B", windows=[window("hole")], **{"from": "shelf/C/w"})),
    )
    assert refusals(tree) == [(f"{PROJECT}/pieces/1/from", "own-cut-out"), ("/projects/1/pieces/0/from", "own-cut-out")]


def test_a_cut_out_that_is_not_there_closes_no_loop():
    assert refusals(chained("shelf/P0/nosuch")) == [("/projects/1/pieces/0/from", "unknown-id")]


def test_what_differs_in_case_only_is_offered():
    from layouts.document import Refused, read_kit_tree

    with pytest.raises(Refused) as refusal:
        read_kit_tree(changed((f"{PIECE}/mirror_of", "b")))
    assert "did you mean “B”?" in refusal.value.errors[0].message
