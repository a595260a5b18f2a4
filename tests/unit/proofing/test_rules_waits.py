"""Rules about waits: for each a kit where it fires and one where it just does not."""

from __future__ import annotations

from typing import Any

import pytest

from layouts.assembly import steps_of
from layouts.document import Kit
from layouts.proofing.findings import Finding
from layouts.proofing.rules import waits
from tests.unit.assembly.small_kits import CARD, Tree, kit_of, piece, project, step, tag

TOOLS: list[Tree] = [
    {"id": "paste", "kind": "wet-glue"},
    {"id": "heavy", "kind": "solvent-glue"},
    {"id": "gun", "kind": "hot-glue"},
    {"id": "tape", "kind": "tape"},
    {"id": "knife", "kind": "knife"},
]
# A box with an inner and an outer face.
BOX: Tree = {
    "id": "box",
    "name": "box",
    "faces": [{"id": "floor", "size": ["6", "6"], "inside": True}, {"id": "front", "size": ["6", "6"]}],
}
FEET: Tree = {"id": "feet", "name": "feet", "count": 4}


def _findings(kit: Kit) -> list[Finding]:
    return list(waits.findings(kit, steps_of(kit)))


def _shelf(*own: Tree, **members: Any) -> Kit:
    members.setdefault("pieces", [piece("A"), piece("B"), piece("C")])
    return kit_of(project("shelf", steps=list(own), **members), papers=[CARD], blanks=[BOX, FEET], tools=TOOLS)


def _fired(kit: Kit) -> list[tuple[str, str]]:
    return [(finding.rule, " ".join(at.rpartition(":")[2] for at in finding.at)) for finding in _findings(kit)]


# wait-missing ---------------------------------------------------------------------------------------------------------

_FEET: Tree = {"use": [{"blank": "feet"}, {"blank": "box"}]}
_TURN = step("turn", use=[{"blank": "box"}])


@pytest.mark.parametrize(
    ("own", "fired"),
    [
        pytest.param([step("glue", tools=["heavy"], **_FEET), _TURN], ["glue box"], id="handled, and no wait"),
        pytest.param([step("glue", tools=["heavy"], dry="30 min", **_FEET), _TURN], [], id="left to dry"),
        pytest.param([step("glue", tools=["heavy"], **_FEET)], [], id="nothing comes after"),
        pytest.param(
            [step("glue", tools=["heavy"], **_FEET), step("next", use=[{"piece": "A"}])], [], id="not handled"
        ),
        pytest.param(
            [step("glue", tools=["heavy"], **_FEET), step("next", use=[{"piece": "A"}]), _TURN],
            ["glue box"],
            id="handled two steps later",
        ),
        pytest.param(
            [step("glue", tools=["heavy"], **_FEET), step("turn", use=[{"blank": "box"}], after=[])],
            [],
            id="the other step need not come after",
        ),
        pytest.param(
            [step("turn", use=[{"blank": "box"}]), step("glue", tools=["heavy"], **_FEET)], [], id="handled before"
        ),
        pytest.param(
            [step("glue", tools=["heavy"], hold="5 min", **_FEET), _TURN], ["glue box"], id="holding is no drying"
        ),
        pytest.param(
            [step("glue", tools=["paste"], **_FEET), _TURN], [], id="paper glue on other things needs no wait"
        ),
        pytest.param([step("glue", tools=["gun"], **_FEET), _TURN], [], id="hot glue sets at once"),
    ],
)
def test_solvent_glue_dries_before_the_thing_is_handled(own, fired):
    assert _fired(_shelf(*own)) == [("wait-missing", at) for at in fired]


def _form(as_: str, **members: Any) -> Tree:
    return {"id": "F", "name": "form", "as": as_, "paper": "card", **members}


_TRAY = _form("tray", inside=["3", "3"], depth="1")
_GLUE = step("glue", cut=["F"], use=[{"form": "F"}], tools=["paste"])
_LATER = step("later", use=[{"form": "F"}])


