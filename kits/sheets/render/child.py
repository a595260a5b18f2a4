"""The process in which pages are set and shown: one job a message in, one answer a message out (`wire`).

A job holds its `task`:

- `pdf`: `html`, `title`, `true_size` (whether a printer may not scale it) and `names`, of which the parts are the
  assets. The answer's part is the PDF.
- `pictures`: `width` in pixels, the part is a PDF. The answer's parts are its pages as PNG.

`{"refused": …}` means that the job cannot be done, and why; `{"too_big": …}` that it ran out of memory.
"""

from __future__ import annotations

import sys
from typing import Any

from kits.sheets.render import wire
from kits.sheets.render.refused import Refused
from layouts.children.inside import begin, messages

__all__ = ["main"]

# The libraries go from element to element by calling themselves. Where a page is nested deeper it is a refusal, well
# before the stack of the process is used up, which would be a crash.
DEPTH = 1000


def main() -> None:
    """Do jobs until standard input closes. Arguments: the parent's process id, the memory limit in bytes."""
    if len(sys.argv) != 3:
        sys.exit("This is the renderer's process; kits.sheets.rendering starts it.")
    out = begin(int(sys.argv[1]), int(sys.argv[2]))
    sys.setrecursionlimit(DEPTH)
    for message in messages(wire.end):
        out.write(_answer(*wire.unpack(message)))
        out.flush()


def _answer(job: dict[str, Any], parts: list[bytes]) -> bytes:
    try:
        return wire.pack({}, _do(job, parts))
    except Refused as refused:
        return wire.pack({"refused": str(refused)})
    except RecursionError:
        return wire.pack({"refused": "the page is nested too deeply"})
    except (MemoryError, SystemError):
        # Libraries written in C that get no memory may return without saying why: that is a SystemError.
        return wire.pack({"too_big": "out of memory"})


def _do(job: dict[str, Any], parts: list[bytes]) -> list[bytes]:
    # Each task imports its own libraries: to start them takes longer than many a job.
    if job["task"] == "pictures":
        from kits.sheets.render.pictures import pictures

        return pictures(parts[0], job["width"])
    from kits.sheets.render.page import set_pages

    assets = dict(zip(job["names"], parts, strict=True))
    return [set_pages(job["html"], assets, title=job["title"], true_size=job["true_size"])]
