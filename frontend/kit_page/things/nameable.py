"""What the text of a step can name: the things of a kit and their measures, each as it is written between braces."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain

from frontend.words.places import Places
from layouts.assembly import Names, Reference, Target
from layouts.assembly.naming import element_place, made_place
from layouts.document import Kit, Project, lengths_of
from layouts.lengths import Length

__all__ = ["Named", "nameable"]

_SIDES = ("left", "right", "top", "bottom", "width", "height")
# Names that one page lists, and those of which measures are listed too: a kit of 300 pieces must stay a small page.
_MOST, _MOST_MEASURES = 1_200, 700


@dataclass(frozen=True, slots=True)
class Named:
    """What may stand between braces, what that is in words, and its measure in the kit's unit if it is one."""

    reference: str
    words: str
    measure: str = ""


def nameable(kit: Kit, project: Project) -> tuple[Named, ...]:
    """Return what a step of a project can name: first what is made in it with its measures, then what comes in the box,
    then what other projects make; of a kit that has very many, the first."""
    names, places = Names(kit), Places(kit)
    own, other = f"project:{project.id}", f"{project.title}, "
    lengths = [place for place, _ in lengths_of(kit)]
    inner = f"{own}/"
    in_order = chain(
        _made(project),
        (place for place in lengths if place.startswith(inner)),
        _derived(project),
        _box(kit),
        (place for place in lengths if not place.startswith("project:")),
        _paper_sides(kit),
        chain.from_iterable(_made(one) for one in kit.projects if one.id != project.id),
        (place for place in lengths if place.startswith("project:") and not place.startswith(inner)),
    )
    found: dict[str, Named] = {}
    for at in dict.fromkeys(in_order):
        # What is named by its reference already is one of those that have no place of their own in the document.
        reference = at.removeprefix("=") if at.startswith("=") else names.reference_to(at, project.id)
        if reference is None or reference in found:
            continue
        target = names.resolve(Reference.read(reference), project.id)
        if target is None or (target.value is not None and len(found) >= _MOST_MEASURES):
            continue
        found[reference] = _named(kit, reference, target, places, other)
        if len(found) == _MOST:
            break
    return tuple(found.values())


def _named(kit: Kit, reference: str, target: Target, places: Places, own: str) -> Named:
    words = places.words(target.place).removeprefix(own)
    measure = target.value.text(kit.unit) if isinstance(target.value, Length) else ""
    return Named(reference, words, f"{measure} {kit.unit}" if measure else "")


def _made(project: Project) -> Iterator[str]:
    for one in (*project.pieces, *project.forms):
        place = made_place(project.id, one)
        yield place
        yield from (f"{place}/window:{window.id}" for window in getattr(one, "windows", ()))


def _box(kit: Kit) -> Iterator[str]:
    for blank in kit.blanks:
        yield f"blank:{blank.id}"
        yield from (f"blank:{blank.id}/face:{face.id}" for face in blank.faces)
    for sheet in kit.embellishments:
        yield from (element_place(f"{sheet.id}/{element.id}") for element in sheet.elements)
    yield from (f"supply:{supply.id}" for supply in kit.supplies)
    yield from (f"paper:{paper.id}" for paper in kit.papers)


def _derived(project: Project) -> Iterator[str]:
    """The sides of windows that follow from those that are stated."""
    for piece in project.pieces:
        for window in piece.windows:
            yield from (f"={piece.id}.{window.id}.{side}" for side in _SIDES)


def _paper_sides(kit: Kit) -> Iterator[str]:
    """A print of a pad has the size of that."""
    for paper in kit.papers:
        yield from (f"=paper:{paper.id}.{side}" for side in ("width", "height"))
