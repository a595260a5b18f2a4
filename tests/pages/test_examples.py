"""Folded parts are chosen by a picture of each construction."""

from __future__ import annotations

import re

import pytest

from frontend.kit_page.things.examples import construction_examples
from frontend.kit_page.things.folding import CONSTRUCTIONS

NEW = "/kits/2027-05/projects/box/add/form/"


@pytest.mark.django_db
def test_every_construction_is_chosen_by_its_picture(draft, look):
    page = look(NEW)
    cards = page.one("ul", class_="constructions").all("li")
    assert [card.one("a").attributes["href"] for card in cards] == [f"?as={name}" for name in CONSTRUCTIONS]
    for card in cards:
        drawing = card.all("svg")[0]
        # Its name says what it shows, for who cannot see it.
        assert drawing.all("title")[0].text.startswith(card.one("a").text.lower())
        assert card.all("p")[0].text.endswith(".")


@pytest.mark.django_db
@pytest.mark.parametrize("name", CONSTRUCTIONS)
def test_the_picture_leads_to_the_form_of_its_construction(draft, look, name):
    assert look(f"{NEW}?as={name}").one("input", name="as").attributes["value"] == name


def test_only_boxes_are_shown_standing_as_well():
    standing = {one.name for one in construction_examples() if len(one.drawings) == 2}
    assert standing == {"tray", "lid"}


def test_the_examples_are_as_large_as_they_say():
    # A tray of 60 by 40 with walls of 15 all round: 60 + 2 × 15 by 40 + 2 × 15.
    tray = next(one for one in construction_examples() if one.name == "tray")
    assert "flat, 90 by 70 mm" in tray.drawings[0]


def test_no_two_drawings_of_the_page_have_an_id_in_common():
    ids = re.findall(r' id="([^"]+)"', "".join(one for each in construction_examples() for one in each.drawings))
    assert len(ids) == len(set(ids))
