"""The proof of a kit over the bare solver calls in it, in one run: of the example, and of a month nearly full.

There are two bare sides, and neither does anything else: no reading, no rules, no verifying. One asks the packingsolver
wheel the question of each print and each cut-out once, with the settings that our schedule asks first. The other
replays every call that this very proof makes, of the library and of the enumeration of builds, for prints, for prints
as printed, for mends, ideas and spare. What counts is processor seconds, of all processes that take part. Measured
twice: from inside one process, as a worker that is warm meets a kit, where the proof starts its child all the same; and
as whole processes, as somebody at a terminal does (there the import of the libraries is most of it). The goal is a
ratio of at most 1.3. The prints of the example are no work for any solver: what is measured there is reading, rules,
mends and figures. In a month nearly full (six tight lists) cutting is most of it.
"""

from __future__ import annotations

import json
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

from layouts.cutting import Answer, Problem, Solver, solve
from layouts.cutting.child import TASKS
from layouts.cutting.reduced import reduced
from layouts.cutting.search import QUEUES
from layouts.cutting.wheel import question
from layouts.document import Kit, read_kit
from layouts.proofing import PrintAnswer, PrintPart, Questions, prove_at_once, prove_print
from layouts.proofing.plans import plan_print
from tests.benchmarks.measured import seconds_used
from tests.benchmarks.reproof import tight_kit

TOP = Path(__file__).resolve().parents[2]
EXAMPLE = TOP / "kits" / "examples" / "potting-shed.json"
PAIRS = 9

_BARE = """
import json, sys
from layouts.cutting.child import TASKS
for question in json.load(open(sys.argv[1])):
    TASKS[question["task"]](question)
"""

type Question = dict[str, Any]


def main() -> None:
    _measure(EXAMPLE.stem, EXAMPLE.read_bytes(), PAIRS)
    _measure("a month nearly full", json.dumps(tight_kit()).encode(), 3)


def _measure(name: str, data: bytes, pairs: int) -> None:
    parts, replayed = _asked(read_kit(data))
    once = _questions([problem for part in parts for problem in _problems(part)])
    print(f"proof of {name} over the bare solver calls in it ({pairs} pairs, processor seconds, goal 1.30)")
    for bare, questions in (("the library asked once a print", once), ("all calls of this proof replayed", replayed)):
        print(f"  {bare} ({len(questions)} calls)")
        _compare_with(questions, data, pairs)


def _compare_with(questions: list[Question], data: bytes, pairs: int) -> None:
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
        f"    {how}: ratio {statistics.median(ratios):.2f} (from {ratios[0]:.2f} to {ratios[-1]:.2f}); "
        f"proof {mine:.3f} s, bare {theirs:.3f} s"
    )


class _Noting(Solver):
    """A solver that notes what it is asked."""

    def __init__(self) -> None:
        super().__init__()
        self.asked: list[Question] = []

    def ask(self, question: Question) -> Question:
        self.asked.append(question)
        return super().ask(question)


def _asked(kit: Kit) -> tuple[list[PrintPart], list[Question]]:
    """The prints that a proof asks for, in the order in which it does, and every call of the solver for them."""
    asked: list[PrintPart] = []
    questions, answers = Questions(kit), dict[str, PrintAnswer]()
    with _Noting() as solver:
        while open_ := questions.open(answers):
            asked += open_
            answers |= {part.key: prove_print(part, solver) for part in open_}
    return asked, solver.asked


def _problems(part: PrintPart) -> list[Problem]:
    """The cutting problems that a print poses, as the proof poses them."""
    posed: list[Problem] = []
    with Solver() as solver:

        def noting(problem: Problem) -> Answer:
            posed.append(problem)
            return solve(problem, solver)

        plan_print(part, noting)
    return posed


def _questions(problems: list[Problem]) -> list[Question]:
    smallest = [(problem, reduced(problem)) for problem in problems if problem.items]
    return [question(small, problem.sheets, QUEUES[0]) for problem, small in smallest if small is not None]


def _ask(questions: list[Question]) -> None:
    for one in questions:
        TASKS[one["task"]](one)


def _run(command: list[str]) -> None:
    subprocess.run(command, cwd=TOP, stdout=subprocess.DEVNULL, check=False)


def _seconds(what: Callable[[], object]) -> float:
    started = seconds_used()
    what()
    return seconds_used() - started
