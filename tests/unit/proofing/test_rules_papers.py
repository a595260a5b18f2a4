"""The rules about paper: for each a kit where it fires and one where it just does not, worked by hand."""

from __future__ import annotations

from typing import Any

import pytest

from layouts.cutting import Answer
from layouts.document import Kit
from layouts.proofing.findings import Finding
from layouts.proofing.plans import plan_print
from layouts.proofing.prints import print_parts
from layouts.proofing.rules import papers
from tests.unit.proofing.small_prints import MM, ONE_WAY, decided, explained, kit_of, paper, piece, project, window

_A, _B, _H = "project:p/piece:A", "project:p/piece:B", "project:p/piece:H"
_OAK = "paper:oak"
_BOX = {"id": "box", "name": "box", "faces": []}
_LID = {"id": "L", "name": "lid", "as": "lid", "paper": "oak", "fits": {"blank": "box"}, "depth": "10"}


def _findings(kit: Kit, solve=decided) -> list[Finding]:
    return list(papers.findings(kit, [plan_print(part, solve, explained) for part in print_parts(kit)]))


def _fired(kit: Kit) -> list[tuple[str, tuple[str, ...]]]:
    return [(finding.rule, finding.at) for finding in _findings(kit)]


def _only(kit: Kit, solve=decided) -> Finding:
    (finding,) = _findings(kit, solve)
    return finding


def _host(**more: Any):
    return piece("H", "60", "50", windows=[window("w", "40", "20", **more)])


def _guest(id_: str, width: str, height: str, **more: Any):
    return piece(id_, width, height, **{"from": "p/H/w"}, **more)


_SHORT = ("paper-short", (_OAK, _A))
_UNDECIDED = ("paper-undecided", (_OAK, _A))


