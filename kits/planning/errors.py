"""Why a change to a draft is not made. Each error holds what a person needs to decide what to do next."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from layouts.errors import KitproofError

__all__ = [
    "BadDates",
    "BadPicture",
    "BadRecord",
    "CodeKnown",
    "DatesMoved",
    "DraftRefused",
    "FieldError",
    "HandedOver",
    "IdTaken",
    "MendOutdated",
    "NameTaken",
    "NoName",
    "NoReason",
    "NotAccepted",
    "NotAllowed",
    "NotTheirs",
    "NothingSaid",
    "NothingToRedo",
    "NothingToUndo",
    "OtherKit",
    "OthersChange",
    "PlannedIt",
    "RenameUnclear",
    "RevisionMoved",
    "SaidTooMuch",
    "StillNamed",
]


class _Planning(KitproofError):
    """An error that is built from its fields; sent to another process, it is built from them again."""

    def __init__(self, sentence: str, *fields: Any) -> None:
        super().__init__(sentence)
        self._fields = fields

    def __reduce__(self) -> tuple[Any, ...]:
        return type(self), self._fields


class RevisionMoved(_Planning):
    """Somebody changed the draft after it was read: `yours` is the value that was sent, `theirs` the one it has now.

    Where the whole document was to be replaced, both are hashes and the place is empty.
    """

    code = "revision-moved"

    def __init__(
        self, place: str, yours: Any, theirs: Any, sent: int, revision: int, by: str = "", at: datetime | None = None
    ) -> None:
        super().__init__(
            f"{by or 'Somebody'} changed the draft in the meantime: it was at revision {sent}, it is at {revision}",
            *(place, yours, theirs, sent, revision, by, at),
        )
        self.place = place
        self.yours = yours
        self.theirs = theirs
        self.sent = sent
        self.revision = revision
        self.by = by
        self.at = at


class MendOutdated(_Planning):
    """A mend that was worked out for another state of the kit: a value is no longer what the mend starts from."""

    code = "mend-outdated"

    def __init__(self, place: str) -> None:
        super().__init__(f"{place} is no longer what the mend was worked out for", place)
        self.place = place


@dataclass(frozen=True, slots=True, order=True)
class FieldError:
    """What is wrong with a value: `field` belongs to what was edited (`size/width`), `pointer` to the document."""

    field: str
    code: str
    message: str
    pointer: str


class DraftRefused(_Planning):
    """The draft would be no valid document any more; nothing was changed."""

    code = "draft-refused"

    def __init__(self, errors: tuple[FieldError, ...]) -> None:
        super().__init__("; ".join(error.message for error in errors), errors)
        self.errors = errors


class RenameUnclear(_Planning):
    """A reference in a step (`place`) would lead elsewhere once something has its new id; nothing was changed."""

    code = "rename-unclear"

    def __init__(self, place: str, reference: str, to: str) -> None:
        super().__init__(
            f"“{reference}” in {place} would lead elsewhere if this were called “{to}”", place, reference, to
        )
        self.place = place
        self.reference = reference
        self.to = to


class CodeKnown(_Planning):
    """There is already a kit with this code: its draft may be replaced, if it still has the revision."""

    code = "code-known"

    def __init__(self, kit: str, title: str, revision: int) -> None:
        super().__init__(f"there is already a kit {kit}, “{title}”", kit, title, revision)
        self.kit = kit
        self.title = title
        self.revision = revision


class OtherKit(_Planning):
    """The document is not of the kit whose draft it should replace."""

    code = "other-kit"

    def __init__(self, kit: str, document: str) -> None:
        super().__init__(f"the document is of the kit {document}, not of {kit}", kit, document)
        self.kit = kit
        self.document = document


class IdTaken(_Planning):
    """Another thing of the same list has the id already, perhaps in other capitals."""

    code = "id-taken"

    def __init__(self, place: str) -> None:
        super().__init__(f"{place} is there already", place)
        self.place = place


class StillNamed(_Planning):
    """A thing that is to be removed is named by others: whoever removes it decides what becomes of them."""

    code = "still-named"

    def __init__(self, place: str, by: tuple[str, ...]) -> None:
        super().__init__(f"{place} is still named by {', '.join(by)}", place, by)
        self.place = place
        self.by = by


class BadDates(_Planning):
    """The days of a kit cannot be so: `field` is the one to look at."""

    code = "bad-dates"

    def __init__(self, field: str, sentence: str) -> None:
        super().__init__(sentence, field, sentence)
        self.field = field
        self.sentence = sentence


class BadRecord(_Planning):
    """A record of a test build lacks something: `field` is the one to look at."""

    code = "bad-record"

    def __init__(self, field: str, sentence: str) -> None:
        super().__init__(sentence, field, sentence)
        self.field = field
        self.sentence = sentence


class BadPicture(KitproofError):
    """A file that is to be shown is no picture, or one that is too large."""

    code = "bad-picture"


class DatesMoved(_Planning):
    """Somebody changed the days of the kit after they were read: it was at version `sent`."""

    code = "dates-moved"

    def __init__(self, sent: int, version: int, by: str) -> None:
        super().__init__(f"{by} changed the dates in the meantime", sent, version, by)
        self.sent = sent
        self.version = version
        self.by = by


class HandedOver(KitproofError):
    """The kit is no longer with whom it was: somebody handed it over in the meantime."""

    code = "handed-over"


class NotTheirs(KitproofError):
    """The kit or the comment is somebody else's: they hand it over, or resolve it."""

    code = "not-theirs"


class NothingSaid(KitproofError):
    """A comment, an answer or a handover says nothing."""

    code = "nothing-said"


class SaidTooMuch(_Planning):
    """A comment, an answer or a handover is longer than `most` characters."""

    code = "said-too-much"

    def __init__(self, length: int, most: int) -> None:
        super().__init__(f"these are {length:,} characters, and {most:,} are the most: make it shorter", length, most)


class PlannedIt(KitproofError):
    """Who planned a kit does not record its test build: they know what the sheet should say."""

    code = "planned-it"


class NameTaken(_Planning):
    """The team keeps another part under this name already, perhaps in other capitals."""

    code = "name-taken"

    def __init__(self, name: str) -> None:
        super().__init__(f"there is already a part called “{name}”", name)
        self.name = name


class NoName(KitproofError):
    """A part is to be kept, and nobody said under what name."""

    code = "no-name"


class NoReason(KitproofError):
    """A finding is to be accepted, and nobody said why."""

    code = "no-reason"


class NotAccepted(KitproofError):
    """A finding that is to count again was not accepted, or its facts have changed since."""

    code = "not-accepted"


class NothingToRedo(KitproofError):
    """The last change of the draft took nothing back."""

    code = "nothing-to-redo"


class NothingToUndo(KitproofError):
    """No change of the draft is left that could be taken back."""

    code = "nothing-to-undo"


class OthersChange(_Planning):
    """The last change is somebody else's: it went from `before` to `after`, and they know why."""

    code = "others-change"

    def __init__(self, place: str, before: Any, after: Any, by: str, at: datetime) -> None:
        super().__init__(f"the last change was made by {by}: only they can take it back", place, before, after, by, at)
        self.place = place
        self.before = before
        self.after = after
        self.by = by
        self.at = at


class NotAllowed(KitproofError):
    """The person lacks the role that this needs."""

    code = "not-allowed"
