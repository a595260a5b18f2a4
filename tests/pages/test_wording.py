"""The text of a step while it is typed: as it will print, numbers that were typed, names that lead nowhere."""

from __future__ import annotations

import json

import pytest

from frontend.kit_page.things.nameable import nameable
from frontend.kit_page.things.wording import flaws_in, printed_step, referred
from kits.planning.documents import build
from layouts.assembly import Names, Reference
from layouts.document import Kit, plain_at, read_kit
from tests.pages.reading import Page
from tests.services.planning_cast import box_bytes

STEP = "project:card/step:one"


def card(text: str, **step: object) -> Kit:
    """A card of 100 × 80 mm with a window of 60 × 40 mm, 20 mm from the left and 10 mm from the top; a ribbon."""
    window = {"id": "pane", "left": "20", "width": "60", "top": "10", "height": "40"}
    pieces = [
        {"id": "C", "name": "card", "size": ["100", "80"], "windows": [window]},
        {"id": "D", "name": "dot", "size": ["12.5", "12.5"]},
    ]
    project = {"id": "card", "title": "Card", "pieces": pieces, "steps": [{"id": "one", "text": text, **step}]}
    other = {"id": "box", "title": "Box", "pieces": [{"id": "E", "name": "end", "size": ["100", "35"]}]}
    kit = {
        "format": "kitproof/1",
        "code": "2027-06",
        "title": "Cards",
        "unit": "mm",
        "supplies": [{"id": "ribbon", "name": "ribbon", "kind": "ribbon", "length": "500"}],
        "tools": [{"id": "knife", "kind": "knife"}],
        "projects": [project, other],
    }
    return read_kit(json.dumps(kit).encode())


def offers(text: str, **step: object) -> list[str]:
    return [offer.reference for flaw in flaws_in(card(text, **step), STEP) for offer in flaw.offers]


@pytest.mark.parametrize(
    ("text", "step", "offered"),
    [
        # 100 − 20 − 60 = 20 from the right as well, 80 − 10 − 40 = 30 from the bottom: nobody states these.
        pytest.param("Cut 30 mm off.", {}, ["C.pane.bottom"], id="what follows from others"),
        pytest.param("Cut it 60 mm wide.", {}, ["C.pane.width"], id="a window"),
        pytest.param("Cut it 80mm high.", {}, ["C.height"], id="a size"),
        pytest.param("Cut it 35 mm high.", {}, ["box/E.height"], id="another project"),
        pytest.param("Take 500 mm.", {}, ["supply:ribbon.length"], id="from the box"),
        pytest.param("Cut it 100 mm wide.", {}, ["C.width", "box/E.width"], id="its own project first"),
        pytest.param("Cut it 12.5 mm wide.", {}, ["D.width", "D.height"], id="two that are alike"),
        # 3 15/16 in is 100.0125 mm, 100 mm to the printed step of 1/16 in.
        pytest.param("Cut it 3 15/16 in wide.", {}, ["C.width", "box/E.width"], id="as printed in the other unit"),
        pytest.param("Cut it 77 mm wide.", {}, [], id="nothing measures that"),
        pytest.param("Hold for 30 min, 2 in each corner.", {}, [], id="no measure"),
        pytest.param("Cut {C.width} off.", {}, [], id="no number"),
    ],
)
def test_a_typed_number_is_offered_the_figures_that_equal_it(text, step, offered):
    assert offers(text, **step) == offered


def test_what_the_step_cuts_is_offered_before_what_else_measures_that():
    # Pieces A and B are both 6 in wide.
    tree = json.loads(box_bytes())
    tree["projects"][0]["steps"][1] |= {"text": "Trim 6 in off.", "use": []}
    first = flaws_in(read_kit(json.dumps(tree).encode()), "project:box/step:glue")[0].offers
    tree["projects"][0]["steps"][1] |= {"cut": ["B"]}
    second = flaws_in(read_kit(json.dumps(tree).encode()), "project:box/step:glue")[0].offers
    assert ([one.reference for one in first], [one.reference for one in second]) == (
        ["A.width", "B.width"],
        ["B.width", "A.width"],
    )


def test_a_number_that_nothing_measures_is_said():
    (flaw,) = flaws_in(card("Cut it 77 mm wide."), STEP)
    assert (flaw.start, flaw.text) == (7, "77 mm")
    assert flaw.words == "“77 mm” is typed, and nothing in the plan measures that."


def test_a_length_that_the_step_uses_is_no_other_figure():
    (flaw,) = flaws_in(card("Take 100 mm of it.", use=[{"supply": "ribbon", "length": "100"}]), STEP)
    assert flaw.offers == ()
    assert "change both together" in flaw.words


@pytest.mark.parametrize(
    ("text", "near"),
    [
        pytest.param("Glue {C.widht}.", "C.width", id="letters exchanged"),
        pytest.param("Glue {c.width}.", "C.width", id="a small letter"),
        pytest.param("Glue {C.pain.left}.", "C.pane.left", id="a wrong word"),
        pytest.param("Tie {supply:ribon}.", "supply:ribbon", id="from the box"),
        pytest.param("Take {E}.", "box/E", id="of another project"),
    ],
)
def test_a_name_that_leads_nowhere_is_offered_the_nearest(text, near):
    assert near in offers(text)


def test_a_name_that_is_like_nothing_is_said():
    (flaw,) = flaws_in(card("Glue {zzzzzz}."), STEP)
    assert flaw.words == "“{zzzzzz}” leads nowhere: nothing here is called so."


def test_a_lone_brace_is_said():
    assert [flaw.words[:22] for flaw in flaws_in(card("Glue {C and it."), STEP)] == ["“{” stands alone: comp"]


