"""A whole proof in one call, its prints side by side."""

from __future__ import annotations

import os
import queue
import threading
from concurrent.futures import FIRST_COMPLETED, Future, ThreadPoolExecutor, wait
from typing import Any

from layouts.cutting import Solver
from layouts.document import Kit
from layouts.proofing.plans import PrintAnswer
from layouts.proofing.prints import PrintPart
from layouts.proofing.questions import Questions
from layouts.proofing.runner import prove_print

__all__ = ["prove_at_once"]


def prove_at_once(kit: Kit) -> dict[str, Any]:
    """Return the proof of a kit, as many questions at a time as there are cores, each with a solver's child of its own.

    Raises: what `prove_print` raises; then, and at Ctrl-C, the prints still at work are called off.
    """
    over = threading.Event()
    questions = Questions(kit)
    answers: dict[str, PrintAnswer] = {}
    asked: dict[str, Future[PrintAnswer]] = {}

    # A child has its libraries to load before it answers: one serves all questions of a thread.
    children: queue.SimpleQueue[Solver] = queue.SimpleQueue()
    own = threading.local()

    def answer(part: PrintPart) -> PrintAnswer:
        if not hasattr(own, "solver"):
            own.solver = Solver(cancelled=over.is_set)
            children.put(own.solver)
        own.solver.new_part()
        return prove_print(part, own.solver)

    with ThreadPoolExecutor(max_workers=len(os.sched_getaffinity(0))) as pool:
        try:
            while open_ := {part.key: part for part in questions.open(answers)}:
                asked |= {key: pool.submit(answer, part) for key, part in open_.items() if key not in asked}
                waiting = [future for key, future in asked.items() if key not in answers]
                wait(waiting, return_when=FIRST_COMPLETED)
                answers |= {key: future.result() for key, future in asked.items() if future.done()}
        finally:
            # Those at work would take as long as the longest search, and a child dies with the thread that started it.
            over.set()
            wait(asked.values())
            while not children.empty():
                children.get().close()
    return questions.proof(answers)
