"""`python -m tests.hostile`: what each hostile document costs to refuse, in processor time and memory."""

from __future__ import annotations

import json
import subprocess
import sys

from tests.hostile.floods import FLOODS


def main() -> None:
    for name, flood in FLOODS.items():
        command = [sys.executable, "-m", "tests.hostile.measured"]
        measured = json.loads(subprocess.run(command, input=flood(), capture_output=True, check=True).stdout)
        print(f"{measured['seconds']:5.2f} s {measured['peak_mb']:4} MB  {len(measured['told']):4} errors  {name}")


if __name__ == "__main__":
    main()
