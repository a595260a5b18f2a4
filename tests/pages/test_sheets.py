"""The sheets on a kit's page: asked for, watched, handed out to whom they are for, and called outdated when so."""

from __future__ import annotations

from typing import Any

import pytest
from django.utils import timezone

from kits.sheets.files import keep
from kits.sheets.models import RenderRun
from layouts.models import JobState
from tests.pages.checked import ended, proved
from tests.pages.reading import Page
from tests.services.planning_cast import A, drafted

pytestmark = pytest.mark.django_db

KIT = "/kits/2027-05/"
SHEETS = "/kits/2027-05/sheets/"
SETTING = {"page": "a4", "unit": "mm", "print": "large", "cut": "scissors"}
HTMX = {"HX-Request": "true"}


@pytest.fixture(autouse=True)
def _media(tmp_path, settings):
    settings.MEDIA_ROOT = tmp_path / "media"


@pytest.fixture
def asked(draft, planner) -> RenderRun:
    """The sheets of the kit, asked for by its planner."""
    proved(draft)
    assert planner.post(f"{SHEETS}make/", SETTING).headers["Location"] == f"{KIT}#sheets"
    return RenderRun.objects.get()


@pytest.fixture
def made(asked) -> RenderRun:
    files = [
        {
            "name": name,
            "title": f"{title} · The Tide Table",
            "pdf": keep(b"%PDF " + name.encode(), "pdf"),
            "bytes": 1234,
            "pictures": [keep(f"PNG {number} of {name}".encode(), "png") for number in (1, 2)],
        }
        for name, title in (("box", "Box"), ("cut-guide", "Cut guide"))
    ]
    return become(asked, JobState.DONE, files=files, attempts=1, started_at=timezone.now())


def become(run: RenderRun, state: JobState, **values: Any) -> RenderRun:
    closed = state not in (JobState.WAITING, JobState.RUNNING)
    finished = timezone.now() if closed else None
    RenderRun.objects.filter(pk=run.pk).update(
        **{"state": state, "claim": None, "lease_until": None, "finished_at": finished, **values}
    )
    run.refresh_from_db()
    return run


def running(run: RenderRun, done: int, files: int) -> RenderRun:
    claim = {"claim": "12345678123456781234567812345678", "lease_until": timezone.now()}
    progress = {"done": done, "files": files}
    return become(run, JobState.RUNNING, attempts=1, started_at=timezone.now(), progress=progress, **claim)


def section(look) -> Any:
    return look(KIT).at("sheets")


def change(planner) -> None:
    planner.post(f"{KIT}pieces/", {"place": A, "field": "count", "value": "2", "revision": "1"})


def test_without_a_proof_the_page_says_what_sheets_are_made_from(draft, look, planner):
    made_here = look(KIT).at("sheets-made")
    assert made_here.text == "Sheets are made from the proof: they can be made when the check is through."
    assert not made_here.all("button")
    ended(draft, JobState.CANCELLED)
    assert "this draft has none yet: check it first" in look(KIT).at("sheets-made").text
    refused = planner.post(f"{SHEETS}make/", SETTING)
    assert refused.status_code == 409
    assert "There is no proof of this draft as it is" in Page(refused.content.decode()).text
    assert not RenderRun.objects.exists()


def test_the_setting_is_first_that_of_the_document_and_then_the_last_one(draft, look, planner):
    """The kit is written in inches."""
    proved(draft)
    form = look(KIT).at("sheets-form")
    assert form.values() == {"page": "letter", "unit": "in", "print": "normal", "cut": "trimmer"}
    assert look(KIT).at("sheets-made").one("button").attributes["form"] == "sheets-form"
    planner.post(form.attributes["action"], SETTING)
    assert look(KIT).at("sheets-form").values() == SETTING


@pytest.mark.parametrize("wrong", [{"page": "a5"}, {"unit": ""}, {"print": "LARGE"}, {"cut": "teeth"}])
def test_a_setting_that_there_is_not_is_refused(draft, planner, wrong):
    proved(draft)
    assert planner.post(f"{SHEETS}make/", {**SETTING, **wrong}).status_code == 400


def test_asking_twice_makes_one(asked, planner):
    planner.post(f"{SHEETS}make/", SETTING)
    assert RenderRun.objects.get() == asked


def test_what_is_being_made_is_asked_for_every_second_until_it_is_there(asked, look):
    waiting = section(look)
    assert waiting.one("p", class_="told").text == "Waiting to be made."
    assert [one.text for one in waiting.all("a", class_="unscripted")] == ["Look again"]
    poll = waiting.one("div", hx_trigger="every 1s").attributes["hx-get"]
    assert look(poll, 204, **HTMX).html == ""
    running(asked, 1, 4)
    part = look(poll, **HTMX)
    assert part.one("p", class_="told").text == "Being made: 1 of 4 files."
    progress = part.one("progress").attributes
    assert (progress["value"], progress["max"]) == ("1", "4")
    assert part.at("sheets-said").text == "Being made: 1 of 4 files."
    assert look(part.one("div", hx_trigger="every 1s").attributes["hx-get"], 204, **HTMX).html == ""


def test_the_address_of_the_part_leads_to_the_page_without_scripts(asked, planner):
    assert planner.get(SHEETS).headers["Location"] == f"{KIT}#sheets"


def test_asked_for_by_script_only_the_part_comes(draft, planner):
    proved(draft)
    part = Page(planner.post(f"{SHEETS}make/", SETTING, headers=HTMX).content.decode())
    assert not part.all("h1")
    assert part.one("h3").text == "A4, millimetres, large print, cut with scissors"
    change(planner)
    refused = planner.post(f"{SHEETS}make/", SETTING, headers=HTMX)
    assert refused.status_code == 409
    assert Page(refused.content.decode()).one("p", class_="refusal").text.startswith("There is no proof")


