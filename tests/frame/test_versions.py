"""What is written in two places must agree: versions of Kitproof, of Python and of what it is built from."""

from __future__ import annotations

import re
import subprocess
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.version import Version

CHECKOUT = Path(__file__).resolve().parents[2]
PROJECT = tomllib.loads((CHECKOUT / "pyproject.toml").read_text())
LOCK = (CHECKOUT / "requirements.lock.txt").read_text()
PINNED = dict(re.findall(r"^([a-z0-9-]+)==(\S+)", LOCK, re.MULTILINE))
ASKED = [Requirement(text) for text in PROJECT["project"]["dependencies"] + PROJECT["dependency-groups"]["dev"]]


def test_the_changelog_speaks_of_this_version():
    """Its first heading is this version, or Unreleased while this is on the way to the next one."""
    first, *others = re.findall(r"^## +(\S+)", (CHECKOUT / "CHANGELOG.md").read_text(), re.MULTILINE)
    version = Version(PROJECT["project"]["version"])
    assert version.is_devrelease if first == "Unreleased" else version == Version(first)
    assert [release for release in others if Version(release) >= version] == []


def test_the_licence_is_the_one_that_is_named():
    assert PROJECT["project"]["license"] == "MIT"
    assert (CHECKOUT / "LICENSE").read_text().startswith("MIT License\n")


def test_the_oldest_python_is_the_same_for_all():
    oldest = PROJECT["project"]["requires-python"].removeprefix(">=")
    venv = (CHECKOUT / ".ci" / "venv").read_text()
    assert PROJECT["tool"]["ruff"]["target-version"] == "py" + oldest.replace(".", "")
    assert PROJECT["tool"]["mypy"]["python_version"] == oldest
    assert f"({oldest.replace('.', ', ')}) <= sys.version_info" in venv
    assert f"--python-version {oldest} " in (CHECKOUT / "Makefile").read_text()


@pytest.mark.parametrize("asked", ASKED, ids=lambda asked: asked.name)
def test_the_lock_holds_what_is_asked_for(asked):
    assert asked.specifier.contains(PINNED[asked.name])


def test_every_locked_package_is_known_by_its_hash():
    entries = re.split(r"^(?=[a-z0-9])", LOCK, flags=re.MULTILINE)[1:]
    assert len(entries) == len(PINNED)
    assert [entry.splitlines()[0] for entry in entries if "--hash=sha256:" not in entry] == []


def test_the_lock_names_no_place_to_fetch_from():
    assert re.findall(r"^.*(?:://|--index|--find-links).*$", LOCK, re.MULTILINE) == []


@pytest.mark.parametrize("target", ["venv", "test", "lint", "format", "bench", "schema", "lock"])
def test_every_habit_has_its_command(target):
    asked = subprocess.run(["make", "--dry-run", target], cwd=CHECKOUT, capture_output=True, encoding="utf-8")
    assert (asked.returncode, asked.stderr) == (0, "")
