"""From bytes to a plain tree: the bounds that hold before anything in a document is judged."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from itertools import accumulate, islice
from typing import Any

from layouts.document.base import CARRIED
from layouts.document.refusal import MOST_ERRORS, DocumentError, Refused, pointer_of
from layouts.document.text import composed, refused_letter

__all__ = ["DEEPEST", "LARGEST", "LONGEST_LIST", "parse_tree", "tidy_tree"]

LARGEST = 4 * 1024 * 1024
DEEPEST = 64
LONGEST_LIST = 20_000
_GREATEST_NUMBER = 2**53
_MOST_PLAIN = 10_000

_BYTE_ORDER_MARKS = (b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff", b"\x00\x00\xfe\xff")
# Brackets inside strings do not nest. A string that never ends goes to the end of the text: were it no match, the next
# of its quotes would be tried, and the next, in a time that grows with the square of their number.
_STRING = re.compile(rb'"(?:[^"\\]++|\\.)*+"?', re.DOTALL)
# Some thousands of strings and what stands between them: to take out millions at once needs hundreds of MB.
_STRETCH = re.compile(rb'(?:[^"]++|"(?:[^"\\]++|\\.)*+"?){1,8192}+', re.DOTALL)
_NO_BRACKETS = bytes(byte for byte in range(256) if byte not in b"[]{}")
_DEEPER = {ord("["): 1, ord("{"): 1, ord("]"): -1, ord("}"): -1}


class _Doubled(dict[str, Any]):
    """An object that held a key twice; `doubled` are the later keys, as they were written."""

    __slots__ = ("doubled",)

    doubled: tuple[str, ...]


def parse_tree(data: bytes) -> Any:
    """Parse a document's bytes. Raises: Refused with one error at the root (size, mark, depth, JSON)."""
    if len(data) > LARGEST:
        raise _refused("too-large", "the document is larger than 4 MiB: a kit takes some hundred KiB at the most")
    if data.startswith(_BYTE_ORDER_MARKS):
        raise _refused("byte-order-mark", "the document starts with a byte-order mark: save it as plain UTF-8")
    _refuse_depth(data)
    try:
        return json.loads(
            data.decode("utf-8"), object_pairs_hook=_object, parse_constant=_no_constant, parse_int=_whole_number
        )
    except UnicodeDecodeError as error:
        raise _refused("not-json", f"byte {error.start + 1} is not UTF-8: save the document as UTF-8") from None
    except json.JSONDecodeError as error:
        raise _refused("not-json", f"line {error.lineno}, column {error.colno}: {error.msg}") from None


def tidy_tree(tree: Any) -> tuple[Any, list[DocumentError]]:
    """Return the tree with all text in NFC and `x_…` members set apart, and the errors of its texts.

    The tree that is given is used up: its lists are changed in place, since a hostile document's copy costs as much
    memory again.
    Raises: Refused for lists too long, and then for keys given twice: nothing else is judged before these.
    """
    if _is_long_or_doubled(tree):
        raise Refused([*_long_lists(tree, ())] or islice(_doubled_keys(tree, ()), MOST_ERRORS + 1))
    tidying = _Tidying()
    return tidying.value(tree), tidying.errors


def _refused(code: str, message: str) -> Refused:
    return Refused([DocumentError("", code, message)])


def _refuse_depth(data: bytes) -> None:
    depth = 0
    for stretch in _STRETCH.finditer(data):
        brackets = _STRING.sub(b"", stretch[0]).translate(None, _NO_BRACKETS)
        for reached in accumulate(map(_DEEPER.__getitem__, brackets), initial=depth):
            if reached > DEEPEST:
                raise _refused("too-deep", f"the document nests deeper than {DEEPEST} levels")
        depth = reached


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    members = dict(pairs)
    if len(members) == len(pairs) and all(map(str.isascii, members)):
        return members
    seen: set[str] = set()
    doubled: list[str] = []
    for key, _ in pairs:
        same = composed(key)
        if same in seen and len(doubled) <= MOST_ERRORS:
            doubled.append(key)
        seen.add(same)
    if not doubled:
        return members
    marked = _Doubled(members)
    marked.doubled = tuple(dict.fromkeys(doubled))
    return marked


def _no_constant(name: str) -> Any:
    raise _refused("not-json", f"{name} is not JSON: numbers are finite")


def _whole_number(digits: str) -> int:
    # Python refuses to read thousands of digits; any number this long is out of every range alike.
    return int(digits) if len(digits) <= 30 else (-(10**30) if digits[0] == "-" else 10**30)


def _members(value: Any) -> Iterator[tuple[str | int, Any]]:
    if isinstance(value, dict):
        yield from value.items()
    elif isinstance(value, list):
        yield from enumerate(value)


