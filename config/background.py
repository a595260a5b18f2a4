"""The processes that do the work in the background: how a worker and the clock are started."""

from __future__ import annotations

import os
import sys

__all__ = ["beat_command", "worker_command"]

_CELERY = [sys.executable, "-m", "celery", "--quiet", "--app", "config"]


def worker_command(*, name: str = "worker") -> list[str]:
    """Return the command line of a worker with a process for each core; workers of one broker need different names."""
    cores = len(os.sched_getaffinity(0))
    # Workers need not know of each other: all they share is in the database.
    alone = ["--without-gossip", "--without-mingle", "--without-heartbeat"]
    return [
        *_CELERY,
        "worker",
        "--hostname",
        f"{name}@%h",
        "--concurrency",
        str(cores),
        "--loglevel",
        "WARNING",
        *alone,
    ]


def beat_command() -> list[str]:
    """Return the command line of the clock; one of it is enough, and two do no harm."""
    return [*_CELERY, "beat", "--loglevel", "WARNING"]
