"""Runs a program that is killed as soon as its parent dies, however it dies: `launch.py PARENT PROGRAM ARGUMENT…`.

The supervisor may be killed in a way that lets it clean up nothing. The kernel then does it: the wish to die with the
parent survives the change from this file to the program. It imports next to nothing, since every part waits for it.
Linux only: elsewhere the parts outlive a supervisor that was killed by force.
"""

from __future__ import annotations

import ctypes
import os
import signal
import sys

__all__ = ["die_with_parent", "main"]

_PR_SET_PDEATHSIG = 1


def die_with_parent(parent: int) -> None:
    """Be killed when the parent dies; `parent` is its process id, by which one is noticed that has died already.

    It is the parent's *thread* that counts: whoever starts children that call this does so in its main thread.
    """
    if sys.platform == "linux":
        ctypes.CDLL(None, use_errno=True).prctl(_PR_SET_PDEATHSIG, signal.SIGKILL)
    if os.getppid() != parent:
        os._exit(0)


def main() -> None:
    parent, program = int(sys.argv[1]), sys.argv[2:]
    die_with_parent(parent)
    os.execv(program[0], program)


if __name__ == "__main__":
    main()
