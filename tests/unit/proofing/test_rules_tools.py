"""Rules about tools: for each a kit where it fires and one where it just does not."""

from __future__ import annotations

from typing import Any

import pytest

from layouts.assembly import steps_of
from layouts.document import Kit
from layouts.lengths import Length
from layouts.proofing.findings import Finding
from layouts.proofing.plans import plan_print
from layouts.proofing.prints import print_parts
from layouts.proofing.rules import tools
from tests.unit.proofing.small_prints import MM, ONE_WAY, Tree, decided, kit_of, paper, piece, project, window

TRIMMER: Tree = {"id": "trimmer", "name": "blade", "kind": "trimmer"}
KNIFE: Tree = {"id": "knife", "kind": "knife"}
SCISSORS: Tree = {"id": "scissors", "kind": "scissors"}
PUNCH: Tree = {"id": "punch", "kind": "punch"}
SCORER: Tree = {"id": "scorer", "kind": "scorer"}
WAVE: Tree = {"id": "wave", "name": "wave scissors", "kind": "decorative"}
GLUE: Tree = {"id": "glue", "kind": "wet-glue"}
MACHINE: Tree = {"id": "machine", "name": "cutting machine", "kind": "other"}


def _findings(kit: Kit) -> list[Finding]:
    answers = [plan_print(part, decided) for part in print_parts(kit)]
    return list(tools.findings(kit, steps_of(kit), answers))


def _facts(kit: Kit) -> list[tuple[str, tuple[str, ...], dict[str, Any]]]:
    return [(one.rule, one.at, dict(one.why)) for one in _findings(kit)]


def _step(id_: str, **members: Any) -> Tree:
    return {"id": id_, "text": "", **members}


# too-narrow-to-cut ----------------------------------------------------------------------------------------------------

_HOLDS_FIVE = {**TRIMMER, "narrowest": "5"}
_HOLDS_THREE = {"id": "fine", "kind": "trimmer", "narrowest": "3"}


@pytest.mark.parametrize(
    ("listed", "step_tools", "members", "fired"),
    [
        pytest.param([_HOLDS_FIVE], ["trimmer"], {"width": "4.9"}, True, id="a tenth narrower than it holds"),
        pytest.param([_HOLDS_FIVE], ["trimmer"], {"width": "5"}, False, id="as narrow as it holds"),
        pytest.param([_HOLDS_FIVE], ["trimmer"], {"width": "40", "height": "4"}, True, id="narrow the other way"),
        pytest.param([_HOLDS_FIVE], [], {"width": "4"}, True, id="no tools listed with the step: any of the kit"),
        pytest.param([_HOLDS_FIVE, KNIFE], ["knife"], {"width": "4"}, False, id="cut with a knife alone"),
        pytest.param([_HOLDS_FIVE, KNIFE], ["knife", "trimmer"], {"width": "4"}, True, id="the knife is for more"),
        pytest.param([_HOLDS_FIVE, _HOLDS_THREE], ["trimmer", "fine"], {"width": "4"}, False, id="another holds it"),
        pytest.param([_HOLDS_FIVE, _HOLDS_THREE], ["trimmer"], {"width": "4"}, True, id="another, but not there"),
        pytest.param([TRIMMER], ["trimmer"], {"width": "1"}, False, id="a trimmer that does not say"),
        pytest.param([KNIFE], ["knife"], {"width": "1"}, False, id="no trimmer at all"),
        pytest.param(
            [_HOLDS_FIVE, {**WAVE, "bite": "2"}],
            ["trimmer"],
            {"width": "4", "size_is": "finished", "edges": {"left": "wave"}},
            False,
            id="4 mm once an edge has taken its 2 mm: cut 6",
        ),
    ],
)
def test_a_piece_is_wide_enough_for_a_trimmer_where_it_is_cut(listed, step_tools, members, fired):
    size = {"height": "40", **members}
    strip = piece("A", size.pop("width"), size.pop("height"), **size)
    kit = kit_of(project(strip, steps=[_step("s", cut=["A"], tools=step_tools)]), tools=listed)
    narrow = [one for one in _facts(kit) if one[0] == "too-narrow-to-cut"]
    assert [at for _, at, _ in narrow] == ([("project:p/piece:A",)] if fired else [])
    if fired:
        assert narrow[0][2]["narrowest"] == 5 * MM


def test_a_narrow_form_is_told_once_with_its_numbers():
    frame = {"id": "F", "name": "rim", "as": "frame", "paper": "oak", "opening": ["30", "20"], "width": "4"}
    kit = kit_of(project(forms=[frame], steps=[_step("s", cut=["F"], tools=["trimmer"])]), tools=[_HOLDS_FIVE])
    (finding,) = _findings(kit)
    assert (finding.at, finding.why) == (("project:p/form:F",), {"narrow": 4 * MM, "narrowest": 5 * MM})
    assert "Part 1 of F (rim) is cut 4 mm wide" in finding.message
    assert "less than 5 mm" in finding.message


