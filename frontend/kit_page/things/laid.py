"""What lies on what, drawn: a placement on its face with all that lies there, what a piece carries, a blank's faces."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from frontend.kit_page.drawn import inline
from frontend.kit_page.making import Figure
from kits.sheets.content.layers import LyingPair, SupportNames, how_words, lying_pairs
from kits.sheets.content.measures import Measures
from kits.sheets.options import SheetOptions
from layouts.document import Blank, Kit, Placement, Project, Support
from layouts.document.places import value_at
from layouts.drawing import Stack, face_drawing, stacks_of
from layouts.lengths import System
from layouts.proofing.measures import told
from layouts.proofing.rules import faces, forms
from layouts.shapes.faces import FormSizes, Lying, Surface, Surfaces

__all__ = ["Laid", "carried_by", "drawn_on", "faces_of", "laid"]

# Lines on screen are as thick as in large print.
_LINE = 229
_ROOM = (110 * _LINE, 100 * _LINE)
# Copies of a face that look different, faces of one blank, and sentences: a short document may ask for very many.
_MOST_DRAWN, _MOST_FACES, _MOST_SAID = 3, 12, 8
_AXES = (("across", "from side to side"), ("up", "up and down"))


@dataclass(frozen=True, slots=True)
class Laid:
    """A placement as it lies: its face drawn, its borders in sentences, and what is wrong with it, in sentences."""

    figures: tuple[Figure, ...]
    words: tuple[str, ...]
    wrong: tuple[str, ...]


def laid(kit: Kit, place: str) -> Laid:
    """Return how a placement lies in this kit, by its place. Raises: UnknownPlace."""
    placement = value_at(kit, place)
    measures = Measures(kit, SheetOptions.of(kit))
    pairs = lying_pairs(measures)
    own = [one for one in pairs if _is_at(one.exact.place, place)]
    if not own:
        return Laid((), ("The kit has so many placements that this one is not worked out here.",), ())
    surface = own[0].exact.surface
    # Each project has its own copies of what the kit holds several of.
    lying = [one for one in _all(pairs) if one.surface.place != surface.place or one.surface.project == surface.project]
    here = [one for one in lying if one.surface.place == surface.place]
    figures = (
        _figure(measures, stack, number, marked=place)
        for number, stack in enumerate(_stacks(lying, surface.place))
        if any(_is_at(one.place, place) for one in (*(layer.lying for layer in stack.layers), *stack.unplaced))
    )
    words = tuple(dict.fromkeys(words for one in own[:_MOST_SAID] for words in _words(measures, one)))
    return Laid(tuple(islice(figures, _MOST_DRAWN)), words, tuple(_wrong(kit, placement, place, here))[:_MOST_SAID])


def carried_by(kit: Kit, place: str) -> tuple[Figure, ...]:
    """Return the drawings of a piece, or of the panels of a form, with what lies on it; nothing where nothing does."""
    measures = Measures(kit, SheetOptions.of(kit))
    return drawn_on(measures, _all(lying_pairs(measures)), place)


def drawn_on(measures: Measures, lying: Sequence[Lying], place: str, name: str = "laid") -> tuple[Figure, ...]:
    """Return what is at a place with all that lies on it, once for copies that look alike; `name` starts the ids."""
    stacks = islice(_stacks(lying, place), _MOST_FACES)
    return tuple(_figure(measures, stack, number, name=name) for number, stack in enumerate(stacks))


def faces_of(kit: Kit, blank: Blank) -> tuple[Figure, ...]:
    """Return the faces of a blank as drawings, with all that the projects of the kit put there."""
    measures = Measures(kit, SheetOptions.of(kit))
    lying = _all(lying_pairs(measures))
    surfaces = Surfaces(kit, FormSizes(kit))
    # Any project knows the faces of a blank; a kit that has none yet has blanks all the same.
    project = next(iter(kit.projects), None) or Project(id="none", title="")
    found: list[Stack] = []
    for face in blank.faces[:_MOST_FACES]:
        surface = surfaces.of(project, Support(blank=blank.id, face=face.id))
        found += list(_stacks(lying, surface.place)) or [Stack(surface, (), (), (), 0)]
    return tuple(_figure(measures, stack, number) for number, stack in enumerate(found[:_MOST_FACES]))


def _all(pairs: Sequence[LyingPair]) -> list[Lying]:
    return [one.exact for one in pairs]


def _stacks(lying: Sequence[Lying], start: str) -> Iterator[Stack]:
    """The stacks on a surface, or on those of what is at this place; whether that lies on something is no matter."""
    free = [one for one in lying if not _is_at(start, one.thing.place)]
    return (stack for stack in stacks_of(free) if _is_at(stack.surface.place, start))


def _figure(measures: Measures, stack: Stack, number: int, *, marked: str = "", name: str = "laid") -> Figure:
    called = _called(stack.surface, stack.copies)
    drawn = face_drawing(
        stack,
        lambda ticks: measures.own(ticks).text,
        name=f"{name}-{number}",
        title=called,
        unit=measures.unit,
        room=_ROOM,
        line=_LINE,
        step=measures.step,
        marked=marked,
    )
    own = {layer.lying.thing.name for layer in stack.layers if marked and _is_at(layer.lying.place, marked)}
    thick = tuple(f"{one} is drawn thick, dashed where something lies over it." for one in sorted(own))
    return Figure(inline(drawn.assembled), " ".join((f"{called[:1].upper()}{called[1:]}.", *thick, *drawn.beside)))


def _called(surface: Surface, copies: Sequence[int]) -> str:
    which = f", {'copy' if len(copies) == 1 else 'copies'} {', '.join(map(str, copies))}" if copies else ""
    return f"{surface.name}{which}"


def _words(measures: Measures, pair: LyingPair) -> Iterator[str]:
    """The borders of one copy as sentences: those that are left, what is not said yet, and how the sheet says it."""
    one, unit = pair.exact, measures.kit.unit
    several = one.on_copy is not None and SupportNames(measures.kit, one.project).support(one.placement.on)[2] > 1
    copy = f"On copy {one.on_copy}: " if several else ""
    if one.surface.width is None:
        yield f"How large {one.surface.name} is cannot be worked out: it is not drawn."
    elif one.thing.width is None or one.thing.height is None:
        yield f"How large {one.thing.name} is, the kit does not say: it is not drawn."
    parts = list(_borders(one, unit))
    if parts:
        yield f"{copy}{'borders: ' if copy else 'Borders: '}{', '.join(parts)}."
    for axis, where in _AXES:
        along = getattr(one, axis)
        if along.low is None and along.high is None:
            yield f"{copy}{'where' if copy else 'Where'} it lies {where} is not said."
    printed = how_words(measures, pair)
    if printed:
        yield f"The sheet says: {copy.lower()}{printed}."


def _borders(one: Lying, unit: System) -> Iterator[str]:
    known = {side: border for side, border in one.borders.items() if border is not None}
    if len(known) == len(one.borders) and len(set(known.values())) == 1 and (border := known["left"]) >= 0:
        yield f"{told(border, unit)} all round" if border else "flush all round"
        return
    for side, border in known.items():
        if border > 0:
            yield f"{side} {told(border, unit)}"
        else:
            yield f"{told(-border, unit)} beyond the {side}" if border else f"flush at the {side}"


def _wrong(kit: Kit, placement: Placement, place: str, here: Sequence[Lying]) -> Iterator[str]:
    """What the rules about faces find at this placement, and a panel that its folded part does not have."""
    for finding in faces.findings(kit, here):
        if any(_is_at(at, place) for at in finding.at):
            yield finding.message
    if placement.on.form is not None:
        yield from (one.message for one in forms.findings(kit) if place in one.at)


def _is_at(at: str, place: str) -> bool:
    return at == place or at.startswith(f"{place}/")
