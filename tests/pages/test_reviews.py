"""Comments on a kit's places and the page of who has it, as the team reads and writes them."""

from __future__ import annotations

import pytest

from kits.planning.models import Comment, Handover
from kits.planning.services import comment_add, id_rename, thing_remove
from tests.pages.reading import Page
from tests.pages.test_access import ROLES
from tests.services.planning_cast import A, drafted

pytestmark = pytest.mark.django_db

WHERE = "/kits/2027-05/comments/"


def _read(response) -> Page:
    return Page(response.content.decode())


@pytest.fixture
def said(draft, cast) -> Comment:
    return comment_add(
        kit=draft.kit, place=A, words="Box, piece A (front)", text="Too thin?", by=cast["editor"], to=cast["planner"]
    )


# The editor said it, and the planner was asked.
@pytest.mark.parametrize(
    ("do", "answers"),
    [
        ("answer", (302, 302, 302, 302, 404, 302)),
        ("assign", (302, 302, 302, 302, 404, 302)),
        ("resolve", (302, 302, 403, 403, 404, 302)),
        ("reopen", (302, 302, 302, 302, 404, 302)),
    ],
)
def test_all_of_the_team_talks_and_nobody_else(said, signed_in, do, answers):
    sent = {"do": do, "text": "yes", "to": ""}
    got = {role: signed_in(role).post(f"{WHERE}{said.pk}/", sent) for role in ROLES}
    assert tuple(got[role].status_code for role in ROLES) == answers
    assert got["stranger"].headers["Location"].startswith("/sign-in/")


def test_without_comments_the_page_says_what_they_are_for(draft, look):
    assert "Nobody has said anything about this kit yet." in look(WHERE).text


def test_a_comment_is_said_at_its_place_to_somebody(draft, planner, cast):
    page = _read(planner.get(WHERE, {"at": A}))
    form = page.all("form", method="post")[-1].values()
    assert form["place"] == A
    answer = planner.post(WHERE, {**form, "text": "Too thin?\n<b>", "to": str(cast["editor"].pk)}, follow=True)
    (talk,) = _read(answer).one("ul", class_="talk").all("li", class_="open")
    assert "Open, for Runa Holm at Box, piece A (front)" in talk.text
    assert talk.all("p", class_="said-text")[0].text == "Too thin? <b>"
    assert talk.one("a").attributes["href"] == f"/kits/2027-05/#{A}"


def test_a_comment_may_be_about_the_kit_as_a_whole(draft, planner):
    planner.post(WHERE, {"place": "", "text": "Lovely."})
    assert Comment.objects.get().words == "the kit as a whole"


def test_a_comment_from_a_thing_leads_back_to_it(draft, planner):
    answer = planner.post(WHERE, {"place": A, "text": "Too thin?", "from": "thing"})
    assert answer.headers["Location"] == f"/kits/2027-05/at/{A}/#comments"


@pytest.mark.parametrize(
    ("sent", "status"),
    [({"place": A, "text": " "}, 422), ({"place": "project:box/piece:Z", "text": "Too thin?"}, 409)],
    ids=["nothing said", "gone meanwhile"],
)
def test_a_comment_that_is_refused_keeps_what_was_typed(draft, planner, cast, sent, status):
    answer = planner.post(WHERE, {**sent, "to": str(cast["editor"].pk)})
    typed = _read(answer).all("form", method="post")[-1].values()
    assert answer.status_code == status
    assert (typed["text"], typed["to"]) == (sent["text"].strip(), str(cast["editor"].pk))
    assert not Comment.objects.exists()


def test_a_member_cannot_be_asked(draft, planner, cast):
    answer = planner.post(WHERE, {"place": A, "text": "Look.", "to": str(cast["member"].pk)})
    assert answer.status_code == 422
    assert not Comment.objects.exists()


def test_resolving_can_answer_at_once_and_opening_again_is_offered(said, planner):
    planner.post(f"{WHERE}{said.pk}/", {"do": "resolve", "text": "It is glued."})
    page = _read(planner.get(WHERE))
    (talk,) = page.one("ul", class_="talk").all("li", class_="resolved")
    entries = [one.text for one in talk.one("ul", class_="entries").all("li")]
    assert entries[0].startswith("for Ines Varga, says Runa Holm")
    assert entries[1].startswith("It is glued. Ines Varga")
    assert entries[2].startswith("resolved by Ines Varga")
    planner.post(f"{WHERE}{said.pk}/", {"do": "reopen"})
    assert Comment.objects.get().is_open


def test_whoever_may_not_resolve_keeps_the_answer_that_was_typed(said, signed_in):
    client = signed_in("care")
    assert not _read(client.get(WHERE)).all("button", value="resolve")
    answer = client.post(f"{WHERE}{said.pk}/", {"do": "resolve", "text": "It is glued."})
    page = _read(answer)
    assert page.at(f"answer-{said.pk}").text == "It is glued."
    assert "Whoever said or was asked this resolves it, or an editor." in page.text
    assert not said.entries.filter(what="answered").exists()


