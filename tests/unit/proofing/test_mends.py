"""Mends of short prints: what is offered, in which order, and that all of it was proved."""

from __future__ import annotations

from typing import Any

import pytest

from layouts.cutting import Solver
from layouts.document import Change, changed
from layouts.proofing import PrintAnswer, prove_print
from layouts.proofing.questions import Questions
from tests.unit.proofing.small_prints import ONE_WAY, kit_of, paper, piece, project

OAK = paper("oak", front=ONE_WAY)
_A = "project:p/piece:A"


@pytest.fixture(scope="module")
def solver():
    with Solver(seconds=600) as running:
        yield running


def _proof(kit, solver) -> dict[str, Any]:
    questions = Questions(kit)
    answers: dict[str, PrintAnswer] = {}
    while asked := questions.open(answers):
        answers |= {part.key: prove_print(part, solver) for part in asked}
    return questions.proof(answers)


def _mends(kit, solver) -> list[dict[str, Any]]:
    (finding,) = [one for one in _proof(kit, solver)["findings"] if one["rule"] == "paper-short"]
    mends: list[dict[str, Any]] = finding["mend"]
    return mends


def _told(mends) -> list[tuple[dict[str, Any], list[str]]]:
    return [(mend["cost"], [change["at"] for change in mend["change"]]) for mend in mends]


def test_the_cheapest_come_first_and_each_kind_once(solver):
    # 70 x 40 twice on 100 x 80 in rows, the third has room only turned: never, since the print reads one way.
    kit = kit_of(
        project(piece("A", "70", "40", count=2), piece("B", "30", "50", count=1), piece("C", "30", "40", count=1)),
        papers=[OAK, paper("ash", front=ONE_WAY)],
    )
    assert _told(_mends(kit, solver)) == [
        ({"sheets": 0, "moved": 2}, [f"{_A}/paper"]),
        ({"sheets": 0, "pieces": 1}, [f"{_A}/count"]),
        ({"sheets": 1}, ["paper:oak/sheets"]),
    ]


def test_a_piece_that_may_read_any_way_is_the_first_thing_to_offer(solver):
    # Upright 60 x 80 and 80 x 40 do not share a sheet of 100 x 80; with the second turned, they do.
    kit = kit_of(project(piece("A", "60", "80"), piece("B", "80", "40")), papers=[OAK])
    (mend, more) = _mends(kit, solver)
    assert mend == {
        "change": [{"at": "project:p/piece:B/print_reads", "from": "up", "to": "any"}],
        "cost": {"sheets": 0, "turned": 1},
        "verdict": "fits",
        "message": "Let B, piece B, read any way, so that it may be turned on the sheet.",
    }
    assert more["cost"] == {"sheets": 1}


def test_a_change_that_leaves_the_print_as_it_is_is_no_mend(solver):
    # A print without direction lets every piece lie any way already.
    kit = kit_of(project(piece("A", "70", "80", count=2)), papers=[paper("oak")])
    assert [cost for cost, _ in _told(_mends(kit, solver))] == [{"sheets": 0, "pieces": 1}, {"sheets": 1}]


def _centred_mats(width, size=("52", "82"), border="1", sheets=1):
    """Two mats, each centred on a face of 54 x 84."""
    box = {"id": "box", "name": "box", "count": 2, "faces": [{"id": "front", "size": ["54", "84"]}]}
    placed = {"id": "on", "put": {"piece": "A"}, "on": {"blank": "box", "face": "front"}, "border": border}
    mats = project(piece("A", *size, count=2), placements=[{**placed, "centred": True, "middle": True}])
    return kit_of(mats, papers=[paper("oak", width, "82", front=ONE_WAY, sheets=sheets)], blanks=[box])


def test_a_centred_mat_is_made_smaller_by_a_step_all_round_with_its_border(solver):
    # Two of 52 are 104 on a sheet of 102; 50 each, with a border of 2, fit: in inches they are shown as 2, 101.6 mm.
    mends = {tuple(mend["cost"]): mend for mend in _mends(_centred_mats("102"), solver)}
    assert mends["sheets", "border"]["change"] == [
        {"at": f"{_A}/size/width", "from": "52", "to": "50"},
        {"at": f"{_A}/size/height", "from": "82", "to": "80"},
        {"at": "project:p/placement:on/border", "from": "1", "to": "2"},
    ]
    assert mends["sheets", "border"]["cost"]["border"] == "1"


