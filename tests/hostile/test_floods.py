"""Documents that try to cost as much as 4 MiB can: refused with their codes, in bounded memory.

Time is not judged here, since machines differ; `python -m tests.hostile` measures it. What took time that grows with
the square of a document's size would not end within these tests at all.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from tests.hostile.floods import FLOODS, MOST

ROOT = Path(__file__).parents[2]

# What each is refused for; where there are more than a thousand errors, the codes of those that are told.
CODES = {
    "whole numbers where pieces belong": {"more-errors", "wrong-type"},
    "texts where pieces belong": {"more-errors", "wrong-type"},
    "empty pieces": {"missing", "more-errors"},
    "pieces with an unknown field": {"missing", "more-errors", "unknown-field"},
    "pieces of nothing but a field of their own": {"missing", "more-errors"},
    "pieces of nothing but an empty list of windows": {"missing", "more-errors"},
    "empty forms": {"missing", "more-errors"},
    "trays without anything": {"missing", "more-errors"},
    "forms of no construction": {"more-errors", "out-of-range"},
    "placements of many copies": {"missing", "more-errors"},
    "steps with much that is used": {"missing", "more-errors", "not-together"},
    "pieces with bad lengths": {"missing", "more-errors", "not-a-length"},
    "pieces with long bad lengths": {"missing", "more-errors", "not-a-length"},
    "pieces with paper and cut-out": {"more-errors", "not-together"},
    "pieces with texts that are refused": {"bad-text", "more-errors", "wrong-type"},
    "unknown fields in one object": {"more-errors", "unknown-field"},
    "unknown fields in many objects": {"missing", "more-errors", "unknown-field"},
    "opening brackets": {"too-deep"},
    "brackets to and fro": {"too-many"},
    "closing brackets": {"not-json"},
    "a string that never ends, of escaped quotes": {"not-json"},
    "quotes": {"not-json"},
    "empty strings in lists": {"too-many"},
    "one key again and again": {"duplicate-key"},
    "every key twice": {"duplicate-key", "more-errors"},
    "keys equal after composition": {"duplicate-key", "more-errors"},
    "objects with a key twice": {"duplicate-key", "more-errors"},
    "lists too long": {"too-many"},
    "a list of millions of lists": {"too-many"},
    "a list of millions of objects": {"too-many"},
    "a whole number of millions of digits": {"out-of-range"},
    "an exponent of millions of digits": {"wrong-type"},
    "combining marks in a text": {"unknown-field"},
    "combining marks in a key": {"unknown-field"},
    "marks that hide as letters": {"unknown-field"},
    "letters with marks": {"unknown-field"},
    "a long text with a newline": {"unknown-field"},
    "texts that are refused in a field of one's own": {"bad-text", "more-errors"},
    "numbers that are refused in a field of one's own": {"more-errors", "wrong-type"},
    "one id of millions of letters, and references to it": {"bad-id", "missing", "wrong-type"},
    "one reference of millions of letters": {"unknown-id"},
    "unknown ids beside many known ones": {"more-errors", "unknown-id"},
    "unknown ids, as many as are told": {"unknown-id"},
    "a loop of cut-outs": {"more-errors", "own-cut-out"},
    "a chain of cut-outs into a small loop": {"own-cut-out"},
    "many steps that close things, and many blanks": {"duplicate-id"},
    "many projects, and many blanks": {"duplicate-id"},
    "the same id all over": {"duplicate-id", "more-errors"},
    "many papers for one piece": {"duplicate-id", "more-errors", "out-of-range", "unknown-id"},
    "outlines of many corners": {"out-of-range"},
    "outlines of many corners off the grid": {"more-errors", "off-grid"},
    "steps that wait for many others": {"duplicate-id"},
    "a valid document with one fault at its end": {"missing"},
    "very many copies, and a fault": {"unknown-id"},
    "very many copies with nulls, and a fault": {"unknown-id"},
    "very many things used, and a fault": {"unknown-id"},
    "very many scores, and a fault": {"unknown-id"},
    "lengths that all differ, and a fault": {"out-of-range"},
}


@pytest.mark.parametrize("name", FLOODS)
def test_a_flood_is_refused_in_bounded_memory(name):
    data = FLOODS[name]()
    assert 1024 * 1024 < len(data) <= MOST
    command = [sys.executable, "-m", "tests.hostile.measured"]
    done = subprocess.run(command, input=data, capture_output=True, cwd=ROOT, check=True)
    measured = json.loads(done.stdout)
    codes = {code for _, code in measured["told"]}
    assert codes == CODES[name]
    assert len(measured["told"]) <= 1001
    assert measured["peak_mb"] < 300
