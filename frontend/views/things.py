"""One thing of a kit as a form: saved value by value while it is open, added, copied, moved, renamed and removed."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.contrib import messages
from django.core.exceptions import BadRequest
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_safe
from django_htmx.http import reselect, reswap, retarget
from django_htmx.middleware import HtmxDetails

from frontend.access import for_planners, for_team, person_of
from frontend.kit_page.checks import check_token
from frontend.kit_page.grid import free_letters
from frontend.kit_page.things.examples import construction_examples
from frontend.kit_page.things.folding import CONSTRUCTIONS
from frontend.kit_page.things.kinds import KIT
from frontend.kit_page.things.leaves import leaf_figures
from frontend.kit_page.things.merging import merged
from frontend.kit_page.things.nameable import Named, nameable
from frontend.kit_page.things.page import Form, Thing, thing_at, thing_in
from frontend.kit_page.things.pictures import Picture, picture_of
from frontend.kit_page.things.starting import free_id, started, taken_ids
from frontend.kit_page.things.texts import Read, Texts
from frontend.kit_page.things.trying import path_in, place_of, tried, wrong_at
from frontend.kit_page.things.wording import referred
from frontend.requests import number_sent
from frontend.views.beside import beside_thing
from frontend.views.kit import draft_of, page_of
from frontend.views.pictures import addresses_of
from frontend.views.reviews import beside_place
from frontend.words.numbers import counted
from frontend.words.places import Places
from kits.members.models import Person
from kits.planning.errors import DraftRefused, FieldError, IdTaken, RenameUnclear, RevisionMoved, StillNamed
from kits.planning.models import SIDES, Draft
from kits.planning.queries import KitPage, state_at
from kits.planning.services import (
    id_rename,
    kit_write,
    thing_add,
    thing_copy,
    thing_move,
    thing_remove,
    thing_write,
)
from layouts.checks import checks_of
from layouts.document import Kit, Refused, UnknownPlace
from layouts.document.refusal import DocumentError

__all__ = ["thing", "thing_check", "thing_new"]

# Somebody else may change the kit again while a change is put together with theirs.
_TRIES = 3


@dataclass(frozen=True, slots=True)
class _Sent:
    """What a form of a thing sent: what to do, and on what, the texts of its controls, the revision it was read at."""

    do: str
    on: str
    texts: Texts
    revision: int

    @classmethod
    def of(cls, request: HttpRequest) -> _Sent:
        do, _, on = request.POST.get("do", "save").partition(":")
        texts = {name: tuple(map(str, texts)) for name, texts in request.POST.lists() if name not in _NO_VALUES}
        if do == "drop":
            texts = {name: typed for name, typed in texts.items() if not name.startswith(f"{on}/")}
        if do == "refer":
            at, _, reference = on.partition(":")
            written = "".join(texts.get("text", ())).replace("\r\n", "\n").strip()
            start = int(at) if at.isascii() and at.isdigit() and len(at) < 7 else -1
            texts["text"] = (referred(written, start, reference),)
        return cls(do, on, texts, number_sent(request, "revision"))


_NO_VALUES = {"csrfmiddlewaretoken", "revision", "do", "to"}


@require_http_methods(["GET", "HEAD", "POST"])
@for_team
def thing(request: HttpRequest, code: str, place: str) -> HttpResponse:
    """The form of a thing. Who only reads sees what stands in it; a planner's changes are saved one by one."""
    page = page_of(code)
    found = _found(page.document, place)
    if request.method != "POST":
        return _shown(request, page, found.form(found.texts))
    return _changed_by_planner(request, code=code, place=place)


@for_planners
def _changed_by_planner(request: HttpRequest, *, code: str, place: str) -> HttpResponse:
    page, sent = page_of(code), _Sent.of(request)
    if sent.do == "look":
        return _looked(request, page, _found(page.document, place), sent)
    if sent.do in ("save", "drop", "refer"):
        return _saved(request, page, place, sent)
    if sent.do in _DOINGS:
        return _done(request, page, place, sent)
    raise BadRequest("nothing of this name is done with a thing")


