"""`manage.py sheets FILE --out DIR`: the sheets of a kit as PDF."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from kits.sheets.options import SheetOptions
from layouts.commands.document import REFUSED, read_or_refuse
from layouts.document import Kit
from layouts.errors import UnwritableFile
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
    parser.add_argument(
        "--machine",
        action="store_true",
        help="write DIR/machine/PROJECT-PIECE.svg and .dxf as well, for cutting machines: true size in millimetres, "
        "of every piece with windows or a shape and of every flat part",
    )
    parser.epilog = (
        "Exit status: 0 written, whatever the verdict, 3 refused, 64 wrong usage, 66 unreadable file, "
        "70 DIR cannot be written to, or a defect."
    )


def run(options: argparse.Namespace) -> int:
    """Write the files; return 0, or 3 for a document that is refused. Raises: UnreadableFile, UnwritableFile."""
    kit = read_or_refuse(options.file)
    if kit is None:
        return REFUSED
    folder = Path(options.out)
    # First: nobody should wait for a proof only to learn that its sheets have no place.
    with _writing(folder):
        folder.mkdir(parents=True, exist_ok=True)
    chosen = SheetOptions.of(kit, page=options.page, unit=options.unit, print=options.print, cut=options.cut)
    # All or none: an old cut guide beside a new project sheet is worse than two old ones.
    made = list(_made(kit, chosen))
    if options.machine:
        made += _for_machines(kit)
    for name, content in made:
        with _writing(folder):
            (folder / name).parent.mkdir(exist_ok=True)
            (folder / name).write_bytes(content)
    return 0


def _made(kit: Kit, options: SheetOptions) -> Iterator[tuple[str, bytes]]:
    """Yield the names of the files with what is to be in them."""
    _set_up_django()
    # Only now: templates are found by the settings.
    from kits.sheets.rendering import Renderer
    from kits.sheets.setting import sheet_files

    files = list(sheet_files(kit, prove_at_once(kit), options))
    with Renderer() as renderer:
        for number, file in enumerate(files, start=1):
            name = f"{file.name}.pdf"
            yield name, renderer.pdf(file.html, file.assets, title=file.title, true_size=file.true_size)
            if sys.stderr is not None:
                sys.stderr.write(f"{number} of {len(files)}: {name}\n")


def _for_machines(kit: Kit) -> Iterator[tuple[str, bytes]]:
    """Yield the files for cutting machines; what has none is told."""
    # Only where it is asked for: the library that writes them takes a second to load.
    from layouts.drawing.machine import LeftOut, machine_files

    for file in machine_files(kit):
        if isinstance(file, LeftOut):
            if sys.stderr is not None:
                sys.stderr.write(f"no machine file for {file.place}: {file.why}\n")
        else:
            yield f"machine/{file.name}", file.content


@contextmanager
def _writing(folder: Path) -> Iterator[None]:
    try:
        yield
    except OSError as error:
        raise UnwritableFile(f"{folder} cannot be written to: {error.strerror or error}") from error


def _set_up_django() -> None:
    """The templates are Django's; settings that cannot be used end the command as any defect does."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")
    import django

    django.setup()
