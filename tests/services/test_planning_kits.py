"""Kits made from documents, replaced by documents, and checked as they are, on each database."""

from __future__ import annotations

import hashlib

import pytest

from inventory.models import CatalogueItem, ItemKind
from inventory.services import item_add, item_change
from kits.members.models import Role
from kits.planning.documents import build_bytes
from kits.planning.errors import CodeKnown, NotAllowed, OtherKit, RevisionMoved
from kits.planning.models import Change, Draft, Kit, Pad, Paper, Piece
from kits.planning.services import draft_check, kit_create, kit_replace, paper_take_over, piece_change
from layouts.document import Refused, UnknownPlace, canonical_bytes, canonical_value, read_kit, value_at
from layouts.models import CheckRun
from tests.services.planning_cast import A, box_bytes, drafted, ines, mila, person

pytestmark = pytest.mark.django_db


@pytest.fixture
def by():
    return ines()


def canonical(data: bytes) -> bytes:
    return canonical_bytes(read_kit(data))


def test_a_kit_begins_with_a_document(by):
    draft = kit_create(document=box_bytes(), by=by)
    assert (draft.kit.code, draft.revision, draft.is_main, draft.title) == ("2027-05", 1, True, "The Tide Table")
    assert build_bytes(draft) == canonical(box_bytes())
    change = Change.objects.get()
    assert (change.what, change.by, change.revision) == ("created", by, 1)
    assert change.after == hashlib.sha256(canonical(box_bytes())).hexdigest()
    run = CheckRun.objects.get()
    assert (run.subject, run.revision, run.document.encode()) == (draft.subject, 1, build_bytes(draft))


@pytest.mark.parametrize("code", ["2027-05", "2027-05A"])
def test_a_known_code_tells_which_kit_and_revision_has_it(by, code):
    first = drafted(by, code=code)
    with pytest.raises(CodeKnown) as known:
        drafted(by, code=code.lower(), title="Another")
    assert (known.value.kit, known.value.title, known.value.revision) == (code, "The Tide Table", 1)
    assert [draft.pk for draft in Draft.objects.all()] == [first.pk]
    assert CheckRun.objects.count() == 1


def test_a_document_that_is_none_makes_no_kit(by):
    with pytest.raises(Refused) as refused:
        kit_create(document=b'{"format": "kitproof/1"}', by=by)
    assert {error.code for error in refused.value.errors} == {"missing"}
    assert not Kit.objects.exists()


def test_only_planners_bring_documents(by):
    kit = drafted(by).kit
    editor = person("Jo Lindahl", Role.EDITOR, Role.MEMBER)
    with pytest.raises(NotAllowed):
        kit_create(document=box_bytes(code="2027-06"), by=editor)
    with pytest.raises(NotAllowed):
        kit_replace(kit=kit, document=box_bytes(title="Another"), revision=1, by=editor)


def test_a_document_replaces_a_draft_and_its_history_stays(by):
    draft = drafted(by)
    piece_change(draft=draft, place=A, field="count", value=2, revision=1, by=by)
    before = build_bytes(draft)
    new = box_bytes(title="Another", unit="mm", projects=[], pads=[{"id": "new", "name": "n", "size": ["9", "9"]}])
    new = new.replace(b'"pad": "shore"', b'"pad": "new"')
    replaced = kit_replace(kit=draft.kit, document=new, revision=2, by=by)
    assert (replaced.pk, replaced.revision, replaced.title) == (draft.pk, 3, "Another")
    assert build_bytes(replaced) == canonical(new)
    assert not Piece.objects.exists()
    assert [pad.ident for pad in Pad.objects.all()] == ["new"]
    assert [change.what for change in draft.changes.all()] == ["replaced", "changed", "created"]
    last = draft.changes.first()
    assert last is not None
    assert canonical_bytes(last.document) == build_bytes(replaced)
    assert last.before == hashlib.sha256(before).hexdigest()


def test_the_same_document_replaces_nothing(by):
    draft = drafted(by)
    assert kit_replace(kit=draft.kit, document=build_bytes(draft), revision=1, by=by).revision == 1
    assert Change.objects.count() == CheckRun.objects.count() == 1


def test_a_document_that_is_none_replaces_nothing(by):
    draft = drafted(by)
    with pytest.raises(Refused):
        kit_replace(kit=draft.kit, document=b"{}", revision=1, by=by)
    assert build_bytes(draft) == canonical(box_bytes())


def test_a_document_of_another_kit_replaces_nothing(by):
    draft = drafted(by)
    with pytest.raises(OtherKit) as other:
        kit_replace(kit=draft.kit, document=box_bytes(code="2027-06"), revision=1, by=by)
    assert (other.value.kit, other.value.document) == ("2027-05", "2027-06")


