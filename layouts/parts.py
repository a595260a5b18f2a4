"""The prints of a check, side by side: stored answers are used again, and no print is worked out by two workers."""

from __future__ import annotations

import logging
import os
import time
import uuid
from collections.abc import Callable, Collection, Mapping
from concurrent.futures import FIRST_COMPLETED, Future, ThreadPoolExecutor, wait
from dataclasses import dataclass
from threading import Event

from django.db.models import F, Q, QuerySet
from django.utils import timezone

from layouts.cutting import Cancelled, Solver
from layouts.jobs import LEASE, RENEW_SECONDS, Hold
from layouts.models import PartAnswer
from layouts.proofing import ENGINE, PrintAnswer, PrintPart, Questions, answer_from_json, answer_to_json, prove_print

__all__ = ["answer_all"]

log = logging.getLogger("kitproof.checks")

type Answers = Mapping[str, PrintAnswer]

# How soon a print is taken up that another worker has finished, or has given up.
LOOK_SECONDS = 0.25
# How soon work is dropped that only the replaced document needed.
WANTED_SECONDS = 1.0


def answer_all(
    questions: Questions,
    *,
    claim: uuid.UUID,
    hold: Hold,
    wanted: Callable[[], Collection[str]],
    tell: Callable[[Answers], None],
) -> Answers:
    """Return the answers to all that is asked of a kit, by key; as many are worked out at a time as there are cores.

    `claim` is the claim of the check, under which it claims prints as well. `tell` hears of all answers so far whenever
    there are more. When the check is over before its end, nothing is begun any more, and what is being worked out is
    finished only if its key is `wanted` by others: an edit elsewhere must not throw away what the next check needs.
    Raises: Cancelled when the check is over, and what `prove_print` raises.
    """
    slots = len(os.sched_getaffinity(0))
    with ThreadPoolExecutor(slots, thread_name_prefix="print") as pool:
        work = _Work(questions, claim, pool, slots)
        try:
            while work.is_open:
                if hold.is_over:
                    work.keep_only(wanted)
                if work.go_on():
                    tell(work.answers)
                    if not hold.is_over:
                        work.ask_further()
        finally:
            work.stop()
    hold.check()
    return work.answers


@dataclass(frozen=True, slots=True)
class _AtWork:
    """A print that is being worked out in a thread of its own."""

    part: PrintPart
    future: Future[PrintAnswer]
    stop: Event


class _Work:
    """The prints of one check by their keys: still open, being worked out here, or answered."""

    def __init__(self, questions: Questions, claim: uuid.UUID, pool: ThreadPoolExecutor, slots: int) -> None:
        self._questions = questions
        self._open: dict[str, PrintPart] = {}
        self._here: dict[str, _AtWork] = {}
        self.answers: dict[str, PrintAnswer] = {}
        self.ask_further()
        self._claim, self._pool, self._slots = claim, pool, slots
        self._claimed: set[str] = set()
        self._renewed = self._asked = time.monotonic()

    @property
    def is_open(self) -> bool:
        return bool(self._open or self._here)

    def ask_further(self) -> None:
        """Open what can be asked with the answers so far. Equal prints share a key: they are one question."""
        asked = {part.key: part for part in self._questions.open(self.answers)}
        self._open |= {key: part for key, part in asked.items() if key not in self._here}

    def go_on(self) -> bool:
        """Take up what can be taken up, wait a little, and gather; say whether there are new answers."""
        known = len(self.answers)
        if self._open and len(self._here) < self._slots:
            self._take_up()
        if self._here:
            wait([work.future for work in self._here.values()], LOOK_SECONDS, FIRST_COMPLETED)
            self._gather()
        elif self._open:
            time.sleep(LOOK_SECONDS)  # other workers are at all of them
        if self._here and time.monotonic() - self._renewed >= RENEW_SECONDS:
            self._renew()
        return len(self.answers) > known

    def keep_only(self, wanted: Callable[[], Collection[str]]) -> None:
        """Begin nothing more, and stop what nobody wants."""
        if not self._open and time.monotonic() - self._asked < WANTED_SECONDS:
            return
        self._open.clear()
        keys = wanted() if self._here else ()
        for key, work in self._here.items():
            if key not in keys:
                work.stop.set()
        self._asked = time.monotonic()

    def stop(self) -> None:
        """Stop everything, wait until it has ended, and leave to others what was claimed."""
        for work in self._here.values():
            work.stop.set()
        wait([work.future for work in self._here.values()])
        if self._claimed:
            _mine(self._claim).update(claim=None, lease_until=None)

    def _take_up(self) -> None:
        rows = {row.key: row for row in PartAnswer.objects.filter(engine=ENGINE, key__in=self._open)}
        new = [PartAnswer(key=key, engine=ENGINE) for key in self._open if key not in rows]
        # Several workers may write the same row at once: one of them does, and then one of them claims it.
        PartAnswer.objects.bulk_create(new, ignore_conflicts=True)
        for key, part in list(self._open.items()):
            row = rows.get(key)
            if row is not None and row.answer is not None:
                self.answers[key] = answer_from_json(row.answer, part)
                del self._open[key]
            elif key not in self._here and len(self._here) < self._slots and _take(key, self._claim):
                self._claimed.add(key)
                stop = Event()
                self._here[key] = _AtWork(part, self._pool.submit(_work_out, part, stop), stop)
                del self._open[key]

    def _gather(self) -> None:
        for key in [key for key, work in self._here.items() if work.future.done()]:
            work = self._here.pop(key)
            try:
                answer = work.future.result()
            except Cancelled:
                continue
            # Stored only under our claim; but the answer is right whoever stores it.
            _mine(self._claim).filter(key=key).update(answer=answer_to_json(answer), claim=None, lease_until=None)
            self._claimed.discard(key)
            self._open.pop(key, None)
            self.answers[key] = answer

    def _renew(self) -> None:
        """Stay at the prints here; whoever took one from us, when we were away too long, is to finish it."""
        _mine(self._claim).update(lease_until=timezone.now() + LEASE)
        ours = set(_mine(self._claim).values_list("key", flat=True))
        for key, work in self._here.items():
            if key not in ours and not work.stop.is_set():
                log.warning("the claim on print %s was lost; its answer is awaited", key[:8])
                work.stop.set()
                self._open[key] = work.part
        self._renewed = time.monotonic()


def _mine(claim: uuid.UUID) -> QuerySet[PartAnswer]:
    return PartAnswer.objects.filter(claim=claim)


def _take(key: str, claim: uuid.UUID) -> bool:
    """Claim a print that nobody has answered and nobody is at."""
    now = timezone.now()
    free = Q(claim__isnull=True) | Q(lease_until__lt=now)
    taken = PartAnswer.objects.filter(free, key=key, engine=ENGINE, answer__isnull=True).update(
        claim=claim, lease_until=now + LEASE, attempts=F("attempts") + 1
    )
    return taken == 1


def _work_out(part: PrintPart, stop: Event) -> PrintAnswer:
    with Solver(cancelled=stop.is_set) as solver:
        return prove_print(part, solver)
