"""The cut guide of small plans, by hand: which side lies up, which part to take, what to keep, which sheet first."""

from __future__ import annotations

import pytest

from kits.sheets.content.cut_rows import cuts_counted
from kits.sheets.content.guide import cut_guide
from kits.sheets.options import SheetOptions
from layouts.cutting.sequence import Sequence, sequence_of
from tests.unit.assembly.small_kits import CARD, kit_of, piece, project, step, tag
from tests.unit.cutting.trees import cut, offcut
from tests.unit.drawing.reading import read, texts
from tests.unit.sheets.proofs import INCHES, proof_of

IN = 8128
SKY = {**CARD, "id": "sky", "name": "Sky print", "front": {"name": "Sky"}, "back": {"name": "Rain"}}


def _laid(place: str, x: float, y: float, width: float, height: float, **more):
    sides = {"x": int(x * IN), "y": int(y * IN), "width": int(width * IN), "height": int(height * IN)}
    return {**sides, "piece": f"project:{place}", "copy": 1, "turn": 0, **more}


def _left_over(x: float, y: float, width: float, height: float):
    return offcut(int(x * IN), int(y * IN), int(width * IN), int(height * IN))


def _cut(along: str, at: float, *parts):
    return cut(along, int(at * IN), *parts)


SHELF = project("shelf", pieces=[piece("A", paper="sky"), piece("B", paper="sky"), piece("C", paper="card")])
KIT = kit_of(SHELF, papers=[SKY, CARD])


def _guide(*papers, options=INCHES, kit=KIT, **order):
    return cut_guide(kit, proof_of(*papers, **order), options)


def _side_by_side(first: str | None, second: str | None):
    sides = [{"side": side} if side else {} for side in (first, second)]
    pieces = [_laid("shelf/piece:A", 0, 0, 4, 12, **sides[0]), _laid("shelf/piece:B", 4, 0, 4, 12, **sides[1])]
    return _cut("x", 4, pieces[0], _cut("x", 8, pieces[1], _left_over(8, 0, 4, 12)))


SIDES = [
    pytest.param(None, None, "Sky up.", "left", id="fronts"),
    pytest.param(None, "back", "Sky up; B shows the back, Rain.", "left", id="one back"),
    pytest.param("back", "back", "Turned over, Rain up.", "right", id="backs alone"),
]


@pytest.mark.parametrize(("first", "second", "side", "edge"), SIDES)
def test_a_sheet_says_which_side_lies_up(first, second, side, edge):
    [sheet] = _guide(("sky", "fits", [_side_by_side(first, second)])).sheets
    assert sheet.side == side
    assert [(row.take, row.setting, row.edge, row.gives) for row in sheet.rows] == [
        ("the sheet", "4", edge, "A"),
        (f"{'left' if edge == 'right' else 'right'} of 1", "4", edge, "B, offcut"),
    ]


def test_a_sheet_that_is_turned_over_is_drawn_as_it_then_lies():
    """Seen from the front A is the left of two; turned over it lies at the right, and the offcut at the left."""
    [sheet] = _guide(("sky", "fits", [_side_by_side("back", "back")])).sheets
    where = {one.text: one.x for one in read(sheet.drawing.svg, "text")}
    assert where["A"] > where["B"]
    assert "back up" not in texts(sheet.drawing.svg)


def test_a_piece_that_shows_the_other_side_is_marked_in_the_drawing():
    [sheet] = _guide(("sky", "fits", [_side_by_side(None, "back")])).sheets
    assert texts(sheet.drawing.svg).count("back up") == 1


# A piece of so many inches that shows the back of a sheet 12 in wide, drawn 76 mm wide: how it is marked. A line is
# 145/8128 in there, the words 23 lines wide and 6 high: 1.7 by 0.4 in of the sheet.
MARKED = [
    pytest.param(4, 3, ["lying"], (), id="beside the letter"),
    pytest.param(1.9, 3, ["lying"], (), id="below the letter"),
    pytest.param(0.75, 4, ["upright"], (), id="upright"),
    pytest.param(0.75, 0.75, [], ("A black corner stands for “back up” where these words have no room.",), id="corner"),
]


