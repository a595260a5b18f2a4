"""The page of a kit: verdict, sheets, findings, order, pieces; and that no text of a user becomes markup."""

from __future__ import annotations

import json
import re

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from kits.planning.documents import build_bytes
from kits.planning.models import Draft
from kits.planning.services import kit_create
from layouts.models import JobState
from tests.pages.checked import ended, proved, under_way
from tests.pages.reading import Page
from tests.services.planning_cast import A, box, drafted

pytestmark = pytest.mark.django_db


def test_the_verdict_comes_first_as_a_sentence(draft, look):
    proved(draft)
    page = look("/kits/2027-05/")
    verdict = page.at("verdict")
    # By hand: the lid is given by what covers a form that is not built, so its print is undecided.
    assert verdict.text.endswith("things\N{NO-BREAK SPACE}to\N{NO-BREAK SPACE}mend before it can go to print.")
    assert verdict.one("span", class_="bar").has("class", "not-ready")
    assert page.html.index('id="verdict"') < page.html.index('id="papers"') < page.html.index('id="findings"')


def test_a_finding_leads_to_where_it_is_and_is_said_there(draft, look):
    proved(draft)
    page = look("/kits/2027-05/")
    anchors = {one.attributes["href"] for one in page.at("findings").all("a")}
    # The step says {A.nothing}, which names nothing.
    assert "#project:box/step:cut" in anchors
    for anchor in anchors:
        page.at(anchor.removeprefix("#"))
    assert "A.nothing" in page.at("project:box/step:cut").text


def test_the_weights_stand_heaviest_first_each_with_its_word(draft, look):
    proved(draft)
    words = [one.text.split()[0] for one in look("/kits/2027-05/").at("findings").all("h3")]
    assert words == sorted(words, key=["Stop", "Fix", "Note"].index)
    assert len(words) == len(set(words)) > 0


def test_sheets_are_drawn_and_say_what_is_cut(planner, cast, look):
    kit = {
        "format": "kitproof/1",
        "code": "2027-06",
        "title": "Two Halves",
        "unit": "in",
        "papers": [{"id": "sand", "name": "Sand", "size": ["8", "8"], "sheets": 2, "front": {"name": "Sand"}}],
        "projects": [
            {
                "id": "card",
                "title": "Card",
                "pieces": [{"id": "A", "name": "half", "paper": "sand", "size": ["8", "4"]}],
            }
        ],
    }
    proved(kit_create(document=json.dumps(kit).encode(), by=cast["planner"]))
    paper = look("/kits/2027-06/").at("paper:sand")
    assert paper.one("title").text == "Sand 1 of 2: A; offcut Z"
    # Half of the first sheet is used, the second one is not touched.
    assert paper.one("figcaption").text == "Sand 1 of 28 × 8 in, used 50 %; 1 sheet left for mistakes"
    assert not [one for one in paper.all("*") if "style" in one.attributes]


def _short(cast) -> Draft:
    kit = {
        "format": "kitproof/1",
        "code": "2027-06",
        "title": "Three Halves",
        "unit": "in",
        "papers": [{"id": "sand", "name": "Sand", "size": ["8", "8"], "sheets": 1, "front": {"name": "Sand"}}],
        "projects": [
            {
                "id": "card",
                "title": "Card",
                "pieces": [{"id": "A", "name": "<b>half</b>", "paper": "sand", "size": ["8", "4"], "count": 3}],
            }
        ],
    }
    draft = kit_create(document=json.dumps(kit).encode(), by=cast["planner"])
    proved(draft)
    return draft


def test_what_would_mend_a_shortage_is_said_where_the_shortage_is(planner, cast, look):
    _short(cast)
    mends = look("/kits/2027-06/").at("findings").one("ul", class_="mends")
    fewer, more = "Cut 2 of A, <b>half</b>, instead of 3.", "Put 2 sheets of Sand into the box instead of 1."
    assert [one.text for one in mends.all("li")] == [
        f"{fewer} no more sheets, 1 piece fewer Do this: {fewer}",
        f"{more} 1 sheet more Do this: {more}",
    ]


def test_a_mend_is_made_by_one_press_and_undone_by_another(planner, cast, look):
    draft = _short(cast)
    form = look("/kits/2027-06/").at("findings").one("ul", class_="mends").all("form")[1]
    sent = {one.attributes["name"]: one.attributes["value"] or "" for one in form.all("input")}
    assert planner.post(form.attributes["action"], sent).status_code == 302
    assert json.loads(build_bytes(draft))["papers"][0]["sheets"] == 2
    page = look("/kits/2027-06/")
    assert "Done: Put 2 sheets of Sand into the box instead of 1. You can undo it." in page.html
    assert "Undo Sand, sheets: 1 to 2" in page.one("main").text
    # The same press once more, from a page that is no longer true.
    again = planner.post(form.attributes["action"], sent)
    assert again.status_code == 409
    assert "what was offered may no longer mend it" in again.content.decode()