def _is_long(value: Any) -> bool:
    return isinstance(value, list) and len(value) > LONGEST_LIST


def _is_long_or_doubled(tree: Any) -> bool:
    """Whether a list is too long or a key stands twice; without the paths, whose making costs more than the walk."""
    values = [tree]
    for value in values:
        kind = type(value)
        if kind is list:
            if len(value) > LONGEST_LIST:
                return True
            values.extend(value)
        elif kind is dict:
            values.extend(value.values())
        elif kind is _Doubled:
            return True
    return False


def _long_lists(value: Any, path: tuple[str | int, ...]) -> Iterator[DocumentError]:
    if _is_long(value):
        sentence = f"the list has {len(value):,} members; {LONGEST_LIST:,} is the most"
        yield DocumentError(pointer_of(path), "too-many", sentence)
        return
    for key, member in _members(value):
        if isinstance(member, dict | list):
            yield from _long_lists(member, (*path, key))


def _doubled_keys(value: Any, path: tuple[str | int, ...]) -> Iterator[DocumentError]:
    if isinstance(value, _Doubled):
        for again in value.doubled:
            sentence = f"the key “{_plain(again)}” stands twice in one object: remove one"
            yield DocumentError(pointer_of((*path, again)), "duplicate-key", sentence)
    for key, member in _members(value):
        if isinstance(member, dict | list):
            yield from _doubled_keys(member, (*path, key))


class _Tidying:
    """One walk over a tree, with the path to where it stands and the errors found on the way."""

    def __init__(self) -> None:
        self.path: list[str | int] = []
        self.errors: list[DocumentError] = []
        # Names that were seen to need no care.
        self.plain: set[str] = set()

    def value(self, value: Any, *, carried: bool = False) -> Any:
        if isinstance(value, str):
            return value if value.isascii() and value.isprintable() else self.text(value)
        if isinstance(value, list):
            return self.list(value, carried=carried) if value else value
        if isinstance(value, dict):
            return self.object(value, carried=carried) if value else value
        if carried:
            self.judge_number(value)
        return value

    def list(self, value: list[Any], *, carried: bool) -> list[Any]:
        self.path.append(0)
        for at, member in enumerate(value):
            self.path[-1] = at
            value[at] = self.value(member, carried=carried)
        self.path.pop()
        return value

    def object(self, value: dict[str, Any], *, carried: bool) -> dict[str, Any]:
        self.path.append("")
        if carried or not self.knows(value):
            value = self.rewritten(value, carried=carried)
        else:
            # Nearly every object of a document: its names stay, so that it need not be made anew.
            for key, member in value.items():
                self.path[-1] = key
                value[key] = self.value(member)
        self.path.pop()
        return value

    def knows(self, value: dict[str, Any]) -> bool:
        """Whether all names in an object are plain letters and none is one's own."""
        if value.keys() <= self.plain:
            return True
        if not all(name.isascii() and name.isprintable() and not name.startswith("x_") for name in value):
            return False
        if len(self.plain) < _MOST_PLAIN:
            self.plain.update(value)
        return True

    def rewritten(self, value: dict[str, Any], *, carried: bool) -> dict[str, Any]:
        """An object with its names in NFC and its x_… members set apart; a name that is refused is left out."""
        own: dict[str, Any] = {}
        apart: dict[str, Any] = {}
        for key, member in value.items():
            self.path[-1] = key
            plain = key.isascii() and key.isprintable()
            name = key if plain else self.text(key)
            into = apart if not carried and name.startswith("x_") else own
            kept = carried or into is apart
            tidy = self.value(member, carried=kept)
            # A refused name goes no further, so that no document can write a name of ours that holds such a letter.
            if plain or not refused_letter(name):
                # An unknown name is told as it was written: its pointer must lead there.
                into[name if kept else key] = tidy
        if apart:
            own[CARRIED] = apart
        return own

    def text(self, text: str) -> str:
        letter = refused_letter(text)
        if letter is not None:
            kind = "a lone surrogate" if letter >= "\ud800" else "a control character"
            self.refuse("bad-text", f"the text holds {kind}, U+{ord(letter):04X}: remove it")
        return composed(text)

    def judge_number(self, value: Any) -> None:
        if isinstance(value, float):
            self.refuse("wrong-type", "a number in an x_ field is whole, without point or exponent")
        elif isinstance(value, int) and not isinstance(value, bool) and abs(value) > _GREATEST_NUMBER:
            self.refuse("out-of-range", "a number in an x_ field is at most 2^53")

    def refuse(self, code: str, sentence: str) -> None:
        if len(self.errors) <= MOST_ERRORS:
            self.errors.append(DocumentError(pointer_of(self.path), code, sentence))


def _plain(text: str) -> str:
    return text.encode("utf-8", "backslashreplace").decode("utf-8")
