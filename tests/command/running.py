"""The command as its users call it: a process of its own, its streams, its status and its children."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

__all__ = ["CHECKOUT", "EXAMPLES", "PROOF", "children_of", "is_alive", "proof", "started", "until"]

CHECKOUT = Path(__file__).resolve().parents[2]
PROOF = (sys.executable, str(CHECKOUT / "manage.py"), "proof")
EXAMPLES = [
    *sorted((CHECKOUT / "kits" / "examples").glob("*.json")),
    CHECKOUT / "tests" / "reference" / "first-kit.json",
]


def proof(*arguments: str | Path, **how: Any) -> subprocess.CompletedProcess[bytes]:
    """Run `manage.py proof` to its end; standard input is empty unless `input` or `stdin` say otherwise."""
    how.setdefault("cwd", CHECKOUT)
    if "input" not in how:
        how.setdefault("stdin", subprocess.DEVNULL)
    how.setdefault("stdout", subprocess.PIPE)
    how.setdefault("stderr", subprocess.PIPE)
    return subprocess.run([*PROOF, *map(str, arguments)], **how)


@contextmanager
def started(*arguments: str | Path, **how: Any) -> Iterator[subprocess.Popen[bytes]]:
    """Start `manage.py proof`; at the end of the block it is killed if it still runs."""
    how.setdefault("stdin", subprocess.DEVNULL)
    command = [*PROOF, *map(str, arguments)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, **how) as process:
        try:
            yield process
        finally:
            process.kill()


def until[T](look: Callable[[], T], seconds: float = 60) -> T:
    """Look again and again until there is something to see. Raises: AssertionError after so many seconds."""
    last = time.monotonic() + seconds
    while time.monotonic() < last:
        if found := look():
            return found
        time.sleep(0.01)
    raise AssertionError(f"nothing happened within {seconds:g} s")


def children_of(parent: int) -> list[tuple[int, str]]:
    """The running children of a process: process id and time of start, which together name a process for good."""
    return [(pid, start) for pid, ppid, start in _processes() if ppid == parent]


def is_alive(child: tuple[int, str]) -> bool:
    return child in [(pid, start) for pid, _, start in _processes()]


def _processes() -> Iterator[tuple[int, int, str]]:
    """Process id, parent and time of start of every process that has not ended (a zombie has)."""
    for entry in os.scandir("/proc"):
        if entry.name.isdecimal():
            try:
                # The name stands in parentheses and may hold anything.
                fields = Path(entry.path, "stat").read_text().rpartition(") ")[2].split()
            except (FileNotFoundError, ProcessLookupError):
                continue
            if fields[0] not in "ZX":
                yield int(entry.name), int(fields[1]), fields[19]
