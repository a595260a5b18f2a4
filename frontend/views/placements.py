"""The placements of a project by what they lie on: drawn, said, put in another order, and more added to a face."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import BadRequest
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from frontend.access import for_planners, for_team
from frontend.kit_page.things.listing import face_groups, support_text
from frontend.views.beside import beside_thing
from frontend.views.kit import current_proof, page_of
from frontend.views.moving import thing_moved
from kits.planning.queries import KitPage
from layouts.document import Kit, Project

__all__ = ["project_placements"]


@require_http_methods(["GET", "HEAD", "POST"])
@for_team
def project_placements(request: HttpRequest, code: str, project: str) -> HttpResponse:
    """The faces, to read for all of the team; a planner moves a thing below or above the next one on its face."""
    page = page_of(code)
    found = _project(page.document, project)
    if request.method != "POST":
        return _shown(request, page, found)
    return _moved(request, code=code, project=project)


@for_planners
def _moved(request: HttpRequest, *, code: str, project: str) -> HttpResponse:
    page = page_of(code)
    found = _project(page.document, project)
    do, _, id_ = request.POST.get("do", "").partition(":")
    if do not in ("up", "down"):
        raise BadRequest("nothing of this name is done with placements")
    faces = [(support_text(one.on), one.on.skin) for one in found.placements]
    placements = {one.id: (number, faces[number - 1]) for number, one in enumerate(found.placements, start=1)}
    if id_ not in placements:
        return _shown(request, page, found, refusal="This placement is gone.", status=409)
    number, on = placements[id_]
    here = [other for other, there in placements.values() if there == on]
    at = here.index(number) + (1 if do == "down" else -1)
    place = f"project:{project}/placement:{id_}"
    if 0 <= at < len(here):
        refusal, status = thing_moved(request, page, place, here[at])
        if refusal:
            page = page_of(code)
            return _shown(request, page, _project(page.document, project), refusal=refusal, status=status)
        messages.success(request, f"Placement {id_} has been moved {do}.")
    return redirect(f"{reverse('project-placements', args=[page.kit.code, project])}#{place}")


def _shown(
    request: HttpRequest, page: KitPage, project: Project, *, refusal: str = "", status: int = 200
) -> HttpResponse:
    beside = beside_thing(request, page, f"project:{project.id}")
    groups = face_groups(page.document, project, beside["said"], current_proof(beside))
    context = {**beside, "project": project, "faces": groups, "refusal": refusal}
    return render(request, "frontend/kit/placements.html", context, status=status)


def _project(kit: Kit, id_: str) -> Project:
    found = next((one for one in kit.projects if one.id == id_), None)
    if found is None:
        raise Http404
    return found
