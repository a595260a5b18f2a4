"""The canonical form: the one way to write a kit document, whose SHA-256 is its identity."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from typing import Any

from layouts.document.base import DocumentObject
from layouts.document.forms import Lid, Tray
from layouts.document.kit import Kit
from layouts.document.steps import Step
from layouts.document.values import Box, Duration, Point, Size
from layouts.lengths import Length, System

__all__ = ["canonical_bytes", "canonical_tree", "canonical_value", "document_hash", "kept_members"]


def canonical_bytes(kit: Kit) -> bytes:
    """Return the canonical form: keys sorted by code point, no white space, UTF-8."""
    return json.dumps(canonical_tree(kit), ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode("utf-8")


def document_hash(kit: Kit) -> str:
    """Return the SHA-256 of the canonical form, in hexadecimal: the document's identity."""
    return hashlib.sha256(canonical_bytes(kit)).hexdigest()


def canonical_tree(kit: Kit) -> dict[str, Any]:
    """Return the canonical form as plain JSON values.

    Lengths take their canonical text; as members of objects, defaults, nulls, empty lists and objects of nothing but
    defaults are dropped, `after: []` is not, and members of lists never are.
    """
    tree = canonical_value(kit, kit.unit)
    assert isinstance(tree, dict)
    return tree


def canonical_value(value: Any, unit: System | None) -> Any:
    """Return one value of a document as plain JSON; `unit` is the document's, and None has every unit written."""
    if isinstance(value, Length):
        return value.text(unit)
    if isinstance(value, Size | Box | Point):
        return [getattr(value, name).text(unit) for name in value.names]
    if isinstance(value, Duration):
        return str(value)
    if isinstance(value, tuple):
        return [canonical_value(member, unit) for member in value]
    if isinstance(value, DocumentObject):
        return _object(value, unit)
    return value


def kept_members(value: DocumentObject) -> Iterator[tuple[str, str, Any]]:
    """Yield the members that are neither absent nor a default: name in the model, name as written, value.

    Whatever is worked out from a document looks at these, never at what happened to be written: two documents with the
    same canonical form must have the same proof.
    """
    for name, field in type(value).model_fields.items():
        member = None if name == "carried" else getattr(value, name)
        if member is None or (not field.is_required() and _is_default(member, field.default)):
            continue
        if not _is_derived(value, name):
            yield name, field.alias or name, member


def _object(value: DocumentObject, unit: System | None) -> dict[str, Any]:
    members = dict(value.carried)  # kept whole: not even a null in it is dropped
    for name, written, member in kept_members(value):
        plain = canonical_value(member, unit)
        if plain not in ({}, []) or (isinstance(value, Step) and name == "after"):
            members[written] = plain
    return members


def _is_default(value: Any, default: Any) -> bool:
    if isinstance(value, Length):
        return isinstance(default, Length) and value.written_like(default)
    if isinstance(value, DocumentObject):
        return False  # one of nothing but defaults comes out empty
    return type(value) is type(default) and bool(value == default)


def _is_derived(value: DocumentObject, name: str) -> bool:
    """Whether a stated turn-in says no more than the wall's depth (double) or nothing (single) would."""
    return name == "turn_in" and isinstance(value, Tray | Lid) and value.turned_in.written_like(value.usual_turn_in)
