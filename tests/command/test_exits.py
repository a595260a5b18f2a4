"""The statuses and streams of `manage.py proof`: 0 ready, 1 not ready, 2 unknown, 3 refused, 64, 66, 70."""

from __future__ import annotations

import ctypes
import json
import os
import subprocess
import threading
from pathlib import Path
from typing import Any

import pytest

from tests.command.running import EXAMPLES, PROOF, proof, started

LARGEST = 4 * 1024 * 1024  # the bound of the contract, not the constant of the code
HEAD = {"format": "kitproof/1", "code": "k", "title": "A kit", "unit": "mm"}
OAK = {"id": "oak", "name": "Oak", "size": ["100", "80"], "sheets": 1, "front": {"name": "F"}}


def _kit(*pieces: dict[str, Any], **more: Any) -> dict[str, Any]:
    """A kit whose one step cuts and uses all its pieces."""
    letters = [piece["id"] for piece in pieces]
    use = [{"piece": letter} for letter in letters]
    project = {"id": "p", "title": "P", "pieces": list(pieces)}
    project["steps"] = [{"id": "s", "text": "", "cut": letters, "use": use}]
    return {**HEAD, "papers": [OAK], "projects": [project], **more}


def _piece(id_: str, width: str, height: str, **more: Any) -> dict[str, Any]:
    return {"id": id_, "name": "a piece", "paper": "oak", "size": [width, height], **more}


READY = _kit(_piece("A", "30", "20"))
NOT_READY = _kit(_piece("A", "60", "70", count=2))
# More copies than any search takes on, on paper enough for all of them.
UNKNOWN = _kit(_piece("A", "1", "1", count=10_000), _piece("B", "1", "1"), papers=[{**OAK, "sheets": 9}])
REFUSED = {**READY, "unit": "ft"}

ANSWERS = [
    pytest.param(READY, 0, "ready", id="0 ready"),
    pytest.param(NOT_READY, 1, "not-ready", id="1 not ready"),
    pytest.param(UNKNOWN, 2, "unknown", id="2 unknown"),
]


@pytest.fixture
def written(tmp_path):
    def written(content: Any, name: str = "kit.json") -> Path:
        path: Path = tmp_path / name
        path.write_bytes(content if isinstance(content, bytes) else json.dumps(content).encode())
        return path

    return written


@pytest.mark.parametrize(("kit", "status", "verdict"), ANSWERS)
def test_a_proof_is_printed_as_json(written, kit, status, verdict):
    done = proof(written(kit), "--json")

    assert (done.returncode, done.stderr) == (status, b"")
    printed = json.loads(done.stdout)
    assert (printed["format"], printed["verdict"]) == ("kitproof-proof/1", verdict)


@pytest.mark.parametrize(("kit", "status", "verdict"), ANSWERS)
def test_a_proof_is_printed_as_a_report(written, kit, status, verdict):
    done = proof(written(kit))

    assert (done.returncode, done.stderr) == (status, b"")
    words = {"ready": "READY.", "not-ready": "NOT READY.", "unknown": "UNKNOWN."}[verdict]
    assert f" {words} " in done.stdout.decode()


@pytest.mark.parametrize(("kit", "status", "verdict"), ANSWERS)
def test_a_document_may_come_on_standard_input(written, kit, status, verdict):
    data = json.dumps(kit).encode()

    done = proof("-", "--json", input=data)

    assert (done.returncode, json.loads(done.stdout)["verdict"]) == (status, verdict)
    assert done.stdout == proof(written(kit), "--json").stdout


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_the_examples_say_what_they_are(example):
    assert proof(example).returncode == (1 if example.stem.endswith("broken") else 0)


def test_a_refusal_as_json_goes_to_standard_output_and_words_to_standard_error(written):
    done = proof(written(REFUSED), "--json")

    assert done.returncode == 3
    refusal = json.loads(done.stdout)
    assert list(refusal) == ["format", "errors"]
    assert refusal["format"] == "kitproof-refusal/1"
    (error,) = refusal["errors"]
    assert (sorted(error), error["pointer"], error["code"]) == (["code", "message", "pointer"], "/unit", "out-of-range")
    assert b"/unit" in done.stderr


def test_a_refusal_without_json_leaves_standard_output_empty(written):
    done = proof(written(REFUSED))

    assert (done.returncode, done.stdout) == (3, b"")
    assert done.stderr.decode().startswith("The document is refused: 1 error.\n  /unit\n")


def test_all_errors_of_a_refusal_are_sorted_by_their_pointers(written):
    papers = [{**OAK, "sheets": -1}, {**OAK, "id": "b d", "size": ["1", "0"]}, {**OAK, "front": None}]
    kit = {**HEAD, "zeta": 1, "alpha": 1, "papers": papers, "unit": 3}

    errors = json.loads(proof(written(kit), "--json").stdout)["errors"]

    told = [(error["pointer"], error["code"]) for error in errors]
    assert told == sorted(told)
    assert told == [
        ("/alpha", "unknown-field"),
        ("/papers/0/sheets", "out-of-range"),
        ("/papers/1/id", "bad-id"),
        ("/papers/1/size/1", "out-of-range"),
        ("/papers/2/front", "wrong-type"),
        ("/papers/2/id", "duplicate-id"),
        ("/unit", "wrong-type"),
        ("/zeta", "unknown-field"),
    ]


def test_a_pointer_with_a_lone_surrogate_is_printed(written):
    done = proof(written(b'{"format": "kitproof/1", "\\ud800": 1}'), "--json")

    assert done.returncode == 3
    pointers = {error["pointer"] for error in json.loads(done.stdout)["errors"]}
    assert "/\ud800" in pointers
    done.stdout.decode("ascii")
    done.stderr.decode("utf-8")


