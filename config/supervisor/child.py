"""One process of a part: in a session of its own, dying with the supervisor, its words read line by line."""

from __future__ import annotations

import contextlib
import os
import signal
import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

__all__ = ["Child"]

_CHECKOUT = Path(__file__).resolve().parents[2]
_LAUNCH = Path(__file__).with_name("launch.py")
_CHUNK = 1 << 16
_LONGEST_LINE = 1 << 20


class Child:
    """Starts at once. `take` gets every line it says, without the line's end.

    The session keeps Ctrl-C away, which the terminal sends to everybody in the foreground. `sockets` are the numbers
    of those that it inherits.
    """

    def __init__(self, command: Sequence[str], *, take: Callable[[str], None], sockets: Sequence[int] = ()) -> None:
        self._take, self._rest = take, b""
        self._process = subprocess.Popen(
            # Isolated and without site packages: the launcher needs none of it, and starts in a few milliseconds.
            [sys.executable, "-I", "-S", str(_LAUNCH), str(os.getpid()), *command],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            bufsize=0,
            cwd=_CHECKOUT,
            start_new_session=True,
            pass_fds=sockets,
        )
        assert self._process.stdout is not None
        self.output = self._process.stdout
        os.set_blocking(self.output.fileno(), False)

    @property
    def pid(self) -> int:
        return self._process.pid

    def read(self) -> bool:
        """Pass on what it has said since; say whether it may say more later."""
        # Not without end: one that never stops talking must not keep the others waiting.
        for _ in range(16):
            chunk = self.output.read(_CHUNK)
            if chunk is None:
                return True
            self._pass_on(chunk)
            if not chunk:
                return False
        return True

    def _pass_on(self, chunk: bytes) -> None:
        *lines, self._rest = (self._rest + chunk).split(b"\n")
        if not chunk or len(self._rest) > _LONGEST_LINE:
            lines, self._rest = [*lines, self._rest], b""
        for line in lines:
            if line.strip():
                self._take(line.decode("utf-8", "backslashreplace").rstrip())

    def ended(self) -> int | None:
        """Return its status if it has ended: what it exited with, or minus the signal that killed it.

        Its own children go with it: a new process of the same part must not find the old one's still at work.
        """
        if self._running:
            # Looked at without collecting it: until it is collected nobody else can be given its number.
            if os.waitid(os.P_PID, self.pid, os.WEXITED | os.WNOHANG | os.WNOWAIT) is None:
                return None
            self.kill()
            self._process.wait()
            self.read()
        return self._process.returncode

    def ask_to_end(self) -> None:
        if self._running:
            os.kill(self.pid, signal.SIGTERM)

    def kill(self) -> None:
        """Kill it with all of its session."""
        if self._running:
            with contextlib.suppress(ProcessLookupError):
                os.killpg(self.pid, signal.SIGKILL)

    @property
    def _running(self) -> bool:
        return self._process.returncode is None