@pytest.mark.parametrize(("width", "height", "words", "signs"), MARKED)
def test_a_piece_that_shows_the_back_is_never_left_unmarked(width, height, words, signs):
    right = _left_over(width, 0, 12 - width, height)
    row = _cut("x", width, _laid("shelf/piece:A", 0, 0, width, height, side="back"), right)
    front = _laid("shelf/piece:B", 0, height, 12, 12 - height)
    guide = _guide(("sky", "fits", [_cut("y", height, row, front)]))
    [sheet] = guide.sheets
    drawn = [one for one in read(sheet.drawing.svg, "text") if one.text == "back up"]
    assert ["upright" if "transform" in one else "lying" for one in drawn] == words
    assert (sheet.signs, guide.signs) == (signs, signs)
    corners = [one for one in read(sheet.drawing.svg, "path") if one["fill"] == "#17212b"]
    assert len(corners) == len(signs)


def test_a_leader_is_explained_where_there_is_one():
    """The level cut through eight narrow strips has no room for its number within: it stands outside of the sheet."""
    strips = _left_over(6, 0, 6, 12)
    for at in range(11, -1, -1):
        whole = [_laid("shelf/piece:A", at / 2, 0, 0.5, 7), _left_over(at / 2, 7, 0.5, 5)]
        strips = _cut("x", (at + 1) / 2, _cut("y", 7, *whole), strips)
    guide = _guide(("sky", "fits", [strips]))
    dotted = [one for one in read(guide.sheets[0].drawing.svg, "line") if "stroke-dasharray" in one]
    assert dotted
    assert guide.signs == ("A dotted line leads from a cut to its number.",)
    assert _guide(("sky", "fits", [_side_by_side(None, None)])).signs == ()


def test_each_sheet_says_its_print_and_number_and_its_scale():
    """12 in beside a table: 1 to 4 is 76 mm."""
    one = _laid("shelf/piece:A", 0, 0, 12, 12)
    guide = _guide(("sky", "fits", [one, one]))
    assert [sheet.heading for sheet in guide.sheets] == ["Sky print, sheet 1 of 2", "Sky print, sheet 2 of 2"]
    assert guide.sheets[0].drawing.scale.tenths == 40
    assert guide.sheets[0].words == "Sky print, sheet 1 of 2: A."
    assert guide.sheets[0].rows == ()


def test_two_pieces_of_one_letter_are_counted_and_cuts_that_finish_nothing_say_so():
    left = _cut("y", 6, _laid("shelf/piece:A", 0, 0, 4, 6), _laid("shelf/piece:A", 0, 6, 4, 6))
    right = _cut("y", 3, _laid("shelf/piece:B", 4, 0, 8, 3), _left_over(4, 3, 8, 9))
    [sheet] = _guide(("sky", "fits", [_cut("x", 4, left, right)])).sheets
    assert [(row.said, row.keep) for row in sheet.rows] == [
        (
            ("left for\N{NO-BREAK SPACE}3",),
            ("left for\N{NO-BREAK SPACE}3",),
        ),
        (("B, offcut",), ()),
        (("2 × A",), ()),
    ]
    assert sheet.gives == "2 × A, B"


# Strips of 4 of which one is cut at 4 across: settings 4, the same, and after a quarter turn the same again.
TURNED = _cut(
    "x", 4, _laid("shelf/piece:A", 0, 0, 4, 12), _cut("x", 8, _cut("y", 4, _laid("shelf/piece:B", 4, 0, 4, 4),
    _left_over(4, 4, 4, 8)), _left_over(8, 0, 4, 12)),
)  # fmt: skip


