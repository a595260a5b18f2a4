"""The answer for one print: verdict, bounds and the plan as nodes, worked by hand to the tick.

1 mm is 320 ticks. With a slack s the parts of a cut leave s between them; a rest of at most s is lost with its cut.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from layouts.cutting import Answer, Problem
from layouts.proofing.plans import plan_print
from tests.unit.proofing.small_prints import (
    MM,
    ONE_WAY,
    answer_of,
    decided,
    kit_of,
    laid,
    leaves,
    paper,
    part_of,
    piece,
    project,
    window,
)

TAG = {"id": "t", "name": "tag", "as": "tag", "paper": "oak", "size": ["30", "20"]}


def _area(node: dict[str, Any]) -> tuple[int, int, int, int]:
    return node["x"], node["y"], node["width"], node["height"]


def _cut(node: dict[str, Any]) -> tuple[str, int]:
    return node["cut"]["along"], node["cut"]["at"]


def test_margins_slack_and_undersize_to_the_tick():
    # 100 x 80 mm less 1 mm undersize: 31680 x 25280 ticks; slack 2 mm: 640.
    spoilt = {"left": "10", "right": "5", "top": "1", "bottom": "1"}
    oak = paper(undersize="1", spoilt=spoilt)
    (sheet,) = answer_of(kit_of(project(piece("A", "30", "20")), papers=[oak], cutting={"slack": "2"})).plan
    tree = sheet["tree"]

    assert (sheet["sheet"], _area(tree)) == (1, (0, 0, 31680, 25280))

    # Left: usable from 10 mm on, so the cut is made 2 mm before it.
    assert _cut(tree) == ("x", 3200 - 640)
    lost, rest = tree["parts"]
    assert lost == {"x": 0, "y": 0, "width": 2560, "height": 25280, "offcut": True}
    assert _area(rest) == (3200, 0, 28480, 25280)

    # Right: usable up to 31680 - 1600; beyond the slack, 3 mm of the margin are left.
    assert _cut(rest) == ("x", 30080)
    rest, lost = rest["parts"]
    assert lost == {"x": 30720, "y": 0, "width": 960, "height": 25280, "offcut": True}
    assert _area(rest) == (3200, 0, 26880, 25280)

    # Bottom: the margin of 1 mm is narrower than the slack, and what is cut off must be a tick wide: 1 + 640.
    assert _cut(rest) == ("y", 1)
    lost, rest = rest["parts"]
    assert lost == {"x": 3200, "y": 0, "width": 26880, "height": 1, "offcut": True}
    assert _area(rest) == (3200, 641, 26880, 24639)

    # Top: what is beyond the cut is 1 mm, no more than the slack, and lost with it: one part.
    assert _cut(rest) == ("y", 25280 - 320)
    (rest,) = rest["parts"]
    assert _area(rest) == (3200, 641, 26880, 24319)

    a = laid(answer_of(kit_of(project(piece("A", "30", "20")), papers=[oak], cutting={"slack": "2"})))["A", 1]
    assert a == {
        "x": 3200,
        "y": 641,
        "width": 30 * MM,
        "height": 20 * MM,
        "piece": "project:p/piece:A",
        "copy": 1,
        "turn": 0,
    }


@pytest.mark.parametrize(
    ("side", "cut", "parts"),
    [
        # The sheet is 100 x 80; a margin of 10 mm is cut off whole where nothing is lost.
        pytest.param("left", ("x", 3200), [(0, 0, 3200, 25600), (3200, 0, 28800, 25600)], id="left"),
        pytest.param("right", ("x", 28800), [(0, 0, 28800, 25600), (28800, 0, 3200, 25600)], id="right"),
        pytest.param("bottom", ("y", 3200), [(0, 0, 32000, 3200), (0, 3200, 32000, 22400)], id="bottom"),
        pytest.param("top", ("y", 22400), [(0, 0, 32000, 22400), (0, 22400, 32000, 3200)], id="top"),
    ],
)
def test_a_spoilt_margin_is_cut_off_first(side, cut, parts):
    kit = kit_of(project(piece("A", "30", "20")), papers=[paper(spoilt={side: "10"})])

    tree = answer_of(kit).plan[0]["tree"]

    assert (_cut(tree), [_area(part) for part in tree["parts"]]) == (cut, parts)


@pytest.mark.parametrize(
    ("margin", "rest"),
    [
        pytest.param("2", None, id="as wide as the slack: lost with the cut"),
        pytest.param("2.1", 32, id="a tenth of a millimetre wider: 32 ticks are left"),
    ],
)
def test_a_margin_on_the_far_side_is_lost_with_its_cut_if_no_wider_than_the_slack(margin, rest):
    kit = kit_of(project(piece("A", "30", "20")), papers=[paper(spoilt={"right": margin})], cutting={"slack": "2"})

    _, *beyond = answer_of(kit).plan[0]["tree"]["parts"]

    assert [part["width"] for part in beyond] == ([] if rest is None else [rest])


def test_a_sheet_without_margins_is_cut_at_once():
    (sheet,) = answer_of(kit_of(project(piece("A", "100", "80")))).plan

    assert _area(sheet["tree"]) == (0, 0, 32000, 25600)
    assert sheet["tree"]["piece"] == "project:p/piece:A"


@pytest.mark.parametrize(
    ("side", "reads", "size", "expected"),
    [
        # Front reads up, back reads left (90); a piece lies turned by T = reads of the side - print_reads.
        pytest.param("front", "up", ("40", "20"), (40, 20, 0, None), id="front, upright"),
        pytest.param("front", "left", ("40", "20"), (20, 40, 270, None), id="front, 0 - 90"),
        pytest.param("front", "right", ("40", "20"), (20, 40, 90, None), id="front, 0 - 270"),
        pytest.param("front", "down", ("40", "20"), (40, 20, 180, None), id="front, 0 - 180"),
        # Measured on the back, which is the side it shows; through the front its place is the same either way round.
        pytest.param("back", "up", ("40", "20"), (20, 40, 90, "back"), id="back, 90 - 0"),
        pytest.param("back", "left", ("40", "20"), (40, 20, 0, "back"), id="back, 90 - 90"),
        pytest.param("back", "down", ("40", "20"), (20, 40, 270, "back"), id="back, 90 - 180"),
        pytest.param("either", "up", ("40", "20"), (40, 20, 0, None), id="either, on the front"),
        # 90 wide fits only upright, which is right on the front; 70 x 90 fits only turned, which is right on the back.
        pytest.param("either", "up", ("90", "70"), (90, 70, 0, None), id="either, the front fits"),
        pytest.param("either", "up", ("70", "90"), (90, 70, 90, "back"), id="either, only the back fits"),
    ],
)
def test_a_piece_lies_so_that_its_print_reads_as_asked(side, reads, size, expected):
    back = {"name": "B", "reads": "left", "repeat": "one-way"}
    kit = kit_of(project(piece("A", *size, side=side, print_reads=reads)), papers=[paper(front=ONE_WAY, back=back)])

    a = laid(answer_of(kit))["A", 1]

    assert (a["width"] // MM, a["height"] // MM, a["turn"], a.get("side")) == expected


@pytest.mark.parametrize(
    ("front", "back", "reads", "turn"),
    [
        # A turn of T on the front is -T on the back once the leaf is turned like a page: both must be right.
        pytest.param("up", "up", "up", 0, id="both read up"),
        pytest.param("left", "right", "up", 90, id="90 on the front is -90 = 270 on the back, right"),
        pytest.param("left", "left", "up", None, id="90 on the front is 270 on the back, and 90 is asked"),
        pytest.param("up", "up", "left", None, id="270 on the front is 90 on the back, and 270 is asked"),
    ],
)
def test_a_piece_that_shows_both_sides_reads_right_on_both(front, back, reads, turn):
    sides: dict[str, Any] = {
        "front": {"name": "F", "reads": front, "repeat": "one-way"},
        "back": {"name": "B", "reads": back, "repeat": "one-way"},
    }
    answer = answer_of(kit_of(project(piece("A", "40", "20", side="both", print_reads=reads)), papers=[paper(**sides)]))

    if turn is None:
        assert [problem for _, problem in answer.impossible] == ["turn"]
    else:
        assert laid(answer)["A", 1]["turn"] == turn


@pytest.mark.parametrize(
    ("host_side", "host_reads", "side", "expected"),
    [
        # Front and back read up, one-way. A host that reads left lies at 0 - 90 = 270 on the side it shows; what comes
        # out of it reads up and lies at 0 on the sheet.
        pytest.param("front", "left", "front", (270, 90), id="same side: 270 + 90 = 0"),
        pytest.param("back", "left", "back", (270, 90), id="both on the back"),
        # Seen from the other side the host's up points to -270 = 90, and 90 + 270 = 0.
        pytest.param("back", "left", "front", (270, 270), id="the front out of a host that shows its back"),
        pytest.param("front", "left", "back", (270, 270), id="the back out of a host that shows its front"),
        pytest.param("front", "down", "back", (180, 180), id="half a turn is half a turn on either side"),
    ],
)
def test_a_piece_in_a_cut_out_is_turned_against_its_host(host_side, host_reads, side, expected):
    host = piece("H", "60", "50", side=host_side, print_reads=host_reads, windows=[window("w", "30", "30")])
    guest = piece("G", "20", "20", side=side, **{"from": "p/H/w"})
    kit = kit_of(project(host, guest), papers=[paper(front=ONE_WAY, back={**ONE_WAY, "name": "B"})])

    pieces = laid(answer_of(kit))

    assert (pieces["H", 1]["turn"], pieces["G", 1]["turn"]) == expected
    assert [pieces[letter, 1].get("side", "front") for letter in "HG"] == [host_side, side]


def test_a_cut_out_is_a_tree_in_its_own_coordinates():
    host = piece("H", "60", "50", windows=[window("w", "40", "20", left="9", bottom="9")])
    answer = answer_of(kit_of(project(host, piece("G", "40", "12", **{"from": "p/H/w"})), cutting={"slack": "1"}))

    tree = laid(answer)["H", 1]["cut_outs"]["w"]

    assert _area(tree) == (0, 0, 40 * MM, 20 * MM)
    assert _cut(tree) == ("y", 12 * MM)
    assert [_area(part) for part in tree["parts"]] == [(0, 0, 12800, 3840), (0, 13 * MM, 12800, 7 * MM)]
    assert tree["parts"][0]["piece"] == "project:p/piece:G"


def test_copies_are_numbered_once_each_over_sheets_and_cut_outs():
    host = piece("H", "60", "50", count=2, windows=[window("w", "40", "20")])
    guest = piece("G", "20", "20", count=3, **{"from": "p/H/w"})
    tag = {**TAG, "count": 2}

    answer = answer_of(kit_of(project(host, guest, forms=[tag], makes=2), papers=[paper(sheets=5)]))

    assert answer.verdict == "fits"
    assert set(laid(answer)) == {
        *(("H", n) for n in range(1, 5)),
        *(("G", n) for n in range(1, 7)),
        *(("t", n) for n in range(1, 5)),
    }


def test_a_host_whose_cut_outs_are_all_used_elsewhere_carries_none():
    host = piece("H", "60", "50", count=2, windows=[window("w", "40", "20")])
    guest = piece("G", "20", "20", count=2, **{"from": "p/H/w"})

    hosts = [
        leaf
        for leaf in leaves(answer_of(kit_of(project(host, guest), papers=[paper(sheets=2)])))
        if "H" in leaf.get("piece", "")
    ]

    assert ["cut_outs" in leaf for leaf in hosts] == [True, False]


@pytest.mark.parametrize(
    ("pieces", "sheets", "expected"),
    [
        # verdict, reason, at least, at most, sheets in the plan
        pytest.param([], 2, ("fits", "plan", 0, 0, 0), id="nothing is cut"),
        pytest.param([], 0, ("fits", "plan", 0, 0, 0), id="nothing is cut, and there is nothing"),
        pytest.param([piece("A", "100", "80")], 2, ("fits", "plan", 1, 1, 1), id="one sheet of two"),
        pytest.param([piece("A", "100", "80", count=2)], 2, ("fits", "plan", 2, 2, 2), id="just enough"),
        pytest.param([piece("A", "100", "80", count=3)], 2, ("short", "area", 3, 3, 0), id="too much area"),
        pytest.param([piece("A", "60", "80", count=3)], 2, ("short", "bound", 3, 3, 0), id="no two on a sheet"),
        pytest.param([piece("A", "30", "20")], 0, ("short", "area", 1, 1, 0), id="no sheet at all"),
        pytest.param([piece("A", "101", "20")], 2, ("short", "bound", 3, None, 0), id="too big: one more, and null"),
        pytest.param([piece("A", "101", "20")], 0, ("short", "bound", 1, None, 0), id="too big for no sheet"),
        pytest.param([piece("A", "90", "90")], 2, ("short", "bound", 3, None, 0), id="too big whichever way"),
        pytest.param([piece("A", "70", "90")], 2, ("fits", "plan", 1, 1, 1), id="turned"),
    ],
)
def test_verdict_and_how_many_sheets_are_needed(pieces, sheets, expected):
    answer = answer_of(kit_of(project(*pieces), papers=[paper(sheets=sheets)]))

    assert (answer.verdict, answer.reason, answer.at_least, answer.at_most, len(answer.plan)) == expected


@pytest.mark.parametrize(
    ("piece_", "problem"),
    [
        pytest.param(piece("A", "70", "90"), "turn", id="fits only turned, and reads up"),
        pytest.param(piece("A", "70", "90", print_reads="left"), None, id="fits only turned, and reads left"),
        pytest.param(piece("A", "70", "80"), None, id="fits upright"),
        pytest.param(piece("A", "70", "101"), "too-big", id="fits in no turn"),
        pytest.param(piece("A", "20", "20", side="back"), "turn", id="the back is not there"),
    ],
)
def test_what_no_sheet_can_yield(piece_, problem):
    answer = answer_of(kit_of(project(piece_), papers=[paper(front=ONE_WAY)]))

    assert [reason for _, reason in answer.impossible] == ([] if problem is None else [problem])
    assert (answer.verdict, answer.at_least, answer.at_most) == (
        ("fits", 1, 1) if problem is None else ("short", 2, None)
    )


def _lid(**more: Any) -> dict[str, Any]:
    """A lid over a box of no stated size: nothing about it can be worked out."""
    return {"id": "l", "name": "lid", "as": "lid", "paper": "oak", "fits": {"blank": "box"}, "depth": "10", **more}


BOX = {"id": "box", "name": "box", "faces": []}


@pytest.mark.parametrize(
    ("pieces", "expected"),
    [
        pytest.param([], ("unknown", "not-built", 0, None), id="nothing else is cut"),
        pytest.param([piece("A", "100", "80")], ("unknown", "not-built", 1, None), id="the rest fits"),
        pytest.param([piece("A", "100", "80", count=2)], ("short", "area", 2, None), id="the rest is short already"),
        pytest.param([piece("A", "101", "80")], ("short", "bound", 2, None), id="the rest is too big"),
    ],
)
def test_what_cannot_be_worked_out_leaves_a_print_unknown_unless_the_rest_is_short(pieces, expected):
    answer = answer_of(kit_of(project(*pieces, forms=[_lid()]), blanks=[BOX]))

    assert (answer.verdict, answer.reason, answer.at_least, answer.at_most) == expected
    assert answer.plan == ()


def test_an_undecided_print_shows_the_best_plan_there_is():
    part = part_of(kit_of(project(piece("A", "50", "80", count=4)), papers=[paper(sheets=1)]))

    def undecided(problem):
        two_sheets = decided(problem.__class__(problem.width, problem.height, 2, problem.items, problem.slack))
        return Answer("unknown", "budget", 1, 2, two_sheets.sheets)

    answer = plan_print(part, undecided)

    assert (answer.verdict, answer.reason, answer.at_least, answer.at_most) == ("unknown", "budget", 1, 2)
    assert len(answer.plan) == 2
    assert set(laid(answer)) == {("A", n) for n in range(1, 5)}


def _turned(problem: Problem, answer: Answer) -> Answer:
    """A plan for the same pieces, all of them lying sideways."""
    items = tuple(replace(item, upright=False, sideways=True) for item in problem.items)
    return replace(decided(replace(problem, items=items)), at_least=answer.at_least)


def test_a_plan_that_leaves_more_is_shown():
    part = part_of(kit_of(project(piece("A", "60", "40")), papers=[paper()]))

    answer = plan_print(part, decided, gather=_turned)

    assert laid(answer)["A", 1]["turn"] == 90


def test_the_first_plan_stands_where_a_better_one_would_lose_what_comes_out_of_a_window():
    # The picture reads up and lies along its host, so the host must lie upright, though it may lie sideways by itself.
    host = piece("H", "60", "40", print_reads="any", windows=[window("w", "30", "20")])
    guest = piece("A", "30", "20", print_reads="up", **{"from": "p/H/w"})
    part = part_of(kit_of(project(host, guest), papers=[paper("oak", "100", "100", front=ONE_WAY)]))

    answer = plan_print(part, decided, gather=_turned)

    assert (answer.verdict, answer.refused) == ("fits", ())
    assert {place: node["turn"] for place, node in laid(answer).items()} == {("H", 1): 0, ("A", 1): 0}


def test_hosts_stay_as_their_windows_need_them_when_plans_are_made_better():
    host = piece("H", "60", "40", print_reads="any", windows=[window("w", "30", "20")])
    guest = piece("A", "30", "20", print_reads="up", **{"from": "p/H/w"})
    part = part_of(kit_of(project(host, guest), papers=[paper("oak", "100", "100", front=ONE_WAY)]))
    asked: list[Problem] = []

    def noting(problem: Problem, answer: Answer) -> Answer:
        asked.append(problem)
        return answer

    plan_print(part, decided, gather=noting)

    assert [(item.upright, item.sideways) for item in asked[0].items] == [(True, False)]


def test_a_list_that_is_too_long_for_any_search_is_undecided_for_want_of_budget():
    # 10,001 copies of 1 x 1 mm: an eighth of the area of 10 sheets, and more than anybody plans.
    kit = kit_of(project(piece("A", "1", "1", count=10_000), piece("B", "1", "1")), papers=[paper(sheets=10)])

    answer = answer_of(kit)

    assert (answer.verdict, answer.reason, answer.at_least, answer.at_most) == ("unknown", "budget", 2, None)


@pytest.mark.parametrize(
    ("pieces", "slack", "more", "dead"),
    [
        # Two halves of 50 mm fill 100 mm; 49.5 and 1 mm of slack fill it as well. The printed step is 1 mm.
        pytest.param([piece("A", "50", "80", count=2)], "0", {}, True, id="not a tick to spare"),
        pytest.param([piece("A", "49.5", "80", count=2)], "0", {}, False, id="one cut of 1 mm to spare"),
        pytest.param([piece("A", "49.6", "80", count=2)], "0", {}, True, id="0.8 mm to spare"),
        pytest.param([piece("A", "49.5", "80", count=2)], "1", {}, True, id="the slack is spent"),
        pytest.param([piece("A", "49", "80", count=2)], "1", {}, False, id="and one step more is there"),
        pytest.param([piece("A", "49.5", "80", count=2)], "0", {"printed": {"mm": "2"}}, True, id="a step of 2 mm"),
        # No cut, no loss.
        pytest.param([piece("A", "100", "80")], "0", {}, False, id="the whole sheet"),
        # With a slack of 1 mm the cut along a margin of 0.5 mm leaves what begins 1 mm and a tick from the edge.
        pytest.param(
            [piece("A", "99.5", "80")], "0", {"papers": [paper(spoilt={"left": "0.5"})]}, True, id="beside a margin"
        ),
    ],
)
def test_a_dead_fit_is_short_once_every_cut_loses_a_step_more(pieces, slack, more, dead):
    answer = answer_of(kit_of(project(*pieces), cutting={"slack": slack}, **more))

    assert (answer.verdict, answer.dead_fit) == ("fits", dead)
