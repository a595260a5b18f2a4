"""What a catalogue item says of itself: read and refused as in a kit document, whose words it uses."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from inventory.models import ItemKind
from layouts.document import Refused, canonical_value, read_kit_tree
from layouts.errors import KitproofError
from layouts.lengths import System

__all__ = ["FactsRefused", "read_facts"]

# The list of a kit document that holds things of a kind, and what of them differs from kit to kit: no fact of the item.
_LISTS = {
    ItemKind.PAD: ("pads", frozenset(("id", "name"))),
    ItemKind.PAPER: ("papers", frozenset(("id", "name", "pad", "sheets"))),
    ItemKind.EMBELLISHMENT: ("embellishments", frozenset(("id", "name", "sheets"))),
    ItemKind.BLANK: ("blanks", frozenset(("id", "name", "count"))),
    ItemKind.SUPPLY: ("supplies", frozenset(("id", "name", "count", "length", "from"))),
    ItemKind.TOOL: ("tools", frozenset(("id", "name"))),
}


class FactsRefused(KitproofError):
    """Facts that no thing of this kind can have; `errors` holds pairs of a fact and what is wrong with it."""

    code = "facts-refused"

    def __init__(self, errors: tuple[tuple[str, str], ...]) -> None:
        self.errors = errors
        super().__init__("; ".join(f"{fact}: {sentence}" if fact else sentence for fact, sentence in errors))

    def __reduce__(self) -> tuple[type[FactsRefused], tuple[tuple[tuple[str, str], ...]]]:
        return type(self), (self.errors,)


def read_facts(kind: ItemKind, name: str, facts: Mapping[str, Any], unit: System) -> dict[str, Any]:
    """Return facts in canonical form, each length with its unit; a bare one is read in `unit`.

    The thing is judged where kits judge it: in a kit document that holds nothing else.
    Raises: FactsRefused.
    """
    listed, of_the_kit = _LISTS[kind]
    foreign = sorted(of_the_kit & facts.keys())
    if foreign:
        raise FactsRefused(tuple((fact, "this differs from kit to kit: it is said there") for fact in foreign))
    thing = {**facts, "id": "item", "name": name} | ({"sheets": 1} if kind == ItemKind.PAPER else {})
    try:
        kit = read_kit_tree(
            {"format": "kitproof/1", "code": "catalogue", "title": "catalogue", "unit": unit, listed: [thing]}
        )
    except Refused as refusal:
        start = f"/{listed}/0"
        raise FactsRefused(
            tuple((error.pointer.removeprefix(start).removeprefix("/"), error.message) for error in refusal.errors)
        ) from None
    plain = canonical_value(getattr(kit, listed)[0], None)
    return {fact: value for fact, value in plain.items() if fact not in of_the_kit}