@pytest.mark.parametrize(
    ("kit", "fired"),
    [
        pytest.param(kit_of(project(piece("A", "50", "80", count=3))), [_SHORT], id="paper-short: one half too many"),
        pytest.param(kit_of(project(piece("A", "50", "79", count=2))), [("dead-fit", (_OAK,))], id="two halves"),
        pytest.param(kit_of(project(piece("A", "49.5", "79", count=2))), [], id="two halves and a cut to spare"),
        pytest.param(
            kit_of(
                project(piece("A", "50", "80", count=3), {**piece("Z", "9", "9"), "paper": "ash"}),
                papers=[paper(), paper("ash")],
            ),
            [_SHORT],
            id="paper-short: the other print suffices",
        ),
        pytest.param(
            kit_of(project(piece("A", "9", "9")), papers=[paper(sheets=0)]), [_SHORT], id="paper-short: no sheets"
        ),
        pytest.param(
            kit_of(project(piece("A", "100.1", "20"))), [("piece-too-big", (_A, _OAK))], id="piece-too-big: by a tenth"
        ),
        pytest.param(kit_of(project(piece("A", "100", "20"))), [], id="as wide as the sheet"),
        pytest.param(kit_of(project(piece("A", "20", "100"))), [], id="as wide as the sheet, turned"),
        pytest.param(
            kit_of(project(piece("A", "90.1", "20")), papers=[paper(spoilt={"left": "10"})]),
            [("piece-too-big", (_A, _OAK))],
            id="piece-too-big: beside a margin",
        ),
        pytest.param(
            kit_of(project(piece("A", "20", "90")), papers=[paper(front=ONE_WAY)]),
            [("turn-impossible", (_A, _OAK))],
            id="turn-impossible: fits only turned, and is one-way",
        ),
        pytest.param(
            kit_of(project(piece("A", "20", "90")), papers=[paper(front={**ONE_WAY, "repeat": "two-way"})]),
            [("turn-impossible", (_A, _OAK))],
            id="turn-impossible: half a turn does not help",
        ),
        pytest.param(kit_of(project(piece("A", "20", "80")), papers=[paper(front=ONE_WAY)]), [], id="one-way, upright"),
        pytest.param(
            kit_of(
                project(piece("A", "20", "20", side="both", print_reads="left")),
                papers=[paper(front=ONE_WAY, back=ONE_WAY)],
            ),
            [("turn-impossible", (_A, _OAK))],
            id="turn-impossible: both sides never read right at once",
        ),
        pytest.param(
            kit_of(project(piece("A", "20", "20", side="back"))),
            [("side-missing", (_A, _OAK))],
            id="side-missing: shows the back",
        ),
        pytest.param(
            kit_of(project(piece("A", "20", "20", side="both"))),
            [("side-missing", (_A, _OAK))],
            id="side-missing: shows both",
        ),
        pytest.param(kit_of(project(piece("A", "20", "20", side="either"))), [], id="either is content with the front"),
        pytest.param(
            kit_of(project(piece("A", "20", "20", side="back")), papers=[paper(back={"name": "B"})]),
            [],
            id="the back is there",
        ),
        pytest.param(
            kit_of(project(piece("A", "101", "20", side="back"))),
            [("side-missing", (_A, _OAK)), ("piece-too-big", (_A, _OAK))],
            id="side-missing, and too big in any case",
        ),
        pytest.param(
            kit_of(
                project({**piece("A", "20", "20", side="back"), "paper": {"each": ["oak", "ash"]}}, makes=2),
                papers=[paper("oak", back={"name": "B"}), paper("ash")],
            ),
            [("side-missing", (_A, "paper:ash"))],
            id="side-missing: on one of two prints",
        ),
        pytest.param(
            kit_of(project({"id": "A", "name": "A", "size": ["20", "20"]})),
            [("paper-missing", (_A,))],
            id="paper-missing: neither a paper nor a cut-out",
        ),
        pytest.param(kit_of(project(_host(), _guest("A", "40", "20"))), [], id="paper or cut-out, as large as that"),
        pytest.param(
            kit_of(project(_host(), _guest("A", "40", "20.1"))),
            [("cut-out-too-small", (_A, f"{_H}/window:w"))],
            id="cut-out-too-small: by a tenth",
        ),
        pytest.param(kit_of(project(_host(), _guest("A", "20", "20", count=2))), [], id="two halves of a cut-out"),
        pytest.param(
            kit_of(project(_host(), _guest("A", "20", "20", count=3))),
            [("cut-out-overdrawn", (_A, f"{_H}/window:w"))],
            id="cut-out-overdrawn: three halves",
        ),
        pytest.param(
            kit_of(project(_host(), _guest("A", "20", "20", count=2), _guest("B", "5", "5"))),
            [("cut-out-overdrawn", (_A, f"{_H}/window:w")), ("cut-out-overdrawn", (_B, f"{_H}/window:w"))],
            id="cut-out-overdrawn: each piece is told",
        ),
        pytest.param(
            kit_of(project(forms=[_LID]), blanks=[_BOX]),
            [("paper-undecided", (_OAK,))],
            id="paper-undecided: not built",
        ),
        pytest.param(
            kit_of(project(forms=[{**_LID, "side": "back"}]), blanks=[_BOX]),
            [("side-missing", ("project:p/form:L", _OAK)), ("paper-undecided", (_OAK,))],
            id="side-missing: of a form that cannot be worked out",
        ),
        pytest.param(
            kit_of(project(piece("A", "1", "1", count=10_000), makes=2), papers=[paper(sheets=10)]),
            [_UNDECIDED],
            id="paper-undecided: more copies than anybody plans",
        ),
        pytest.param(
            kit_of(project(piece("A", "1", "1", count=10_000), makes=9), papers=[paper(sheets=10)]),
            [_SHORT],
            id="as many are short by area",
        ),
    ],
)
def test_what_fires_and_what_just_does_not(kit, fired):
    assert _fired(kit) == fired


