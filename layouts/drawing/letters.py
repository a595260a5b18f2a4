"""By which letters the things that are cut are called where several projects share a sheet."""

from __future__ import annotations

from collections import Counter

from layouts.document import Kit

__all__ = ["Letters"]


class Letters:
    """The letters of a kit's pieces and forms: their ids, with the project's where two projects use the same."""

    def __init__(self, kit: Kit) -> None:
        used = Counter(
            thing.id for project in kit.projects for things in (project.pieces, project.forms) for thing in things
        )
        self._shared = {letter for letter, many in used.items() if many > 1}

    def of(self, place: str) -> str:
        """Return the letter of a piece or form by its place, with the number of its part where it has parts."""
        made, _, part = place.partition("/part:")
        project, _, thing = made.partition("/")
        letter = thing.partition(":")[2]
        said = f"{letter} {part}" if part else letter
        return f"{said} ({project.removeprefix('project:')})" if letter in self._shared else said
