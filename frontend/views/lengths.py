"""What a length says: asked while one is typed, where no more than that is looked at."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from frontend.access import for_team
from frontend.kit_page.things.page import both
from frontend.views.kit import draft_of
from layouts.lengths import BadLength, parse_length

__all__ = ["length"]

_LONGEST = 40


@require_safe
@for_team
def length(request: HttpRequest, code: str) -> HttpResponse:
    """A length in both systems, as text; or why it is none."""
    unit = draft_of(code).unit
    text = request.GET.get("text", "").strip()[:_LONGEST]
    try:
        said = both(parse_length(text, "in" if unit == "in" else "mm")) if text else ""
    except BadLength as bad:
        said = str(bad)
    return HttpResponse(said, content_type="text/plain; charset=utf-8")
