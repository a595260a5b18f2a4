"""One `manage.py up` a folder: two would share a database, but not the parts that work on it."""

from __future__ import annotations

import fcntl
import json
import os
from pathlib import Path
from types import TracebackType
from typing import Self

from layouts.errors import CannotStart

__all__ = ["HomeLock"]


class HomeLock:
    """Holds a folder for as long as the `with` block lasts, or this process lives.

    The kernel frees it when the process dies, so that a killed one leaves nothing to clear away. The file stays: one
    that was removed could be locked by two processes under the same name. Raises: CannotStart.
    """

    def __init__(self, home: Path) -> None:
        self._home = home

    def __enter__(self) -> Self:
        path = self._home / "up.lock"
        try:
            self._file = os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
        except OSError as error:
            raise CannotStart(f"{path} cannot be written: {error.strerror}.") from error
        try:
            fcntl.flock(self._file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            holder = self._holder()
            os.close(self._file)
            raise CannotStart(
                f"Kitproof runs already from {self._home}{holder}. "
                "Stop it first, or give this one a folder of its own by KITPROOF_HOME."
            ) from None
        self.note("")
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        os.ftruncate(self._file, 0)
        os.close(self._file)

    def note(self, address: str) -> None:
        """Write down who holds the folder and where its pages are, for whoever comes second."""
        os.ftruncate(self._file, 0)
        os.pwrite(self._file, json.dumps({"process": os.getpid(), "address": address}).encode(), 0)

    def _holder(self) -> str:
        """Say what the holder wrote, as far as it got."""
        try:
            noted = json.loads(os.pread(self._file, 1000, 0))
        except ValueError:
            return ""
        where = f", {noted['address']}" if noted["address"] else ""
        return f" (process {noted['process']}{where})"
