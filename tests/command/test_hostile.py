"""Hostile and broken documents through the command: refused with 3, by a process that starts none and stays small."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.command.hard_kit import hard_kit
from tests.command.running import PROOF

LARGEST = 4 * 1024 * 1024  # the bound of the contract, not the constant of the code
HEAD = '{"format":"kitproof/1","code":"c","title":"t","unit":"in"'

# Runs the command inside this process and ends with 99 the moment it would start another.
WATCHED = """
import sys
STARTS = {"os.exec", "os.fork", "os.forkpty", "os.posix_spawn", "os.spawn", "os.system", "subprocess.Popen"}

def watch(event, details):
    if event in STARTS:
        import os
        os._exit(99)

sys.addaudithook(watch)
sys.argv = sys.argv[1:]
sys.path.insert(0, sys.argv[0].rpartition("/")[0])
import runpy
runpy.run_path(sys.argv[0], run_name="__main__")
"""

# Runs the command as its only child and tells the most memory that it took, in KiB, after its output.
MEASURED = """
import resource, subprocess, sys
done = subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
print(done.returncode, resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)
"""


def _looping() -> bytes:
    """A thousand pieces, each out of the cut-out of the next, the last out of that of the first."""
    window = {"id": "w", "left": "1", "bottom": "1", "width": "1", "height": "1", "cut_out": "kept"}
    pieces = [
        {"id": f"P{n}", "name": "", "size": ["4", "4"], "from": f"p/P{(n + 1) % 1000}/w", "windows": [window]}
        for n in range(1000)
    ]
    kit = json.loads(f"{HEAD}}}") | {"projects": [{"id": "p", "title": "", "pieces": pieces}]}
    return json.dumps(kit).encode()


def _filled(member: str, before: str = f'{HEAD},"papers":[', after: str = "]}") -> bytes:
    """As many members as 4 MiB hold, but no more than a list may have."""
    most = min(20_000, (LARGEST - len(before) - len(after)) // (len(member) + 1))
    return (before + ",".join([member] * most) + after).encode()


HOSTILE = {
    "brackets": b"[" * LARGEST,
    "quotes": b'"' * LARGEST,
    "white space": b" " * LARGEST,
    "too large": b"[]" * LARGEST,
    "no text": b"\xff" * LARGEST,
    "digits": f'{HEAD},"x_":{"9" * 4_000_000}}}'.encode(),
    "an infinity": f'{HEAD},"x_":Infinity}}'.encode(),
    "one key": b"{" + b",".join([b'"":1'] * 800_000) + b"}",
    "a list of millions": b"[" + b"0," * 2_000_000 + b"0]",
    "unknown fields": (HEAD + "".join(f',"{n}":1' for n in range(330_000)) + "}").encode(),
    "empty papers": _filled("{}"),
    "papers of a wrong kind": _filled("[]"),
    "the same paper again": _filled('{"id":"a","name":"","size":["1","1"],"sheets":1,"front":{"name":""}}'),
    "papers on no pad": _filled('{"id":"a","name":"","pad":"b","sheets":1,"front":{"name":""}}'),
    "a loop of cut-outs": _looping(),
    "counts beyond all bounds": _filled('{"id":"a","name":"","size":["1","1"],"sheets":10001,"front":{"name":""}}'),
    "lengths beyond all bounds": _filled(
        '{"id":"a","name":"","size":["1001 cm","1/3"],"sheets":1,"front":{"name":""}}'
    ),
}


@pytest.fixture(params=HOSTILE, ids=lambda name: name)
def hostile(request, tmp_path) -> Path:
    path: Path = tmp_path / "hostile.json"
    path.write_bytes(HOSTILE[request.param])
    return path


def _watched(*arguments: str | Path) -> subprocess.CompletedProcess[bytes]:
    python, *command = PROOF
    return subprocess.run([python, "-c", WATCHED, *command, *map(str, arguments)], capture_output=True)


def test_a_hostile_document_is_refused_before_any_process_is_started(hostile):
    done = _watched(hostile, "--json")

    assert done.returncode == 3
    refusal = json.loads(done.stdout)
    assert refusal["format"] == "kitproof-refusal/1"
    told = [(error["pointer"], error["code"]) for error in refusal["errors"]]
    assert told == sorted(told)
    assert 1 <= len(told) <= 1001


def test_a_hostile_document_takes_less_than_300_mb(hostile):
    done = subprocess.run([sys.executable, "-c", MEASURED, *PROOF, str(hostile), "--json"], capture_output=True)

    status, kib = map(int, done.stdout.split())
    assert status == 3
    assert kib < 300 * 1000


def test_a_list_that_needs_the_solver_would_be_noticed(tmp_path):
    """The watch itself: this kit cannot be answered without a solver, so the watched command ends with 99."""
    path = tmp_path / "hard.json"
    path.write_bytes(hard_kit(papers=1))

    assert _watched(path).returncode == 99


# Documents that are good and ask for much; none may take memory or time that grows beyond all measure.


def _kit(**members: Any) -> bytes:
    return json.dumps(json.loads(f"{HEAD}}}") | members).encode()


def _oak(**more: Any) -> dict[str, Any]:
    return {"id": "oak", "name": "", "size": ["8", "8"], "sheets": 1, "front": {"name": ""}} | more


def _piece(id_: str, **more: Any) -> dict[str, Any]:
    return {"id": id_, "name": "", "size": ["1", "1"], "paper": "oak"} | more


def _window(size: str) -> dict[str, Any]:
    return {"id": "w", "left": "1/64", "bottom": "1/64", "width": size, "height": size, "cut_out": "kept"}


GREEDY = {
    "a hundred million copies": _kit(
        papers=[_oak()], projects=[{"id": "p", "title": "", "makes": 10_000, "pieces": [_piece("A", count=10_000)]}]
    ),
    "many papers and many pieces": _kit(
        papers=[_oak(id=f"O{n}") for n in range(6_000)],
        projects=[{"id": "p", "title": "", "pieces": [_piece(f"A{n}", paper=f"O{n}") for n in range(6_000)]}],
    ),
    "strips beyond number": _kit(
        papers=[_oak(size=["1", "1"])],
        projects=[
            {
                "id": "p",
                "title": "",
                "forms": [
                    {
                        "id": f"F{n}",
                        "name": "",
                        "as": "concertina",
                        "paper": "oak",
                        "panel": ["7/8", "1/2"],
                        "panels": 10_000,
                    }
                    for n in range(2_000)
                ],
            }
        ],
    ),
    "cut-outs out of cut-outs": _kit(
        papers=[_oak(size=["390", "390"])],
        projects=[
            {
                "id": "p",
                "title": "",
                "pieces": [
                    _piece("P0", size=["389", "389"], windows=[_window("388")]),
                    *(
                        _piece(f"P{n}", size=[f"{388 - n}", f"{388 - n}"], windows=[_window(f"{387 - n}")])
                        | {"paper": None, "from": f"p/P{n - 1}/w"}
                        for n in range(380, 0, -1)
                    ),
                ],
            }
        ],
    ),
    "a cut-out that is asked for everything": _kit(
        papers=[_oak()],
        projects=[
            {
                "id": "p",
                "title": "",
                "pieces": [
                    _piece("H", size=["4", "4"], windows=[_window("2")]),
                    *(_piece(f"G{n}") | {"paper": None, "from": "p/H/w"} for n in range(4_000)),
                ],
            }
        ],
    ),
}


@pytest.mark.parametrize("name", GREEDY)
def test_a_greedy_document_gets_an_answer_within_300_mb(name, tmp_path):
    path = tmp_path / "greedy.json"
    path.write_bytes(GREEDY[name])

    done = subprocess.run([sys.executable, "-c", MEASURED, *PROOF, str(path), "--json"], capture_output=True)

    status, kib = map(int, done.stdout.split())
    assert status in (0, 1, 2)
    assert kib < 300 * 1000
