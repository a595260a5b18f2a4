"""What the parts say: everything into one file of JSON lines, and what a person should see onto the terminal."""

from __future__ import annotations

import contextlib
import json
import sys
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

__all__ = ["Lines"]

_LARGEST = 5_000_000  # bytes; one older file of that size is kept
_SHOWN = ("warning", "error", "critical")


class Lines:
    """Takes the lines of all parts. A full disk or a closed terminal never stops the parts themselves."""

    def __init__(self, log: Path, *, verbose: bool) -> None:
        self._log, self._verbose = log, verbose

    def say(self, text: str) -> None:
        """Show a sentence of the supervisor's own on standard output."""
        with contextlib.suppress(OSError):
            print(text, flush=True)

    def complain(self, text: str) -> None:
        """Show a sentence about something that went wrong on standard error, and keep it in the file."""
        self._show(text)
        self._keep({"part": "up", "level": "warning", "message": text})

    def take(self, part: str, line: str) -> None:
        """Keep a part's line; show it where it is a warning or worse, or where everything was asked for."""
        fields = _fields(line)
        self._keep({"part": part, **(fields or {"message": line})})
        if self._verbose:
            self._show(f"{part}: {_plain(line)}")
        elif fields and fields.get("level") in _SHOWN:
            self._show(f"{part}: {fields['level']}: {_plain(str(fields.get('message', '')))}")
            for traced in str(fields.get("traceback", "")).splitlines():
                self._show(f"    {_plain(traced)}")

    def _show(self, text: str) -> None:
        with contextlib.suppress(OSError):
            print(text, file=sys.stderr, flush=True)

    def _keep(self, fields: dict[str, Any]) -> None:
        line = json.dumps({"at": datetime.now(UTC).isoformat(timespec="milliseconds"), **fields}, ensure_ascii=False)
        with contextlib.suppress(OSError):
            self._log.parent.mkdir(mode=0o700, exist_ok=True)
            if self._log.exists() and self._log.stat().st_size > _LARGEST:
                self._log.replace(self._log.with_suffix(".log.1"))
            with open(self._log, "a", encoding="utf-8", errors="backslashreplace") as file:
                file.write(line + "\n")


def _fields(line: str) -> dict[str, Any] | None:
    """Return what a JSON line holds; None for any other line."""
    if not line.startswith("{"):
        return None
    try:
        read = json.loads(line)
    except (ValueError, RecursionError):
        return None
    return read if isinstance(read, dict) else None


def _plain(text: str) -> str:
    """Show control characters as what they are: a terminal would obey them, and visitors write into log lines."""
    return "".join(letter if letter.isprintable() else ascii(letter)[1:-1] for letter in text)
