"""Lists that are none, or beyond all sense: refused, or answered, with a sentence and before any solver is started."""

from __future__ import annotations

import json
import subprocess
from typing import Any

import pytest

from layouts.cutting import Solver, solve
from layouts.document import Refused, read_kit
from layouts.proofing import prove_at_once
from tests.unit.cutting.plans import problem


def _kit(size: list[Any], count: Any, sheets: Any = 2) -> bytes:
    piece = {"id": "A", "name": "a piece", "paper": "oak", "size": size, "count": count}
    paper = {"id": "oak", "name": "Oak", "size": ["8", "8"], "sheets": sheets, "front": {"name": "Oak"}}
    kit = {"format": "kitproof/1", "code": "bad", "title": "Bad", "unit": "in", "papers": [paper]}
    return json.dumps(kit | {"projects": [{"id": "one", "title": "One", "pieces": [piece]}]}).encode()


@pytest.fixture
def no_solver(monkeypatch):
    def started(*_: Any, **__: Any) -> None:
        raise AssertionError("a child process was started")

    monkeypatch.setattr(subprocess, "Popen", started)


@pytest.mark.usefixtures("no_solver")
@pytest.mark.parametrize(
    ("size", "count", "sheets", "words"),
    [
        pytest.param(["2", "3"], 0, 2, "whole number from 1", id="no copies"),
        pytest.param(["2", "3"], -4, 2, "whole number from 1", id="fewer copies than none"),
        pytest.param(["2", "3"], 10_001, 2, "to 10,000", id="too many copies"),
        pytest.param(["2", "3"], 10**30, 2, "to 10,000", id="an enormous number of copies"),
        pytest.param(["2", "3"], 1.5, 2, "whole number", id="half a copy"),
        pytest.param(["2", "3"], 4, -1, "from 0", id="fewer sheets than none"),
        pytest.param(["2", "3"], 4, 10**9, "to 10,000", id="an enormous number of sheets"),
        pytest.param(["0", "3"], 4, 2, "", id="no width"),
        pytest.param(["-2", "3"], 4, 2, "", id="a width below nothing"),
        pytest.param(["2", "9" * 40], 4, 2, "", id="an enormous height"),
        pytest.param(["2", "1e9"], 4, 2, "", id="a height with an exponent"),
        pytest.param(["2", "3/0"], 4, 2, "", id="a height over nothing"),
    ],
)
def test_what_is_no_list_is_refused_with_a_sentence(size, count, sheets, words):
    with pytest.raises(Refused) as raised:
        read_kit(_kit(size, count, sheets))
    (fault,) = raised.value.errors
    assert words in fault.message
    assert " " in fault.message.strip()


@pytest.mark.usefixtures("no_solver")
@pytest.mark.parametrize(
    ("sheets", "verdict"),
    [
        # 10,000 times 6 square inches, on sheets of 64: 938 by area.
        pytest.param(2, "short", id="more paper than there is"),
        pytest.param(10_000, "fits", id="a sheet for each"),
    ],
)
def test_ten_thousand_copies_are_answered_without_asking_anyone(sheets, verdict):
    with Solver() as solver:
        assert solve(problem(128, 128, sheets, [(32, 48, 10_000)]), solver).verdict == verdict


def test_ten_thousand_copies_are_told_as_more_paper_than_there_is():
    proof = prove_at_once(read_kit(_kit(["2", "3"], 10_000)))
    (finding,) = [one for one in proof["findings"] if one["weight"] == "stop"]
    assert finding["rule"] == "paper-short"
    assert "at least 938" in finding["message"]
