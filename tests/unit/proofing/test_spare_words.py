"""What there is to spare, in sentences, and which piece is a kit's weakest point."""

from __future__ import annotations

import pytest

from layouts.proofing import prove_at_once, report
from layouts.proofing.prints import print_parts
from layouts.proofing.runner import paper_data
from layouts.proofing.spare_words import spare_sentence, weakest_sentence
from layouts.proofing.weakest import weakest_point
from tests.unit.proofing.small_prints import MM, answer_of, kit_of, paper, piece, project, window

SOURCE = {"sheet": 1, "x": 0, "y": 0, "width": 1, "height": 1}


def _spare(**again):
    return {
        "score": "0.000",
        "pieces": [{"at": name, "from": SOURCE if is_left else None} for name, is_left in again.items()],
    }


@pytest.mark.parametrize(
    ("again", "sentence"),
    [
        pytest.param({"A": True}, "One more of A could be cut from what is left of its sheets.", id="the only one"),
        pytest.param(
            {"A": False},
            "Nothing that is left of its sheets is large enough for one more of A.",
            id="the only one lost",
        ),
        pytest.param(
            {"A": True, "B": True},
            "One more of each of its 2 pieces could be cut from what is left of its sheets, one at a time.",
            id="all",
        ),
        pytest.param(
            {"A": False, "B": False},
            "None of its 2 pieces could be cut again from what is left of its sheets.",
            id="none",
        ),
        pytest.param(
            {"A": False, "B": True, "C": False, "D": True},
            "One more of 2 of its 4 pieces could be cut from what is left of its sheets, one at a time; "
            "none of A or C.",
            id="some",
        ),
        pytest.param(
            {"B": True, **{f"P{number}": False for number in range(8)}},
            "One more of 1 of its 9 pieces could be cut from what is left of its sheets; "
            "none of P0, P1, P2, P3, P4, P5 or 2 more.",
            id="very many are not all named",
        ),
    ],
)
def test_what_is_left_of_a_print_is_one_sentence(again, sentence):
    assert spare_sentence(_spare(**again), str) == sentence


def _papers(kit):
    return [paper_data(answer_of(kit, part.paper)) for part in print_parts(kit)]


def _place(letter):
    return f"project:p/piece:{letter}"


def _said(kit):
    return weakest_sentence(kit, _papers(kit), lambda place: place.rpartition(":")[2])


FULL = piece("A", "100", "60")


@pytest.mark.parametrize(
    ("more", "weakest", "why"),
    [
        # 100 by 80: A fills 100 by 60, the rest is a strip of 100 by 20.
        pytest.param(
            [piece("B", "100", "20")],
            "A",
            "it is the largest of the 2 pieces that cannot be cut again",
            id="of equals the largest",
        ),
        pytest.param(
            [piece("B", "100", "20", windows=[window("w", "30", "10", cut_out="waste")])],
            "B",
            "it is yet to be given 1 window",
            id="what is cut into it afterwards can go wrong",
        ),
        pytest.param([piece("B", "50", "20", count=2)], "B", "2 of it are cut", id="each copy can go wrong"),
        pytest.param(
            [piece("B", "50", "20", count=2, shape={"kind": "ellipse"})],
            "B",
            "2 of it are cut, each to be trimmed to its shape",
            id="each copy has its work",
        ),
        pytest.param(
            [piece("B", "40", "20")],
            "A",
            "it is the only piece that cannot be cut again",
            id="what can be cut again is none",
        ),
    ],
)
def test_the_weakest_point_is_what_can_be_spoilt_most_often(more, weakest, why):
    kit = kit_of(project(FULL, *more))
    point = weakest_point(kit, _papers(kit))
    assert point is not None
    assert (point.paper, point.place) == ("oak", _place(weakest))
    assert (
        _said(kit)
        == f"Weakest point: {weakest} on Oak. Nothing that is left of its sheets would give one more of it, and {why}."
    )


