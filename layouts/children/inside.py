"""The child's side: what a child process does first, before anything that may go wrong.

It imports as little as it can, since whoever asks waits for it to start.
"""

from __future__ import annotations

import ctypes
import os
import queue
import resource
import signal
import sys
import threading
from collections.abc import Callable, Iterator
from typing import BinaryIO

__all__ = ["End", "begin", "line_end", "messages"]

PR_SET_PDEATHSIG = 1

# Where the first message in these bytes ends, or None if it is not complete.
type End = Callable[[bytes], int | None]


def begin(parent: int, memory: int) -> BinaryIO:
    """Be killed when the parent dies, limit memory to so many bytes, and return where answers are written.

    Whatever else is printed from now on, by native code too, goes to standard error.
    """
    # Linux only: elsewhere the closing of standard input must do.
    if sys.platform == "linux":
        ctypes.CDLL(None, use_errno=True).prctl(PR_SET_PDEATHSIG, signal.SIGKILL)
    if os.getppid() != parent:  # it died before it could be watched
        os._exit(0)
    resource.setrlimit(resource.RLIMIT_AS, (memory, memory))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    out = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    return out


def line_end(begun: bytes) -> int | None:
    """Where the first message ends if each is a line."""
    return begun.find(b"\n") + 1 or None


def messages(end: End) -> Iterator[bytes]:
    """Yield the messages on standard input; when it closes nobody waits for an answer any more, and the process ends.

    They are read beside the work, so that the closing is seen while the work goes on.
    """
    read: queue.SimpleQueue[bytes] = queue.SimpleQueue()
    threading.Thread(target=_read, args=(end, read), daemon=True).start()
    while True:
        yield read.get()


def _read(end: End, read: queue.SimpleQueue[bytes]) -> None:
    begun = b""
    # Not through sys.stdin: its lock is taken while it waits, and a main thread that fails could not end in peace.
    while chunk := os.read(0, 1 << 16):
        begun += chunk
        while (length := end(begun)) is not None:
            read.put(begun[:length])
            begun = begun[length:]
    os._exit(0)
