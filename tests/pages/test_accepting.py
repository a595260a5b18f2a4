"""Findings on a kit's page that an editor lets stand: for a reason, by name, until the facts change."""

from __future__ import annotations

import pytest

from kits.planning.documents import build
from kits.planning.services import piece_change
from tests.pages.checked import proved
from tests.pages.reading import Page
from tests.services.planning_cast import A

pytestmark = pytest.mark.django_db

KIT = "/kits/2027-05/"


@pytest.fixture
def editor(draft, signed_in):
    proved(draft)
    return signed_in("editor")


def _page(client, status: int = 200) -> Page:
    response = client.get(KIT)
    assert response.status_code == status
    return Page(response.content.decode())


def _form(page: Page):
    return page.all("form", action=f"{KIT}accept/")[0]


def test_a_finding_is_accepted_with_its_reason_and_counts_again(draft, editor):
    form = _form(_page(editor))
    answer = editor.post(f"{KIT}accept/", {**form.values(), "because": "tried <b>twice</b>"}, follow=True)
    assert "It counts again as soon as its facts change." in answer.content.decode()
    (old, new) = build(draft).accepted
    assert (new.because, new.by) == ("tried <b>twice</b>", "Runa Holm")
    proved(draft)
    page = _page(editor)
    assert "Accepted by Runa Holm: tried <b>twice</b>" in page.at("findings").text
    recall = page.one("form", action=f"{KIT}recall/")
    editor.post(f"{KIT}recall/", recall.values())
    assert build(draft).accepted == (old,)


def test_without_a_reason_the_form_stays_open_and_says_so(draft, editor):
    form = _form(_page(editor))
    answer = editor.post(f"{KIT}accept/", {**form.values(), "because": " "})
    assert answer.status_code == 422
    page = Page(answer.content.decode())
    number = form.values()["finding"]
    assert page.at(f"wrong-{number}").text == "Say why it may stand."
    assert page.at(f"because-{number}").attributes["aria-invalid"] == "true"


def test_what_was_typed_stays_when_the_kit_was_changed_meanwhile(draft, editor, cast):
    sent = _form(_page(editor)).values()
    piece_change(draft=draft, place=A, field="count", value=2, revision=1, by=cast["planner"])
    answer = editor.post(f"{KIT}accept/", {**sent, "because": "tried"})
    assert answer.status_code == 409
    assert "nothing has been accepted" in answer.content.decode()
    assert len(build(draft).accepted) == 1


@pytest.mark.parametrize("number", ["0", "999"])
def test_a_finding_that_is_not_there_is_not_accepted(draft, editor, number):
    answer = editor.post(f"{KIT}accept/", {"finding": number, "because": "x", "revision": "1"})
    assert answer.status_code == 409
    assert editor.post(f"{KIT}recall/", {"finding": number, "revision": "1"}).status_code == 409


@pytest.mark.parametrize("role", ["planner", "care", "stock"])
def test_who_does_not_judge_is_offered_nothing(draft, editor, signed_in, role):
    assert "accept/" not in signed_in(role).get(KIT).content.decode()