def test_decorative_edges_and_folds_are_work():
    punch = {"id": "punch", "kind": "punch", "bite": "3"}
    edged = piece("B", "100", "20", edges={"top": "punch", "left": "punch"})
    kit = kit_of(project(FULL, edged), tools=[punch])
    assert "it is yet to be given 2 decorative edges" in _said(kit)
    scored = {"id": "F", "name": "fold", "as": "scored", "paper": "oak", "size": ["100", "20"], "scores": []}
    kit = kit_of(project(FULL, forms=[scored]))
    point = weakest_point(kit, _papers(kit))
    assert point is not None
    assert point.place == "project:p/form:F"
    assert "it is yet to be folded" in _said(kit)


def test_a_tag_is_not_folded():
    tag = {"id": "F", "name": "tag", "as": "tag", "paper": "oak", "size": ["100", "20"]}
    kit = kit_of(project(FULL, forms=[tag]))
    point = weakest_point(kit, _papers(kit))
    assert point is not None
    assert point.place == _place("A")


def test_it_is_looked_for_over_all_prints():
    # On fern one large piece fills the sheet, on oak nothing is left either but for a smaller one.
    kit = kit_of(
        project(piece("A", "100", "80"), {**piece("B", "120", "80"), "paper": "fern"}),
        papers=[paper(), paper("fern", "120", "80")],
    )
    point = weakest_point(kit, _papers(kit))
    assert point is not None
    assert (point.paper, point.width, point.height, point.others) == ("fern", 120 * MM, 80 * MM, 1)


def test_a_kit_all_of_which_could_be_cut_again_has_none():
    kit = kit_of(project(FULL), papers=[paper(sheets=2)])
    assert weakest_point(kit, _papers(kit)) is None
    assert _said(kit) == "Every piece could be cut once more from what is left of the sheets, one at a time."


def test_prints_without_a_plan_are_not_judged():
    # Fern is short: three halves of one sheet.
    halves = {**piece("B", "100", "40", count=3), "paper": "fern"}
    kit = kit_of(project(piece("A", "10", "10"), halves), papers=[paper(), paper("fern")])
    assert weakest_point(kit, _papers(kit)) is None
    assert _said(kit).startswith("On the prints that have a plan, every piece could be cut once more")
    alone = kit_of(project(piece("A", "100", "40", count=3)))
    assert _said(alone) == ""


def test_a_proof_of_an_earlier_engine_knows_nothing_of_it():
    kit = kit_of(project(FULL))
    papers = [{key: value for key, value in one.items() if key != "spare"} for one in _papers(kit)]
    assert weakest_sentence(kit, papers, str) == ""


def _told(kit, proof=None):
    return report(kit, proof or prove_at_once(kit))


def test_a_report_says_what_is_left_of_each_paper_and_the_weakest_point_once():
    kit = kit_of(project(FULL, piece("B", "50", "20")), papers=[paper(), paper("fern")])
    lines = _told(kit).splitlines()
    at = lines.index("  One more of 1 of its 2 pieces could be cut from what is left of its sheets; none of A.")
    assert lines[at + 1 : at + 3] == ["", "Fern: nothing is cut from it (1 sheet in the box)."]
    (first,) = [number for number, line in enumerate(lines) if line.startswith("Weakest point")]
    assert " ".join(lines[first : first + 2]) == (
        "Weakest point: A (piece A) on Oak. Nothing that is left of its sheets would give one more of it, and "
        "it is the only piece that cannot be cut again."
    )


def test_a_report_of_a_kit_that_is_short_or_of_an_earlier_proof_says_nothing_of_it():
    short = kit_of(project(piece("A", "100", "40", count=3)))
    assert "left" not in _told(short).split("Findings")[0]
    kit = kit_of(project(FULL))
    proof = prove_at_once(kit)
    earlier = {**proof, "papers": [{key: one[key] for key in one if key != "spare"} for one in proof["papers"]]}
    assert "Weakest" not in _told(kit, earlier)
