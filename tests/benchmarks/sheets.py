"""The sheets of an example over the bare library that sets them, in one run.

The bare side gives the library the same HTML with the same assets and the same faces, asks for tagged PDF, and does
nothing else: no child process, no limits, no look at what a page is made of, nothing put right or packed afterwards.
Measured twice: page by page where both are warm, and as whole processes that set all pages of the kit. The goal is a
ratio of at most 1.3.
"""

from __future__ import annotations

import os
import pickle
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from kits.sheets.rendering import FONTS, Renderer

TOP = Path(__file__).resolve().parents[2]
EXAMPLE = TOP / "kits" / "examples" / "potting-shed.json"
PAIRS = 7

type Page = tuple[str, str, dict[str, bytes]]

_BARE = """
import pickle, sys, time
from weasyprint import HTML
from weasyprint.urls import URLFetcherResponse

def bare(html, assets):
    def fetch(url):
        name = url.partition(":")[2]
        kind = "text/css" if name.endswith(".css") else "image/svg+xml" if name.endswith(".svg") else "image/png"
        return URLFetcherResponse(url, assets[name], {"Content-Type": kind})
    return HTML(string=html, url_fetcher=fetch).write_pdf(pdf_variant="pdf/ua-1")

pages = pickle.load(open(sys.argv[1], "rb"))
if len(sys.argv) == 2:
    for _, html, assets in pages:
        bare(html, assets)
else:
    for line in sys.stdin:
        _, html, assets = pages[int(line)]
        bare(html, assets)
        print(flush=True)
"""
_OURS = """
import pickle, sys
from kits.sheets.rendering import Renderer
with Renderer() as renderer:
    for title, html, assets in pickle.load(open(sys.argv[1], "rb")):
        renderer.pdf(html, assets, title=title)
"""


def main() -> None:
    pages = _pages()
    print(f"{len(pages)} sheets of {EXAMPLE.stem} over the bare library ({PAIRS} pairs, goal 1.30)")
    with tempfile.NamedTemporaryFile("wb", suffix=".pickle") as file:
        pickle.dump(pages, file)
        file.flush()
        _compare_warm(pages, file.name)
        _compare(
            "as whole processes",
            lambda: _run([sys.executable, "-c", _OURS, file.name]),
            lambda: _run([sys.executable, "-c", _BARE, file.name]),
        )


def _compare_warm(pages: list[Page], file: str) -> None:
    command = [sys.executable, "-c", _BARE, file, "one by one"]
    with (
        Renderer() as renderer,
        subprocess.Popen(
            command,
            env=_environment(),
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
        ) as process,
    ):
        assert process.stdin is not None
        assert process.stdout is not None

        def ours() -> None:
            for title, html, assets in pages:
                renderer.pdf(html, assets, title=title)

        def bare() -> None:
            assert process.stdin is not None
            assert process.stdout is not None
            for number in range(len(pages)):
                print(number, file=process.stdin, flush=True)
                process.stdout.readline()

        _compare("in warm processes", ours, bare)
        process.stdin.close()


def _pages() -> list[Page]:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")
    import django

    django.setup()
    from kits.sheets.options import SheetOptions
    from kits.sheets.setting import sheet_files
    from layouts.document import read_kit
    from layouts.proofing import prove_at_once

    kit = read_kit(EXAMPLE.read_bytes())
    options = SheetOptions.of(kit, page=None, unit=None, print="normal", cut="trimmer")
    return [(file.title, file.html, dict(file.assets)) for file in sheet_files(kit, prove_at_once(kit), options)]


def _compare(how: str, ours: Callable[[], object], bare: Callable[[], object]) -> None:
    _seconds(ours), _seconds(bare)  # the first of each warms what it needs
    pairs = [(_seconds(ours), _seconds(bare)) for _ in range(PAIRS)]
    ratios = sorted(mine / theirs for mine, theirs in pairs)
    mine, theirs = (statistics.median(pair[side] for pair in pairs) for side in (0, 1))
    print(
        f"  {how}: ratio {statistics.median(ratios):.2f} (from {ratios[0]:.2f} to {ratios[-1]:.2f}); "
        f"sheets {mine:.3f} s, bare {theirs:.3f} s"
    )


def _environment() -> dict[str, str]:
    return {**os.environ, "FONTCONFIG_FILE": str(FONTS), "PYTHONPATH": str(TOP)}


def _run(command: list[str]) -> None:
    subprocess.run(command, env=_environment(), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=True)


def _seconds(what: Callable[[], object]) -> float:
    started = time.perf_counter()
    what()
    return time.perf_counter() - started