def test_a_trimmer_is_told_when_to_turn_and_when_to_leave_the_setting():
    [sheet] = _guide(("sky", "fits", [TURNED])).sheets
    assert [(row.setting, row.is_same, row.turn) for row in sheet.rows] == [
        ("4", False, ""),
        ("4", True, ""),
        ("4", True, "once"),
    ]
    assert sheet.counted == "3 cuts at one setting; no order of these cuts needs fewer."


def test_scissors_are_told_every_line_and_no_turns():
    [sheet] = _guide(("sky", "fits", [TURNED]), options=SheetOptions("letter", "in", "normal", "scissors")).sheets
    assert [(row.setting, row.is_same, row.turn) for row in sheet.rows] == [("4", False, "")] * 3
    assert sheet.counted == "3 cuts."


def test_a_single_cut_is_not_counted():
    [sheet] = _guide(
        ("sky", "fits", [_cut("x", 4, _laid("shelf/piece:A", 0, 0, 4, 12), _left_over(4, 0, 8, 12))])
    ).sheets
    assert sheet.counted == ""


def test_where_no_order_is_proven_the_best_both_ends_are_told():
    assert cuts_counted(Sequence((), 6, 2, 4), trimmer=True) == ""
    [step] = sequence_of(_cut("x", 4, _laid("shelf/piece:A", 0, 0, 4, 12), _left_over(4, 0, 8, 12))).steps
    assert cuts_counted(Sequence((step, step, step), 6, 2, 4), trimmer=True) == (
        "3 cuts at 6 settings; the fewest possible lies between 4 and 6."
    )


# A strip of 1/2 beside what is left over of a sheet of 12, and between two of its kind.
NARROW = [
    pytest.param(
        _cut("x", 0.5, _laid("shelf/piece:A", 0, 0, 0.5, 12), _left_over(0.5, 0, 11.5, 12)),
        ("11 1/2", "right", "hold the wide part"),
        id="the rest is held",
    ),
    pytest.param(
        _cut("x", 0.5, _laid("shelf/piece:A", 0, 0, 0.5, 12), _laid("shelf/piece:B", 0.5, 0, 0.5, 12)),
        ("1/2", "left", "too narrow for the trimmer to hold: with knife and ruler"),
        id="nothing is held",
    ),
]


@pytest.mark.parametrize(("tree", "told"), NARROW)
def test_what_the_trimmer_cannot_hold_is_said_at_the_cut(tree, told):
    trimmers = [
        {"id": name, "kind": "trimmer", "narrowest": narrowest} for name, narrowest in (("one", "1"), ("two", "2"))
    ]
    [sheet] = _guide(("sky", "fits", [tree]), kit=kit_of(SHELF, papers=[SKY, CARD], tools=trimmers)).sheets
    assert [(row.setting, row.edge, row.note) for row in sheet.rows] == [told]


def test_scissors_hold_everything():
    tools = [{"id": "one", "kind": "trimmer", "narrowest": "1"}]
    kit = kit_of(SHELF, papers=[SKY, CARD], tools=tools)
    [sheet] = _guide(
        ("sky", "fits", [NARROW[0].values[0]]), kit=kit, options=SheetOptions("letter", "in", "normal", "scissors")
    ).sheets
    assert [(row.setting, row.edge, row.note) for row in sheet.rows] == [("1/2", "left", "")]


def test_what_a_cut_is_set_to_is_told_in_the_unit_of_the_sheet():
    [sheet] = _guide(("sky", "fits", [_side_by_side(None, None)]), options=SheetOptions("a4", "mm")).sheets
    assert [row.setting for row in sheet.rows] == ["102", "102"]  # 101.6 mm