def test_what_would_fit_exactly_and_not_as_printed_is_no_mend(solver):
    # On a sheet of 100, two of 50 just fit. In inches they cannot be shown as less than 2: with a border of 1/16 on
    # both sides that makes the 2 1/8 of the face. Those of 48 are shown as 1 7/8.
    mends = {tuple(mend["cost"]): mend for mend in _mends(_centred_mats("100"), solver)}
    assert mends["sheets", "border"]["cost"]["border"] == "2"
    assert [change["to"] for change in mends["sheets", "border"]["change"]] == ["48", "78", "3"]


def test_so_many_sheets_are_put_into_the_box_that_they_do_as_printed(solver):
    # Two of 50 just fit a sheet of 100, but are shown in inches as 2 (see above): as printed each takes a sheet.
    kit = _centred_mats("100", size=("50", "80"), border="2", sheets=0)
    assert [cost for cost, _ in _told(_mends(kit, solver))] == [{"sheets": 2}]


def test_another_stock_is_no_mend(solver):
    kit = kit_of(
        project(piece("A", "70", "80", count=2)),
        papers=[paper("oak", front=ONE_WAY, grammage=160), paper("card", front=ONE_WAY, grammage=270)],
    )
    assert [cost for cost, _ in _told(_mends(kit, solver))] == [{"sheets": 0, "pieces": 1}, {"sheets": 1}]


def test_what_brings_a_new_fault_is_no_mend(solver):
    # The mat could be smaller, but then the picture on it would have another border than is claimed.
    box = {"id": "box", "name": "box", "count": 2, "faces": [{"id": "front", "size": ["54", "84"]}]}
    centred = {"centred": True, "middle": True}
    mat = {"id": "mat", "put": {"piece": "A"}, "on": {"blank": "box", "face": "front"}, "border": "1", **centred}
    picture = {"id": "picture", "put": {"piece": "B"}, "on": {"piece": "A"}, "border": "5", **centred}
    papers = [paper("oak", "100", "82", front=ONE_WAY), paper("ash", front=ONE_WAY, sheets=2, grammage=90)]
    pieces = [piece("A", "52", "82", count=2), piece("B", "42", "72", count=2, paper="ash")]
    alone = kit_of(project(pieces[0], placements=[mat]), papers=papers, blanks=[box])
    both = kit_of(project(*pieces, placements=[mat, picture]), papers=papers, blanks=[box])
    assert ["border" in mend["cost"] for mend in _mends(alone, solver)] == [True, False, False]
    assert ["border" in mend["cost"] for mend in _mends(both, solver)] == [False, False]


def test_every_mend_makes_its_print_suffice(solver):
    kit = kit_of(
        project(piece("A", "70", "40", count=2), piece("B", "30", "50", count=1), piece("C", "30", "40", count=1)),
        papers=[OAK, paper("ash", front=ONE_WAY)],
    )
    mends = _mends(kit, solver)
    assert mends
    for mend in mends:
        after = changed(kit, [Change(one["at"], one["from"], one["to"]) for one in mend["change"]])
        verdicts = [one["verdict"] for one in _proof(after, solver)["papers"]]
        assert verdicts == ["fits"] * len(kit.papers)


def test_a_print_with_a_piece_too_big_gets_no_mend(solver):
    kit = kit_of(project(piece("A", "170", "40")), papers=[OAK])
    assert all(not finding["mend"] for finding in _proof(kit, solver)["findings"])


def test_mends_are_looked_for_only_in_kits_of_a_usual_size(solver, monkeypatch):
    monkeypatch.setattr("layouts.proofing.mends.search.MOST_THINGS", 1)
    kit = kit_of(project(piece("A", "60", "80"), piece("B", "80", "40")), papers=[OAK])
    assert _mends(kit, solver) == []
