"""The one error of the renderer's process that is an answer: what it was given must not, or cannot, be set."""

from __future__ import annotations

__all__ = ["Refused"]


class Refused(Exception):
    """A sentence that names what is wrong; it would be the same on every machine."""
