"""What can be measured: for each kind of figure one that a tool is read to, and one between its marks."""

from __future__ import annotations

from typing import Any

import pytest

from layouts.document import Kit
from layouts.lengths import Length
from layouts.proofing.rules import fineness
from tests.unit.assembly.small_kits import CARD, Tree, kit_of, piece, project, tag

# Source: rulers and trimmers are read to 1/16 in or 1 mm (common practice, no source).
SIXTEENTHS: Tree = {"id": "trimmer", "name": "blade", "kind": "trimmer", "step": "1/16"}
MILLIMETRES: Tree = {"id": "metric", "kind": "trimmer", "step": "1 mm"}
KNIFE: Tree = {"id": "knife", "kind": "knife"}
FINE_KNIFE: Tree = {**KNIFE, "step": "1/32"}
EIGHTHS: Tree = {"id": "scorer", "kind": "scorer", "step": "1/8"}


def _fired(kit: Kit) -> list[str]:
    return [finding.at[0].removeprefix("project:shelf/") for finding in fineness.findings(kit)]


def _shelf(*tools: Tree, **members: Any) -> Kit:
    return kit_of(project("shelf", **members), papers=[CARD], tools=list(tools))


def _of_piece(*tools: Tree, **members: Any) -> list[str]:
    return _fired(_shelf(*tools, pieces=[piece("A", paper="card", **members)]))


@pytest.mark.parametrize(
    ("tools", "members", "fired"),
    [
        pytest.param([SIXTEENTHS], {"size": ["2 1/16", "3"]}, [], id="on a sixteenth"),
        pytest.param([SIXTEENTHS], {"size": ["2 1/32", "3"]}, ["piece:A/size/width"], id="between two sixteenths"),
        pytest.param(
            [SIXTEENTHS],
            {"size": ["2 1/64", "3 1/64"]},
            ["piece:A/size/width", "piece:A/size/height"],
            id="each figure by itself",
        ),
        pytest.param([SIXTEENTHS], {"size": ["73 mm", "3"]}, ["piece:A/size/width"], id="a millimetre in sixteenths"),
        pytest.param([SIXTEENTHS, MILLIMETRES], {"size": ["73 mm", "3"]}, [], id="on the other trimmer"),
        pytest.param([KNIFE], {"size": ["2 1/64", "3"]}, [], id="no tool states a step"),
        pytest.param([KNIFE | {"step": "1/8"}], {"size": ["2 1/16", "3"]}, ["piece:A/size/width"], id="the knife's"),
        pytest.param([SIXTEENTHS, FINE_KNIFE], {"size": ["2 1/32", "3"]}, ["piece:A/size/width"], id="not the knife's"),
        pytest.param(
            [SIXTEENTHS, {"id": "wave", "kind": "decorative", "bite": "1/32"}],
            {"size": ["2", "2 31/32"], "size_is": "finished", "edges": {"top": "wave"}},
            [],
            id="2 31/32 finished is cut 3",
        ),
        pytest.param(
            [SIXTEENTHS, {"id": "wave", "kind": "decorative", "bite": "1/32"}],
            {"size": ["2", "3"], "size_is": "finished", "edges": {"top": "wave"}},
            ["piece:A/size/height"],
            id="3 finished is cut 3 1/32",
        ),
    ],
)
def test_sizes_are_measured_on_the_trimmer(tools, members, fired):
    assert _of_piece(*tools, **members) == fired


def _pane(**measures: str) -> dict[str, Any]:
    return {"windows": [{"id": "w", "left": "1/2", "right": "1/2", "top": "1/2", "bottom": "1/2"} | measures]}


@pytest.mark.parametrize(
    ("tools", "members", "fired"),
    [
        pytest.param([SIXTEENTHS, KNIFE], _pane(left="9/16"), [], id="on a sixteenth"),
        pytest.param([SIXTEENTHS, KNIFE], _pane(left="17/32"), ["piece:A/window:w/left"], id="between: no other step"),
        pytest.param([SIXTEENTHS, FINE_KNIFE], _pane(left="17/32"), [], id="the knife's own step"),
        pytest.param([SIXTEENTHS, FINE_KNIFE], _pane(top="33/64"), ["piece:A/window:w/top"], id="between two of those"),
        pytest.param(
            [SIXTEENTHS, {"id": "rule", "kind": "other", "step": "1/64"}], _pane(top="33/64"), [], id="by a fine rule"
        ),
        pytest.param(
            [SIXTEENTHS],
            {"shape": {"kind": "arch", "rise": "33/64"}},
            [],
            id="what is traced from a template is not measured",
        ),
    ],
)
def test_windows_are_measured_with_the_knife(tools, members, fired):
    assert _of_piece(*tools, **members) == fired


