"""What somebody changed, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from frontend.words.places import Places
from kits.planning.models import Change, ChangeKind
from layouts.document import Kit
from layouts.lengths import System

__all__ = ["HistoryLine", "change_words", "history_lines", "value_words"]


def change_words(change: Change, kit: Kit) -> str:
    """Return what a change did to a kit, short enough for a button."""
    if change.what == ChangeKind.CREATED:
        return "the kit came from a document"
    if change.what == ChangeKind.REPLACED:
        return "the document was replaced"
    if change.what == ChangeKind.RESTORED:
        return "an earlier state was brought back"
    if change.what in (ChangeKind.ACCEPTED, ChangeKind.RECALLED):
        done = "was accepted" if change.what == ChangeKind.ACCEPTED else "counts again"
        return f"a finding at {Places(kit).short(change.place)} {done}"
    if change.what in (ChangeKind.ADDED, ChangeKind.REMOVED, ChangeKind.MOVED):
        more = len(change.after) - 1 if isinstance(change.after, list) else 0
        return f"{_thing(change, kit)}{f' and {more} more were' if more else ' was'} {change.what}"
    if isinstance(change.before, list) and isinstance(change.after, list) and _is_of_several(change.after):
        return _several(change, kit)
    if isinstance(change.before, dict) and isinstance(change.after, dict) and change.what == ChangeKind.EDITED:
        return _of_thing(change, kit)
    # Of a print, people know the name.
    names = {paper.id: paper.name for paper in kit.papers} if change.place.endswith("/paper") else {}
    before, after = (value_words(names.get(str(one), one), kit.unit) for one in (change.before, change.after))
    if change.what == ChangeKind.RENAMED:
        return f"{before} is now called {after}"
    if change.what == ChangeKind.TAKEN_OVER:
        return f"{Places(kit).words(change.place)} was taken over from the catalogue"
    return f"{Places(kit).short(change.place)}: {before} to {after}"


@dataclass(frozen=True, slots=True)
class HistoryLine:
    """One change in a kit's history; `is_past`: the kit has changed since, and can be brought back to what it was."""

    revision: int
    at: datetime
    by: str
    words: str
    is_past: bool


def history_lines(changes: Sequence[Change], kit: Kit, revision: int) -> tuple[HistoryLine, ...]:
    """Return changes in words, with what undid and redid what; `revision` is that of the kit now."""
    return tuple(
        HistoryLine(
            change.revision,
            change.at,
            str(change.by or "the system"),
            _in_history(change, kit),
            change.revision < revision,
        )
        for change in changes
    )


def _in_history(change: Change, kit: Kit) -> str:
    if change.undoes is not None:
        return f"undid revision {change.undoes.revision}: {change_words(change.undoes, kit)}"
    if change.redoes is not None and change.redoes.undoes is not None:
        return f"redid revision {change.redoes.undoes.revision}: {change_words(change.redoes.undoes, kit)}"
    return change_words(change, kit)


def _thing(change: Change, kit: Kit) -> str:
    """What a thing is called, or was: one that is gone has no name in the kit any more."""
    words, gone = Places(kit).short(change.place), change.before
    name = str(gone.get("name") or gone.get("title") or "") if isinstance(gone, dict) else ""
    return f"{words} ({name})" if name else words


def _is_of_several(values: list[Any]) -> bool:
    """Whether a list is one of places and values, and not a value that is a list."""
    return bool(values) and isinstance(values[0], dict) and values[0].keys() == {"at", "value"}


def _several(change: Change, kit: Kit) -> str:
    """The first of several values, and how many more went with it."""
    names = {paper.id: paper.name for paper in kit.papers} if change.place.endswith("/paper") else {}
    before, after = (
        value_words(names.get(str(one[0]["value"]), one[0]["value"]), kit.unit)
        for one in (change.before, change.after)
        if isinstance(one, list)
    )
    more = len(change.after or ()) - 1
    rest = f", and {more} more value{'s' if more > 1 else ''}" if more else ""
    return f"{Places(kit).short(change.place)}: {before} to {after}{rest}"


def _of_thing(change: Change, kit: Kit) -> str:
    """What became of a thing whose form was saved: the first value that is another, and how many more are."""
    different = list(_different(change.before, change.after))
    named = Places(kit).short(change.place)
    if not different:
        return f"{named} was written anew"
    path, before, after = different[0]
    names = {paper.id: paper.name for paper in kit.papers} if path[-1:] == ("paper",) else {}
    what = " ".join(part.replace("_", " ") for part in path)
    more = len(different) - 1
    rest = f", and {more} more value{'s' if more > 1 else ''}" if more else ""
    return f"{named}, {what}: {_shown(before, names, kit.unit)} to {_shown(after, names, kit.unit)}{rest}"


def _different(before: Any, after: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Any, Any]]:
    """Yield each value that two states of a thing have otherwise, with the names that lead to it."""
    if isinstance(before, dict) and isinstance(after, dict):
        for name in (*before, *(one for one in after if one not in before)):
            yield from _different(before.get(name), after.get(name), (*path, name))
    elif _is_of_things(before) or _is_of_things(after):
        old, new = ({one["id"]: one for one in things or ()} for things in (before, after))
        yield from _different(old, new, (*path[:-1], path[-1].removesuffix("s")) if path else path)
    elif _are_alike(before, after):
        for number, (old, new) in enumerate(zip(before, after, strict=True), start=1):
            yield from _different(old, new, (*path, str(number)))
    elif before != after:
        yield path, before, after


def _is_of_things(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and isinstance(value[0], dict) and "id" in value[0]


def _are_alike(before: Any, after: Any) -> bool:
    """Whether both are lists of objects without ids, as many of them."""
    lists = [one for one in (before, after) if isinstance(one, list) and one and isinstance(one[0], dict)]
    return len(lists) == 2 and len(before) == len(after)


def _shown(value: Any, names: Mapping[str, str], unit: System) -> str:
    """A value in words; one that is made of several is only said to be there."""
    if isinstance(value, dict) and "each" not in value:
        return "one"
    if isinstance(value, list) and any(isinstance(one, dict) for one in value):
        return f"{len(value)} of them"
    return value_words(names.get(str(value), value), unit)


def value_words(value: Any, unit: System) -> str:
    """Return a value of a document in words: a pair as a size, nothing as “none”; `unit` goes without saying.

    >>> value_words(["6 3/4 in", "9 in"], "in"), value_words(2, "in"), value_words(None, "in")
    ('6 3/4 × 9', '2', 'none')
    >>> value_words({"each": ["furrow", "slate"]}, "mm")
    'one of each: furrow, slate'
    """
    if value is None or value == "":
        return "none"
    if isinstance(value, list | tuple):
        return " × ".join(value_words(one, unit) for one in value)
    if isinstance(value, dict):
        return f"one of each: {', '.join(value_words(one, unit) for one in value.get('each', []))}"
    return str(value).removesuffix(f" {unit}")
