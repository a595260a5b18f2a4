"""From bytes to a plain tree: the bounds that hold before anything in a document is judged."""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Iterator
from typing import Any

from layouts.document.base import CARRIED
from layouts.document.refusal import DocumentError, Refused, pointer_of

__all__ = ["DEEPEST", "LARGEST", "LONGEST_LIST", "parse_tree", "tidy_tree"]

LARGEST = 4 * 1024 * 1024
DEEPEST = 64
LONGEST_LIST = 20_000
_GREATEST_NUMBER = 2**53

_BYTE_ORDER_MARKS = (b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff")
# A string whole, or one bracket: brackets inside strings do not nest.
_NESTING = re.compile(rb'"(?:[^"\\]|\\.)*+"|[\[{]|[\]}]', re.DOTALL)
_OPENING = (b"[", b"{")


class _Doubled(dict[str, Any]):
    """An object that held a key twice; `doubled` are the later keys, as they were written."""

    doubled: tuple[str, ...] = ()


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

    Raises: Refused for lists too long, and then for keys given twice: nothing else is judged before these.
    """
    _refuse_if(list(_long_lists(tree, ())))
    _refuse_if(list(_doubled_keys(tree, ())))
    errors: list[DocumentError] = []
    return _tidied(tree, (), errors), errors


def _refused(code: str, message: str) -> Refused:
    return Refused([DocumentError("", code, message)])


def _refuse_if(errors: list[DocumentError]) -> None:
    if errors:
        raise Refused(errors)


def _refuse_depth(data: bytes) -> None:
    depth = 0
    for match in _NESTING.finditer(data):
        bracket = match[0]
        if bracket[:1] == b'"':
            continue
        depth += 1 if bracket in _OPENING else -1
        if depth > DEEPEST:
            raise _refused("too-deep", f"the document nests deeper than {DEEPEST} levels")


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    members = dict(pairs)
    seen: set[str] = set()
    doubled = []
    for key, _ in pairs:
        same = unicodedata.normalize("NFC", key)
        if same in seen:
            doubled.append(key)
        seen.add(same)
    if not doubled:
        return members
    marked = _Doubled(members)
    marked.doubled = tuple(doubled)
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


def _long_lists(value: Any, path: tuple[str | int, ...]) -> Iterator[DocumentError]:
    if isinstance(value, list) and len(value) > LONGEST_LIST:
        yield DocumentError(
            pointer_of(path), "too-many", f"the list has {len(value):,} members; {LONGEST_LIST:,} is the most"
        )
        return
    for key, member in _members(value):
        if isinstance(member, dict | list):
            yield from _long_lists(member, (*path, key))


def _doubled_keys(value: Any, path: tuple[str | int, ...]) -> Iterator[DocumentError]:
    if isinstance(value, _Doubled):
        for again in value.doubled:
            yield DocumentError(
                pointer_of((*path, again)),
                "duplicate-key",
                f"the key “{_plain(again)}” stands twice in one object: remove one",
            )
    for key, member in _members(value):
        if isinstance(member, dict | list):
            yield from _doubled_keys(member, (*path, key))


def _tidied(value: Any, path: tuple[str | int, ...], errors: list[DocumentError], *, carried: bool = False) -> Any:
    if isinstance(value, str):
        return _text(value, path, errors)
    if isinstance(value, list):
        return [_tidied(member, (*path, at), errors, carried=carried) for at, member in enumerate(value)]
    if isinstance(value, dict):
        return _tidied_object(value, path, errors, carried=carried)
    if carried:
        _judge_carried_number(value, path, errors)
    return value


def _tidied_object(
    value: dict[str, Any], path: tuple[str | int, ...], errors: list[DocumentError], *, carried: bool
) -> dict[str, Any]:
    own: dict[str, Any] = {}
    apart: dict[str, Any] = {}
    for key, member in value.items():
        name = _text(key, (*path, key), errors)
        if not carried and name.startswith("x_"):
            apart[name] = _tidied(member, (*path, key), errors, carried=True)
        else:
            own[name] = _tidied(member, (*path, key), errors, carried=carried)
    if apart:
        own[CARRIED] = apart
    return own


def _text(text: str, path: tuple[str | int, ...], errors: list[DocumentError]) -> str:
    if text.isascii() and text.isprintable():
        return text
    for character in text:
        if unicodedata.category(character) in ("Cc", "Cs") and character not in "\t\n":
            kind = "a lone surrogate" if unicodedata.category(character) == "Cs" else "a control character"
            errors.append(
                DocumentError(pointer_of(path), "bad-text", f"the text holds {kind}, U+{ord(character):04X}: remove it")
            )
            break
    return unicodedata.normalize("NFC", text)


def _judge_carried_number(value: Any, path: tuple[str | int, ...], errors: list[DocumentError]) -> None:
    if isinstance(value, float):
        errors.append(
            DocumentError(pointer_of(path), "wrong-type", "a number in an x_ field is whole, without point or exponent")
        )
    elif isinstance(value, int) and not isinstance(value, bool) and abs(value) > _GREATEST_NUMBER:
        errors.append(DocumentError(pointer_of(path), "out-of-range", "a number in an x_ field is at most 2^53"))


def _plain(text: str) -> str:
    return text.encode("utf-8", "backslashreplace").decode("utf-8")
