"""The first page: the team starts at its months, a member at the kits they own."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_safe

from frontend.access import for_everybody, roles_in
from kits.members.models import Role

__all__ = ["home"]


@require_safe
@for_everybody
def home(request: HttpRequest) -> HttpResponse:
    if roles_in(request) - {Role.MEMBER}:
        return redirect("months")
    return render(request, "frontend/home.html")
