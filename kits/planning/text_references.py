"""What the text of a step names: its references, and the places of the things that their words lead to."""

from __future__ import annotations

from collections.abc import Iterator

from layouts.assembly import Names, Reference, parse_text
from layouts.document import Kit

__all__ = ["lead", "named", "references_in", "steps_naming"]


def references_in(text: str) -> list[Reference]:
    """Return the references of a text, in its order."""
    return [part for part in parse_text(text) if isinstance(part, Reference)]


def lead(reference: Reference, names: Names, project: str) -> tuple[int, str]:
    """Return how many names of a reference lead somewhere, and where to.

    Its last may name a figure that is not there.
    """
    for count in range(len(reference.names), 0, -1):
        short = Reference(
            reference.text, reference.start, reference.end, reference.kind, reference.within, reference.names[:count]
        )
        target = names.resolve(short, project)
        if target is not None:
            return count, target.place
    return 0, ""


def named(reference: Reference, names: Names, project: str) -> list[str]:
    """Return the places of the things that the words of a reference name, as far as they name things."""
    count, target = lead(reference, names, project)
    if not count:
        return []
    heads = target.split("/")
    things = ["/".join(heads[: number + 1]) for number, head in enumerate(heads) if ":" in head]
    if reference.kind is not None:
        itself = f"{reference.kind}:{reference.names[0]}"
        # The size of a paper may be that of its pad, which the reference does not name.
        return things if things[0] == itself else [itself]
    return things if reference.within is not None else things[1:]


def steps_naming(kit: Kit, place: str) -> Iterator[str]:
    """Yield the places of the steps whose text names a thing, or something of it."""
    names = Names(kit)
    for project in kit.projects:
        for step in project.steps:
            if any(place in named(reference, names, project.id) for reference in references_in(step.text)):
                yield f"project:{project.id}/step:{step.id}"
