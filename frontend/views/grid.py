"""The pieces of a project as a table to type in: saved together, added, copied, moved and removed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from django.contrib import messages
from django.core.exceptions import BadRequest
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from frontend.access import for_planners, person_of
from frontend.kit_page.grid import COLUMNS, NEW, Grid, free_letters, grid_of, written
from frontend.requests import number_sent
from frontend.views.beside import beside_thing
from frontend.views.kit import page_of
from frontend.words.numbers import listed
from frontend.words.places import Places
from kits.members.models import Person
from kits.planning.errors import DraftRefused, FieldError, IdTaken, RevisionMoved, StillNamed
from kits.planning.models import Draft
from kits.planning.pasted import read_pasted
from kits.planning.queries import KitPage, state_at
from kits.planning.services import thing_add, thing_copy, thing_move, thing_remove, things_add, values_change
from layouts.document import Kit, Paper, Project, UnknownPlace, piece_place

__all__ = ["project_pieces"]

_DOINGS = ("save", "add", "left", "many", "copy", "up", "down", "remove", "remove-all", "read", "add-pasted")


# What makes sense as one value of many pieces.
_MANY = tuple((column, label) for column, (label, _) in COLUMNS.items() if column != "name")


@dataclass(frozen=True, slots=True)
class _Sent:
    """What a form sent: what was typed, by the controls' names, and what is to be done with which piece."""

    project: str
    typed: Mapping[str, str]
    revision: int
    do: str
    piece: str
    pasted: str

    @classmethod
    def of(cls, request: HttpRequest, project: str) -> _Sent:
        do, _, piece = request.POST.get("do", "save").partition(":")
        if do not in _DOINGS:
            raise BadRequest("nothing of this name is done with pieces")
        typed = {name: text.strip() for name, text in request.POST.items() if isinstance(text, str) and "." in name}
        return cls(project, typed, number_sent(request, "revision"), do, piece, _pasted(request))


@require_http_methods(["GET", "HEAD", "POST"])
@for_planners
def project_pieces(request: HttpRequest, code: str, project: str) -> HttpResponse:
    """The table; sent, it is saved, and then something is done with one of its pieces."""
    page = page_of(code)
    grid = _grid(page.document, project)
    if request.method != "POST":
        return _shown(request, page, grid)
    sent = _Sent.of(request, project)
    if sent.do == "left":
        return _left(request, page, grid, sent)
    if sent.revision != page.draft.revision:
        return _moved(request, page, sent)
    try:
        return _saved(request, page, grid, sent)
    except RevisionMoved:
        return _moved(request, page_of(code), sent)


def _saved(request: HttpRequest, page: KitPage, grid: Grid, sent: _Sent) -> HttpResponse:
    """Write what differs, then the new piece, then what is to be done. Raises: RevisionMoved."""
    by, draft = person_of(request), page.draft
    if sent.do == "many":
        sent = replace(sent, typed={**sent.typed, **_many(request, page.document.papers, grid, sent.typed)}, do="save")
    changes = _changes(grid, sent.typed)
    try:
        if changes:
            draft = values_change(draft=draft, values=changes, revision=draft.revision, by=by)
    except DraftRefused as refused:
        return _refused(request, page, sent, refused.errors)
    new = _new_piece(grid, sent.typed)
    place = piece_place(grid.project.id, sent.typed.get(f"{NEW}.id", ""))
    if new is not None:
        try:
            draft = thing_add(draft=draft, place=place, thing=new, revision=draft.revision, by=by)
        except IdTaken:
            return _again(request, page, sent, {f"{NEW}.id": "There is a piece or form of this letter already."})
        except DraftRefused as refused:
            return _refused(request, page_of(page.kit.code), sent, refused.errors)
    if sent.do in ("read", "add-pasted"):
        return _read(request, page, draft, sent)
    if sent.do == "add" and new is None:
        after = page_of(page.kit.code)
        refusal = "There is no new piece yet: type its name, its width and its height into the last row."
        return _shown(request, after, _grid(after.document, grid.project.id), refusal=refusal, status=422)
    if sent.do not in ("save", "add"):
        return _done(request, page, draft, sent, by)
    said = _said(len(changes), new is not None)
    if said:
        messages.success(request, said)
    # A new row follows a new row: whoever adds one piece adds the next.
    at = f"#{NEW}" if new is not None else f"#{Places(page.document).anchor(changes[0][0])}" if changes else ""
    return redirect(f"{_address(page, grid.project.id)}{at}")


def _left(request: HttpRequest, page: KitPage, grid: Grid, sent: _Sent) -> HttpResponse:
    """Save what was typed into the rows that are there, as each of their controls is left; the page stays as it is."""
    changes = _changes(grid, sent.typed)
    said, status = "", 200
    try:
        if changes:
            values_change(draft=page.draft, values=changes, revision=sent.revision, by=person_of(request))
            said = "Saved."
    except RevisionMoved as moved:
        said = f"Not saved: {moved.by or 'somebody'} changed this kit meanwhile. Save by the button to see both."
        status = 409
    except DraftRefused as refused:
        project = _project(page.document, sent.project)
        labels = {one.name: one.label for row in grid.rows for one in row.controls}
        names = [(_control(error.pointer, page.document, project), error.message) for error in refused.errors]
        said = f"Not saved: {'; '.join(f'{labels.get(name, name)}: {message}' for name, message in names)}."
        status = 422
    after = page_of(page.kit.code) if status == 200 else page
    beside = beside_thing(request, after, f"project:{grid.project.id}")
    context = {**beside, "said": said, "is_saved": status == 200}
    return render(request, "frontend/kit/grid_saved.html", context, status=status)