@pytest.mark.parametrize(("unit", "cuts"), [("mm", ["102"]), ("in", ["4", "4"])])
def test_a_strip_narrower_than_a_printed_step_is_no_cut(unit, cuts):
    """A and B of 4 in beside 1/64 in, 0.4 mm: a sheet in whole millimetres could not say where to cut that off."""
    left = [_laid("shelf/piece:A", 0, 0, 4, 12), _laid("shelf/piece:B", 4, 0, 4, 12), _left_over(8, 0, 1 / 64, 12)]
    tree = _cut("x", 4, left[0], _cut("x", 8, *left[1:]))
    kit = kit_of(SHELF, papers=[SKY, CARD], printed={"in": "1/64", "mm": "1 mm"})
    [sheet] = _guide(("sky", "fits", [tree]), kit=kit, options=SheetOptions("a4", unit)).sheets
    assert [row.setting for row in sheet.rows] == cuts
    assert [row.gives for row in sheet.rows][-1] == {"mm": "A, B", "in": "B, offcut"}[unit]


WINDOW = {"id": "pane", "left": "1", "right": "1", "top": "1", "bottom": "1", "cut_out": "kept"}
TRAY = project("tray", pieces=[piece("M", **{"from": "shelf/A/pane"}, size=["2", "1"])])


def test_a_kept_cut_out_is_named_and_cut_up_after_its_sheet():
    """A is 4 by 3 with a window 2 by 1, from which M of another project comes whole."""
    kit = kit_of(project("shelf", pieces=[piece("A", paper="sky", windows=[WINDOW])]), TRAY, papers=[SKY])
    kept = {"pane": _laid("tray/piece:M", 0, 0, 2, 1)}
    tree = _cut("x", 4, _laid("shelf/piece:A", 0, 0, 4, 12, cut_outs=kept), _left_over(4, 0, 8, 12))
    sheet, cut_out = _guide(("sky", "fits", [tree]), kit=kit).sheets
    assert sheet.keep == ("KEEP what comes out of the window of A: it becomes M of the Tray.",)
    assert (cut_out.heading, cut_out.is_cut_out, cut_out.rows) == ("Out of the window of A", True, ())
    assert (cut_out.whole, cut_out.words) == ("the cut-out", "Out of the window of A: M.")
    assert cut_out.side == "As in the finished piece."


def test_a_curved_cut_out_is_drawn_as_its_largest_rectangle_and_says_so():
    oval = {**WINDOW, "shape": {"kind": "ellipse"}}
    kit = kit_of(project("shelf", pieces=[piece("A", paper="sky", windows=[oval])]), TRAY, papers=[SKY])
    kept = {"pane": _laid("tray/piece:M", 0, 0, 1, 0.5)}
    tree = _laid("shelf/piece:A", 0, 0, 4, 3, cut_outs=kept)
    _, cut_out = _guide(("sky", "fits", [tree]), kit=kit).sheets
    assert cut_out.side == "As in the finished piece; the drawing shows the largest rectangle in it."


def test_a_cut_out_for_the_same_project_is_named_by_its_letter_alone():
    shelf = project("shelf", pieces=[piece("A", paper="sky", windows=[WINDOW]), piece("M", **{"from": "shelf/A/pane"})])
    kept = {"pane": _laid("shelf/piece:M", 0, 0, 2, 1)}
    tree = _laid("shelf/piece:A", 0, 0, 4, 3, cut_outs=kept)
    sheet, _ = _guide(("sky", "fits", [tree]), kit=kit_of(shelf, papers=[SKY])).sheets
    assert sheet.keep == ("KEEP what comes out of the window of A: it becomes M.",)


