"""The process in which the solver runs: one JSON question a line on standard input, one JSON answer a line out.

It may crash, hang or grow without harm to anyone, and it never outlives its parent. It imports as little as it can,
since every proof waits for it to start. What stands on standard output is JSON and nothing else; whatever native code
prints goes to standard error.

A question holds its `task`. `packingsolver`: `width`, `height`, `sheets`, `kinds` (a list of width, height, copies,
may turn) and `queue`; the answer holds `at_least`, proven for free cuts from edge to edge, and `plan`, null or a list
of [copies, nodes], a node being [parent, left, right, bottom, top, kind]. `{"failed": …}` means that the solver gave
up in a way that it would repeat; `{"too_big": …}` that it ran out of memory.
"""

from __future__ import annotations

import ctypes
import json
import os
import queue
import resource
import signal
import sys
import threading
from collections.abc import Callable
from typing import Any

__all__ = ["ask_packingsolver", "main"]

PR_SET_PDEATHSIG = 1
# What the library says when a thread or a block of memory was refused: not its opinion on the question.
OUT_OF_MEMORY = ("bad_alloc", "Resource temporarily unavailable", "Cannot allocate")


def main() -> None:
    """Answer questions until standard input closes. Arguments: the parent's process id, the memory limit in bytes."""
    if len(sys.argv) != 3:
        sys.exit("This is the solver's process; layouts.cutting.guard starts it.")
    parent, memory = int(sys.argv[1]), int(sys.argv[2])
    _die_with(parent)
    resource.setrlimit(resource.RLIMIT_AS, (memory, memory))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    out = os.fdopen(os.dup(1), "w", encoding="utf-8")
    os.dup2(2, 1)
    questions: queue.SimpleQueue[bytes] = queue.SimpleQueue()
    threading.Thread(target=_read, args=(questions,), daemon=True).start()
    while True:
        out.write(json.dumps(_answer(json.loads(questions.get()))) + "\n")
        out.flush()


def _die_with(parent: int) -> None:
    """Be killed when the parent dies, however it dies. Linux only: elsewhere the closing of standard input must do."""
    if sys.platform == "linux":
        ctypes.CDLL(None, use_errno=True).prctl(PR_SET_PDEATHSIG, signal.SIGKILL)
    if os.getppid() != parent:  # it died before it could be watched
        os._exit(0)


def _read(questions: queue.SimpleQueue[bytes]) -> None:
    """Take questions off standard input; when it closes nobody waits for an answer any more."""
    begun = b""
    # Not through sys.stdin: its lock is taken while it waits, and a main thread that fails could not end in peace.
    while chunk := os.read(0, 1 << 16):
        *lines, begun = (begun + chunk).split(b"\n")
        for line in lines:
            questions.put(line)
    os._exit(0)


def _answer(question: dict[str, Any]) -> dict[str, Any]:
    try:
        return TASKS[question["task"]](question)
    except MemoryError:
        return {"too_big": "out of memory"}
    except RuntimeError as error:
        kind = "too_big" if any(words in str(error) for words in OUT_OF_MEMORY) else "failed"
        return {kind: str(error)}


def ask_packingsolver(question: dict[str, Any]) -> dict[str, Any]:
    """Ask the library. Its settings are the only ones whose answer does not depend on the clock or the cores."""
    import packingsolver
    from packingsolver import rectangleguillotine as library

    builder = library.InstanceBuilder()
    builder.set_objective(packingsolver.Objective.BinPacking)
    builder.set_number_of_stages_unlimited()
    builder.add_bin_type(question["width"], question["height"], copies=question["sheets"])
    for width, height, copies, turns in question["kinds"]:
        builder.add_item_type(width, height, copies=copies, oriented=not turns)
    instance = builder.build()
    parameters = library.OptimizeParameters()
    parameters.optimization_mode = packingsolver.OptimizationMode.NotAnytimeDeterministic
    parameters.use_tree_search = True
    parameters.not_anytime_tree_search_queue_size = question["queue"]
    parameters.messages_to_stdout = False
    parameters.verbosity_level = 0
    output = library.optimize(instance, parameters)
    # `is_proven_optimal` is true for a proven no as well, so it is not looked at.
    at_least = question["sheets"] + 1 if output.is_proven_infeasible else output.bin_packing_bound
    plan = None
    if output.solution.full():
        bins = [output.solution.bin(n) for n in range(output.solution.number_of_different_bins())]
        plan = [
            [one.copies, [[node.f, node.l, node.r, node.b, node.t, node.item_type_id] for node in one.nodes]]
            for one in bins
        ]
    return {"at_least": at_least, "plan": plan}


TASKS: dict[str, Callable[[dict[str, Any]], dict[str, Any]]] = {"packingsolver": ask_packingsolver}
