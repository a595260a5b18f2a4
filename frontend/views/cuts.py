"""The cuts of one print, one after the other: a page of its own, and the same as a part of the kit's page."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe
from django_htmx.middleware import HtmxDetails

from frontend.access import for_team
from frontend.kit_page.checks import shown_proof
from frontend.kit_page.cuts import cuts_part
from frontend.views.kit import page_of
from layouts.document import read_kit

__all__ = ["kit_cuts"]


@require_safe
@for_team
def kit_cuts(request: HttpRequest, code: str, paper: str) -> HttpResponse:
    """How the sheets of a print are cut, by the newest proof there is. Asked by htmx, only the cuts themselves."""
    page = page_of(code)
    shown = shown_proof(page.run, page.proved, page.draft.revision)
    if shown.proof is None:
        raise Http404
    proved = page.document if shown.current else read_kit(shown.document.encode())
    if paper not in {one.id for one in proved.papers}:
        raise Http404
    asked = HtmxDetails(request)
    part = bool(asked) and not asked.history_restore_request
    context = {
        "room": "kits",
        "kit": page.kit,
        "document": proved,
        # As a part of the kit's page the sheets stand below the print, by themselves below the page's title.
        "level": 4 if part else 2,
        "cuts": cuts_part(proved, shown.proof, paper, current=shown.current),
    }
    return render(request, "frontend/kit/cuts.html" if part else "frontend/kit/cuts_page.html", context)