@require_http_methods(["GET", "HEAD", "POST"])
@for_planners
def thing_new(request: HttpRequest, code: str, kind: str, project: str = "") -> HttpResponse:
    """The form of a thing that is to be added; a folded part begins with its construction, `as`."""
    page = page_of(code)
    chosen = request.POST.get("as", request.GET.get("as", ""))
    if kind == "form" and chosen not in CONSTRUCTIONS:
        return render(
            request,
            "frontend/kit/constructions.html",
            _common(page) | {"project": project, "constructions": construction_examples()},
        )
    owner = next((one for one in page.document.projects if one.id == project), None)
    id_, plain = started(page.document, owner, kind, chosen)
    try:
        fresh = thing_in(page.document, project, kind, id_, plain)
    except UnknownPlace:
        raise Http404 from None
    if request.method != "POST":
        there = {name: (request.GET[name],) for name in ("on", "skin") if kind == "placement" and name in request.GET}
        return _shown(request, page, fresh.form({**fresh.texts, **there}), is_new=True, id=id_)
    sent = _Sent.of(request)
    typed = request.POST.get("to", "").strip()
    fresh = thing_in(page.document, project, kind, typed or id_, plain)
    if sent.do == "look":
        return _looked(request, page, fresh, sent, is_new=True)
    if sent.do in ("drop", "refer"):
        return _shown(request, page, fresh.form(sent.texts), is_new=True, id=typed)
    return _added(request, page, fresh, sent, typed)


@require_safe
@for_team
def thing_check(request: HttpRequest, code: str, place: str) -> HttpResponse:
    """What a check says of a thing, asked every second while one is open: 204 as long as no more is known."""
    draft = draft_of(code)
    run = checks_of([draft.subject]).get(draft.subject)
    if request.GET.get("seen") == check_token(run, timezone.now()):
        return HttpResponse(status=204)
    page = page_of(code)
    return render(request, "frontend/kit/thing_checked.html", beside_thing(request, page, place))


def _looked(request: HttpRequest, page: KitPage, found: Thing, sent: _Sent, *, is_new: bool = False) -> HttpResponse:
    """What a thing would be as it is typed: nothing is saved, and what is wrong is only said where it was typed."""
    read = found.read(sent.texts)
    wrong: dict[str, str] = {}
    picture = None
    try:
        picture = _picture(page, tried(page.document, found.place, read.thing), found.place)
    except Refused as refused:
        wrong = _wrong(found, read, wrong_at(refused, path_in(page.document, found.place)))
    form = found.form(sent.texts, {name: said for name, said in wrong.items() if "".join(sent.texts.get(name, ()))})
    return render(request, "frontend/kit/thing_looked.html", {"form": form, "picture": picture, "is_new": is_new})


def _saved(request: HttpRequest, page: KitPage, place: str, sent: _Sent) -> HttpResponse:
    """Save what was typed; what somebody else changed meanwhile stays, unless both changed the same value."""
    draft, revision = page.draft, sent.revision
    for _ in range(_TRIES):
        found = _found(page.document, place)
        texts = sent.texts
        if page.draft.revision != sent.revision:
            seen = _thing_then(draft, sent.revision, place)
            put = merged(found.texts if seen is None else seen.texts, sent.texts, found.texts)
            if put.theirs:
                return _conflict(request, page, found.form(put.texts, theirs=put.theirs))
            texts, revision = put.texts, page.draft.revision
        read = found.read(texts)
        try:
            after = _written(draft, place, read.thing, revision, person_of(request))
        except RevisionMoved:
            page = page_of(page.kit.code)
            continue
        except DraftRefused as refused:
            wrong = _wrong(found, read, _errors_in(page.document, place, refused.errors))
            form = found.form(texts, wrong, sent=sent.texts)
            return _shown(request, page, form, refusal=_elsewhere(wrong), status=422)
        is_changed = after.revision != revision
        is_merged = texts is not sent.texts
        return _after_saving(request, page, place, texts, sent.revision, is_changed=is_changed, is_merged=is_merged)
    return _conflict(request, page, _found(page.document, place).form(sent.texts))


def _written(draft: Draft, place: str, thing: Mapping[str, Any], revision: int, by: Person) -> Draft:
    """Write a thing anew, or what is true of the kit as a whole. Raises: RevisionMoved, DraftRefused."""
    if place != KIT:
        return thing_write(draft=draft, place=place, thing=thing, revision=revision, by=by)
    values = {name: thing.get(name) for name in ("title", "unit", "printed", "cutting")}
    return kit_write(draft=draft, values=values, revision=revision, by=by)


def _after_saving(
    request: HttpRequest, page: KitPage, place: str, texts: Texts, seen: int, *, is_changed: bool, is_merged: bool
) -> HttpResponse:
    if not HtmxDetails(request):
        if is_changed:
            messages.success(request, "Saved. The kit is being checked.")
        return redirect(_address(page, place))
    page = page_of(page.kit.code)
    found = _found(page.document, place)
    saved = "Saved" if is_changed else "Nothing to save"
    others = [str(one.by or "Somebody") for one in page.changes if one.revision > seen and one.by != person_of(request)]
    if is_merged and others:
        saved = f"{saved} beside what {others[0]} changed meanwhile"
    return _shown(request, page, found.form(texts), saved=saved, is_whole=is_merged)


