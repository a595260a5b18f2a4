"""Test builds: records of somebody who made a kit from its sheets alone, with their photographs."""

from __future__ import annotations

from dataclasses import dataclass

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from frontend.access import for_team, person_of
from frontend.views.kit import draft_of, page_of
from kits.planning.errors import BadPicture, BadRecord, NotAllowed, PlannedIt
from kits.planning.models import TestBuild, TestBuildPhoto
from kits.planning.queries import KitPage, history_of
from kits.planning.reviews import builds_of
from kits.planning.services import build_add_photos, build_record
from kits.planning.services.test_builds import MOST_PHOTOS, planned_it
from kits.sheets.files import is_kept, kept
from layouts.document import document_hash

__all__ = ["build_photo", "build_photos", "builds"]

_FIELDS = ("revision", "unit", "tools", "minutes", "deviations")
_MOST_READ = 8 * 1024 * 1024 + 1
_LAST_STATES = 30


@dataclass(frozen=True, slots=True)
class Record:
    """A test build as it is shown; `is_current`: it was made of the document as it is now."""

    build: TestBuild
    photos: tuple[TestBuildPhoto, ...]
    is_current: bool
    is_mine: bool


@require_http_methods(["GET", "HEAD", "POST"])
@for_team
def builds(request: HttpRequest, code: str) -> HttpResponse:
    """The test builds of a kit, and the form of a new one."""
    page = page_of(code)
    if request.method != "POST":
        return _builds(request, page, {"revision": str(page.draft.revision), "unit": page.document.unit})
    typed = {name: request.POST.get(name, "") for name in _FIELDS}
    try:
        build = build_record(
            draft=page.draft,
            revision=_number(typed["revision"]) or 0,
            unit=typed["unit"],
            tools=typed["tools"],
            minutes=_number(typed["minutes"]),
            deviations=typed["deviations"],
            by=person_of(request),
        )
    except PlannedIt:
        refusal = "You planned this kit: somebody who did not makes it from the sheets alone. Nothing was recorded."
        return _builds(request, page, typed, refusal=refusal, status=403)
    except BadRecord as bad:
        return _builds(
            request, page, typed, wrong={bad.field: f"{bad.sentence[0].upper()}{bad.sentence[1:]}."}, status=422
        )
    messages.success(request, "The test build is recorded. You can add photographs to it.")
    return redirect(f"{request.path}#build-{build.pk}")


@require_POST
@for_team
def build_photos(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Add photographs to a record of one's own."""
    build = get_object_or_404(TestBuild, pk=number, kit=draft_of(code).kit)
    files = [file.read(_MOST_READ) for file in request.FILES.getlist("file")[: MOST_PHOTOS + 1]]
    try:
        build_add_photos(build=build, photos=files, by=person_of(request))
    except NotAllowed:
        raise PermissionDenied("Photographs are added by whoever made the kit.") from None
    except BadPicture as bad:
        messages.error(request, f"No photograph was added: {bad}.")
    return redirect("kit-builds", code)


@require_safe
@for_team
def build_photo(request: HttpRequest, code: str, number: int, photo: int) -> HttpResponse:
    """One photograph, for the team alone."""
    found = TestBuildPhoto.objects.filter(build=number, build__kit=draft_of(code).kit, number=photo).first()
    if found is None or not is_kept(found.file):
        raise Http404
    answer = HttpResponse(kept(found.file).read_bytes(), content_type="image/jpeg")
    answer.headers["X-Content-Type-Options"] = "nosniff"
    return answer


def _builds(
    request: HttpRequest,
    page: KitPage,
    typed: dict[str, str],
    *,
    refusal: str = "",
    wrong: dict[str, str] | None = None,
    status: int = 200,
) -> HttpResponse:
    now, person = document_hash(page.document), person_of(request)
    records = [
        Record(one, tuple(one.photos.all()), one.document_hash == now, one.by_id == person.pk)
        for one in builds_of(page.kit)
    ]
    states = [(str(one.revision), one.at) for one in history_of(page.kit.code, most=_LAST_STATES).changes]
    context = {
        "room": "kits",
        "kit": page.kit,
        "draft": page.draft,
        "document": page.document,
        "records": records,
        "is_built": any(one.is_current for one in records),
        "planned": planned_it(page.draft, person),
        "states": states,
        "typed": typed,
        "wrong": wrong or {},
        "refusal": refusal,
        "most_photos": MOST_PHOTOS,
    }
    return render(request, "frontend/kit/builds.html", context, status=status)


def _number(text: str) -> int | None:
    plain = text.strip()
    return int(plain) if plain.isascii() and plain.isdigit() and len(plain) < 10 else None