def test_a_cut_out_of_a_cut_out_follows_it():
    """M comes out of A and has a window itself, out of which comes N."""
    inner = {"id": "hole", "left": "1/4", "right": "1/4", "top": "1/4", "bottom": "1/4", "cut_out": "kept"}
    tray = project(
        "tray",
        pieces=[
            piece("M", **{"from": "shelf/A/pane"}, size=["2", "1"], windows=[inner]),
            piece("N", **{"from": "tray/M/hole"}, size=["1", "1/2"]),
        ],
    )
    kit = kit_of(project("shelf", pieces=[piece("A", paper="sky", windows=[WINDOW])]), tray, papers=[SKY])
    second = {"hole": _laid("tray/piece:N", 0, 0, 1, 0.5)}
    first = {"pane": _laid("tray/piece:M", 0, 0, 2, 1, cut_outs=second)}
    sheets = _guide(("sky", "fits", [_laid("shelf/piece:A", 0, 0, 4, 3, cut_outs=first)]), kit=kit).sheets
    assert [sheet.heading for sheet in sheets] == [
        "Sky print, sheet 1 of 1",
        "Out of the window of A",
        "Out of the window of M",
    ]
    assert sheets[1].keep == ("KEEP what comes out of the window of M: it becomes N.",)


def test_several_pieces_that_show_the_back_are_listed_once_each():
    pieces = [_laid(f"shelf/piece:{name}", 0, 0, 4, 3, side="back") for name in "AAB"]
    front = _laid("shelf/piece:C", 0, 9, 4, 3)
    tree = _cut("y", 3, pieces[0], _cut("y", 6, pieces[1], _cut("y", 9, pieces[2], front)))
    [card] = _guide(("card", "fits", [tree])).sheets
    assert card.side == "Plain up; A and B show the back."


def test_sheets_with_kept_cut_outs_come_first_then_the_order_of_making():
    kit = kit_of(
        project("shelf", pieces=[piece("C", paper="card")]),
        project("tray", pieces=[piece("B", paper="sky"), piece("A", paper="sky", windows=[WINDOW])]),
        papers=[SKY, CARD],
    )
    kept = {"pane": _laid("shelf/piece:C", 0, 0, 2, 1)}
    sky = [_laid("tray/piece:B", 0, 0, 4, 3), _laid("tray/piece:A", 0, 0, 4, 3, cut_outs=kept)]
    papers = (("sky", "fits", sky), ("card", "fits", [_laid("shelf/piece:C", 0, 0, 4, 3)]))
    guide = _guide(*papers, kit=kit, order=["shelf", "tray"])
    assert [sheet.heading for sheet in guide.sheets if not sheet.is_cut_out] == [
        "Sky print, sheet 2 of 2",
        "Card, sheet 1 of 1",
        "Sky print, sheet 1 of 2",
    ]
    assert guide.order == ("Shelf", "Tray")


def test_windows_are_cut_after_the_cuts_of_their_sheet():
    """Of each project its own sentence; a piece with two windows has windows."""
    two = [{**WINDOW, "right": "5/2"}, {**WINDOW, "id": "second", "left": "5/2"}]
    shelf = project("shelf", pieces=[piece("A", paper="sky", windows=[WINDOW]), piece("B", paper="sky")])
    tray = project("tray", pieces=[piece("C", paper="sky", windows=two)])
    tree = _cut(
        "x",
        4,
        _laid("shelf/piece:A", 0, 0, 4, 12),
        _cut("x", 8, _laid("tray/piece:C", 4, 0, 4, 12), _laid("shelf/piece:B", 8, 0, 4, 12)),
    )
    [sheet] = _guide(("sky", "fits", [tree]), kit=kit_of(shelf, tray, papers=[SKY])).sheets
    assert sheet.windows == (
        "Then cut the window of A (sheet of the Shelf).",
        "Then cut the windows of C (sheet of the Tray).",
    )


def test_a_window_that_does_not_lie_inside_its_piece_is_not_to_be_cut():
    """A is 4 by 3: a window from 3 on, 2 wide, reaches over its edge."""
    outside = {"id": "vent", "left": "3", "width": "2", "bottom": "1", "height": "1"}
    shelf = project("shelf", pieces=[piece("A", paper="sky", windows=[WINDOW, outside]), piece("B", paper="sky")])
    tree = _cut("y", 3, _laid("shelf/piece:A", 0, 0, 4, 3), _laid("shelf/piece:B", 0, 3, 4, 3))
    [sheet] = _guide(("sky", "fits", [tree]), kit=kit_of(shelf, papers=[SKY])).sheets
    assert sheet.windows == (
        "Then cut the window of A (sheet of the Shelf).",
        "Leave the window vent of A uncut: it does not lie inside its piece.",
    )


