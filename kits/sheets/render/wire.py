"""What parent and child say to each other: one line of JSON and, after it, bytes that JSON cannot hold.

The line holds `sizes`, the length of each of the byte strings that follow it.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

__all__ = ["end", "pack", "unpack"]


def pack(head: dict[str, Any], parts: Sequence[bytes] = ()) -> bytes:
    line = json.dumps({**head, "sizes": [len(part) for part in parts]}).encode()
    return b"\n".join((line, b"".join(parts)))


def unpack(message: bytes) -> tuple[dict[str, Any], list[bytes]]:
    line, _, rest = message.partition(b"\n")
    head: dict[str, Any] = json.loads(line)
    parts, at = [], 0
    for size in head["sizes"]:
        parts.append(rest[at : at + size])
        at += size
    return head, parts


def end(begun: bytes) -> int | None:
    """Where the first message ends, or None if it is not complete."""
    line = begun.find(b"\n")
    if line < 0:
        return None
    whole: int = line + 1 + sum(json.loads(begun[:line])["sizes"])
    return whole if len(begun) >= whole else None
