"""The page of one kit, and the parts of it that are asked for while it is open."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_safe
from django_htmx.middleware import HtmxDetails

from frontend.access import for_team, person_of, roles_in
from frontend.kit_page.checks import check_token
from frontend.kit_page.contents import content_groups
from frontend.kit_page.drawn import Drawings
from frontend.kit_page.findings import Accepting, FindingLine
from frontend.kit_page.first_steps import FirstStep, first_steps, is_begun
from frontend.kit_page.opened import Opened
from frontend.kit_page.page import ClosedProject, ProjectPart, making_parts, proof_part
from frontend.kit_page.pieces import Pieces
from frontend.kit_page.sheets import sheets_part
from frontend.words.changes import change_words
from frontend.words.places import Places
from kits.members.models import Role
from kits.planning.models import Draft
from kits.planning.queries import KitPage, kit_page
from kits.planning.reviews import around
from kits.sheets.options import SheetOptions
from kits.sheets.renders import renders_of
from kits.sheets.setting import TEMPLATE_NUMBER
from layouts.checks import checks_of, proved_hashes
from layouts.document import Kit as Document

__all__ = ["beside", "current_proof", "kit", "kit_check", "page_of", "parts_of", "shown"]


def draft_of(code: str) -> Draft:
    """Return the main draft of a kit. Raises: Http404."""
    try:
        return Draft.objects.select_related("kit").get(kit__code__iexact=code, is_main=True)
    except Draft.DoesNotExist:
        raise Http404 from None


def page_of(code: str) -> KitPage:
    """Return the page of a kit. Raises: Http404."""
    try:
        return kit_page(code)
    except Draft.DoesNotExist:
        raise Http404 from None


def parts_of(request: HttpRequest, page: KitPage) -> dict[str, Any]:
    """Return what the parts of the page share: kit, draft, and what a check changes."""
    now = timezone.now()
    proof = proof_part(page, now)
    made = renders_of(proved_hashes(page.draft.subject))
    undo = page.undo if page.undo is not None and page.undo.by == person_of(request) else None
    redo = page.redo if page.redo is not None and page.redo.by == person_of(request) else None
    return {
        "room": "kits",
        "is_large": bool(closed_projects(request, page.document)),
        "kit": page.kit,
        "page_url": reverse("kit", args=[page.kit.code]),
        "draft": page.draft,
        "revision": page.draft.revision,
        "document": page.document,
        "undo": change_words(undo, page.document) if undo is not None else "",
        "redo": change_words(redo.undoes, page.document) if redo is not None and redo.undoes is not None else "",
        "accepts": Role.EDITOR in roles_in(request),
        "checks": bool(roles_in(request) & {Role.PLANNER, Role.EDITOR}),
        "closed": closed_projects(request, page.document),
        "check": proof.check,
        "shown": proof.shown,
        "papers": proof.papers,
        "stale_papers": any(paper.stale for paper in proof.papers),
        "groups": proof.groups,
        "said": proof.said,
        "order": proof.order,
        "weakest": proof.weakest,
        "sheets": sheets_part(proof.check, proof.shown, made, SheetOptions.of(page.document), TEMPLATE_NUMBER, now),
    }


# So many pieces, folded parts and steps stand on one page; of a larger kit, projects are opened one by one.
_MANY = 120


def closed_projects(request: HttpRequest, kit: Document) -> frozenset[str]:
    """Return the ids of the projects that are not shown yet, since the kit is large and nobody asked for them."""
    size = sum(len(one.pieces) + len(one.forms) + len(one.steps) for one in kit.projects)
    asked = {*request.GET.getlist("project"), *_projects_named(request)}
    return frozenset() if size <= _MANY else frozenset(one.id for one in kit.projects if one.id not in asked)


def _projects_named(request: HttpRequest) -> Iterator[str]:
    """The project of the place that is asked for, or changed."""
    for place in (request.GET.get("change", ""), request.POST.get("place", "")):
        yield place.partition("/")[0].removeprefix("project:")


def _opened(request: HttpRequest, kit: Document) -> Collection[str] | None:
    """The ids of the projects that are shown, None where all are."""
    closed = closed_projects(request, kit)
    return {one.id for one in kit.projects if one.id not in closed} if closed else None


def shown(
    request: HttpRequest,
    page: KitPage,
    *,
    opened: Opened | None = None,
    accepting: Accepting | None = None,
    refusal: str = "",
    status: int = 200,
) -> HttpResponse:
    """Answer with the whole page; a value or a finding may be open to be changed, something may have been refused."""
    parts = parts_of(request, page)
    opened_projects = _opened(request, page.document)
    projects, schedule = making_parts(page.document, current_proof(parts), parts["said"], opened_projects)
    if opened_projects is not None:
        schedule = Drawings(page.document, current_proof(parts)).schedule()
    more = {
        "opened": opened,
        "accepting": accepting,
        "refusal": refusal,
        "projects": _all_projects(page.document, projects),
        "schedule": schedule,
        "contents": content_groups(page.document, parts["said"]),
        **around(page.kit),
        "first_steps": _first_steps(page, parts),
    }
    return render(request, "frontend/kit/page.html", {**parts, **more}, status=status)


def _all_projects(kit: Document, opened: Sequence[ProjectPart]) -> tuple[ProjectPart | ClosedProject, ...]:
    by_id = {one.id: one for one in opened}
    return tuple(by_id.get(one.id) or ClosedProject.of(one) for one in kit.projects)


def _first_steps(page: KitPage, parts: Mapping[str, Any]) -> tuple[FirstStep, ...]:
    """What is next in a kit for which nothing is cut yet, and in a team's first one until its sheets are made."""
    if is_begun(page.document) and Draft.objects.filter(is_main=True).exclude(pk=page.draft.pk).exists():
        return ()
    proof = current_proof(parts)
    has_sheets = any(one.is_done for one in parts["sheets"].sets)
    steps = first_steps(page.document, "" if proof is None else proof["verdict"], has_sheets=has_sheets)
    return () if all(step.is_done for step in steps) else steps


