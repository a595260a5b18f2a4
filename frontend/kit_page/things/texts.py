"""What a form holds, as texts: written from the plain JSON of a thing, and read back into it.

A value whose text is as it was stays exactly as the document writes it; one without a text is left out. What is no
number is passed on as it was typed: the document refuses it at its place, and says what it wants there.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from frontend.kit_page.things.entries import Entry, Field, Rows, Section, fields_of

__all__ = ["Read", "Texts", "Tree", "is_empty", "plain_of", "row_numbers", "texts_of"]

# The texts of a form by the names of its controls; of a value that may be several, each of them.
type Texts = Mapping[str, tuple[str, ...]]
type Tree = dict[str, Any]

_BETWEEN = re.compile(r"\s*[×xX;\t]\s*")


@dataclass(slots=True)
class Read:
    """The plain JSON that was read, and which control each part of it came from: by path, `windows/0/left`."""

    thing: Tree
    controls: dict[str, str] = field(default_factory=dict)

    def control_at(self, path: str) -> str:
        """Return the control of a value, or of the nearest one that it is part of or that is part of it; or nothing."""
        here = path
        while here:
            inside = (name for at, name in self.controls.items() if at == here or at.startswith(f"{here}/"))
            if found := next(inside, ""):
                return found
            here = here.rpartition("/")[0]
        return ""


def texts_of(sections: Sequence[Section], thing: Tree) -> dict[str, tuple[str, ...]]:
    """Return what each control of a form starts with; rows as many as there are things."""
    texts: dict[str, tuple[str, ...]] = {}
    for item in fields_of(sections):
        if isinstance(item, Rows):
            for number, row in enumerate(_at(thing, item.path) or ()):
                for one in item.fields:
                    texts[f"{item.path}/{number}/{one.path}"] = _texts(one, _at(row, one.path))
        else:
            texts[item.path] = _texts(item, _at(thing, item.path))
    return texts


def plain_of(sections: Sequence[Section], texts: Texts, before: Tree) -> Read:
    """Return a thing as its form says it is; what the form does not ask for stays as it was `before`."""
    read = Read(_without(before, sections))
    for item in fields_of(sections):
        if isinstance(item, Rows):
            _read_rows(read, item, texts, before)
        else:
            _put(read, item, texts, "", before)
    return read


def row_numbers(rows: Rows, texts: Texts) -> tuple[int, ...]:
    """Return the numbers of the rows that a form sent, in order."""
    start = f"{rows.path}/"
    found = {name[len(start) :].partition("/")[0] for name in texts if name.startswith(start)}
    return tuple(sorted(int(one) for one in found if one.isascii() and one.isdigit() and len(one) < 6))


def is_empty(rows: Rows, number: int, texts: Texts) -> bool:
    """Whether nothing was typed into a row; what a choice starts with is nothing."""
    for one in rows.fields:
        typed = tuple(text for text in texts.get(f"{rows.path}/{number}/{one.path}", ()) if text.strip())
        if typed and typed != (one.start,):
            return False
    return True


def _read_rows(read: Read, rows: Rows, texts: Texts, before: Tree) -> None:
    given = _at(before, rows.path) or []
    known = {one["id"]: one for one in given if "id" in one}
    members: list[Tree] = []
    for number in row_numbers(rows, texts):
        start = f"{rows.path}/{number}/"
        own = known.get("".join(texts.get(f"{start}id", ())).strip())
        if own is None and not known and number < len(given):
            own = given[number]
        if own is None and is_empty(rows, number, texts):
            continue
        row = Read(_without(own or {}, (Section("", rows.fields),)))
        for one in rows.fields:
            _put(row, one, texts, start, own or {})
        members.append(row.thing)
        written = f"{rows.path}/{len(members) - 1}"
        read.controls.update({f"{written}/{at}": name for at, name in row.controls.items()})
    if members:
        _set(read.thing, rows.path, members)


def _put(read: Read, one: Field, texts: Texts, start: str, before: Tree) -> None:
    if one.only_for is not None and texts.get(f"{start}{one.only_for[0]}") != (one.only_for[1],):
        return  # it is not asked for: what may still stand in it was for another choice
    name = f"{start}{one.path}"
    read.controls[one.path] = name
    typed, given = texts.get(name, ()), _at(before, one.path)
    value = given if _told(typed) == _told(_texts(one, given)) else _value(one, typed)
    if value is not None:
        _set(read.thing, one.path, value)


def _told(texts: tuple[str, ...]) -> tuple[str, ...]:
    """Browsers send line ends as CR LF, and nothing of a box without a tick."""
    return tuple(text.replace("\r\n", "\n") for text in texts if text)


def _value(one: Field, texts: tuple[str, ...]) -> Any:
    text = "".join(texts[:1]).strip()
    if one.entry == Entry.MANY:
        return [each for each in texts if each] or None
    if one.entry == Entry.FLAG:
        return True if text else None
    if one.entry == Entry.CHOICE and one.choices and text == one.choices[0].value:
        return None  # the first of a choice holds anyway
    if one.entry == Entry.AREA:
        return text.replace("\r\n", "\n") or None
    if one.entry == Entry.POINTS:
        return [_BETWEEN.split(line.strip()) for line in text.splitlines() if line.strip()] or None
    if one.entry == Entry.COUNT and text.isascii() and text.isdigit() and len(text) < 20:
        return int(text)
    return text or None


def _texts(one: Field, value: Any) -> tuple[str, ...]:
    if one.entry == Entry.MANY:
        return tuple(value or ())
    if value is None or value is False:
        return (one.start,)
    if one.entry == Entry.POINTS:
        return ("\n".join(" × ".join(point) for point in value),)
    return ("yes" if value is True else str(value),)


def _without(before: Tree, sections: Sequence[Section]) -> Tree:
    """What of a thing its form does not ask for."""
    asked = {item.path.partition("/")[0] for item in fields_of(sections)}
    kept = {name: value for name, value in before.items() if name not in asked}
    for name, paths in _inner(sections).items():
        inside = before.get(name)
        if isinstance(inside, dict):
            rest = {one: value for one, value in inside.items() if one not in paths}
            kept |= {name: rest} if rest else {}
    return kept


def _inner(sections: Sequence[Section]) -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    for item in fields_of(sections):
        name, slash, rest = item.path.partition("/")
        if slash and not rest[:1].isdigit():
            found.setdefault(name, set()).add(rest.partition("/")[0])
    return found


def _at(tree: Any, path: str) -> Any:
    here = tree
    for part in path.split("/"):
        if isinstance(here, dict):
            here = here.get(part)
        elif isinstance(here, list) and part.isdigit() and int(part) < len(here):
            here = here[int(part)]
        else:
            return None
    return here


def _set(tree: Tree, path: str, value: Any) -> None:
    """Put a value into a tree; the members of a pair or a triple that are not there yet are empty texts."""
    parts = path.split("/")
    here: Any = tree
    for part, after in zip(parts, [*parts[1:], ""], strict=True):
        last = after == ""
        if isinstance(here, list):
            number = int(part)
            here.extend([""] * (number + 1 - len(here)))
            if last:
                here[number] = value
            elif not isinstance(here[number], dict | list):
                here[number] = [] if after.isdigit() else {}
            here = here[number]
        elif last:
            here[part] = value
        else:
            here = here.setdefault(part, [] if after.isdigit() else {})
