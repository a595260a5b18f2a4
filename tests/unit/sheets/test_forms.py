"""Folded parts on a sheet, by hand: flat parts, panels, the order of folding and the folded size."""

from __future__ import annotations

from typing import Any

import pytest

from kits.sheets.content.forms import drawn_forms
from kits.sheets.content.measures import Measures
from tests.unit.assembly.small_kits import CARD, kit_of, project
from tests.unit.drawing.reading import texts
from tests.unit.sheets.proofs import INCHES, MILLIMETRES, printed_of

LINE = 145
TRAY = {"id": "B", "name": "box", "as": "tray", "paper": "card", "inside": ["4", "3"], "depth": "1"}
STRIP = {"id": "S", "name": "strip", "as": "concertina", "paper": "card", "panel": ["2", "3"], "panels": 4}
TAG = {"id": "T", "name": "tag", "as": "tag", "paper": "card", "size": ["2", "3"]}
FOLDER = {"id": "F", "name": "folder", "as": "scored", "paper": "card", "size": ["5", "3"]}


def _forms(*forms: Any, options=INCHES, papers=(CARD,)):
    kit = kit_of(project("shelf", forms=list(forms)), papers=list(papers))
    measures = Measures(kit, options, printed_of(kit))
    return drawn_forms(measures, measures.as_shown.projects[0], LINE)


def _form(form: Any, options=INCHES, papers=(CARD,)):
    [found], left_out = _forms(form, options=options, papers=papers)
    assert left_out == 0
    return found


def test_a_tray_is_its_floor_and_walls_with_tabs_that_are_glued_inside():
    """4 by 3 inside, 1 deep, of paper without thickness: 6 by 5 flat, scored 1 in from every edge."""
    form = _form(TRAY)
    [part] = form.parts
    assert sorted(filter(str.isdigit, texts(part.drawing.svg))) == ["1", "1", "1", "1", "3", "4", "5", "6"]
    assert part.beside[:2] == ("Score from the left at 1, 5.", "Score from the bottom at 1, 4.")
    assert form.panels == (
        ("base", "4 × 3"),
        ("wall bottom and wall top", "4 × 1"),
        ("wall left and wall right", "1 × 3"),
        ("tab left bottom, tab right bottom, tab right top and tab left top", "1 × 1"),
    )
    assert form.folded == "Folded 4 × 3 × 1 in."
    assert form.standing is not None
    assert sorted(filter(str.isdigit, texts(form.standing.svg))) == ["1", "3", "4"]
    assert [fold.number for fold in form.folds] == [""]
    assert "Glue tab left bottom and tab left top to the inside of wall left." in form.folds[0].words


def test_in_the_other_system_the_parts_of_a_flat_part_still_add_up():
    """152.4 by 127 mm flat, walls of 25.4: 127 is a whole number and stays, so the floor of 76.2 is shown as 77."""
    form = _form(TRAY, options=MILLIMETRES)
    assert form.panels[:3] == (
        ("base", "102 × 77"),
        ("wall bottom and wall top", "102 × 25"),
        ("wall left and wall right", "25 × 77"),
    )
    assert form.folded == "Folded 102 × 77 × 25 mm."


def test_strips_that_are_alike_are_drawn_once_and_thin_ones_lie_flat():
    """Four panels of 2 in on sheets of 5 in: strips of two panels, the first with a tab of 1/2 in."""
    form = _form(STRIP, papers=[{**CARD, "size": ["5", "5"]}])
    assert [(part.which, part.size) for part in form.parts] == [(", part 1", "4 1/2 × 3"), (", part 2", "4 × 3")]
    assert form.panels == (("panel 1, panel 2, panel 3 and panel 4", "2 × 3"), ("tab 1", "1/2 × 3"))
    assert form.folded == "Folded 2 × 3 in, lying flat."


def test_steps_of_folding_carry_the_numbers_of_the_drawing_where_there_are_several():
    envelope = {
        "id": "E", "name": "envelope", "as": "envelope", "paper": "card", "holds": ["3", "2"],
        "side_flap": "1/2", "bottom_flap": "1", "top_flap": "3/4",
    }  # fmt: skip
    assert [fold.number for fold in _form(envelope).folds] == ["1", "2", "3"]


def test_what_is_not_folded_has_neither_panels_nor_a_folded_size():
    form = _form(TAG)
    assert (form.panels, form.folds, form.folded, len(form.parts)) == ((), (), "", 1)


def test_a_form_that_cannot_be_folded_is_drawn_and_nothing_is_said_of_folding():
    """Tabs of 2 in meet on a wall of 3 in."""
    form = _form({**TRAY, "depth": "2"})
    assert (form.folds, form.folded, form.standing, len(form.parts)) == ((), "", None, 1)
    assert form.wrong == "It cannot be folded as it is given: ask before you cut it."


def test_the_inside_of_a_tray_is_told_where_thick_paper_makes_its_outside_larger():
    """Board of 1.6 mm, just above 1/16 in, on both sides: 4 by 3 inside are 4 1/8 by 3 1/8 outside."""
    board = {**CARD, "caliper_um": 1600}
    form = _form(TRAY, papers=[board])
    nbsp = "\N{NO-BREAK SPACE}"
    assert form.folded.replace(nbsp, " ").startswith("Folded about 4 1/8 × 3 1/8")
    assert form.inside == "Inside 4 × 3 in: less than outside by the thickness of the paper."
    outside = {**TRAY, "outside": ["4", "3"]}
    del outside["inside"]
    assert [_form(TRAY).inside, _form(outside, papers=[board]).inside] == ["", ""]


KINDS = [
    pytest.param(TRAY, {"cut", "mountain", "tab"}, id="tray"),
    pytest.param(STRIP, {"cut", "mountain", "valley"}, id="concertina"),
    pytest.param(TAG, {"cut"}, id="tag"),
    pytest.param({**TAG, "corner": "1/2"}, {"cut", "waste"}, id="tag with corners"),
]


@pytest.mark.parametrize(("form", "kinds"), KINDS)
def test_a_form_says_which_lines_and_areas_its_drawings_have(form, kinds):
    assert _form(form).kinds == kinds


def test_rounding_alone_makes_no_form_impossible():
    """Tabs of 1 1/4 in on a wall of 2 1/2 in: 32 mm are more than half of 63, but nothing is wrong with the form."""
    form = _form({**TRAY, "inside": ["5 3/4", "2 1/2"], "depth": "1 1/4"}, options=MILLIMETRES)
    assert form.wrong == ""


def test_the_print_is_named_where_another_needs_another_size():
    thick = {**CARD, "id": "board", "name": "Board", "caliper_um": 1600}
    each = {**TRAY, "paper": {"each": ["card", "board"]}}
    kit = kit_of(project("shelf", makes=2, forms=[each]), papers=[CARD, thick])
    measures = Measures(kit, INCHES)
    [form], _ = drawn_forms(measures, measures.as_shown.projects[0], LINE)
    assert form.from_ == "Card"
    assert _form(TRAY).from_ == ""


def test_very_many_forms_are_not_all_drawn():
    found, left_out = _forms(*({**TAG, "id": f"T{number}"} for number in range(65)))
    assert (len(found), left_out) == (60, 5)


@pytest.mark.parametrize(("scores", "folded"), [
    ([{"from": "left", "at": "2"}], "Folded 3 × 3 in, lying flat."),
    ([], ""),
])  # fmt: skip
def test_a_sheet_with_one_score_lies_flat(scores, folded):
    assert _form({**FOLDER, "scores": scores}).folded == folded
