"""Brings programs that tests need from the system's packages, where this may; elsewhere it names them."""

from __future__ import annotations

import contextlib
import fcntl
import os
import shutil
import subprocess
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path

__all__ = ["Missing", "bring"]

_POLICY = Path("/usr/sbin/policy-rc.d")


class Missing(Exception):
    """A program is not there and cannot be installed by the tests; the message says what to install."""


def bring[Found](package: str, find: Callable[[], Found | None]) -> Found:
    """Return what `find` finds, after installing a package if it must be.

    Raises: Missing, with the package's name.
    """
    found = find()
    if found is not None:
        return found
    if os.geteuid() != 0 or shutil.which("apt-get") is None:
        raise Missing(f"these tests need a program of the package “{package}”: please install it")
    with _alone():
        # Another worker may have installed it while this one waited.
        found = find()
        if found is not None:
            return found
        said = _install(package)
        found = find()
    if found is None:
        raise Missing(f"apt-get could not install “{package}”:\n{said}")
    return found


def _install(package: str) -> str:
    said = ""
    with _no_services_started():
        # One list that cannot be fetched need not matter: installing tells.
        for step in (["update"], ["install", "--yes", "--no-install-recommends", package]):
            done = subprocess.run(
                ["apt-get", "--quiet", "--option=DPkg::Lock::Timeout=300", *step],
                env={**os.environ, "DEBIAN_FRONTEND": "noninteractive"},
                stdin=subprocess.DEVNULL,
                stdout=subprocess.PIPE,
                stderr=subprocess.STDOUT,
                encoding="utf-8",
                errors="replace",
            )
            said += done.stdout[-3000:]
    return said


@contextlib.contextmanager
def _alone() -> Iterator[None]:
    with open(Path(tempfile.gettempdir()) / "kitproof-tests-install.lock", "w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        yield


@contextlib.contextmanager
def _no_services_started() -> Iterator[None]:
    """Keep a package from starting its server on the machine's own port: the tests start theirs, and stop them."""
    if _POLICY.exists():
        yield
        return
    _POLICY.write_text("#!/bin/sh\nexit 101\n")
    _POLICY.chmod(0o755)
    try:
        yield
    finally:
        _POLICY.unlink()
