"""The supervisor's loop: one thread that reads what the parts say, notices deaths, and hears Ctrl-C."""

from __future__ import annotations

import contextlib
import os
import selectors
import signal
import time
from collections.abc import Callable, Iterator
from types import FrameType

from config.supervisor.child import Child
from config.supervisor.keeper import Keeper, Part
from config.supervisor.lines import Lines
from layouts.errors import CannotStart

__all__ = ["AskedToStop", "Supervisor", "supervising"]

_STOP_SECONDS = 10.0
# How long the loop sleeps at most: deaths and signals wake it at once, this is for times that have come.
_TURN_SECONDS = 1.0
_POLL_SECONDS = 0.05


class AskedToStop(Exception):
    """Somebody pressed Ctrl-C, or sent a signal that means the same."""


class Supervisor:
    """Holds the parts in the order in which they were started. Use `supervising`, which also ends them."""

    def __init__(self, lines: Lines, awake: int) -> None:
        self.lines = lines
        self.asked = False
        self._keepers: list[Keeper] = []
        self._selector = selectors.DefaultSelector()
        self._awake = awake
        self._selector.register(awake, selectors.EVENT_READ)

    def run(self, part: Part) -> Keeper:
        """Start a part that is to run until the end."""
        keeper = self._keeper(part)
        keeper.start(time.monotonic())
        self._keepers.append(keeper)
        return keeper

    def finish(self, part: Part) -> None:
        """Run a part that ends by itself, to its end. Raises: CannotStart if it fails, AskedToStop."""
        keeper = self._keeper(part)
        keeper.start(time.monotonic())
        try:
            while (status := keeper.gone()) is None:
                self._turn(_TURN_SECONDS)
        except BaseException:
            self._end(keeper)
            raise
        if status:
            raise CannotStart(f"the {part.name} failed:{keeper.last_lines()}")

    def wait(self, keeper: Keeper, works: Callable[[], bool], seconds: float) -> None:
        """Wait until a part works. Raises: CannotStart if it has not begun to after so long, AskedToStop."""
        deadline = time.monotonic() + seconds
        while not works():
            if time.monotonic() > deadline:
                raise CannotStart(f"the {keeper.part.name} does not answer after {seconds:g} s.{keeper.last_lines()}")
            self._turn(_POLL_SECONDS)
        keeper.settle()

    def watch(self) -> None:
        """Keep all parts running until somebody asks to stop. Raises: AskedToStop."""
        while True:
            self._turn(_TURN_SECONDS)

    def close(self) -> None:
        """End all parts, the last one first, and each with its time to end in order."""
        while self._keepers:
            self._end(self._keepers.pop())
        self._selector.close()

    def _keeper(self, part: Part) -> Keeper:
        return Keeper(
            part,
            self.lines,
            opened=lambda child: self._selector.register(child.output, selectors.EVENT_READ, child) and None,
            closing=self._forget,
        )

    def _turn(self, seconds: float) -> None:
        """Do what there is to do, after sleeping at most so long. Raises: AskedToStop, CannotStart."""
        now = time.monotonic()
        dues = [keeper.due - now for keeper in self._keepers if keeper.due is not None]
        self._listen(max(0.0, min([seconds, *dues])))
        if self.asked:
            raise AskedToStop
        for keeper in self._keepers:
            keeper.look(time.monotonic())

    def _listen(self, seconds: float) -> None:
        for key, _ in self._selector.select(seconds):
            if key.fd == self._awake:
                with contextlib.suppress(BlockingIOError):
                    os.read(self._awake, 1 << 12)
            elif not key.data.read():
                self._forget(key.data)

    def _forget(self, child: Child) -> None:
        with contextlib.suppress(KeyError):
            self._selector.unregister(child.output)

    def _end(self, keeper: Keeper) -> None:
        if keeper.child is None:
            return
        keeper.child.ask_to_end()
        deadline = time.monotonic() + _STOP_SECONDS
        while keeper.gone() is None:
            left = deadline - time.monotonic()
            if left <= 0 and keeper.child is not None:
                self.lines.complain(f"The {keeper.part.name} did not end within {_STOP_SECONDS:g} s; it is killed.")
                keeper.child.kill()
                deadline += _STOP_SECONDS
            self._listen(max(0.0, min(left, _TURN_SECONDS)))


@contextlib.contextmanager
def supervising(lines: Lines) -> Iterator[Supervisor]:
    """Give a supervisor that hears signals, and end its parts in any case."""
    awake, wake = os.pipe()
    for end in (awake, wake):
        os.set_blocking(end, False)
    supervisor = Supervisor(lines, awake)

    def ask(_number: int, _frame: FrameType | None) -> None:
        supervisor.asked = True

    before = signal.set_wakeup_fd(wake, warn_on_full_buffer=False)
    handlers = {sign: signal.signal(sign, ask) for sign in (signal.SIGINT, signal.SIGTERM)}
    # Ignored where somebody wants the program to outlive its terminal (nohup).
    if signal.getsignal(signal.SIGHUP) is not signal.SIG_IGN:
        handlers[signal.SIGHUP] = signal.signal(signal.SIGHUP, ask)
    # Nothing to do but to wake up.
    handlers[signal.SIGCHLD] = signal.signal(signal.SIGCHLD, lambda _number, _frame: None)
    try:
        yield supervisor
    finally:
        supervisor.close()
        for sign, handler in handlers.items():
            signal.signal(sign, handler)
        signal.set_wakeup_fd(before)
        os.close(awake)
        os.close(wake)
