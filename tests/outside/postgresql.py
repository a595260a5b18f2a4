"""A PostgreSQL server for the tests, on a private socket."""

from __future__ import annotations

import contextlib
import os
import subprocess
from collections.abc import Iterator
from pathlib import Path

import psycopg

from tests.outside.packages import bring
from tests.outside.server import as_user, running, short_folder

__all__ = ["postgresql"]

_OLDEST = 15


def _programs() -> Path | None:
    """Return where the newest version's programs are: Debian keeps them off PATH, one folder a version."""
    installed = Path("/usr/lib/postgresql").glob("*/bin/initdb")
    versions = sorted((int(found.parts[-3]), found.parent) for found in installed if found.parts[-3].isdecimal())
    return versions[-1][1] if versions and versions[-1][0] >= _OLDEST else None


@contextlib.contextmanager
def postgresql() -> Iterator[str]:
    """Run a new server and give the address of a database on it that the caller may create."""
    programs = bring("postgresql", _programs)
    # The server refuses to run as root.
    user = "postgres" if os.geteuid() == 0 else None
    with short_folder(user) as folder:
        data = folder / "data"
        subprocess.run(
            as_user(
                user,
                [
                    f"{programs}/initdb",
                    f"--pgdata={data}",
                    "--username=postgres",
                    "--auth=trust",
                    "--encoding=UTF8",
                    "--locale=C.UTF-8",
                    "--no-sync",
                ],
            ),
            cwd=folder,
            check=True,
            stdout=subprocess.DEVNULL,
        )
        # No network address; and nothing is written through to the disk, since nothing outlives the tests.
        server = [f"{programs}/postgres", "-D", str(data), "-k", str(folder), "-h", "", "-F"]
        address = f"postgresql://postgres@/kitproof?host={folder}"
        # INT: stop at once; TERM would wait for whoever is still connected.
        with running(server, folder=folder, user=user, stop="INT", ready=lambda: _answers(folder)):
            yield address


def _answers(folder: Path) -> bool:
    try:
        psycopg.connect(host=str(folder), user="postgres", dbname="postgres").close()
    except psycopg.OperationalError:
        return False
    return True