# too-long-to-cut ------------------------------------------------------------------------------------------------------


def _cut_from(size: tuple[str, str], sheet: tuple[str, str], *trimmers: Tree) -> Kit:
    a = piece("A", *size)
    return kit_of(
        project(a),
        papers=[paper("oak", *sheet, front=ONE_WAY)],  # nothing may be turned
        tools=list(trimmers),
    )


@pytest.mark.parametrize(
    ("size", "longest", "length", "cuts"),
    [
        # From a sheet of 100 × 80.
        pytest.param(("60", "80"), ["80"], None, 0, id="one cut of 80: just reached"),
        pytest.param(("60", "80"), ["79.9"], 80, 1, id="one cut of 80: just not"),
        pytest.param(("60", "80"), ["20", "80"], None, 0, id="another trimmer reaches"),
        pytest.param(("60", "80"), ["20", None], None, 0, id="another does not say"),
        pytest.param(("60", "80"), [], None, 0, id="no trimmer"),
        pytest.param(("100", "80"), ["20"], None, 0, id="the whole sheet needs no cut"),
        pytest.param(("100", "30"), ["99"], 100, 1, id="across the whole sheet"),
    ],
)
def test_no_cut_of_a_plan_is_longer_than_a_trimmer_reaches(size, longest, length, cuts):
    trimmers = [
        {"id": f"t{at}", "kind": "trimmer"} | ({"longest": reach} if reach else {}) for at, reach in enumerate(longest)
    ]
    found = [one for one in _facts(_cut_from(size, ("100", "80"), *trimmers)) if one[0] == "too-long-to-cut"]
    expected = []
    if cuts:
        reach = Length.of(longest[0], "mm").ticks
        expected = [("too-long-to-cut", ("paper:oak",), {"length": length * MM, "longest": reach, "cuts": cuts})]
    assert found == expected


def test_without_a_plan_the_longer_side_of_each_piece_counts():
    kit = kit_of(
        project(piece("A", "90", "70", count=2), piece("B", "60", "10")),
        papers=[paper("oak", "100", "80")],
        tools=[{**TRIMMER, "longest": "60"}],
    )
    (finding,) = _findings(kit)
    assert finding.at == ("project:p/piece:A", "paper:oak")
    assert finding.why == {"length": 90 * MM, "longest": 60 * MM, "cuts": 1}
    assert "A (piece A) is 90 mm long, and “blade” cuts 60 mm at most" in finding.message


def test_cuts_within_a_cut_out_count_as_well():
    """The host is its sheet, so that only the cut-out of 98 by 78 is cut: 98 across, at 20 mm of its height."""
    kit = kit_of(
        project(
            piece("A", "100", "80", windows=[window("w", "98", "78")]), piece("B", "98", "20", **{"from": "p/A/w"})
        ),
        papers=[paper("oak", "100", "80")],
        tools=[{**TRIMMER, "longest": "90"}],
    )
    assert _facts(kit) == [("too-long-to-cut", ("paper:oak",), {"length": 98 * MM, "longest": 90 * MM, "cuts": 1})]


# missing-tool ---------------------------------------------------------------------------------------------------------

_ALL = [TRIMMER, KNIFE, SCISSORS, PUNCH, SCORER, WAVE, GLUE, MACHINE]
_OVAL = {"shape": {"kind": "ellipse"}}
_TRIANGLE = {"shape": {"kind": "polygon", "points": [["0", "0"], ["40", "0"], ["0", "30"]]}}
_PANE = {"windows": [{**window("w", "10", "10"), "cut_out": "waste"}]}


def _tool_kit(thing: Tree, *own: Tree, listed: list[Tree] | None = None) -> Kit:
    made = {"forms": [thing]} if "as" in thing else {"pieces": [thing]}
    return kit_of({"id": "p", "title": "P", **made, "steps": list(own)}, tools=_ALL if listed is None else listed)


def _needs(kit: Kit) -> list[str]:
    return [one.why["needs"] for one in _findings(kit) if one.rule == "missing-tool"]


