"""Checks and undoing: what is asked of a draft as a whole."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_POST

from frontend.access import for_checkers, for_planners, person_of
from frontend.requests import number_sent
from frontend.views.kit import page_of, shown
from frontend.words.changes import change_words, value_words
from frontend.words.places import Places
from kits.planning.errors import NothingToUndo, OthersChange, RevisionMoved
from kits.planning.services import draft_check, draft_undo
from layouts.checks import CheckNotClosed, CheckOutdated, check_cancel, check_retry

__all__ = ["check_again", "check_cancel_view", "undo"]


@require_POST
@for_checkers
def check_again(request: HttpRequest, code: str) -> HttpResponse:
    """Try the newest check again if it failed or was called off; ask for a first one where there is none."""
    page = page_of(code)
    try:
        if page.run is None:
            draft_check(draft=page.draft, by=person_of(request))
        else:
            check_retry(run=page.run.pk, by=person_of(request), now=timezone.now())
    except (CheckNotClosed, CheckOutdated):
        pass  # somebody else was quicker: what was asked for is under way
    return redirect("kit", code)


@require_POST
@for_checkers
def check_cancel_view(request: HttpRequest, code: str) -> HttpResponse:
    """Call off the check that was seen, if it is still the newest and still open."""
    page = page_of(code)
    if page.run is not None and page.run.pk == number_sent(request, "run"):
        check_cancel(run=page.run.pk, by=person_of(request), now=timezone.now())
    return redirect("kit", code)


@require_POST
@for_planners
def undo(request: HttpRequest, code: str) -> HttpResponse:
    """Take the last change back."""
    page = page_of(code)
    try:
        draft_undo(draft=page.draft, revision=number_sent(request, "revision"), by=person_of(request))
    except RevisionMoved as moved:
        sentence = (
            f"{moved.by or 'Somebody'} changed this kit meanwhile: nothing has been undone. This is how it is now."
        )
        return shown(request, page_of(code), refusal=sentence, status=409)
    except OthersChange as others:
        unit = page.document.unit
        what = f"{value_words(others.before, unit)} to {value_words(others.after, unit)}"
        sentence = (
            f"The last change is {others.by}’s ({Places(page.document).short(others.place)}: {what}). "
            "Only they can take it back; you can change the value itself."
        )
        return shown(request, page_of(code), refusal=sentence, status=409)
    except NothingToUndo:
        return shown(request, page_of(code), refusal="There is nothing left to undo.", status=409)
    if page.undo is None:
        return redirect("kit", code)
    messages.success(request, f"Undone: {change_words(page.undo, page.document)}.")
    return redirect(f"{reverse('kit', args=[code])}#{Places(page.document).anchor(page.undo.place)}")
