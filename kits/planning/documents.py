"""From a kit document to rows and back. Loading writes them, building is the only way to the document of a draft.

Each table is written and read in one statement, however long its list: the number of queries is that of the tables.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from django.db.models import F

from kits.planning.columns import DRAFT, TABLES, Table, columns_of, members_of
from kits.planning.models import Draft, NamedRow, Row
from layouts.document import Kit, canonical_bytes, reread_kit
from layouts.document.base import DocumentObject
from layouts.lengths import Length

__all__ = ["DraftRows", "build", "build_bytes", "load", "read_rows", "write_changes", "write_members"]


@dataclass(frozen=True, slots=True)
class DraftRows:
    """All rows of a draft, by their table and the number of what owns them, in the order of their lists."""

    draft: Draft
    lists: dict[tuple[str, int], list[Row]] = field(default_factory=dict)

    def of(self, table: Table, owner: Draft | Row) -> list[Row]:
        return self.lists.get((table.listed, owner.pk), [])

    def item_of(self, path: tuple[str | int, ...]) -> int | None:
        """Return the key of the catalogue item that the thing at a path came from, if it did."""
        listed, number = path[0], path[1]
        table = next(one for one in TABLES if one.listed == listed)
        return getattr(self.of(table, self.draft)[int(number)], "item_id", None) if len(path) == 2 else None

    def tree(self) -> dict[str, Any]:
        """Return the document as plain JSON: every default and unit is written, what is absent is not."""
        whole = {"format": "kitproof/1", "code": self.draft.kit.code, **members_of(self.draft, DRAFT)}
        return {**whole, **self._parts(TABLES, self.draft)}

    def _parts(self, tables: Sequence[Table], owner: Draft | Row) -> dict[str, Any]:
        return {table.listed: [self._object(table, row) for row in self.of(table, owner)] for table in tables}

    def _object(self, table: Table, row: Row) -> dict[str, Any]:
        return {**members_of(row, table.members, table.rest), **self._parts(table.parts, row)}


def build(draft: Draft) -> Kit:
    """Return the document of a draft. Whoever does not hold the draft's lock asks `kits.planning.queries` for it."""
    # What is in hand may have been read before the last change.
    now = Draft.objects.select_related("kit").get(pk=draft.pk)
    return reread_kit(read_rows(now).tree())


def build_bytes(draft: Draft) -> bytes:
    """Return the document of a draft in canonical form."""
    return canonical_bytes(build(draft))


def load(draft: Draft, kit: Kit) -> None:
    """Write a document into a draft, new or in place of what it holds. Its revision and the code of its kit stay.

    It neither makes nor looks for catalogue items.
    """
    if draft.pk is not None:
        for table in TABLES:
            _rows(table).filter(draft=draft).delete()  # the database removes what they own
    for name, value in columns_of(kit, DRAFT).items():
        setattr(draft, name, value)
    draft.save()
    _create(TABLES, [(draft, kit)])


def read_rows(draft: Draft) -> DraftRows:
    """Read all rows of a draft that was just read itself, one query a table."""
    rows = DraftRows(draft)
    for table, path in _with_paths(TABLES):
        for row in _rows(table).filter(**{path: draft}).order_by("position"):
            rows.lists.setdefault((table.listed, getattr(row, f"{table.owner}_id")), []).append(row)
    return rows


def write_changes(rows: DraftRows, kit: Kit) -> None:
    """Write what of a document differs from the rows, which are then its own. Its lists must be as long as theirs."""
    changed: dict[Table, dict[Row, list[str]]] = {}
    for table, row, thing in _pairs(TABLES, rows, rows.draft, kit):
        names = _update(row, columns_of(thing, table.members, table.rest))
        if names:
            changed.setdefault(table, {})[row] = names
    for table, different in changed.items():
        _rows(table).bulk_update(different, {name for names in different.values() for name in names})
    if _update(rows.draft, columns_of(kit, DRAFT)):
        rows.draft.save()


def write_members(rows: DraftRows, kit: Kit) -> None:
    """Write what of a document differs from the rows: its lists may have gained and lost members, none has a new id.

    Rows that stay are the same rows, so that what else refers to them still does.
    """
    is_renewed = _match(TABLES, rows, rows.draft, kit)
    write_changes(read_rows(rows.draft) if is_renewed else rows, kit)


