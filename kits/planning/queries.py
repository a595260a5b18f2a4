"""What is asked about kits. Each query takes the same number of statements, however long the lists of a kit are."""

from __future__ import annotations

from dataclasses import dataclass

from django.db import transaction

from kits.members.models import Person
from kits.planning.documents import build, read_rows
from kits.planning.editing import locked, standing, state_at, taken_back_last
from kits.planning.models import Change, Draft, Kit
from kits.planning.permissions import may_see
from layouts.checks import check_of, checks_of, proof_of
from layouts.document import Kit as Document
from layouts.document import canonical_bytes, reread_kit
from layouts.models import CheckRun

__all__ = [
    "History",
    "KitLine",
    "KitPage",
    "document_of",
    "draft_bytes",
    "history_of",
    "kit_page",
    "kits_for",
    "state_at",
]

# A draft that is changed while it is read, so often one after the other, is locked to be read.
_TRIES = 3
_LAST_CHANGES = 10


@dataclass(frozen=True, slots=True)
class KitLine:
    """A kit in a list; `run` is the newest check of its main draft, without document and proof."""

    kit: Kit
    draft: Draft
    run: CheckRun | None

    @property
    def title(self) -> str:
        return self.draft.title


@dataclass(frozen=True, slots=True)
class KitPage:
    """A kit with its main draft; `document` is exactly that of the draft's revision.

    `run` is the newest check, `proved` the newest that came to a proof: it may be of an older revision. `changes` are
    the last ones, newest first; `undo` is the one that would be taken back next, by whoever made it, and `redo` the one
    that would be made again, by whoever took it back.
    """

    kit: Kit
    draft: Draft
    document: Document
    changes: list[Change]
    undo: Change | None
    redo: Change | None
    run: CheckRun | None
    proved: CheckRun | None


@dataclass(frozen=True, slots=True)
class History:
    """Changes of a draft, newest first; `earlier` is the revision below which there are more, None at the beginning."""

    draft: Draft
    document: Document
    changes: list[Change]
    earlier: int | None


def kits_for(person: Person) -> list[KitLine]:
    """Return the kits that a person sees in planning, by code: all for the team, none for a member."""
    if not may_see(person):
        return []
    drafts = list(Draft.objects.filter(is_main=True).select_related("kit").order_by("kit__code"))
    runs = checks_of(draft.subject for draft in drafts)
    return [KitLine(draft.kit, draft, runs.get(draft.subject)) for draft in drafts]


def kit_page(code: str) -> KitPage:
    """Return what the page of a kit shows. Raises: Draft.DoesNotExist."""
    draft, document = document_of(Draft.objects.get(kit__code__iexact=code, is_main=True))
    changes = list(draft.changes.select_related("by").defer("state")[:_LAST_CHANGES])
    undo = standing(draft).defer("state").first()
    redo = taken_back_last(draft)
    return KitPage(draft.kit, draft, document, changes, undo, redo, check_of(draft.subject), proof_of(draft.subject))


def history_of(code: str, *, below: int | None = None, most: int = 50) -> History:
    """Return what was changed in a kit, at most so much, from below a revision. Raises: Draft.DoesNotExist."""
    draft, document = document_of(Draft.objects.get(kit__code__iexact=code, is_main=True))
    changes = draft.changes.select_related("by", "undoes", "redoes__undoes").defer("state")
    if below is not None:
        changes = changes.filter(revision__lt=below)
    shown = list(changes[: most + 1])
    return History(draft, document, shown[:most], shown[most - 1].revision if len(shown) > most else None)


def draft_bytes(draft: Draft) -> bytes:
    """Return the document of a draft as it is downloaded: in canonical form."""
    return canonical_bytes(document_of(draft)[1])


def document_of(draft: Draft) -> tuple[Draft, Document]:
    """Return a draft as it is now, and its document.

    It is read in several statements and without a lock, for which SQLite would let every writer wait. Somebody may
    change the draft between two of them; its revision tells, and then it is read again.
    """
    for _ in range(_TRIES):
        now = Draft.objects.select_related("kit").get(pk=draft.pk)
        tree = read_rows(now).tree()
        if Draft.objects.filter(pk=now.pk, revision=now.revision).exists():
            return now, reread_kit(tree)
    with transaction.atomic():
        now = locked(draft)
        return now, build(now)
