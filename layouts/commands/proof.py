"""`manage.py proof FILE`: read a kit document, prove it, and say what is wrong."""

from __future__ import annotations

import argparse
import gc
import sys

from layouts.commands.document import REFUSED, read_or_refuse
from layouts.proofing import proof_text, prove_at_once, report

__all__ = ["SUMMARY", "add_arguments", "run"]

SUMMARY = "Prove a kit document: does everything fit the paper in the box, in which order, and what is wrong?"

_EXITS = {"ready": 0, "not-ready": 1, "unknown": 2}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", metavar="FILE", help="a kit document (kitproof/1), or - for standard input")
    parser.add_argument("--json", action="store_true", help="print the proof (kitproof-proof/1) instead of a report")
    parser.epilog = (
        "Exit status: 0 ready, 1 not ready, 2 unknown, 3 refused, 64 wrong usage, 66 unreadable file, 70 defect."
    )


def run(options: argparse.Namespace) -> int:
    """Print the proof or the refusal; return 0 ready, 1 not ready, 2 unknown, 3 refused. Raises: UnreadableFile."""
    # The process ends with the answer: looking for garbage costs a hostile document's reader most of its time.
    gc.disable()
    kit = read_or_refuse(options.file, as_json=options.json)
    if kit is None:
        return REFUSED
    proof = prove_at_once(kit)
    sys.stdout.write(proof_text(proof) if options.json else report(kit, proof))
    return _EXITS[proof["verdict"]]
