"""Runs a server for as long as a test needs it, in a folder of its own, and never longer than the tests live."""

from __future__ import annotations

import contextlib
import os
import pwd
import shutil
import subprocess
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

__all__ = ["NotStarted", "as_user", "running", "short_folder"]

# A shell stands between: it ends the server by its number when its standard input closes. That happens also when the
# tests are killed and can clean nothing up themselves.
_WATCH = 'stop=$1; shift; "$@" </dev/null & server=$!; read -r _; kill -s "$stop" "$server"; wait "$server"'
_PATIENCE = 60  # seconds; a server that is not ready by then never will be
_LONGEST_SOCKET = 108  # bytes of a socket's path, zero byte included


class NotStarted(Exception):
    """A server did not come up; the message holds the end of what it wrote."""


def as_user(user: str | None, command: Sequence[str]) -> list[str]:
    """Return the command as it is run for another user; None is ourselves."""
    return list(command) if user is None else ["runuser", "--user", user, "--", *command]


@contextlib.contextmanager
def short_folder(user: str | None) -> Iterator[Path]:
    """Make a folder that the user owns and can enter, with a path short enough for a socket in it."""
    parent = Path(tempfile.gettempdir())
    open_to_all = all(folder.stat().st_mode & 0o001 for folder in [parent, *parent.parents])
    if not open_to_all or len(os.fsencode(parent)) > _LONGEST_SOCKET - 50:
        parent = Path("/tmp")
    folder = Path(tempfile.mkdtemp(prefix="kitproof-", dir=parent))
    try:
        if user is not None:
            entry = pwd.getpwnam(user)
            os.chown(folder, entry.pw_uid, entry.pw_gid)
        yield folder
    finally:
        shutil.rmtree(folder)


@contextlib.contextmanager
def running(
    command: Sequence[str], *, folder: Path, ready: Callable[[], bool], user: str | None = None, stop: str = "TERM"
) -> Iterator[None]:
    """Start a server, wait until it is ready, and stop it at the end by the signal that `stop` names.

    Raises: NotStarted.
    """
    log = folder / "log"
    with open(log, "ab") as written:
        watcher = subprocess.Popen(
            as_user(user, ["sh", "-c", _WATCH, "sh", stop, *command]),
            stdin=subprocess.PIPE,
            stdout=written,
            stderr=subprocess.STDOUT,
            cwd=folder,
            start_new_session=True,  # Ctrl-C is for the tests, which then stop it in order
        )
    try:
        deadline = time.monotonic() + _PATIENCE
        while not ready():
            if time.monotonic() > deadline:
                raise NotStarted(f"{command[0]} did not become ready:\n{log.read_text(errors='replace')[-3000:]}")
            time.sleep(0.05)
        yield
    finally:
        watcher.communicate()  # closes its standard input and waits
