"""A kit as a sheet in one system shows it: a document of its own, in which every measure is the shown one."""

from __future__ import annotations

from collections.abc import Mapping

from layouts.document import Kit
from layouts.document.places import with_lengths
from layouts.lengths import Length, System

__all__ = ["kit_as_shown"]

# What the box holds is as large as it is, whatever a sheet says of it.
_REAL = ("pad:", "paper:", "cutting/", "printed/")


def kit_as_shown(kit: Kit, shown: Mapping[str, int], system: System) -> Kit:
    """Return a kit in which every measure of what is made is the one that a sheet in this system shows.

    `shown` are the shown values by place, in ticks. Sheets of paper, and what a cut loses, stay as they are: they do
    not shrink by being rounded. The kit is not judged again, and computed flat sizes are those of `shown`, not its own.
    """

    def change(place: str, length: Length) -> Length:
        return length if place.startswith(_REAL) else Length(shown.get(place, length.ticks), system)

    return with_lengths(kit, change)