def _many(request: HttpRequest, papers: Sequence[Paper], grid: Grid, typed: Mapping[str, str]) -> dict[str, str]:
    """One value for many pieces: for all, or for those of one print."""
    column, of = request.POST.get("many-column", ""), request.POST.get("many-of", "")
    value = request.POST.get("many-value", "").strip()
    if column == "paper":
        value = next((paper.id for paper in papers if paper.name.casefold() == value.casefold()), value)
    if column not in COLUMNS:
        raise BadRequest("no value of this name is changed for many pieces")
    names = {f"{row.id}.{column}": f"{row.id}.paper" for row in grid.rows if not row.is_new}
    known = grid.texts
    return {
        name: value
        for name, paper in names.items()
        if name in known and (not of or typed.get(paper, known.get(paper, "")) == of)
    }


def _read(request: HttpRequest, page: KitPage, draft: Draft, sent: _Sent) -> HttpResponse:
    """Show what was read of a pasted list, or add it; what could not be read stays to be mended.

    Raises: RevisionMoved.
    """
    after = page_of(page.kit.code)
    project = _project(after.document, sent.project)
    lines = read_pasted(sent.pasted, after.document, project, free_letters(after.document))
    good = [line for line in lines if not line.wrong]
    if sent.do == "read" or not good:
        refusal = "" if lines else "There is no line to read: paste a list, one piece a line."
        grid = _grid(after.document, project.id)
        status = 200 if good else 422
        return _shown(
            request, after, grid, refusal=refusal, status=status, pasted=sent.pasted, read=lines, good=len(good)
        )
    things = [(piece_place(project.id, line.letter), line.as_piece()) for line in good]
    try:
        things_add(draft=draft, things=things, revision=draft.revision, by=person_of(request))
    except DraftRefused as refused:
        sentence = "; ".join(error.message for error in refused.errors)
        grid = _grid(after.document, project.id)
        return _shown(
            request, after, grid, refusal=f"{sentence}.", status=422, pasted=sent.pasted, read=lines, good=len(good)
        )
    messages.success(request, f"{'1 piece has' if len(good) == 1 else f'{len(good)} pieces have'} been added.")
    left = [line.text for line in lines if line.wrong]
    if not left:
        return redirect(f"{_address(page, project.id)}#{things[0][0]}")
    after = page_of(page.kit.code)
    project = _project(after.document, sent.project)
    left_lines = read_pasted("\n".join(left), after.document, project, free_letters(after.document))
    grid = _grid(after.document, project.id)
    return _shown(request, after, grid, pasted="\n".join(left), read=left_lines, good=0)


def _pasted(request: HttpRequest) -> str:
    # Browsers send line ends as CR LF.
    return request.POST.get("pasted", "").replace("\r\n", "\n")


def _done(request: HttpRequest, page: KitPage, draft: Draft, sent: _Sent, by: Person) -> HttpResponse:
    """Copy, move or remove one piece. Raises: RevisionMoved."""
    after = page_of(page.kit.code)
    project = _project(after.document, sent.project)
    place = piece_place(project.id, sent.piece)
    ids = [piece.id for piece in project.pieces]
    at: dict[str, Any] = {"draft": draft, "place": place, "revision": draft.revision, "by": by}
    try:
        position = ids.index(sent.piece) + 1
        if sent.do == "copy":
            to = _free_id(sent.piece, {made.id.casefold() for made in (*project.pieces, *project.forms)})
            thing_copy(to=to, **at)
            place = piece_place(project.id, to)
        elif sent.do in ("up", "down"):
            thing_move(position=position + (1 if sent.do == "down" else -1), **at)
        else:
            thing_remove(with_mentions=sent.do == "remove-all", **at)
            messages.success(request, f"{sent.piece} has been removed. Undo on the kit’s page brings it back.")
            place = ""
    except (ValueError, UnknownPlace):
        return _shown(request, after, _grid(after.document, project.id), refusal="This piece is gone.", status=409)
    except StillNamed as named:
        places = Places(after.document)
        by_words = [places.words(one) for one in named.by]
        grid = _grid(after.document, project.id)
        return _shown(request, after, grid, status=409, asked=sent.piece, named_by=by_words)
    except DraftRefused as refused:
        sentence = "; ".join(error.message for error in refused.errors)
        return _shown(request, after, _grid(after.document, project.id), refusal=f"{sentence}.", status=422)
    return redirect(f"{_address(page, project.id)}{f'#{place}' if place else ''}")


