"""A Redis server for the tests, on a private socket, which keeps what it was told in a file as in real use."""

from __future__ import annotations

import contextlib
import shutil
from collections.abc import Iterator
from pathlib import Path

import redis

from tests.outside.packages import bring
from tests.outside.server import running

__all__ = ["redis_server"]


@contextlib.contextmanager
def redis_server(folder: Path) -> Iterator[str]:
    """Run a server whose socket and file are in the folder, and give its address; started again, it remembers."""
    program = bring("redis-server", lambda: shutil.which("redis-server"))
    socket = folder / "redis.sock"
    server = [program, "--port", "0", "--unixsocket", str(socket), "--appendonly", "yes", "--save", ""]
    with running([*server, "--dir", str(folder)], folder=folder, ready=lambda: _answers(socket)):
        yield f"unix://{socket}"


def _answers(socket: Path) -> bool:
    try:
        with redis.Redis(unix_socket_path=str(socket)) as client:
            return bool(client.ping())
    except redis.ConnectionError:
        return False
