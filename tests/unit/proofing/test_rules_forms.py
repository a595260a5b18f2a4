"""The rules about folded forms: for each one where it fires and one where it just does not, worked by hand.

Inches; an inch is 8128 ticks.
"""

from __future__ import annotations

from typing import Any

import pytest

from layouts.document import Kit
from layouts.proofing.rules import forms, grain, lids
from tests.unit.assembly.small_kits import Tree, kit_of, piece, project, step

INCH = 8128
SIDES = ("left", "right", "top", "bottom")
FORM = "project:p/form:f"


def paper(**more: Any) -> Tree:
    return {"id": "card", "name": "Card", "size": ["12", "12"], "sheets": 1, "front": {"name": "Plain"}, **more}


def form(as_: str, id_: str = "f", **members: Any) -> Tree:
    return {"id": id_, "name": f"the {id_}", "as": as_, "paper": "card", **members}


def kit(*made: Tree, on: Tree | None = None, lists: Tree | None = None, **members: Any) -> Kit:
    return kit_of(project("p", forms=list(made), **members), papers=[on or paper()], **(lists or {}))


def fired(kit: Kit) -> list[str]:
    return [finding.rule for finding in forms.findings(kit)]


def scored(*scores: tuple[str, str], size: tuple[str, str] = ("8", "6"), **more: Any) -> Tree:
    return form("scored", size=list(size), scores=[{"from": side, "at": at} for side, at in scores], **more)


def box(*at: str, **more: Any) -> Tree:
    return scored(*((side, distance) for side in SIDES for distance in at), **more)


TRAY: Tree = {"inside": ["4", "3"], "depth": "1"}


