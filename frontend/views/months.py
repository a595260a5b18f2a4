"""The coming months at a glance, the days of each kit, and the calendar that other programs read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.core.exceptions import BadRequest
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.cache import add_never_cache_headers
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from frontend.access import for_planners, for_team, person_of
from frontend.kit_page.findings import finding_name
from frontend.requests import number_sent
from frontend.views.kit import draft_of
from frontend.views.kits import standing_of, steps_of_team
from frontend.words.days import post_words, print_words
from kits.members.models import Person, Role
from kits.members.queries import people_with
from kits.planning.agenda import MonthLine, calendar_for, dates_changes, months_for, person_at
from kits.planning.errors import BadDates, DatesMoved
from kits.planning.models import CalendarAddress, Draft, Kit, KitDates, KitDatesChange
from kits.planning.queries import kits_for
from kits.planning.services import calendar_renew, calendar_revoke, dates_set

__all__ = ["calendar_feed", "calendar_off", "calendar_on", "kit_dates", "months"]

_FIELDS = ("print_day", "post_day", "planner", "editor")
_CALLED = {"print_day": "print day", "post_day": "post day", "planner": "planner", "editor": "technical editor"}


@dataclass(frozen=True, slots=True)
class Month:
    """One kit in the list: `prints` and `posts` say how far its days are, `finding` what keeps it from print."""

    line: MonthLine
    shape: str
    verdict: str
    prints: str
    posts: str
    is_past: bool
    finding: str
    finding_name: str
    is_stale: bool
    with_words: str


@require_safe
@for_team
def months(request: HttpRequest) -> HttpResponse:
    return _months(request)


@require_POST
@for_team
def calendar_on(request: HttpRequest) -> HttpResponse:
    """Give whoever asks a calendar address, a new one if they had one. It is shown this once: only its hash is kept."""
    secret = calendar_renew(by=person_of(request))
    return _months(request, address=request.build_absolute_uri(reverse("calendar-feed", args=[secret])))


@require_POST
@for_team
def calendar_off(request: HttpRequest) -> HttpResponse:
    calendar_revoke(by=person_of(request))
    messages.success(request, "The address of your calendar opens nothing any more.")
    return redirect(f"{reverse('months')}#calendar")


@login_not_required
@require_safe
def calendar_feed(request: HttpRequest, key: str) -> HttpResponse:
    """The days of the kits that the owner of an address sees: a calendar program signs in nowhere."""
    person = person_at(key)
    if person is None:
        raise Http404
    lines = months_for(person)
    urls = {line.kit.code: request.build_absolute_uri(reverse("kit", args=[line.kit.code])) for line in lines}
    host = request.get_host().partition(":")[0]
    answer = HttpResponse(calendar_for(person, host=host, urls=urls), content_type="text/calendar; charset=utf-8")
    answer.headers["Content-Disposition"] = 'inline; filename="kitproof.ics"'
    add_never_cache_headers(answer)
    return answer


@require_http_methods(["GET", "HEAD", "POST"])
@for_planners
def kit_dates(request: HttpRequest, code: str) -> HttpResponse:
    """The days of a kit, and who answers for it."""
    draft = draft_of(code)
    dates = KitDates.objects.filter(kit=draft.kit).first()
    if request.method != "POST":
        return _dates(request, draft, dates, _typed_of(dates))
    typed = {field: request.POST.get(field, "").strip() for field in _FIELDS}
    try:
        dates_set(
            kit=draft.kit,
            print_day=_day("print_day", typed["print_day"]),
            post_day=_day("post_day", typed["post_day"]),
            planner=_person(typed["planner"]),
            editor=_person(typed["editor"]),
            version=number_sent(request, "version"),
            by=person_of(request),
        )
    except BadDates as bad:
        return _dates(request, draft, dates, typed, wrong={bad.field: _sentence(bad.sentence)}, status=422)
    except DatesMoved as moved:
        now = KitDates.objects.filter(kit=draft.kit).first()
        sentence = (
            f"{moved.by} changed these dates meanwhile, and yours are not saved yet. They are still in the form; "
            "beside each stands what it is now. Save again to put yours in their place."
        )
        return _dates(request, draft, now, typed, refusal=sentence, theirs=True, status=409)
    messages.success(request, f"The dates of {draft.kit.code} are saved.")
    return redirect("months")


def _months(request: HttpRequest, address: str = "") -> HttpResponse:
    today = timezone.localdate()
    lines = [_month(line, today) for line in months_for(person_of(request))]
    steps = steps_of_team(kits_for(person_of(request))) if len(lines) < 2 else ()
    context = {
        "room": "months",
        "any": bool(lines),
        "first_steps": steps,
        "coming": [one for one in lines if one.line.day is not None and not one.is_past],
        "undated": [one for one in lines if one.line.day is None],
        "past": [one for one in lines if one.is_past],
        "address": address,
        "has_address": CalendarAddress.objects.filter(person=person_of(request)).exists(),
    }
    return render(request, "frontend/months.html", context)


def _month(line: MonthLine, today: date) -> Month:
    shape, verdict = standing_of(line.run)
    dates, finding = line.dates, line.finding
    print_day, post_day = (None, None) if dates is None else (dates.print_day, dates.post_day)
    return Month(
        line=line,
        shape=shape,
        verdict=verdict,
        prints=print_words(print_day, today) if print_day is not None else "",
        posts=post_words(post_day, today) if post_day is not None else "",
        # A print day that has passed without a post day is something to look at, not something done.
        is_past=post_day is not None and post_day < today,
        finding="" if finding is None else _first_sentence(finding.message),
        finding_name="" if finding is None else finding_name(finding.number),
        is_stale=line.run is not None and line.run.revision != line.draft.revision,
        with_words=f"with {line.person}, {line.holder}" if line.person is not None else f"with the {line.holder}",
    )


def _first_sentence(message: str) -> str:
    return message.partition(". ")[0].rstrip(".") + "."


def _dates(
    request: HttpRequest,
    draft: Draft,
    dates: KitDates | None,
    typed: Mapping[str, str],
    *,
    wrong: Mapping[str, str] | None = None,
    refusal: str = "",
    theirs: bool = False,
    status: int = 200,
) -> HttpResponse:
    now = _typed_of(dates)
    people = {"planner": people_with(Role.PLANNER), "editor": people_with(Role.EDITOR)}
    fields = [
        {
            "name": name,
            "label": _CALLED[name],
            "value": typed[name],
            "wrong": (wrong or {}).get(name, ""),
            "people": [(str(one.pk), str(one)) for one in people[name]] if name in people else None,
            "theirs": _shown(now[name], people.get(name)) if theirs and now[name] != typed[name] else "",
        }
        for name in _FIELDS
    ]
    context: dict[str, Any] = {
        "room": "months",
        "kit": draft.kit,
        "draft": draft,
        "fields": fields,
        "version": 0 if dates is None else dates.version,
        "refusal": refusal,
        "changes": _changes(draft.kit),
    }
    return render(request, "frontend/kit/dates.html", context, status=status)


def _typed_of(dates: KitDates | None) -> dict[str, str]:
    """The form of the days as they are."""
    if dates is None:
        return dict.fromkeys(_FIELDS, "")
    values = (dates.print_day, dates.post_day, dates.planner_id, dates.editor_id)
    return {name: "" if value is None else str(value) for name, value in zip(_FIELDS, values, strict=True)}


def _shown(value: str, people: list[Person] | None) -> str:
    if not value:
        return "nothing"
    if people is None:
        return _day_words(value)
    return next((str(one) for one in people if str(one.pk) == value), "somebody")


def _changes(kit: Kit) -> list[tuple[KitDatesChange, str]]:
    changes = dates_changes(kit)
    named = {value for one in changes for state in (one.before, one.after) for value in _people_in(state)}
    names = {one.pk: str(one) for one in Person.objects.filter(pk__in=named)}
    return [(one, _change_words(one, names)) for one in changes]


def _people_in(state: Mapping[str, Any]) -> list[int]:
    return [state[name] for name in ("planner", "editor") if state[name] is not None]


def _change_words(change: KitDatesChange, names: Mapping[int, str]) -> str:
    """What was changed: “print day: nothing to 12 May 2027”."""
    parts = []
    for field in _FIELDS:
        before, after = (
            "nothing"
            if state[field] is None
            else _day_words(state[field])
            if field.endswith("_day")
            else names.get(state[field], "somebody")
            for state in (change.before, change.after)
        )
        if before != after:
            parts.append(f"{_CALLED[field]}: {before} to {after}")
    return "; ".join(parts)


def _day_words(text: str) -> str:
    day = date.fromisoformat(text)
    return f"{day.day} {day:%B} {day.year}"


def _day(field: str, text: str) -> date | None:
    """Read a day. Raises: BadDates."""
    if not text:
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise BadDates(field, "this is no day: write it as 2027-05-12, year, month and day") from None


def _person(text: str) -> Person | None:
    if not text:
        return None
    if not (text.isascii() and text.isdigit() and len(text) < 10):
        raise BadRequest("a person is sent by number")
    person = Person.objects.filter(pk=int(text)).first()
    if person is None:
        raise BadRequest("there is no such person")
    return person


def _sentence(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}."