def _conflict(request: HttpRequest, page: KitPage, form: Form) -> HttpResponse:
    who = page.changes[0].by if page.changes else None
    sentence = (
        f"{who or 'Somebody'} changed this kit meanwhile, and the same values as you. What you typed is still here, "
        "beside what they wrote. Change it, or save to keep yours."
    )
    return _shown(request, page, form, refusal=sentence, status=409, is_whole=True)


def _added(request: HttpRequest, page: KitPage, fresh: Thing, sent: _Sent, typed: str) -> HttpResponse:
    read = fresh.read(sent.texts)
    form = fresh.form(sent.texts)
    again: dict[str, Any] = {"is_new": True, "id": typed}
    if not typed:
        wrong_id = "Give it an id: a letter or a short word."
        return _shown(request, page, form, id_wrong=wrong_id, status=422, **again)
    at: dict[str, Any] = {"draft": page.draft, "revision": page.draft.revision, "by": person_of(request)}
    try:
        before = request.GET.get("before", "")
        thing_add(place=fresh.place, thing=read.thing, position=_position(page.document, fresh.place, before), **at)
    except IdTaken:
        wrong_id = f"There is a {typed} already: give it another id."
        return _shown(request, page, form, id_wrong=wrong_id, status=422, **again)
    except RevisionMoved:
        sentence = "The kit was changed this very moment. Nothing is lost: add it again."
        return _shown(request, page_of(page.kit.code), form, refusal=sentence, status=409, **again)
    except DraftRefused as refused:
        errors = _errors_in(page.document, fresh.place, refused.errors)
        wrong = _wrong(fresh, read, errors)
        said = next((message for at, message in errors if at == "id"), "")
        form = fresh.form(sent.texts, wrong)
        return _shown(request, page, form, refusal=_elsewhere(wrong), id_wrong=_sentence(said), status=422, **again)
    messages.success(request, f"{fresh.words.one.capitalize()} {typed} has been added.")
    return redirect(_address(page, fresh.place))


_DOINGS = {"copy", "up", "down", "rename", "remove", "remove-all"}


def _done(request: HttpRequest, page: KitPage, place: str, sent: _Sent) -> HttpResponse:
    """Copy, move, rename or remove a thing."""
    found = _found(page.document, place)
    if place == KIT:
        raise BadRequest("a kit is neither copied nor removed here")
    at: dict[str, Any] = {"draft": page.draft, "place": place, "revision": sent.revision, "by": person_of(request)}
    outer = place.rpartition(":")[0]
    texts = found.texts
    try:
        if sent.do == "copy":
            to = _next_id(page.document, found)
            thing_copy(to=to, **at)
            messages.success(request, f"This is {to}, a copy of {found.id}.")
            return redirect(_address(page, f"{outer}:{to}"))
        if sent.do == "rename":
            to = request.POST.get("to", "").strip()
            id_rename(to=to, **at)
            return redirect(_address(page, f"{outer}:{to}"))
        if sent.do in ("up", "down"):
            number = int(path_in(page.document, place)[-1]) + 1
            thing_move(position=number + (1 if sent.do == "down" else -1), **at)
            return redirect(_address(page, place))
        thing_remove(with_mentions=sent.do == "remove-all", **at)
    except StillNamed as named:
        words = Places(page.document)
        return _shown(request, page, found.form(texts), named_by=[words.words(one) for one in named.by], status=409)
    except RenameUnclear as unclear:
        return _shown(request, page, found.form(texts), refusal=_sentence(str(unclear)), status=422)
    except RevisionMoved:
        sentence = "Somebody changed this kit meanwhile: look at it, then do this again."
        return _shown(request, page, found.form(texts), refusal=sentence, status=409)
    except DraftRefused as refused:
        words = Places(page.document)
        said = (f"{words.words(place_of(page.document, one.pointer))}: {one.message}." for one in refused.errors)
        return _shown(request, page, found.form(texts), refusal=" ".join(said), status=422)
    messages.success(request, f"{found.words.one.capitalize()} {found.id} has been removed. Undo brings it back.")
    return redirect(f"{reverse('kit', args=[page.kit.code])}")


def _next_id(kit: Kit, found: Thing) -> str:
    """The id of a copy: a piece has the next letter, what else there is a number."""
    if found.kind == "piece":
        return next(free_letters(kit))
    return free_id(found.id, taken_ids(kit, found.project, found.kind))


def _found(kit: Kit, place: str) -> Thing:
    try:
        return thing_at(kit, place)
    except UnknownPlace:
        raise Http404 from None


