"""`manage.py sheets FILE --out DIR`: the sheets of a kit as PDF."""

from __future__ import annotations

import argparse
import os
import sys
from pathlib import Path

from kits.sheets.options import SheetOptions
from layouts.commands.document import REFUSED, read_or_refuse
from layouts.document import Kit
from layouts.proofing import prove_at_once

__all__ = ["SUMMARY", "add_arguments", "run"]

SUMMARY = "Set the sheets of a kit document as PDF: one for each project, the cut guide and the templates."


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", metavar="FILE", help="a kit document (kitproof/1), or - for standard input")
    parser.add_argument("--out", metavar="DIR", required=True, help="the folder to write to; it is made if need be")
    parser.add_argument("--page", choices=["letter", "a4"], help="default: letter for inches, a4 for millimetres")
    parser.add_argument("--unit", choices=["in", "mm"], help="default: the document's unit")
    parser.add_argument("--print", choices=["normal", "large"], default="normal")
    parser.add_argument("--cut", choices=["trimmer", "scissors"], default="trimmer")
    parser.epilog = (
        "Exit status: 0 written, whatever the verdict, 3 refused, 64 wrong usage, 66 unreadable file, 70 defect."
    )


def run(options: argparse.Namespace) -> int:
    """Write the files; return 0, or 3 for a document that is refused. Raises: UnreadableFile."""
    kit = read_or_refuse(options.file)
    if kit is None:
        return REFUSED
    chosen = SheetOptions.of(kit, page=options.page, unit=options.unit, print=options.print, cut=options.cut)
    _write(kit, chosen, Path(options.out))
    return 0


def _write(kit: Kit, options: SheetOptions, folder: Path) -> None:
    _set_up_django()
    # Only now: templates are found by the settings.
    from kits.sheets.rendering import Renderer
    from kits.sheets.setting import sheet_files

    proof = prove_at_once(kit)
    folder.mkdir(parents=True, exist_ok=True)
    files = list(sheet_files(kit, proof, options))
    with Renderer() as renderer:
        for number, file in enumerate(files, start=1):
            pdf = renderer.pdf(file.html, file.assets, title=file.title, true_size=file.true_size)
            (folder / f"{file.name}.pdf").write_bytes(pdf)
            sys.stderr.write(f"{number} of {len(files)}: {file.name}.pdf\n")


def _set_up_django() -> None:
    """The templates are Django's; settings that cannot be used end the command as any defect does."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")
    import django

    django.setup()