def test_a_piece_that_its_window_does_not_yield_is_named_as_missing():
    kit = kit_of(project("shelf", pieces=[piece("A", paper="sky", windows=[WINDOW])]), TRAY, papers=[SKY])
    lost = {"rule": "cut-out-too-small", "at": ["project:tray/piece:M", "project:shelf/piece:A/window:pane"], "why": {}}
    guide = _guide(("sky", "fits", [_laid("shelf/piece:A", 0, 0, 4, 3)]), kit=kit, findings=[lost])
    assert guide.missing == (("M of the Tray", "does not come out of the window of A"),)
    assert _guide(("sky", "fits", [_laid("shelf/piece:A", 0, 0, 4, 3)]), kit=kit).missing == ()


def test_a_window_for_another_project_comes_before_one_for_its_own_and_that_before_the_box():
    """Tray is made last, but its sheet goes first: Shelf needs what comes out of its window."""
    shelf = project(
        "shelf",
        pieces=[
            piece("A", paper="card"),
            piece("B", paper="card", windows=[WINDOW]),
            piece("C", **{"from": "shelf/B/pane"}),
            piece("D", **{"from": "tray/E/pane"}),
        ],
    )
    tray = project("tray", pieces=[piece("E", paper="sky", windows=[WINDOW])])
    cards = [
        _laid("shelf/piece:A", 0, 0, 4, 3),
        _laid("shelf/piece:B", 0, 0, 4, 3, cut_outs={"pane": _laid("shelf/piece:C", 0, 0, 2, 1)}),
    ]
    sky = _laid("tray/piece:E", 0, 0, 4, 3, cut_outs={"pane": _laid("shelf/piece:D", 0, 0, 2, 1)})
    kit = kit_of(shelf, tray, papers=[CARD, SKY])
    guide = _guide(("card", "fits", cards), ("sky", "fits", [sky]), kit=kit, order=["shelf", "tray"])
    assert [sheet.heading for sheet in guide.sheets if not sheet.is_cut_out] == [
        "Sky print, sheet 1 of 1",
        "Card, sheet 2 of 2",
        "Card, sheet 1 of 2",
    ]


def test_prints_without_a_plan_are_named_with_why():
    guide = _guide(("sky", "short"), ("card", "unknown"))
    assert guide.sheets == ()
    assert guide.missing == (
        ("Sky print", "no cut plan, the paper in the box does not suffice"),
        ("Card", "no proven cut plan yet"),
    )


def test_the_guide_knows_whether_the_timetable_takes_projects_in_turns():
    """While the shelf dries, the tray is made; where the shelf has no step after that, it was made first."""
    shelf, tray = [step("a", work="5 min", dry="1 h")], [step("b", work="5 min")]
    again = step("c", work="5 min")
    kits = [kit_of(project("shelf", steps=steps), project("tray", steps=tray)) for steps in (shelf, [*shelf, again])]
    assert [_guide(kit=kit, order=["shelf", "tray"]).in_turns for kit in kits] == [False, False]
    glued = [
        step("a", cut=["T"], use=[{"form": "T"}], work="5 min", dry="1 h"),
        step("c", use=[{"form": "T"}], work="5 min"),
    ]
    kit = kit_of(project("shelf", forms=[tag("T")], steps=glued), project("tray", steps=tray), papers=[CARD])
    assert _guide(kit=kit, order=["shelf", "tray"]).in_turns


def test_projects_that_wait_for_each_other_in_a_circle_have_no_order():
    assert _guide(("sky", "fits", []), order=None).order == ()


