"""Pictures of prints: put there, taken away, and shown to the team alone."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from frontend.access import for_planners, for_team, person_of
from frontend.views.kit import draft_of
from kits.planning.errors import BadPicture
from kits.planning.models import SIDES, PrintPicture
from kits.planning.services import picture_remove, picture_set
from kits.sheets.files import is_kept, kept

__all__ = ["addresses_of", "print_picture"]

_MOST_READ = 8 * 1024 * 1024 + 1


@require_http_methods(["GET", "HEAD", "POST"])
@for_team
def print_picture(request: HttpRequest, code: str, paper: str, side: str) -> HttpResponse:
    """The picture of one side of a print; sent a file, that one; sent `do=remove`, none."""
    if side not in SIDES:
        raise Http404
    if request.method == "POST":
        return _changed(request, code=code, paper=paper, side=side)
    found = PrintPicture.objects.filter(kit=draft_of(code).kit, paper=paper, side=side).first()
    if found is None or not is_kept(found.file):
        raise Http404
    return HttpResponse(kept(found.file).read_bytes(), content_type="image/jpeg")


@for_planners
def _changed(request: HttpRequest, *, code: str, paper: str, side: str) -> HttpResponse:
    kit, by = draft_of(code).kit, person_of(request)
    back = redirect(f"{reverse('thing', args=[code, f'paper:{paper}'])}#picture")
    if request.POST.get("do") == "remove":
        picture_remove(kit=kit, paper=paper, side=side, by=by)
        return back
    file = request.FILES.get("file")
    try:
        picture_set(kit=kit, paper=paper, side=side, content=b"" if file is None else file.read(_MOST_READ), by=by)
    except BadPicture as bad:
        messages.error(request, f"The picture was not taken: {bad}.")
    return back


def addresses_of(code: str, paper: str) -> dict[str, str]:
    """Return the addresses of the pictures of a print by their side; each changes with what is in it."""
    found = PrintPicture.objects.filter(kit__code__iexact=code, paper=paper)
    return {one.side: f"{reverse('print-picture', args=[code, paper, one.side])}?{one.file[:12]}" for one in found}
