"""If a cut goes wrong: what the cut guide says of it. Sheets of 12 by 12 inches, worked by hand."""

from __future__ import annotations

import pytest

from kits.sheets.content.guide import cut_guide, sheets_of_print
from kits.sheets.options import SheetOptions
from tests.unit.assembly.small_kits import CARD, kit_of, piece, project
from tests.unit.cutting.trees import cut, offcut
from tests.unit.drawing.reading import read, texts
from tests.unit.sheets.proofs import INCHES, proof_of

IN = 8128
SKY = {**CARD, "id": "sky", "name": "Sky print", "front": {"name": "Sky"}, "back": {"name": "Rain"}}
ONE_WAY = {**SKY, "front": {"name": "Sky", "reads": "up", "repeat": "one-way"}}


def _laid(place: str, x: float, width: float, height: float = 12, **more):
    sides = {"x": int(x * IN), "y": 0, "width": int(width * IN), "height": int(height * IN)}
    return {**sides, "piece": f"project:shelf/piece:{place}", "copy": 1, "turn": 0, **more}


def _left_over(x: float, width: float):
    return offcut(int(x * IN), 0, int(width * IN), 12 * IN)


def _kit(*letters: str, sky=SKY, **more):
    pieces = [piece(letter, paper="sky") | more for letter in letters]
    return kit_of(project("shelf", pieces=pieces), papers=[sky, CARD])


def _strips(*parts):
    """A sheet from which strips are cut, one after the other, from the left."""
    first, *rest = parts
    return cut("x", first["x"] + first["width"], first, _strips(*rest)) if rest else first


def _spare(kit, *papers, options=INCHES):
    return cut_guide(kit, proof_of(*papers), options).spare


def test_a_piece_is_cut_again_from_the_offcut_that_has_its_letter_in_the_picture():
    kit = _kit("A", "B")
    # 5 and 3 of 12 leave 4: enough for one more B, not for one more A.
    tree = _strips(_laid("A", 0, 5), _laid("B", 5, 3), _left_over(8, 4))
    guide = cut_guide(kit, proof_of(("sky", "fits", [tree])), INCHES)
    assert [(row.letter, row.sheet, row.size, row.gives) for row in guide.spare.rows] == [
        ("Z", "Sky print, sheet 1", "4 × 12", "B")
    ]
    assert guide.spare.lost == (("Sky print", "A"),)
    assert guide.spare.careful == "A of Sky print"
    assert texts(guide.sheets[0].drawing.svg).count("Z") == 1


def test_an_offcut_that_gives_several_stands_in_one_line():
    tree = _strips(_laid("A", 0, 3), _laid("B", 3, 3), _left_over(6, 6))
    spare = _spare(_kit("A", "B"), ("sky", "fits", [tree]))
    assert [row.gives for row in spare.rows] == ["A or B"]
    assert (spare.lost, spare.careful) == ((), "")


def test_a_sheet_that_is_not_cut_is_told_without_a_letter():
    kit = _kit("A", sky={**SKY, "sheets": 2})
    spare = _spare(kit, ("sky", "fits", [_laid("A", 0, 12)]))
    assert [(row.letter, row.sheet, row.size) for row in spare.rows] == [
        ("", "Sky print, a whole sheet that is not cut", "12 × 12")
    ]


def test_marks_turn_over_with_the_sheet():
    """From behind 8 to 12 from the left is 0 to 4."""
    tree = _strips(_laid("A", 0, 5, side="back"), _laid("B", 5, 3, side="back"), _left_over(8, 4))
    sheet = {"sheet": 1, "tree": tree}
    spare = _spare(_kit("A", "B", side="back"), ("sky", "fits", [tree]))
    [front] = spare.marks("sky", sheet)
    [behind] = spare.marks("sky", sheet, from_behind=True)
    assert (front.box.x, behind.box.x, behind.box.width) == (8 * IN, 0, 4 * IN)


