"""The proof of an example over the bare solver calls in it, both as whole processes, in one run.

The bare side asks the packingsolver wheel the question of each print and each cut-out once, with the settings that our
schedule asks first, and does nothing else: no reading, no rules, no verifying. The goal is a ratio of at most 1.3.
"""

from __future__ import annotations

import json
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from layouts.cutting import Answer, Problem, Solver, solve
from layouts.cutting.reduced import reduced
from layouts.cutting.search import QUEUES
from layouts.cutting.wheel import question
from layouts.document import read_kit
from layouts.proofing.plans import plan_print
from layouts.proofing.prints import PrintPart, print_parts

TOP = Path(__file__).resolve().parents[2]
EXAMPLE = TOP / "kits" / "examples" / "potting-shed.json"
PAIRS = 7

_BARE = """
import json, sys
from layouts.cutting.child import _packingsolver
for question in json.load(open(sys.argv[1])):
    _packingsolver(question)
"""


def main() -> None:
    kit = read_kit(EXAMPLE.read_bytes())
    questions = _questions([problem for part in print_parts(kit) for problem in _problems(part)])
    with tempfile.NamedTemporaryFile("w", suffix=".json") as file:
        json.dump(questions, file)
        file.flush()
        ours = [sys.executable, "manage.py", "proof", str(EXAMPLE), "--json"]
        bare = [sys.executable, "-c", _BARE, file.name]
        _seconds(ours), _seconds(bare)  # the first run of each warms the disk
        pairs = [(_seconds(ours), _seconds(bare)) for _ in range(PAIRS)]
    ratios = sorted(mine / theirs for mine, theirs in pairs)
    print(f"proof of {EXAMPLE.stem} over the bare solver calls in it ({len(questions)} calls, {PAIRS} pairs)")
    print(f"  proof {statistics.median(p[0] for p in pairs):.3f} s, bare {statistics.median(p[1] for p in pairs):.3f} s")
    print(f"  ratio: median {statistics.median(ratios):.2f}, from {ratios[0]:.2f} to {ratios[-1]:.2f} (goal: at most 1.30)")


def _problems(part: PrintPart) -> list[Problem]:
    """The cutting problems that a print poses, as the proof poses them."""
    posed: list[Problem] = []
    with Solver() as solver:

        def noting(problem: Problem) -> Answer:
            posed.append(problem)
            return solve(problem, solver)

        plan_print(part, noting)
    return posed


def _questions(problems: list[Problem]) -> list[dict[str, object]]:
    smallest = [(problem, reduced(problem)) for problem in problems if problem.items]
    return [question(small, problem.sheets, QUEUES[0]) for problem, small in smallest if small is not None]


def _seconds(command: list[str]) -> float:
    started = time.perf_counter()
    subprocess.run(command, cwd=TOP, stdout=subprocess.DEVNULL, check=False)
    return time.perf_counter() - started