@pytest.mark.parametrize("do", ["answer", "resolve"])
def test_an_answer_that_is_too_long_is_kept_typed(said, planner, do):
    answer = planner.post(f"{WHERE}{said.pk}/", {"do": do, "text": "x" * 4001})
    page = _read(answer)
    assert answer.status_code == 422
    assert page.at(f"answer-{said.pk}").text == "x" * 4001
    assert "These are 4,001 characters, and 4,000 are the most: make it shorter." in page.text


def test_a_thing_shows_what_was_said_of_it_and_lets_say_more(said, planner, signed_in):
    page = _read(planner.get(f"/kits/2027-05/at/{A}/"))
    assert page.one("ul", class_="talk").one("li", class_="open").one("p", class_="said-text").text == "Too thin?"
    assert page.at("comment-text").attributes["name"] == "text"
    other = _read(signed_in("care").get("/kits/2027-05/at/project:box/piece:B/"))
    assert "Nobody has said anything about this yet." in other.text
    assert other.at("comment-text")
    whole = planner.post(WHERE, {"place": "kit", "text": "Lovely.", "from": "thing"}, follow=True)
    assert "Lovely." in _read(whole).one("ul", class_="talk").text


def test_the_documents_of_a_kit_lead_to_its_comments_and_test_builds(said, look):
    documents = look("/kits/2027-05/").one("ul", class_="documents")
    assert "1 open comment" in documents.text
    assert [len(documents.all("a", href=f"/kits/2027-05/{path}/")) for path in ("comments", "test-builds")] == [1, 1]


def test_an_answer_that_says_nothing_is_refused(said, planner):
    answer = planner.post(f"{WHERE}{said.pk}/", {"do": "answer", "text": ""})
    assert answer.status_code == 422
    assert "Write your answer first" in _read(answer).one("p", role="alert").text


@pytest.mark.parametrize("sent", [{"do": "burn"}, {"do": "assign", "to": "x"}])
def test_what_no_form_sends_is_answered_with_400(said, planner, sent):
    assert planner.post(f"{WHERE}{said.pk}/", sent).status_code == 400


def test_a_comment_of_another_kit_is_not_found(said, planner, cast):
    drafted(cast["planner"], code="2027-06")
    assert planner.post(f"/kits/2027-06/comments/{said.pk}/", {"do": "resolve"}).status_code == 404


def test_a_renamed_thing_is_shown_with_what_it_was_called(said, draft, look, cast):
    id_rename(draft=draft, place=A, to="C", revision=1, by=cast["planner"])
    assert "at Box, piece C (front), then called Box, piece A (front)" in look(WHERE).text


def test_a_removed_thing_is_still_named(said, draft, look, cast):
    thing_remove(draft=draft, place=A, with_mentions=True, revision=1, by=cast["planner"])
    assert "was at Box, piece A (front), which is not in the kit any more" in look(WHERE).text


def test_the_kit_and_the_months_count_open_comments(said, look, planner):
    for path in ("/kits/2027-05/", "/months/"):
        links = [one.text for one in look(path).all("a", href=WHERE)]
        assert links[0].startswith("1 open comment")
    planner.post(f"{WHERE}{said.pk}/", {"do": "resolve"})
    assert look("/kits/2027-05/").all("a", href=WHERE)[0].text == "comments"
    assert not look("/months/").all("a", href=WHERE)


HANDOVER = "/kits/2027-05/handover/"


def test_a_kit_is_handed_over_with_a_sentence_that_the_months_show(draft, planner, signed_in):
    form = _read(planner.get(HANDOVER)).all("form", method="post")[-1].values()
    answer = planner.post(HANDOVER, {**form, "sentence": "Please prove it."}, follow=True)
    assert "2027-05 is with the editor now." in _read(answer).text
    who = _read(planner.get("/months/")).one("div", class_="month-who").text
    assert who.startswith("with the editor")
    assert "“Please prove it.”" in who
    buttons = [one.attributes["value"] for one in _read(planner.get(HANDOVER)).all("button", name="do")]
    assert buttons == ["take-back"]
    editor = _read(signed_in("editor").get(HANDOVER))
    assert [one.text for one in editor.all("button", name="do")] == ["Hand it to the planner"]
    assert not _read(signed_in("care").get(HANDOVER)).all("button", name="do")


def test_a_handover_without_a_word_is_refused(draft, planner):
    answer = planner.post(HANDOVER, {"number": "0", "sentence": " "})
    assert (answer.status_code, Handover.objects.count()) == (422, 0)


def test_whoever_was_slower_is_told_and_keeps_what_was_typed(draft, planner):
    planner.post(HANDOVER, {"number": "0", "sentence": "Please prove it."})
    answer = planner.post(HANDOVER, {"number": "0", "sentence": "Once more."})
    page = _read(answer)
    assert answer.status_code == 409
    assert page.at("sentence").text == "Once more."
    assert "Somebody handed this kit over meanwhile." in page.text
    assert Handover.objects.count() == 1


def test_the_planner_takes_it_back(draft, planner):
    planner.post(HANDOVER, {"number": "0", "sentence": "Please prove it."})
    planner.post(HANDOVER, {"number": "1", "sentence": "I found it.", "do": "take-back"})
    page = _read(planner.get(HANDOVER))
    assert "Ines Varga took it back" in page.text
    assert "“Please prove it.” Ines Varga handed it to the editor" in page.text