@pytest.mark.parametrize(
    ("content", "code"),
    [
        pytest.param(b"", "not-json", id="nothing"),
        pytest.param(b"{", "not-json", id="half a document"),
        pytest.param(b"\xff\xfe{}", "byte-order-mark", id="a byte-order mark"),
        pytest.param(b"[" * 100, "too-deep", id="too deep"),
        pytest.param(b" " * (LARGEST + 1), "too-large", id="too large"),
    ],
)
def test_what_cannot_be_read_as_json_is_refused_at_the_root(written, content, code):
    done = proof(written(content), "--json")

    assert done.returncode == 3
    assert [(error["pointer"], error["code"]) for error in json.loads(done.stdout)["errors"]] == [("", code)]


def test_the_largest_document_is_read(written):
    kit = json.dumps(READY).encode()

    assert proof(written(kit + b" " * (LARGEST - len(kit)))).returncode == 0
    assert proof(written(kit + b" " * (LARGEST + 1 - len(kit)))).returncode == 3


def test_no_more_than_a_byte_beyond_the_largest_document_is_read(written):
    path = written(b" " * (LARGEST + 100_000))
    with open(path, "rb") as file:
        done = proof("-", "--json", stdin=file)

        assert done.returncode == 3
        # The command read by the same descriptor: it stands where it stopped.
        assert os.lseek(file.fileno(), 0, os.SEEK_CUR) == LARGEST + 1


@pytest.mark.parametrize("name", ["-", "the fifo itself"])
def test_a_pipe_that_never_ends_is_refused_once_it_is_too_large(tmp_path, name):
    fifo = tmp_path / "fifo"
    os.mkfifo(fifo)
    ended = threading.Event()

    def pour() -> None:
        with open(fifo, "wb", buffering=0) as pipe:
            left = LARGEST + 1
            while left:
                left -= pipe.write(b" " * min(left, 1 << 16))
            ended.wait(60)  # it stays open: the command must not wait for its end

    pouring = threading.Thread(target=pour)
    pouring.start()
    try:
        if name == "-":
            with open(fifo, "rb") as pipe, started("-", "--json", stdin=pipe) as process:
                out, _ = process.communicate(timeout=60)
        else:
            with started(fifo, "--json") as process:
                out, _ = process.communicate(timeout=60)
    finally:
        ended.set()
        pouring.join()

    assert process.returncode == 3
    assert [error["code"] for error in json.loads(out)["errors"]] == ["too-large"]


@pytest.mark.parametrize(
    "arguments",
    [
        pytest.param([], id="no file"),
        pytest.param(["--json"], id="no file but an option"),
        pytest.param(["a.json", "b.json"], id="two files"),
        pytest.param(["a.json", "--yaml"], id="an unknown option"),
        pytest.param(["a.json", "--jso"], id="half an option"),
        pytest.param(["a.json", "-x"], id="an unknown letter"),
        pytest.param(["a.json", "--json=yes"], id="a value where none belongs"),
        pytest.param(["a.json", "--settings=config.settings"], id="an option of another house"),
    ],
)
def test_wrong_usage_is_64_and_says_how_it_is_right(arguments):
    done = proof(*arguments)

    assert (done.returncode, done.stdout) == (64, b"")
    assert done.stderr.startswith(b"usage: manage.py proof")


def test_help_is_no_error():
    done = proof("--help")

    assert (done.returncode, done.stderr) == (0, b"")
    assert b"usage: manage.py proof" in done.stdout


@pytest.mark.parametrize(
    "path",
    [
        pytest.param("nowhere.json", id="missing"),
        pytest.param(".", id="a directory"),
        pytest.param("kit.json/inside", id="inside a file"),
        pytest.param("n" * 300, id="a name too long"),
        pytest.param("loop", id="a link to itself"),
        pytest.param("", id="no name"),
        pytest.param("/proc/self/mem", id="opens and cannot be read"),
        pytest.param("n\udcffwhere.json", id="a name that is no text"),
    ],
)
@pytest.mark.parametrize("options", [[], ["--json"]], ids=["report", "json"])
def test_an_unreadable_file_is_66(written, path, options):
    folder = written(READY).parent
    (folder / "loop").symlink_to("loop")

    done = proof(path, *options, cwd=folder)

    assert (done.returncode, done.stdout) == (66, b"")
    assert b"cannot be read" in done.stderr
    assert b"Traceback" not in done.stderr


def _without_roots_keys() -> None:
    """Root reads everything: give up the two capabilities by which it does, where this process has them."""
    drop, override, search = 24, 1, 2
    for capability in (override, search):
        ctypes.CDLL(None).prctl(drop, capability)


def test_a_file_without_permission_is_66(written):
    path = written(READY)
    path.chmod(0)

    done = proof(path, preexec_fn=_without_roots_keys)

    assert (done.returncode, done.stdout) == (66, b"")
    assert b"Permission denied" in done.stderr


def test_a_closed_standard_input_is_66():
    done = subprocess.run(["sh", "-c", 'exec "$@" <&-', "sh", *PROOF, "-"], capture_output=True)

    assert (done.returncode, done.stdout) == (66, b"")
    assert b"cannot be read" in done.stderr


@pytest.mark.parametrize("options", [[], ["--json"]], ids=["report", "json"])
def test_an_answer_that_cannot_be_written_is_70(written, options):
    with open("/dev/full", "wb") as full:
        done = proof(written(READY), *options, stdout=full)

    assert done.returncode == 70
    assert b"No space left" in done.stderr