def current_proof(parts: Mapping[str, Any]) -> Mapping[str, Any] | None:
    """Return the proof of the draft as it is, None while there is none."""
    shown = parts["shown"]
    return shown.proof if shown.current else None


def beside(page: KitPage, parts: Mapping[str, Any]) -> tuple[tuple[str, tuple[FindingLine, ...]], ...]:
    """Return what is said beside each thing of the page, by its id: nothing, where nothing is (any more).

    Of prints and projects as a whole all is said at the top.
    """
    closed = parts["closed"]
    anchors = (
        one
        for one in Places(page.document).anchors()
        if ("/" in one or not one.startswith(("paper:", "project:")))
        and one.partition("/")[0].removeprefix("project:") not in closed
    )
    return tuple((anchor, parts["said"].get(anchor, ())) for anchor in anchors)


@require_safe
@for_team
def kit(request: HttpRequest, code: str) -> HttpResponse:
    """The page; `change` and `field` open one value. Asked by htmx, only that value's part, open or shown."""
    page = page_of(code)
    asked = HtmxDetails(request)
    part = bool(asked) and not asked.history_restore_request
    place = request.GET.get("change", "") if not part else request.GET.get("change", request.GET.get("show", ""))
    if part and not place:
        return _opened_project(request, page)
    cell = Pieces(page.document).cell(place, request.GET.get("field", "")) if place else None
    opened = Opened.at(cell) if cell is not None and cell.free and Role.PLANNER in roles_in(request) else None
    if not part:
        return shown(request, page, opened=opened)
    if cell is None:
        raise Http404
    context: Mapping[str, Any] = {
        "kit": page.kit,
        "page_url": reverse("kit", args=[page.kit.code]),
        "draft": page.draft,
        "cell": cell,
        "opened": opened if "change" in request.GET else None,
        "focused": True,
    }
    return render(request, "frontend/kit/cell.html", context)


def _opened_project(request: HttpRequest, page: KitPage) -> HttpResponse:
    """One project of a large kit, to be set in place of its closed part."""
    parts = parts_of(request, page)
    asked = request.GET.get("project", "")
    projects, _ = making_parts(page.document, current_proof(parts), parts["said"], {asked})
    if not projects:
        raise Http404
    return render(request, "frontend/kit/project.html", {**parts, "project": projects[0], "is_large": True})


def _redrawn(
    request: HttpRequest, page: KitPage, proof: Mapping[str, Any], parts: Mapping[str, Any]
) -> tuple[ProjectPart, ...]:
    return making_parts(page.document, proof, parts["said"], _opened(request, page.document))[0]


@require_safe
@for_team
def kit_check(request: HttpRequest, code: str) -> HttpResponse:
    """How far the check is, asked every second while it is open: 204 as long as no more is known than was `seen`.

    `revision` is that of the page that asks; a page that is older than the kit is told so.
    """
    draft = draft_of(code)
    run = checks_of([draft.subject]).get(draft.subject)
    if request.GET.get("seen") == check_token(run, timezone.now()):
        return HttpResponse(status=204)
    page = page_of(code)
    parts = parts_of(request, page)
    seen = request.GET.get("revision", "")
    revision = int(seen) if seen.isascii() and seen.isdigit() else page.draft.revision
    last = page.changes[0].by if page.changes else None
    proof = current_proof(parts) if revision == page.draft.revision else None
    more = {
        "revision": revision,
        "changed_by": last or "Somebody",
        "beside": beside(page, parts) if parts["check"].state == "done" else (),
        # With a proof, drawings show figures that add up.
        "first_steps": _first_steps(page, parts),
        "redrawn": () if proof is None else _redrawn(request, page, proof, parts),
    }
    return render(request, "frontend/kit/checked.html", {**parts, **more})
