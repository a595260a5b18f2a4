"""Proofs in a row leave nothing behind: no memory, no child process, no open file, no thread.

Two hundred were seen to (`python -m tests.hostile.many_proofs 200`); here it is fewer, for every day.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
KITS = 48
# A proof needs some MB while it is made: kept from one of four alone, that would be more than this.
MOST_KILOBYTES = 8 << 10


def test_proofs_in_a_row_leave_nothing_behind():
    command = [sys.executable, "-m", "tests.hostile.many_proofs", str(KITS)]
    told = json.loads(subprocess.run(command, cwd=ROOT, stdout=subprocess.PIPE, check=True).stdout)
    settled, end = told["settled"], told["end"]
    assert end["children"] == 0
    assert (end["files"], end["threads"]) == (settled["files"], settled["threads"])
    assert end["kilobytes"] - settled["kilobytes"] < MOST_KILOBYTES
