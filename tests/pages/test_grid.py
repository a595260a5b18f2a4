"""The pieces of a project as a table to type in: saved together, added, copied, moved, removed, never lost."""

from __future__ import annotations

import pytest

from frontend.kit_page.grid import free_letters
from kits.planning.documents import build, build_bytes
from kits.planning.models import Change
from kits.planning.services import piece_change
from layouts.document import plain_at, read_kit
from tests.pages.reading import Page
from tests.services.planning_cast import A, box_bytes, mila

pytestmark = pytest.mark.django_db

GRID = "/kits/2027-05/projects/box/pieces/"


@pytest.fixture
def sent(draft, look):
    """What the form sends when nothing was typed, with what a test types."""
    values = look(GRID).one("form", action=GRID).values()

    def typed(**more: str) -> dict[str, str]:
        return {**values, **{name.replace("_", "."): text for name, text in more.items() if name != "do"}, **_do(more)}

    return typed


def _do(more: dict[str, str]) -> dict[str, str]:
    return {"do": more["do"]} if "do" in more else {}


def test_the_table_holds_each_value_as_it_is_written(draft, look):
    form = look(GRID).one("form", action=GRID)
    values = form.values()
    assert {
        name: values[f"A.{name}"] for name in ("name", "width", "height", "count", "paper", "side", "print_reads")
    } == {
        "name": "front",
        "width": "6",
        "height": "4",
        "count": "1",
        "paper": "kelp",
        "side": "front",
        "print_reads": "up",
    }
    assert [values["+.id"], values["+.count"], values["+.width"]] == ["C", "1", ""]
    labels = [label.text for label in form.all("label")]
    assert labels[:3] == ["piece of A", "width of A", "height of A"]


def test_several_values_are_saved_in_one_revision(draft, planner, sent):
    answer = planner.post(GRID, sent(A_width="152 mm", A_count="2", B_name="back wall"), follow=True)
    assert "3 values have been changed. The kit is being checked." in answer.content.decode()
    kit = build(draft)
    assert plain_at(kit, f"{A}/size") == ["152 mm", "4"]
    assert (plain_at(kit, f"{A}/count"), plain_at(kit, "project:box/piece:B/name")) == (2, "back wall")
    assert Change.objects.get(revision=2).what == "edited"


def test_nothing_typed_changes_nothing(draft, planner, sent):
    assert planner.post(GRID, sent()).status_code == 302
    draft.refresh_from_db()
    assert draft.revision == 1


def test_what_is_wrong_is_said_beside_its_value_and_everything_typed_stays(draft, planner, sent):
    answer = planner.post(GRID, sent(A_width="6 1/3", A_name="front wall", B_count="none"))
    assert answer.status_code == 422
    page = Page(answer.content.decode())
    wrong = page.one("input", name="A.width")
    assert (wrong.attributes["value"], wrong.attributes["aria-invalid"]) == ("6 1/3", "true")
    assert "6 1/3" in page.at(wrong.attributes["aria-describedby"]).text.replace("\N{FRACTION SLASH}", "/")
    assert page.one("input", name="A.name").attributes["value"] == "front wall"
    assert page.one("input", name="B.count").attributes["aria-invalid"] == "true"
    draft.refresh_from_db()
    assert draft.revision == 1


def test_a_piece_is_added_from_the_last_row(draft, planner, sent, look):
    new = {"+.name": "base", "+.width": "3 1/2", "+.height": "2", "+.paper": "slate", "+.count": "3"}
    answer = planner.post(GRID, {**sent(), **new})
    assert (answer.status_code, answer.headers["Location"]) == (302, f"{GRID}#+")
    assert plain_at(build(draft), "project:box/piece:C") == {
        "id": "C",
        "name": "base",
        "paper": "slate",
        "size": ["3 1/2", "2"],
        "count": 3,
    }
    assert look(GRID).one("form", action=GRID).values()["+.id"] == "D"


def test_adding_nothing_says_what_to_type(draft, planner, sent):
    answer = planner.post(GRID, sent(do="add", A_count="2"))
    assert answer.status_code == 422
    assert "type its name, its width and its height" in Page(answer.content.decode()).one("p", class_="refusal").text
    # What was typed into the rows that are there has been saved.
    assert plain_at(build(draft), f"{A}/count") == 2


@pytest.mark.parametrize(
    ("new", "control"),
    [
        pytest.param({"+.id": "a", "+.name": "base", "+.width": "1", "+.height": "1"}, "+.id", id="a letter taken"),
        pytest.param({"+.name": "base", "+.width": "", "+.height": "1"}, "+.width", id="no width"),
        pytest.param({"+.id": "no id", "+.name": "x", "+.width": "1", "+.height": "1"}, "+.id", id="no letter"),
    ],
)
def test_a_piece_that_is_refused_keeps_what_was_typed(draft, planner, sent, new, control):
    answer = planner.post(GRID, {**sent(), **new})
    assert answer.status_code == 422
    page = Page(answer.content.decode())
    assert page.one("input", name=control).attributes["aria-invalid"] == "true"
    assert page.one("input", name="+.name").attributes["value"] == new["+.name"]
    assert [piece.id for piece in build(draft).projects[0].pieces] == ["A", "B"]


