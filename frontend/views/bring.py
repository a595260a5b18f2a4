"""Bring prints, embellishment sheets, blanks, supplies and tools into a kit: from another one, or the catalogue."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from frontend.access import for_planners, person_of
from frontend.kit_page.contents import ContentGroup, content_groups
from frontend.requests import number_sent
from frontend.views.kit import page_of
from frontend.words.numbers import counted, listed
from inventory.models import CatalogueItem, ItemKind
from kits.planning.bringing import brought
from kits.planning.errors import DraftRefused, RevisionMoved
from kits.planning.models import Draft
from kits.planning.queries import KitPage, document_of
from kits.planning.services import items_bring, things_add

__all__ = ["bring"]

CATALOGUE = "catalogue:"  # no kit has a colon in its code
_TITLES = {
    ItemKind.PAPER: "Prints",
    ItemKind.PAD: "Pads",
    ItemKind.EMBELLISHMENT: "Embellishment sheets",
    ItemKind.BLANK: "Blanks",
    ItemKind.SUPPLY: "Supplies",
    ItemKind.TOOL: "Tools",
}


@dataclass(frozen=True, slots=True)
class Offer:
    """A thing that can be brought: `known` where the kit has one of this name already."""

    at: str
    name: str
    words: str
    known: bool
    ticked: bool


@dataclass(frozen=True, slots=True)
class Offers:
    title: str
    lines: tuple[Offer, ...]


@require_http_methods(["GET", "HEAD", "POST"])
@for_planners
def bring(request: HttpRequest, code: str) -> HttpResponse:
    """What another kit or the catalogue has, to be ticked; all that is ticked comes in one change."""
    page = page_of(code)
    asked = request.POST if request.method == "POST" else request.GET
    drafts = list(
        Draft.objects.filter(is_main=True).exclude(pk=page.draft.pk).select_related("kit").order_by("-kit__pk")
    )
    sources = [(draft.kit.code, draft.title) for draft in drafts]
    if CatalogueItem.objects.exists():
        sources.append((CATALOGUE, "the catalogue"))
    chosen = asked.get("from", "")
    chosen = chosen if chosen in dict(sources) else sources[0][0] if sources else ""
    draft = next((one for one in drafts if one.kit.code == chosen), None)
    ticked = frozenset(name.removeprefix("take.") for name in asked if name.startswith("take."))
    refusal, status = "", 200
    if request.method == "POST":
        if not ticked:
            refusal, status = "Nothing was brought: tick what should come.", 422
        else:
            try:
                return _brought(request, page, draft, ticked)
            except RevisionMoved as moved:
                refusal = f"{moved.by or 'Somebody'} changed this kit meanwhile. Your ticks are still here: send again."
                status = 409
            except DraftRefused as refused:
                refusal, status = f"{'; '.join(error.message for error in refused.errors)}.", 422
            page = page_of(code)
    context = {
        "room": "kits",
        "kit": page.kit,
        "draft": page.draft,
        "document": page.document,
        "sources": sources,
        "chosen": chosen,
        "offers": _of_kit(page, draft, ticked) if draft is not None else _of_catalogue(page, ticked) if chosen else (),
        "refusal": refusal,
    }
    return render(request, "frontend/kit/bring.html", context, status=status)


def _brought(request: HttpRequest, page: KitPage, source: Draft | None, ticked: Collection[str]) -> HttpResponse:
    """Add what is ticked, and say which ids are other ones now. Raises: RevisionMoved, DraftRefused."""
    revision, by = number_sent(request, "revision"), person_of(request)
    if source is None:
        keys = [int(one) for one in ticked if one.isascii() and one.isdigit() and len(one) < 10]
        items = list(CatalogueItem.objects.filter(pk__in=keys).order_by("kind", "name"))
        if items:
            items_bring(draft=page.draft, items=items, revision=revision, by=by)
        number, renamed = len(items), ""
    else:
        things = brought(page.document, document_of(source)[1], ticked)
        if things:
            things_add(draft=page.draft, things=things, revision=revision, by=by)
        number = len(things)
        others = [place.replace(":", " ", 1) for place, _ in things if place not in ticked and place[:4] != "pad:"]
        renamed = f" Their ids were taken here: they are {listed(others)} now." if others else ""
    has = "has" if number == 1 else "have"
    messages.success(request, f"{counted(number, 'thing')} {has} been brought in. The kit is being checked.{renamed}")
    return redirect(f"{reverse('kit', args=[page.kit.code])}#contents")


def _of_kit(page: KitPage, source: Draft, ticked: Collection[str]) -> tuple[Offers, ...]:
    here = {group.kind: {line.name.casefold() for line in group.lines} for group in _groups(page)}
    return tuple(
        Offers(
            group.title,
            tuple(
                Offer(line.place, line.name, line.words, line.name.casefold() in here[group.kind], line.place in ticked)
                for line in group.lines
            ),
        )
        for group in content_groups(document_of(source)[1], {})
        if group.lines
    )


def _of_catalogue(page: KitPage, ticked: Collection[str]) -> tuple[Offers, ...]:
    here = {group.kind: {line.name.casefold() for line in group.lines} for group in _groups(page)}
    items: Sequence[CatalogueItem] = list(CatalogueItem.objects.order_by("name"))
    found = []
    for kind, title in _TITLES.items():
        lines = tuple(
            Offer(str(item.pk), item.name, _facts(item), item.name.casefold() in here[kind], str(item.pk) in ticked)
            for item in items
            if item.kind == kind
        )
        if lines:
            found.append(Offers(title, lines))
    return tuple(found)


def _facts(item: CatalogueItem) -> str:
    size, kind = item.facts.get("size"), item.facts.get("kind")
    words = [" × ".join(size)] if size else []
    return "; ".join([*words, *([kind.replace("-", " ")] if kind else [])])


def _groups(page: KitPage) -> Sequence[ContentGroup]:
    return content_groups(page.document, {})
