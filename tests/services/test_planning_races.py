"""People who change one draft at the same moment, on each database: nothing is lost without being told."""

from __future__ import annotations

import json
import threading
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from functools import partial
from typing import Any

import pytest
from django.db import IntegrityError, connection

from kits.planning import editing, queries
from kits.planning.documents import build, read_rows
from kits.planning.errors import CodeKnown, RevisionMoved
from kits.planning.models import Change, Draft, Kit
from kits.planning.queries import document_of
from kits.planning.services import draft_undo, id_rename, kit_create, kit_replace, piece_change
from layouts.document import canonical_bytes, value_at
from layouts.models import OPEN, CheckRun
from tests.services.planning_cast import A, box, box_bytes, drafted, ines, mila

pytestmark = pytest.mark.django_db(transaction=True)


def at_once(*deeds: Callable[[], Any]) -> list[Any]:
    """Do things in threads of their own, all begun together; what one raised is its result."""
    together = threading.Barrier(len(deeds), timeout=20)

    def done(deed: Callable[[], Any]) -> Any:
        try:
            connection.ensure_connection()
            together.wait()
            return deed()
        except (RevisionMoved, CodeKnown, IntegrityError) as told:
            return told
        finally:
            connection.close()

    with ThreadPoolExecutor(len(deeds)) as threads:
        return list(threads.map(done, deeds))


def counted(draft: Draft, by, count: int, place: str = A) -> Callable[[], Draft]:
    return lambda: piece_change(draft=draft, place=place, field="count", value=count, revision=1, by=by)


def test_of_two_edits_on_one_revision_one_is_made_and_the_other_told_both_values():
    by, other = ines(), mila()
    draft = drafted(by)
    results = at_once(counted(draft, by, 2), counted(draft, other, 3))
    [made] = [one for one in results if isinstance(one, Draft)]
    [told] = [one for one in results if isinstance(one, RevisionMoved)]
    mine = 2 if results[0] is made else 3
    assert made.revision == 2
    assert (told.place, told.yours, told.theirs) == (f"{A}/count", 5 - mine, mine)
    assert (told.sent, told.revision, told.by) == (1, 2, "Ines Varga" if mine == 2 else "Mila Okoro")
    assert value_at(build(draft), f"{A}/count") == mine
    assert [change.after for change in Change.objects.filter(what="changed")] == [mine]


def test_without_the_look_at_the_revision_one_edit_would_be_lost(monkeypatch):
    """The race is real: with the guard off both are told that they succeeded, and one value is gone."""
    monkeypatch.setattr(editing, "_is_at", lambda draft, revision: True)
    by, other = ines(), mila()
    draft = drafted(by)
    results = at_once(counted(draft, by, 2), counted(draft, other, 3))
    assert sorted(one.revision for one in results) == [2, 3]
    assert {change.after for change in Change.objects.filter(what="changed")} == {2, 3}


def test_without_the_lock_of_the_row_both_would_be_let_through(database, monkeypatch):
    """With SQLite the transaction itself is the lock; with PostgreSQL the constraint on revisions is the last guard."""
    if database == "sqlite":
        return
    both_have_read = threading.Barrier(2, timeout=20)

    def unlocked(draft: Draft) -> Draft:
        now = Draft.objects.select_related("kit").get(pk=draft.pk)
        both_have_read.wait()
        return now

    monkeypatch.setattr(editing, "locked", unlocked)
    by, other = ines(), mila()
    draft = drafted(by)
    results = at_once(counted(draft, by, 2), counted(draft, other, 3))
    assert sorted(type(one).__name__ for one in results) == ["Draft", "IntegrityError"]


def test_two_edits_of_different_pieces_are_not_mixed_either():
    by, other = ines(), mila()
    draft = drafted(by)
    results = at_once(counted(draft, by, 2), counted(draft, other, 3, "project:box/piece:B"))
    [told] = [one for one in results if isinstance(one, RevisionMoved)]
    # Nobody touched this value: what they have is what it was.
    assert told.theirs == 1
    assert Draft.objects.get().revision == 2