@pytest.mark.parametrize(
    ("do", "order"),
    [("copy:A", ["A", "A-2", "B"]), ("down:A", ["B", "A"]), ("up:B", ["B", "A"])],
)
def test_a_piece_is_copied_and_moved_and_what_was_typed_is_saved_with_it(draft, planner, sent, do, order):
    planner.post(GRID, sent(do=do, B_count="4"))
    kit = build(draft)
    assert [piece.id for piece in kit.projects[0].pieces] == order
    assert plain_at(kit, "project:box/piece:B/count") == 4


def test_a_piece_that_is_named_is_removed_once_it_is_said_what_becomes_of_the_rest(draft, planner, sent, look):
    answer = planner.post(GRID, sent(do="remove:A"))
    assert answer.status_code == 409
    asked = Page(answer.content.decode()).at("asked")
    assert "Box, placement shell" in [line.text for line in asked.all("li")]
    button = asked.one("button").attributes
    assert button["value"] == "remove-all:A"
    planner.post(GRID, {**Page(answer.content.decode()).one("form", action=GRID).values(), "do": button["value"]})
    assert [piece.id for piece in build(draft).projects[0].pieces] == ["B"]


def test_somebody_elses_values_are_shown_beside_ones_own_and_neither_is_lost(draft, planner, sent):
    typed = sent(A_count="5", A_name="front wall")
    other = mila()
    piece_change(draft=draft, place=A, field="count", value=3, revision=1, by=other)
    piece_change(draft=draft, place="project:box/piece:B", field="count", value=7, revision=2, by=other)
    answer = planner.post(GRID, typed)
    assert answer.status_code == 409
    page = Page(answer.content.decode())
    values = page.one("form", action=GRID).values()
    # One's own where one typed, theirs where one did not; both where both did.
    assert (values["A.count"], values["A.name"], values["B.count"], values["revision"]) == ("5", "front wall", "7", "3")
    assert page.at("said:A.count").text == "It is now: 3"
    assert "Mila Okoro changed this kit meanwhile" in answer.content.decode()
    planner.post(GRID, values)
    kit = build(draft)
    assert [plain_at(kit, f"project:box/piece:{name}/count") for name in "AB"] == [5, 7]


def test_a_piece_that_went_meanwhile_is_said_to_be_gone(draft, planner, sent):
    answer = planner.post(GRID, sent(do="copy:Z"))
    assert answer.status_code == 409
    assert "This piece is gone." in answer.content.decode()


@pytest.mark.parametrize("do", ["burn:A", "", "save-all"])
def test_what_no_form_of_ours_sends_is_a_bad_request(draft, planner, sent, do):
    before = build_bytes(draft)
    assert planner.post(GRID, sent(do=do)).status_code == 400
    assert build_bytes(draft) == before


def test_a_project_that_is_not_there_is_not_found(draft, planner):
    assert planner.get("/kits/2027-05/projects/barn/pieces/").status_code == 404


def test_what_is_not_typed_here_is_shown_as_it_is(draft, look):
    page = look("/kits/2027-05/projects/tag/pieces/")
    assert "window pane of A of box" in page.at("project:tag/piece:H").text
    assert not page.all("select", name="A.paper")


@pytest.mark.parametrize(
    ("taken", "letter"),
    [("ABCDEFGH", "J"), ("abcdefghjklmn", "P"), ("BC", "A"), ("ABCDEFGHJKLMNPQRSTUVWXYZ", "AA")],
    ids=["no I", "no O, whatever the capitals", "a gap", "all of them"],
)
def test_the_next_letter_is_the_first_that_nothing_has_and_no_figure_looks_like(taken, letter):
    pieces = [{"id": id_, "name": id_, "size": ["1", "1"]} for id_ in taken[1:]]
    forms = [{"id": taken[0], "name": "tag", "as": "tag", "paper": "kelp", "size": ["1", "1"]}]
    made = [{"id": "p", "title": "p", "forms": forms}, {"id": "q", "title": "q", "pieces": pieces}]
    kit = read_kit(box_bytes(projects=made))
    assert next(free_letters(kit)) == letter


LIST = "letter\tpiece\twidth\theight\tcount\tprint\nD\tend picture\t3 1/2\t4 1/2\t2\tSlate\nrim\nbase 2 x 3 of kelp"


