"""What the database itself holds about drafts and their rows, whoever writes them, on each database."""

from __future__ import annotations

import json
from typing import Any

import pytest
from django.apps import apps
from django.core.management import call_command
from django.db import DataError, IntegrityError, connection, models, transaction
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from kits.members.models import Person
from kits.planning.columns import TABLES, Table
from kits.planning.documents import build, build_bytes, load, read_rows, write_changes
from kits.planning.models import Change, Draft, Kit, Pad, Paper, Piece, Project, Row, Step, Window
from layouts.document import canonical_bytes, read_kit, read_kit_tree
from layouts.lengths import Length
from tests.services.planning_cast import box, box_bytes, drafted, ines

pytestmark = pytest.mark.django_db


@pytest.fixture
def draft() -> Draft:
    return drafted(ines())


def all_tables(tables: tuple[Table, ...] = TABLES) -> list[Table]:
    return [one for table in tables for one in (table, *all_tables(table.parts))]


def test_the_models_and_the_migrations_agree():
    call_command("makemigrations", "--check", "--dry-run", verbosity=0)


def test_every_model_of_rows_is_in_the_tables():
    assert {table.model for table in all_tables()} == {
        model for model in apps.get_app_config("planning").get_models() if issubclass(model, Row)
    }


def test_every_column_of_a_row_is_written_by_the_tables():
    """A column that no member of the document fills would keep its default for ever."""
    for table in all_tables():
        written = {name for member in table.members for name in member.columns} | {table.rest, table.owner}
        columns = {field.name for field in table.model._meta.concrete_fields}
        assert columns - written - {"id", "position", "carried", "item"} == set(), table.listed


def test_a_length_is_kept_as_its_text_with_its_unit(draft):
    with connection.cursor() as cursor:
        cursor.execute("SELECT width, height FROM planning_piece WHERE ident = 'B'")
        assert cursor.fetchall() == [("6 in", "4 in")]
    paper = Paper.objects.get(draft=draft, ident="slate")
    assert (paper.width, paper.undersize.text()) == (Length.of("12 in"), "0")


def test_a_row_does_not_depend_on_the_unit_of_its_kit():
    pads = [{"id": "shore", "name": "Shore pad", "size": ["200", "8 in"]}]
    for unit, stored in (("mm", ["200 mm", "8 in"]), ("in", ["200 in", "8 in"])):
        small = {"pads": pads, "unit": unit, "code": unit, "papers": [], "projects": [], "supplies": [], "blanks": []}
        draft = drafted(ines() if unit == "mm" else Person.objects.get(), **small)
        pad = Pad.objects.get(draft=draft)
        assert [pad.width.text(), pad.height.text()] == stored
        assert build_bytes(draft) == canonical_bytes(read_kit_tree(box(**small)))


def set_(model: type[models.Model], **values: Any):
    return lambda draft: model._default_manager.filter(pk=model._default_manager.earliest("pk").pk).update(**values)


@pytest.mark.parametrize(
    "wrong",
    [
        pytest.param(lambda draft: Kit.objects.create(code="2027-05"), id="a code twice"),
        pytest.param(lambda draft: Draft.objects.create(kit=draft.kit, title="t", unit="in"), id="two main drafts"),
        pytest.param(set_(Draft, is_main=False), id="a branch from nowhere"),
        pytest.param(set_(Draft, branched_from="0" * 64), id="a main draft from somewhere"),
        pytest.param(set_(Draft, unit="cm"), id="another unit"),
        pytest.param(set_(Draft, revision=0), id="no revision"),
        pytest.param(set_(Piece, ident="b"), id="an id twice, in other letters"),
        pytest.param(set_(Piece, position=2), id="two at one position"),
        pytest.param(set_(Piece, side="rear"), id="an unknown side"),
        pytest.param(set_(Piece, print_reads="sideways"), id="an unknown direction"),
        pytest.param(set_(Piece, count=0), id="none of a piece"),
        pytest.param(set_(Piece, count=10_001), id="too many of a piece"),
        pytest.param(set_(Piece, cut_from="box/A/pane"), id="a piece of a paper and a cut-out"),
        pytest.param(set_(Piece, each={"each": ["kelp"]}), id="a piece of a paper and of several"),
        pytest.param(set_(Piece, width=None), id="a piece without a width"),
        pytest.param(set_(Paper, pad=""), id="a paper without a size"),
        pytest.param(set_(Paper, width=Length.of("1 in"), height=Length.of("1 in")), id="a paper of a pad and a size"),
        pytest.param(set_(Paper, grain="across"), id="an unknown grain"),
        pytest.param(set_(Paper, caliper_um=0), id="a paper of no thickness"),
        pytest.param(set_(Window, cut_out="perhaps"), id="an unknown use of a cut-out"),
        pytest.param(set_(Step, held="by-foot"), id="an unknown way to hold"),
        pytest.param(set_(Change, what="guessed"), id="an unknown change"),
        pytest.param(set_(Change, what="undone"), id="an undoing of nothing"),
        pytest.param(set_(Change, what="redone"), id="a redoing of nothing"),
        pytest.param(
            lambda draft: Change.objects.create(draft=draft, revision=1, what="created", at=timezone.now()),
            id="two changes to one revision",
        ),
    ],
)
def test_the_database_itself_refuses(draft, wrong):
    # PostgreSQL refuses a word that is too long before it looks whether it knows it.
    with pytest.raises((IntegrityError, DataError)), transaction.atomic():
        wrong(draft)


