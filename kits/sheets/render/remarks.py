"""What the library says while it sets a page. It draws on past anything; here each of its warnings refuses the page.

All HTML is our own, so a warning is a mistake in it or a defect, the same on every machine.
"""

from __future__ import annotations

import logging

from weasyprint import LOGGER

from kits.sheets.render.refused import Refused

__all__ = ["Remarks"]

# Enough to see what is wrong; a page can earn thousands.
TOLD = 3


class Remarks(logging.Handler):
    """Collects what the library says within a `with` block."""

    def __init__(self) -> None:
        super().__init__(logging.DEBUG)
        self._said: list[str] = []
        self._out_of_memory = False

    def __enter__(self) -> Remarks:
        LOGGER.handlers[:] = [self]
        LOGGER.setLevel(logging.DEBUG)
        LOGGER.propagate = False
        return self

    def __exit__(self, *_: object) -> None:
        LOGGER.removeHandler(self)

    def emit(self, record: logging.LogRecord) -> None:
        # It swallows every error while it draws, this one too, and tells of it only in whispers.
        error = record.exc_info[1] if record.exc_info else None
        self._out_of_memory |= isinstance(error, MemoryError)
        if record.levelno >= logging.WARNING:
            self._said.append(record.getMessage())

    def judge(self) -> None:
        """Raises: MemoryError if it was swallowed, Refused if anything was said."""
        if self._out_of_memory:
            raise MemoryError
        if self._said:
            raise Refused("; ".join(self._said[:TOLD]))