@pytest.mark.parametrize(
    ("form", "fired"),
    [
        pytest.param(_TRAY, True, id="a tray: corner tabs"),
        pytest.param({**_TRAY, "corner": "cut"}, False, id="a tray whose corners are cut away"),
        pytest.param({**_TRAY, "corner": "cut", "walls": "double"}, True, id="its walls glued double"),
        pytest.param(_form("lid", inside=["3", "3"], depth="1"), True, id="a lid"),
        pytest.param(_form("sleeve", around=["2", "1"], length="3", overlap="1/2"), True, id="a sleeve: overlap"),
        pytest.param(_form("concertina", panel=["3", "3"], panels=8), True, id="a concertina of two strips: joins"),
        pytest.param(_form("concertina", panel=["3", "3"], panels=4), False, id="a concertina of one strip"),
        pytest.param(_form("pocket", panel=["3", "3"], flap="1/2"), True, id="a pocket: flaps"),
        pytest.param(
            _form("envelope", holds=["3", "3"], side_flap="1/2", bottom_flap="2", top_flap="1"), True, id="an envelope"
        ),
        pytest.param(_form("frame", opening=["3", "3"], width="1/2"), False, id="a frame is glued to something else"),
        pytest.param(_form("tag", size=["2", "3"]), False, id="a tag"),
        pytest.param(_form("scored", size=["3", "3"], corners="tab"), True, id="a scored sheet with tabs"),
        pytest.param(_form("scored", size=["3", "3"]), False, id="a scored sheet without"),
    ],
)
def test_a_form_glued_to_itself_dries_before_it_is_handled(form, fired):
    assert _fired(_shelf(_GLUE, _LATER, forms=[form])) == ([("wait-missing", "glue F")] if fired else [])


_LINING = [{"id": "l", "put": {"piece": "A"}, "on": {"form": "F", "panel": "base"}, "centred": True, "middle": True}]


@pytest.mark.parametrize(
    ("own", "fired"),
    [
        pytest.param([_GLUE | {"dry": "10 min"}, _LATER], [], id="left to dry"),
        pytest.param([_GLUE], [], id="nothing comes after"),
        pytest.param(
            [_GLUE | {"dry": "10 min"}, step("line", use=[{"piece": "A"}], tools=["paste"]), _LATER],
            [],
            id="what is glued on later needs no wait",
        ),
        pytest.param(
            [
                step("line", use=[{"piece": "A"}], tools=["paste"]),
                step("fold", use=[{"form": "F"}], tools=["paste"], dry="10 min"),
                _LATER,
            ],
            [],
            id="lined flat, then glued and left to dry",
        ),
        pytest.param(
            [
                step("line", use=[{"piece": "A"}], tools=["paste"]),
                step("fold", use=[{"form": "F"}], tools=["paste"]),
                _LATER,
            ],
            ["fold F"],
            id="lined flat, then glued without",
        ),
        pytest.param(
            [step("all", cut=["F"], use=[{"form": "F"}, {"piece": "A"}], tools=["paste"]), _LATER],
            ["all F"],
            id="glued and lined in one step",
        ),
        pytest.param(
            [
                step("fold", cut=["F"], use=[{"form": "F"}], tools=["tape"]),
                step("fix", use=[{"form": "F"}], tools=["paste"]),
                _LATER,
            ],
            [],
            id="taped together, then glued to something",
        ),
        pytest.param(
            [step("fold", cut=["F"], closes=["F"], tools=["paste"]), _LATER], ["fold F"], id="closed by its glue"
        ),
    ],
)
def test_the_step_that_glues_a_form_itself_is_found(own, fired):
    kit = _shelf(*own, forms=[_TRAY], placements=_LINING)
    assert _fired(kit) == [("wait-missing", at) for at in fired]


