"""What is asked about kits, and with how many statements, on each database."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from kits.members.models import Role
from kits.planning.documents import build_bytes, load
from kits.planning.models import Draft
from kits.planning.queries import draft_bytes, kit_page, kits_for
from kits.planning.services import draft_undo, id_rename, kit_create, kit_replace, piece_change
from layouts.document import canonical_bytes, read_kit
from tests.services.planning_cast import A, box, box_bytes, drafted, ines, mila, person

pytestmark = pytest.mark.django_db


@pytest.fixture
def by():
    return ines()


@pytest.mark.parametrize(
    ("roles", "sees"),
    [
        ((), False),
        ((Role.MEMBER,), False),
        ((Role.PLANNER,), True),
        ((Role.EDITOR,), True),
        ((Role.CARE,), True),
        ((Role.STOCK,), True),
        ((Role.MEMBER, Role.STOCK), True),
    ],
    ids=str,
)
def test_the_team_sees_all_kits_and_a_member_none(by, roles, sees):
    drafted(by, code="2027-06", title="Later")
    first = drafted(by)
    lines = kits_for(person("Jo Lindahl", *roles))
    assert [(line.kit.code, line.title) for line in lines] == (
        [("2027-05", "The Tide Table"), ("2027-06", "Later")] if sees else []
    )
    if sees:
        run = lines[0].run
        assert run is not None
        assert (run.subject, run.revision, run.state) == (first.subject, 1, "waiting")


def test_the_page_of_a_kit_has_its_draft_and_what_was_changed(by):
    draft = drafted(by)
    for count in range(2, 14):
        draft = piece_change(draft=draft, place=A, field="count", value=count, revision=draft.revision, by=by)
    draft = draft_undo(draft=draft, revision=13, by=by)
    page = kit_page("2027-05")
    assert (page.kit.code, page.draft, page.draft.revision) == ("2027-05", draft, 14)
    assert canonical_bytes(page.document) == build_bytes(draft) == draft_bytes(draft)
    assert [change.revision for change in page.changes] == list(range(14, 4, -1))
    assert page.undo is not None
    assert (page.undo.revision, page.undo.after, page.undo.by) == (12, 12, by)
    assert page.run is not None
    assert (page.run.revision, page.proved) == (14, None)


def test_a_kit_is_found_by_its_code_in_any_letters(by):
    drafted(by, code="spring-A")
    assert kit_page("Spring-a").kit.code == "spring-A"
    with pytest.raises(Draft.DoesNotExist):
        kit_page("autumn")


def test_a_new_kit_has_nothing_to_undo(by):
    drafted(by)
    assert kit_page("2027-05").undo is None


# Statements, counted --------------------------------------------------------------------------------------------------


def long_kit(pieces: int, **changes: Any) -> bytes:
    """The kit with so many pieces in its first project, each with a window, a step and a placement."""
    tree = box(**changes)
    project = tree["projects"][0]
    for number in range(pieces):
        project["pieces"].append(
            {
                "id": f"p{number}",
                "name": "strip",
                "paper": "slate",
                "size": ["1", "1/2"],
                "windows": [{"id": "hole", "left": "1/8", "width": "1/8", "top": "1/8", "height": "1/8"}],
            }
        )
        project["placements"].append({"id": f"p{number}", "put": {"piece": f"p{number}"}, "on": {"piece": "A"}})
        project["steps"].append({"id": f"s{number}", "text": f"Cut {{p{number}}}.", "cut": [f"p{number}"]})
    return json.dumps(tree).encode()


def statements(deed: Callable[[], Any]) -> int:
    with CaptureQueriesContext(connection) as queries:
        deed()
    return len(queries)


def counts(pieces: int, code: str, by) -> dict[str, int]:
    at = {"revision": 1, "by": by}
    kit = read_kit(long_kit(pieces, code=code))
    draft = kit_create(document=canonical_bytes(kit), by=by)
    again = long_kit(pieces, code=code, title="Another")
    return {
        "load": statements(lambda: load(draft, kit)),
        "build": statements(lambda: build_bytes(draft)),
        "page": statements(lambda: kit_page(code)),
        "create": statements(lambda: kit_create(document=long_kit(pieces, code=f"{code}-more"), by=by)),
        "change": statements(lambda: piece_change(draft=draft, place=A, field="count", value=2, **at)),
        "undo": statements(lambda: draft_undo(draft=draft, revision=2, by=by)),
        "rename": statements(lambda: id_rename(draft=draft, place="paper:slate", to="s", revision=3, by=by)),
        "replace": statements(lambda: kit_replace(kit=draft.kit, document=again, revision=4, by=by)),
    }


# By table: 15 of them to read, 8 of them to empty (the database empties the others), those with members to write.
# A draft's own row beside them, for a page what can be undone and redone, and for a service the role, the change, the
# check and their savepoints.
MOST = {"load": 24, "build": 16, "page": 23, "create": 35, "change": 30, "undo": 35, "rename": 35, "replace": 55}


def test_statements_do_not_grow_with_a_kit(by):
    few, many = counts(10, "few", by), counts(300, "many", by)
    assert few == many
    assert {deed: few[deed] for deed in MOST if few[deed] > MOST[deed]} == {}


def test_statements_do_not_grow_with_the_number_of_kits(by):
    kit_create(document=box_bytes(code="first"), by=by)
    one = statements(lambda: kits_for(by))
    for number in range(5):
        kit_create(document=box_bytes(code=f"kit-{number}"), by=by)
    assert statements(lambda: kits_for(by)) == one == 3


def test_the_page_of_a_kit_takes_no_more_statements_with_a_long_history(by):
    draft = drafted(by)
    before = statements(lambda: kit_page("2027-05"))
    other = mila()
    for count in range(2, 30):
        draft = piece_change(
            draft=draft, place=A, field="count", value=count, revision=draft.revision, by=by if count % 2 else other
        )
    assert statements(lambda: kit_page("2027-05")) == before