@pytest.mark.parametrize("number", ["", "1", "1-9", "99-1", "0-1", "-1-1", "1-1-1", "x"])
def test_a_mend_that_was_never_offered_is_refused(planner, cast, number):
    _short(cast)
    answer = planner.post("/kits/2027-06/mend/", {"revision": "1", "mend": number})
    assert answer.status_code == 409


def test_a_measure_is_set_with_its_fraction_alone(draft, look):
    """The whole number stays as it is; copied out, the text reads as it is printed."""
    page = look("/kits/2027-05/", 200)
    assert page.at(f"{A}/size").all("span", class_="fr") == []
    fraction = [one for one in page.all("span", class_="fr") if one.text == "1⁄8"]
    assert fraction, "the border of 1/8 in is printed in a step"


def test_the_steps_read_as_they_will_be_printed(draft, look):
    # {A} is a piece and a placement; {A.border} its border; doubled braces are single ones; the rest names nothing.
    step = look("/kits/2027-05/").at("project:box/step:cut").all("p")[0].text
    assert step == "Cut A to 6, 1 from the edge, {A} 1⁄8 {A.nothing} {A"


def test_a_kit_that_holds_nothing_says_so(planner, cast, look):
    empty = {"format": "kitproof/1", "code": "empty", "title": "Empty", "unit": "mm"}
    draft = kit_create(document=json.dumps(empty).encode(), by=cast["planner"])
    assert "This kit has no print yet." in look("/kits/empty/").at("papers").text
    proved(draft)
    page = look("/kits/empty/")
    assert page.at("verdict").text == "This kit has no paper yet. Nothing to mend."
    assert "This kit has no project yet." in page.text


HOSTILE = [
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "' onclick='alert(1)",
    "{{ 7|add:7 }}{% now 'Y' %}",
    "</title></svg><b>",
    "javascript:alert(1)",
    "&lt;i&gt;&amp;",
]


@pytest.mark.parametrize("name", HOSTILE)
def test_no_text_of_a_user_becomes_markup(planner, cast, look, name):
    kit = box(title=name)
    kit["papers"][0] |= {"name": name, "front": {"name": name}, "back": {"name": name}}
    kit["blanks"][0]["name"] = kit["supplies"][0]["name"] = kit["tools"][0]["name"] = name
    kit["embellishments"][0]["name"] = kit["embellishments"][0]["elements"][0]["name"] = name
    for project in kit["projects"]:
        project["title"] = name
        for piece in project["pieces"]:
            piece["name"] = name
    kit["projects"][0]["forms"][0]["name"] = name
    kit["projects"][0]["steps"][0]["text"] = name.replace("{", "{{").replace("}", "}}")
    # A team's first kit is told what is next; neither of these is.
    kit_create(document=json.dumps(box(code="first")).encode(), by=cast["planner"])
    plain = look_at(planner, cast, box(code="plain"))
    hostile = look_at(planner, cast, kit)
    # As many elements of each kind as with harmless names, and the names are there as text.
    assert kinds(hostile) == kinds(plain)
    assert name in hostile.one("h1").text
    assert name in look("/kits/").text


def look_at(planner, cast, kit):
    from tests.pages.reading import Page

    proved(kit_create(document=json.dumps(kit).encode(), by=cast["planner"]))
    return Page(planner.get(f"/kits/{kit['code']}/").content.decode())


def kinds(page) -> set[tuple[str, tuple[str, ...]]]:
    """Every element with the names of its attributes. Sets: findings may speak of a hostile name, or not."""
    known = {"selected", "autofocus", "hx-swap-oob"}
    return {(one.name, tuple(sorted(set(one.attributes) - known))) for one in page.all("*") if one.name != "em"}


def test_the_page_holds_nothing_inline(draft, look):
    """The content policy refuses it anyway; this names the place."""
    page = look("/kits/2027-05/")
    for one in page.all("*"):
        assert not [name for name in one.attributes if name.startswith("on") or name in ("style", "hx-on", "hx-vals")]
        assert one.name != "style"
    assert all(one.attributes.get("src") and not one.parts for one in page.all("script"))


