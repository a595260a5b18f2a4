"""A whole proof in one call, its prints side by side."""

from __future__ import annotations

import os
from concurrent.futures import FIRST_COMPLETED, Future, ThreadPoolExecutor, wait
from threading import Event
from typing import Any

from layouts.cutting import Solver
from layouts.document import Kit
from layouts.proofing.plans import PrintAnswer
from layouts.proofing.prints import PrintPart
from layouts.proofing.questions import Questions
from layouts.proofing.runner import prove_print

__all__ = ["prove_at_once"]


def prove_at_once(kit: Kit) -> dict[str, Any]:
    """Return the proof of a kit. Each question has a solver's child of its own, as many at a time as there are cores.

    Raises: what `prove_print` raises; then, and at Ctrl-C, the prints still at work are called off.
    """
    over = Event()
    questions = Questions(kit)
    answers: dict[str, PrintAnswer] = {}
    asked: dict[str, Future[PrintAnswer]] = {}

    def answer(part: PrintPart) -> PrintAnswer:
        with Solver(cancelled=over.is_set) as solver:
            return prove_print(part, solver)

    with ThreadPoolExecutor(max_workers=len(os.sched_getaffinity(0))) as pool:
        try:
            while open_ := {part.key: part for part in questions.open(answers)}:
                asked |= {key: pool.submit(answer, part) for key, part in open_.items() if key not in asked}
                waiting = [future for key, future in asked.items() if key not in answers]
                wait(waiting, return_when=FIRST_COMPLETED)
                answers |= {key: future.result() for key, future in asked.items() if future.done()}
        finally:
            # The pool waits for its threads: without this, Ctrl-C would take as long as the longest search.
            over.set()
    return questions.proof(answers)
