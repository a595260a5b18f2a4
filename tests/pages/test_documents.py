"""Documents in and out: a new kit, a known code, a draft replaced, draft and proof downloaded; nothing sent is lost."""

from __future__ import annotations

import hashlib
import json

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from kits.planning.models import Kit
from kits.planning.queries import kit_page
from layouts.document import canonical_bytes, read_kit
from tests.pages.checked import proved
from tests.pages.reading import Page
from tests.services.planning_cast import A, box_bytes

pytestmark = pytest.mark.django_db


def _file(content: bytes) -> SimpleUploadedFile:
    return SimpleUploadedFile("kit.json", content, content_type="application/json")


def _read(response) -> Page:
    return Page(response.content.decode())


def test_without_a_kit_the_list_says_how_to_begin(planner, signed_in):
    assert _read(planner.get("/kits/")).one("a", class_="main").attributes["href"] == "/new-kit/"
    assert "As soon as a planner brings one in" in _read(signed_in("stock").get("/kits/")).text


def test_the_list_leads_to_each_kit_with_its_verdict(draft, look):
    row = look("/kits/").one("ul", class_="kits").one("li")
    assert row.text == "2027-05 The Tide Table Being checked"
    assert row.one("a").attributes["href"] == "/kits/2027-05/"
    proved(draft)
    assert look("/kits/").one("ul", class_="kits").one("li").text.endswith("Not ready")


@pytest.mark.parametrize("way", ["file", "pasted"])
def test_a_kit_comes_from_a_document(planner, way):
    sent = {"file": _file(box_bytes())} if way == "file" else {"text": box_bytes().decode()}
    answer = planner.post("/new-kit/", sent, follow=True)
    assert answer.redirect_chain == [("/kits/2027-05/", 302)]
    assert "The kit is here, and is being checked." in _read(answer).text
    assert kit_page("2027-05").document.title == "The Tide Table"


def test_a_document_is_refused_with_every_reason_and_comes_back_to_be_mended(planner):
    wrong = box_bytes(unit="ell", title=7)
    answer = planner.post("/new-kit/", {"file": _file(wrong)})
    assert answer.status_code == 422
    page = _read(answer)
    reasons = [[cell.text for cell in row.all("td")] for row in page.one("table", class_="reasons").all("tr")[1:]]
    assert [where for where, _ in reasons] == ["/title", "/unit"]
    assert all(what for _, what in reasons)
    assert page.at("text").parts == ["\n" + wrong.decode()]
    assert not Kit.objects.exists()


@pytest.mark.parametrize(
    ("content", "code"),
    [
        pytest.param(b"no json <b>", "not-json", id="no JSON"),
        pytest.param(b"\x80{}", "not-json", id="no UTF-8"),
        pytest.param(b"\xef\xbb\xbf{}", "byte-order-mark", id="byte-order mark"),
        pytest.param(b" " * (4 * 1024 * 1024 + 1), "too-large", id="more than 4 MiB"),
    ],
)
def test_what_is_no_document_at_all_is_refused_as_well(planner, content, code):
    answer = planner.post("/new-kit/", {"file": _file(content)})
    assert answer.status_code == 422
    assert _read(answer).one("table", class_="reasons").one("span", class_="aside").text == code


def test_nothing_sent_is_asked_for(planner):
    answer = planner.post("/new-kit/", {})
    assert answer.status_code == 422
    assert "Choose a file, or paste the document." in _read(answer).text


def test_an_upload_larger_than_any_document_is_not_read(planner):
    answer = planner.post("/new-kit/", {"file": _file(b" " * (9 * 1024 * 1024 + 1))})
    assert answer.status_code == 413
    assert "A kit document has at most 4 MiB, a picture" in _read(answer).text


def test_a_known_code_is_replaced_only_by_choice(draft, planner):
    answer = planner.post("/new-kit/", {"file": _file(box_bytes(title="The Ebb Table"))})
    assert answer.status_code == 409
    page = _read(answer)
    assert "There is already a kit with this code: The Tide Table" in page.text
    assert kit_page("2027-05").document.title == "The Tide Table"
    form = page.one("main").one("form")
    assert form.attributes["action"] == "/kits/2027-05/replace/"
    assert form.values()["revision"] == "1"
    answer = planner.post(form.attributes["action"], {"revision": "1", "text": form.one("textarea").text})
    assert (answer.status_code, answer.headers["Location"]) == (302, "/kits/2027-05/")
    assert kit_page("2027-05").document.title == "The Ebb Table"


def test_replacing_can_be_undone(draft, planner, look):
    planner.post("/kits/2027-05/replace/", {"revision": "1", "file": _file(box_bytes(title="The Ebb Table"))})
    standing = look("/kits/2027-05/").at("standing")
    assert standing.one("button").text == "Undo the document was replaced"
    planner.post("/kits/2027-05/undo/", standing.one("form").values())
    assert kit_page("2027-05").document.title == "The Tide Table"


def test_a_draft_that_has_moved_on_is_not_replaced_unseen(draft, planner):
    planner.post("/kits/2027-05/pieces/", {"place": A, "field": "count", "value": "2", "revision": "1"})
    new = box_bytes(title="The Ebb Table")
    answer = planner.post("/kits/2027-05/replace/", {"revision": "1", "file": _file(new)})
    assert answer.status_code == 409
    page = _read(answer)
    assert "it was at revision 1, it is at 2 now" in page.text
    assert kit_page("2027-05").document.title == "The Tide Table"
    # What was sent is still here, and is taken when it is sent again.
    again = planner.post("/kits/2027-05/replace/", {**page.one("main").one("form").values(), "text": new.decode()})
    assert again.status_code == 302
    assert kit_page("2027-05").document.title == "The Ebb Table"


def test_a_document_of_another_kit_replaces_nothing(draft, planner):
    answer = planner.post("/kits/2027-05/replace/", {"revision": "1", "file": _file(box_bytes(code="2027-06"))})
    assert answer.status_code == 422
    assert "The document is of the kit 2027-06, not of 2027-05." in _read(answer).text


def test_what_is_downloaded_is_the_canonical_document(draft, planner):
    answer = planner.get("/kits/2027-05/document.json")
    assert answer.headers["Content-Type"] == "application/json"
    assert answer.headers["Content-Disposition"] == 'attachment; filename="2027-05.json"'
    assert answer.content == canonical_bytes(read_kit(box_bytes()))


def test_the_proof_is_downloaded_as_the_command_prints_it(draft, planner):
    assert planner.get("/kits/2027-05/proof.json").status_code == 404
    proved(draft)
    answer = planner.get("/kits/2027-05/proof.json")
    assert answer.headers["Content-Disposition"] == 'attachment; filename="2027-05-proof.json"'
    document = planner.get("/kits/2027-05/document.json").content
    assert json.loads(answer.content)["document"] == hashlib.sha256(document).hexdigest()


def test_a_proof_of_an_earlier_state_is_not_given_for_this_one(draft, planner):
    proved(draft)
    planner.post("/kits/2027-05/pieces/", {"place": A, "field": "count", "value": "2", "revision": "1"})
    assert planner.get("/kits/2027-05/proof.json").status_code == 404


def test_a_kit_may_be_called_new(planner):
    planner.post("/new-kit/", {"file": _file(box_bytes(code="new"))})
    assert _read(planner.get("/kits/new/")).one("h1").text == "The Tide Table"
