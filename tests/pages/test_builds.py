"""Test builds as they are recorded and read, and their photographs, which the team alone gets."""

from __future__ import annotations

import io

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image

from kits.planning.models import TestBuild, TestBuildPhoto
from kits.planning.services import build_add_photos, build_record, id_rename
from tests.pages.reading import Page
from tests.pages.test_access import ROLES
from tests.services.planning_cast import A

pytestmark = pytest.mark.django_db

WHERE = "/kits/2027-05/test-builds/"
RECORD = {"revision": "1", "unit": "mm", "tools": "knife, glue", "minutes": "95", "deviations": "Scored\ntwice."}


def _read(response) -> Page:
    return Page(response.content.decode())


def _photo() -> bytes:
    written = io.BytesIO()
    Image.new("RGB", (8, 6), "teal").save(written, "PNG")
    return written.getvalue()


@pytest.fixture(autouse=True)
def _media(settings, tmp_path) -> None:
    settings.MEDIA_ROOT = tmp_path


@pytest.fixture
def build(draft, cast) -> TestBuild:
    made = build_record(draft=draft, by=cast["care"], revision=1, unit="in", tools="knife", minutes=95, deviations="")
    build_add_photos(build=made, photos=[_photo()], by=cast["care"])
    return made


@pytest.mark.parametrize(
    ("method", "path", "answers"),
    [
        pytest.param("get", "{}/1.jpg", (200, 200, 200, 200, 404, 302), id="photograph"),
        pytest.param("post", "{}/photos/", (403, 403, 302, 403, 404, 302), id="more photographs"),
    ],
)
def test_the_team_looks_and_whoever_made_it_adds(build, signed_in, method, path, answers):
    got = {role: getattr(signed_in(role), method)(WHERE + path.format(build.pk)) for role in ROLES}
    assert tuple(got[role].status_code for role in ROLES) == answers


def test_a_photograph_is_sent_as_what_it_is(build, planner):
    answer = planner.get(f"{WHERE}{build.pk}/1.jpg")
    assert answer.headers["Content-Type"] == "image/jpeg"
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert answer.content.startswith(b"\xff\xd8\xff")
    assert planner.get(f"{WHERE}{build.pk}/2.jpg").status_code == 404


def test_without_a_record_the_page_says_what_to_do(draft, look, signed_in):
    page = look(WHERE)
    assert "Nobody has made this kit from its sheets alone yet." in page.text
    assert "You planned this kit" in page.text
    assert not page.all("select", id="revision")
    assert _read(signed_in("stock").get(WHERE)).all("select", id="revision")


def test_a_build_is_recorded_and_photographs_are_added(draft, signed_in):
    client = signed_in("care")
    page = _read(client.post(WHERE, RECORD, follow=True))
    assert "The kit has been made from its sheets as it is now." in page.text
    (record,) = page.one("ul", class_="talk").all("li")
    assert "revision 1, sheets in millimetres, 95 minutes" in record.text
    assert "Different from the sheets: Scored twice." in record.text
    number = TestBuild.objects.get().pk
    files = [SimpleUploadedFile("a.png", _photo()), SimpleUploadedFile("b.png", _photo())]
    client.post(f"{WHERE}{number}/photos/", {"file": files})
    pictures = _read(client.get(WHERE)).one("div", class_="photos").all("img")
    assert [one.attributes["src"] for one in pictures] == [f"{WHERE}{number}/1.jpg", f"{WHERE}{number}/2.jpg"]
    assert pictures[0].attributes["alt"] == "Photograph 1 of the test build by Tove Adler"


def test_a_build_of_an_earlier_state_says_so(build, draft, look, cast):
    id_rename(draft=draft, place=A, to="C", revision=1, by=cast["planner"])
    page = look(WHERE)
    assert "but not as it is now: it was changed since" in page.text
    assert "Of an earlier state, revision 1" in page.text


@pytest.mark.parametrize(
    ("changes", "field", "words"),
    [
        ({"minutes": "an hour"}, "minutes", "Say how many minutes it took, from 1 to 10,000."),
        ({"tools": ""}, "tools", "Say which tools you used."),
        ({"revision": "9"}, "revision", "Choose the state of the kit whose sheets you had."),
    ],
)
def test_a_record_that_is_refused_keeps_what_was_typed(draft, signed_in, changes, field, words):
    answer = signed_in("care").post(WHERE, {**RECORD, **changes})
    page = _read(answer)
    assert answer.status_code == 422
    assert page.at(f"{field}-wrong").text == words
    assert page.at("minutes").attributes["value"] == {**RECORD, **changes}["minutes"]
    assert page.at("deviations").text == "Scored twice."


def test_what_is_no_photograph_is_refused_in_words(build, signed_in):
    client = signed_in("care")
    sent = {"file": SimpleUploadedFile("a.png", b"<script>alert(1)</script>")}
    page = _read(client.post(f"{WHERE}{build.pk}/photos/", sent, follow=True))
    assert "No photograph was added: this is no picture that can be read" in page.text
    assert TestBuildPhoto.objects.count() == 1