def _moved(request: HttpRequest, page: KitPage, sent: _Sent) -> HttpResponse:
    """Somebody else was quicker: what was typed stays, beside what they made of the same values."""
    grid = _grid(page.document, sent.project)
    then = state_at(page.draft, sent.revision)
    seen = _grid(then, sent.project).texts if then is not None and _has(then, sent.project) else grid.texts
    now = grid.texts
    mine = {name: text for name, text in sent.typed.items() if name in now and text != seen.get(name, "")}
    theirs = {name: now[name] or "nothing" for name in mine if now[name] not in (seen.get(name, ""), mine[name])}
    who = page.changes[0].by if page.changes else None
    sentence = (
        f"{who or 'Somebody'} changed this kit meanwhile: nothing has been saved yet. What you changed is still here"
        f"{', beside what they wrote in the same place' if theirs else ''}. Save again to keep it."
    )
    return _shown(request, page, grid.with_typed(mine, theirs=theirs), refusal=sentence, status=409)


def _refused(request: HttpRequest, page: KitPage, sent: _Sent, errors: tuple[FieldError, ...]) -> HttpResponse:
    wrong: dict[str, str] = {}
    project = _project(page.document, sent.project)
    for error in errors:
        wrong.setdefault(
            _control(error.pointer, page.document, project), f"{error.message[:1].upper()}{error.message[1:]}."
        )
    return _again(request, page, sent, wrong)


def _again(request: HttpRequest, page: KitPage, sent: _Sent, wrong: Mapping[str, str]) -> HttpResponse:
    """Show the form with what was typed and what is wrong with it; nothing that was typed is lost."""
    grid = _grid(page.document, sent.project).with_typed(sent.typed, wrong)
    elsewhere = [sentence for name, sentence in wrong.items() if name not in {one.name for one in grid.wrong}]
    return _shown(request, page, grid, refusal=" ".join(elsewhere), status=422)


def _control(pointer: str, kit: Kit, project: Project) -> str:
    """The name of the control whose value a pointer of the document names, or the pointer itself."""
    parts = pointer.split("/")[1:]
    columns = {"size/0": "width", "size/1": "height", "size": "width"}
    if parts[:1] != ["projects"] or parts[2:3] != ["pieces"] or kit.projects[int(parts[1])].id != project.id:
        return pointer
    number, inner = int(parts[3]), "/".join(parts[4:])
    id_ = project.pieces[number].id if number < len(project.pieces) else NEW
    column = columns.get(inner, inner or "id")
    return f"{id_}.{column}"


def _changes(grid: Grid, typed: Mapping[str, str]) -> list[tuple[str, Any]]:
    """The values that were typed anew, by their places."""
    found = []
    for row in grid.rows:
        for control in row.controls:
            text = typed.get(control.name, control.text)
            if not row.is_new and not control.fixed and text != control.text:
                column = control.name.rpartition(".")[2]
                found.append((f"{row.place}/{COLUMNS[column][1]}", written(column, text)))
    return found


def _new_piece(grid: Grid, typed: Mapping[str, str]) -> dict[str, Any] | None:
    """The piece of the last row, if anything was typed into it but what stands there to begin with."""
    row = grid.rows[-1]
    texts = {one.name.rpartition(".")[2]: typed.get(one.name, one.text) for one in row.controls}
    begun = {one.name.rpartition(".")[2]: one.text for one in row.controls}
    if all(texts[column] == begun[column] for column in ("name", "width", "height", "paper")):
        return None
    piece = {column: written(column, texts[column]) for column in ("name", "count", "paper", "side", "print_reads")}
    return {
        **{name: value for name, value in piece.items() if value is not None},
        "size": [texts["width"], texts["height"]],
    }


def _free_id(id_: str, taken: set[str]) -> str:
    stem = id_[:28]
    return next(name for number in range(2, 100_000) if (name := f"{stem}-{number}").casefold() not in taken)


def _said(values: int, added: bool) -> str:
    parts = []
    if values:
        parts.append("1 value has been changed" if values == 1 else f"{values} values have been changed")
    if added:
        parts.append("a piece has been added")
    return f"{listed(parts).capitalize()}. The kit is being checked." if parts else ""


def _grid(kit: Kit, project: str) -> Grid:
    return grid_of(kit, _project(kit, project))


def _project(kit: Kit, id_: str) -> Project:
    found = next((project for project in kit.projects if project.id == id_), None)
    if found is None:
        raise Http404
    return found


def _has(kit: Kit, project: str) -> bool:
    return any(one.id == project for one in kit.projects)


def _address(page: KitPage, project: str) -> str:
    return reverse("project-pieces", args=[page.kit.code, project])


def _shown(
    request: HttpRequest, page: KitPage, grid: Grid, *, refusal: str = "", status: int = 200, **more: Any
) -> HttpResponse:
    context = {
        **beside_thing(request, page, f"project:{grid.project.id}"),
        "grid": grid,
        "many": _MANY,
        "columns": [label for label, _ in COLUMNS.values()],
        "refusal": refusal,
        **more,
    }
    return render(request, "frontend/kit/grid.html", context, status=status)
