"""The processes that do the work in the background: how a worker and the clock are started."""

from __future__ import annotations

import os
import sys

__all__ = ["beat_command", "main", "worker_command"]

# No checks of Django's at the start: they import every page, and a worker serves none.
_CELERY = [sys.executable, "-m", "celery", "--quiet", "--skip-checks", "--app", "config"]


def worker_command(*, name: str = "worker") -> list[str]:
    """Return the command line of a worker with a process for each core; workers of one broker need different names."""
    cores = len(os.sched_getaffinity(0))
    # Workers need not know of each other: all they share is in the database.
    alone = ["--without-gossip", "--without-mingle", "--without-heartbeat"]
    options = {"--hostname": f"{name}@%h", "--concurrency": str(cores), "--loglevel": "WARNING"}
    return [*_CELERY, "worker", *(word for option in options.items() for word in option), *alone]


def beat_command() -> list[str]:
    """Return the command line of the clock; one of it is enough, and two do no harm."""
    return [*_CELERY, "beat", "--loglevel", "WARNING"]


def main(part: str) -> None:
    """Become the worker or the clock: `python -m config.background worker|beat`, for who starts each part alone."""
    # Beat's file with its number keeps a second one from starting beside it: in a container there is none.
    command = worker_command() if part == "worker" else [*beat_command(), "--pidfile", ""]
    os.execv(command[0], command)


if __name__ == "__main__":
    main(sys.argv[1])
