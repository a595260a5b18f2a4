"""What a project is made of besides its pieces: folded parts, what is put where, and the steps as they will read."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from django.utils.safestring import SafeString

from frontend.kit_page.drawn import DrawnProject, inline
from frontend.kit_page.findings import FindingLine
from frontend.words.numbers import listed
from frontend.words.places import Places
from kits.sheets.content.forms import DrawnForm
from layouts.assembly import Names, Reference, parse_text
from layouts.document import Form, Kit, Paper, Placement, Project, Step, form_place, step_place
from layouts.lengths import Length
from layouts.shapes import FlatSizes, NotBuilt

__all__ = [
    "Figure",
    "FormLine",
    "PlacementLine",
    "StepLine",
    "StepPart",
    "face_figures",
    "form_lines",
    "placement_lines",
    "step_lines",
]

type SaidAt = Mapping[str, tuple[FindingLine, ...]]


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing, and what stands below it."""

    drawing: SafeString
    caption: str


@dataclass(frozen=True, slots=True)
class FormLine:
    """A form: how it is cut, its flat parts drawn, and the rest of what is known of it (None where nothing is)."""

    place: str
    name: str
    kind: str
    count: int
    paper: str
    flat: str
    said: tuple[FindingLine, ...]
    figures: tuple[Figure, ...]
    drawn: DrawnForm | None


@dataclass(frozen=True, slots=True)
class PlacementLine:
    """What is put on what; `how` says of each copy how it lies."""

    place: str
    name: str
    words: str
    how: tuple[str, ...]
    said: tuple[FindingLine, ...]


@dataclass(frozen=True, slots=True)
class StepPart:
    """A run of a step's text: `kind` is words, name (of a thing), figure, or lost (a reference to nothing)."""

    kind: str
    text: str


@dataclass(frozen=True, slots=True)
class StepLine:
    place: str
    name: str
    parts: tuple[StepPart, ...]
    cautions: tuple[str, ...]
    notes: tuple[str, ...]
    said: tuple[FindingLine, ...]


def form_lines(kit: Kit, project: Project, sizes: FlatSizes, drawn: DrawnProject, said: SaidAt) -> tuple[FormLine, ...]:
    """Return the folded parts with the sizes that they are cut as, and their drawings."""
    papers = {paper.id: paper for paper in kit.papers}
    return tuple(_form(kit, project, form, sizes, papers, drawn, said) for form in project.forms)


def _form(
    kit: Kit,
    project: Project,
    form: Form,
    sizes: FlatSizes,
    papers: Mapping[str, Paper],
    drawn: DrawnProject,
    said: SaidAt,
) -> FormLine:
    place = form_place(project.id, form.id)
    prints = [form.paper] if isinstance(form.paper, str) else list(form.paper.each)
    try:
        parts = sizes.parts(form, project.id, papers[prints[0]])
        flat = listed([f"{part.width.text(kit.unit)} × {part.height.text(kit.unit)}" for part in parts])
    except NotBuilt:
        flat = "not worked out yet"
    names = listed([papers[one].name for one in prints])
    known = drawn.forms.get(place)
    return FormLine(
        place=place,
        name=form.name if form.name == form.id else f"{form.name} ({form.id})",
        kind=form.as_,
        count=form.count,
        paper=names,
        flat=flat,
        said=said.get(place, ()),
        figures=tuple(_figures(known)) if known is not None else (),
        drawn=known,
    )


def _figures(form: DrawnForm) -> Iterator[Figure]:
    for part in form.parts:
        which = part.which.removeprefix(", ").capitalize()
        from_ = f"as cut from {form.from_}" if form.from_ else ""
        heading = ", ".join(word for word in (which, from_) if word)
        yield Figure(inline(part.drawing), " ".join((*([f"{heading}."] if heading else []), *part.beside)))
    if form.standing is not None:
        yield Figure(inline(form.standing), "As it stands, its base up.")


def placement_lines(project: Project, places: Places, drawn: DrawnProject, said: SaidAt) -> tuple[PlacementLine, ...]:
    """Return what is put on what, and how it lies."""
    return tuple(_placement(project, one, places, drawn, said) for one in project.placements)


def face_figures(drawn: DrawnProject) -> tuple[tuple[str, tuple[Figure, ...]], ...]:
    """Return what faces are called with their drawings: in place, and layer by layer."""
    return tuple(
        (
            f"{face.letter}, {face.name}" if face.letter else face.name,
            tuple(
                Figure(inline(drawing), " ".join(face.beside) if number == 0 else "layer by layer")
                for number, drawing in enumerate(face.drawings)
            ),
        )
        for face in drawn.faces
    )


def _placement(project: Project, one: Placement, places: Places, drawn: DrawnProject, said: SaidAt) -> PlacementLine:
    place = f"project:{project.id}/placement:{one.id}"
    on = one.on
    if on.blank is not None:
        support = places.words(f"blank:{on.blank}/face:{on.face}")
    elif on.piece is not None:
        support = f"piece {on.piece}"
    else:
        support = f"{on.form}, {on.panel} ({on.skin})"
    how = "behind" if one.layer == "behind" else "on"
    lies = tuple(dict.fromkeys(words for words in drawn.how.get(place, ()) if words))
    return PlacementLine(place, one.id, f"{_put(one, places)} {how} {support}", lies, said.get(place, ()))


def _put(one: Placement, places: Places) -> str:
    put = one.put
    if put.element is not None:
        sheet, _, element = put.element.partition("/")
        return places.words(f"embellishment:{sheet}/element:{element}")
    if put.blank is not None:
        return places.words(f"blank:{put.blank}")
    if put.supply is not None:
        return places.words(f"supply:{put.supply}")
    return f"piece {put.piece}" if put.piece is not None else str(put.form)


def step_lines(kit: Kit, project: Project, names: Names, said: SaidAt) -> tuple[StepLine, ...]:
    """Return the steps with their references filled in, as the sheet will read."""
    tools = {tool.id: tool.name or tool.kind for tool in kit.tools}
    return tuple(_step(kit, project, step, names, tools, said) for step in project.steps)


def _step(kit: Kit, project: Project, step: Step, names: Names, tools: Mapping[str, str], said: SaidAt) -> StepLine:
    place = step_place(project.id, step.id)
    parts = tuple(_parts(kit, project.id, step.text, names))
    notes = tuple(_notes(step, tools))
    return StepLine(place, step.id, parts, tuple(step.cautions), notes, said.get(place, ()))


def _parts(kit: Kit, project: str, text: str, names: Names) -> Iterator[StepPart]:
    for part in parse_text(text):
        if not isinstance(part, Reference):
            yield StepPart("words", part.text)
            continue
        target = names.resolve(part, project)
        if target is None:
            yield StepPart("lost", f"{{{part.text}}}")
        elif isinstance(target.value, Length):
            yield StepPart("figure", target.value.text(kit.unit))
        elif target.value is not None:
            yield StepPart("figure", str(target.value))
        else:
            yield StepPart("name", _called(target.thing, part))


def _called(thing: object, reference: Reference) -> str:
    """A piece is called by its letter, a thing of the kit by its name."""
    name = getattr(thing, "name", None)
    return str(name) if reference.kind is not None and name else ".".join(reference.names)


def _notes(step: Step, tools: Mapping[str, str]) -> Iterator[str]:
    if step.cut:
        yield f"cuts {listed(list(step.cut))}"
    if step.tools:
        yield f"with {listed([tools.get(tool, tool) for tool in step.tools])}"
    for words, time in (("work", step.work), ("hold", step.hold), ("dry", step.dry)):
        if time is not None:
            yield f"{words} {time}"
