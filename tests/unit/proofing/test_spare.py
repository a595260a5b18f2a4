"""What could be cut once more. Sheets of 100 by 80 mm, worked by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layouts.proofing.rules import papers
from layouts.proofing.spare import Source, is_spent, spare_as_cut, spare_of
from tests.unit.proofing.small_prints import MM, ONE_WAY, answer_of, decided, kit_of, paper, piece, project, window

A, B = "project:p/piece:A", "project:p/piece:B"


def _spare(kit):
    spare = spare_of(answer_of(kit))
    assert spare is not None
    return spare


def test_one_more_comes_from_the_smallest_offcut_that_gives_it():
    # 70 x 80 leaves 30 x 80: enough for the small one, which is cut from it already, and not for the large one.
    spare = _spare(kit_of(project(piece("A", "70", "80"), piece("B", "30", "40"))))
    assert spare.sources == {A: None, B: Source(1, 70 * MM, 40 * MM, 30 * MM, 40 * MM)}
    assert spare.score == "0.500"
    assert spare.as_data()["pieces"][1]["from"] == {
        "sheet": 1,
        "x": 70 * MM,
        "y": 40 * MM,
        "width": 30 * MM,
        "height": 40 * MM,
    }


def test_a_sheet_that_is_not_touched_gives_all_that_fits_it():
    spare = _spare(kit_of(project(piece("A", "100", "80")), papers=[paper(sheets=2)]))
    assert spare.sources == {A: Source(2, 0, 0, 100 * MM, 80 * MM)}


def test_a_spoilt_margin_gives_nothing():
    # 80 + 10 fill what can be used; the margin that is cut off would be as large as B.
    kit = kit_of(project(piece("A", "80", "80"), piece("B", "10", "80")), papers=[paper(spoilt={"left": "10"})])
    assert _spare(kit).sources == {A: None, B: None}


@pytest.mark.parametrize(
    ("front", "again"),
    [pytest.param({"name": "F"}, True, id="any way up"), pytest.param(ONE_WAY, False, id="the print would lie")],
)
def test_a_print_that_reads_one_way_is_not_turned(front, again):
    # 60 x 80 leaves 40 x 80, which gives 60 x 40 only turned.
    kit = kit_of(project(piece("A", "60", "40", count=2)), papers=[paper(front=front)])
    assert (_spare(kit).sources[A] is not None) == again


def test_a_piece_out_of_a_cut_out_is_cut_again_from_an_offcut():
    host = piece("A", "70", "80", windows=[window("w", "30", "30")])
    guest = piece("B", "25", "25", **{"from": "p/A/w"})
    spare = _spare(kit_of(project(host, guest), papers=[paper(front=ONE_WAY)]))
    assert spare.sources[B] == Source(1, 70 * MM, 0, 30 * MM, 80 * MM)


@pytest.mark.parametrize(
    ("pieces", "fires"),
    [
        pytest.param([piece("A", "100", "40", count=2)], True, id="used to the last strip"),
        pytest.param([piece("A", "100", "70"), piece("B", "5", "5")], False, id="a small one could be cut again"),
        pytest.param([], False, id="nothing is cut"),
    ],
)
def test_nothing_to_spare_is_noted_once_a_paper(pieces, fires):
    kit = kit_of(project(*pieces))
    answer = answer_of(kit)
    answer = replace(answer, is_spent=is_spent(answer, lambda problem: decided(problem).verdict == "short"))
    found = [one for one in papers.findings(kit, [answer]) if one.rule == "nothing-to-spare"]
    assert [(one.at, one.weight, dict(one.why)) for one in found] == (
        [(("paper:oak",), "note", {"sheets": 1, "pieces": len(pieces)})] if fires else []
    )


def test_paper_that_another_plan_would_leave_is_not_called_spent():
    # The plan may leave two strips that are too small; cut otherwise, the sheet gives one more. Nobody proves it short.
    kit = kit_of(project(piece("A", "100", "70"), piece("B", "40", "10")))
    answer = answer_of(kit)
    assert not is_spent(answer, lambda problem: False)


def test_a_print_that_is_short_has_no_spare():
    assert spare_of(answer_of(kit_of(project(piece("A", "100", "80", count=2))))) is None


def test_as_cut_a_piece_is_as_large_as_in_the_plan():
    # 70 x 40 leaves 30 x 80 and 70 x 40. Printed as 31 mm wide, B comes out of the strip of 30 no more; lying on its
    # side it is 31 high and 40 across.
    kit = kit_of(project(piece("A", "70", "40"), piece("B", "30", "40")))
    answer = answer_of(kit)
    sheet = {"x": 0, "y": 0, "width": 100 * MM, "height": 80 * MM}

    def plan(across, up, turn):
        first = {**sheet, "width": 70 * MM, "height": 40 * MM, "piece": A, "copy": 1, "turn": 0}
        second = {**sheet, "y": 40 * MM, "width": across * MM, "height": up * MM, "piece": B, "copy": 1, "turn": turn}
        strip = {**sheet, "x": 70 * MM, "width": 30 * MM, "offcut": True}
        return [{"sheet": 1, "tree": {**sheet, "cut": {}, "parts": [first, second, strip]}}]

    def source(*cut):
        spare = spare_as_cut(answer.part, plan(*cut))
        assert spare is not None
        return spare.sources[B]

    assert source(30, 40, 0) == Source(1, 70 * MM, 0, 30 * MM, 80 * MM)
    assert source(31, 40, 0) is None
    # Any way up: 40 high and 30 across when turned.
    assert source(40, 30, 90) == Source(1, 70 * MM, 0, 30 * MM, 80 * MM)
    assert source(40, 31, 90) is None


def test_as_cut_nothing_is_spare_where_nothing_is_cut():
    assert spare_as_cut(answer_of(kit_of()).part, []) is None


def test_a_piece_that_its_cut_out_does_not_yield_is_not_cut_once_more():
    # A window of 20 by 20 gives no guest of 25 by 25, though the offcut beside its host would.
    host = piece("A", "70", "80", windows=[window("w", "20", "20")])
    guest = piece("B", "25", "25", **{"from": "p/A/w"})
    assert _spare(kit_of(project(host, guest))).sources == {A: None}


def test_as_cut_a_turned_piece_is_measured_the_right_way_up():
    # 30 by 40, to be read from the side: it may lie only as 40 across and 30 up, which 45 by 30 gives once more.
    kit = kit_of(project(piece("B", "30", "40", print_reads="left")), papers=[paper(front=ONE_WAY)])
    sheet = {"x": 0, "y": 0, "width": 100 * MM, "height": 30 * MM}
    first = {**sheet, "width": 40 * MM, "piece": B, "copy": 1, "turn": 90}
    rest = {**sheet, "x": 40 * MM, "width": 45 * MM, "offcut": True}
    spare = spare_as_cut(answer_of(kit).part, [{"sheet": 1, "tree": {**sheet, "cut": {}, "parts": [first, rest]}}])
    assert spare is not None
    assert spare.sources == {B: Source(1, 40 * MM, 0, 45 * MM, 30 * MM)}
