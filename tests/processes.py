"""Processes that tests start and wait for, as the system shows them."""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from pathlib import Path

__all__ = ["PATIENCE_SECONDS", "children_running", "is_alive", "wait_until"]

# Long enough on any machine, and never reached where what is waited for happens.
PATIENCE_SECONDS = 60.0


def children_running(module: str) -> set[int]:
    """The process ids of this process' own living children that run a module."""
    found = set()
    for entry in Path("/proc").iterdir():
        if entry.name.isdigit() and is_alive(int(entry.name)):
            try:
                words = (entry / "cmdline").read_bytes().split(b"\0")
                parent = int((entry / "stat").read_text().rpartition(")")[2].split()[1])
            except (FileNotFoundError, ProcessLookupError):
                continue
            if parent == os.getpid() and module.encode() in words:
                found.add(int(entry.name))
    return found


def is_alive(pid: int) -> bool:
    """Whether a process runs; one that is dead and not yet reaped does not."""
    try:
        return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] not in ("Z", "X")
    except (FileNotFoundError, ProcessLookupError):
        return False


def wait_until(happened: Callable[[], bool]) -> bool:
    """Wait for something to happen; False where it does not within all patience."""
    until = time.monotonic() + PATIENCE_SECONDS
    while not happened():
        if time.monotonic() > until:
            return False
        time.sleep(0.01)
    return True