@pytest.mark.parametrize(
    ("members", "step_tools", "needs"),
    [
        pytest.param({}, ["trimmer"], [], id="a trimmer cuts"),
        pytest.param({}, ["knife"], [], id="a knife cuts"),
        pytest.param({}, ["scissors"], [], id="scissors cut"),
        pytest.param({}, ["machine"], [], id="another tool may cut"),
        pytest.param({}, ["glue", "scorer"], ["cut"], id="glue and a scorer do not"),
        pytest.param({}, ["punch"], ["cut"], id="nor does a punch cut a rectangle"),
        pytest.param({}, [], ["cut"], id="no tools listed with the step"),
        pytest.param(_PANE, ["trimmer", "knife"], [], id="a window by knife"),
        pytest.param(_PANE, ["scissors"], [], id="a window by scissors"),
        pytest.param(_PANE, ["trimmer", "punch"], [], id="a window by punch"),
        pytest.param(_PANE, ["trimmer"], ["window"], id="no window by trimmer"),
        pytest.param(_OVAL, ["punch"], [], id="an oval by punch alone"),
        pytest.param(_OVAL, ["trimmer", "scissors"], [], id="an oval by scissors"),
        pytest.param(_OVAL, ["trimmer"], ["outline"], id="no oval by trimmer"),
        pytest.param(_TRIANGLE, ["trimmer"], [], id="a triangle by trimmer"),
        pytest.param({"edges": {"top": "wave"}}, ["trimmer", "wave"], [], id="an edge by its own tool"),
        pytest.param({"edges": {"top": "wave"}}, ["wave"], [], id="and by that alone"),
        pytest.param({"edges": {"top": "wave"}}, ["trimmer", "scissors"], ["edge"], id="an edge by no other"),
    ],
)
def test_a_step_lists_what_its_pieces_need(members, step_tools, needs):
    kit = _tool_kit(piece("A", "40", "30", **members), _step("s", cut=["A"], tools=step_tools))
    assert _needs(kit) == needs


def _form(as_: str, **members: Any) -> Tree:
    return {"id": "F", "name": "form", "as": as_, "paper": "oak", **members}


_SCORED = _form("scored", size=["40", "30"], scores=[{"from": "top", "at": "5"}])


@pytest.mark.parametrize(
    ("form", "step_tools", "needs"),
    [
        pytest.param(_SCORED, ["trimmer", "scorer"], [], id="a scored form"),
        pytest.param(_SCORED, ["machine"], [], id="another tool may score"),
        pytest.param(_SCORED, ["trimmer", "knife"], ["score"], id="a knife does not score"),
        pytest.param(_form("scored", size=["40", "30"]), ["trimmer"], [], id="no scores"),
        pytest.param(_form("tray", inside=["20", "20"], depth="5"), ["trimmer"], ["score"], id="a tray"),
        pytest.param(_form("concertina", panel=["10", "20"], panels=3), ["trimmer"], ["score"], id="a concertina"),
        pytest.param(_form("concertina", panel=["10", "20"], panels=1), ["trimmer"], [], id="of a single panel"),
        pytest.param(_form("frame", opening=["20", "20"], width="5"), ["trimmer"], [], id="a frame"),
        pytest.param(_form("tag", size=["20", "30"]), ["trimmer"], [], id="a tag"),
        pytest.param(_form("tag", size=["20", "30"], hole="3"), ["trimmer"], ["hole"], id="a tag with a hole"),
        pytest.param(_form("tag", size=["20", "30"], hole="3"), ["punch"], [], id="a tag by punch"),
    ],
)
def test_a_step_lists_what_its_forms_need(form, step_tools, needs):
    assert _needs(_tool_kit(form, _step("s", cut=["F"], tools=step_tools))) == needs


def test_a_window_may_be_opened_in_a_later_step_and_a_form_scored_there():
    later = [_step("cut", cut=["A"], tools=["trimmer"]), _step("open", use=[{"piece": "A"}], tools=["knife"])]
    assert _needs(_tool_kit(piece("A", "40", "30", **_PANE), *later)) == []
    fold = [_step("cut", cut=["F"], tools=["trimmer"]), _step("fold", use=[{"form": "F"}], tools=["scorer"])]
    assert _needs(_tool_kit(_SCORED, *fold)) == []


def test_a_kit_that_lists_no_tools_is_not_judged():
    assert _needs(_tool_kit(piece("A", "40", "30"), _step("s", cut=["A"]), listed=[])) == []


def test_one_finding_names_everything_that_a_step_cannot_do_in_the_same_way():
    kit = kit_of(
        project(
            piece("A", "40", "30"),
            piece("B", "40", "30"),
            steps=[_step("s", cut=["A", "B"], tools=["glue"]), _step("t", cut=["B"], tools=["scissors"])],
        ),
        tools=_ALL,
    )
    (finding,) = _findings(kit)
    things = ["project:p/piece:A", "project:p/piece:B"]
    assert finding.at == ("project:p/step:s", *things)
    assert finding.why == {"needs": "cut", "can": ["trimmer", "knife", "scissors", "other"], "things": things}
    assert finding.message == (
        "Step s of “P” cuts A (piece A), B (piece B), and lists no tool that can. "
        "List a trimmer, a knife or scissors with the step."
    )


def test_the_tool_of_an_edge_is_named():
    kit = _tool_kit(piece("A", "40", "30", edges={"top": "wave"}), _step("s", cut=["A"], tools=["trimmer"]))
    (finding,) = _findings(kit)
    assert finding.why["can"] == ["tool:wave"]
    assert "needs “wave scissors” for the edges of A (piece A), and does not list it" in finding.message
