"""Reads a document from standard input as the proof command does, and tells what it was refused for and what it cost.

Run in a process of its own: memory is that of the reader alone.
"""

from __future__ import annotations

import gc
import json
import sys
import time

from layouts.document import Refused, read_kit


def peak_mb() -> int:
    # Not getrusage: its figure is handed down from the process that started this one.
    with open("/proc/self/status", encoding="ascii") as status:
        peak = next(line for line in status if line.startswith("VmHWM:"))
    return int(peak.split()[1]) // 1024


def main() -> None:
    gc.disable()  # as the command does
    data = sys.stdin.buffer.read()
    started = time.process_time()
    told: list[tuple[str, str]] = []
    try:
        read_kit(data)
    except Refused as refusal:
        told = [(error.pointer, error.code) for error in refusal.errors]
    json.dump({"told": told, "peak_mb": peak_mb(), "seconds": time.process_time() - started}, sys.stdout)


if __name__ == "__main__":
    main()