def test_a_missing_wait_names_the_steps_that_will_be_too_early():
    finding = _findings(_shelf(step("glue", tools=["heavy"], **_FEET), _TURN))[0]
    assert finding.why == {"glue": "solvent-glue", "handled_by": ["project:shelf/step:turn"]}
    assert finding.message.startswith(
        "Step glue of “Shelf” uses solvent glue and gives it no time to dry, although step turn will handle box."
    )


def test_steps_in_a_circle_are_told_by_another_rule():
    kit = _shelf(
        step("glue", tools=["heavy"], after=["turn"], **_FEET), step("turn", use=[{"blank": "box"}], closes=["box"])
    )
    assert _fired(kit) == []


# closed-before-use ----------------------------------------------------------------------------------------------------


def _put(on: Tree, thing: str = "A", **members: Any) -> Tree:
    return {"id": f"{thing}-in", "put": {"piece": thing}, "on": on, "centred": True, "middle": True, **members}


_FLOOR = {"blank": "box", "face": "floor"}
_FRONT = {"blank": "box", "face": "front"}
_CLOSE = step("close", closes=["box"])
_LAY = step("lay", use=[{"piece": "A"}])


@pytest.mark.parametrize(
    ("placements", "own", "fired"),
    [
        pytest.param([_put(_FLOOR)], [_CLOSE, _LAY], ["lay box"], id="put in after it is closed"),
        pytest.param([_put(_FLOOR)], [_LAY, _CLOSE], [], id="put in before"),
        pytest.param([_put(_FLOOR)], [step("both", use=[{"piece": "A"}], closes=["box"])], [], id="in the same step"),
        pytest.param(
            [_put(_FLOOR)], [_CLOSE, step("lay", use=[{"piece": "A"}], after=[])], [], id="need not come after"
        ),
        pytest.param([_put(_FRONT)], [_CLOSE, _LAY], [], id="put on its outside"),
        pytest.param([_put(_FRONT, layer="behind")], [_CLOSE, _LAY], ["lay box"], id="put behind its front"),
        pytest.param([_put(_FLOOR, layer="behind")], [_CLOSE, _LAY], [], id="put under its floor"),
        pytest.param([_put(_FLOOR, "B"), _put({"piece": "B"})], [_CLOSE, _LAY], ["lay box"], id="on what lies in it"),
        pytest.param([_put(_FRONT, "B"), _put({"piece": "B"})], [_CLOSE, _LAY], [], id="on what lies on it"),
        pytest.param([_put(_FLOOR)], [_LAY], [], id="nothing is closed"),
        pytest.param([], [_CLOSE, _LAY], [], id="nothing is put in"),
    ],
)
def test_nothing_is_put_into_a_blank_after_a_step_that_closes_it(placements, own, fired):
    assert _fired(_shelf(*own, placements=placements)) == [("closed-before-use", at) for at in fired]


@pytest.mark.parametrize(
    ("skin", "layer", "fired"),
    [("inside", "over", True), ("outside", "over", False), ("outside", "behind", True), ("inside", "behind", False)],
)
def test_nothing_is_put_into_a_form_after_a_step_that_closes_it(skin, layer, fired):
    placement = _put({"form": "T", "panel": "panel-1", "skin": skin}, layer=layer)
    kit = _shelf(step("close", closes=["T"]), _LAY, forms=[tag("T")], placements=[placement])
    assert _fired(kit) == ([("closed-before-use", "lay T")] if fired else [])


def test_a_thing_closed_too_early_is_told_with_who_closed_it():
    (finding,) = _findings(_shelf(_CLOSE, step("next"), _LAY, placements=[_put(_FLOOR)]))
    assert finding.why == {"closed_by": ["project:shelf/step:close"], "put": ["project:shelf/piece:A"]}
    assert finding.message == (
        "Step lay of “Shelf” puts A into box, which step close has closed. Put it in before, or close the thing later."
    )
