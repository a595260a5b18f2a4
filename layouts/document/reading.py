"""Reading a kit document: bytes in, a `Kit` out, or every reason why not at once."""

from __future__ import annotations

import contextlib
import json
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from layouts.document.kit import Kit
from layouts.document.references import reference_errors
from layouts.document.refusal import MOST_ERRORS, DocumentError, Refused, pointer_of
from layouts.document.tree import parse_tree, tidy_tree
from layouts.document.values import ReadingContext
from layouts.lengths import BadLength, Length, System, parse_length

__all__ = ["read_kit", "read_kit_tree", "reread_kit"]

# Pydantic's error types that are refusals of the contract; its own codes are raised under their contract names.
_CODES = {
    "missing": "missing",
    "extra_forbidden": "unknown-field",
    "string_pattern_mismatch": "bad-id",
    "greater_than_equal": "out-of-range",
    "less_than_equal": "out-of-range",
    "too_short": "out-of-range",
}
# Codes of the contract that our own validators raise, with their sentence; "lacking" is what `missing` calls the lack
# of one of several fields, since pydantic's own "missing" names a field.
_OWN_CODES = {
    "wrong-type": "wrong-type",
    "not-a-length": "not-a-length",
    "off-grid": "off-grid",
    "out-of-range": "out-of-range",
    "not-together": "not-together",
    "lacking": "missing",
}
_TYPES = {
    "string_type": "this must be a text",
    "int_type": "this must be a whole number, without point or exponent",
    "bool_type": "this must be true or false",
    "tuple_type": "this must be a list",
    "model_type": "this must be an object",
    "dict_type": "this must be an object",
    "too_short": "the list has too few members: an outline needs three corners, a list of copies one copy",
}
_COUNT = "this must be a whole number from 1 (sheets: from 0) to 10,000"
_SENTENCES = {
    "missing": "“{field}” is missing: add it",
    "unknown-field": "there is no field of this name here; a field of your own starts with x_",
    "bad-id": "an id is 1 to 32 letters, digits and hyphens, starting with a letter or digit",
}


def read_kit(data: bytes) -> Kit:
    """Read a kit document from its bytes. Raises: Refused.

    Two passes: the shape of everything, then references, uniqueness and loops on the raw values, skipping what the
    first refused. Both are made, so that a person sees all errors at once; only where the first alone has found more
    than is told does the second have nothing to add.

    >>> read_kit(b'{"format": "kitproof/1", "code": "2027-04", "title": "Empty", "unit": "in"}').title
    'Empty'
    """
    return _read(parse_tree(data))


def read_kit_tree(tree: Any) -> Kit:
    """Read a kit document from plain JSON values, by way of its bytes: one door, one set of rules. Raises: Refused."""
    return read_kit(json.dumps(tree).encode())


def reread_kit(tree: Any) -> Kit:
    """Read plain JSON values that were a kit document before and may have been changed since. Raises: Refused.

    The bounds of bytes and depth do not apply, which are those of a door: a document in which every default is written
    is longer than what came in.
    """
    return _read(json.loads(json.dumps(tree)))


def _read(tree: Any) -> Kit:
    """Read a parsed tree, which is used up."""
    tidy, errors = tidy_tree(tree)
    kit: Kit | None = None
    try:
        kit = Kit.model_validate(tidy, context=_context(tidy))
    except ValidationError as refusal:
        told = {error.pointer for error in errors}
        details = refusal.errors(include_url=False)
        shape = [_document_error(detail, tidy) for detail in details if not _is_echo(detail)]
        errors += [error for error in shape if error.pointer not in told]
    if len(errors) <= MOST_ERRORS:
        errors += reference_errors(tidy, refused={error.pointer for error in errors})
    if errors or kit is None:
        raise Refused(errors)
    return kit


def _context(tree: Any) -> ReadingContext:
    unit = tree.get("unit") if isinstance(tree, dict) else None
    known: System | None = unit if unit in ("in", "mm") else None
    printed = tree.get("printed") if isinstance(tree, dict) else None
    steps: dict[System, Length] = {}
    if isinstance(printed, dict) and known is not None:
        systems: tuple[System, ...] = ("in", "mm")
        for system in systems:
            step = printed.get(system)
            if isinstance(step, str):
                with contextlib.suppress(BadLength):
                    steps[system] = parse_length(step, known)
    return ReadingContext(known, steps)


def _is_echo(detail: ErrorDetails) -> bool:
    """Whether a list is called too short only because its members were refused, each with an error of its own."""
    return detail["type"] == "too_short" and len(detail["input"]) >= detail["ctx"]["min_length"]


def _document_error(detail: ErrorDetails, tree: Any) -> DocumentError:
    """Translate one of pydantic's errors: its location walked against the input, since unions add branch names."""
    kind = detail["type"]
    path = _walked(detail["loc"], tree)
    if kind == "missing":
        return DocumentError(pointer_of(path), "missing", _SENTENCES["missing"].format(field=detail["loc"][-1]))
    if kind in ("union_tag_not_found", "union_tag_invalid"):
        return _untagged(path, detail["input"])
    if kind in _OWN_CODES:
        return DocumentError(pointer_of(path), _OWN_CODES[kind], detail["msg"])
    if kind == "literal_error":
        code = "out-of-range" if isinstance(detail["input"], str) else "wrong-type"
        return DocumentError(pointer_of(path), code, f"this must be {detail['ctx']['expected'].replace(chr(39), '')}")
    code = _CODES.get(kind, "wrong-type")
    sentence = _SENTENCES.get(code) or _TYPES.get(kind) or _COUNT
    return DocumentError(pointer_of(path), code, sentence)


def _untagged(path: tuple[str | int, ...], value: Any) -> DocumentError:
    if not isinstance(value, dict):
        return DocumentError(pointer_of(path), "wrong-type", "a form is an object")
    if value.get("as") is None and "as" not in value:
        return DocumentError(pointer_of(path), "missing", _SENTENCES["missing"].format(field="as"))
    if not isinstance(value["as"], str):
        return DocumentError(pointer_of((*path, "as")), "wrong-type", "“as” is the name of a construction")
    names = "tray, lid, sleeve, concertina, pocket, frame, envelope, tag or scored"
    return DocumentError(
        pointer_of((*path, "as")), "out-of-range", f"there is no construction of this name: use {names}"
    )


def _walked(location: tuple[str | int, ...], tree: Any) -> tuple[str | int, ...]:
    path: list[str | int] = []
    here = tree
    for part in location:
        known = part in here if isinstance(here, dict) else isinstance(here, list) and part in range(len(here))
        if not known:
            continue  # the name of a union's branch, or of a field that is missing
        here = here[part]
        path.append(part)
    return tuple(path)