@pytest.mark.parametrize(
    ("pieces", "front", "problem"),
    [
        pytest.param([_host(), _guest("A", "41", "20")], {"name": "F"}, "size", id="larger whichever way"),
        pytest.param([_host(), _guest("A", "20", "40")], ONE_WAY, "turn", id="fits only in a turn that reads wrong"),
        pytest.param([_host(cut_out="waste"), _guest("A", "40", "20")], {"name": "F"}, "waste", id="nobody keeps it"),
        pytest.param(
            [_host(), _guest("A", "40", "20", side="back")], {"name": "F"}, "side", id="its side is not there"
        ),
    ],
)
def test_why_a_cut_out_is_too_small(pieces, front, problem):
    found = {one.rule: one for one in _findings(kit_of(project(*pieces), papers=[paper(front=front)]))}

    assert found["cut-out-too-small"].why["problem"] == problem
    assert ("side-missing" in found) == (problem == "side")


def test_a_piece_out_of_a_piece_that_is_not_cut_waits_for_that():
    outer = _guest("A", "41", "20", windows=[window("v", "10", "10")])
    inner = piece("B", "10", "10", **{"from": "p/A/v"})

    found = _findings(kit_of(project(_host(), outer, inner)))

    assert [(one.at[0], one.why["problem"]) for one in found] == [(_A, "size"), (_B, "no-host")]


def test_nothing_comes_out_of_a_piece_without_a_paper():
    host = {"id": "H", "name": "H", "size": ["60", "50"], "windows": [window("w", "40", "20")]}
    outer = _guest("A", "30", "15", windows=[window("v", "10", "10")])
    inner = piece("B", "10", "10", **{"from": "p/A/v"})

    missing, *rest = _findings(kit_of(project(inner, outer, host)))

    assert (missing.rule, missing.at) == ("paper-missing", (_H,))
    assert [(one.rule, one.at, one.why["problem"]) for one in rest] == [
        ("cut-out-too-small", (_A, f"{_H}/window:w"), "no-host"),
        ("cut-out-too-small", (_B, f"{_A}/window:v"), "no-host"),
    ]


def test_the_facts_of_a_shortage_are_those_it_follows_from():
    finding = _only(kit_of(project(piece("A", "50", "80", count=3)), cutting={"slack": "1"}))

    # 2 and 3 halves on either side of 50 + 1 mm: no two halves stand on a sheet of 100 mm.
    assert finding.weight == "stop"
    assert finding.why == {
        "sheets": 1,
        "at_least": 3,
        "usable": [100 * MM, 80 * MM],
        "slack": MM,
        "pieces": [{"at": _A, "width": 50 * MM, "height": 80 * MM, "copies": 3}],
        # With 1 mm lost to the cut, two halves are more than the sheet already.
        "culprits": [{"at": _A, "copies": 2}],
        "because": "area",
    }
    assert "the box holds 1 sheet, and it takes at least 3; 3 sheets would do" in finding.message


@pytest.mark.parametrize(
    ("pieces", "because", "words"),
    [
        pytest.param(
            [piece("A", "50", "80"), piece("B", "50", "40", count=2), piece("C", "5", "5")],
            "area",
            # 50 x 80 + 2 x 50 x 40 = 8000 = 100 x 80 with nothing left for C, which is 25 more: 100.3 %.
            "Already A, piece A (50 × 80 mm), 2 of B, piece B (50 × 40 mm) and C, piece C (5 × 5 mm) need 101 % of "
            "what can be used of 1 sheet. ",
            id="more than there is",
        ),
        pytest.param(
            [piece("A", "55", "55"), piece("B", "60", "55"), piece("C", "5", "5")],
            "apart",
            "Already A, piece A (55 × 55 mm) and B, piece B (60 × 55 mm) are too many: no two of them come out of one "
            "sheet, and the box holds 1 sheet. ",
            id="no two share a sheet",
        ),
    ],
)
def test_a_shortage_names_the_pieces_that_are_too_much_already(pieces, because, words):
    finding = _only(kit_of(project(*pieces)))
    assert finding.why["because"] == because
    assert words in finding.message


def test_the_facts_of_a_dead_fit_are_those_it_follows_from():
    finding = _only(kit_of(project(piece("A", "49", "80", count=2)), cutting={"slack": "2"}))

    assert finding.weight == "note"
    assert finding.why == {
        "slack": 2 * MM,
        "step": MM,
        "sheets": 1,
        "usable": [100 * MM, 80 * MM],
        "pieces": [{"at": _A, "width": 49 * MM, "height": 80 * MM, "copies": 2}],
    }


