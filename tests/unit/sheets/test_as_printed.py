"""Sheets show what the proof found printable: its figures, its plans, and the sign where a sum does not come out."""

from __future__ import annotations

from typing import Any

from kits.sheets.content.guide import cut_guide
from kits.sheets.content.project import project_sheet
from tests.unit.assembly.small_kits import CARD, kit_of, piece, project, step
from tests.unit.sheets.proofs import INCHES, MILLIMETRES, proof_of

A = "project:shelf/piece:A"
WINDOW = {"id": "pane", "left": "1", "right": "1", "top": "1/2", "bottom": "1/2"}
MM = 320


def figure(at: str, inches: str, mm: str, **more: Any) -> dict[str, Any]:
    return {"at": at, "in": inches, "mm": mm, **more}


def kit_with(*pieces: Any, text: str = "Cut {A}."):
    return kit_of(project("shelf", pieces=list(pieces), steps=[step("s", text)]), papers=[CARD])


# 101.6 and 76.2 mm by themselves are 102 and 76; here the proof has held the width down.
SIZES = [figure(f"{A}/size/width", "4", "101"), figure(f"{A}/size/height", "3", "76")]


def test_sizes_are_those_of_the_proof_in_both_systems():
    kit, proof = kit_with(piece("A", paper="card", size=["4", "3"])), proof_of(("card", "fits"), printed=SIZES)
    for options, expected in ((INCHES, ("4 × 3", "101 × 76")), (MILLIMETRES, ("101 × 76", "4 × 3"))):
        [row] = project_sheet(kit, proof, kit.projects[0], options).prints[0].rows
        assert row.size is not None
        assert (row.size.own_text, row.size.other_text) == expected


def test_a_side_that_follows_from_others_is_their_difference_as_shown():
    """50.8 mm by itself is 51; on a piece shown as 101 with margins of 25 it is 101 - 25 - 25."""
    printed = [*SIZES, *(figure(f"{A}/window:pane/{side}", "1", "25") for side in ("left", "right"))]
    pieces = piece("A", paper="card", size=["4", "3"], windows=[WINDOW])
    kit = kit_with(pieces, text="The window is {A.pane.width} wide.")
    sheet = project_sheet(kit, proof_of(("card", "fits"), printed=printed), kit.projects[0], MILLIMETRES)
    assert [run.text for run in sheet.steps[0].runs if run.kind == "measure"] == ["51\N{NO-BREAK SPACE}mm"]


def test_a_figure_that_comes_to_no_sum_has_its_sign_and_the_sheet_its_line():
    printed = [figure(f"{A}/size/width", "4", "102", off_sum=["mm"]), SIZES[1]]
    kit = kit_with(piece("A", paper="card", size=["4", "3"]), text="Cut {A}, {A.width} wide.")
    proof = proof_of(("card", "fits"), printed=printed)
    marked, plain = (project_sheet(kit, proof, kit.projects[0], options) for options in (MILLIMETRES, INCHES))
    assert marked.prints[0].rows[0].size is not None
    assert marked.prints[0].rows[0].size.own_text == "102* × 76"
    assert [run.text for run in marked.steps[0].runs if run.kind == "measure"] == ["102*\N{NO-BREAK SPACE}mm"]
    assert marked.foot.startswith("* ")
    # In inches all sums come out.
    assert (plain.foot, plain.prints[0].rows[0].size and plain.prints[0].rows[0].size.own_text) == ("", "4 × 3")


def test_flat_parts_are_as_large_as_the_proof_says():
    form = {"id": "f", "name": "strip", "as": "concertina", "paper": "card", "panel": ["1 1/8", "3"], "panels": 4}
    kit = kit_of(project("shelf", forms=[form]), papers=[CARD])
    place = "project:shelf/form:f"
    # 4 × 28.575 = 114.3: with panels of 29 the strip would be 116.
    printed = [
        figure(f"{place}/panel/width", "1 1/8", "29"),
        figure(f"{place}/panel/height", "3", "76"),
        figure(f"{place}/flat/width", "4 1/2", "114", off_sum=["mm"]),
        figure(f"{place}/flat/height", "3", "76"),
    ]
    sheet = project_sheet(kit, proof_of(("card", "fits"), printed=printed), kit.projects[0], MILLIMETRES)
    [row] = sheet.prints[0].rows
    assert row.size is not None
    assert (row.size.own_text, row.size.other_text) == ("114* × 76", "4 1/2 × 3")


def _tree(width: int, height: int) -> dict[str, Any]:
    sheet = {"x": 0, "y": 0, "width": 12 * 8128, "height": height}
    leaf = {"x": 0, "y": 0, "width": width, "height": height, "piece": A, "copy": 1, "turn": 0}
    rest = {"x": width, "y": 0, "width": 12 * 8128 - width, "height": height, "offcut": True}
    return {**sheet, "cut": {"along": "x", "at": width}, "parts": [leaf, rest]}


def test_a_guide_in_the_other_system_cuts_by_the_plan_of_its_sizes():
    kit = kit_with(piece("A", paper="card", size=["4", "3"]))
    as_printed = {"mm": [{"paper": "card", "plan": [{"sheet": 1, "tree": _tree(101 * MM, 76 * MM)}]}]}
    proof = proof_of(("card", "fits", [_tree(4 * 8128, 3 * 8128)]), printed=SIZES, as_printed=as_printed)
    settings = [cut_guide(kit, proof, options).sheets[0].rows[0].setting for options in (INCHES, MILLIMETRES)]
    assert settings == ["4", "101"]


def test_a_print_that_is_short_as_printed_has_no_plan_in_that_system():
    kit = kit_with(piece("A", paper="card", size=["4", "3"]))
    findings = [{"rule": "short-as-printed", "at": ["paper:card", A], "why": {"system": "mm"}}]
    proof = proof_of(("card", "fits", [_tree(4 * 8128, 3 * 8128)]), printed=SIZES, findings=findings)
    inches, mm = (cut_guide(kit, proof, options) for options in (INCHES, MILLIMETRES))
    assert (len(inches.sheets), inches.missing) == (1, ())
    assert mm.sheets == ()
    assert mm.missing == (("Card", "no cut plan in mm: with rounded sizes the paper in the box does not suffice"),)
