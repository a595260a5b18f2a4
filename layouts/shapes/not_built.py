"""What this version of the geometry does not work out."""

from __future__ import annotations

from layouts.errors import KitproofError

__all__ = ["NotBuilt"]


class NotBuilt(KitproofError):
    """A size that cannot be worked out yet, or at all; what depends on it stays unknown."""

    code = "not-built"
