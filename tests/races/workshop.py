"""A broker, workers and a clock as processes of their own, beside the test's database."""

from __future__ import annotations

import contextlib
import os
import signal
import subprocess
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Protocol

import redis
from celery import Celery
from django.db import connection

from config import background, celery
from config.broker import Broker
from tests.outside.redis_server import redis_server
from tests.outside.server import short_folder

__all__ = ["Workshop", "alive", "dead", "descendants", "eventually", "kill", "parent_of", "solvers_of", "workshop"]

CHECKOUT = Path(__file__).resolve().parents[2]


class _Server(Protocol):
    """The broker of a pair."""

    address: str

    def start(self) -> None: ...
    def kill(self) -> None: ...
    def stop(self) -> None: ...


class _Embedded:
    """The broker of whoever names no other."""

    def __init__(self, home: Path) -> None:
        self._broker = Broker(home)
        self.address = self._broker.address

    def start(self) -> None:
        self._broker.start()

    def kill(self) -> None:
        pid = self._broker.pid
        assert pid is not None
        os.kill(pid, signal.SIGKILL)
        self._broker.stop()

    def stop(self) -> None:
        self._broker.stop()
        self._broker.close()


class _Redis:
    """A Redis server, as told by an address."""

    def __init__(self) -> None:
        self._stack = contextlib.ExitStack()
        self._folder = self._stack.enter_context(short_folder(None))
        self._running: contextlib.AbstractContextManager[str] | None = None
        self.address = f"unix://{self._folder / 'redis.sock'}"

    def start(self) -> None:
        self._running = redis_server(self._folder)
        assert self._running.__enter__() == self.address

    def kill(self) -> None:
        os.kill(_listening(self._folder / "redis.sock"), signal.SIGKILL)
        self._end()

    def stop(self) -> None:
        self._end()
        self._stack.close()

    def _end(self) -> None:
        running, self._running = self._running, None
        if running is not None:
            running.__exit__(None, None, None)


class Workshop:
    """What does the work in the background, to be started and killed one by one."""

    def __init__(self, home: Path, broker: _Server) -> None:
        self.broker = broker
        described = connection.settings_dict
        name = described["NAME"]
        address = f"sqlite:///{name}" if connection.vendor == "sqlite" else _postgresql(described)
        self._env = {
            **{variable: value for variable, value in os.environ.items() if not variable.startswith("KITPROOF_")},
            "KITPROOF_HOME": str(home),
            "KITPROOF_DATABASE_URL": address,
            "KITPROOF_BROKER_URL": broker.address,
            "PYTHONWARNINGS": "ignore",  # Celery's, that the worker runs as root
        }
        self._log = home / "log"

        self._residents: dict[str, subprocess.Popen[bytes]] = {}

    def worker(self, name: str = "worker") -> subprocess.Popen[bytes]:
        """The worker of that name: a new one where it is dead."""
        return self._alive(name, background.worker_command(name=name))

    def clock(self) -> subprocess.Popen[bytes]:
        return self._alive("the clock", background.beat_command())

    def dismiss(self, name: str) -> None:
        """Kill a worker and start no other in its place."""
        kill(self._residents.pop(name))

    def said(self) -> str:
        """What all processes have written so far."""
        return self._log.read_text(errors="replace")

    def close(self) -> None:
        """Kill what is left."""
        for process in self._residents.values():
            kill(process)

    def _alive(self, name: str, command: list[str]) -> subprocess.Popen[bytes]:
        resident = self._residents.get(name)
        if resident is None or resident.poll() is not None:
            resident = self._residents[name] = self._start(command)
        return resident

    def _start(self, command: list[str]) -> subprocess.Popen[bytes]:
        with open(self._log, "ab") as written:
            return subprocess.Popen(
                command,
                env=self._env,
                cwd=CHECKOUT,
                stdin=subprocess.DEVNULL,
                stdout=written,
                stderr=subprocess.STDOUT,
                start_new_session=True,
            )


@contextlib.contextmanager
def workshop(home: Path) -> Iterator[Workshop]:
    """Start the broker that belongs to the test's database, and send this process's messages to it."""
    broker: _Server = _Embedded(home) if connection.vendor == "sqlite" else _Redis()
    broker.start()
    queue = Celery("tests", broker=broker.address.replace("unix:", "redis+socket:"))
    queue.config_from_object("django.conf:settings", namespace="CELERY")
    queue.set_default()
    made = Workshop(home, broker)
    try:
        yield made
    finally:
        made.close()
        celery.app.set_current()
        celery.app.set_default()
        queue.close()
        broker.stop()


def kill(process: subprocess.Popen[bytes]) -> None:
    """Kill a process at once, as the machine does when it runs out of memory."""
    process.kill()
    process.wait()


def eventually[Answer](ask: Callable[[], Answer], *, seconds: float = 30) -> Answer:
    """Ask until the answer is true, or the time is over; return the last answer."""
    deadline = time.monotonic() + seconds
    while not (answer := ask()) and time.monotonic() < deadline:
        time.sleep(0.02)
    return answer


def solvers_of(process: subprocess.Popen[bytes]) -> list[int]:
    """The solver's processes that descend from a process."""
    return [pid for pid in descendants(process.pid) if b"layouts.cutting" in _read(pid, "cmdline").split(b"\0")]


def descendants(pid: int) -> list[int]:
    """The children of a process, and theirs."""
    # A child belongs to the thread that started it.
    threads = [thread.name for thread in Path(f"/proc/{pid}/task").glob("*")]
    children = [int(child) for thread in threads for child in _read(pid, f"task/{thread}/children").split()]
    return [one for child in children for one in (child, *descendants(child))]


def parent_of(pid: int) -> int:
    return int(_read(pid, "stat").rpartition(b")")[2].split()[1])


def alive(pid: int) -> bool:
    state = _read(pid, "stat").rpartition(b")")[2].split()
    return bool(state) and state[0] != b"Z"


def dead(pid: int) -> bool:
    return not alive(pid)


def _read(pid: int, name: str) -> bytes:
    try:
        return Path(f"/proc/{pid}/{name}").read_bytes()
    except OSError:  # it ended while it was looked at
        return b""


def _listening(socket: Path) -> int:
    with redis.Redis(unix_socket_path=str(socket)) as client:
        return int(client.info("server")["process_id"])


def _postgresql(described: dict[str, str]) -> str:
    return f"postgresql://{described['USER']}@/{described['NAME']}?host={described['HOST']}"
