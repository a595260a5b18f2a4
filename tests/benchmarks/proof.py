"""The proof of a kit over the bare solver calls in it, in one run: of the example, and of a month nearly full.

The bare side asks the packingsolver wheel the question of each print and each cut-out once, with the settings that our
schedule asks first, and does nothing else: no reading, no rules, no verifying. Measured twice: inside one process, as
a worker that is warm meets a kit, and as whole processes, as somebody at a terminal does (there the import of the
libraries is most of it). The goal is a ratio of at most 1.3. The prints of the example are no work for any solver: what
is measured there is reading, rules, mends and figures. In a month nearly full (six tight lists) cutting is most of it.
"""

from __future__ import annotations

import json
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from layouts.cutting import Answer, Problem, Solver, solve
from layouts.cutting.child import ask_packingsolver
from layouts.cutting.reduced import reduced
from layouts.cutting.search import QUEUES
from layouts.cutting.wheel import question
from layouts.document import Kit, read_kit
from layouts.proofing import PrintAnswer, PrintPart, Questions, prove_at_once, prove_print
from layouts.proofing.plans import plan_print
from tests.benchmarks.reproof import tight_kit

TOP = Path(__file__).resolve().parents[2]
EXAMPLE = TOP / "kits" / "examples" / "potting-shed.json"
PAIRS = 9

_BARE = """
import json, sys
from layouts.cutting.child import ask_packingsolver
for question in json.load(open(sys.argv[1])):
    ask_packingsolver(question)
"""


def main() -> None:
    _measure(EXAMPLE.stem, EXAMPLE.read_bytes(), PAIRS)
    _measure("a month nearly full", json.dumps(tight_kit()).encode(), 3)


def _measure(name: str, data: bytes, pairs: int) -> None:
    questions = _questions([problem for part in _parts(read_kit(data)) for problem in _problems(part)])
    print(f"proof of {name} over the bare solver calls in it ({len(questions)} calls, {pairs} pairs, goal 1.30)")
    _compare("in a warm process", lambda: prove_at_once(read_kit(data)), lambda: _ask(questions), pairs)
    with (
        tempfile.NamedTemporaryFile("w", suffix=".json") as asked,
        tempfile.NamedTemporaryFile("wb", suffix=".json") as document,
    ):
        json.dump(questions, asked)
        asked.flush()
        document.write(data)
        document.flush()
        ours = [sys.executable, "manage.py", "proof", document.name, "--json"]
        bare = [sys.executable, "-c", _BARE, asked.name]
        _compare("as whole processes", lambda: _run(ours), lambda: _run(bare), pairs)


def _compare(how: str, ours: Callable[[], object], bare: Callable[[], object], count: int) -> None:
    _seconds(ours), _seconds(bare)  # the first of each warms what it needs
    pairs = [(_seconds(ours), _seconds(bare)) for _ in range(count)]
    ratios = sorted(mine / theirs for mine, theirs in pairs)
    mine, theirs = (statistics.median(pair[side] for pair in pairs) for side in (0, 1))
    print(
        f"  {how}: ratio {statistics.median(ratios):.2f} (from {ratios[0]:.2f} to {ratios[-1]:.2f}); "
        f"proof {mine:.3f} s, bare {theirs:.3f} s"
    )


def _parts(kit: Kit) -> list[PrintPart]:
    """All that is asked for a proof, in the order in which it is asked: as printed too, where that needs asking."""
    asked: list[PrintPart] = []
    questions, answers = Questions(kit), dict[str, PrintAnswer]()
    with Solver() as solver:
        while open_ := questions.open(answers):
            asked += open_
            answers |= {part.key: prove_print(part, solver) for part in open_}
    return asked


def _problems(part: PrintPart) -> list[Problem]:
    """The cutting problems that a print poses, as the proof poses them."""
    posed: list[Problem] = []
    with Solver() as solver:

        def noting(problem: Problem) -> Answer:
            posed.append(problem)
            return solve(problem, solver)

        plan_print(part, noting)
    return posed


def _questions(problems: list[Problem]) -> list[dict[str, Any]]:
    smallest = [(problem, reduced(problem)) for problem in problems if problem.items]
    return [question(small, problem.sheets, QUEUES[0]) for problem, small in smallest if small is not None]


def _ask(questions: list[dict[str, Any]]) -> None:
    for one in questions:
        ask_packingsolver(one)


def _run(command: list[str]) -> None:
    subprocess.run(command, cwd=TOP, stdout=subprocess.DEVNULL, check=False)


def _seconds(what: Callable[[], object]) -> float:
    started = time.perf_counter()
    what()
    return time.perf_counter() - started
