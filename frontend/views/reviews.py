"""What is said about a kit: comments on its places, and into whose hands it is given."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from django.contrib import messages
from django.core.exceptions import BadRequest
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from frontend.access import for_team, person_of
from frontend.kit_page.things.kinds import KIT
from frontend.requests import number_sent
from frontend.views.kit import page_of
from frontend.words.places import Places
from kits.members.models import Person
from kits.members.queries import team_people
from kits.planning.errors import HandedOver, NotAllowed, NothingSaid, NotTheirs, SaidTooMuch
from kits.planning.models import Comment, CommentEntry, Draft
from kits.planning.queries import KitPage
from kits.planning.reviews import comments_at, comments_of, standing_of_kit
from kits.planning.services import (
    comment_add,
    comment_answer,
    comment_assign,
    comment_reopen,
    comment_resolve,
    kit_hand_over,
    kit_take_back,
)
from kits.planning.services.reviews import MOST_SAID, may_resolve
from layouts.document import Kit, UnknownPlace, plain_at

__all__ = ["Talk", "beside_place", "comment", "comments", "handover"]

_WHOLE = "the kit as a whole"
_FIRST_WORDS = 60


@dataclass(frozen=True, slots=True)
class Talk:
    """A comment as it is shown: `where` is what its place is called now, `anchor` where on the kit's page it is.

    `was` is what the place was called when it was said, where that is something else; of a thing that is gone there is
    nothing else. `typed` is an answer that was refused.
    """

    comment: Comment
    entries: tuple[CommentEntry, ...]
    where: str
    anchor: str
    was: str
    begins: str
    may_resolve: bool
    typed: str


@require_http_methods(["GET", "HEAD", "POST"])
@for_team
def comments(request: HttpRequest, code: str) -> HttpResponse:
    """All comments of a kit, the open ones first; sent a text, that is said, at its place."""
    page = page_of(code)
    if request.method != "POST":
        at = request.GET.get("at", "")
        return _comments(request, page, {"place": at if _is_there(page.document, at) else "", "text": "", "to": ""})
    typed = {name: request.POST.get(name, "") for name in ("place", "text", "to")}
    # The form of the kit itself has a place of that name.
    back_to, typed["place"] = typed["place"], "" if typed["place"] == KIT else typed["place"]
    if not _is_there(page.document, typed["place"]):
        refusal = "This is not in the kit any more. Choose another place: what you wrote is still here."
        return _comments(request, page, {**typed, "place": ""}, refusal=refusal, status=409)
    words = Places(page.document).words(typed["place"]) if typed["place"] else _WHOLE
    try:
        said = comment_add(
            kit=page.kit,
            place=typed["place"],
            words=words,
            text=typed["text"],
            to=_person(typed["to"]),
            by=person_of(request),
        )
    except NothingSaid:
        return _comments(request, page, typed, wrong="Write what you have to say.", status=422)
    except SaidTooMuch as much:
        return _comments(request, page, typed, wrong=_sentence(much), status=422)
    except NotAllowed:
        return _comments(request, page, {**typed, "to": ""}, refusal="They are not in the team any more.", status=422)
    messages.success(request, "Your comment is there.")
    if request.POST.get("from") == "thing" and back_to:
        return redirect(f"{reverse('thing', args=[page.kit.code, back_to])}#comments")
    return redirect(f"{reverse('kit-comments', args=[page.kit.code])}#comment-{said.pk}")


@require_POST
@for_team
def comment(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Answer a comment, ask somebody to see to it, resolve it, or open it again."""
    page = page_of(code)
    found = get_object_or_404(Comment, pk=number, kit=page.kit)
    by, do, text = person_of(request), request.POST.get("do", ""), request.POST.get("text", "")
    kept = {found.pk: text}
    try:
        if do == "answer":
            comment_answer(comment=found, text=text, by=by)
        elif do == "assign":
            comment_assign(comment=found, to=_person(request.POST.get("to", "")), by=by)
        elif do == "resolve":
            comment_resolve(comment=found, text=text, by=by)
        elif do == "reopen":
            comment_reopen(comment=found, by=by)
        else:
            raise BadRequest("nothing of this name is done with a comment")
    except NothingSaid:
        return _comments(request, page, _NOTHING, refusal="Write your answer first: nothing was sent.", status=422)
    except SaidTooMuch as much:
        return _comments(request, page, _NOTHING, refusal=_sentence(much), answered=kept, status=422)
    except NotTheirs:
        refusal = "Whoever said or was asked this resolves it, or an editor. Answer them: what you wrote is still here."
        return _comments(request, page, _NOTHING, refusal=refusal, answered=kept, status=403)
    except NotAllowed:
        return _comments(request, page, _NOTHING, refusal="They are not in the team any more.", status=422)
    return redirect(f"{reverse('kit-comments', args=[page.kit.code])}#comment-{found.pk}")


