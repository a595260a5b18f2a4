"""`manage.py mends FILE`: what would mend prints that are short or save paper of others, and one of it made."""

from __future__ import annotations

import argparse
import gc
import json
import sys

from layouts.commands.document import REFUSED, read_or_refuse
from layouts.document import Change, canonical_bytes, changed
from layouts.errors import UnwritableFile, WrongUsage
from layouts.proofing import prove_at_once
from layouts.proofing.report import mends_report, numbered_mends

__all__ = ["SUMMARY", "add_arguments", "run"]

SUMMARY = "List what would mend the prints that are short, and save paper of the others; --take makes one of it."


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", metavar="FILE", help="a kit document (kitproof/1), or - for standard input")
    how = parser.add_mutually_exclusive_group()
    how.add_argument("--json", action="store_true", help="print the list as JSON (kitproof-mends/1)")
    how.add_argument("--take", metavar="N", type=int, help="print the document with number N of the list made in it")
    parser.add_argument("--out", metavar="FILE2", help="with --take: write the document to this file instead")
    parser.epilog = (
        "Exit status: 0 listed or written, 3 refused, 64 wrong usage (also a number that is not in the list), "
        "66 unreadable file, 70 FILE2 cannot be written, or a defect."
    )


def run(options: argparse.Namespace) -> int:
    """Print the list, or write the document; return 0, or 3 for a document that is refused.

    Raises: UnreadableFile; WrongUsage, UnwritableFile.
    """
    # The process ends with the answer: looking for garbage costs a hostile document's reader most of its time.
    gc.disable()
    if options.out is not None and options.take is None:
        raise WrongUsage("--out goes with --take: say which number of the list is to be made in the document")
    kit = read_or_refuse(options.file, as_json=options.json)
    if kit is None:
        return REFUSED
    proof = prove_at_once(kit)
    mends = numbered_mends(proof)
    if options.take is None:
        listed = {"format": "kitproof-mends/1", "document": proof["document"], "mends": mends}
        text = json.dumps(listed, ensure_ascii=False, indent=1) + "\n"
        sys.stdout.write(text if options.json else mends_report(kit, proof))
        return 0
    taken = next((one for one in mends if one["number"] == options.take), None)
    if taken is None:
        known = f"the list ends at {len(mends)}" if mends else "the list is empty"
        raise WrongUsage(f"there is no number {options.take}: {known}")
    _write(canonical_bytes(changed(kit, [Change.of(one) for one in taken["change"]])), options.out)
    return 0


def _write(document: bytes, out: str | None) -> None:
    if out is None:
        sys.stdout.write(document.decode("utf-8"))
        return
    try:
        with open(out, "wb") as file:
            file.write(document)
    except OSError as error:
        raise UnwritableFile(f"{out} cannot be written: {error.strerror or error}") from error
