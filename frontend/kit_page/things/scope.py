"""What a thing's form chooses from: the other things of its kit, by the words that people know them by."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import islice

from frontend.kit_page.pieces import Choice
from layouts.document import Kit, Project
from layouts.shapes.forms import panel_names

__all__ = ["Scope"]

_MOST_PANELS = 60


@dataclass(frozen=True, slots=True)
class Scope:
    """A kit, the project in it that a thing belongs to if it belongs to one, and the thing's own id if it has one."""

    kit: Kit
    project: Project | None = None
    own: str = ""

    def papers(self) -> tuple[Choice, ...]:
        return tuple(Choice(one.id, one.name) for one in self.kit.papers)

    def pads(self) -> tuple[Choice, ...]:
        return tuple(Choice(one.id, one.name) for one in self.kit.pads)

    def tools(self, *kinds: str) -> tuple[Choice, ...]:
        """The tools of some kinds, or of all."""
        return tuple(
            Choice(one.id, one.name or one.kind.replace("-", " "))
            for one in self.kit.tools
            if not kinds or one.kind in kinds
        )

    def pieces(self) -> tuple[Choice, ...]:
        """The other pieces of the project, by their ids."""
        pieces = () if self.project is None else self.project.pieces
        return tuple(Choice(one.id, f"{one.id}, {one.name}") for one in pieces if one.id != self.own)

    def made(self) -> tuple[Choice, ...]:
        """The pieces and folded parts of the project, by their ids."""
        forms = () if self.project is None else self.project.forms
        return (
            *self.pieces(),
            *(Choice(one.id, f"{one.id}, {one.name}") for one in forms if one.id != self.own),
        )

    def windows(self) -> tuple[Choice, ...]:
        """Kept cut-outs, as `PROJECT/PIECE/WINDOW`."""
        return tuple(
            Choice(f"{project.id}/{piece.id}/{window.id}", f"window {window.id} of {piece.id}, {project.title}")
            for project in self.kit.projects
            for piece in project.pieces
            for window in piece.windows
            if window.cut_out == "kept" and not (project == self.project and piece.id == self.own)
        )

    def things(self, *kinds: str) -> tuple[Choice, ...]:
        """What can be put or used, as `kind:id`."""
        return tuple(Choice(f"{kind}:{id_}", words) for kind, id_, words in self._things() if kind in kinds)

    def panels(self) -> tuple[Choice, ...]:
        """The panels of the project's folded parts, as `form:F/panel:P`; of very many, the first."""
        forms = () if self.project is None else self.project.forms
        return tuple(
            Choice(f"form:{form.id}/panel:{panel}", f"{form.name}, {panel}")
            for form in forms
            for panel in islice(panel_names(form), _MOST_PANELS)
        )

    def steps(self) -> tuple[Choice, ...]:
        """The other steps of the project by their ids, then those of other projects as `PROJECT/STEP`."""
        return (
            *self._steps(() if self.project is None else (self.project,), ""),
            *self._steps((one for one in self.kit.projects if one != self.project), "of another"),
        )

    def _steps(self, projects: Iterable[Project], other: str) -> Iterator[Choice]:
        for project in projects:
            for number, step in enumerate(project.steps, start=1):
                if other:
                    yield Choice(f"{project.id}/{step.id}", f"{project.title}, {number}: {_short(step.text)}")
                elif step.id != self.own:
                    yield Choice(step.id, f"{number}: {_short(step.text)}")

    def _things(self) -> Iterator[tuple[str, str, str]]:
        if self.project is not None:
            for piece in self.project.pieces:
                yield "piece", piece.id, f"piece {piece.id}, {piece.name}"
            for form in self.project.forms:
                if form.id != self.own:
                    yield "form", form.id, f"{form.name} ({form.id})"
        for sheet in self.kit.embellishments:
            for element in sheet.elements:
                yield "element", f"{sheet.id}/{element.id}", f"{element.name}, {sheet.name}"
        for blank in self.kit.blanks:
            yield "blank", blank.id, blank.name
        for supply in self.kit.supplies:
            yield "supply", supply.id, supply.name


_SHORT = 60


def _short(text: str) -> str:
    return text if len(text) <= _SHORT else f"{text[: _SHORT - 1].rstrip()}…"