@pytest.mark.parametrize("state", ["waiting", "done"])
def test_queries_stay_as_many_however_long_the_lists_are(planner, cast, state):
    counts = {}
    for pieces in (10, 300):
        kit = box(code=f"of-{pieces}")
        kit["projects"][1]["pieces"] += [
            {"id": f"P{number}", "name": f"piece {number}", "paper": "slate", "size": ["1", "1"]}
            for number in range(pieces - 4)
        ]
        draft = kit_create(document=json.dumps(kit).encode(), by=cast["planner"])
        if state == "done":
            proved(draft)
        with CaptureQueriesContext(
            connection,
        ) as queries:
            assert planner.get(f"/kits/{kit['code']}/").status_code == 200
        counts[pieces] = len(queries)
    assert counts[10] == counts[300]


def test_what_is_known_meanwhile_is_shown_as_it_comes(draft, look):
    answer = {
        "paper": "kelp",
        "verdict": "short",
        "sheets": 2,
        "needed": {"at_least": 3, "at_most": None},
        "yield": None,
        "reason": {"kind": "area"},
        "plan": [],
    }
    under_way(draft, [answer], 2)
    page = look("/kits/2027-05/")
    assert page.at("verdict").text == "Being checked: 1 of 2 prints answered."
    assert page.at("paper:kelp").text.startswith("Kelp Short: 2 sheets in the box, at least 3 needed.")
    assert page.at("paper:slate").text == "Slate Not answered yet."
    assert "The first findings come when the check is through." in page.at("findings").text


def test_after_a_change_the_earlier_proof_is_shown_as_that(draft, planner, look):
    proved(draft)
    planner.post("/kits/2027-05/pieces/", {"place": A, "field": "count", "value": "2", "revision": "1"})
    page = look("/kits/2027-05/")
    assert page.at("verdict").text == "Being checked."
    assert page.at("papers").one("h2").text == "Papers dimmed: from before the last change"
    assert page.at("findings").all("h2")[0].text == "Findings from before the last change"
    assert re.search(r"(Stop|Fix), before the last change:", page.text)


@pytest.mark.parametrize(
    ("state", "values", "sentence"),
    [
        (JobState.FAILED, {"reason": "The solver died."}, "The check failed. The solver died."),
        (JobState.CANCELLED, {}, "The check was called off."),
    ],
)
def test_a_check_that_came_to_no_end_can_be_tried_again(draft, look, state, values, sentence):
    ended(draft, state, **values)
    page = look("/kits/2027-05/")
    assert page.at("verdict").text == sentence
    assert page.at("check-actions").one("button").text == "Check again"


def test_one_button_is_filled_at_most(draft, planner, look):
    assert len(look("/kits/2027-05/").all("*", class_="main")) == 0
    proved(draft)
    for path in (
        "/kits/",
        "/kits/2027-05/",
        "/new-kit/",
        "/kits/2027-05/replace/",
        f"/kits/2027-05/?change={A}&field=size",
    ):
        assert len(look(path).all("*", class_="main")) == 1, path


@pytest.fixture
def large(cast):
    """300 pieces and 60 steps, in three projects."""
    projects = [
        {
            "id": f"q{number}",
            "title": f"Project {number}",
            "pieces": [
                {"id": f"A{at}", "name": f"piece number {at}", "paper": "kelp", "size": ["1", "1"]} for at in range(100)
            ],
            "steps": [
                {"id": f"s{at}", "text": f"Cut {{A{at}}} to {{A{at}.width}}.", "cut": [f"A{at}"]} for at in range(20)
            ],
        }
        for number in range(3)
    ]
    return drafted(cast["planner"], projects=projects, accepted=[])


def test_a_large_kit_is_shown_project_by_project(large, look, planner):
    answer = planner.get("/kits/2027-05/")
    assert len(answer.content) < 300_000  # as the page's users are promised
    page = Page(answer.content.decode())
    assert page.one("section", id="project:q1").text == "Project 1 Show this project 100 pieces and 20 steps"
    opened = look("/kits/2027-05/?project=q1")
    assert opened.one("tr", id="project:q1/piece:A5").all("td")[0].text == "piece number 5"
    assert opened.all("tr", id="project:q0/piece:A5") == []
    part = look("/kits/2027-05/?project=q2", **{"HX-Request": "true"})
    assert part.one("section", id="project:q2").one("tr", id="project:q2/piece:A99")
    assert planner.get("/kits/2027-05/?project=q9", headers={"HX-Request": "true"}).status_code == 404


def test_a_finding_in_a_project_that_is_closed_leads_into_it(large, look):
    proved(large)
    links = [one.attributes["href"] for one in look("/kits/2027-05/").one("section", id="findings").all("a")]
    assert "?project=q0#project:q0/piece:A0" in links
