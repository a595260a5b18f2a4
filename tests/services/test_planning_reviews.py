"""Comments, handovers and test builds: who may, what is noted, and what becomes of places that are renamed."""

from __future__ import annotations

import io
from typing import Any

import pytest
from PIL import Image

from kits.members.models import Person, Role
from kits.planning.errors import (
    BadPicture,
    BadRecord,
    HandedOver,
    NotAllowed,
    NothingSaid,
    NotTheirs,
    PlannedIt,
    SaidTooMuch,
)
from kits.planning.models import Comment, Draft, Handover, TestBuild, TestBuildPhoto
from kits.planning.reviews import builds_of, comments_at, comments_of, standing_of_kit
from kits.planning.services import (
    build_add_photos,
    build_record,
    comment_add,
    comment_answer,
    comment_assign,
    comment_reopen,
    comment_resolve,
    dates_set,
    draft_redo,
    draft_undo,
    finding_accept,
    id_rename,
    kit_hand_over,
    kit_take_back,
    thing_remove,
)
from layouts.document import document_hash
from tests.services.planning_cast import A, drafted, ines, mila, person

pytestmark = pytest.mark.django_db


@pytest.fixture
def by() -> Person:
    return ines()


@pytest.fixture
def runa() -> Person:
    return person("Runa Holm", Role.EDITOR)


@pytest.fixture
def draft(by) -> Draft:
    return drafted(by)


def said(draft: Draft, by: Person, place: str = A, **changes: Any) -> Comment:
    return comment_add(kit=draft.kit, place=place, words="Box, piece A (front)", text=" Too thin? ", by=by, **changes)


def test_a_comment_is_said_answered_resolved_and_opened_again(draft, by, runa):
    comment = said(draft, runa, to=by)
    comment_answer(comment=comment, text="It is glued to a lid.", by=by)
    assert comment_resolve(comment=comment, by=runa)
    assert not comment_resolve(comment=comment, by=by)
    assert comment_reopen(comment=comment, by=by)
    (found,) = comments_of(draft.kit)
    assert (found.text, found.is_open, found.assigned_to, found.by) == ("Too thin?", True, by, runa)
    assert [(one.what, one.by, one.text) for one in found.entries.all()] == [
        ("assigned", runa, ""),
        ("answered", by, "It is glued to a lid."),
        ("resolved", runa, ""),
        ("reopened", by, ""),
    ]


def test_a_comment_changes_no_document(draft, runa):
    said(draft, runa)
    assert Draft.objects.get().revision == 1


def test_open_comments_come_first_then_the_newest(draft, by):
    first, second, third = (said(draft, by) for _ in range(3))
    comment_resolve(comment=third, by=by)
    assert comments_of(draft.kit) == [second, first, third]


def test_somebody_else_is_asked_and_the_same_one_not_twice(draft, by, runa):
    comment = said(draft, by)
    assert comment_assign(comment=comment, to=runa, by=by)
    assert not comment_assign(comment=comment, to=runa, by=by)
    assert comment_assign(comment=comment, to=None, by=runa)
    assert not comment_assign(comment=comment, to=None, by=runa)
    assert [one.to for one in Comment.objects.get().entries.all()] == [runa, None]


@pytest.mark.parametrize("text", ["", " \n\t"])
def test_nothing_is_no_comment_and_no_answer(draft, by, text):
    with pytest.raises(NothingSaid):
        comment_add(kit=draft.kit, place=A, words="x", text=text, by=by)
    comment = said(draft, by)
    with pytest.raises(NothingSaid):
        comment_answer(comment=comment, text=text, by=by)
    assert not comment.entries.exists()


@pytest.mark.parametrize("length", [4000, 4001])
def test_what_is_said_has_at_most_4000_characters(draft, by, length):
    text = "x" * length
    comment = said(draft, by)
    acts = (
        lambda: comment_answer(comment=comment, text=text, by=by),
        lambda: comment_add(kit=draft.kit, place=A, words="x", text=text, by=by),
        lambda: give(draft, by, sentence=text),
        lambda: comment_resolve(comment=comment, text=text, by=by),
    )
    for act in acts:
        if length > 4000:
            with pytest.raises(SaidTooMuch, match="these are 4,001 characters, and 4,000 are the most"):
                act()
        else:
            act()
    assert Comment.objects.get(pk=comment.pk).is_open == (length > 4000)


def test_a_character_that_no_database_keeps_is_left_out(draft, by, runa):
    comment = comment_add(kit=draft.kit, place=A, words="x", text="Too\0 thin?", by=by)
    record = made(draft, runa, tools="kni\0fe", deviations="\0")
    assert (comment.text, record.tools, record.deviations) == ("Too thin?", "knife", "")


