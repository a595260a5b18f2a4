"""`manage.py sheets` as its users call it: its statuses, the files it writes, and that their bytes never differ."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.command.running import CHECKOUT
from tests.sheets.reading import read_pages

EXAMPLES = CHECKOUT / "kits" / "examples"
CARD = {"id": "card", "name": "Card", "size": ["100", "80"], "sheets": 1, "front": {"name": "Plain"}}
PIECE = {"id": "A", "name": "panel", "paper": "card", "size": ["60", "70"]}


def _kit(**members: Any) -> dict[str, Any]:
    project = {"id": "shelf", "title": "Shelf", "pieces": [PIECE]}
    return {
        "format": "kitproof/1",
        "code": "k",
        "title": "Kit",
        "unit": "mm",
        "papers": [CARD],
        "projects": [project],
    } | members


def _sheets(*arguments: object, **how: Any) -> subprocess.CompletedProcess[bytes]:
    command = [sys.executable, str(CHECKOUT / "manage.py"), "sheets", *map(str, arguments)]
    return subprocess.run(command, **{"cwd": CHECKOUT, "capture_output": True, "input": b"", **how})


@pytest.fixture
def kit(tmp_path):
    path = tmp_path / "kit.json"
    path.write_text(json.dumps(_kit()))
    return path


def test_it_writes_exactly_the_files_of_the_contract_and_tells_of_each(kit, tmp_path):
    done = _sheets(kit, "--out", tmp_path / "new" / "folder")

    assert (done.returncode, done.stdout) == (0, b"")
    names = ["cut-guide.pdf", "shelf.pdf", "templates.pdf"]
    assert sorted(path.name for path in (tmp_path / "new" / "folder").iterdir()) == names
    assert sorted(line.rpartition(": ")[2] for line in done.stderr.decode().splitlines()) == names


def test_files_for_cutting_machines_are_written_where_they_are_asked_for(tmp_path):
    """A window makes a piece one for a machine; a tray with walls that its tabs do not fit has none."""
    window = {"id": "pane", "left": "10", "width": "20", "bottom": "10", "height": "20"}
    tray = {"id": "tray", "name": "tray", "paper": "card", "as": "tray", "inside": ["20", "20"], "depth": "21"}
    project = {"id": "shelf", "title": "Shelf", "pieces": [{**PIECE, "windows": [window]}], "forms": [tray]}
    path = tmp_path / "kit.json"
    path.write_text(json.dumps(_kit(projects=[project])))

    done = _sheets(path, "--out", tmp_path / "out", "--machine")

    assert done.returncode == 0
    assert sorted(one.name for one in (tmp_path / "out" / "machine").iterdir()) == ["shelf-A.dxf", "shelf-A.svg"]
    assert 'width="60mm" height="70mm"' in (tmp_path / "out" / "machine" / "shelf-A.svg").read_text()
    assert "no machine file for project:shelf/form:tray: " in done.stderr.decode()


@pytest.mark.parametrize("sheets", [1, 0], ids=["not enough paper", "none at all"])
def test_the_verdict_makes_no_difference_to_the_status(tmp_path, sheets):
    project = {"id": "shelf", "title": "Shelf", "pieces": [{**PIECE, "count": 2}]}
    path = tmp_path / "kit.json"
    path.write_text(json.dumps(_kit(papers=[{**CARD, "sheets": sheets}], projects=[project])))

    assert _sheets(path, "--out", tmp_path).returncode == 0
    text = "".join(run.text for page in read_pages((tmp_path / "cut-guide.pdf").read_bytes()) for run in page.written)
    assert "no cut plan" in text


def test_what_is_there_already_is_written_over_and_the_rest_is_left_alone(kit, tmp_path):
    (tmp_path / "shelf.pdf").write_bytes(b"old")
    (tmp_path / "other.pdf").write_bytes(b"other")

    assert _sheets("-", "--out", ".", input=kit.read_bytes(), cwd=tmp_path).returncode == 0
    assert (tmp_path / "shelf.pdf").read_bytes().startswith(b"%PDF-1.7")
    assert (tmp_path / "other.pdf").read_bytes() == b"other"


OPTIONS = [
    pytest.param([], (595, 842), "60 × 70", id="millimetres: A4"),
    pytest.param(["--unit", "in"], (612, 792), "2 3⁄8 × 2 3⁄4", id="inches: letter"),
    pytest.param(
        ["--unit", "in", "--page", "a4", "--print", "large", "--cut", "scissors"], (595, 842), "2 3⁄8 × 2 3⁄4", id="all"
    ),
]


@pytest.mark.parametrize(("options", "page", "size"), OPTIONS)
def test_options_choose_page_unit_print_and_words(kit, tmp_path, options, page, size):
    assert _sheets(kit, "--out", tmp_path, *options).returncode == 0
    [first, *_] = read_pages((tmp_path / "shelf.pdf").read_bytes())
    assert (round(first.width), round(first.height)) == page
    assert size in " ".join("".join(run.text for run in first.written).split()).replace("  ", " ")
    [guide, *_] = read_pages((tmp_path / "cut-guide.pdf").read_bytes())
    text = "".join(run.text for run in guide.written)
    assert ("scissors" in text, "trimmer" in text) == ("scissors" in options, "scissors" not in options)
    assert (max(run.size for run in guide.written) > 30) == ("large" in options)


REFUSED = {**_kit(), "unit": "ft"}
STATUSES = [
    pytest.param(["no-such-file", "--out", "."], 66, id="66 no such file"),
    pytest.param([".", "--out", "."], 66, id="66 a folder"),
    pytest.param(["kit.json"], 64, id="64 no folder named"),
    pytest.param(["--out", "."], 64, id="64 no file named"),
    pytest.param(["kit.json", "--out", ".", "--page", "a3"], 64, id="64 no such page"),
    pytest.param(["kit.json", "--out", ".", "--unit", "cm"], 64, id="64 no such unit"),
    pytest.param(["kit.json", "--out", ".", "--print", "huge"], 64, id="64 no such print"),
    pytest.param(["kit.json", "--out", ".", "--cut", "laser"], 64, id="64 no such cut"),
    pytest.param(["refused.json", "--out", "new"], 3, id="3 refused"),
    pytest.param(["kit.json", "--out", "kit.json"], 70, id="70 the folder is a file"),
    pytest.param(["kit.json", "--out", "/dev/null/x"], 70, id="70 no place for a folder"),
    pytest.param(["--help"], 0, id="0 help"),
]


@pytest.mark.parametrize(("arguments", "status"), STATUSES)
def test_what_goes_wrong_has_a_status_and_a_sentence_and_writes_nothing(kit, tmp_path, arguments, status):
    (tmp_path / "refused.json").write_text(json.dumps(REFUSED))
    before = sorted(tmp_path.iterdir())

    done = _sheets(*arguments, cwd=tmp_path)
    assert done.returncode == status
    assert sorted(tmp_path.iterdir()) == before
    assert b"Traceback" not in done.stderr
    assert (done.stderr if status else done.stdout).strip()
    if status == 70:
        assert b"cannot be written to: " in done.stderr


def test_a_file_that_cannot_be_written_is_named_in_a_sentence(kit, tmp_path):
    (tmp_path / "shelf.pdf").mkdir()

    done = _sheets(kit, "--out", tmp_path)
    assert done.returncode == 70
    assert f"{tmp_path} cannot be written to: Is a directory".encode() in done.stderr


def test_the_same_document_gives_the_same_bytes_wherever_it_is_set(tmp_path):
    """Another order of sets, another zone, another language, another place: nothing of it may be in the file."""
    odd = {**os.environ, "PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo", "LC_ALL": "C", "DEBUG": "1"}
    for name, environment in (("one", {**os.environ, "PYTHONHASHSEED": "1"}), ("two", odd)):
        example = EXAMPLES / "harbour-office.json"
        assert _sheets(example, "--out", tmp_path / name, "--print", "large", env=environment).returncode == 0
    one, two = ({path.name: path.read_bytes() for path in Path(tmp_path, name).iterdir()} for name in ("one", "two"))
    assert one == two
    assert len(one) == 5