@require_http_methods(["GET", "HEAD", "POST"])
@for_team
def handover(request: HttpRequest, code: str) -> HttpResponse:
    """Who has a kit, and the form by which they hand it over, or a planner takes it back."""
    page = page_of(code)
    if request.method != "POST":
        return _handover(request, page)
    sentence, number, by = request.POST.get("sentence", ""), number_sent(request, "number"), person_of(request)
    give = kit_take_back if request.POST.get("do") == "take-back" else kit_hand_over
    try:
        given = give(kit=page.kit, sentence=sentence, number=number, by=by)
    except NotTheirs:
        refusal = "Whoever has a kit hands it over, and a planner takes it back from the editor. Nothing has changed."
        return _handover(request, page, sentence=sentence, refusal=refusal, status=403)
    except NothingSaid:
        return _handover(request, page, wrong="Say in a sentence what is to be done.", status=422)
    except SaidTooMuch as much:
        return _handover(request, page, sentence=sentence, wrong=_sentence(much), status=422)
    except HandedOver:
        refusal = "Somebody handed this kit over meanwhile. This is who has it now; what you wrote is still here."
        return _handover(request, page, sentence=sentence, refusal=refusal, status=409)
    messages.success(request, f"{page.kit.code} is with the {given.to} now.")
    return redirect("kit-handover", page.kit.code)


def beside_place(draft: Draft, kit: Kit, place: str, person: Person) -> dict[str, Any]:
    """Return what `frontend/kit/comments.html` shows beside a thing, to be added to what its page is given."""
    return {
        "talks": _talks(comments_at(draft, "" if place == KIT else place), kit, person),
        "place": place,
        "team": _team(),
        "most": MOST_SAID,
    }


def _comments(
    request: HttpRequest,
    page: KitPage,
    typed: dict[str, str],
    *,
    refusal: str = "",
    wrong: str = "",
    answered: Mapping[int, str] | None = None,
    status: int = 200,
) -> HttpResponse:
    places = Places(page.document)
    talks = _talks(comments_of(page.kit), page.document, person_of(request), answered or {})
    known = [("", _WHOLE), *((one, places.words(one)) for one in places.anchors())]
    if typed["place"] not in dict(known):
        known.insert(1, (typed["place"], places.words(typed["place"])))
    context = {
        "room": "kits",
        "kit": page.kit,
        "draft": page.draft,
        "document": page.document,
        "talks": talks,
        "open": sum(one.comment.is_open for one in talks),
        "places": known,
        "team": _team(),
        "typed": typed,
        "most": MOST_SAID,
        "refusal": refusal,
        "wrong": wrong,
    }
    return render(request, "frontend/kit/comments_page.html", context, status=status)


_NOTHING = {"place": "", "text": "", "to": ""}


def _handover(
    request: HttpRequest,
    page: KitPage,
    *,
    sentence: str = "",
    refusal: str = "",
    wrong: str = "",
    status: int = 200,
) -> HttpResponse:
    context = {
        "room": "kits",
        "kit": page.kit,
        "draft": page.draft,
        "document": page.document,
        "standing": standing_of_kit(page.kit, person_of(request)),
        "sentence": sentence,
        "refusal": refusal,
        "wrong": wrong,
    }
    return render(request, "frontend/kit/handover.html", context, status=status)


def _talks(
    found: list[Comment], kit: Kit, person: Person, answered: Mapping[int, str] = MappingProxyType({})
) -> tuple[Talk, ...]:
    places = Places(kit)
    there = {place: _is_there(kit, place) for place in {one.place for one in found}}
    return tuple(
        _talk(
            one,
            places,
            is_gone=not there[one.place],
            may_resolve=may_resolve(one, person),
            typed=answered.get(one.pk, ""),
        )
        for one in found
    )


def _talk(found: Comment, places: Places, *, is_gone: bool, may_resolve: bool, typed: str) -> Talk:
    now = places.words(found.place) if found.place else _WHOLE
    begins = found.text if len(found.text) <= _FIRST_WORDS else f"{found.text[:_FIRST_WORDS]}…"
    return Talk(
        comment=found,
        entries=tuple(found.entries.all()),
        where="" if is_gone else now,
        anchor=places.anchor(found.place),
        was=found.words if is_gone or now != found.words else "",
        begins=begins,
        may_resolve=may_resolve,
        typed=typed,
    )


def _is_there(kit: Kit, place: str) -> bool:
    """Whether a place is one of the kit's. Not by its words: of what is gone, these are those of what it stood in."""
    # What a thing holds may be nothing at the moment: the thing itself is asked for.
    while place and ":" not in place.rpartition("/")[2]:
        place = place.rpartition("/")[0]
    try:
        return not place or plain_at(kit, place) is not None
    except UnknownPlace:
        return False


def _sentence(much: SaidTooMuch) -> str:
    return f"{str(much)[0].upper()}{str(much)[1:]}. What you wrote is still here."


def _team() -> list[tuple[str, str]]:
    return [(str(one.pk), str(one)) for one in team_people()]


def _person(text: str) -> Person | None:
    """The person that a form names by number. Raises: BadRequest, Http404."""
    if not text:
        return None
    if not (text.isascii() and text.isdigit() and len(text) < 10):
        raise BadRequest("a person is sent by number")
    person = Person.objects.filter(pk=int(text)).first()
    if person is None:
        raise Http404
    return person
