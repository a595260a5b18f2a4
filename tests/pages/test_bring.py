"""Things brought into a kit from another one, or from the catalogue: in one change, under free ids."""

from __future__ import annotations

from typing import Any

import pytest

from inventory.models import CatalogueItem, ItemKind
from inventory.services import item_add
from kits.planning.models import Paper
from kits.planning.queries import kit_page
from kits.planning.services import draft_undo
from tests.pages.reading import Page
from tests.services.planning_cast import drafted

pytestmark = pytest.mark.django_db

HERE = "/kits/2027-05/bring/"


@pytest.fixture
def other(cast, draft):
    """An older kit with one print of the same id and another size of pad, and a tool that is new."""
    return drafted(
        cast["planner"],
        code="2027-04",
        title="The Reed Bed",
        unit="mm",
        pads=[{"id": "shore", "name": "Reed pad", "size": ["200", "200"]}],
        papers=[{"id": "kelp", "name": "Reed", "pad": "shore", "sheets": 3, "front": {"name": "Reed"}}],
        embellishments=[],
        blanks=[],
        supplies=[],
        tools=[{"id": "knife", "kind": "knife"}, {"id": "tape", "kind": "tape"}],
        projects=[],
        accepted=[],
    )


@pytest.fixture
def frame(cast) -> CatalogueItem:
    facts = {"size": ["12", "12"], "front": {"name": "Kraft"}}
    return item_add(kind=ItemKind.PAPER, name="Kraft card", facts=facts, unit="in", by=cast["planner"])


def _read(response: Any) -> Page:
    return Page(response.content.decode())


def test_what_another_kit_has_is_offered_by_kind(other, look):
    page = look(f"{HERE}?from=2027-04")
    assert [group.one("legend").text for group in page.all("fieldset")] == [
        "Prints",
        "Pads",
        "Tools that a member is expected to have",
    ]
    labels = [one.text for one in page.all("label", for_="take-tool:knife")]
    assert labels == ["knife knife this kit has one of this name"]


def test_what_is_ticked_comes_in_one_change_under_ids_that_are_free(other, planner, cast, draft):
    before = kit_page("2027-05").document
    sent = {"from": "2027-04", "revision": "1", "take.paper:kelp": "yes", "take.tool:tape": "yes"}
    answer = planner.post(HERE, sent, follow=True)
    assert "Their ids were taken here: they are paper kelp-2 now." in _read(answer).text
    kit = kit_page("2027-05").document
    # Lengths stay what they were: the kit is in inches, the pad in millimetres.
    assert [(pad.id, [one.text("in") for one in pad.size]) for pad in kit.pads[1:]] == [
        ("shore-2", ["200 mm", "200 mm"])
    ]
    assert [(one.id, one.pad, one.sheets) for one in kit.papers[2:]] == [("kelp-2", "shore-2", 3)]
    assert [one.id for one in kit.tools] == ["knife", "wave", "tape"]
    assert kit_page("2027-05").draft.revision == 2
    draft_undo(draft=draft, revision=2, by=cast["planner"])
    assert kit_page("2027-05").document == before


def test_a_leaf_of_a_pad_that_is_here_is_a_leaf_of_that(cast, draft, planner):
    drafted(cast["planner"], code="2027-04")
    planner.post(HERE, {"from": "2027-04", "revision": "1", "take.paper:kelp": "yes"})
    kit = kit_page("2027-05").document
    assert [pad.id for pad in kit.pads] == ["shore"]
    assert [(one.id, one.pad) for one in kit.papers] == [("kelp", "shore"), ("slate", None), ("kelp-2", "shore")]


def test_the_catalogue_is_offered_too_and_the_kit_knows_what_came_from_it(frame, draft, planner, look):
    assert "Kraft card" in look(f"{HERE}?from=catalogue:").one("fieldset").text
    planner.post(HERE, {"from": "catalogue:", "revision": "1", f"take.{frame.pk}": "yes"})
    paper = kit_page("2027-05").document.papers[-1]
    assert (paper.id, paper.name, paper.sheets) == ("kraft-card", "Kraft card", 1)
    assert Paper.objects.get(ident="kraft-card").item == frame


def test_ticks_stay_when_somebody_was_quicker(other, planner):
    planner.post(HERE, {"from": "2027-04", "revision": "1", "take.tool:tape": "yes"})
    answer = planner.post(HERE, {"from": "2027-04", "revision": "1", "take.paper:kelp": "yes"})
    assert answer.status_code == 409
    page = _read(answer)
    assert "checked" in page.at("take-paper:kelp").attributes
    assert page.one("input", name="revision").attributes["value"] == "2"


def test_without_another_kit_and_a_catalogue_it_says_what_to_do(draft, look):
    assert "There is no other kit yet, and nothing in the catalogue." in look(HERE).text
