"""Mending: one of the changes that a proof offers, mends and ideas, is made."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
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

# A finding's number in the proof and the mend's in its list, from 1; or a print and the number of one of its ideas.
_MEND = re.compile(r"([1-9][0-9]{0,4})-([1-9][0-9]?)")
_IDEA = re.compile(r"idea-([A-Za-z0-9][A-Za-z0-9-]{0,31})-([1-9][0-9]?)")

_GONE = "This kit was changed meanwhile, and what was offered may no longer mend it. This is how it is now."


@require_POST
@for_planners
def mend(request: HttpRequest, code: str) -> HttpResponse:
    """Change what a mend or an idea of the current proof changes."""
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


def _offered(proof: Mapping[str, Any] | None, asked: str) -> Mapping[str, Any] | None:
    """The mend or the idea that is asked for, if the proof offers it."""
    if proof is None:
        return None
    offers: Sequence[Mapping[str, Any]] = ()
    mend, idea = _MEND.fullmatch(asked), _IDEA.fullmatch(asked)
    if mend is not None:
        finding = int(mend[1]) - 1
        offers = proof["findings"][finding]["mend"] if finding < len(proof["findings"]) else ()
    elif idea is not None:
        offers = next((one.get("ideas", ()) for one in proof["papers"] if one["paper"] == idea[1]), ())
    found = mend or idea
    number = 0 if found is None else int(found[2])
    return offers[number - 1] if 1 <= number <= len(offers) else None
