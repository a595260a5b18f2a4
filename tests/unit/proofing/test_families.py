"""What comes out of cut-outs: single pieces, several together, one inside the other, and how the host must lie.

Worked by hand. A print that reads up and is one-way lets a piece that reads up lie upright (turn 0) and one that reads
left lie sideways (0 - 90 = 270); a host that reads any way may lie either way.
"""

from __future__ import annotations

import pytest

from layouts.cutting import Answer
from layouts.proofing.families import MOST_NESTED, CutOutAnswer, Family
from layouts.proofing.plans import plan_print
from tests.unit.proofing.small_prints import (
    ONE_WAY,
    Tree,
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


def _guest(id_: str, width: str, height: str, source: str = "p/H/w", **more) -> Tree:
    return piece(id_, width, height, **{"from": source}, **more)


def _host(*windows: Tree, **more) -> Tree:
    return piece("H", "60", "50", windows=list(windows or (window("w", "40", "20"),)), **more)


def _refused(*pieces: Tree, **more) -> list[tuple[str, str, tuple[str, ...]]]:
    """State, window and letters of what cut-outs do not yield."""
    refused = answer_of(kit_of(project(*pieces), **more)).refused
    letters = [tuple(place.rpartition(":")[2] for place in one.pieces) for one in refused]
    return [
        (one.state, f"{one.host.rpartition(':')[2]}/{one.window.id}", names)
        for one, names in zip(refused, letters, strict=True)
    ]


@pytest.mark.parametrize(
    ("guests", "refused"),
    [
        pytest.param([_guest("A", "40", "20")], [], id="exactly as large as the cut-out"),
        pytest.param([_guest("A", "20", "40")], [], id="turned, since this print allows it"),
        pytest.param([_guest("A", "40.1", "20")], [("too-small", "H/w", ("A",))], id="a tenth too wide"),
        pytest.param([_guest("A", "40", "20.1")], [("too-small", "H/w", ("A",))], id="a tenth too high"),
        pytest.param([_guest("A", "20", "20", count=2)], [], id="two halves"),
        pytest.param([_guest("A", "20", "20", count=3)], [("overdrawn", "H/w", ("A",))], id="three halves"),
        pytest.param([_guest("A", "20", "20"), _guest("B", "20", "10", count=2)], [], id="a half and two quarters"),
        pytest.param(
            [_guest("A", "20", "20"), _guest("B", "20", "10", count=3)],
            [("overdrawn", "H/w", ("A", "B"))],
            id="a half and three quarters",
        ),
        pytest.param(
            [_guest("A", "41", "20"), _guest("B", "20", "20", count=3)],
            [("too-small", "H/w", ("A",)), ("overdrawn", "H/w", ("B",))],
            id="one is too large, and the others are too many",
        ),
    ],
)
def test_a_cut_out_yields_what_fits_it_singly_and_together(guests, refused):
    assert _refused(_host(), *guests) == refused


@pytest.mark.parametrize(
    ("hosts", "guests", "refused"),
    [
        pytest.param(2, 4, [], id="two halves from each of two"),
        pytest.param(2, 5, [("overdrawn", "H/w", ("A",))], id="one more"),
    ],
)
def test_a_piece_with_count_n_gives_n_cut_outs(hosts, guests, refused):
    kit = [_host(count=hosts), _guest("A", "20", "20", count=guests)]

    assert _refused(*kit, papers=[paper(sheets=2)]) == refused


def test_each_window_is_judged_by_itself():
    host = _host(window("w", "40", "20"), window("v", "20", "10", bottom="30"))

    assert _refused(host, _guest("A", "40", "20"), _guest("B", "20", "11", "p/H/v")) == [("too-small", "H/v", ("B",))]


@pytest.mark.parametrize(
    ("size", "refused"),
    [
        pytest.param("20", [("overdrawn", "H/w", ("A",))], id="two halves leave no room for the cut"),
        pytest.param("19.5", [], id="39 mm and one cut of 1 mm"),
    ],
)
def test_a_cut_inside_a_cut_out_takes_its_slack(size, refused):
    assert _refused(_host(), _guest("A", size, "20", count=2), cutting={"slack": "1"}) == refused


def test_a_piece_as_large_as_its_cut_out_needs_no_cut_and_loses_nothing():
    assert _refused(_host(), _guest("A", "40", "20"), cutting={"slack": "1"}) == []


@pytest.mark.parametrize(
    ("inner", "refused"),
    [
        pytest.param(_guest("B", "10", "5", "p/A/v"), [], id="both fit"),
        pytest.param(_guest("B", "13", "5", "p/A/v"), [("too-small", "A/v", ("B",))], id="the inner one is too large"),
        pytest.param(
            _guest("B", "6", "6", "p/A/v", count=3), [("overdrawn", "A/v", ("B",))], id="the inner ones are too many"
        ),
    ],
)
def test_a_cut_out_may_yield_a_piece_with_a_cut_out(inner, refused):
    outer = _guest("A", "30", "15", windows=[window("v", "12", "6")])

    assert _refused(_host(), outer, inner) == refused


def test_nothing_comes_out_of_a_piece_that_is_not_cut_itself():
    outer = _guest("A", "41", "15", windows=[window("v", "12", "6")])

    assert _refused(_host(), outer, _guest("B", "10", "5", "p/A/v")) == [
        ("too-small", "H/w", ("A",)),
        ("no-host", "A/v", ("B",)),
    ]


def test_what_comes_out_of_each_print_of_a_host_is_judged_there():
    host = {**_host(), "paper": {"each": ["oak", "ash"]}}
    kit = kit_of(
        project(host, _guest("A", "40", "20", print_reads="left"), makes=2),
        papers=[paper("oak"), paper("ash", front=ONE_WAY)],
    )

    # Oak reads any way. On ash the host reads up and lies upright, and the picture would have to lie sideways in it.
    assert [one.state for one in answer_of(kit, "oak").refused] == []
    assert [one.state for one in answer_of(kit, "ash").refused] == ["too-small"]
    assert [copy for _, copy in laid(answer_of(kit, "oak"))] == [1, 1]


# One-way paper, 100 x 100, a host of 60 x 40 that may lie either way with a window of 30 x 20.
_ONE_WAY = [paper("oak", "100", "100", front=ONE_WAY)]
_FREE = piece("H", "60", "40", print_reads="any", windows=[window("w", "30", "20")])


@pytest.mark.parametrize(
    ("reads", "width", "height", "host_turn", "guest_turn"),
    [
        # The guest's turn on the sheet is the host's and its own: 0 if it reads up, 270 if it reads left.
        pytest.param("up", "30", "20", 0, 0, id="reads up and lies along its host: the host is upright"),
        pytest.param("up", "20", "30", 90, 270, id="reads up and lies across: the host is turned, the guest back"),
        pytest.param("left", "30", "20", 90, 180, id="reads left and lies along: host and guest are turned"),
        pytest.param("left", "20", "30", 0, 270, id="reads left and lies across: only the guest is turned"),
    ],
)
def test_a_host_free_to_turn_lies_as_what_comes_out_of_it_must(reads, width, height, host_turn, guest_turn):
    kit = kit_of(project(_FREE, _guest("A", width, height, print_reads=reads)), papers=_ONE_WAY)

    answer = answer_of(kit)

    assert (answer.verdict, answer.refused) == ("fits", ())
    pieces = laid(answer)
    assert (pieces["H", 1]["turn"], pieces["A", 1]["turn"]) == (host_turn, guest_turn)


def test_an_outer_piece_lies_as_the_innermost_must():
    # I reads up and lies across in G: G lies sideways on the sheet. G lies along in H: H lies sideways as well.
    inner = _guest("I", "5", "10", "p/G/v", print_reads="up")
    middle = _guest("G", "30", "20", print_reads="any", windows=[window("v", "10", "5")])
    kit = kit_of(project(_FREE, middle, inner), papers=_ONE_WAY)

    answer = answer_of(kit)

    assert (answer.verdict, answer.refused) == ("fits", ())
    assert [laid(answer)[letter, 1]["turn"] for letter in "HGI"] == [90, 0, 270]


def test_the_lie_that_suits_the_inner_piece_best_does_not_make_it_too_small():
    # I could lie either way up in G's square window, so nothing asks G to stand upright; but H reads up, and in its
    # window G lies only sideways.
    inner = _guest("I", "10", "5", "p/G/v", print_reads="up")
    middle = _guest("G", "20", "30", print_reads="any", windows=[window("v", "10", "10")])
    kit = kit_of(project({**_FREE, "print_reads": "up"}, middle, inner), papers=_ONE_WAY)

    answer = answer_of(kit)

    assert (answer.verdict, answer.refused) == ("fits", ())
    assert [laid(answer)[letter, 1]["turn"] for letter in "HGI"] == [0, 90, 270]


def test_copies_of_a_host_may_lie_both_ways_where_each_yields_the_same():
    # A sheet of 100 x 100 holds three hosts of 60 x 40 only if one of them lies across the others,
    # and each cut-out yields one picture.
    host = {**_FREE, "count": 3}
    kit = kit_of(
        project(host, _guest("A", "20", "20", print_reads="up", count=3)), papers=[paper(front=ONE_WAY, height="100")]
    )

    answer = answer_of(kit)

    assert (answer.verdict, answer.refused) == ("fits", ())
    turns = {letter: [leaf["turn"] for (one, _), leaf in laid(answer).items() if one == letter] for letter in "HA"}
    assert set(turns["H"]) == {0, 90}
    # Each lies upright on the sheet.
    assert [(host + own) % 360 for host, own in zip(turns["H"], turns["A"], strict=True)] == [0, 0, 0]


# Seen on the sheet, an upright host's window is 30 wide and takes two guests 15 wide that read up, side by side; a
# sideways one is 20 wide and takes one. So two guests come out of the first of two upright hosts, or of one each.
_UNLIKE = [{**_FREE, "count": 2}, _guest("A", "15", "20", print_reads="up", count=2)]


# Beside one upright and one sideways host, a sheet of 100 x 60 holds this too; beside two that lie alike it does not.
_BELOW = piece("K", "60", "20")


@pytest.mark.parametrize(
    ("more", "sheets", "needed", "turns"),
    [
        # Two sideways hosts are 80 x 60, two upright ones fit no such sheet.
        pytest.param([], 1, (1, 1), [90, 90], id="both sideways"),
        # The sheets alone would do with one, so no more is proven.
        pytest.param([_BELOW], 2, (1, 2), [0, 0], id="both upright, on two sheets"),
    ],
)
def test_copies_of_a_host_all_lie_one_way_where_it_makes_a_difference(more, sheets, needed, turns):
    papers = [paper("oak", "100", "60", sheets=sheets, front=ONE_WAY)]

    answer = answer_of(kit_of(project(*_UNLIKE, *more), papers=papers))

    assert (answer.verdict, answer.refused) == ("fits", ())
    assert (answer.at_least, answer.at_most) == needed
    assert [leaf["turn"] for (letter, _), leaf in laid(answer).items() if letter == "H"] == turns


def test_copies_of_a_host_that_lie_both_ways_leave_undecided_what_comes_out_of_them():
    papers = [paper("oak", "100", "60", sheets=1, front=ONE_WAY)]

    answer = answer_of(kit_of(project(*_UNLIKE, _BELOW), papers=papers))

    assert (answer.verdict, answer.at_least, answer.at_most) == ("unknown", 1, 1)
    assert [(one.state, one.pieces) for one in answer.refused] == [("undecided", ("project:p/piece:A",))]
    # No copy is planned for some of the hosts only.
    assert set(laid(answer)) == {("H", 1), ("H", 2), ("K", 1)}


def test_hosts_that_must_lie_differently_for_two_guests_are_no_proof_that_either_is_refused():
    # A asks its host to stand upright, B to lie sideways. With two hosts both can be had, but no plan is looked for
    # that lays them so: undecided. With one host neither way yields both: overdrawn.
    guests = [_guest("A", "30", "20", print_reads="up"), _guest("B", "30", "20", print_reads="left")]

    assert _refused({**_FREE, "count": 2}, *guests, papers=_ONE_WAY) == [("undecided", "H/w", ("A", "B"))]
    assert _refused(_FREE, *guests, papers=_ONE_WAY) == [("overdrawn", "H/w", ("A", "B"))]


def test_two_windows_that_need_their_host_to_lie_differently_are_not_both_planned():
    host = {**_FREE, "windows": [window("w", "30", "10"), window("v", "20", "10", bottom="20")]}
    guests = [_guest("A", "30", "10", print_reads="up"), _guest("B", "20", "10", "p/H/v", print_reads="left")]

    answer = answer_of(kit_of(project(host, *guests), papers=_ONE_WAY))

    assert answer.verdict == "unknown"
    assert [(one.state, one.window.id) for one in answer.refused] == [("undecided", "v")]
    assert set(laid(answer)) == {("H", 1), ("A", 1)}


def test_a_host_that_fits_its_sheet_one_way_only_makes_a_piece_too_small_for_sure():
    # On a sheet 70 high and 45 wide the host stands on end, and what reads up would have to lie across in it.
    papers = [paper("oak", "45", "70", front=ONE_WAY)]

    assert _refused(_FREE, _guest("A", "30", "20", print_reads="up"), papers=papers) == [("too-small", "H/w", ("A",))]


def test_a_plan_for_the_sheets_alone_leaves_the_cut_out_undecided():
    # With K below it, the host fits only upright; the picture reads left and lies along, so the host would have to lie
    # sideways. All the sheet's own pieces fit; nobody says that the picture is had.
    kit = kit_of(
        project(_FREE, piece("K", "100", "60", print_reads="up"), _guest("A", "30", "20", print_reads="left")),
        papers=_ONE_WAY,
    )

    answer = answer_of(kit)

    assert (answer.verdict, answer.reason) == ("unknown", "budget")
    assert (answer.at_least, answer.at_most) == (1, 1)
    assert [(one.state, one.pieces) for one in answer.refused] == [("undecided", ("project:p/piece:A",))]
    assert set(laid(answer)) == {("H", 1), ("K", 1)}


def _nested(depth: int) -> list[Tree]:
    """A host and so many pieces, each out of a window of the one before, 4 mm smaller."""
    sizes = [str(90 - 4 * n) for n in range(depth + 1)]
    pieces = [piece("P0", sizes[0], sizes[0], windows=[window("w", sizes[1], sizes[1])])]
    for n in range(1, depth + 1):
        windows = [window("w", sizes[n + 1], sizes[n + 1])] if n < depth else []
        pieces.append(_guest(f"P{n}", sizes[n], sizes[n], f"p/P{n - 1}/w", windows=windows))
    return pieces


@pytest.mark.parametrize(
    ("depth", "verdict", "undecided"),
    [
        pytest.param(MOST_NESTED, "fits", [], id="as deep as plans nest"),
        # What comes out of the undecided piece is not told once more.
        pytest.param(MOST_NESTED + 3, "unknown", [(f"project:p/piece:P{MOST_NESTED + 1}",)], id="deeper"),
    ],
)
def test_cut_outs_nest_no_deeper_than_anybody_can_read(depth, verdict, undecided):
    answer = answer_of(kit_of(project(*_nested(depth)), papers=[paper("oak", "100", "100")]))

    assert answer.verdict == verdict
    assert [(one.state, one.pieces) for one in answer.refused] == [("undecided", pieces) for pieces in undecided]
    assert len([leaf for leaf in leaves(answer) if "piece" in leaf]) == MOST_NESTED + 1


def test_a_cut_out_that_nobody_decides_leaves_the_print_unknown():
    part = part_of(kit_of(project(_host(), _guest("A", "20", "20", count=2))))

    def undecided_in_the_window(problem):
        answer = decided(problem)
        return answer if problem.width != 40 * 320 else Answer("unknown", "budget", 1, None)

    answer = plan_print(part, undecided_in_the_window)

    assert answer.verdict == "unknown"
    assert answer.refused == (
        CutOutAnswer("project:p/piece:H", part.direct[0].windows[0], "undecided", ("project:p/piece:A",)),
    )
    assert set(laid(answer)) == {("H", 1)}


def test_one_question_is_asked_once():
    asked = []

    def counting(problem):
        asked.append(problem)
        return decided(problem)

    # Undirected: the host lies either way, and what is asked of its window is the same in both.
    Family(part_of(kit_of(project(_host(), _guest("A", "20", "20")))), counting)

    assert len(asked) == 1
