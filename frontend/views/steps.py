"""The steps of a project as one list: as they will print, moved, and more added between them."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import BadRequest
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from frontend.access import for_planners, for_team
from frontend.kit_page.things.listing import step_rows
from frontend.views.beside import beside_thing
from frontend.views.kit import current_proof, page_of
from frontend.views.moving import thing_moved
from kits.planning.queries import KitPage
from layouts.document import Kit, Project, step_place

__all__ = ["project_steps"]


@require_http_methods(["GET", "HEAD", "POST"])
@for_team
def project_steps(request: HttpRequest, code: str, project: str) -> HttpResponse:
    """The list, to read for all of the team; a planner moves a step up or down."""
    page = page_of(code)
    found = _project(page.document, project)
    if request.method != "POST":
        return _shown(request, page, found)
    return _moved(request, code=code, project=project)


@for_planners
def _moved(request: HttpRequest, *, code: str, project: str) -> HttpResponse:
    page = page_of(code)
    found = _project(page.document, project)
    do, _, step = request.POST.get("do", "").partition(":")
    if do not in ("up", "down"):
        raise BadRequest("nothing of this name is done with steps")
    ids = [one.id for one in found.steps]
    if step not in ids:
        return _shown(request, page, found, refusal="This step is gone.", status=409)
    place = step_place(project, step)
    refusal, status = thing_moved(request, page, place, ids.index(step) + (2 if do == "down" else 0))
    if refusal:
        page = page_of(code)
        return _shown(request, page, _project(page.document, project), refusal=refusal, status=status)
    messages.success(request, f"Step {step} has been moved {do}.")
    return redirect(f"{reverse('project-steps', args=[page.kit.code, project])}#{place}")


def _shown(
    request: HttpRequest, page: KitPage, project: Project, *, refusal: str = "", status: int = 200
) -> HttpResponse:
    beside = beside_thing(request, page, f"project:{project.id}")
    rows = step_rows(page.document, project, beside["said"], current_proof(beside))
    context = {**beside, "project": project, "rows": rows, "refusal": refusal}
    return render(request, "frontend/kit/steps.html", context, status=status)


def _project(kit: Kit, id_: str) -> Project:
    found = next((one for one in kit.projects if one.id == id_), None)
    if found is None:
        raise Http404
    return found
