"""Mending: one of the changes that a proof offers is made."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_POST

from frontend.access import for_planners, person_of
from frontend.requests import number_sent
from frontend.views.kit import current_proof, page_of, parts_of, shown
from frontend.words.places import Places
from kits.planning.errors import DraftRefused, MendOutdated, RevisionMoved
from kits.planning.services import mend_apply
from layouts.document import Change, UnknownPlace

__all__ = ["mend"]

# A finding's number in the proof and the mend's in its list, from 1.
_NUMBERS = re.compile(r"([1-9][0-9]{0,4})-([1-9][0-9]?)")

_GONE = "This kit was changed meanwhile, and what was offered may no longer mend it. This is how it is now."


@require_POST
@for_planners
def mend(request: HttpRequest, code: str) -> HttpResponse:
    """Change what a mend of the current proof changes."""
    page = page_of(code)
    offered = _offered(current_proof(parts_of(request, page)), request.POST.get("mend", ""))
    if offered is None:
        return shown(request, page, refusal=_GONE, status=409)
    changes = [Change.of(one) for one in offered["change"]]
    try:
        mend_apply(draft=page.draft, changes=changes, revision=number_sent(request, "revision"), by=person_of(request))
    except (RevisionMoved, MendOutdated, UnknownPlace, DraftRefused):
        return shown(request, page_of(code), refusal=_GONE, status=409)
    messages.success(request, f"Done: {offered['message']} You can undo it.")
    return redirect(f"{reverse('kit', args=[code])}#{Places(page.document).anchor(changes[0].at)}")


def _offered(proof: Mapping[str, Any] | None, numbers: str) -> dict[str, Any] | None:
    """The mend with these numbers, if the proof offers it."""
    asked = _NUMBERS.fullmatch(numbers)
    if proof is None or asked is None:
        return None
    finding, number = (int(one) - 1 for one in asked.groups())
    try:
        offered: dict[str, Any] = proof["findings"][finding]["mend"][number]
    except IndexError:
        return None
    return offered
