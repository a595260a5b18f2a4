"""The import contracts cover the house as it stands: a room that nobody named would be held to nothing."""

from __future__ import annotations

import tomllib
from pathlib import Path

CHECKOUT = Path(__file__).resolve().parents[2]
LINTER = tomllib.loads((CHECKOUT / "pyproject.toml").read_text())["tool"]["importlinter"]
FLOORS = {"config", "frontend", "inventory", "kits", "layouts"}
DJANGO_FACE = {"apps", "checks", "fields", "jobs", "management", "migrations", "models", "parts", "tasks"}


def _contract(kind: str, beginning: str):
    return next(c for c in LINTER["contracts"] if c["type"] == kind and c["name"].startswith(beginning))


def _rooms(folder: Path) -> set[str]:
    return {
        entry.stem
        for entry in folder.iterdir()
        if entry.name != "__init__.py" and (entry.suffix == ".py" or any(entry.glob("**/*.py")))
    }


def test_every_floor_has_its_place():
    standing = {floor for floor in FLOORS if (CHECKOUT / floor).exists()}
    assert set(LINTER["root_packages"]) == standing
    assert set(_contract("layers", "Imports point down")["layers"]) == standing


def test_every_room_of_layouts_is_core_or_django_face():
    core = _contract("forbidden", "The core of layouts")["source_modules"]
    assert {f"layouts.{room}" for room in _rooms(CHECKOUT / "layouts") - DJANGO_FACE} == set(core)
