"""The project sheet: what a member needs on the table to make one thing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from kits.sheets.content.cautions import Caution, cautions_of, words_below
from kits.sheets.content.cut_outs import becomes, lost_pieces
from kits.sheets.content.cutting_list import PrintRows, cutting_list
from kits.sheets.content.faces import DrawnFace, drawn_faces
from kits.sheets.content.forms import DrawnForm, drawn_forms
from kits.sheets.content.layers import Layered, layers_of
from kits.sheets.content.measures import OFF_SUM, Measures
from kits.sheets.content.room import Room, room_of
from kits.sheets.content.running import Run, StepText, duration_words
from kits.sheets.content.shared import Shared
from kits.sheets.content.times import time_words
from kits.sheets.content.waits import WaitWords
from kits.sheets.options import SheetOptions
from layouts.assembly import PlannedStep
from layouts.document import Edges, Kit, Project
from layouts.drawing import ScaledDrawing, flat_key, flat_key_words, piece_drawing

__all__ = ["DrawnPiece", "Kept", "PrintedStep", "ProjectSheet", "printed_steps", "project_sheet"]

# How much of the paper a drawn piece may take, in lines, without its dimensions.
_DRAWN = (150, 150)


@dataclass(frozen=True, slots=True)
class PrintedStep:
    """One step: its number, its text, what is said before it and after it."""

    number: int
    runs: tuple[Run, ...]
    cautions: tuple[Caution, ...]
    hold: str
    wait: str


@dataclass(frozen=True, slots=True)
class DrawnPiece:
    """A piece with windows, or with an outline of its own, dimensioned; `words` say the same for who cannot see it.

    `beside` are sentences with what the drawing does not say; `kept` what comes out of its windows becomes.
    """

    letter: str
    name: str
    drawing: ScaledDrawing
    words: str
    beside: tuple[str, ...]
    kept: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Kept:
    """What to keep: out of which window, and what it becomes."""

    out_of: str
    becomes: str


@dataclass(frozen=True, slots=True)
class ProjectSheet:
    """All that stands on the sheet of one project."""

    id: str
    title: str
    makes: int
    first: tuple[str, ...]
    time: str
    cautions: tuple[Caution, ...]
    below_cautions: tuple[str, ...]
    supplies: tuple[str, ...]
    tools: tuple[str, ...]
    prints: tuple[PrintRows, ...]
    drawings: tuple[DrawnPiece, ...]
    forms: tuple[DrawnForm, ...]
    forms_left_out: int
    flat_key: ScaledDrawing | None
    flat_key_words: str
    layers: tuple[Layered, ...]
    faces: tuple[DrawnFace, ...]
    faces_left_out: int
    steps: tuple[PrintedStep, ...]
    keep: tuple[Kept, ...]
    foot: str

    @property
    def all_drawings(self) -> tuple[ScaledDrawing, ...]:
        parts = (part.drawing for form in self.forms for part in form.parts)
        boxes = (form.standing for form in self.forms if form.standing is not None)
        key = () if self.flat_key is None else (self.flat_key,)
        faces = (drawing for face in self.faces for drawing in face.drawings)
        return (*(one.drawing for one in self.drawings), *key, *parts, *boxes, *faces)


# The one line below a sheet's measures, where some of them carry the sign.
_FOOT = (
    f"{OFF_SUM} Rounded, this measure does not come to the sum of those that it belongs to; each is right by itself."
)


def project_sheet(
    kit: Kit, proof: Mapping[str, Any], project: Project, options: SheetOptions, shared: Shared | None = None
) -> ProjectSheet:
    """Return the sheet of one project; every figure on it comes from the document or from its proof.

    `shared` is what the sheets of all projects share; whoever makes several of them works it out once.
    """
    shared = shared or Shared.of(kit, proof, options)
    measures, lying = shared.measures, shared.lying[project.id]
    kit = measures.as_shown
    project = next(one for one in kit.projects if one.id == project.id)
    own = shared.planned.by_project[project.id]
    cautions = cautions_of(name for one in own for name in _caution_names(one, shared.needed))
    prints = cutting_list(kit, proof, project, measures)
    steps = tuple(printed_steps(own, StepText(kit, project, measures, shared.names), shared.needed, shared.waits))
    room, lost = room_of(options), lost_pieces(proof)
    forms, forms_left_out = drawn_forms(measures, project, room.line)
    faces, faces_left_out = drawn_faces(measures, project, lying, room.line, room)
    layers = layers_of(measures, project, lying)
    return ProjectSheet(
        id=project.id,
        title=project.title,
        makes=project.makes,
        first=tuple(shared.turns.words(project.id)),
        time=time_words(own),
        cautions=cautions,
        below_cautions=words_below(cautions),
        supplies=tuple(_supplies(kit, project, measures)),
        tools=tuple(_tools(kit, project, options)),
        prints=prints,
        drawings=tuple(_drawings(kit, project, measures, room, lost)),
        forms=forms,
        forms_left_out=forms_left_out,
        flat_key=_key(project, forms, room) if forms else None,
        flat_key_words=flat_key_words(_kinds(forms)),
        layers=layers,
        faces=faces,
        faces_left_out=faces_left_out,
        steps=steps,
        keep=tuple(_kept(kit, project, lost)),
        foot=_FOOT if _is_marked(prints, layers, steps) else "",
    )


def _key(project: Project, forms: Sequence[DrawnForm], room: Room) -> ScaledDrawing:
    return flat_key(name=f"{project.id}-key", line=room.line, room=room.width, kinds=_kinds(forms))


def _kinds(forms: Sequence[DrawnForm]) -> frozenset[str]:
    return frozenset(kind for form in forms for kind in form.kinds)


def _is_marked(prints: Sequence[PrintRows], layers: Sequence[Layered], steps: Sequence[PrintedStep]) -> bool:
    sizes = (size for group in prints for row in group.rows for size in (row.size, row.finished))
    texts = [text for size in sizes if size is not None for text in size.own]
    texts += [run.text for step in steps for run in step.runs if run.kind == "measure"]
    texts += [how for one in layers for laid in one.laid for how in laid.how]
    return any(OFF_SUM in text for text in texts)


def _supplies(kit: Kit, project: Project, measures: Measures) -> Iterator[str]:
    """Everything but cut paper that the steps use, in the order of the box."""
    used: dict[tuple[str, str], int] = {}
    lengths: dict[str, list[str]] = {}
    for step in project.steps:
        for use in step.use:
            for kind in ("blank", "element", "supply"):
                name = getattr(use, kind)
                if name is None:
                    continue
                used[kind, name] = used.get((kind, name), 0) + use.count * project.makes
                if use.length is not None:
                    one, many = measures.own(use.length.ticks).with_unit, use.count * project.makes
                    lengths.setdefault(name, []).append(one if many == 1 else f"{many} lengths of {one}")
    for blank in kit.blanks:
        if ("blank", blank.id) in used:
            yield _counted(used["blank", blank.id], blank.name)
    for sheet in kit.embellishments:
        for element in sheet.elements:
            if ("element", f"{sheet.id}/{element.id}") in used:
                yield f"{_counted(used['element', f'{sheet.id}/{element.id}'], element.name)} ({sheet.name})"
    for supply in kit.supplies:
        if ("supply", supply.id) in used:
            length = f", {' and '.join(lengths[supply.id])}" if supply.id in lengths else ""
            whose = " (your own)" if supply.from_ == "member" else ""
            name = supply.name if length else _counted(used["supply", supply.id], supply.name)
            yield f"{name}{length}{whose}"


def _tools(kit: Kit, project: Project, options: SheetOptions) -> Iterator[str]:
    """The tools that the steps use; who cuts with scissors has no trimmer, and hears of one pair of scissors once."""
    used = {tool for step in project.steps for tool in step.tools}
    own = [tool for tool in kit.tools if tool.id in used]
    names = {tool.id: tool.name or tool.kind.replace("-", " ") for tool in own}
    scissors = {tool.id for tool in own if tool.kind == "scissors"}
    plain = {tool for tool in scissors if names[tool].casefold() == "scissors"}
    replaced = options.cut == "scissors" and any(tool.kind == "trimmer" for tool in own)
    # Beside other scissors for small work, those for straight cuts are the long ones.
    pair = "long scissors" if scissors - plain and not plain else "scissors"
    for tool in own:
        if replaced and tool.kind == "trimmer":
            yield f"{pair}, ruler and pencil in place of the {names[tool.id]}"
        elif not (replaced and tool.id in plain):
            yield names[tool.id]


def _drawings(kit: Kit, project: Project, measures: Measures, room: Room, lost: frozenset[str]) -> Iterator[DrawnPiece]:
    inside = (_DRAWN[0] * room.line, _DRAWN[1] * room.line)
    for piece in project.pieces:
        if not piece.windows and piece.shape.kind == "rect":
            continue
        drawn = piece_drawing(
            piece,
            lambda ticks: measures.own(ticks).text,
            name=f"{project.id}-{piece.id}",
            unit=measures.unit,
            room=inside,
            line=room.line,
        )
        beside = drawn.beside
        if piece.size_is == "finished" and (piece.edges != Edges.by_default()):
            beside += ("Measured on the finished piece, after its edges are made.",)
        beside += tuple(
            f"Its window {window} does not lie inside the piece and is not drawn." for window in drawn.outside
        )
        kept = tuple(becomes(kit, project, piece, lost))
        yield DrawnPiece(piece.id, piece.name, drawn.drawing, drawn.words, beside, kept)


def _kept(kit: Kit, project: Project, lost: frozenset[str]) -> Iterator[Kept]:
    for piece in project.pieces:
        for one in becomes(kit, project, piece, lost):
            yield Kept(piece.id, one)


def _caution_names(planned: PlannedStep, needed: Mapping[str, set[str]]) -> set[str]:
    return {*planned.step.cautions, *needed.get(planned.place, ())}


def printed_steps(
    own: Sequence[PlannedStep], text: StepText, needed: Mapping[str, set[str]], waits: WaitWords
) -> Iterator[PrintedStep]:
    """Yield the steps of a project as they are printed; `needed` are cautions that the document forgot, by the step."""
    for number, one in enumerate(own, start=1):
        step = one.step
        hold = wait = ""
        if step.hold is not None:
            way, kind = ("Leave clamped for", "clamp") if step.held == "clamped" else ("Hold for", "hold")
            hold = _with(f"{way} {duration_words(step.hold)}.", waits.get((one.place, kind)))
        if step.dry is not None:
            wait = _with(f"Leave to dry for {duration_words(step.dry)}.", waits.get((one.place, "dry")))
        yield PrintedStep(number, text.runs(step.text), cautions_of(_caution_names(one, needed)), hold, wait)


def _with(sentence: str, more: str | None) -> str:
    return f"{sentence} {more}" if more else sentence


def _counted(count: int, name: str) -> str:
    return name if count == 1 else f"{count} × {name}"
