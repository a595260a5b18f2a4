"""The page of one kit, and the parts of it that are asked for while it is open."""

from __future__ import annotations

from collections.abc import Mapping
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
from frontend.kit_page.findings import Accepting, FindingLine
from frontend.kit_page.opened import Opened
from frontend.kit_page.page import making_parts, proof_part
from frontend.kit_page.pieces import Pieces
from frontend.kit_page.sheets import sheets_part
from frontend.words.changes import change_words
from frontend.words.places import Places
from kits.members.models import Role
from kits.planning.models import Draft
from kits.planning.queries import KitPage, kit_page
from kits.sheets.options import SheetOptions
from kits.sheets.renders import renders_of
from kits.sheets.setting import TEMPLATE_NUMBER
from layouts.checks import checks_of, proved_hashes

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
        "kit": page.kit,
        "page_url": reverse("kit", args=[page.kit.code]),
        "draft": page.draft,
        "revision": page.draft.revision,
        "document": page.document,
        "undo": change_words(undo, page.document) if undo is not None else "",
        "redo": change_words(redo.undoes, page.document) if redo is not None and redo.undoes is not None else "",
        "accepts": Role.EDITOR in roles_in(request),
        "checks": bool(roles_in(request) & {Role.PLANNER, Role.EDITOR}),
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
    projects, schedule = making_parts(page.document, current_proof(parts), parts["said"])
    more = {
        "opened": opened,
        "accepting": accepting,
        "refusal": refusal,
        "projects": projects,
        "schedule": schedule,
        "contents": content_groups(page.document, parts["said"]),
    }
    return render(request, "frontend/kit/page.html", {**parts, **more}, status=status)


def current_proof(parts: Mapping[str, Any]) -> Mapping[str, Any] | None:
    """Return the proof of the draft as it is, None while there is none."""
    shown = parts["shown"]
    return shown.proof if shown.current else None


def beside(page: KitPage, parts: Mapping[str, Any]) -> tuple[tuple[str, tuple[FindingLine, ...]], ...]:
    """Return what is said beside each thing of the page, by its id: nothing, where nothing is (any more).

    Of prints and projects as a whole all is said at the top.
    """
    anchors = (
        one for one in Places(page.document).anchors() if "/" in one or not one.startswith(("paper:", "project:"))
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
        "redrawn": () if proof is None else making_parts(page.document, proof, parts["said"])[0],
    }
    return render(request, "frontend/kit/checked.html", {**parts, **more})
