"""The same document gives the same bytes: whoever asks, from wherever, in whatever order of hashes and on one core."""

from __future__ import annotations

import os
import subprocess
from functools import cache
from pathlib import Path

import pytest

from layouts.document import read_kit
from layouts.proofing import proof_text, prove_at_once
from tests.command.running import EXAMPLES, PROOF, proof

OUTPUTS = [pytest.param(("--json",), id="json"), pytest.param((), id="report")]
DOCUMENTS = [pytest.param(path, id=path.stem) for path in EXAMPLES]


@cache
def _usual(document: Path, options: tuple[str, ...]) -> tuple[int, bytes, bytes]:
    done = proof(document, *options)
    return done.returncode, done.stdout, done.stderr


def _one_core() -> None:
    os.sched_setaffinity(0, {min(os.sched_getaffinity(0))})


@pytest.mark.parametrize("options", OUTPUTS)
@pytest.mark.parametrize("document", DOCUMENTS)
@pytest.mark.parametrize(
    "changed",
    [
        pytest.param({}, id="a second time"),
        pytest.param(
            {"cwd": "/", "env": {"PYTHONHASHSEED": "1", "LC_ALL": "C", "TZ": "Pacific/Chatham", "PATH": "/nowhere"}},
            id="from the root, in the C locale, far away",
        ),
        pytest.param(
            {
                "env": {
                    "PYTHONHASHSEED": "4294967295",
                    "LC_ALL": "POSIX",
                    "PYTHONUTF8": "0",
                    "PYTHONIOENCODING": "latin-1",
                }
            },
            id="on a terminal that knows no letters",
        ),
        pytest.param(
            {"env": {"PYTHONHASHSEED": "0", "LANG": "xx_XX.UTF-8", "COLUMNS": "20", "LINES": "5", "TZ": "nonsense"}},
            id="in a locale that is not there",
        ),
        pytest.param({"env": {}, "preexec_fn": _one_core}, id="without any environment, on one core"),
    ],
)
def test_two_runs_give_the_same_bytes(document, options, changed, tmp_path):
    changed = {"cwd": tmp_path, **changed}

    done = proof(document, *options, **changed)

    assert (done.returncode, done.stdout, done.stderr) == _usual(document, options)


@pytest.mark.parametrize("document", DOCUMENTS)
def test_the_bytes_are_those_of_the_proof_itself(document):
    """What is stored of a proof elsewhere is what the command prints."""
    assert _usual(document, ("--json",))[1].decode() == proof_text(prove_at_once(read_kit(document.read_bytes())))


@pytest.mark.parametrize("options", OUTPUTS)
@pytest.mark.parametrize("document", DOCUMENTS)
def test_several_runs_at_once_give_the_same_bytes(document, options):
    at_once = [
        subprocess.Popen([*PROOF, str(document), *options], stdout=subprocess.PIPE, stdin=subprocess.DEVNULL)
        for _ in range(3)
    ]

    outputs = [process.communicate()[0] for process in at_once]

    assert outputs == [_usual(document, options)[1]] * 3
