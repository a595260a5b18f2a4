"""A proof put together from kept answers."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from layouts.cutting import Solver
from layouts.document import read_kit
from layouts.proofing import answer_from_json, answer_to_json, print_parts, proof_text, prove, prove_print

CHECKOUT = Path(__file__).resolve().parents[3]


@pytest.mark.parametrize("example", ["potting-shed", "harbour-office", "winter-stall-broken"])
def test_kept_answers_give_the_bytes_that_the_command_prints(example):
    file = CHECKOUT / "kits" / "examples" / f"{example}.json"
    kit = read_kit(file.read_bytes())
    with Solver() as solver:
        kept = [(part, answer_to_json(prove_print(part, solver))) for part in print_parts(kit)]
    proof = prove(kit, [answer_from_json(text, part) for part, text in kept])
    command = [sys.executable, "manage.py", "proof", str(file), "--json"]
    printed = subprocess.run(command, cwd=CHECKOUT, capture_output=True, check=False).stdout
    assert proof_text(proof).encode() == printed