def _thing_then(draft: Draft, revision: int, place: str) -> Thing | None:
    """A thing as it was when its form was read, None where nobody kept it."""
    then = state_at(draft, revision)
    try:
        return None if then is None else thing_at(then, place)
    except UnknownPlace:
        return None


def _position(kit: Kit, place: str, before: str) -> int | None:
    """The position in its list of a thing that goes before another one; None where that is not there: at the end."""
    number = path_in(kit, f"{place.rpartition(':')[0]}:{before}")[-1]
    last = path_in(kit, place)[-1]
    return int(number) + 1 if before and number != last else None


def _errors_in(kit: Kit, place: str, errors: tuple[FieldError, ...]) -> tuple[tuple[str, str], ...]:
    found = [DocumentError(error.pointer, error.code, error.message) for error in errors]
    return wrong_at(found, path_in(kit, place))


def _wrong(found: Thing, read: Read, errors: tuple[tuple[str, str], ...]) -> dict[str, str]:
    """What is wrong, by the control that it was typed into; what is wrong elsewhere by no name."""
    wrong: dict[str, str] = {}
    for at, message in errors:
        missing = _MISSING.match(message)
        inside = "/".join(filter(None, (at, missing[1]))) if missing else at
        name = read.control_at(found.words.control_path(inside)) if inside else ""
        if name and (missing or message.startswith("one of ")):
            message = "this is needed: fill it in" if missing else "one of these is needed"
        wrong.setdefault(name, _sentence(message))
    return wrong


# What a document says of a member that is not there; a form has a control for it.
_MISSING = re.compile(r"“(\w+)” is missing")


def _elsewhere(wrong: Mapping[str, str]) -> str:
    many = sum(1 for name in wrong if name)
    here = f"Nothing was saved: {counted(many, 'value')} cannot be so, see below." if many else ""
    return " ".join(filter(None, (here, wrong.get("", ""))))


def _sentence(message: str) -> str:
    return f"{message[:1].upper()}{message[1:]}." if message else ""


def _address(page: KitPage, place: str) -> str:
    return reverse("thing", args=[page.kit.code, place])


def _common(page: KitPage) -> dict[str, Any]:
    return {"room": "kits", "kit": page.kit, "draft": page.draft, "document": page.document}


def _shown(
    request: HttpRequest,
    page: KitPage,
    form: Form,
    *,
    is_new: bool = False,
    refusal: str = "",
    status: int = 200,
    is_whole: bool = False,
    **more: Any,
) -> HttpResponse:
    """Answer with the page of a thing, or, where a script asked, with what of it has changed.

    `is_whole`: that is all of its form, since it holds what its reader has not seen.
    """
    place = form.thing.place
    context = {
        **beside_thing(request, page, place),
        "form": form,
        "thing": form.thing,
        "is_new": is_new,
        "refusal": refusal,
        "picture": _picture_of_new(page, form) if is_new else _picture(page, page.document, place),
        "named": _named(page.document, form.thing),
        "sides": SIDES if form.thing.kind == "paper" and not is_new else (),
        "owner": form.thing.project,
        **more,
    }
    part = HtmxDetails(request) and request.method == "POST"
    if not part or is_whole:
        said = {} if is_new else beside_place(page.draft, page.document, place, person_of(request))
        response = render(request, "frontend/kit/thing.html", context | said, status=status)
        return reselect(reswap(retarget(response, "#facts"), "outerHTML"), "#facts") if part else response
    return render(request, "frontend/kit/thing_saved.html", context, status=status)


def _named(kit: Kit, found: Thing) -> tuple[Named, ...]:
    """What the text of a step can name."""
    return nameable(kit, found.project) if found.kind == "step" and found.project is not None else ()


def _picture_of_new(page: KitPage, form: Form) -> Picture:
    """What a thing would look like that is not added yet: nothing, as long as too little of it is known."""
    thing, kit = form.thing, page.document
    outer, _, _ = thing.place.rpartition(":")
    plain = thing.read(form.texts).thing
    # What it looks like does not wait for an id that can be.
    for place in (thing.place, f"{outer}:{free_id('new', taken_ids(kit, thing.project, thing.kind))}"):
        try:
            return _picture(page, tried(kit, place, plain), place)
        except Refused:
            continue
    return Picture()


def _picture(page: KitPage, kit: Kit, place: str) -> Picture:
    """What a thing looks like in a kit, which may be one that is being typed; prints have pictures of their own."""
    kind, _, id_ = place.partition(":")
    if kind != "paper":
        return picture_of(kit, place)
    paper = next(one for one in kit.papers if one.id == id_)
    return Picture(leaf_figures(kit, paper, addresses_of(page.kit.code, id_)))
