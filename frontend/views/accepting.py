"""Findings that an editor lets stand, and takes up again."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_POST

from frontend.access import for_editors, person_of
from frontend.kit_page.findings import Accepting, finding_name
from frontend.requests import number_sent
from frontend.views.kit import current_proof, page_of, parts_of, shown
from kits.planning.errors import NoReason, NotAccepted, RevisionMoved
from kits.planning.queries import KitPage
from kits.planning.services import finding_accept, finding_recall
from layouts.proofing.findings import why_hash

__all__ = ["accept", "recall"]

_GONE = "This kit was changed meanwhile, and its findings with it. This is how it is now: nothing has been accepted."


@require_POST
@for_editors
def accept(request: HttpRequest, code: str) -> HttpResponse:
    """Let a finding of the current proof stand, for a reason."""
    page, number, because = page_of(code), number_sent(request, "finding"), request.POST.get("because", "")
    finding = _finding(request, page, number)
    if finding is None:
        return _again(request, page_of(code), Accepting(number, because), _GONE, 409)
    try:
        finding_accept(
            draft=page.draft,
            **_named(finding),
            because=because,
            revision=number_sent(request, "revision"),
            by=person_of(request),
        )
    except NoReason:
        return _again(request, page, Accepting(number, because, "Say why it may stand."), "", 422)
    except RevisionMoved:
        return _again(request, page_of(code), Accepting(number, because), _GONE, 409)
    messages.success(request, "Accepted. It counts again as soon as its facts change.")
    return redirect(f"{reverse('kit', args=[code])}#findings")


@require_POST
@for_editors
def recall(request: HttpRequest, code: str) -> HttpResponse:
    """Let a finding count again that was accepted."""
    page, number = page_of(code), number_sent(request, "finding")
    finding = _finding(request, page, number)
    try:
        if finding is None:
            raise NotAccepted("it is not among the findings")
        finding_recall(
            draft=page.draft, **_named(finding), revision=number_sent(request, "revision"), by=person_of(request)
        )
    except (NotAccepted, RevisionMoved):
        sentence = "This kit was changed meanwhile, and its findings with it. This is how it is now."
        return shown(request, page_of(code), refusal=sentence, status=409)
    messages.success(request, "The finding counts again.")
    return redirect(f"{reverse('kit', args=[code])}#{finding_name(number)}")


def _again(request: HttpRequest, page: KitPage, accepting: Accepting, refusal: str, status: int) -> HttpResponse:
    """Show the page with the reason that was typed, still open to be sent."""
    return shown(request, page, accepting=accepting, refusal=refusal, status=status)


def _finding(request: HttpRequest, page: KitPage, number: int) -> Mapping[str, Any] | None:
    proof = current_proof(parts_of(request, page))
    findings = [] if proof is None else proof["findings"]
    return findings[number - 1] if 1 <= number <= len(findings) else None


def _named(finding: Mapping[str, Any]) -> dict[str, Any]:
    return {"rule": finding["rule"], "at": finding["at"], "why": why_hash(finding["why"])}
