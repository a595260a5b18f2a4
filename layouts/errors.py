"""The one family of errors that Kitproof raises on purpose."""

from __future__ import annotations

__all__ = ["CannotStart", "KitproofError", "UnreadableFile", "UnwritableFile", "WrongUsage"]


class KitproofError(Exception):
    """Something a person or a caller can act on: a stable code and a sentence that holds the numbers.

    The message is the first argument, so that the error survives pickling between processes.
    """

    code = "kitproof"

    @property
    def message(self) -> str:
        return str(self.args[0]) if self.args else self.code


class WrongUsage(KitproofError):
    """What the command line asks for does not exist in the document that it names (exit 64)."""

    code = "wrong-usage"


class UnreadableFile(KitproofError):
    """A file named on the command line cannot be read (exit 66)."""

    code = "unreadable-file"


class UnwritableFile(KitproofError):
    """What a command makes cannot be written where it should be (exit 70: neither usage nor input is wrong)."""

    code = "unwritable-file"


class CannotStart(KitproofError):
    """A part of a running Kitproof does not start (exit 70); the sentence says why, and what helps if that is known."""

    code = "cannot-start"
