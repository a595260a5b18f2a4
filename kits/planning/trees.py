"""Where in the plain JSON of a document a value is that a place names."""

from __future__ import annotations

from typing import Any

from kits.planning.columns import TABLES, Table
from layouts.document import UnknownPlace

__all__ = ["Path", "change_at", "path_of", "value_at"]

type Path = tuple[str | int, ...]


def path_of(tree: dict[str, Any], place: str) -> Path:
    """Return the path to a thing with an id or to a member of one (`project:chest/piece:A/size`).

    Raises: UnknownPlace.
    """
    path: list[str | int] = []
    tables: tuple[Table, ...] = TABLES
    here: Any = tree
    *outer, last = place.split("/")
    for part in (*outer, last):
        kind, colon, ident = part.partition(":")
        table = next((one for one in tables if kind and one.kind == kind), None)
        things = here[table.listed] if table and colon else []
        number = next((at for at, thing in enumerate(things) if thing["id"] == ident), None)
        if table and number is not None:
            path += [table.listed, number]
            here, tables = things[number], table.parts
        elif part == last and path and not colon:
            path.append(part)
        else:
            raise UnknownPlace(f"there is no {place} in this kit")
    return tuple(path)


def value_at(tree: Any, path: Path) -> Any:
    """Return the value at a path, None where it is absent."""
    here = tree
    for part in path[:-1]:
        here = here[part]
    last = path[-1]
    return here.get(last) if isinstance(here, dict) else here[last]


def change_at(tree: Any, path: Path, value: Any) -> None:
    """Put a value at a path; None takes it away."""
    here = tree
    for part in path[:-1]:
        here = here[part]
    here[path[-1]] = value
    if value is None:
        del here[path[-1]]