def _form(as_: str, **members: Any) -> Tree:
    return {"id": "F", "name": "form", "as": as_, "paper": "card", **members}


@pytest.mark.parametrize(
    ("tools", "form", "fired"),
    [
        pytest.param(
            [SIXTEENTHS, EIGHTHS],
            _form("scored", size=["4", "4"], scores=[{"from": "top", "at": "3/4"}, {"from": "top", "at": "13/16"}]),
            ["form:F/scores/2/at"],
            id="a score between two grooves",
        ),
        pytest.param(
            [SIXTEENTHS],
            _form("scored", size=["4", "4"], scores=[{"from": "top", "at": "13/16"}]),
            [],
            id="a scorer that states no step",
        ),
        pytest.param([EIGHTHS], _form("scored", size=["4", "4 1/16"]), ["form:F/size/height"], id="a stated flat size"),
        # 2 + 2 × 1/2 by 1 + 1/2: the flap is scored, the flat size cut.
        pytest.param(
            [SIXTEENTHS, EIGHTHS],
            _form("pocket", panel=["2", "1"], flap="9/16"),
            ["form:F/flap"],
            id="a flap between two grooves, flat sizes on sixteenths",
        ),
        # Outside 2 with an overlap of 1/2: whatever the thickness does, the flat size is rounded up to 1/16.
        pytest.param([SIXTEENTHS], _form("sleeve", around=["2", "1"], length="3", overlap="1/2"), [], id="computed"),
        pytest.param(
            [{**SIXTEENTHS, "step": "1/4"}, EIGHTHS],
            _form("pocket", panel=["2", "1"], flap="1/8"),
            ["form:F/flat/height"],
            id="a computed flat size: 1 1/8 on quarters",
        ),
        pytest.param([SIXTEENTHS], tag("T", corner="1/32"), ["form:T/corner"], id="a clipped corner"),
        pytest.param([SIXTEENTHS], tag("T", hole="5/32"), [], id="a hole is punched"),
    ],
)
def test_forms_are_measured_where_they_are_cut_and_scored(tools, form, fired):
    assert _fired(_shelf(*tools, forms=[form])) == fired


@pytest.mark.parametrize(
    ("position", "fired"),
    [
        pytest.param({"left": "1/16", "top": "1/8"}, [], id="on sixteenths"),
        pytest.param({"left": "1/32", "top": "1/8"}, ["placement:L/left"], id="between two"),
        pytest.param({"centred": True, "middle": True, "border": "1/32"}, [], id="a border is what is left"),
        pytest.param(
            {"copies": [{"on_copy": 1, "left": "1/4", "top": "1/4"}, {"on_copy": 1, "left": "1/64", "top": "1/4"}]},
            ["placement:L/copies/2/left"],
            id="one of several copies",
        ),
    ],
)
def test_positions_are_measured_with_any_tool(position, fired):
    placement = {"id": "L", "put": {"piece": "A"}, "on": {"piece": "B"}, **position}
    assert _fired(_shelf(SIXTEENTHS, pieces=[piece("A"), piece("B")], placements=[placement])) == fired


def test_what_is_bought_or_cut_off_a_roll_is_not_measured():
    kit = kit_of(
        project("shelf", steps=[{"id": "s", "text": "", "use": [{"supply": "twine", "length": "3 1/64"}]}]),
        papers=[{**CARD, "size": ["12 1/64", "12"]}],
        blanks=[{"id": "box", "name": "box", "faces": [{"id": "lid", "size": ["2 1/64", "2"]}]}],
        supplies=[{"id": "twine", "name": "twine", "kind": "ribbon", "length": "9 1/64"}],
        tools=[SIXTEENTHS],
    )
    assert _fired(kit) == []


def test_the_message_names_the_nearest_figures():
    (finding,) = fineness.findings(_shelf(SIXTEENTHS, pieces=[piece("A", size=["2 1/32", "3"])]))
    assert finding.message == (
        "The width that A (panel A) is cut to, 2 1/32 in, cannot be measured: “blade” is read in steps of 1/16 in. "
        "Make it 2 in or 2 1/16 in, or list a finer tool."
    )
    assert finding.why == {"ticks": Length.of("2 1/32").ticks, "step": Length.of("1/16").ticks, "more": 0}


def test_of_very_many_the_first_hundred_are_told_and_the_rest_counted():
    pieces = [piece(f"A{at}", size=["2 1/32", "3"]) for at in range(120)]
    found = list(fineness.findings(_shelf(SIXTEENTHS, pieces=pieces)))
    assert [finding.why["more"] for finding in found] == [0] * 99 + [20]
    assert found[-1].message.endswith("20 further figures of this kit are too fine as well.")
