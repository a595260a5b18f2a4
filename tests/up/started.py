"""Starts `manage.py up` in a folder of its own, and looks at it as the system does: processes, sockets, answers."""

from __future__ import annotations

import contextlib
import http.client
import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from urllib.parse import urlsplit

__all__ = ["CHECKOUT", "Up", "alive", "command_of", "descendants", "environment", "eventually", "started", "up_once"]

CHECKOUT = Path(__file__).resolve().parents[2]
LAUNCH = CHECKOUT / "config" / "supervisor" / "launch.py"
PATIENCE = 90.0  # seconds, on a machine that does much else
# How the parts are told apart from outside: words of their command lines.
PARTS = {"broker": "valkey-server", "worker": "celery worker", "beat": "celery beat", "web": "gunicorn"}


def environment(home: Path, variables: dict[str, str]) -> dict[str, str]:
    """Our own environment without what would steer a Kitproof; no demo unless asked for, which keeps a start short."""
    clean = {name: value for name, value in os.environ.items() if not name.startswith(("KITPROOF_", "DJANGO_"))}
    return {**clean, "KITPROOF_HOME": str(home), "KITPROOF_DEMO": "off", **variables}


class Up:
    """A running `manage.py up` and what it said so far."""

    def __init__(self, home: Path, process: subprocess.Popen[bytes], said: Path) -> None:
        self.home, self.process, self._said = home, process, said

    @property
    def said(self) -> str:
        return self._said.read_text(encoding="utf-8")

    @property
    def address(self) -> str:
        found = re.search(r"^Kitproof is at (http://\S+)$", self.said, re.MULTILINE)
        assert found, self.said
        return found[1]

    def answers(self) -> bool:
        """Whether the pages answer that they are well."""
        here = urlsplit(self.address)
        connection = http.client.HTTPConnection(here.hostname or "", here.port, timeout=5)
        try:
            connection.request("GET", "/health", headers={"Host": "localhost"})
            return connection.getresponse().status == 200
        except (OSError, http.client.HTTPException):
            return False
        finally:
            connection.close()

    def parts(self) -> dict[str, int]:
        """The process of each part that runs."""
        commands = {pid: command_of(pid) for pid in _children(self.process.pid)}
        return {name: pid for name, words in PARTS.items() for pid, command in commands.items() if words in command}

    def socket_folder(self) -> Path:
        return Path(urlsplit((self.home / "broker" / "address").read_text().strip()).path).parent

    def stop(self, sign: signal.Signals = signal.SIGINT) -> int:
        """Ask it to stop and return the status that it ends with."""
        self.process.send_signal(sign)
        return self.process.wait(PATIENCE)


@contextlib.contextmanager
def started(home: Path, *arguments: str, **variables: str) -> Iterator[Up]:
    """Start it on a free port, wait until it gives its address, and end it however the test ends."""
    said = home.with_name(f"{home.name}-said")
    with open(said, "wb") as written:
        process = subprocess.Popen(
            # It dies with the tests, should those be killed.
            [sys.executable, LAUNCH, str(os.getpid()), sys.executable, "manage.py", "up", "--port", "0", *arguments],
            stdin=subprocess.DEVNULL,
            stdout=written,
            stderr=subprocess.STDOUT,
            cwd=CHECKOUT,
            env=environment(home, variables),
            start_new_session=True,
        )
    up = Up(home, process, said)
    try:
        eventually(lambda: "Kitproof is at" in up.said or process.poll() is not None, told=lambda: up.said)
        assert process.poll() is None, up.said
        yield up
    finally:
        # In order if it can: killed, it leaves its socket's folder to the next start.
        process.terminate()
        try:
            process.wait(PATIENCE)
        finally:
            process.kill()
            process.wait()


def up_once(home: Path, *arguments: str, **variables: str) -> subprocess.CompletedProcess[str]:
    """Run it where it is expected to end by itself."""
    return subprocess.run(
        [sys.executable, "manage.py", "up", *arguments],
        stdin=subprocess.DEVNULL,
        capture_output=True,
        cwd=CHECKOUT,
        env=environment(home, variables),
        encoding="utf-8",
        timeout=PATIENCE,
    )


def eventually(holds: Callable[[], bool], seconds: float = PATIENCE, told: Callable[[], str] = str) -> None:
    """Wait until something holds; fail with what is told if it does not."""
    deadline = time.monotonic() + seconds
    while not holds():
        assert time.monotonic() < deadline, told()
        time.sleep(0.05)


def descendants(pid: int) -> set[int]:
    """All processes below one, without itself."""
    found: set[int] = set()
    waiting = [pid]
    while waiting:
        below = _children(waiting.pop()) - found
        found |= below
        waiting += below
    return found


def alive(pids: set[int]) -> set[int]:
    """Those that still run: one that has ended and is not yet collected does not."""
    return {pid for pid in pids if _state(pid) not in ("", "Z", "X")}


def command_of(pid: int) -> str:
    """The words of a process's command line."""
    try:
        words = Path(f"/proc/{pid}/cmdline").read_bytes().split(b"\0")
    except OSError:
        return ""
    # Celery's options stand between its name and what it is to do.
    left_out = {b"-m", b"--quiet", b"--skip-checks", b"--app", b"config"}
    return " ".join(word.decode(errors="replace") for word in words if word not in left_out)


def _children(pid: int) -> set[int]:
    found = set()
    for entry in Path("/proc").iterdir():
        if entry.name.isdecimal():
            fields = _status(int(entry.name))
            if len(fields) > 1 and fields[1] == str(pid):
                found.add(int(entry.name))
    return found


def _state(pid: int) -> str:
    return (_status(pid) or [""])[0]


def _status(pid: int) -> list[str]:
    """State, parent and the rest of /proc/PID/stat: what stands behind the name, which may hold anything."""
    try:
        return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()
    except OSError:
        return []
