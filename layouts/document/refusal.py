"""Why a document is refused: every error with its code, its JSON Pointer and a sentence."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from layouts.errors import KitproofError

__all__ = ["MOST_ERRORS", "DocumentError", "Refused", "pointer_of"]

MOST_ERRORS = 1000


@dataclass(frozen=True, slots=True, order=True)
class DocumentError:
    """One reason: `pointer` (RFC 6901) names the offending value, or the object that something is missing from."""

    pointer: str
    code: str
    message: str


_MORE = DocumentError("", "more-errors", "there are more errors: mend these, then read the document again")


class Refused(KitproofError):
    """A document that is not a kit document. `errors` are sorted by pointer, at most 1,000 and one `more-errors`."""

    code = "refused"

    def __init__(self, errors: Iterable[DocumentError]) -> None:
        found = set(errors)
        # Copied or sent to another process, a refusal is built again from what it already tells.
        told = sorted(found - {_MORE})
        more = len(told) > MOST_ERRORS or _MORE in found
        self.errors: tuple[DocumentError, ...] = tuple(sorted([*told[:MOST_ERRORS], *([_MORE] if more else [])]))
        super().__init__(f"the document is refused for {len(self.errors)} errors")

    def __reduce__(self) -> tuple[type[Refused], tuple[tuple[DocumentError, ...]]]:
        return type(self), (self.errors,)


def pointer_of(path: Sequence[str | int]) -> str:
    """Return the JSON Pointer of a path.

    >>> pointer_of(("papers", 0, "x_a/b"))
    '/papers/0/x_a~1b'
    """
    return "".join("/" + str(part).replace("~", "~0").replace("/", "~1") for part in path)