def test_what_a_draft_owns_goes_with_it_and_its_history_does_not(draft):
    for table in TABLES:
        rows: Any = table.model._default_manager
        rows.filter(draft=draft).delete()
    assert not Window.objects.exists()
    assert not Step.objects.exists()
    assert Change.objects.exists()


def test_an_absent_list_and_an_empty_one_of_steps_before_are_two_things():
    tree = box(code="both")
    steps = tree["projects"][0]["steps"]
    steps[0]["after"] = []
    draft = drafted(ines(), code="both", projects=tree["projects"])
    del steps[1]["after"]
    assert [step.after for step in Step.objects.filter(project__draft=draft, project__ident="box")] == [[], ["cut"]]
    load(draft, read_kit(json.dumps(tree).encode()))
    assert [step.after for step in Step.objects.filter(project__draft=draft, project__ident="box")] == [[], None]
    assert [step.after for step in build(draft).projects[0].steps] == [(), None]


KNIFE = {"id": "k", "kind": "knife"}


@pytest.mark.parametrize(
    ("old", "new"),
    [
        pytest.param({"x_n": 1}, {"x_n": True}, id="one becomes true"),
        pytest.param({"x_n": [{"deep": 0}]}, {"x_n": [{"deep": False}]}, id="nought becomes false, deep inside"),
        pytest.param({"x_n": None}, {}, id="null goes"),
        pytest.param({"title": "a"}, {"title": "b", "cutting": {"slack": "1/64"}}, id="of the whole document"),
        pytest.param({"tools": [KNIFE]}, {"tools": [{**KNIFE, "name": ""}]}, id="an empty name"),
        pytest.param(
            {"tools": [{**KNIFE, "bite": "1 in"}]},
            {"tools": [{**KNIFE, "bite": "25.4 mm"}]},
            id="as long, in the other system",
        ),
    ],
)
def test_only_what_differs_is_written_and_all_of_it(old, new):
    bare = {"format": "kitproof/1", "code": "bare", "title": "t", "unit": "in"}
    draft = Draft(kit=Kit.objects.create(code="bare"))
    load(draft, read_kit_tree({**bare, **old}))
    kit = read_kit_tree({**bare, **new})
    write_changes(read_rows(draft), kit)
    assert build_bytes(draft) == canonical_bytes(kit)
    with CaptureQueriesContext(connection) as queries:
        write_changes(read_rows(draft), kit)
    assert [query["sql"] for query in queries if not query["sql"].startswith("SELECT")] == []


def test_branches_of_a_kit_stand_beside_its_main_draft(draft):
    branch = Draft(kit=draft.kit, is_main=False, branched_from="0" * 64)
    load(branch, read_kit(box_bytes(title="Corrected")))
    assert build_bytes(branch) == canonical_bytes(read_kit(box_bytes(title="Corrected")))
    assert build_bytes(draft) == canonical_bytes(read_kit(box_bytes()))
    assert Project.objects.count() == 4
