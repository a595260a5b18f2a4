"""docker-compose of the version that the system has: 1 or 2, both are to take our file."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

from tests.outside.packages import bring

__all__ = ["compose"]


def compose(*arguments: str, folder: Path, **variables: str) -> subprocess.CompletedProcess[str]:
    """Run docker-compose on the file of a folder, with no variables of ours but these; `config` needs no Docker."""
    program = bring("docker-compose", lambda: shutil.which("docker-compose"))
    clean = {name: value for name, value in os.environ.items() if not name.startswith(("KITPROOF_", "COMPOSE_"))}
    return subprocess.run(
        [program, "--file", str(folder / "docker-compose.yml"), *arguments],
        # Not ours: there could be somebody's own .env beside the file.
        cwd="/",
        env={**clean, **variables},
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
