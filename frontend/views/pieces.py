"""Changing one value of a piece in its place."""

from __future__ import annotations

from typing import Any, cast, get_args

from django.core.exceptions import BadRequest
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_POST
from django_htmx.http import HttpResponseClientRefresh
from django_htmx.middleware import HtmxDetails

from frontend.access import for_planners, person_of
from frontend.kit_page.opened import Conflict, Opened, Wrong
from frontend.kit_page.page import making_parts
from frontend.kit_page.pieces import Pieces
from frontend.requests import number_sent
from frontend.views.kit import beside, current_proof, page_of, parts_of, shown
from frontend.words.changes import value_words
from kits.planning.errors import DraftRefused, RevisionMoved
from kits.planning.queries import KitPage
from kits.planning.services import PieceField, piece_change
from layouts.document import UnknownPlace

__all__ = ["piece_change_view"]


@require_POST
@for_planners
def piece_change_view(request: HttpRequest, code: str) -> HttpResponse:
    """Change a value; where that is refused, its form comes back with what was typed and why."""
    draft = page_of(code).draft
    place, field = request.POST.get("place", ""), request.POST.get("field", "")
    if field not in get_args(PieceField):
        raise BadRequest("no value of this name is changed in place")
    typed = _typed(request, field)
    try:
        piece_change(
            draft=draft,
            place=place,
            field=cast(PieceField, field),
            value=typed if field == "size" else typed[0],
            revision=number_sent(request, "revision"),
            by=person_of(request),
        )
    except RevisionMoved as moved:
        page = page_of(code)
        conflict = Conflict(value_words(moved.theirs, page.document.unit), " × ".join(typed), _who(request, moved.by))
        return _again(request, page, place, field, typed, conflict=conflict)
    except DraftRefused as refused:
        errors = tuple(dict.fromkeys(_wrong(error.field, error.message) for error in refused.errors))
        return _again(request, page_of(code), place, field, typed, errors=errors)
    except UnknownPlace:
        return shown(request, page_of(code), refusal="This piece has been removed meanwhile.", status=409)
    return _changed(request, page_of(code), place, field)


def _typed(request: HttpRequest, field: str) -> tuple[str, ...]:
    names = ("width", "height") if field == "size" else ("value",)
    return tuple(request.POST.get(name, "").strip() for name in names)


def _who(request: HttpRequest, by: str) -> str:
    return "You, in another window," if by == str(person_of(request)) else by or "Somebody"


def _wrong(field: str, message: str) -> Wrong:
    part = field.rpartition("/")[2]
    if part in ("width", "height"):
        return Wrong(part, f"{part.capitalize()}: {message}.")
    return Wrong("value", f"{message[:1].upper()}{message[1:]}.")


def _again(
    request: HttpRequest, page: KitPage, place: str, field: str, typed: tuple[str, ...], **why: Any
) -> HttpResponse:
    """Answer with the form: 409 where somebody else was quicker, 422 where the value is refused."""
    status = 409 if "conflict" in why else 422
    cell = Pieces(page.document).cell(place, field)
    if cell is None:
        return shown(request, page, refusal="This piece has been removed meanwhile.", status=409)
    opened = Opened(cell, typed, **why)
    if not HtmxDetails(request):
        return shown(request, page, opened=opened, status=status)
    context = {
        "kit": page.kit,
        "page_url": reverse("kit", args=[page.kit.code]),
        "draft": page.draft,
        "cell": cell,
        "opened": opened,
    }
    return render(request, "frontend/kit/cell.html", context, status=status)


def _changed(request: HttpRequest, page: KitPage, place: str, field: str) -> HttpResponse:
    if not HtmxDetails(request):
        return redirect(f"{reverse('kit', args=[page.kit.code])}#{place}")
    parts = parts_of(request, page)
    pieces = Pieces(page.document, parts["said"])
    cell, piece = pieces.cell(place, field), pieces.line(place)
    # After a conflict more of the page than this value is older than what was saved: all of it is loaded anew.
    if cell is None or piece is None or "whole" in request.POST:
        return HttpResponseClientRefresh()
    # What is drawn of the project shows the new value at once.
    redrawn, _ = making_parts(
        page.document, current_proof(parts), parts["said"], only={place.partition("/")[0].removeprefix("project:")}
    )
    more = {"cell": cell, "piece": piece, "beside": beside(page, parts), "redrawn": redrawn, "focused": True}
    context = {**parts, **more}
    return render(request, "frontend/kit/changed.html", context)