@pytest.mark.parametrize(("cut", "trimmer"), [("trimmer", True), ("scissors", False)])
def test_scissors_have_words_of_their_own(cut, trimmer):
    assert _guide(("sky", "fits"), options=SheetOptions("letter", "in", "normal", cut)).trimmer is trimmer


STRIPS = [(28, False), (29, True)]


@pytest.mark.parametrize(("cuts", "above"), STRIPS)
def test_a_drawing_stands_above_its_table_where_that_is_longer_than_a_page_holds_beside_it(cuts, above):
    strips = _left_over(cuts / 4, 0, 12 - cuts / 4, 12)
    for at in range(cuts - 1, -1, -1):
        strips = _cut("x", (at + 1) / 4, _laid("shelf/piece:A", at / 4, 0, 1 / 4, 12), strips)
    [sheet] = _guide(("sky", "fits", [strips])).sheets
    assert (len(sheet.rows), sheet.is_above) == (cuts, above)


def test_in_large_print_every_drawing_stands_above_its_table():
    kit = kit_of(project("shelf", pieces=[piece("A", paper="sky", windows=[WINDOW])]), TRAY, papers=[SKY])
    kept = {"pane": _cut("x", 1, _laid("tray/piece:M", 0, 0, 1, 1), _left_over(1, 0, 1, 1))}
    tree = _laid("shelf/piece:A", 0, 0, 4, 3, cut_outs=kept)
    large = SheetOptions("letter", "in", "large")
    assert [sheet.is_above for sheet in _guide(("sky", "fits", [tree]), kit=kit, options=large).sheets] == [True, True]
    assert [sheet.is_above for sheet in _guide(("sky", "fits", [tree]), kit=kit).sheets] == [False, False]


def test_in_large_print_words_of_two_lines_leave_a_smaller_drawing():
    """Eight rows, 72 mm, and 40 for the rest leave 136 of 248 mm, 127 where words take two lines; 1 : 2.5 takes 131."""
    wordy = {**SKY, "back": {"name": "Rain on the roof of the summer house by the lake"}}
    sheets = []
    for paper in (SKY, wordy):
        kit = kit_of(SHELF, papers=[paper, CARD])
        strips = _laid("shelf/piece:B", 6, 0, 1, 12, side="back")
        for at in range(5, -1, -1):
            strips = _cut("x", at + 1, _laid("shelf/piece:A", at, 0, 1, 12), strips)
        tree = _cut("x", 7, strips, _left_over(7, 0, 5, 12))
        sheets += _guide(("sky", "fits", [tree]), kit=kit, options=SheetOptions("letter", "in", "large")).sheets
    brief, long = sheets
    assert brief.drawing.scale.tenths < long.drawing.scale.tenths


def test_in_large_print_a_long_table_leaves_a_smaller_drawing_and_a_longer_one_the_whole_page():
    """Of 248 mm, 40 are for words and a row takes 9: below 2 rows, 8 and 11 the drawing has 181, 127 and 100 mm.

    A sheet of 12 in takes 161 at 1 : 2 and 110 at 1 : 3. Less than 110 mm are too few: the table goes on overleaf.
    """
    trees = []
    for cuts in (2, 8, 11):
        strips = _left_over(cuts, 0, 12 - cuts, 12)
        for at in range(cuts - 1, -1, -1):
            strips = _cut("x", at + 1, _laid("shelf/piece:A", at, 0, 1, 12), strips)
        trees.append(strips)
    sheets = _guide(("sky", "fits", trees), options=SheetOptions("letter", "in", "large")).sheets
    assert [(len(one.rows), one.drawing.scale.tenths, one.is_apart) for one in sheets] == [
        (2, 20, False),
        (8, 30, False),
        (11, 20, True),
    ]
    assert not any(one.is_apart for one in _guide(("sky", "fits", trees)).sheets)
