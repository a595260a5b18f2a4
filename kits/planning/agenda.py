"""What is asked about the coming months: each query takes as many statements, however many kits there are."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db.models import Count, F, Max, Q

from kits.members.models import Person
from kits.planning.calendar import Day, calendar_bytes
from kits.planning.models import (
    CalendarAddress,
    Change,
    Comment,
    Draft,
    Handover,
    Holder,
    Kit,
    KitDates,
    KitDatesChange,
)
from kits.planning.permissions import may_see
from kits.planning.services.months import secret_hash
from layouts.checks import checks_of
from layouts.models import CheckRun, JobState

__all__ = ["MonthLine", "TopFinding", "calendar_for", "dates_changes", "holder_of", "months_for", "person_at"]


@dataclass(frozen=True, slots=True)
class TopFinding:
    """The first finding of a proof that keeps a kit from print: its number in the proof, from 1, weight and message.

    `more` are the others that do.
    """

    number: int
    weight: str
    message: str
    more: int


@dataclass(frozen=True, slots=True)
class MonthLine:
    """A kit in the months: its main draft, its days, its newest check without document and proof, the last handover,
    the first thing to mend, how many comments are open, and the draft's last change, without what it changed.
    `finding` is that of the newest check alone.
    """

    kit: Kit
    draft: Draft
    dates: KitDates | None
    run: CheckRun | None
    handover: Handover | None
    finding: TopFinding | None
    comments: int
    change: Change | None

    @property
    def day(self) -> date | None:
        """The day by which it stands in the list."""
        return None if self.dates is None else self.dates.print_day or self.dates.post_day

    @property
    def holder(self) -> Holder:
        return holder_of(self.handover)

    @property
    def person(self) -> Person | None:
        """Who has it in hand, where somebody is named."""
        if self.dates is None:
            return None
        return self.dates.editor if self.holder == Holder.EDITOR else self.dates.planner


def holder_of(handover: Handover | None) -> Holder:
    """Who has a kit after its newest handover: at first it is the planner's."""
    return Holder.PLANNER if handover is None else Holder(handover.to)


def months_for(person: Person) -> list[MonthLine]:
    """Return the kits that a person sees, by their day and code, those without days last: none for a member."""
    if not may_see(person):
        return []
    drafts = list(Draft.objects.filter(is_main=True).select_related("kit"))
    runs = checks_of(draft.subject for draft in drafts)
    dates = {one.kit_id: one for one in KitDates.objects.select_related("planner", "editor")}
    newest = Handover.objects.order_by().values("kit").annotate(newest=Max("pk")).values("newest")
    handovers = {one.kit_id: one for one in Handover.objects.filter(pk__in=newest).select_related("by")}
    comments = dict(Comment.objects.order_by().filter(is_open=True).values_list("kit").annotate(Count("pk")))
    last = Change.objects.filter(draft__is_main=True, revision=F("draft__revision")).select_related("by")
    changes = {one.draft_id: one for one in last.defer("before", "after", "state")}
    findings = _findings(runs)
    lines = [
        MonthLine(
            draft.kit,
            draft,
            dates.get(draft.kit_id),
            runs.get(draft.subject),
            handovers.get(draft.kit_id),
            findings.get(draft.subject),
            comments.get(draft.kit_id, 0),
            changes.get(draft.pk),
        )
        for draft in drafts
    ]
    return sorted(lines, key=lambda line: (line.day is None, line.day or date.max, line.kit.code.lower()))


def person_at(secret: str) -> Person | None:
    """Return whose calendar an address is, if they still see kits."""
    found = CalendarAddress.objects.select_related("person").filter(secret_hash=secret_hash(secret)).first()
    return found.person if found is not None and may_see(found.person) else None


def calendar_for(person: Person, *, host: str, urls: Mapping[str, str]) -> bytes:
    """Return the days of the kits that a person sees as a calendar; `urls` are the pages of kits, by code."""
    if not may_see(person):
        return calendar_bytes([], name="Kitproof")
    titles = dict(Draft.objects.filter(is_main=True).values_list("kit", "title"))
    days = []
    has_days = Q(print_day__isnull=False) | Q(post_day__isnull=False)
    for one in KitDates.objects.filter(has_days).select_related("kit").order_by("kit__pk"):
        for kind, day in (("print", one.print_day), ("post", one.post_day)):
            if day is not None:
                days.append(
                    Day(
                        uid=f"kit-{one.kit_id}-{kind}@{host}",
                        day=day,
                        summary=f"{one.kit.code} {titles.get(one.kit_id, '')}: {kind} day",
                        url=urls[one.kit.code],
                        stamp=one.at,
                        version=one.version,
                    )
                )
    return calendar_bytes(days, name="Kitproof")


def dates_changes(kit: Kit, *, most: int = 20) -> list[KitDatesChange]:
    """Return what was changed in the days of a kit, newest first, at most so much."""
    return list(KitDatesChange.objects.filter(kit=kit).select_related("by")[:most])


def _findings(runs: Mapping[str, CheckRun]) -> dict[str, TopFinding]:
    """The first thing to mend of each check that found some, by its subject."""
    bad = [run.pk for run in runs.values() if run.state == JobState.DONE and run.verdict != "ready"]
    proofs = CheckRun.objects.filter(pk__in=bad).values_list("subject", "proof")
    found = {subject: _top(json.loads(proof)["findings"]) for subject, proof in proofs if proof}
    return {subject: top for subject, top in found.items() if top is not None}


def _top(findings: Iterable[Mapping[str, Any]]) -> TopFinding | None:
    mend = [
        (number, one)
        for number, one in enumerate(findings, start=1)
        if one["weight"] in ("stop", "fix") and not one["accepted"]
    ]
    if not mend:
        return None
    number, first = min(mend, key=lambda one: (one[1]["weight"] != "stop", one[0]))
    return TopFinding(number, first["weight"], first["message"], len(mend) - 1)
