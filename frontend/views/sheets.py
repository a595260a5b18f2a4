"""The sheets of a kit: asked for, watched while they are made, called off, tried again, and handed out."""

from __future__ import annotations

from contextlib import suppress
from typing import Any

from django.core.exceptions import BadRequest
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe
from django_htmx.middleware import HtmxDetails

from frontend.access import for_team, person_of
from frontend.kit_page.sheets import CHOICES, sheets_token
from frontend.views.kit import draft_of, page_of, parts_of, shown
from kits.planning.models import Draft
from kits.planning.queries import KitPage
from kits.sheets.files import kept
from kits.sheets.models import RenderRun
from kits.sheets.options import SheetOptions
from kits.sheets.renders import (
    RenderNotClosed,
    RenderOutdated,
    render_cancel,
    render_request,
    render_retry,
    renders_of,
)
from layouts.checks import proved_hashes
from layouts.models import JobState

__all__ = ["sheet_pdf", "sheet_picture", "sheets", "sheets_again", "sheets_cancel", "sheets_make"]


@require_safe
@for_team
def sheets(request: HttpRequest, code: str) -> HttpResponse:
    """How far the sheets are, asked every second while any are being made: 204 as long as no more is known than was
    `seen`."""
    if not HtmxDetails(request):
        return redirect(_section(code))
    runs = renders_of(proved_hashes(draft_of(code).subject))
    if request.GET.get("seen") == sheets_token(runs, timezone.now()):
        return HttpResponse(status=204)
    return _part(request, page_of(code))


@require_POST
@for_team
def sheets_make(request: HttpRequest, code: str) -> HttpResponse:
    """Ask for the sheets of the draft as it is, in the setting that was chosen."""
    options = _options_sent(request)
    page = page_of(code)
    proved = page.proved
    if proved is None or proved.proof is None or proved != page.run or proved.revision != page.draft.revision:
        sentence = "There is no proof of this draft as it is, so no sheets were made of it."
        if HtmxDetails(request):
            return _part(request, page, status=409, refusal=sentence)
        return shown(request, page, refusal=sentence, status=409)
    render_request(
        document=proved.document, proof=proved.proof, options=options, by=person_of(request), now=timezone.now()
    )
    return _part(request, page) if HtmxDetails(request) else redirect(_section(code))


@require_POST
@for_team
def sheets_cancel(request: HttpRequest, code: str, run: int) -> HttpResponse:
    """Call sheets off, if they are still being made."""
    render_cancel(run=_run_of(code, run).pk, by=person_of(request), now=timezone.now())
    return redirect(_section(code))


@require_POST
@for_team
def sheets_again(request: HttpRequest, code: str, run: int) -> HttpResponse:
    """Try sheets again that failed or were called off."""
    # Where somebody else was quicker, what was asked for is under way.
    with suppress(RenderNotClosed, RenderOutdated):
        render_retry(run=_run_of(code, run).pk, by=person_of(request), now=timezone.now())
    return redirect(_section(code))


@require_safe
@for_team
def sheet_pdf(request: HttpRequest, code: str, run: int, number: int) -> HttpResponse:
    """One of the files, to be kept."""
    made = _run_of(code, run)
    file = _file_of(made, number)
    # Letters, digits and hyphens, all of it: it needs no quoting.
    parts = [code, file["name"], made.page, made.unit]
    parts += [made.print] if made.print != "normal" else []
    parts += [made.cut] if made.cut != "trimmer" else []
    headers = {"Content-Disposition": f'attachment; filename="{"-".join(parts)}.pdf"'}
    return HttpResponse(_content(file["pdf"]), content_type="application/pdf", headers=headers)


@require_safe
@for_team
def sheet_picture(request: HttpRequest, code: str, run: int, number: int, page: int) -> HttpResponse:
    """A page of one of the files as a picture."""
    pictures = _file_of(_run_of(code, run), number)["pictures"]
    if not 1 <= page <= len(pictures):
        raise Http404
    return HttpResponse(_content(pictures[page - 1]), content_type="image/png")


def _part(request: HttpRequest, page: KitPage, *, status: int = 200, refusal: str = "") -> HttpResponse:
    context = {**parts_of(request, page), "sheets_refusal": refusal, "asked": True}
    return render(request, "frontend/kit/sheets_made.html", context, status=status)


def _section(code: str) -> str:
    return f"{reverse('kit', args=[code])}#sheets"


def _options_sent(request: HttpRequest) -> SheetOptions:
    chosen: dict[str, Any] = {choice.name: request.POST.get(choice.name, "") for choice in CHOICES}
    for choice in CHOICES:
        if chosen[choice.name] not in choice.words:
            raise BadRequest(f"{choice.name} is none of those to choose from")
    return SheetOptions(**chosen)


def _run_of(code: str, run: int) -> RenderRun:
    """Return a run, if it is of a document of this kit. Raises: Http404."""
    draft: Draft = draft_of(code)
    runs = RenderRun.objects.filter(pk=run, document_hash__in=proved_hashes(draft.subject))
    found = runs.defer("document", "proof").first()
    if found is None:
        raise Http404
    return found


def _file_of(run: RenderRun, number: int) -> dict[str, Any]:
    if run.state != JobState.DONE or not 1 <= number <= len(run.files):
        raise Http404
    file: dict[str, Any] = run.files[number - 1]
    return file


def _content(name: str) -> bytes:
    try:
        return kept(name).read_bytes()
    except FileNotFoundError:
        raise Http404 from None