def test_capitals_of_the_code_are_those_of_the_document(by):
    draft = drafted(by, code="spring-a")
    replaced = kit_replace(kit=draft.kit, document=box_bytes(code="Spring-A"), revision=1, by=by)
    assert build_bytes(Draft.objects.get()) == canonical(box_bytes(code="Spring-A"))
    assert replaced.kit.code == "Spring-A"


def test_a_draft_that_was_changed_meanwhile_is_not_replaced(by):
    draft = drafted(by)
    piece_change(draft=draft, place=A, field="count", value=2, revision=1, by=mila())
    now = build_bytes(draft)
    with pytest.raises(RevisionMoved) as moved:
        kit_replace(kit=draft.kit, document=box_bytes(title="Another"), revision=1, by=by)
    told = moved.value
    assert (told.place, told.sent, told.revision, told.by) == ("", 1, 2, "Mila Okoro")
    assert told.yours == hashlib.sha256(canonical(box_bytes(title="Another"))).hexdigest()
    assert told.theirs == hashlib.sha256(now).hexdigest()
    assert build_bytes(draft) == now


@pytest.mark.parametrize(("role", "may"), [("planner", True), ("editor", True), ("care", False), ("member", False)])
def test_planners_and_editors_have_a_draft_checked(by, role, may):
    draft = drafted(by)
    asking = person("Jo Lindahl", Role(role))
    if not may:
        with pytest.raises(NotAllowed):
            draft_check(draft=draft, by=asking)
        return
    run = draft_check(draft=draft, by=asking)
    assert (run.subject, run.revision, run.document.encode()) == (draft.subject, 1, build_bytes(draft))
    assert run.requested_by == asking
    draft.refresh_from_db()
    assert draft.revision == 1


# Papers of the catalogue ------------------------------------------------------------------------------------------

LEAF = {"size": ["12", "12"], "front": {"name": "Dune", "reads": "left"}, "caliper_um": 220, "undersize": "1/32"}


def leaf(**changes) -> CatalogueItem:
    facts = {**LEAF, **changes}
    return item_add(kind=ItemKind.PAPER, name="Dune grass", facts=facts, unit="in", by=None)


def test_a_paper_takes_over_what_the_catalogue_says(by):
    draft, item = drafted(by), leaf()
    draft = paper_take_over(draft=draft, place="paper:slate", item=item, revision=1, by=by)
    paper = read_kit(build_bytes(draft)).papers[1]
    expected = {"id": "slate", "name": "Dune grass", "sheets": 2, **LEAF}
    assert canonical_of(paper) == expected
    assert CatalogueItem.objects.get(pk=draft_paper(draft, "slate").item_id) == item
    change = draft.changes.first()
    assert change is not None
    assert (change.what, change.place) == ("taken-over", "paper:slate")
    assert (change.before["item"], change.after["item"]) == (None, item.pk)  # type: ignore[index]


def canonical_of(paper):
    return canonical_value(paper, "in")


def draft_paper(draft, ident):
    return Paper.objects.get(draft=draft, ident=ident)


def test_what_was_taken_over_already_changes_nothing(by):
    draft, item = drafted(by), leaf()
    draft = paper_take_over(draft=draft, place="paper:slate", item=item, revision=1, by=by)
    assert paper_take_over(draft=draft, place="paper:slate", item=item, revision=2, by=by).revision == 2


@pytest.mark.parametrize(
    ("size", "pad"),
    [
        pytest.param(["8 in", "8 in"], "shore", id="a leaf of its pad"),
        pytest.param(["9", "9"], None, id="another size"),
    ],
)
def test_a_paper_stays_in_its_pad_while_it_has_its_size(by, size, pad):
    draft, item = drafted(by), leaf(size=size)
    draft = paper_take_over(draft=draft, place="paper:kelp", item=item, revision=1, by=by)
    paper = value_at(read_kit(build_bytes(draft)), "paper:kelp")
    assert paper.pad == pad


def test_only_papers_are_taken_over_into_papers(by):
    draft = drafted(by)
    pad = item_add(kind=ItemKind.PAD, name="Dune pad", facts={"size": ["8", "8"]}, unit="in", by=None)
    with pytest.raises(UnknownPlace):
        paper_take_over(draft=draft, place="paper:slate", item=pad, revision=1, by=by)
    with pytest.raises(UnknownPlace):
        paper_take_over(draft=draft, place=A, item=leaf(), revision=1, by=by)


def test_a_changed_item_changes_no_draft(by):
    draft, item = drafted(by), leaf()
    draft = paper_take_over(draft=draft, place="paper:slate", item=item, revision=1, by=by)
    before = build_bytes(draft)
    item_change(item=item, name="Marram", facts={**LEAF, "caliper_um": 300}, unit="in", by=by)
    assert build_bytes(draft) == before
