"""The team's library of parts: what was kept of kits, looked at, used in another kit, kept anew and forgotten."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import cycle
from typing import Any

from django.contrib import messages
from django.core.exceptions import BadRequest
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from frontend.access import for_planners, for_team, person_of
from frontend.kit_page.things.pictures import Picture, picture_of
from frontend.requests import number_sent
from frontend.views.kit import page_of
from frontend.words.numbers import counted, listed
from kits.planning.errors import DraftRefused, NameTaken, NoName, RevisionMoved
from kits.planning.fragments import Fragment, fragment_of, used
from kits.planning.models import Draft, Part
from kits.planning.models import Project as ProjectRow
from kits.planning.queries import document_of
from kits.planning.services import part_forget, part_keep, part_use
from layouts.document import Kit, Project, UnknownPlace, paper_place

__all__ = ["part", "part_forget_view", "part_keep_view", "parts"]

_KINDS = {"piece": "piece", "form": "folded part", "blank": "blank"}


@dataclass(frozen=True, slots=True)
class Kept:
    """A part in the list: what it is, what is in it, and what it looks like."""

    part: Part
    kind: str
    holds: str
    picture: Picture


@dataclass(frozen=True, slots=True)
class Role:
    """A print of a part, and which print of the kit it may be there; none: it comes along."""

    id: str
    name: str
    chosen: str
    choices: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Coming:
    """A thing of a part, and what it would be in the kit."""

    kind: str
    id: str
    name: str
    becomes: str
    is_there: bool


@require_safe
@for_team
def parts(request: HttpRequest) -> HttpResponse:
    """All that the team has kept, by name."""
    kept = [_kept(one) for one in Part.objects.select_related("kit", "by")]
    return render(request, "frontend/parts.html", {"room": "parts", "kept": kept})


@require_http_methods(["GET", "HEAD", "POST"])
@for_team
def part(request: HttpRequest, number: int) -> HttpResponse:
    """One part; planners choose where it is used, look at what it would be called there, and add it."""
    found = get_object_or_404(Part.objects.select_related("kit", "by"), pk=number)
    if request.method == "POST":
        return _used(request, found)
    return _shown(request, found, request.GET.get("into", ""))


@for_planners
def _used(request: HttpRequest, found: Part) -> HttpResponse:
    into = request.POST.get("into", "")
    draft, kit, project = _target(into)
    prints = {paper.id: request.POST.get(f"print.{paper.id}", "") for paper in found.fragment.kit.papers}
    known = {paper.id for paper in kit.papers} | {""}
    if not set(prints.values()) <= known:
        raise BadRequest("the kit has no such print")
    if request.POST.get("do") == "look":
        return _shown(request, found, into, prints)
    try:
        called = part_use(
            part=found,
            draft=draft,
            project=project.id,
            prints=prints,
            revision=number_sent(request, "revision"),
            by=person_of(request),
        )
    except RevisionMoved as moved:
        sentence = (
            f"{moved.by or 'Somebody'} changed that kit meanwhile, and nothing was added yet. "
            "Below is what would come now: add it if it is right."
        )
        return _shown(request, found, into, prints, refusal=sentence, status=409)
    except DraftRefused as refused:
        sentence = f"{'; '.join(error.message for error in refused.errors)}."
        return _shown(request, found, into, prints, refusal=sentence, status=422)
    messages.success(request, f"“{found.name}” has been added to {project.title}. The kit is being checked.")
    place = called[found.place]
    return redirect("thing", draft.kit.code, place)


@require_http_methods(["GET", "HEAD", "POST"])
@for_planners
def part_keep_view(request: HttpRequest, code: str, place: str) -> HttpResponse:
    """Keep a thing of a kit: what would be kept, under which name, with which note."""
    page = page_of(code)
    try:
        fragment = fragment_of(page.document, place)
    except UnknownPlace:
        raise Http404 from None
    typed = {"name": request.POST.get("name", ""), "note": request.POST.get("note", "")}
    refusal, status = "", 200
    if request.method == "POST":
        try:
            kept = part_keep(draft=page.draft, place=place, by=person_of(request), **typed)
        except NoName:
            refusal, status = "Give it a name under which the team finds it again.", 422
        except NameTaken as taken:
            refusal, status = f"There is already a part called “{taken.name}”: choose another name.", 422
        else:
            messages.success(request, f"“{kept.name}” is kept. What becomes of it in this kit changes nothing there.")
            return redirect("part", kept.pk)
    context = {
        "room": "kits",
        "kit": page.kit,
        "draft": page.draft,
        "document": page.document,
        "place": place,
        "typed": typed,
        "refusal": refusal,
        "holds": _holds(fragment),
        "picture": picture_of(page.document, place),
        "called": _name(fragment),
    }
    return render(request, "frontend/kit/keep.html", context, status=status)


@require_http_methods(["POST"])
@for_planners
def part_forget_view(request: HttpRequest, number: int) -> HttpResponse:
    """Take a part out of the library."""
    found = get_object_or_404(Part, pk=number)
    part_forget(part=found, by=person_of(request))
    messages.success(request, f"“{found.name}” is forgotten. Kits that used it keep what they made of it.")
    return redirect("parts")


def _shown(
    request: HttpRequest,
    found: Part,
    into: str,
    prints: Mapping[str, str] | None = None,
    *,
    refusal: str = "",
    status: int = 200,
) -> HttpResponse:
    drafts = list(Draft.objects.filter(is_main=True).select_related("kit").order_by("-kit__pk"))
    titles = {draft.pk: draft for draft in drafts}
    rows = ((titles[one["draft"]], one) for one in _projects())
    targets = [
        (f"{draft.kit.code}/{one['ident']}", f"{draft.kit.code} {draft.title}: {one['title']}") for draft, one in rows
    ]
    context: dict[str, Any] = {
        "room": "parts",
        "kept": _kept(found),
        "targets": targets,
        "into": into,
        "refusal": refusal,
    }
    if into:
        draft, kit, project = _target(into)
        roles = _roles(found.fragment.kit, kit, prints)
        use = used(found.fragment, kit, project, {role.id: role.chosen for role in roles})
        context |= {"draft": draft, "prints": roles, "coming": _coming(found.fragment.kit, use.called, kit)}
    return render(request, "frontend/part.html", context, status=status)


def _projects() -> list[dict[str, Any]]:
    rows = ProjectRow.objects.filter(draft__is_main=True).order_by("-draft__kit__pk", "position")
    return [dict(row) for row in rows.values("draft", "ident", "title")]


def _target(into: str) -> tuple[Draft, Kit, Project]:
    """The kit and the project that a part would come into. Raises: Http404."""
    code, _, id_ = into.partition("/")
    draft = get_object_or_404(Draft, kit__code__iexact=code, is_main=True)
    draft, kit = document_of(draft)
    project = next((one for one in kit.projects if one.id == id_), None)
    if project is None:
        raise Http404
    return draft, kit, project


def _roles(part: Kit, kit: Kit, prints: Mapping[str, str] | None) -> tuple[Role, ...]:
    """The prints of a part; to begin with, each is the print of the kit that is called alike, or else one in turn."""
    choices = (("", "bring it along"), *((paper.id, paper.name) for paper in kit.papers))
    called = {one.name.casefold(): one.id for one in reversed(kit.papers)}
    alike = {paper.id: called[paper.name.casefold()] for paper in part.papers if paper.name.casefold() in called}
    # What was of two prints is of two again, as far as there are others.
    ids = [one.id for one in kit.papers]
    others = cycle([one for one in ids if one not in alike.values()] or ids or [""])
    roles = []
    for paper in part.papers:
        first = alike.get(paper.id) or next(others)
        roles.append(Role(paper.id, paper.name, first if prints is None else prints.get(paper.id, ""), choices))
    return tuple(roles)


def _coming(part: Kit, called: Mapping[str, str], kit: Kit) -> tuple[Coming, ...]:
    names = _names(part)
    there = set(_names(kit)) | {paper_place(paper.id) for paper in kit.papers}
    return tuple(
        Coming(kind, id_, names[place], to.rpartition(":")[2], to in there)
        for place, to in called.items()
        if place in names
        for kind, _, id_ in (place.rpartition("/")[2].partition(":"),)
    )


def _names(kit: Kit) -> dict[str, str]:
    """What the things of a kit are called, by their places."""
    names = {f"paper:{one.id}": one.name for one in kit.papers}
    names |= {f"embellishment:{one.id}": one.name for one in kit.embellishments}
    names |= {f"blank:{one.id}": one.name for one in kit.blanks}
    names |= {f"supply:{one.id}": one.name for one in kit.supplies}
    names |= {f"tool:{one.id}": one.name or one.id for one in kit.tools}
    for project in kit.projects:
        names |= {f"project:{project.id}/piece:{one.id}": one.name for one in project.pieces}
        names |= {f"project:{project.id}/form:{one.id}": one.name for one in project.forms}
        names |= {f"project:{project.id}/placement:{one.id}": "" for one in project.placements}
    return names


def _kept(found: Part) -> Kept:
    fragment = found.fragment
    return Kept(found, _KINDS[found.kind], _holds(fragment), picture_of(fragment.kit, fragment.place))


def _name(fragment: Fragment) -> str:
    return _names(fragment.kit).get(fragment.place, "")


def _holds(fragment: Fragment) -> str:
    """What a part holds beside the thing itself, counted."""
    kit = fragment.kit
    own = fragment.place.rpartition("/")[2].partition(":")[0]
    made = {
        "piece": sum(len(one.pieces) for one in kit.projects),
        "folded part": sum(len(one.forms) for one in kit.projects),
        "blank": len(kit.blanks),
        "print": len(kit.papers),
        "embellishment sheet": len(kit.embellishments),
        "placement": sum(len(one.placements) for one in kit.projects),
    }
    made[_KINDS[own]] -= 1
    return listed([counted(number, words) for words, number in made.items() if number])
