"""How every command of the contract gets its kit document: read, or refused with every error."""

from __future__ import annotations

import json
import os
import sys
from typing import Any

from layouts.document import Kit, Refused, read_kit
from layouts.document.tree import LARGEST
from layouts.errors import UnreadableFile
from layouts.proofing.report import refusal_report

__all__ = ["REFUSED", "read_or_refuse"]

# The status of every command for a document that is refused.
REFUSED = 3


def read_or_refuse(name: str, *, as_json: bool = False) -> Kit | None:
    """Return the kit of a file (`-`: standard input), or None once its refusal is told.

    People are told on standard error; `as_json` says it on standard output as well. Raises: UnreadableFile.
    """
    try:
        return read_kit(_contents(name))
    except Refused as refusal:
        sys.stderr.write(refusal_report(refusal.errors))
        if as_json:
            # Pointers may quote lone surrogates of the document: ASCII carries them where UTF-8 cannot.
            sys.stdout.write(json.dumps(_refusal(refusal), indent=1) + "\n")
        return None


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
