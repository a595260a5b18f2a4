"""The process in which the solver runs: one JSON question a line on standard input, one JSON answer a line out.

It may crash, hang or grow without harm to anyone, and it never outlives its parent. It imports as little as it can,
since every proof waits for it to start. What stands on standard output is JSON and nothing else; whatever native code
prints goes to standard error.

A question holds its `task`. `packingsolver`: `width`, `height`, `sheets`, `kinds` (a list of width, height, copies,
may turn), `way` and `queue`; the answer holds `at_least`, proven for free cuts from edge to edge, and `plan`, null or a
list of [copies, nodes], a node being [parent, left, right, bottom, top, kind]. `{"failed": …}` means that the solver
gave up in a way that it would repeat; `{"too_big": …}` that it ran out of memory. `builds`: see
`layouts.cutting.builds.deciding`.
"""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable
from typing import Any

from layouts.children.inside import begin, line_end, messages

__all__ = ["ask_packingsolver", "main"]

# What the library says when a thread or a block of memory was refused: not its opinion on the question.
OUT_OF_MEMORY = ("bad_alloc", "Resource temporarily unavailable", "Cannot allocate")

# The library's name of each way, and how many stages of cuts a plan may have: three are soon looked through, and a plan
# in three stages is a plan; that there is none says nothing about free cuts.
WAYS: dict[str, tuple[str, int | None]] = {
    "tree": ("use_tree_search", None),
    "spaces": ("use_tree_search_maximal_spaces", None),
    "more-spaces": ("use_tree_search_maximal_spaces", None),
    "spaces-28": ("use_tree_search_maximal_spaces", None),
    "spaces-48": ("use_tree_search_maximal_spaces", None),
    "sheets": ("use_sequential_single_knapsack", None),
    "values": ("use_sequential_value_correction", None),
    "stages": ("use_tree_search", 3),
    "stage-values": ("use_sequential_value_correction", 3),
    "level": ("use_tree_search", 3),
    "level-again": ("use_tree_search", 3),
    "upright": ("use_tree_search", 3),
    "upright-again": ("use_tree_search", 3),
    "columns": ("use_column_generation", 3),
}
# How the first cuts run, and the number of the library's measure by which it ranks beginnings. Of the plans that its
# own choice misses by one sheet, measure 5 finds a fifth with a quarter of the queue, and measure 1 some others.
GUIDED = {
    "level": ("Horizontal", 5),
    "level-again": ("Horizontal", 1),
    "upright": ("Vertical", 5),
    "upright-again": ("Vertical", 1),
}
# Of its own accord the library remembers 16 beginnings where it fills one sheet. With each of these numbers it was seen
# to fill one with 49 or 73 pieces, all of it, that it does not fill with the others.
SPACES = {"spaces-28": 28, "more-spaces": 32, "spaces-48": 48}


def main() -> None:
    """Answer questions until standard input closes. Arguments: the parent's process id, the memory limit in bytes."""
    if len(sys.argv) != 3:
        sys.exit("This is the solver's process; layouts.cutting.guard starts it.")
    out = begin(int(sys.argv[1]), int(sys.argv[2]))
    for line in messages(line_end):
        out.write(json.dumps(_answer(json.loads(line))).encode() + b"\n")
        out.flush()


def _answer(question: dict[str, Any]) -> dict[str, Any]:
    try:
        return TASKS[question["task"]](question)
    except MemoryError:
        return {"too_big": "out of memory"}
    except RuntimeError as error:
        kind = "too_big" if any(words in str(error) for words in OUT_OF_MEMORY) else "failed"
        return {kind: str(error)}


def ask_packingsolver(question: dict[str, Any]) -> dict[str, Any]:
    """Ask the library, in a mode whose answer depends neither on the clock nor on the cores.

    Ways: `tree` searches all sheets at once and remembers the `queue` best beginnings; the others have limits of their
    own: `spaces` fills one sheet, and `spaces-28`, `more-spaces` and `spaces-48` take two or three times as long for
    it; `sheets` fills one after the other, and `values` does so twice, the second time with pieces valued by what was
    left over. `stages` and all behind it look for plans in three stages and prove nothing: `level` and `upright` are
    tree searches by other measures, with the first cuts along x and along y, and `columns` chooses among many ways to
    cut a sheet.
    """
    import packingsolver
    from packingsolver import rectangleguillotine as library

    builder = library.InstanceBuilder()
    builder.set_objective(packingsolver.Objective.BinPacking)
    way, stages = WAYS[question["way"]]
    if stages is None:
        builder.set_number_of_stages_unlimited()
    else:
        builder.set_number_of_stages(stages)
    first, guide = GUIDED.get(question["way"], ("Any", None))
    builder.set_first_stage_orientation(getattr(library.CutOrientation, first))
    builder.add_bin_type(question["width"], question["height"], copies=question["sheets"])
    for width, height, copies, turns in question["kinds"]:
        builder.add_item_type(width, height, copies=copies, oriented=not turns)
    instance = builder.build()
    parameters = library.OptimizeParameters()
    parameters.optimization_mode = packingsolver.OptimizationMode.NotAnytimeDeterministic
    setattr(parameters, way, True)
    if guide is not None:
        parameters.tree_search_guides = [guide]
    if question["way"] in SPACES:
        parameters.not_anytime_tree_search_maximal_spaces_queue_size = SPACES[question["way"]]
    parameters.not_anytime_tree_search_queue_size = question["queue"]
    parameters.not_anytime_sequential_value_correction_number_of_iterations = 2
    parameters.messages_to_stdout = False
    parameters.verbosity_level = 0
    output = library.optimize(instance, parameters)
    # `is_proven_optimal` is true for a proven no as well, so it is not looked at.
    at_least = question["sheets"] + 1 if output.is_proven_infeasible else output.bin_packing_bound
    if stages is not None:
        at_least = 0
    plan = None
    if output.solution.full():
        bins = [output.solution.bin(n) for n in range(output.solution.number_of_different_bins())]
        plan = [
            [one.copies, [[node.f, node.l, node.r, node.b, node.t, node.item_type_id] for node in one.nodes]]
            for one in bins
        ]
    return {"at_least": at_least, "plan": plan}


def ask_builds(question: dict[str, Any]) -> dict[str, Any]:
    """Enumerate builds."""
    # No matrix is ever multiplied: threads of numpy's library for that would only take memory, on each core.
    os.environ["OPENBLAS_NUM_THREADS"] = "1"
    from layouts.cutting.builds.deciding import decide

    return decide(question)


TASKS: dict[str, Callable[[dict[str, Any]], dict[str, Any]]] = {
    "builds": ask_builds,
    "packingsolver": ask_packingsolver,
}