def test_a_pasted_list_is_read_before_it_is_added(draft, planner, sent):
    answer = planner.post(GRID, {**sent(do="read"), "pasted": LIST})
    page = Page(answer.content.decode())
    rows = [
        [cell.text for cell in (*row.all("th"), *row.all("td"))] for row in page.one("table", class_="read").all("tr")
    ]
    assert rows[1:] == [
        ["2", "D", "end picture", "3 1/2 × 4 1/2", "2", "slate"],
        ["3", "Not read: no size is in it, such as 6 3\N{FRACTION SLASH}4 x 4 3\N{FRACTION SLASH}4 rim"],
        ["4", "C", "base", "2 × 3", "1", "kelp"],
    ]
    assert [piece.id for piece in build(draft).projects[0].pieces] == ["A", "B"]
    form = page.one("form", action=GRID)
    answer = planner.post(GRID, {**form.values(), "pasted": LIST, "do": "add-pasted"})
    # What was read is there; what was not stays to be mended.
    assert [piece.id for piece in build(draft).projects[0].pieces] == ["A", "B", "D", "C"]
    page = Page(answer.content.decode())
    assert "2 pieces have been added." in answer.content.decode()
    assert page.one("textarea", name="pasted").text == "rim"
    assert Change.objects.get(revision=2).what == "added"


@pytest.mark.parametrize(
    ("pasted", "said"), [("", "There is no line to read"), ("rim", "Not read")], ids=["nothing", "no piece"]
)
def test_a_list_of_no_pieces_adds_nothing_and_stays(draft, planner, sent, pasted, said):
    answer = planner.post(GRID, {**sent(do="add-pasted"), "pasted": pasted})
    assert answer.status_code == 422
    assert said in answer.content.decode()
    assert Page(answer.content.decode()).one("textarea", name="pasted").text == pasted
    draft.refresh_from_db()
    assert draft.revision == 1


def test_a_value_is_saved_when_its_control_is_left_and_what_is_typed_for_a_new_piece_waits(draft, planner, sent):
    page = Page(planner.post(GRID, sent(A_width="5", do="left") | {"+.name": "half"}, headers=HTMX).content.decode())
    assert page.one("p", id="echo").text == "Saved."
    assert {one.attributes["value"] for one in page.all("input", name="revision")} == {"2"}
    kit = build(draft)
    assert plain_at(kit, f"{A}/size") == ["5", "4"]
    assert [piece.id for piece in kit.projects[0].pieces] == ["A", "B"]


def test_a_value_that_cannot_be_is_said_when_it_is_left(draft, planner, sent):
    answer = planner.post(GRID, sent(A_width="wide", do="left"), headers=HTMX)
    page = Page(answer.content.decode())
    assert (answer.status_code, page.all("input", name="revision")) == (422, [])
    assert page.one("p", id="echo").text.startswith("Not saved: width of A: “wide” is not a length")


def test_a_value_is_not_saved_over_somebody_elses_when_it_is_left(draft, planner, sent):
    typed = sent(A_count="5", do="left")
    piece_change(draft=draft, place=A, field="count", value=3, revision=1, by=mila())
    answer = planner.post(GRID, typed, headers=HTMX)
    assert answer.status_code == 409
    assert "Not saved: Mila Okoro changed this kit meanwhile" in answer.content.decode()
    assert plain_at(build(draft), f"{A}/count") == 3


HTMX = {"HX-Request": "true"}


@pytest.mark.parametrize(
    ("column", "value", "of", "pieces"),
    [
        pytest.param("count", "3", "", {"A": 3, "B": 3}, id="all pieces"),
        pytest.param("count", "3", "slate", {"A": None, "B": 3}, id="those of one print"),
        pytest.param("paper", "Slate", "", {"A": "slate", "B": "slate"}, id="a print by its name"),
    ],
)
def test_one_value_is_given_to_many_pieces_together_with_what_was_typed(
    draft, planner, sent, column, value, of, pieces
):
    planner.post(GRID, {**sent(A_name="wall", do="many"), "many-column": column, "many-value": value, "many-of": of})
    kit = build(draft)
    found = {letter: plain_at(kit, f"project:box/piece:{letter}").get(column) for letter in pieces}
    assert found == pieces
    assert (plain_at(kit, f"{A}/name"), kit_revision(draft)) == ("wall", 2)


def kit_revision(draft):
    draft.refresh_from_db()
    return draft.revision


def test_a_value_that_many_pieces_cannot_have_is_said_at_each(draft, planner, sent):
    answer = planner.post(GRID, {**sent(do="many"), "many-column": "width", "many-value": "1/3", "many-of": ""})
    page = Page(answer.content.decode())
    assert answer.status_code == 422
    assert [page.one("input", name=f"{letter}.width").attributes["aria-invalid"] for letter in "AB"] == ["true", "true"]


@pytest.mark.parametrize(
    ("text", "said"),
    [("6 3/4", "6 3/4 in = 171.45 mm"), ("10mm", "10 mm ≈ 25/64 in"), ("", ""), ("wide", "“wide” is not a length")],
)
def test_a_length_is_said_in_both_units_while_it_is_typed(draft, planner, text, said):
    """6.75 × 25.4 = 171.45; 10 / 25.4 = 0.3937, and 25/64 = 0.3906 is the nearest 64th (26/64 = 0.4063)."""
    assert planner.get("/kits/2027-05/length/", {"text": text}).content.decode().startswith(said)
