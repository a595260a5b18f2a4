"""What was changed in a kit, by whom and when; changes made again, and earlier states brought back."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import BadRequest
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from frontend.access import for_planners, for_team, person_of
from frontend.requests import number_sent
from frontend.views.kit import page_of, shown
from frontend.words.changes import change_words, history_lines
from frontend.words.places import Places
from kits.planning.errors import NothingToRedo, NothingToUndo, OthersChange, RevisionMoved
from kits.planning.models import Draft
from kits.planning.queries import history_of
from kits.planning.services import draft_redo, draft_restore

__all__ = ["history", "history_restore", "redo"]


@require_safe
@for_team
def history(request: HttpRequest, code: str) -> HttpResponse:
    """All changes of a kit, newest first, page by page."""
    return _history(request, code)


@require_POST
@for_planners
def history_restore(request: HttpRequest, code: str) -> HttpResponse:
    """Bring the kit back to how it was at a revision."""
    draft, to = page_of(code).draft, number_sent(request, "to")
    try:
        draft_restore(draft=draft, to=to, revision=number_sent(request, "revision"), by=person_of(request))
    except RevisionMoved as moved:
        sentence = f"{moved.by or 'Somebody'} changed this kit meanwhile: nothing has been brought back. Look again."
        return _history(request, code, refusal=sentence, status=409)
    except NothingToUndo:
        return _history(request, code, refusal=f"Revision {to} cannot be brought back: it is not kept.", status=409)
    messages.success(request, f"This kit is again as it was at revision {to}. Undo brings back what it was before.")
    return redirect("kit", code)


@require_POST
@for_planners
def redo(request: HttpRequest, code: str) -> HttpResponse:
    """Make the change again that was undone last."""
    page = page_of(code)
    try:
        draft_redo(draft=page.draft, revision=number_sent(request, "revision"), by=person_of(request))
    except RevisionMoved as moved:
        sentence = (
            f"{moved.by or 'Somebody'} changed this kit meanwhile: nothing has been redone. This is how it is now."
        )
        return shown(request, page_of(code), refusal=sentence, status=409)
    except OthersChange as others:
        sentence = f"{others.by} undid it: only they can redo it. You can change the value itself."
        return shown(request, page_of(code), refusal=sentence, status=409)
    except (NothingToRedo, NothingToUndo):
        return shown(request, page_of(code), refusal="There is nothing left to redo.", status=409)
    change = page.redo.undoes if page.redo is not None else None
    if change is None:
        return redirect("kit", code)
    messages.success(request, f"Redone: {change_words(change, page.document)}.")
    return redirect(f"{reverse('kit', args=[code])}#{Places(page_of(code).document).anchor(change.place)}")


def _history(request: HttpRequest, code: str, *, refusal: str = "", status: int = 200) -> HttpResponse:
    below = request.GET.get("below", "")
    if below and not (below.isascii() and below.isdigit() and len(below) < 10):
        raise BadRequest("below is no number")
    try:
        found = history_of(code, below=int(below) if below else None)
    except Draft.DoesNotExist:
        raise Http404 from None
    context = {
        "room": "kits",
        "kit": found.draft.kit,
        "draft": found.draft,
        "document": found.document,
        "lines": history_lines(found.changes, found.document, found.draft.revision),
        "earlier": found.earlier,
        "below": below,
        "refusal": refusal,
    }
    return render(request, "frontend/kit/history.html", context, status=status)
