"""Whether a part of Kitproof that runs by itself does its work: `python -m config.alive web|worker|beat` exits 0 or 1.

For whatever watches the parts where `manage.py up` does not: docker-compose.yml asks it.
"""

from __future__ import annotations

import os
import socket
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Callable, Sequence
from pathlib import Path

__all__ = ["main"]

# Seconds. Beat writes down every three minutes what it has sent.
_BEAT_WRITES = 10 * 60


def main(arguments: Sequence[str]) -> int:
    """Return 0 if the part that is named is alive, 1 if it is not, 64 for wrong usage."""
    if len(arguments) != 1 or arguments[0] not in _PARTS:
        sys.stderr.write(f"usage: python -m config.alive {'|'.join(_PARTS)}\n")
        return 64
    wrong = _PARTS[arguments[0]]()
    if wrong:
        sys.stderr.write(f"{wrong}\n")
    return 1 if wrong else 0


def _web(address: str = "http://127.0.0.1:8000/health") -> str:
    from config import settings

    # By its own name: it answers to no other. One with a dot in front stands for all names below it.
    asked = urllib.request.Request(address, headers={"Host": settings.ALLOWED_HOSTS[0].removeprefix(".")})
    try:
        with urllib.request.urlopen(asked, timeout=5):
            return ""
    except (urllib.error.URLError, TimeoutError) as error:
        return f"the web does not answer as it should: {error}"


def _worker() -> str:
    from config.celery import app

    name = f"worker@{socket.gethostname()}"
    return "" if app.control.ping([name], timeout=10) else f"{name} does not answer"


def _beat() -> str:
    from config import settings

    schedule = Path(settings.CELERY_BEAT_SCHEDULE_FILENAME)
    # The library that keeps it chooses an ending, and whether there is a second file.
    written = [os.stat(file).st_mtime for file in schedule.parent.glob(f"{schedule.name}*")]
    if not written:
        return f"beat has written nothing to {schedule}"
    age = time.time() - max(written)
    return "" if age < _BEAT_WRITES else f"beat last wrote {age:.0f} seconds ago"


_PARTS: dict[str, Callable[[], str]] = {"web": _web, "worker": _worker, "beat": _beat}


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
