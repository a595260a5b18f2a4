"""Documents in and out: a draft replaced by one, draft and proof downloaded."""

from __future__ import annotations

from dataclasses import dataclass

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from frontend.access import for_planners, for_team, person_of
from frontend.requests import document_sent, number_sent
from frontend.views.kit import page_of
from kits.planning.errors import OtherKit, RevisionMoved
from kits.planning.queries import draft_bytes
from kits.planning.services import kit_replace
from layouts.document import DocumentError, Refused
from layouts.models import JobState

__all__ = ["Sent", "kit_document", "kit_proof", "kit_replace_view"]

# A document longer than this is not shown again for mending: no browser edits it with pleasure.
_LONGEST_SHOWN = 400_000  # characters


@dataclass(frozen=True, slots=True)
class Sent:
    """A form for a document: what was sent, as far as it can be shown again, and why it is refused."""

    text: str = ""
    too_long: bool = False
    errors: tuple[DocumentError, ...] = ()
    problem: str = ""

    @classmethod
    def refused(cls, document: bytes, *, errors: tuple[DocumentError, ...] = (), problem: str = "") -> Sent:
        text = document.decode(errors="replace")
        too_long = len(text) > _LONGEST_SHOWN
        return cls("" if too_long else text, too_long, errors, problem)


@require_http_methods(["GET", "HEAD", "POST"])
@for_planners
def kit_replace_view(request: HttpRequest, code: str) -> HttpResponse:
    """Put a document in the place of a draft, at the revision that was seen."""
    page = page_of(code)
    context = {"room": "kits", "kit": page.kit, "draft": page.draft, "document": page.document}
    if request.method != "POST":
        return render(request, "frontend/kit_replace.html", {**context, "sent": Sent()})
    document, revision, status = document_sent(request), number_sent(request, "revision"), 422
    if not document:
        sent = Sent(problem="Choose a file, or paste the document.")
    else:
        try:
            kit_replace(kit=page.kit, document=document, revision=revision, by=person_of(request))
        except Refused as refused:
            sent = Sent.refused(document, errors=refused.errors)
        except OtherKit as other:
            sent = Sent.refused(document, problem=f"{_capital(other.message)}. Upload it as a new kit instead.")
        except RevisionMoved as moved:
            sentence = (
                f"{moved.by or 'Somebody'} changed this kit after you came here: it was at revision {moved.sent}, "
                f"it is at {moved.revision} now. Send the document again to replace that, too."
            )
            sent, status = Sent.refused(document, problem=sentence), 409
        else:
            messages.success(request, "The draft has been replaced, and is being checked.")
            return redirect("kit", code)
    return render(request, "frontend/kit_replace.html", {**context, "sent": sent}, status=status)


@require_safe
@for_team
def kit_document(request: HttpRequest, code: str) -> HttpResponse:
    """The draft as a kit document in canonical form."""
    page = page_of(code)
    return _file(draft_bytes(page.draft), f"{page.kit.code}.json")


@require_safe
@for_team
def kit_proof(request: HttpRequest, code: str) -> HttpResponse:
    """The proof of the draft as it is; 404 while there is none."""
    page = page_of(code)
    if page.run is None or page.run.state != JobState.DONE or page.run.proof is None:
        raise Http404
    return _file(page.run.proof.encode(), f"{page.kit.code}-proof.json")


def _file(content: bytes, name: str) -> HttpResponse:
    # The code of a kit is letters, digits and hyphens: it needs no quoting.
    headers = {"Content-Disposition": f'attachment; filename="{name}"'}
    return HttpResponse(content, content_type="application/json", headers=headers)


def _capital(sentence: str) -> str:
    return sentence[:1].upper() + sentence[1:]
