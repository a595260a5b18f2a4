"""The sheets of the examples in every setting, each made once for all tests, whoever of the workers needs it first."""

from __future__ import annotations

import fcntl
import json
import os
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest

from kits.sheets.options import PAGES, PRINTS, UNITS, SheetOptions
from kits.sheets.rendering import Renderer
from kits.sheets.setting import sheet_files
from layouts.document import read_kit
from layouts.proofing import prove_at_once
from tests.sheets.made.sets import SheetSet

EXAMPLES = sorted((Path(__file__).resolve().parents[3] / "kits" / "examples").glob("*.json"))
SETTINGS = [SheetOptions(page, unit, size) for page in PAGES for unit in UNITS for size in PRINTS]
SETS = [(example, options) for example in EXAMPLES for options in SETTINGS]
# What to cut with changes words only.
SETS.append((EXAMPLES[-1], SheetOptions("letter", "in", "normal", "scissors")))


def _name(value: tuple[Path, SheetOptions]) -> str:
    example, options = value
    return "-".join([example.stem, options.page, options.unit, options.print, options.cut])


@pytest.fixture(scope="session")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder that all workers of this run share."""
    base = tmp_path_factory.getbasetemp()
    return base.parent if "PYTEST_XDIST_WORKER" in os.environ else base


@pytest.fixture(scope="session")
def made(renderer: Renderer, shelf: Path) -> Callable[[Path, SheetOptions], SheetSet]:
    """Make the sheets of a document, or take them from the shelf."""

    @lru_cache(maxsize=4)
    def made(document: Path, options: SheetOptions) -> SheetSet:
        folder = shelf / _name((document, options))
        with (shelf / f"{folder.name}.lock").open("w") as lock:
            fcntl.flock(lock, fcntl.LOCK_EX)
            if not folder.exists():
                _make(document, options, renderer, folder)
        return SheetSet.of(document, options, folder)

    return made


# For the session: then all tests of one set run one after the other, and it is read once.
@pytest.fixture(scope="session", params=SETS, ids=_name)
def sheets(request: pytest.FixtureRequest, made: Callable[[Path, SheetOptions], SheetSet]) -> SheetSet:
    """Every example in every setting, one after the other."""
    document, options = request.param
    return made(document, options)


def _make(document: Path, options: SheetOptions, renderer: Renderer, folder: Path) -> None:
    kit = read_kit(document.read_bytes())
    proof: dict[str, Any] = prove_at_once(kit)
    files = {
        file.name: renderer.pdf(file.html, file.assets, title=file.title, true_size=file.true_size)
        for file in sheet_files(kit, proof, options)
    }
    # Whole or not at all: another worker looks for the folder only.
    making = folder.with_name(f"{folder.name}.making")
    making.mkdir()
    (making / "proof.json").write_text(json.dumps(proof))
    for name, pdf in files.items():
        (making / f"{name}.pdf").write_bytes(pdf)
    making.rename(folder)
