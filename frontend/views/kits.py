"""The list of kits."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from frontend.access import for_team

__all__ = ["kits"]


@require_safe
@for_team
def kits(request: HttpRequest) -> HttpResponse:
    return render(request, "frontend/kits.html", {"room": "kits"})
