"""Log lines as JSON, one object a line, with the ids of the request or run in which they were written."""

from __future__ import annotations

import contextlib
import json
import logging
from collections.abc import Iterator, Mapping
from contextvars import ContextVar
from datetime import UTC, datetime
from typing import Any

__all__ = ["JsonLine", "bound"]

_BOUND: ContextVar[Mapping[str, Any]] = ContextVar("bound")
_STANDARD = frozenset(vars(logging.makeLogRecord({}))) | {"message", "asctime", "taskName", "request", "server_time"}


@contextlib.contextmanager
def bound(**ids: Any) -> Iterator[None]:
    """Add ids to every line that is written inside: `with bound(run=12): …`."""
    token = _BOUND.set({**_BOUND.get({}), **ids})
    try:
        yield
    finally:
        _BOUND.reset(token)


class JsonLine(logging.Formatter):
    """A record as one line: time in UTC, level, logger, message, bound ids, what `extra` gave, and a traceback.

    Line breaks in a message stay inside the JSON text: nobody writes a second line by typing one.
    """

    def format(self, record: logging.LogRecord) -> str:
        line: dict[str, Any] = {
            "at": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "logger": record.name,
            "message": record.getMessage(),
            **_BOUND.get({}),
        }
        line |= {name: value for name, value in vars(record).items() if name not in _STANDARD}
        if record.exc_info:
            line["traceback"] = self.formatException(record.exc_info)
        return json.dumps(line, ensure_ascii=False, default=str)
