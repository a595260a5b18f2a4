"""What stands beside a form: what the check says of the thing that is changed, followed while it is open."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest
from django.urls import reverse

from frontend.kit_page.things.about import about_thing
from frontend.views.kit import parts_of
from kits.planning.queries import KitPage

__all__ = ["beside_thing"]


def beside_thing(request: HttpRequest, page: KitPage, place: str) -> dict[str, Any]:
    """Return what a page shares with the kit's, and what a check says of a thing: its findings and its prints."""
    parts = parts_of(request, page)
    about = about_thing(page.document, place, parts["said"], parts["papers"])
    return {**parts, "about": about, "check_url": reverse("thing-check", args=[page.kit.code, place])}
