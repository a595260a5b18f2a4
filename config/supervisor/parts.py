"""Which parts there are, how each is started, and how one knows that it works."""

from __future__ import annotations

import contextlib
import os
import shutil
import socket
import sys
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlsplit

from config.background import beat_command, worker_command
from config.broker import Broker
from config.supervisor.keeper import Part
from layouts.errors import CannotStart

__all__ = ["USUAL_PORT", "WebAnswer", "beat", "broker", "embedded_broker", "listening", "preparing", "web", "worker"]

USUAL_PORT = 8000
_HERE = "127.0.0.1"
_BACKLOG = 512  # visitors that may wait while the web starts again


@contextlib.contextmanager
def listening(port: int) -> Iterator[socket.socket]:
    """Take a port of this machine, 0 for any free one, and hold it: it stays taken while the web is started again.

    Raises: CannotStart.
    """
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as taken:
        # Visitors of an earlier start may not have noticed yet that it is gone.
        taken.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            taken.bind((_HERE, port))
            taken.listen(_BACKLOG)
        except OSError as error:
            raise CannotStart(
                f"port {port} of this machine cannot be used: {(error.strerror or str(error)).lower()}. "
                "Choose another by --port (make up PORT=…)."
            ) from error
        yield taken


@contextlib.contextmanager
def embedded_broker(home: Path) -> Iterator[Broker]:
    """Give the embedded broker's place and command line, and remove its socket at the end."""
    _remove_left_over(home)
    broker = Broker(home)
    try:
        yield broker
    finally:
        broker.close()


def _remove_left_over(home: Path) -> None:
    """Remove the socket's folder of an `up` that was killed and could remove nothing itself."""
    with contextlib.suppress(OSError):
        folder = Path(urlsplit((home / "broker" / "address").read_text().strip()).path).parent
        if folder.name.startswith("kitproof-") and folder.stat().st_uid == os.geteuid():
            shutil.rmtree(folder)


def broker(embedded: Broker) -> Part:
    return Part("broker", embedded.command)


def preparing(result: Path) -> Part:
    return Part("preparation of database and files", _python("config.supervisor.preparing", str(result)))


def worker() -> Part:
    return Part("worker", worker_command())


def beat() -> Part:
    # No file with its number: the lock on the folder already keeps a second one away.
    return Part("beat", [*beat_command(), "--pidfile", ""])


def web(taken: socket.socket) -> Part:
    number = taken.fileno()
    command = _python("gunicorn", "--config", "python:config.web", "--bind", f"fd://{number}", "config.wsgi")
    return Part("web", command, sockets=[number])


def _python(module: str, *arguments: str) -> list[str]:
    return [sys.executable, "-m", module, *arguments]


class WebAnswer:
    """Asks the web whether it is well, without ever waiting for the answer: call it again until it says true.

    The port takes visitors before anybody is there to serve them, so one question waits for the first who does.
    """

    def __init__(self, port: int, host: str) -> None:
        self._port = port
        # A name with a dot in front stands for all names below it.
        self._question = f"GET /health HTTP/1.0\r\nHost: {host.removeprefix('.')}\r\n\r\n".encode()
        self._line: socket.socket | None = None

    def __call__(self) -> bool:
        if self._line is None:
            self._line = socket.create_connection((_HERE, self._port), timeout=1)
            self._line.sendall(self._question)
            self._line.setblocking(False)
        try:
            said = self._line.recv(64)
        except BlockingIOError:
            return False
        except ConnectionError:
            said = b""
        self._line.close()
        self._line = None
        return said[9:12] == b"200"
