"""Two runs in other processes, with other hash seeds, in other directories and locales: the same bytes."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[3]

# B97_24 and C2_0 of the kit lists, the best choice of cgcut2, and a list of our own with slack.
_ASK = """
import sys
sys.path.insert(0, sys.argv[1])
from layouts.cutting import Item, Problem, Solver, solve
def items(*pieces):
    return tuple(Item(f"P{n}", w, h, c, True, bool(t)) for n, (w, h, c, t) in enumerate(pieces))
with Solver() as solver:
    for problem in [
        Problem(128, 128, 1, items((65, 25, 1, 1), (63, 58, 1, 1), (62, 21, 1, 0), (61, 46, 1, 1), (36, 32, 1, 0),
                                   (35, 69, 1, 0), (28, 101, 1, 0))),
        Problem(40, 70, 1, items((21, 22, 1, 0), (31, 13, 1, 0), (9, 35, 1, 0), (9, 24, 2, 0), (30, 7, 2, 0),
                                 (11, 13, 2, 0), (10, 14, 1, 0), (14, 8, 2, 0), (12, 8, 1, 0))),
        Problem(32, 32, 2, items((20, 19, 2, 0), (10, 13, 4, 0), (8, 8, 8, 0), (3, 10, 1, 0), (3, 7, 8, 0))),
        Problem(65024, 65024, 3, items((23368, 36576, 7, 1), (8128, 60960, 2, 0)), 508),
    ]:
        print(problem.hash, solve(problem, solver).to_json())
"""


def test_answers_do_not_depend_on_where_and_how_they_are_asked(tmp_path):
    texts = set()
    for seed, directory, locale in (("0", ROOT, "C"), ("4711", tmp_path, "C.UTF-8")):
        done = subprocess.run(
            [sys.executable, "-c", _ASK, str(ROOT)],
            cwd=directory,
            env={"PYTHONHASHSEED": seed, "LC_ALL": locale, "PYTHONIOENCODING": "utf-8"},
            capture_output=True,
            text=True,
            check=True,
        )
        texts.add(done.stdout)
    (text,) = texts
    assert text.count("\n") == 4
