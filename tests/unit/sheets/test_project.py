"""What stands on a project sheet beside its cutting list: order, time, supplies, cautions, waits, what to keep."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kits.sheets.content.cautions import CAUTIONS, cautions_of, words_below
from kits.sheets.content.project import project_sheet
from kits.sheets.content.times import seconds_words, time_words
from kits.sheets.options import SheetOptions
from layouts.assembly import steps_of
from tests.unit.assembly.small_kits import CARD, kit_of, piece, project, step
from tests.unit.sheets.proofs import INCHES, MILLIMETRES, proof_of


def _sheet(kit, number=0, options=INCHES, **order):
    return project_sheet(kit, proof_of(("card", "fits"), **order), kit.projects[number], options)


def _kit(*steps, **more):
    return kit_of(project("shelf", steps=list(steps), **more), project("tray"), papers=[CARD])


def _told(sentences: tuple[str, ...]) -> tuple[str, ...]:
    """With ~ for a blank at which no line may end."""
    return tuple(sentence.replace("\N{NO-BREAK SPACE}", "~") for sentence in sentences)


REASONS = [
    ("cut-out", "project:tray/piece:M", "M of the Tray comes out of a window of it."),
    ("after", "project:tray/step:2", "a step of the Tray comes after a step of it."),
    ("drying", "project:shelf", "while it dries, the Tray can be made."),
]
TURNS = [(0, "Make the Shelf before the Tray:"), (1, "Make the Shelf first:")]


@pytest.mark.parametrize(("reason", "at", "why"), REASONS, ids=[reason for reason, *_ in REASONS])
@pytest.mark.parametrize(("number", "turn"), TURNS, ids=["on its own sheet", "on the sheet of the other"])
def test_which_project_is_first_is_said_with_why_on_both_sheets(number, turn, reason, at, why):
    because = [{"first": "shelf", "then": "tray", "reason": reason, "at": at}] * 2
    assert _sheet(_kit(), number, order=["shelf", "tray"], because=because).first == (f"{turn} {why}",)


def test_a_project_between_two_others_is_not_called_first_beside_another():
    kit = kit_of(project("shelf"), project("tray"), project("board"), papers=[CARD])
    because = [
        {"first": "shelf", "then": "tray", "reason": "cut-out", "at": "project:tray/piece:M"},
        {"first": "tray", "then": "board", "reason": "after", "at": "project:board/step:2"},
    ]
    assert _sheet(kit, 1, order=["shelf", "tray", "board"], because=because).first == (
        "Make the Shelf first: M of the Tray comes out of a window of it.",
        "Make the Tray before the Board: a step of the Board comes after a step of it.",
    )


# A is cut by the second of three steps of the shelf; what comes out of it is cut by the second step of the tray.
PANE = {"id": "pane", "left": "1", "right": "1", "top": "1", "bottom": "1", "cut_out": "kept"}
# The third goes on with what the first has glued.
SHELF_STEPS = [
    step("a", cut=["G"], use=[{"piece": "G"}], work="5 min", dry="1 h"),
    step("b", cut=["A"], work="5 min"),
    step("c", use=[{"piece": "G"}], work="5 min"),
]
IN_TURNS = "“What to make when” in the cut guide takes projects in turns."


def _shelf_and_tray(*tray_steps, **first):
    shelf = project(
        "shelf", pieces=[piece("A", paper="card", windows=[PANE]), piece("G", paper="card")], steps=SHELF_STEPS
    )
    pieces = [piece("M", size=["1", "1"], **{"from": "shelf/A/pane"})]
    return kit_of(shelf, project("tray", pieces=pieces, steps=list(tray_steps)), papers=[CARD])


BECAUSE = {
    "cut-out": {"first": "shelf", "then": "tray", "reason": "cut-out", "at": "project:tray/piece:M"},
    "after": {"first": "shelf", "then": "tray", "reason": "after", "at": "project:tray/step:t"},
    "drying": {"first": "shelf", "then": "tray", "reason": "drying", "at": "project:shelf/step:a"},
}
# Which reason, what step t of the tray says, and what stands on the sheets of the shelf and of the tray.
MUSTS = [
    pytest.param(
        "cut-out",
        {"cut": ["M"]},
        "Do step 2 before step 2 of the Tray: its M comes out of a window of A.",
        "Do step 2 of the Shelf before step 2: M comes out of a window of A.",
        id="a cut-out",
    ),
    pytest.param(
        "after",
        {"after": ["s", "shelf/a", "shelf/b"]},
        "Do steps 1 and 2 before step 2 of the Tray.",
        "Do steps 1 and 2 of the Shelf before step 2.",
        id="a step after some",
    ),
    pytest.param(
        "after",
        {"after": ["shelf/c"]},
        "Finish this before step 2 of the Tray.",
        "Finish the Shelf before step 2.",
        id="a step after all",
    ),
]


@pytest.mark.parametrize(("reason", "members", "on_shelf", "on_tray"), MUSTS)
def test_which_step_waits_for_which_of_another_project_is_said_on_both_sheets(reason, members, on_shelf, on_tray):
    """The tray is begun while the first step of the shelf dries: the timetable takes the two in turns."""
    kit = _shelf_and_tray(step("s", work="5 min"), step("t", **members))
    order = {"order": ["shelf", "tray"], "because": [BECAUSE[reason], BECAUSE["drying"]]}
    assert [_sheet(kit, number, **order).first for number in (0, 1)] == [(on_shelf, IN_TURNS), (on_tray, IN_TURNS)]


def test_one_project_after_the_other_is_said_where_the_timetable_does_the_same():
    kit = kit_of(project("shelf", steps=[step("a", work="5 min", dry="1 h")]), project("tray", steps=[step("b")]))
    order = {"order": ["shelf", "tray"], "because": [BECAUSE["drying"]]}
    assert _sheet(kit, **order).first == ("Make the Shelf before the Tray: while it dries, the Tray can be made.",)


def test_a_reader_is_not_told_of_hundreds_of_steps_that_wait():
    steps = [step(f"t{n}", after=["shelf/a"], work="1 min") for n in range(300)]
    because = [BECAUSE["after"] | {"at": f"project:tray/step:t{n}"} for n in range(300)]
    assert _sheet(_shelf_and_tray(*steps), 1, order=["shelf", "tray"], because=because).first == (
        "Many steps of the Tray wait for steps of the Shelf: keep to “What to make when”.",
        IN_TURNS,
    )
    untimed = kit_of(
        project("shelf", steps=[step("a"), step("b")]),
        project("tray", steps=[step(f"t{n}", after=["shelf/a"]) for n in range(300)]),
    )
    assert _sheet(untimed, 1, order=["shelf", "tray"], because=because).first == (
        "Make the Shelf first: a step of the Tray comes after a step of it.",
    )


def test_a_circle_of_projects_is_said():
    assert _sheet(_kit(), order=None).first == (
        "The projects of this kit wait for each other in a circle: ask before you begin.",
    )


TIMES = [
    (
        [step("a", work="50 min"), step("b", work="25 min", dry="40 min")],
        "1 h 15 min at work, 40 min of drying and waiting.",
    ),
    ([step("a", work="40 s")], "40 s at work."),
    ([step("a", work="40 s", hold="30 s")], "2 min at work."),
    ([step("a", work="2 h")], "2 h at work."),
    ([step("a"), step("b", dry="1 h")], "Time at work not stated, 1 h of drying and waiting."),
    ([], ""),
]


@pytest.mark.parametrize(("steps", "words"), TIMES, ids=[words or "no steps" for _, words in TIMES])
def test_time_is_told_in_words(steps, words):
    kit = _kit(*steps)
    assert time_words(steps_of(kit).by_project["shelf"]) == words


def test_minutes_are_rounded_up():
    assert [seconds_words(seconds) for seconds in (59, 60, 61, 3600, 3601)] == [
        "59 s",
        "1 min",
        "2 min",
        "1 h",
        "1 h 1 min",
    ]


def test_supplies_are_counted_for_all_copies_in_the_order_of_the_box():
    steps = [
        step("a", use=[{"supply": "lamp"}, {"blank": "feet", "count": 4}, {"element": "labels/oval"}]),
        step("b", use=[{"element": "labels/oval", "count": 2}, {"supply": "twine", "length": "16"}]),
        step("c", use=[{"supply": "twine", "length": "4 1/2", "count": 2}]),
    ]
    kit = kit_of(
        project("shelf", steps=steps, makes=2),
        papers=[CARD],
        blanks=[{"id": "feet", "name": "bun feet"}],
        embellishments=[
            {"id": "labels", "name": "Label sheet", "elements": [{"id": "oval", "name": "oval", "count": 9}]}
        ],
        supplies=[
            {"id": "twine", "name": "twine", "kind": "ribbon"},
            {"id": "lamp", "name": "lamp", "kind": "light", "from": "member"},
        ],
    )
    assert _told(_sheet(kit).supplies) == (
        "8 × bun feet",
        "6 × oval (Label sheet)",
        "twine, 2 lengths of 16~in and 4 lengths of 4 1/2~in",
        "2 × lamp (your own)",
    )
    assert _told(_sheet(kit, options=MILLIMETRES).supplies)[2] == "twine, 2 lengths of 406~mm and 4 lengths of 114~mm"


def test_tools_are_those_the_steps_use_by_name_or_kind():
    kit = kit_of(
        project("shelf", steps=[step("a", tools=["glue", "knife"])]),
        papers=[CARD],
        tools=[
            {"id": "knife", "kind": "knife", "name": "craft knife"},
            {"id": "glue", "kind": "wet-glue"},
            {"id": "x", "kind": "heat"},
        ],
    )
    assert _sheet(kit).tools == ("craft knife", "wet glue")


IN_PLACE = "ruler and pencil in place of the paper trimmer"
SCISSORS = [
    pytest.param([], [], [f"scissors, {IN_PLACE}"], id="none of its own"),
    pytest.param([{"id": "s", "kind": "scissors"}], [], [f"scissors, {IN_PLACE}"], id="scissors"),
    pytest.param(
        [{"id": "s", "kind": "scissors", "name": "small scissors"}],
        ["small scissors"],
        [f"long scissors, {IN_PLACE}", "small scissors"],
        id="other scissors",
    ),
]


@pytest.mark.parametrize(("more", "others", "told"), SCISSORS)
def test_who_cuts_with_scissors_has_other_tools_than_a_trimmer_and_hears_of_scissors_once(more, others, told):
    tools = [{"id": "trimmer", "kind": "trimmer", "name": "paper trimmer"}, *more, {"id": "knife", "kind": "knife"}]
    steps = [step("a", tools=[tool["id"] for tool in tools])]
    kit = kit_of(project("shelf", steps=steps), papers=[CARD], tools=tools)
    assert _sheet(kit).tools == ("paper trimmer", *(others or [one["kind"] for one in more]), "knife")
    assert _sheet(kit, options=SheetOptions("letter", "in", "normal", "scissors")).tools == (*told, "knife")


WAITS = [
    ({"hold": "60 s"}, "Hold for 60 seconds.", ""),
    ({"hold": "1 h", "held": "clamped"}, "Leave clamped for 1 hour.", ""),
    ({"dry": "30 min"}, "", "Leave to dry for 30 minutes."),
]


@pytest.mark.parametrize(("members", "hold", "wait"), WAITS, ids=[hold or wait for _, hold, wait in WAITS])
def test_holding_and_drying_stand_apart_from_the_text(members, hold, wait):
    [printed] = _sheet(_kit(step("a", "Glue it.", **members))).steps
    assert (printed.hold, printed.wait) == (hold, wait)


def test_what_can_be_done_while_something_dries_follows_what_is_left_to_dry():
    glued = step("a", cut=["A"], use=[{"piece": "A"}], dry="30 min")
    kit = _kit(glued, step("b", use=[{"piece": "A"}]), step("c", after=[]), pieces=[piece("A", paper="card")])
    first, *_ = _sheet(kit).steps
    assert first.wait == "Leave to dry for 30 minutes. While this dries, you can do step 3."


def test_cautions_stand_at_the_top_once_the_gravest_first_and_before_their_steps():
    kit = _kit(step("a", cautions=["blade"]), step("b", cautions=["heat", "cell", "blade"]))
    sheet = _sheet(kit)
    assert [(one.signal, one.name) for one in sheet.cautions] == [
        ("WARNING", "cell"),
        ("CAUTION", "blade"),
        ("CAUTION", "heat"),
    ]
    assert [[one.name for one in printed.cautions] for printed in sheet.steps] == [["blade"], ["cell", "blade", "heat"]]


def test_a_caution_that_the_document_forgot_is_printed_all_the_same():
    kit = _kit(step("a", cautions=["heat"]), step("b"))
    findings = [
        {"rule": "caution-needed", "at": [f"project:shelf/step:{at}"], "why": {"caution": caution}}
        for at, caution in (("a", "blade"), ("b", "flame"), ("b", "cell"))
    ]
    sheet = _sheet(kit, findings=[*findings, {"rule": "never-used", "at": ["project:shelf/step:a"], "why": {}}])
    assert [one.name for one in sheet.cautions] == ["cell", "flame", "blade", "heat"]
    assert [[one.name for one in printed.cautions] for printed in sheet.steps] == [["blade", "heat"], ["cell", "flame"]]


def test_every_caution_has_a_source_and_a_signal_word_that_warns_of_injury():
    """ANSI Z535.4: NOTICE is for property alone."""
    assert {one.signal for one in CAUTIONS.values()} <= {"DANGER", "WARNING", "CAUTION"}
    assert all(one.source and one.text.endswith(".") for one in CAUTIONS.values())


def test_cautions_that_nobody_approved_are_called_a_draft():
    blade = cautions_of(["blade"])
    defers, draft = words_below(blade)
    assert "local rules come first" in defers
    assert "draft" in draft
    assert words_below([replace(one, approved_by="A. Name") for one in blade]) == (defers,)


def test_windows_and_outlines_are_drawn_and_what_they_give_is_named():
    window = {"id": "pane", "left": "1", "right": "1", "top": "1", "bottom": "1", "cut_out": "kept"}
    kit = kit_of(
        project("shelf", pieces=[piece("A", paper="card", windows=[window]), piece("B", paper="card")]),
        project("tray", pieces=[piece("M", size=["1", "1"], **{"from": "shelf/A/pane"})]),
        papers=[CARD],
    )
    [drawn] = _sheet(kit).drawings
    assert (drawn.letter, drawn.kept) == ("A", ("M of the Tray",))
    assert [(one.out_of, one.becomes) for one in _sheet(kit).keep] == [("A", "M of the Tray")]


@pytest.mark.parametrize("rule", ["cut-out-too-small", "cut-out-overdrawn"])
def test_nothing_is_kept_for_a_piece_that_its_window_does_not_yield(rule):
    """Neither the host nor the guest, nor the order of the two, says that it comes out."""
    kit = _shelf_and_tray(step("s", work="5 min"), step("t", cut=["M"]))
    lost = [{"rule": rule, "at": ["project:tray/piece:M"], "why": {}}]
    order = {"order": ["shelf", "tray"], "because": [BECAUSE["cut-out"]], "findings": lost}
    shelf, tray = (_sheet(kit, number, **order) for number in (0, 1))
    assert (shelf.keep, shelf.drawings[0].kept) == ((), ())
    assert (shelf.first, tray.first) == ((IN_TURNS,), (IN_TURNS,))
    assert [(group.name, bool(group.warning)) for group in tray.prints] == [("From a paper not chosen yet", True)]
    assert tray.prints[0].rows[0].notes == ("does not come out of the window of A of the Shelf",)


def test_a_window_that_cannot_be_cut_is_not_in_the_cutting_list():
    outside = {"id": "vent", "left": "3", "width": "2", "bottom": "1", "height": "1"}
    for windows, notes in (([PANE], ("window",)), ([PANE, outside], ("window",)), ([outside], ())):
        kit = kit_of(project("shelf", pieces=[piece("A", paper="card", windows=windows)]), papers=[CARD])
        assert _sheet(kit).prints[0].rows[0].notes == notes


def test_a_piece_for_the_same_project_is_named_by_its_letter_alone():
    window = {"id": "pane", "left": "1", "right": "1", "top": "1", "bottom": "1", "cut_out": "kept"}
    pieces = [piece("A", paper="card", windows=[window]), piece("M", size=["1", "1"], **{"from": "shelf/A/pane"})]
    sheet = _sheet(kit_of(project("shelf", pieces=pieces), papers=[CARD]))
    assert [(one.out_of, one.becomes) for one in sheet.keep] == [("A", "M")]


def test_a_window_that_is_not_drawn_is_told_beside_the_drawing():
    outside = {"id": "vent", "left": "3", "width": "2", "bottom": "1", "height": "1"}
    sheet = _sheet(kit_of(project("shelf", pieces=[piece("A", paper="card", windows=[outside])]), papers=[CARD]))
    assert sheet.drawings[0].beside == ("Its window vent does not lie inside the piece and is not drawn.",)


@pytest.mark.parametrize(("options", "words"), [(INCHES, "4 by 3 in"), (MILLIMETRES, "102 by 76 mm")])
def test_drawings_are_figured_in_the_unit_of_the_sheet(options, words):
    kit = kit_of(project("shelf", pieces=[piece("A", paper="card", shape={"kind": "ellipse"})]), papers=[CARD])
    assert _sheet(kit, options=options).drawings[0].words == f"A, panel A, {words}, an oval."


def test_a_project_that_is_made_several_times_says_how_often():
    assert [_sheet(_kit(makes=3), number).makes for number in (0, 1)] == [3, 1]


def test_a_finished_size_in_a_drawing_says_that_it_is_one():
    wave = {"id": "wave", "kind": "decorative", "bite": "1/8"}
    edged = piece("A", paper="card", size_is="finished", edges={"top": "wave"}, shape={"kind": "ellipse"})
    kit = kit_of(project("shelf", pieces=[edged]), papers=[CARD], tools=[wave])
    assert _sheet(kit).drawings[0].beside[-1] == "Measured on the finished piece, after its edges are made."


def test_a_kit_of_nothing_has_a_sheet_of_nothing():
    sheet = _sheet(_kit())
    lists = (sheet.cautions, sheet.supplies, sheet.tools, sheet.prints, sheet.drawings, sheet.steps, sheet.keep)
    assert (*lists, sheet.forms, sheet.layers, sheet.faces, sheet.all_drawings) == ((),) * 11


def test_the_key_to_folded_parts_stands_on_sheets_that_have_some():
    tag = {"id": "T", "name": "tag", "as": "tag", "paper": "card", "size": ["2", "3"]}
    kit = kit_of(project("shelf", forms=[tag]), project("tray"), papers=[CARD])
    assert [_sheet(kit, number).flat_key is None for number in (0, 1)] == [False, True]
    assert len(_sheet(kit).all_drawings) == 2