def test_the_page_tells_when_nobody_makes_sheets(asked, look):
    old = "2026-01-01T00:00Z"
    RenderRun.objects.update(requested_at=old, first_requested_at=old, due_at=old)
    assert "Nobody has begun for a while" in section(look).text


def test_each_file_is_downloaded_under_a_name_that_tells_what_it_is(made, look, planner):
    links = section(look).all("a", download="")
    texts = [link.text for link in links]
    assert texts[0] == "Box, A4, millimetres, large print, cut with scissors, as PDF"
    assert section(look).all("span", class_="aside")[-1].text == "PDF, 2 pages, 1 kB"
    response = planner.get(links[1].attributes["href"])
    assert (response.content, response.headers["Content-Type"]) == (b"%PDF cut-guide", "application/pdf")
    assert (
        response.headers["Content-Disposition"] == 'attachment; filename="2027-05-cut-guide-a4-mm-large-scissors.pdf"'
    )


def test_pages_are_shown_as_pictures_with_words(made, look, planner):
    pictures = section(look).all("img")
    assert [one.attributes["alt"] for one in pictures][1] == (
        "Page 2 of 2 of Box · The Tide Table, as it will be printed"
    )
    response = planner.get(pictures[1].attributes["src"])
    assert (response.content, response.headers["Content-Type"]) == (b"PNG 2 of box", "image/png")


@pytest.mark.parametrize(
    ("role", "answer"),
    [("planner", 200), ("editor", 200), ("care", 200), ("stock", 200), ("member", 404), ("stranger", 302)],
)
def test_files_are_for_the_team(made, signed_in, role, answer):
    """And no browser or proxy keeps them."""
    for path in (f"{SHEETS}{made.pk}/1.pdf", f"{SHEETS}{made.pk}/1/1.png"):
        response = signed_in(role).get(path)
        assert response.status_code == answer
        assert answer != 200 or "no-store" in response.headers["Cache-Control"]


@pytest.mark.parametrize("path", ["3.pdf", "0.pdf", "1/3.png", "1/0.png", "9/1.png"])
def test_what_was_not_made_is_not_there(made, planner, path):
    assert planner.get(f"{SHEETS}{made.pk}/{path}").status_code == 404
    assert planner.get(f"{SHEETS}{10**30}/{path}").status_code == 404


def test_sheets_of_another_kit_are_not_handed_out_by_this_one(made, cast, planner):
    """One that somebody could see, say, beside one that they could not."""
    drafted(cast["planner"], code="2027-06")
    assert planner.get(f"{SHEETS}{made.pk}/1.pdf").status_code == 200
    assert planner.get(f"/kits/2027-06/sheets/{made.pk}/1.pdf").status_code == 404
    assert planner.post(f"/kits/2027-06/sheets/{made.pk}/stop/").status_code == 404


def test_a_file_that_was_lost_is_not_there_and_is_made_anew(made, planner, tmp_path):
    for file in (tmp_path / "media").rglob("*.pdf"):
        file.unlink()
    assert planner.get(f"{SHEETS}{made.pk}/1.pdf").status_code == 404
    planner.post(f"{SHEETS}make/", SETTING)
    assert RenderRun.objects.get(state=JobState.WAITING)


def test_sheets_from_before_a_change_are_called_that_and_made_anew_after_the_check(draft, made, look, planner):
    change(planner)
    before = section(look)
    assert before.one("h3").text.endswith("from before the last change")
    assert f"they show document {made.document_hash[:8]}" in before.text
    assert not before.all("button"), "the check is not through"
    proved(draft)
    anew = section(look).one("div", class_="set").one("form")
    assert anew.one("button").text == "Make them anew"
    planner.post(anew.attributes["action"], anew.values())
    now = section(look)
    assert now.one("p", class_="told").text == "Waiting to be made."
    assert "from before the last change" not in now.text


def test_a_change_is_told_without_loading_the_page_anew(made, look, planner):
    answer = planner.post(f"{KIT}pieces/", {"place": A, "field": "count", "value": "2", "revision": "1"}, headers=HTMX)
    part = Page(answer.content.decode()).at("sheets-made")
    assert part.attributes["hx-swap-oob"] == "innerHTML"
    assert "The draft has moved on" in part.text


def test_sheets_that_failed_say_why_and_are_tried_again(asked, look, planner):
    become(
        asked, JobState.FAILED, reason="the renderer needs more than 1024 MiB", attempts=1, started_at=timezone.now()
    )
    failed = section(look).one("div", class_="set")
    assert failed.one("p", class_="told").text == ("These could not be made. The renderer needs more than 1024 MiB.")
    form = failed.one("form")
    for _ in range(2):
        assert planner.post(form.attributes["action"]).headers["Location"] == f"{KIT}#sheets"
    asked.refresh_from_db()
    assert asked.state == JobState.WAITING


def test_sheets_are_called_off_by_a_form(asked, look, planner):
    form = section(look).one("div", class_="set").one("form")
    assert form.one("button").text == "Stop making these"
    planner.post(form.attributes["action"])
    assert section(look).one("p", class_="told").text == "Making these was called off."
    assert section(look).one("div", class_="set").one("button").text == "Try again"


def test_every_setting_that_was_made_is_there(made, look, planner):
    planner.post(f"{SHEETS}make/", {**SETTING, "page": "letter"})
    assert [title.text.partition(",")[0] for title in section(look).all("h3")] == ["Letter", "A4"]