def _match(tables: Sequence[Table], rows: DraftRows, owner: Draft | Row, whole: DocumentObject) -> bool:
    """Add and remove rows until there is one for each thing with an id, in the order of the document.

    Return whether any list is another than it was.
    """
    is_renewed = False
    for table in tables:
        things = getattr(whole, table.listed)
        if not table.kind:  # its members have no ids: they are told apart by their place in the list
            if len(things) != len(rows.of(table, owner)):
                _rows(table).filter(**{table.owner: owner}).delete()
                _create_rows(table, [(owner, at, thing) for at, thing in enumerate(things, start=1)])
                is_renewed = True
            continue
        known = {row.ident: row for row in rows.of(table, owner) if isinstance(row, NamedRow)}
        if [*known] != [thing.id for thing in things]:
            _renew_list(table, owner, known, things)
            is_renewed = True
        for thing in things:
            if thing.id in known:
                is_renewed |= _match(table.parts, rows, known[thing.id], thing)
    return is_renewed


def _renew_list(
    table: Table, owner: Draft | Row, known: Mapping[str, NamedRow], things: Sequence[DocumentObject]
) -> None:
    own = _rows(table).filter(**{table.owner: owner})
    ids = [getattr(thing, "id") for thing in things]  # noqa: B009  what has a kind has an id
    own.filter(ident__in=known.keys() - set(ids)).delete()  # the database removes what they own
    # No two rows may have one position, not even for a moment: all move out of the way first.
    own.update(position=F("position") + len(known) + len(things))
    staying = [known[id_] for id_ in ids if id_ in known]
    for row in staying:
        row.position = ids.index(row.ident) + 1
    _rows(table).bulk_update(staying, ["position"])
    new = [(owner, at, thing) for at, thing in enumerate(things, start=1) if ids[at - 1] not in known]
    _create_rows(table, new)


def _rows(table: Table) -> Any:
    return table.model._default_manager


def _with_paths(tables: Sequence[Table], above: str = "") -> Iterator[tuple[Table, str]]:
    """Yield every table, and how a query says that a row of it belongs to a draft."""
    for table in tables:
        path = f"{table.owner}__{above}" if above else table.owner
        yield table, path
        yield from _with_paths(table.parts, path)


def _create(tables: Sequence[Table], owners: Sequence[tuple[Draft | Row, DocumentObject]]) -> None:
    for table in tables:
        things = [
            (owner, position, thing)
            for owner, whole in owners
            for position, thing in enumerate(getattr(whole, table.listed), start=1)
        ]
        _create_rows(table, things)


def _create_rows(table: Table, things: Sequence[tuple[Draft | Row, int, DocumentObject]]) -> None:
    """Write things into a table, each with its owner and its position, and all that they own."""
    rows = _rows(table).bulk_create(
        table.model(position=position, **{table.owner: owner}, **columns_of(thing, table.members, table.rest))
        for owner, position, thing in things
    )
    _create(table.parts, [(row, thing) for row, (_, _, thing) in zip(rows, things, strict=True)])


def _pairs(
    tables: Sequence[Table], rows: DraftRows, owner: Draft | Row, whole: DocumentObject
) -> Iterator[tuple[Table, Row, DocumentObject]]:
    for table in tables:
        for row, thing in zip(rows.of(table, owner), getattr(whole, table.listed), strict=True):
            yield table, row, thing
            yield from _pairs(table.parts, rows, row, thing)


def _update(row: Row | Draft, values: dict[str, Any]) -> list[str]:
    """Set columns, and return the names of those that held something else."""
    different = [name for name, value in values.items() if not _alike(getattr(row, name), value)]
    for name in different:
        setattr(row, name, values[name])
    return different


def _alike(one: Any, other: Any) -> bool:
    # 1 in and 25.4 mm are equal as lengths, but not as what somebody wrote.
    if isinstance(one, Length) and isinstance(other, Length):
        return one.written_like(other)
    # 1 and true are equal in Python, also deep inside.
    if isinstance(one, dict | list):
        return json.dumps(one, sort_keys=True) == json.dumps(other, sort_keys=True)
    return type(one) is type(other) and bool(one == other)
