"""A proof put together from kept answers."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from layouts.cutting import Solver
from layouts.document import read_kit
from layouts.proofing import PrintAnswer, Questions, answer_from_json, answer_to_json, proof_text, prove_print

CHECKOUT = Path(__file__).resolve().parents[3]


@pytest.mark.parametrize("example", ["potting-shed", "harbour-office", "winter-stall-broken"])
def test_kept_answers_give_the_bytes_that_the_command_prints(example):
    file = CHECKOUT / "kits" / "examples" / f"{example}.json"
    kit = read_kit(file.read_bytes())
    questions = Questions(kit)
    kept: dict[str, PrintAnswer] = {}
    with Solver() as solver:
        while open_ := questions.open(kept):
            for part in open_:
                kept[part.key] = answer_from_json(answer_to_json(prove_print(part, solver)), part)
    proof = questions.proof(kept)
    command = [sys.executable, "manage.py", "proof", str(file), "--json"]
    printed = subprocess.run(command, cwd=CHECKOUT, capture_output=True, check=False).stdout
    assert proof_text(proof).encode() == printed
