"""`manage.py proof FILE`: read a kit document, prove it, and say what is wrong."""

from __future__ import annotations

import argparse
import gc
import json
import os
import sys
from typing import Any

from layouts.document import Refused, read_kit
from layouts.document.tree import LARGEST
from layouts.errors import UnreadableFile
from layouts.proofing import proof_text, prove_at_once, refusal_report, report

__all__ = ["SUMMARY", "add_arguments", "run"]

SUMMARY = "Prove a kit document: does everything fit the paper in the box, in which order, and what is wrong?"

_EXITS = {"ready": 0, "not-ready": 1, "unknown": 2}
_REFUSED = 3


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
    try:
        kit = read_kit(_contents(options.file))
    except Refused as refusal:
        sys.stderr.write(refusal_report(refusal.errors))
        if options.json:
            # Pointers may quote lone surrogates of the document: ASCII carries them where UTF-8 cannot.
            sys.stdout.write(json.dumps(_refusal(refusal), indent=1) + "\n")
        return _REFUSED
    proof = prove_at_once(kit)
    if options.json:
        sys.stdout.write(proof_text(proof))
    else:
        sys.stdout.write(report(kit, proof))
    return _EXITS[proof["verdict"]]


def _contents(name: str) -> bytes:
    """Read no more than a byte beyond the largest document: that byte makes it too large. Raises: UnreadableFile."""
    try:
        if name == "-":
            if sys.stdin is None:
                raise UnreadableFile("standard input cannot be read: it is closed")
            return _read(sys.stdin.fileno())
        with open(name, "rb", buffering=0) as file:
            return _read(file.fileno())
    except OSError as error:
        raise UnreadableFile(f"{name} cannot be read: {error.strerror or error}") from error


def _read(descriptor: int) -> bytes:
    # Unbuffered: a buffer would take more from a pipe than was asked for.
    chunks = []
    left = LARGEST + 1
    while left and (chunk := os.read(descriptor, left)):
        chunks.append(chunk)
        left -= len(chunk)
    return b"".join(chunks)


def _refusal(refusal: Refused) -> dict[str, Any]:
    return {
        "format": "kitproof-refusal/1",
        "errors": [{"pointer": one.pointer, "code": one.code, "message": one.message} for one in refusal.errors],
    }