@pytest.mark.parametrize(
    ("text", "start", "reference", "after"),
    [
        pytest.param("Cut 60 mm wide.", 4, "C.pane.width", "Cut {C.pane.width} wide.", id="a number with its unit"),
        pytest.param("Cut {c.widht} wide.", 4, "C.width", "Cut {C.width} wide.", id="a name"),
        pytest.param("Cut 60 mm by 40 mm.", 13, "C.pane.height", "Cut 60 mm by {C.pane.height}.", id="the second"),
        pytest.param("Cut 60 mm wide.", 5, "C", "Cut 60 mm wide.", id="nothing begins there"),
        pytest.param("Cut 60 mm wide.", -1, "C", "Cut 60 mm wide.", id="nowhere"),
    ],
)
def test_a_reference_takes_the_place_of_what_was_typed(text, start, reference, after):
    assert referred(text, start, reference) == after


def test_everything_that_can_be_named_leads_somewhere():
    kit = read_kit(box_bytes())
    names = Names(kit)
    for project in kit.projects:
        listed = nameable(kit, project)
        assert len({one.reference for one in listed}) == len(listed)
        for one in listed:
            target = names.resolve(Reference.read(one.reference), project.id)
            assert target is not None
            assert bool(one.measure) == (target.value is not None and not isinstance(target.value, int))


def test_things_come_before_measures_and_ones_own_before_others():
    kit = card("x")
    names = [one.reference for one in nameable(kit, kit.projects[0])]
    expected = ["C", "C.pane", "D", "C.width", "C.pane.left", "C.pane.right", "supply:ribbon", "box/E", "box/E.width"]
    assert sorted(expected, key=names.index) == expected


def test_a_measure_is_listed_in_the_kits_unit():
    kit = card("x")
    found = {one.reference: (one.words, one.measure) for one in nameable(kit, kit.projects[0])}
    assert found["C.pane.bottom"] == ("piece C (card), window pane, bottom", "30 mm")


def test_a_step_is_shown_as_it_prints():
    step = printed_step(card("Cut {C} {C.width} wide.", tools=["knife"], hold="30 s", dry="1 h"), STEP)
    assert step is not None
    runs = [(run.kind, run.text.replace("\N{NO-BREAK SPACE}", " ")) for run in step.runs]
    assert runs == [
        ("words", "Cut "), ("letter", "C"), ("words", " "), ("measure", "100 mm"), ("words", " wide.")
    ]  # fmt: skip
    assert step.hold == "Hold for 30 seconds."
    assert step.wait == "Leave to dry for 1 hour."
    # A knife needs the caution, although the step does not have it.
    assert [one.signal for one in step.cautions] == ["CAUTION"]


def test_there_is_nothing_to_show_of_a_step_that_is_not_there():
    assert printed_step(card("x"), "project:card/step:two") is None
    assert flaws_in(card("x"), "project:card/step:two") == ()


AT = "/kits/2027-05/at/project:box/step:glue/"
NEW = "/kits/2027-05/projects/box/add/step/"
HTMX = {"HX-Request": "true"}


@pytest.mark.django_db
def test_a_look_shows_the_step_as_it_will_print_and_what_will_not_follow(draft, planner, look):
    typed = {**look(AT).one("form", id="facts").values(), "text": "Trim {A} to 6 in.", "do": "look"}
    picture = Page(planner.post(AT, typed, headers=HTMX).content.decode()).one("div", id="picture")
    assert picture.one("p", class_="printed-step").text == "2 Trim A to 6 in."
    button = picture.one("ul", class_="flaws").all("button")[0]
    assert (button.attributes["value"], button.attributes["form"]) == ("refer:12:A.width", "facts")
    assert button.text == "Use {A.width}"


@pytest.mark.django_db
def test_one_click_writes_the_name_into_the_text_and_saves_it(draft, planner, look):
    values = look(AT).one("form", id="facts").values()
    planner.post(AT, {**values, "text": "Trim {A} to 6 in.\r\nGlue it.", "do": "refer:12:A.width"})
    assert plain_at(build(draft), "project:box/step:glue")["text"] == "Trim {A} to {A.width}.\nGlue it."


@pytest.mark.django_db
def test_of_a_new_step_one_click_changes_the_text_and_adds_nothing_yet(draft, planner):
    sent = {"revision": "1", "to": "press", "text": "Trim {A} to 6 in.", "do": "refer:12:A.width"}
    page = Page(planner.post(NEW, sent).content.decode())
    assert page.one("textarea", name="text").text == "Trim {A} to {A.width}."
    assert page.one("p", class_="printed-step").text.replace("\N{NO-BREAK SPACE}", " ") == "3 Trim A to 6 in."
    draft.refresh_from_db()
    assert draft.revision == 1


@pytest.mark.django_db
@pytest.mark.parametrize("do", ["refer", "refer:", "refer:x:A", "refer:99999999:A", "refer:12"])
def test_a_click_that_leads_nowhere_leaves_the_text_as_it_is(draft, planner, look, do):
    values = look(AT).one("form", id="facts").values()
    planner.post(AT, {**values, "text": "Trim it flat.", "do": do})
    assert plain_at(build(draft), "project:box/step:glue")["text"] == "Trim it flat."


@pytest.mark.django_db
def test_what_can_be_named_is_listed_to_copy(draft, look):
    names = look(AT).one("ul", id="names")
    line = next(one for one in names.all("li") if one.attributes["data-name"] == "A.pane.left")
    assert line.text == "{A.pane.left} piece A (front), window pane, left 1 in"


@pytest.mark.django_db
def test_who_only_reads_is_offered_nothing(draft, signed_in):
    page = Page(signed_in("editor").get(AT).content.decode())
    assert page.all("ul", id="names") == []
    assert page.all("button", form="facts") == []
