"""Changes taken back, the last one first, on each database."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from inventory.models import ItemKind
from inventory.services import item_add
from kits.members.models import Person, Role
from kits.planning.documents import build_bytes
from kits.planning.errors import (
    DraftRefused,
    NotAllowed,
    NothingToRedo,
    NothingToUndo,
    OthersChange,
    RenameUnclear,
    RevisionMoved,
)
from kits.planning.models import Change, Draft, Paper
from kits.planning.services import (
    draft_redo,
    draft_restore,
    draft_undo,
    id_rename,
    kit_replace,
    mend_apply,
    paper_take_over,
    piece_change,
)
from layouts.document import Change as Value
from layouts.document import UnknownPlace, canonical_bytes, read_kit
from layouts.models import CheckRun
from tests.properties.test_load_build import nothing_kept
from tests.services.planning_cast import A, box_bytes, drafted, ines, mila, person

pytestmark = pytest.mark.django_db


@pytest.fixture
def by():
    return ines()


def undone(draft: Draft, by: Person) -> Draft:
    draft.refresh_from_db()
    return draft_undo(draft=draft, revision=draft.revision, by=by)


def redone(draft: Draft, by: Person) -> Draft:
    draft.refresh_from_db()
    return draft_redo(draft=draft, revision=draft.revision, by=by)


def _linked(draft: Draft) -> dict[str, int | None]:
    """Which catalogue item each paper came from, as the database has it now."""
    return dict(Paper.objects.filter(draft=draft).values_list("ident", "item_id"))


def changed(draft: Draft, by: Person, what: str) -> Draft:
    """One change of each kind, on the newest revision."""
    draft.refresh_from_db()
    at: dict[str, Any] = {"draft": draft, "revision": draft.revision, "by": by}
    if what == "renamed":
        return id_rename(place="project:box", to="chest", **at)
    if what == "replaced":
        return kit_replace(
            kit=draft.kit, document=box_bytes(title="Another", projects=[]), revision=draft.revision, by=by
        )
    if what == "taken over":
        facts = {"size": ["8", "8"], "front": {"name": "Dune"}}
        item = item_add(kind=ItemKind.PAPER, name="Dune", facts=facts, unit="mm", by=None)
        return paper_take_over(place="paper:slate", item=item, **at)
    if what == "mended":
        three = Value("project:box/piece:B/count", 1, 3)
        return mend_apply(
            changes=[three, Value("paper:slate/sheets", 2, 4), Value(f"{A}/size/height", "4", "3 7/8")], **at
        )
    if what == "without paper":
        return piece_change(place=A, field="paper", value="", **at)
    return piece_change(place=A, field="size", value=["152.4 mm", "4"], **at)


CHANGES = ["sized", "mended", "without paper", "renamed", "taken over", "replaced"]


@pytest.mark.parametrize("what", CHANGES)
def test_a_change_is_taken_back(by, what):
    draft = drafted(by)
    before = build_bytes(draft)
    changed(draft, by, what)
    assert build_bytes(draft) != before
    after_undo = undone(draft, by)
    assert build_bytes(after_undo) == before
    assert after_undo.revision == 3
    first, second = Change.objects.filter(revision__gte=2).order_by("revision")
    assert (second.what, second.undoes, second.by) == ("undone", first, by)
    assert (second.place, second.before, second.after) == (first.place, first.after, first.before)
    assert CheckRun.objects.get(revision=3).document.encode() == before


def test_changes_are_taken_back_one_after_the_other_until_none_is_left(by):
    draft = drafted(by)
    states = [build_bytes(draft)]
    for what in CHANGES:
        changed(draft, by, what)
        states.append(build_bytes(draft))
    for state in reversed(states[:-1]):
        undone(draft, by)
        assert build_bytes(draft) == state
    with pytest.raises(NothingToUndo):
        undone(draft, by)
    draft.refresh_from_db()
    assert draft.revision == 1 + 2 * len(CHANGES)
    assert draft.changes.count() == draft.revision


def test_a_new_change_after_an_undo_is_the_next_to_go(by):
    draft = drafted(by)
    before = build_bytes(draft)
    changed(draft, by, "sized")
    sized = build_bytes(draft)
    changed(draft, by, "without paper")
    undone(draft, by)
    changed(draft, by, "renamed")
    undone(draft, by)
    assert build_bytes(draft) == sized
    undone(draft, by)
    assert build_bytes(draft) == before


def test_the_beginning_of_a_kit_is_not_taken_back(by):
    draft = drafted(by)
    with pytest.raises(NothingToUndo):
        undone(draft, by)


def test_the_change_of_somebody_else_is_not_taken_back_unseen(by):
    draft, other = drafted(by), mila()
    piece_change(draft=draft, place=A, field="count", value=2, revision=1, by=by)
    piece_change(draft=draft, place=A, field="count", value=3, revision=2, by=other)
    with pytest.raises(RevisionMoved) as moved:
        draft_undo(draft=draft, revision=2, by=by)
    told = moved.value
    assert (told.place, told.yours, told.theirs) == (f"{A}/count", 1, 3)
    assert (told.sent, told.revision, told.by) == (2, 3, "Mila Okoro")


def test_the_change_of_somebody_else_is_not_taken_back_knowingly_either(by):
    draft, other = drafted(by), mila()
    piece_change(draft=draft, place=A, field="count", value=2, revision=1, by=by)
    piece_change(draft=draft, place="project:box/piece:B", field="count", value=3, revision=2, by=other)
    with pytest.raises(OthersChange) as refused:
        undone(draft, by)
    told = refused.value
    assert (told.place, told.before, told.after, told.by) == ("project:box/piece:B/count", 1, 3, "Mila Okoro")
    draft.refresh_from_db()
    assert draft.revision == 3
    # Once they have, it is one's own turn again.
    undone(draft, other)
    undone(draft, by)
    assert build_bytes(draft) == canonical_bytes(read_kit(box_bytes()))


def test_a_paper_is_linked_again_to_the_item_it_came_from(by):
    draft = drafted(by)
    changed(draft, by, "taken over")
    first = Paper.objects.get(draft=draft, ident="slate").item_id
    second = item_add(
        kind=ItemKind.PAPER, name="Sand", facts={"size": ["8", "8"], "front": {"name": "Sand"}}, unit="in", by=None
    )
    draft.refresh_from_db()
    paper_take_over(draft=draft, place="paper:slate", item=second, revision=2, by=by)
    undone(draft, by)
    assert Paper.objects.get(draft=draft, ident="slate").item_id == first
    undone(draft, by)
    assert Paper.objects.get(draft=draft, ident="slate").item_id is None


@pytest.mark.parametrize("what", CHANGES)
def test_what_was_taken_back_is_made_again(by, what):
    draft = drafted(by)
    changed(draft, by, what)
    after, linked = build_bytes(draft), _linked(draft)
    undone(draft, by)
    draft = redone(draft, by)
    assert (build_bytes(draft), _linked(draft)) == (after, linked)
    made, _, again = draft.changes.exclude(what="created").order_by("revision")
    assert (again.what, again.place, again.before, again.after) == ("redone", made.place, made.before, made.after)
    assert CheckRun.objects.get(revision=4).document.encode() == after
    # And what was made again can be taken back like what was made.
    undone(draft, by)
    assert build_bytes(draft) == canonical_bytes(read_kit(box_bytes()))


def test_changes_are_made_again_one_after_the_other_until_none_is_left(by):
    draft = drafted(by)
    states = [build_bytes(draft)]
    for what in CHANGES:
        changed(draft, by, what)
        states.append(build_bytes(draft))
    for _ in CHANGES:
        undone(draft, by)
    for state in states[1:]:
        redone(draft, by)
        assert build_bytes(draft) == state
    with pytest.raises(NothingToRedo):
        redone(draft, by)
    for state in reversed(states[:-1]):
        undone(draft, by)
        assert build_bytes(draft) == state


def test_nothing_is_made_again_once_something_else_was_changed(by):
    draft = drafted(by)
    changed(draft, by, "sized")
    undone(draft, by)
    changed(draft, by, "without paper")
    with pytest.raises(NothingToRedo):
        redone(draft, by)


def test_what_somebody_else_took_back_is_not_made_again_unseen(by):
    draft, other = drafted(by), mila()
    changed(draft, other, "sized")
    undone(draft, other)
    with pytest.raises(OthersChange):
        redone(draft, by)
    redone(draft, other)


@pytest.mark.parametrize("to", range(1, 6))
def test_any_earlier_state_comes_back_and_the_history_stays(by, to):
    draft = drafted(by)
    states = [build_bytes(draft)]
    for what in ("sized", "mended", "renamed"):
        changed(draft, by, what)
        states.append(build_bytes(draft))
    undone(draft, by)
    states.append(build_bytes(draft))
    changed(draft, by, "replaced")
    now = build_bytes(draft)
    draft = draft_restore(draft=draft, to=to, revision=6, by=by)
    assert build_bytes(draft) == states[to - 1]
    last = draft.changes.first()
    assert last is not None
    assert (draft.revision, last.what) == (7, "restored")
    undone(draft, by)
    assert build_bytes(draft) == now


@pytest.mark.parametrize("to", [0, 2, 3, -1], ids=["before the first", "the present", "the future", "less than none"])
def test_there_is_no_such_state(by, to):
    draft = drafted(by)
    changed(draft, by, "sized")
    with pytest.raises(NothingToUndo):
        draft_restore(draft=draft, to=to, revision=2, by=by)


def test_only_planners_bring_anything_back(by):
    draft = drafted(by)
    changed(draft, by, "sized")
    undone(draft, by)
    for role in (Role.EDITOR, Role.CARE, Role.STOCK, Role.MEMBER):
        other = person(f"{role.value} x", role)
        with pytest.raises(NotAllowed):
            redone(draft, other)
        with pytest.raises(NotAllowed):
            draft_restore(draft=draft, to=1, revision=3, by=other)


def test_only_planners_take_changes_back(by):
    draft = drafted(by)
    changed(draft, by, "sized")
    with pytest.raises(NotAllowed):
        undone(draft, person("Jo Lindahl", Role.EDITOR))


IDS = st.sampled_from(["A", "B", "H", "Z", "box", "lid", "pane", "kelp"])
PLACES = st.sampled_from(
    [
        *(A, "project:box/piece:B", "project:tag/piece:H", "project:box/form:lid", "project:box/piece:A/window:pane"),
        *("project:box/placement:A", "project:box/step:glue", "project:box", "paper:kelp", "pad:shore", "blank:lid"),
    ]
)
EDITS = st.one_of(
    st.tuples(st.just("size"), PLACES, st.sampled_from([["1", "1"], ["25.4 mm", "1"], ["1/3", "2"]])),
    st.tuples(st.just("count"), PLACES, st.sampled_from([1, 2, 0])),
    st.tuples(st.just("paper"), PLACES, st.sampled_from(["kelp", "slate", "", {"each": ["kelp"]}])),
    st.tuples(st.just("id"), PLACES, IDS),
)


@settings(max_examples=25)
@given(edits=st.lists(EDITS, max_size=6))
def test_whatever_was_changed_comes_back_and_every_state_is_what_is_checked(edits):
    with nothing_kept():
        by = ines()
        draft = drafted(by)
        states = [build_bytes(draft)]
        for field, place, value in edits:
            revision = draft.revision
            try:
                if field == "id":
                    draft = id_rename(draft=draft, place=place, to=value, revision=revision, by=by)
                else:
                    draft = piece_change(draft=draft, place=place, field=field, value=value, revision=revision, by=by)
            except (DraftRefused, RenameUnclear, UnknownPlace):
                draft = Draft.objects.get(pk=draft.pk)
                assert (draft.revision, build_bytes(draft)) == (revision, states[-1])
                continue
            now = build_bytes(draft)
            assert CheckRun.objects.get(subject=draft.subject, revision=draft.revision).document.encode() == now
            if draft.revision != revision:
                states.append(now)
        for state in reversed(states[:-1]):
            undone(draft, by)
            assert build_bytes(draft) == state