@pytest.mark.parametrize("what", ["undo", "replace", "rename"])
def test_an_edit_meets_another_change(what):
    by, other = ines(), mila()
    draft = drafted(by)
    piece_change(draft=draft, place="project:box/piece:B", field="count", value=9, revision=1, by=by)
    deeds: dict[str, Callable[[], Any]] = {
        "undo": lambda: draft_undo(draft=draft, revision=2, by=by),
        "replace": lambda: kit_replace(kit=draft.kit, document=box_bytes(title="Another"), revision=2, by=by),
        "rename": lambda: id_rename(draft=draft, place=A, to="Front", revision=2, by=by),
    }
    edit = partial(piece_change, draft=draft, place=A, field="count", value=2, revision=2, by=other)
    results = at_once(deeds[what], edit)
    assert sorted(type(one).__name__ for one in results) == ["Draft", "RevisionMoved"]
    draft.refresh_from_db()
    assert (draft.revision, draft.changes.count()) == (3, 3)
    assert_checked(draft)


def test_of_two_who_take_a_change_back_one_does():
    by = ines()
    draft = drafted(by)
    piece_change(draft=draft, place=A, field="count", value=2, revision=1, by=by)
    undo = partial(draft_undo, draft=draft, revision=2, by=by)
    assert sorted(type(one).__name__ for one in at_once(undo, undo)) == ["Draft", "RevisionMoved"]
    assert value_at(build(draft), f"{A}/count") == 1


def test_of_two_kits_with_one_code_one_is_made():
    by, other = ines(), mila()
    results = at_once(
        lambda: kit_create(document=box_bytes(code="spring"), by=by),
        lambda: kit_create(document=box_bytes(code="Spring"), by=other),
    )
    [made] = [one for one in results if isinstance(one, Draft)]
    [known] = [one for one in results if isinstance(one, CodeKnown)]
    assert (known.kit, known.revision) == (made.kit.code, 1)
    assert Kit.objects.count() == Draft.objects.count() == 1


def test_many_edits_one_after_the_other_leave_one_open_check_of_the_last(database):
    by, other = ines(), mila()
    draft = drafted(by)

    def edit(who: Any) -> None:
        for count in range(2, 12):
            while True:
                now = Draft.objects.get(pk=draft.pk)
                try:
                    piece_change(draft=now, place=A, field="count", value=count, revision=now.revision, by=who)
                    break
                except RevisionMoved:
                    continue

    at_once(partial(edit, by), partial(edit, other))
    draft.refresh_from_db()
    # The same value again is no change: how many there were depends on who was when.
    assert draft.revision == draft.changes.count()
    assert draft.revision >= 11
    assert_checked(draft)


def assert_checked(draft: Draft) -> None:
    [run] = CheckRun.objects.filter(subject=draft.subject, state__in=OPEN)
    assert run.revision == draft.revision
    assert run.document.encode() == canonical_bytes(build(draft))


@pytest.mark.parametrize("writes", [1, 2, 99], ids=["once", "twice", "whenever somebody reads"])
def test_a_document_is_read_whole_although_somebody_writes(monkeypatch, writes):
    by = ines()
    draft = drafted(by)
    left = iter(range(writes))

    def disturbed(now: Draft) -> Any:
        """Between the draft's own columns and its rows the document is replaced: title and project belong together."""
        number = next(left, None)
        if number is not None:
            tree = box(title=f"Title {number}")
            tree["projects"][0]["title"] = f"Title {number}"
            replace = partial(
                kit_replace, kit=draft.kit, document=json.dumps(tree).encode(), revision=now.revision, by=by
            )
            [replaced] = at_once(replace)
            assert isinstance(replaced, Draft)
        return read_rows(now)

    monkeypatch.setattr(queries, "read_rows", disturbed)
    now, document = document_of(draft)
    assert document.title == document.projects[0].title == f"Title {now.revision - 2}"
    # Once nobody comes between, or else under the lock.
    assert now.revision == min(writes, 3) + 1
