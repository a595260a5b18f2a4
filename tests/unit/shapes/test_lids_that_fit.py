"""Lids given by what they cover. 2540 µm of thickness are 0.1 in; sizes worked by hand."""

from __future__ import annotations

import pytest

from layouts.shapes import NotBuilt
from tests.unit.shapes.making import kit_of, parts_of, texts

BLANK = {"id": "chest", "name": "chest", "outside": ["7", "4", "5"], "faces": [{"id": "front", "size": ["7", "5"]}]}
TRAY = {"id": "t", "as": "tray", "inside": ["4", "3"], "depth": "1"}
LID = {"id": "lid", "as": "lid", "depth": "1"}
FITS_TRAY = LID | {"fits": {"form": "t"}}
FITS_BLANK = LID | {"fits": {"blank": "chest"}}
THIN, THICK = ({"id": i, "name": i, "size": ["12", "12"], "sheets": 1, "front": {"name": i}, "caliper_um": um}
               for i, um in (("card", 254), ("thick", 2540)))  # fmt: skip


@pytest.mark.parametrize(
    ("tray", "expected"),
    [
        # tray outside 4 + 0.2; lid inside + 1/16, score to score + 0.1, blank + 2: 6.3625
        pytest.param(TRAY, ("6 3/8", "5 3/8"), id="single wall: inside + 2 t"),
        # tray: score to score 4 + 0.3, outside + 0.1 = 4.4: 6.5625 = 6 9/16 exactly
        pytest.param(TRAY | {"walls": "double"}, ("6 9/16", "5 9/16"), id="double wall: inside + 4 t"),
        # tray outside 4 as stated: 6.1625
        pytest.param({"id": "t", "as": "tray", "outside": ["4", "3"], "depth": "1"}, ("6 3/16", "5 3/16"), id="stated"),
    ],
)
def test_a_lid_that_fits_a_tray_clears_the_outside_of_the_tray(tray, expected):
    assert texts(parts_of(kit_of(tray, FITS_TRAY, caliper_um=2540), "lid")) == [expected]


def test_a_lid_that_fits_a_blank_covers_its_width_and_depth():
    """7 × 4 seen from above, + 1/16 + 2."""
    assert texts(parts_of(kit_of(FITS_BLANK, blanks=[BLANK]), "lid")) == [("9 1/16", "6 1/16")]


def test_a_lid_over_a_lid_counts_both():
    """Outside of the first lid: 4.2 + 1/16 + 0.2 = 4.4625; + 1/16 + 0.1 + 2 = 6.625."""
    outer = {"id": "outer", "as": "lid", "depth": "1", "fits": {"form": "lid"}}
    assert texts(parts_of(kit_of(TRAY, FITS_TRAY, outer, caliper_um=2540), "outer")) == [("6 5/8", "5 5/8")]


PUT_ON_TRAY = {"id": "L", "put": {"supply": "s"}, "on": {"form": "t", "panel": "base"}}
PUT_ON_BLANK = {"id": "L", "put": {"supply": "s"}, "on": {"blank": "chest", "face": "front"}}


@pytest.mark.parametrize(
    ("forms", "more", "because"),
    [
        pytest.param([FITS_BLANK], {"blanks": [BLANK | {"outside": None}]}, "no outside stated", id="size unknown"),
        pytest.param(
            [FITS_BLANK],
            {"blanks": [BLANK], "project": {"placements": [PUT_ON_BLANK]}},
            "put on “chest”",
            id="layers on a blank",
        ),
        pytest.param(
            [TRAY, FITS_TRAY], {"project": {"placements": [PUT_ON_TRAY]}}, "put on “form”", id="layers on a form"
        ),
        pytest.param([LID | {"fits": {"form": "lid"}}], {}, "covers itself", id="a lid over itself"),
        pytest.param([{"id": "t", "as": "tag", "size": ["3", "4"]}, FITS_TRAY], {}, "is a tag", id="nothing to cover"),
        pytest.param(
            [TRAY | {"paper": {"each": ["card", "thick"]}}, FITS_TRAY],
            {"papers": [THIN, THICK], "project": {"makes": 2}},
            "differ in thickness",
            id="copies of unlike thickness under one lid",
        ),
    ],
)
def test_a_lid_over_something_uncertain_is_not_built(forms, more, because):
    with pytest.raises(NotBuilt, match=because):
        parts_of(kit_of(*forms, **more), "lid")


def test_layers_on_another_projects_form_of_the_same_id_do_not_matter():
    other = {"id": "q", "title": "Q", "forms": [TRAY | {"name": "other", "paper": "card"}], "placements": [PUT_ON_TRAY]}
    kit = kit_of(TRAY, FITS_TRAY)
    both = kit.model_copy(update={"projects": (*kit.projects, type(kit.projects[0]).model_validate(other))})
    assert texts(parts_of(both, "lid")) == [("6 1/16", "5 1/16")]


def test_each_copy_of_a_lid_fits_the_tray_of_its_own_copy():
    """A thin lid over a thick tray: 4.2 + 1/16 + 0.01 + 2 = 6.2725; thick over thin: 4.02 + 1/16 + 0.1 + 2 = 6.1825."""
    tray, lid = TRAY | {"paper": {"each": ["thick", "card"]}}, FITS_TRAY | {"paper": {"each": ["card", "thick"]}}
    kit = kit_of(tray, lid, papers=[THIN, THICK], project={"makes": 2}, printed={"in": "1/64"})
    assert texts(parts_of(kit, "lid", "card")) == [("6 9/32", "5 9/32")]
    assert texts(parts_of(kit, "lid", "thick")) == [("6 3/16", "5 3/16")]
