"""Proves kits made by chance, one after another in one process, and tells what is left behind: `many_proofs NUMBER`.

Run in a process of its own, whose memory is that of the proofs alone. One line of JSON at the end: what it holds in
memory a quarter of the way and at the end, in kilobytes, and the child processes, open files and threads there are.
"""

from __future__ import annotations

import gc
import json
import os
import sys
import threading
from pathlib import Path
from typing import Any

from layouts.document import read_kit
from layouts.proofing import prove_at_once
from tests.reference.kit_maker import made_kit

__all__ = ["main"]


def main() -> None:
    number = int(sys.argv[1])
    settled: dict[str, Any] = {}
    for seed in range(number):
        prove_at_once(read_kit(json.dumps(made_kit(10_000 + seed)).encode()))
        # What is kept on purpose (grids and tables of modules, the allocator's own reserve) is there by then.
        if seed == number // 4:
            settled = _left()
    json.dump({"settled": settled, "end": _left()}, sys.stdout)


def _left() -> dict[str, Any]:
    gc.collect()
    status = Path("/proc/self/status").read_text(encoding="ascii").splitlines()
    held = next(line for line in status if line.startswith("VmRSS:"))
    return {
        "kilobytes": int(held.split()[1]),
        "children": _children(),
        "files": len(list(Path("/proc/self/fd").iterdir())),
        "threads": threading.active_count(),
    }


def _children() -> int:
    """How many children there are of any thread, dead ones that nobody waited for too."""
    lists = Path(f"/proc/{os.getpid()}/task").glob("*/children")
    return sum(len(path.read_text(encoding="ascii").split()) for path in lists)


if __name__ == "__main__":
    main()