@pytest.mark.parametrize(
    ("made", "rules"),
    [
        pytest.param(scored(("left", "7 63/64")), [], id="just inside"),
        pytest.param(scored(("left", "8")), ["score-outside"], id="on the opposite edge"),
        pytest.param(scored(("top", "6 1/4")), ["score-outside"], id="beyond it"),
        pytest.param(scored(("left", "3"), ("right", "4 63/64")), [], id="a base of a 64th"),
        pytest.param(scored(("left", "3"), ("right", "5")), ["panels-sum"], id="no base"),
        pytest.param(scored(("top", "4"), ("bottom", "3")), ["panels-sum"], id="scores that pass each other"),
        pytest.param(scored(("left", "1"), ("left", "1")), ["panels-sum"], id="one score twice"),
        pytest.param(scored(("left", "1"), ("top", "1")), [], id="as far from another edge"),
        pytest.param(box("3/4", "1 1/2", corners="tab"), [], id="a double wall"),
        pytest.param(box("13/16", "1 1/2", corners="tab"), ["panels-sum"], id="walls turned in that stand on the base"),
        pytest.param(box("11/16", "1 1/2", corners="tab"), [], id="walls that turn in less far"),
        pytest.param(box("1", "1 1/2", corners="cut"), [], id="much wider than the wall: the face of a frame"),
        pytest.param(box("13/16", "1 1/2"), [], id="a sheet with its corners is no box"),
        pytest.param(
            scored(*((side, "1") for side in ("left", "right")), ("top", "1 1/16"), ("bottom", "1"), corners="tab"),
            ["panels-sum"],
            id="tabs higher than the wall they are glued to",
        ),
        pytest.param(
            scored(*((side, "1") for side in ("left", "right")), ("top", "1"), ("bottom", "3/4"), corners="tab"),
            [],
            id="a low front",
        ),
        pytest.param(
            scored(*((side, "1") for side in ("left", "right")), ("top", "1 1/16"), ("bottom", "1"), corners="cut"),
            [],
            id="without tabs nothing stands out",
        ),
        pytest.param(box("1 1/2", corners="tab"), [], id="tabs of half the wall: 3 is left of 6"),
        pytest.param(box("1 9/16", corners="tab"), ["tabs-overlap"], id="tabs of more than half: 2 7/8 is left"),
        pytest.param(box("1 9/16", corners="cut"), [], id="corners cut off have no tabs"),
        pytest.param(form("tray", inside=["4", "3"], depth="1 1/2"), [], id="a tray with tabs of half its wall"),
        pytest.param(form("tray", inside=["4", "3"], depth="1 9/16"), ["tabs-overlap"], id="a tray with tabs of more"),
        pytest.param(form("tray", **TRAY, walls="double", turn_in="1"), [], id="turned in as deep as the wall"),
        pytest.param(form("tray", **TRAY, walls="double", turn_in="1 1/16"), ["panels-sum"], id="turned in deeper"),
        pytest.param(form("lid", **TRAY, turn_in="1 1/16"), ["panels-sum"], id="a hem deeper than the wall"),
        pytest.param(form("tray", **TRAY, walls="double", flange="3"), [], id="a flange as deep as the base"),
        pytest.param(
            form("tray", **TRAY, walls="double", flange="3 1/16"), ["tabs-overlap"], id="a flange deeper than the base"
        ),
        pytest.param(form("tray", **TRAY, flange="4"), [], id="a flange that stands out has room"),
        pytest.param(form("sleeve", around=["3", "1"], length="5", overlap="3"), [], id="an overlap behind its panel"),
        pytest.param(
            form("sleeve", around=["3", "1"], length="5", overlap="3 1/16"), ["tabs-overlap"], id="around the corner"
        ),
        pytest.param(
            form("concertina", panel=["1/4", "3"], panels=99), ["tabs-overlap"], id="a join wider than a panel"
        ),
        pytest.param(form("concertina", panel=["1/4", "3"], panels=48), [], id="one strip has no join"),
        pytest.param(form("concertina", panel=["1/2", "3"], panels=99), [], id="a join as wide as a panel"),
        pytest.param(form("pocket", panel=["2", "5"], flap="2"), [], id="a flap as wide as the pocket"),
        pytest.param(form("pocket", panel=["2", "5"], flap="2 1/16"), ["tabs-overlap"], id="a flap wider than it"),
        pytest.param(form("pocket", panel=["5", "2"], flap="2 1/16"), ["tabs-overlap"], id="higher than it"),
        pytest.param(
            form("pocket", panel=["5", "2"], flap="2", open="left"), [], id="as high as a pocket open at the side"
        ),
        pytest.param(
            form("envelope", holds=["5", "7"], side_flap="5", bottom_flap="7", top_flap="9"), [], id="large flaps"
        ),
        pytest.param(
            form("envelope", holds=["5", "7"], side_flap="5 3/16", bottom_flap="4", top_flap="3"),
            ["tabs-overlap"],
            id="side flaps wider than 5 1/8",
        ),
        pytest.param(
            form("envelope", holds=["5", "7"], side_flap="1", bottom_flap="7 3/16", top_flap="3"),
            ["tabs-overlap"],
            id="a bottom flap higher than 7 1/8",
        ),
        pytest.param(form("frame", opening=["1/16", "1/16"], width="5"), [], id="a frame of any proportion"),
        pytest.param(
            form("tag", size=["2", "3"], corner="1", hole="1 15/16"), [], id="a pointed tag with a large hole"
        ),
        pytest.param(form("tag", size=["2", "3"], corner="1 1/16"), ["panels-sum"], id="corners that meet too soon"),
        pytest.param(form("tag", size=["2", "3"], hole="2"), ["panels-sum"], id="a hole as wide as the tag"),
    ],
)
def test_forms_that_cannot_be_folded_are_found(made, rules):
    assert fired(kit(made)) == rules