def test_a_comment_is_resolved_by_who_said_or_was_asked_it_and_by_editors(draft, by, runa):
    tove, otto, lene = (person(name, Role.CARE) for name in ("Tove Adler", "Otto Lind", "Lene Falk"))
    for resolver in (tove, otto, runa):
        assert comment_resolve(comment=said(draft, tove, to=otto), by=resolver)
    left = said(draft, tove, to=otto)
    for somebody in (lene, by):
        with pytest.raises(NotTheirs):
            comment_resolve(comment=left, text="It is glued.", by=somebody)
    assert [one.what for one in Comment.objects.get(pk=left.pk).entries.all()] == ["assigned"]
    assert Comment.objects.get(pk=left.pk).is_open


def test_members_say_nothing_and_are_asked_nothing(draft, by):
    member = person("Lea Brandt", Role.MEMBER)
    comment = said(draft, by)
    for act in (
        lambda: said(draft, member),
        lambda: said(draft, by, to=member),
        lambda: comment_answer(comment=comment, text="x", by=member),
        lambda: comment_assign(comment=comment, to=member, by=by),
        lambda: comment_assign(comment=comment, to=by, by=member),
        lambda: comment_resolve(comment=comment, by=member),
        lambda: comment_reopen(comment=comment, by=member),
    ):
        with pytest.raises(NotAllowed):
            act()
    assert Comment.objects.count() == 1


def test_comments_follow_what_they_are_about_when_it_is_renamed(draft, by):
    piece, window, other = said(draft, by), said(draft, by, f"{A}/window:pane"), said(draft, by, "project:box/piece:B")
    # The id of one begins like that of the other.
    longer = said(draft, by, "project:box/piece:AA")
    id_rename(draft=draft, place=A, to="C", revision=1, by=by)
    places = {one.pk: one.place for one in comments_of(draft.kit)}
    assert places == {
        piece.pk: "project:box/piece:C",
        window.pk: "project:box/piece:C/window:pane",
        other.pk: "project:box/piece:B",
        longer.pk: "project:box/piece:AA",
    }
    assert Comment.objects.get(pk=piece.pk).words == "Box, piece A (front)"


def test_comments_follow_when_a_new_id_is_taken_back_and_given_again(draft, by):
    said(draft, by)
    id_rename(draft=draft, place=A, to="C", revision=1, by=by)
    draft_undo(draft=draft, revision=2, by=by)
    assert Comment.objects.get().place == A
    draft_redo(draft=draft, revision=3, by=by)
    assert Comment.objects.get().place == "project:box/piece:C"


def test_comments_beside_a_thing_are_those_on_it_and_in_it(draft, by):
    piece, window = said(draft, by), said(draft, by, f"{A}/window:pane")
    said(draft, by, "project:box/piece:AA")
    said(draft, by, "project:tag/piece:A")
    said(draft, by, "project:box/piece:a/window:pane")
    assert set(comments_at(draft, A)) == {piece, window}


def test_a_comment_stays_when_its_thing_is_removed(draft, by):
    comment = said(draft, by)
    thing_remove(draft=draft, place=A, revision=1, by=by, with_mentions=True)
    assert comments_of(draft.kit) == [comment]


def test_comments_take_as_many_queries_however_many_there_are(draft, by, django_assert_num_queries):
    for _ in range(9):
        comment_answer(comment=said(draft, by), text="yes", by=by)
    with django_assert_num_queries(2):
        assert [one.text for comment in comments_of(draft.kit) for one in comment.entries.all()] == ["yes"] * 9


def give(draft: Draft, by: Person, number: int = 0, sentence: str = "Please prove it.") -> Handover:
    return kit_hand_over(kit=draft.kit, sentence=sentence, number=number, by=by)


def test_a_kit_goes_from_the_planner_to_the_editor_and_back(draft, by, runa):
    assert standing_of_kit(draft.kit, by).holder == "planner"
    give(draft, by)
    assert standing_of_kit(draft.kit, by).holder == "editor"
    give(draft, runa, 1, "Two windows are too near the edge.")
    standing = standing_of_kit(draft.kit, by)
    assert standing.last is not None
    assert (standing.holder, standing.last.sentence, standing.last.by) == (
        "planner",
        "Two windows are too near the edge.",
        runa,
    )
    assert [one.sentence for one in standing.earlier] == ["Please prove it."]


def test_only_who_has_a_kit_hands_it_over(draft, by, runa):
    with pytest.raises(NotTheirs):
        give(draft, runa)
    give(draft, by)
    for somebody in (by, person("Otto Lind", Role.CARE)):
        with pytest.raises(NotTheirs):
            give(draft, somebody, 1)
    assert Handover.objects.count() == 1


def test_where_somebody_is_named_they_alone_hand_it_over(draft, by, runa):
    other = mila()
    dates_set(kit=draft.kit, print_day=None, post_day=None, planner=other, editor=runa, version=0, by=by)
    with pytest.raises(NotTheirs):
        give(draft, by)
    give(draft, other)
    # Mila is an editor too, but Runa is the one of this kit.
    with pytest.raises(NotTheirs):
        give(draft, other, 1)
    give(draft, runa, 1)