def test_the_facts_of_what_is_too_big_are_its_size_and_the_usable_sheet():
    finding = _only(
        kit_of(project(piece("A", "95", "20")), papers=[paper(undersize="2", spoilt={"right": "4", "top": "5"})])
    )

    assert finding.why == {"size": [95 * MM, 20 * MM], "usable": [94 * MM, 73 * MM]}
    assert "95 × 20 mm, is larger than a sheet of Oak (94 × 73 mm usable)" in finding.message


def test_the_facts_of_a_wrong_turn_are_the_turns_that_read_right():
    finding = _only(kit_of(project(piece("A", "20", "90", print_reads="down")), papers=[paper(front=ONE_WAY)]))

    assert finding.why == {"size": [20 * MM, 90 * MM], "usable": [100 * MM, 80 * MM], "turns": [180]}


def test_the_facts_of_an_overdrawn_cut_out_are_what_is_asked_of_it():
    (a, b) = _findings(kit_of(project(_host(), _guest("A", "20", "20", count=2), _guest("B", "5", "5"))))

    told = [
        {"at": _A, "width": 20 * MM, "height": 20 * MM, "copies": 2},
        {"at": _B, "width": 5 * MM, "height": 5 * MM, "copies": 1},
    ]
    common = {"cut_outs": 1, "cut_out": [40 * MM, 20 * MM], "pieces": told}
    assert a.why == {**common, "size": [20 * MM, 20 * MM], "copies": 2}
    assert b.why == {**common, "size": [5 * MM, 5 * MM], "copies": 1}


def test_a_long_list_of_refused_pieces_is_not_told_in_every_finding():
    guests = [_guest(f"A{n}", "20", "20") for n in range(60)]

    found = _findings(kit_of(project(_host(), *guests)))

    assert [one.at[0] for one in found] == [f"project:p/piece:A{n}" for n in range(60)]
    assert {len(one.why["pieces"]) for one in found} == {20}


def test_the_same_fault_on_two_prints_has_the_same_facts():
    host = {**_host(), "paper": {"each": ["oak", "ash"]}}
    kit = kit_of(project(host, _guest("A", "41", "20"), makes=2), papers=[paper("oak"), paper("ash")])

    first, second = _findings(kit)

    assert (first.rule, first.at, first.why) == (second.rule, second.at, second.why)


def test_a_cut_out_that_nobody_decides_is_told_as_such_and_the_paper_is_not_blamed():
    kit = kit_of(project(_host(), _guest("A", "20", "20", count=2)))

    def undecided_in_the_window(problem):
        return decided(problem) if problem.width != 40 * MM else Answer("unknown", "budget", 1, None)

    finding = _only(kit, undecided_in_the_window)

    assert (finding.rule, finding.at) == ("paper-undecided", (_OAK, f"{_H}/window:w", _A))
    assert "cut-outs of H, piece H, yield everything" in finding.message


def test_an_undecided_print_says_what_is_known():
    def undecided(problem):
        return Answer("unknown", "budget", 1, None)

    finding = _only(kit_of(project(piece("A", "20", "20")), papers=[paper(sheets=0)]), undecided)

    assert finding.why == {
        "cause": "budget",
        "sheets": 0,
        "at_least": 1,
        "pieces": [{"at": _A, "width": 20 * MM, "height": 20 * MM, "copies": 1}],
    }
    assert "It takes at least 1 sheet, and no plan was found; the box holds 0." in finding.message


def test_many_things_that_cannot_be_worked_out_are_told_in_a_few_lines():
    forms = [{**_LID, "id": f"L{n}"} for n in range(30)]

    finding = _only(kit_of(project(forms=forms), blanks=[_BOX]))

    assert finding.why["cause"] == "not-built"
    assert finding.message.count("project:p/form:") == 20
    assert finding.message.endswith(" And 10 more.")
