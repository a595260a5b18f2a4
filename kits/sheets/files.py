"""Where rendered files are kept: each under a name made from what is in it, so that equal files are one file.

No web server shows this folder: whoever gets a file is asked first who they are (`frontend`).
"""

from __future__ import annotations

import hashlib
import os
import tempfile
from pathlib import Path

from django.conf import settings

__all__ = ["is_kept", "keep", "kept"]


def keep(content: bytes, ending: str) -> str:
    """Store a file, whole or not at all, and return its name."""
    name = f"{hashlib.sha256(content).hexdigest()}.{ending}"
    path = kept(name)
    if not path.exists():
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        # Written beside and moved: a worker that is killed leaves no half file under a name that promises a whole one.
        with tempfile.NamedTemporaryFile(dir=path.parent, prefix="part-", delete=False) as part:
            part.write(content)
            part.flush()
            os.fsync(part.fileno())
        Path(part.name).replace(path)
    return name


def is_kept(name: str) -> bool:
    return kept(name).is_file()


def kept(name: str) -> Path:
    """Return where a file of this name is kept; names come from `keep`, never from a visitor."""
    return Path(settings.MEDIA_ROOT) / "sheets" / name[:2] / name
