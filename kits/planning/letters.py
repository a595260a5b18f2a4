"""Which letters pieces of a kit can still have."""

from __future__ import annotations

from collections.abc import Iterator

from layouts.document import Kit

__all__ = ["free_letters"]


def free_letters(kit: Kit) -> Iterator[str]:
    """Return the letters that no piece or form of a kit has, in order; beyond Z there are two of them.

    Those of other projects are passed over as well: two of one letter are hard to tell apart on a sheet they share.

    I and O are left out: on a printed list they read as one and nought.
    """
    taken = {made.id.casefold() for one in kit.projects for made in (*one.pieces, *one.forms)}
    letters = [chr(code) for code in range(ord("A"), ord("Z") + 1) if chr(code) not in "IO"]
    names = (*letters, *(one + other for one in letters for other in letters))
    return (name for name in names if name.casefold() not in taken)
