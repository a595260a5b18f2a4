"""What is said about a kit, and into whose hands it is given. None of it changes the draft or its revision."""

from __future__ import annotations

from django.db import transaction
from django.utils import timezone

from kits.members.models import Person, Role
from kits.members.queries import has_role
from kits.planning.errors import HandedOver, NotAllowed, NothingSaid, NotTheirs, SaidTooMuch
from kits.planning.models import Comment, CommentEntry, EntryKind, Handover, Holder, Kit, KitDates
from kits.planning.permissions import ensure_in_team, may_accept, may_edit, may_see

__all__ = [
    "MOST_SAID",
    "comment_add",
    "comment_answer",
    "comment_assign",
    "comment_reopen",
    "comment_resolve",
    "kit_hand_over",
    "kit_take_back",
    "may_hand_over",
    "may_resolve",
    "may_take_back",
]

MOST_SAID = 4000


@transaction.atomic
def comment_add(*, kit: Kit, place: str, words: str, text: str, by: Person, to: Person | None = None) -> Comment:
    """Say something about a place of a kit, perhaps to somebody of the team; an empty place is the kit as a whole.

    `words` is what the place is called now: it stays, whatever becomes of the thing.
    Raises: NotAllowed, NothingSaid, SaidTooMuch.
    """
    ensure_in_team(by)
    _ensure_assignable(to)
    comment = Comment.objects.create(
        kit=kit, place=place, words=words, text=_said(text), by=by, at=timezone.now(), assigned_to=to
    )
    if to is not None:
        _note(comment, EntryKind.ASSIGNED, by, to=to)
    return comment


@transaction.atomic
def comment_answer(*, comment: Comment, text: str, by: Person) -> CommentEntry:
    """Answer a comment; whether it is open stays as it is. Raises: NotAllowed, NothingSaid, SaidTooMuch."""
    ensure_in_team(by)
    return _note(comment, EntryKind.ANSWERED, by, text=_said(text))


@transaction.atomic
def comment_assign(*, comment: Comment, to: Person | None, by: Person) -> bool:
    """Ask somebody of the team to see to a comment, or nobody; tell whether that is new. Raises: NotAllowed."""
    ensure_in_team(by)
    _ensure_assignable(to)
    others = Comment.objects.filter(pk=comment.pk)
    others = others.exclude(assigned_to=to) if to is not None else others.filter(assigned_to__isnull=False)
    changed = others.update(assigned_to=to) == 1
    if changed:
        _note(comment, EntryKind.ASSIGNED, by, to=to)
    return changed


@transaction.atomic
def comment_resolve(*, comment: Comment, by: Person, text: str = "") -> bool:
    """Close a comment, perhaps with an answer; tell whether it was still open.

    Raises: NotAllowed, NotTheirs, SaidTooMuch.
    """
    ensure_in_team(by)
    if not may_resolve(Comment.objects.get(pk=comment.pk), by):
        raise NotTheirs("whoever said or was asked something resolves it, or an editor")
    if text.strip():
        _note(comment, EntryKind.ANSWERED, by, text=_said(text))
    return _turned(comment, is_open=False, what=EntryKind.RESOLVED, by=by)


@transaction.atomic
def comment_reopen(*, comment: Comment, by: Person) -> bool:
    """Open a comment again; tell whether it was closed. Raises: NotAllowed."""
    return _turned(comment, is_open=True, what=EntryKind.REOPENED, by=by)


@transaction.atomic
def kit_hand_over(*, kit: Kit, sentence: str, number: int, by: Person) -> Handover:
    """Give a kit from the planner to the editor or back, with a sentence. `number` is that of the handover that was
    read last, 0 where there was none.

    Raises: NotTheirs, NothingSaid, SaidTooMuch, HandedOver.
    """
    last = _last(kit, number)
    if not may_hand_over(kit, last, by):
        raise NotTheirs("whoever has a kit hands it over")
    to = Holder.EDITOR if last is None or last.to == Holder.PLANNER else Holder.PLANNER
    return _given(kit, number, to, sentence, by)


@transaction.atomic
def kit_take_back(*, kit: Kit, sentence: str, number: int, by: Person) -> Handover:
    """Take a kit back from the editor, as a planner, with a sentence.

    Raises: NotTheirs, NothingSaid, SaidTooMuch, HandedOver.
    """
    last = _last(kit, number)
    if not may_take_back(last, by):
        raise NotTheirs("a planner takes a kit back that the editor has")
    return _given(kit, number, Holder.PLANNER, sentence, by, taken_back=True)


def may_hand_over(kit: Kit, last: Handover | None, by: Person) -> bool:
    """Whether a person has the kit in hand: whoever is named for it, or where nobody is, any planner or editor."""
    holder = Holder.PLANNER if last is None else Holder(last.to)
    role = Role.EDITOR if holder == Holder.EDITOR else Role.PLANNER
    if not has_role(by, role):
        return False
    dates = KitDates.objects.filter(kit=kit).first()
    if dates is None:
        return True
    named = dates.editor_id if holder == Holder.EDITOR else dates.planner_id
    return named is None or named == by.pk


def may_resolve(comment: Comment, by: Person) -> bool:
    """Whether a person may close a comment: who said it, who is asked to see to it, and any editor."""
    return by.pk in (comment.by_id, comment.assigned_to_id) or may_accept(by)


def may_take_back(last: Handover | None, by: Person) -> bool:
    return last is not None and last.to == Holder.EDITOR and may_edit(by)


def _last(kit: Kit, number: int) -> Handover | None:
    """The newest handover of a kit that nobody else hands over meanwhile. Raises: HandedOver, if it is not `number`."""
    Kit.objects.select_for_update(of=("self",)).get(pk=kit.pk)
    last = Handover.objects.filter(kit=kit).first()
    if (0 if last is None else last.number) != number:
        raise HandedOver("the kit was handed over in the meantime")
    return last


def _given(kit: Kit, number: int, to: Holder, sentence: str, by: Person, *, taken_back: bool = False) -> Handover:
    return Handover.objects.create(
        kit=kit,
        number=number + 1,
        to=to,
        taken_back=taken_back,
        sentence=_said(sentence),
        by=by,
        at=timezone.now(),
    )


def _turned(comment: Comment, *, is_open: bool, what: EntryKind, by: Person) -> bool:
    ensure_in_team(by)
    turned = Comment.objects.filter(pk=comment.pk, is_open=not is_open).update(is_open=is_open) == 1
    if turned:
        _note(comment, what, by)
    return turned


def _note(comment: Comment, what: EntryKind, by: Person, *, text: str = "", to: Person | None = None) -> CommentEntry:
    return CommentEntry.objects.create(comment=comment, what=what, text=text, to=to, by=by, at=timezone.now())


def _said(text: str) -> str:
    # One of the databases keeps no text with this character in it, and no keyboard has it.
    said = text.replace("\0", "").strip()
    if not said:
        raise NothingSaid("there is nothing in it")
    if len(said) > MOST_SAID:
        raise SaidTooMuch(len(said), MOST_SAID)
    return said


def _ensure_assignable(to: Person | None) -> None:
    if to is not None and not may_see(to):
        raise NotAllowed("only the team works on kits")