@pytest.mark.parametrize(
    ("made", "at", "why", "said"),
    [
        pytest.param(
            scored(("left", "1"), ("top", "6 1/4")),
            f"{FORM}/scores/2/at",
            {"from": "top", "at": 6 * INCH + INCH // 4, "whole": 6 * INCH},
            ["Score 2 of “the f”", "6 1/4 in from the top", "6 in high"],
            id="a score outside",
        ),
        pytest.param(
            scored(("left", "3"), ("right", "5")),
            FORM,
            {"panel": "wall-left", "against": "wall-right", "length": 8 * INCH, "limit": 8 * INCH},
            ["left and the right", "8 in together"],
            id="no base",
        ),
        pytest.param(
            scored(("left", "1"), ("top", "1"), ("left", "1")),
            f"{FORM}/scores/3/at",
            {"panel": "scores/3", "against": "scores/1", "length": INCH, "limit": INCH},
            ["Scores 1 and 3", "1 in from the same edge"],
            id="one score twice",
        ),
        pytest.param(
            form("tray", inside=["4", "3"], depth="2"),
            FORM,
            {"tab": "tab-left-bottom", "against": "wall-left", "length": 2 * INCH, "limit": 3 * INCH // 2},
            ["2 in long", "half the wall-left", "1 1/2 in"],
            id="tabs that meet",
        ),
        pytest.param(
            form("tray", **TRAY, walls="double", turn_in="1 1/4"),
            FORM,
            {"panel": "wall-left-inner", "against": "wall-left", "length": 5 * INCH // 4, "limit": INCH},
            ["wall-left-inner", "1 1/4 in", "Make it 1 in or less"],
            id="turned in too far",
        ),
        pytest.param(
            form("tag", size=["2", "3"], hole="2 1/2"),
            FORM,
            {"panel": "hole", "against": "base", "length": 5 * INCH // 2, "limit": 2 * INCH},
            ["2 1/2 in across", "only 2 in"],
            id="a hole too large",
        ),
    ],
)
def test_what_is_wrong_with_a_form_is_told_with_its_numbers(made, at, why, said):
    found = next(iter(forms.findings(kit(made))))
    assert found.at == (at,)
    assert found.why == why
    for words in said:
        assert words in found.message


def test_of_very_many_wrong_scores_twenty_are_told():
    found = list(forms.findings(kit(scored(*[("left", "9")] * 50))))
    assert len(found) == 20
    assert found[-1].message.endswith("And 30 more are wrong with this form.")
    assert "more are wrong" not in found[-2].message


# Grain --------------------------------------------------------------------------------------------------------------

STRIP = form("concertina", panel=["3", "4"], panels=3, print_reads="up")
CARD = paper(grain="sideways", caliper_um=300, front={"name": "Plain", "repeat": "one-way"})


@pytest.mark.parametrize(
    ("made", "on", "rules"),
    [
        pytest.param(STRIP, CARD, ["fold-across-grain"], id="the print forbids to turn it"),
        pytest.param(STRIP, CARD | {"grain": "up"}, [], id="along the grain"),
        pytest.param(STRIP, CARD | {"grain": None}, [], id="grain not stated"),
        pytest.param(STRIP, CARD | {"caliper_um": 249}, [], id="paper, not card"),
        pytest.param(STRIP, CARD | {"caliper_um": None}, [], id="nobody knows whether it is card"),
        pytest.param(
            STRIP, CARD | {"caliper_um": None, "grammage": 200}, ["fold-across-grain"], id="card by its weight"
        ),
        pytest.param(STRIP | {"print_reads": "any"}, CARD, [], id="it may be turned"),
        pytest.param(
            STRIP | {"print_reads": "any"}, CARD | {"size": ["9", "4"]}, ["fold-across-grain"], id="no room to turn it"
        ),
        pytest.param(STRIP, CARD | {"size": ["3", "3"]}, [], id="it does not fit at all: the paper tells"),
        pytest.param(STRIP | {"panel": ["3", "2"]}, CARD, [], id="folds of 2 in"),
        pytest.param(STRIP | {"panel": ["3", "2 1/16"]}, CARD, ["fold-across-grain"], id="folds of more"),
        pytest.param(
            form("tray", inside=["4", "3"], depth="1", print_reads="up"), CARD, [], id="a box folds both ways anyway"
        ),
        pytest.param(
            form("tray", inside=["1", "9"], depth="1/4", print_reads="up"), CARD, ["fold-across-grain"], id="a long box"
        ),
        pytest.param(form("tag", size=["3", "4"], print_reads="up"), CARD, [], id="nothing is folded"),
    ],
)
def test_a_long_fold_across_the_grain_of_card_is_noted(made, on, rules):
    assert [finding.rule for finding in grain.findings(kit(made, on=on))] == rules


def test_the_fold_across_the_grain_is_named():
    (found,) = grain.findings(kit(STRIP, on=CARD))
    assert found.at == (FORM,)
    assert found.why == {"between": ["panel-1", "panel-2"], "length": 4 * INCH, "grain": "sideways"}
    assert "between panel-1 and panel-2 is 4 in long" in found.message


def test_a_form_that_cannot_be_folded_is_not_judged_by_its_folds():
    made = form("tray", outside=["9", "1/4 in"], depth="1", walls="double", print_reads="up")
    assert list(grain.findings(kit(made, on=CARD | {"caliper_um": 3000}))) == []
    assert list(grain.findings(kit(form("tray", inside=["1", "9"], depth="1", print_reads="up"), on=CARD))) == []


# Panels that there are not -------------------------------------------------------------------------------------------


def on(panel: str, id_: str = "L", of: str = "f") -> Tree:
    return {"id": id_, "put": {"piece": "A"}, "on": {"form": of, "panel": panel}}


@pytest.mark.parametrize(
    ("made", "panel", "rules"),
    [
        pytest.param(form("tray", **TRAY), "wall-left", [], id="a wall"),
        pytest.param(
            form("tray", **TRAY), "wall-left-inner", ["unknown-reference"], id="single walls have no inner one"
        ),
        pytest.param(form("tray", **TRAY), "tab-left-top", ["unknown-reference"], id="tabs carry nothing"),
        pytest.param(form("tag", size=["3", "4"]), "panel-1", [], id="the only panel"),
        pytest.param(
            form("concertina", panel=["3", "4"], panels=4), "panel-5", ["unknown-reference"], id="the fifth of four"
        ),
        pytest.param(scored(("left", "1")), "wall-right", ["unknown-reference"], id="no score on that side"),
        pytest.param(scored(("left", "9")), "wall-left", ["score-outside"], id="its score is wrong: told once"),
    ],
)
def test_a_placement_on_a_panel_that_there_is_not_is_an_unknown_reference(made, panel, rules):
    assert fired(kit(made, pieces=[piece("A", paper="card")], placements=[on(panel)])) == rules


def test_an_unknown_panel_is_told_with_the_ones_there_are():
    made = form("tray", **TRAY, walls="double")
    (found,) = forms.findings(kit(made, pieces=[piece("A", paper="card")], placements=[on("wall-front")]))
    assert found.at == ("project:p/placement:L", FORM)
    assert found.why == {"text": "wall-front"}
    assert "base, wall-bottom, wall-bottom-inner, wall-top" in found.message
    assert found.message.endswith("and more.")


# Lids ---------------------------------------------------------------------------------------------------------------

CHEST = {
    "id": "chest",
    "name": "chest",
    "outside": ["7", "4", "5"],
    "faces": [
        {"id": "front", "size": ["7", "5"]},
        {"id": "top", "size": ["7", "4"]},
        {"id": "within", "size": ["7", "4"], "inside": True},
    ],
}
CLOSING = step("close", closes=["chest"], use=[{"form": "f"}])
ON_FRONT = {"id": "front", "put": {"piece": "A"}, "on": {"blank": "chest", "face": "front"}}


def put(thing: Tree, **on: str) -> Tree:
    return {"id": "L", "put": thing, "on": on}


def lid_rules(*made: Tree, thick: int | None = None, **members: Any) -> list[str]:
    pieces = [piece("A", paper="card")]
    found = kit(*made, on=paper(caliper_um=thick), lists={"blanks": [CHEST]}, pieces=pieces, **members)
    return [finding.rule for finding in lids.findings(found)]


def lid(width: str, depth: str, **more: Any) -> Tree:
    return form("lid", inside=[width, depth], depth="1", **more)


TIGHT = ["lid-too-tight"]


@pytest.mark.parametrize(
    ("made", "members", "rules"),
    [
        pytest.param([lid("7 1/64", "4 1/64")], {"steps": [CLOSING]}, [], id="a 64th larger"),
        pytest.param([lid("7", "4 1/64")], {"steps": [CLOSING]}, TIGHT, id="as wide as what it closes"),
        pytest.param([lid("7 1/64", "3 7/8")], {"steps": [CLOSING]}, TIGHT, id="less deep"),
        pytest.param([lid("4 1/16", "7 1/16")], {"steps": [CLOSING]}, [], id="turned by a quarter it goes over"),
        pytest.param(
            [lid("3", "2")], {"steps": [step("use", use=[{"form": "f"}])]}, [], id="nobody says what it covers"
        ),
        pytest.param(
            [lid("3", "2"), lid("2", "1", id_="g")],
            {"steps": [step("close", closes=["chest"], use=[{"form": "f"}, {"form": "g"}])]},
            [],
            id="two lids are used: which closes it?",
        ),
        pytest.param([form("tray", **TRAY)], {"steps": [CLOSING]}, [], id="a tray that closes it may go into it"),
        pytest.param(
            [box("1", corners="tab", size=("9", "6"))], {"steps": [CLOSING]}, [], id="a scored box need be no lid"
        ),
        pytest.param(
            [box("1", corners="tab", size=("9", "6"), name="lid of it")],
            {"steps": [CLOSING]},
            TIGHT,
            id="but one that is called lid, 7 × 4 from score to score",
        ),
        pytest.param(
            [box("1", corners="tab", size=("9 1/16", "6 1/16"), name="the Lid")],
            {"steps": [CLOSING]},
            [],
            id="a scored lid with room",
        ),
        pytest.param(
            [lid("7", "4")],
            {"placements": [put({"form": "f"}, blank="chest", face="top")]},
            TIGHT,
            id="put on top of it",
        ),
        pytest.param(
            [lid("3", "2")],
            {"placements": [put({"form": "f"}, blank="chest", face="front")]},
            [],
            id="put on its front",
        ),
        pytest.param(
            [lid("3", "2")], {"placements": [put({"form": "f"}, blank="chest", face="within")]}, [], id="put into it"
        ),
        pytest.param(
            [lid("4", "3"), form("tray", "t", **TRAY)],
            {"placements": [put({"form": "t"}, form="f", panel="base", skin="inside")]},
            TIGHT,
            id="a tray is put into it",
        ),
        pytest.param(
            [lid("4 1/16", "3 1/16"), form("tray", "t", **TRAY)],
            {"placements": [put({"form": "t"}, form="f", panel="base", skin="inside")]},
            [],
            id="a tray that it goes over",
        ),
        pytest.param(
            [form("lid", fits={"blank": "chest"}, depth="1")],
            {"steps": [CLOSING], "placements": [ON_FRONT]},
            [],
            id="a lid that fits is larger by its clearance",
        ),
        pytest.param(
            [lid("6", "3"), form("tag", "g", size=["2", "2"])],
            {"steps": [step("close", closes=["g"], use=[{"form": "f"}])]},
            [],
            id="the size of what it closes is not known",
        ),
    ],
)
def test_a_lid_that_does_not_go_over_is_found(made, members, rules):
    assert lid_rules(*made, **members) == rules


@pytest.mark.parametrize(("depth", "rules"), [("104.1 mm", TIGHT), ("104.2 mm", [])])
def test_layers_on_the_walls_count(depth, rules):
    """A paper of 2540 µm on the front of a chest that is 4 in deep: 101.6 + 2.54 = 104.14 mm."""
    made = form("lid", inside=["8", depth], depth="1")
    assert lid_rules(made, thick=2540, steps=[CLOSING], placements=[ON_FRONT]) == rules


def test_a_tight_lid_is_told_with_both_sizes():
    found = kit(lid("7", "3 7/8"), lists={"blanks": [CHEST]}, steps=[CLOSING])
    (finding,) = lids.findings(found)
    assert finding.at == (FORM, "blank:chest", "project:p/step:close")
    assert finding.why == {"inside": [7 * INCH, 31 * INCH // 8], "covers": [7 * INCH, 4 * INCH]}
    assert "7 in × 3 7/8 in inside" in finding.message
    assert "7 in × 4 in outside" in finding.message