@pytest.mark.parametrize(("sky", "gives"), [(SKY, ["A"]), (ONE_WAY, [])], ids=["any way up", "the print would lie"])
def test_a_print_that_reads_one_way_is_not_turned(sky, gives):
    # 8 by 4 comes out of 4 by 12 only lying on its side.
    above = offcut(0, 4 * IN, 8 * IN, 3 * IN)
    tree = cut("x", 8 * IN, cut("y", 4 * IN, _laid("A", 0, 8, 4), above), _left_over(8, 4))
    spare = _spare(_kit("A", sky=sky), ("sky", "fits", [tree]))
    assert [row.gives for row in spare.rows] == gives


def test_sizes_are_those_that_the_sheet_prints():
    tree = _strips(_laid("A", 0, 3), _left_over(3, 9))
    spare = _spare(_kit("A"), ("sky", "fits", [tree]), options=SheetOptions("a4", "mm"))
    # 9 in are 228.6 mm, 12 in 304.8 mm.
    assert [row.size for row in spare.rows] == ["229 × 305"]


def test_the_number_of_a_cut_hides_no_letter_of_an_offcut():
    """A small offcut, 4/5 by 4/5 of an inch, whose cut ends at no edge of the sheet: its number stands beyond it."""
    kit = _kit("A", "B", "C", "D", "E", "F")

    def laid(letter, x, y, width, height):
        sides = {"x": x * IN // 10, "y": y * IN // 10, "width": width * IN // 10, "height": height * IN // 10}
        return {**_laid(letter, 0, 1), **sides}

    small = {**laid("D", 102, 68, 8, 8), "offcut": True}
    del small["piece"]
    pair = cut("y", 68 * IN // 10, laid("D", 102, 60, 8, 8), small)
    inner = cut("x", 102 * IN // 10, laid("C", 60, 60, 42, 16), pair)
    upper = cut("x", 11 * IN, cut("y", 76 * IN // 10, inner, laid("E", 60, 76, 50, 44)), laid("F", 110, 60, 10, 60))
    tree = cut("x", 6 * IN, laid("A", 0, 0, 60, 120), cut("y", 6 * IN, laid("B", 60, 0, 60, 60), upper))
    guide = cut_guide(kit, proof_of(("sky", "fits", [tree])), INCHES)
    assert [row.gives for row in guide.spare.rows] == ["D"]
    circles = read(guide.sheets[0].drawing.svg, "circle")
    [disc] = [one for one in circles if one["fill"] == "#ffffff"]
    numbers = [one for one in circles if one["fill"] == "#7a2e1d"]
    assert len(numbers) == 6
    for one in numbers:
        assert (one.cx - disc.cx) ** 2 + (one.cy - disc.cy) ** 2 >= (one.r + disc.r) ** 2


@pytest.mark.parametrize("verdict", ["short", "unknown"])
def test_a_print_without_a_proven_plan_says_nothing_of_it(verdict):
    tree = _strips(_laid("A", 0, 3), _left_over(3, 9))
    spare = _spare(_kit("A"), ("sky", verdict, [tree] if verdict == "unknown" else []))
    assert (spare.rows, spare.lost, spare.careful) == ((), (), "")


def test_the_sheets_of_one_print_are_those_of_the_guide_with_names_of_their_own():
    kit = _kit("A", "B")
    tree = _strips(_laid("A", 0, 5), _laid("B", 5, 3), _left_over(8, 4))
    proof = proof_of(("sky", "fits", [tree]))
    [alone] = sheets_of_print(kit, proof, INCHES, "sky", name="_cuts-")
    [of_guide] = cut_guide(kit, proof, INCHES).sheets
    assert (alone.heading, alone.rows, alone.counted) == (of_guide.heading, of_guide.rows, of_guide.counted)
    assert alone.drawing.svg == of_guide.drawing.svg.replace('"sky-1-', '"_cuts-sky-1-').replace(
        "#sky-1-", "#_cuts-sky-1-"
    )
    assert list(sheets_of_print(kit, proof, INCHES, "card", name="")) == []