def test_a_planner_takes_a_kit_back_and_nobody_else(draft, by, runa):
    with pytest.raises(NotTheirs):  # there is nothing to be taken back
        kit_take_back(kit=draft.kit, sentence="I found it.", number=0, by=by)
    give(draft, by)
    with pytest.raises(NotTheirs):
        kit_take_back(kit=draft.kit, sentence="x", number=1, by=runa)
    taken = kit_take_back(kit=draft.kit, sentence="I found it.", number=1, by=by)
    assert (taken.to, taken.taken_back, taken.number) == ("planner", True, 2)


def test_whoever_saw_an_earlier_state_hands_nothing_over(draft, by):
    give(draft, by)
    kit_take_back(kit=draft.kit, sentence="I found it.", number=1, by=by)
    for number in (0, 1):
        with pytest.raises(HandedOver):
            give(draft, by, number)


def test_a_handover_says_something(draft, by):
    with pytest.raises(NothingSaid):
        give(draft, by, sentence="  ")


def made(draft: Draft, by: Person, **changes: Any) -> TestBuild:
    record: dict[str, Any] = {"revision": 1, "unit": "in", "tools": " knife ", "minutes": 95, "deviations": ""}
    return build_record(draft=draft, by=by, **{**record, **changes})


@pytest.mark.parametrize("role", [Role.EDITOR, Role.CARE, Role.STOCK])
def test_a_test_build_is_of_exactly_one_document(draft, by, role):
    from kits.planning.documents import build as document_now

    hash_before = document_hash(document_now(draft))
    id_rename(draft=draft, place=A, to="C", revision=1, by=by)
    maker = person("Tove Adler", role)
    first, second = made(draft, maker), made(draft, maker, revision=2)
    assert first.document_hash == hash_before
    assert second.document_hash == document_hash(document_now(Draft.objects.get()))
    assert builds_of(draft.kit) == [second, first]
    assert (first.tools, first.minutes, first.unit) == ("knife", 95, "in")


def test_whoever_planned_a_kit_records_no_test_build(draft, by):
    other = mila()
    with pytest.raises(PlannedIt):
        made(draft, by)
    made(draft, other)
    dates_set(kit=draft.kit, print_day=None, post_day=None, planner=other, editor=None, version=0, by=by)
    with pytest.raises(PlannedIt):
        made(draft, other)


def test_an_editor_who_let_a_finding_stand_has_planned_nothing(draft, runa):
    finding_accept(draft=draft, rule="dead-fit", at=["paper:kelp"], why="0", because="tried", revision=1, by=runa)
    assert made(draft, runa).by == runa


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"revision": 7}, "revision"),
        ({"unit": "cm"}, "unit"),
        ({"tools": " "}, "tools"),
        ({"minutes": None}, "minutes"),
        ({"minutes": 0}, "minutes"),
        ({"minutes": 10_001}, "minutes"),
        ({"tools": "x" * 501}, "tools"),
        ({"deviations": "x" * 10_001}, "deviations"),
    ],
)
def test_a_record_that_lacks_something_is_refused(draft, runa, changes, field):
    with pytest.raises(BadRecord) as bad:
        made(draft, runa, **changes)
    assert bad.value.field == field
    assert not TestBuild.objects.exists()


def test_a_member_records_nothing(draft):
    with pytest.raises(NotAllowed):
        made(draft, person("Lea Brandt", Role.MEMBER))


def png(side: int = 8) -> bytes:
    written = io.BytesIO()
    Image.new("RGB", (side, side), "teal").save(written, "PNG")
    return written.getvalue()


@pytest.fixture
def _media(settings, tmp_path) -> None:
    settings.MEDIA_ROOT = tmp_path


@pytest.mark.usefixtures("_media")
def test_photographs_are_drawn_anew_and_kept_by_what_is_in_them(draft, runa):
    build = made(draft, runa)
    build_add_photos(build=build, photos=[png(), png(9)], by=runa)
    build_add_photos(build=build, photos=[png()], by=runa)
    photos = list(TestBuildPhoto.objects.all())
    assert [(one.number, one.width, one.height) for one in photos] == [(1, 8, 8), (2, 9, 9), (3, 8, 8)]
    assert photos[0].file == photos[2].file != photos[1].file


@pytest.mark.usefixtures("_media")
@pytest.mark.parametrize(
    "photos",
    [
        pytest.param([], id="none"),
        pytest.param([b"%PDF-1.7"], id="no picture"),
        pytest.param([png(), b"<script>"], id="one of them"),
        pytest.param([png()] * 7, id="too many"),
        pytest.param([png() + b"\0" * (8 * 1024 * 1024)], id="too large"),
    ],
)
def test_what_is_no_photograph_is_refused_and_nothing_is_added(draft, runa, photos):
    build = made(draft, runa)
    with pytest.raises(BadPicture):
        build_add_photos(build=build, photos=photos, by=runa)
    assert not TestBuildPhoto.objects.exists()


@pytest.mark.usefixtures("_media")
def test_photographs_are_added_by_whoever_made_it(draft, by, runa):
    with pytest.raises(NotAllowed):
        build_add_photos(build=made(draft, runa), photos=[png()], by=by)
