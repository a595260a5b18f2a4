"""`manage.py mends`: what it lists, what it makes in the document, and its statuses 0, 3, 64, 66 and 70."""

from __future__ import annotations

import hashlib
import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.command.running import CHECKOUT, proof

ONE_WAY = {"name": "Oak leaves", "reads": "up", "repeat": "one-way"}
PANE = {"id": "pane", "left": "1", "bottom": "1", "width": "50", "height": "50"}


def _piece(id_: str, width: str, height: str, **more: Any) -> dict[str, Any]:
    return {"id": id_, "name": f"piece {id_}", "paper": "oak", "size": [width, height], **more}


def _kit(**more: Any) -> dict[str, Any]:
    """A frame that fills most of a sheet of 100 x 80 mm, and a piece that could come out of its window."""
    oak = {"id": "oak", "name": "Oak", "size": ["100", "80"], "sheets": 1, "front": ONE_WAY, **more}
    pieces = [_piece("A", "90", "80", windows=[PANE]), _piece("B", "40", "50")]
    steps = [{"id": "s", "text": "", "cut": ["A", "B"], "use": [{"piece": "A"}, {"piece": "B"}]}]
    project = {"id": "p", "title": "P", "pieces": pieces, "steps": steps}
    return {"format": "kitproof/1", "code": "k", "title": "K", "unit": "mm", "papers": [oak], "projects": [project]}


SHORT = _kit()
FITS = _kit(sheets=2)


def mends(*arguments: str | Path, document: bytes = b"") -> subprocess.CompletedProcess[bytes]:
    command = [sys.executable, str(CHECKOUT / "manage.py"), "mends", *map(str, arguments)]
    return subprocess.run(command, cwd=CHECKOUT, capture_output=True, input=document)


@pytest.fixture
def written(tmp_path):
    def written(content: Any) -> Path:
        path: Path = tmp_path / "kit.json"
        path.write_text(json.dumps(content))
        return path

    return written


def test_mends_of_short_prints_and_ideas_of_the_others_are_listed_by_number(written):
    # 90 x 80 and 40 x 50 are 92 of the 80 square centimetres of a sheet.
    kit = {**SHORT, "papers": [*SHORT["papers"], {**FITS["papers"][0], "id": "ash", "name": "Ash", "pad": None}]}
    other = {**_kit()["projects"][0], "id": "q", "title": "Q"}
    other["pieces"] = [{**piece, "paper": "ash"} for piece in other["pieces"]]
    done = mends(written({**kit, "projects": [*SHORT["projects"], other]}))
    assert (done.returncode, done.stderr) == (0, b"")
    lines = done.stdout.decode().splitlines()
    assert lines[0] == "Oak is short. Any one of these would do:"
    assert lines[1].startswith("   1  Cut B, piece B, out of the window pane of A, piece A")
    assert "Ash fits. Any of these would save paper:" in lines


def test_the_list_as_json_holds_what_the_proof_holds(written):
    path = written(SHORT)
    done = mends(path, "--json")
    listed = json.loads(done.stdout)
    assert (done.returncode, listed["format"]) == (0, "kitproof-mends/1")
    proved = json.loads(proof(path, "--json").stdout)
    assert listed["document"] == proved["document"]
    (finding,) = [one for one in proved["findings"] if one["rule"] == "paper-short"]
    assert listed["mends"] == [
        {"number": number, "at": "paper:oak", "kind": "mend", **one}
        for number, one in enumerate(finding["mend"], start=1)
    ]
    assert [one["cost"]["sheets"] for one in listed["mends"]] == [0, 1]


@pytest.mark.parametrize(
    ("kit", "sheets"), [pytest.param(SHORT, 1, id="a mend"), pytest.param(FITS, 1, id="an idea that saves a sheet")]
)
def test_what_is_taken_is_made_in_the_document(written, tmp_path, kit, sheets):
    path, out = written(kit), tmp_path / "mended.json"
    done = mends(path, "--take", "1", "--out", out)
    assert (done.returncode, done.stdout, done.stderr) == (0, b"", b"")
    assert mends(path, "--take", "1").stdout == out.read_bytes()
    proved = json.loads(proof(out, "--json").stdout)
    # Canonical: its bytes are what the proof names by their hash.
    assert proved["document"] == hashlib.sha256(out.read_bytes()).hexdigest()
    assert proved["verdict"] == "ready"
    assert [(one["verdict"], one["sheets"]) for one in proved["papers"]] == [("fits", sheets)]
    piece = json.loads(out.read_bytes())["projects"][0]["pieces"][1]
    assert (piece["from"], "paper" in piece) == ("p/A/pane", False)


def test_a_kit_for_which_nothing_is_found_has_an_empty_list(written):
    kit = _kit()
    kit["projects"][0]["pieces"] = [_piece("A", "90", "80"), _piece("B", "10", "50")]
    path = written(kit)
    assert mends(path).stdout == b"No print is short, and nothing saves paper.\n"
    assert json.loads(mends(path, "--json").stdout)["mends"] == []


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        pytest.param(["--take", "3"], "there is no number 3: the list ends at 2", id="a number beyond the list"),
        pytest.param(["--take", "0"], "there is no number 0", id="a number before the list"),
        pytest.param(["--take", "one"], "invalid int value", id="no number"),
        pytest.param(["--out", "x"], "--out goes with --take", id="a file and nothing to write"),
        pytest.param(["--json", "--take", "1"], "not allowed", id="a list and a document at once"),
    ],
)
def test_wrong_usage_is_64_and_writes_nothing(written, arguments, words):
    done = mends(written(SHORT), *arguments)
    assert (done.returncode, done.stdout) == (64, b"")
    assert words in done.stderr.decode()


def test_refusals_and_files_that_cannot_be_read_or_written_have_their_statuses(written, tmp_path):
    refused = mends(written({**SHORT, "unit": "ft"}), "--json")
    assert (refused.returncode, json.loads(refused.stdout)["format"]) == (3, "kitproof-refusal/1")
    assert mends(tmp_path / "none.json").returncode == 66
    path = written(SHORT)
    unwritable = mends(path, "--take", "1", "--out", tmp_path / "none" / "out.json")
    assert (unwritable.returncode, unwritable.stdout) == (70, b"")
    assert "cannot be written" in unwritable.stderr.decode()


def test_the_document_may_come_on_standard_input(written):
    data = json.dumps(SHORT).encode()
    assert mends("-", document=data).stdout == mends(written(SHORT)).stdout
