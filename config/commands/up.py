"""`manage.py up`: the whole of Kitproof on this machine, until Ctrl-C."""

from __future__ import annotations

import argparse
import contextlib
import json
import os
from pathlib import Path
from typing import Any

from config.supervisor import parts
from config.supervisor.lines import Lines
from config.supervisor.lock import HomeLock
from config.supervisor.watch import AskedToStop, Supervisor, supervising
from layouts.errors import CannotStart

__all__ = ["SUMMARY", "add_arguments", "run"]

SUMMARY = "Run Kitproof on this machine: database, broker, worker, beat and pages, until Ctrl-C."

_PATIENCE = 60.0  # seconds; a part that does not answer by then never will


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--port",
        type=_port,
        default=parts.USUAL_PORT,
        help=f"where the pages are on this machine (default {parts.USUAL_PORT}; 0: any free one)",
    )
    parser.add_argument("--verbose", action="store_true", help="show everything that the parts say")
    parser.epilog = "Exit status: 0 stopped by Ctrl-C, 64 wrong usage, 70 a part cannot start."


def _port(text: str) -> int:
    if text.isascii() and text.isdecimal() and int(text) < 1 << 16:
        return int(text)
    raise argparse.ArgumentTypeError(f"{text} is no port: a whole number from 0 to 65535")


def run(options: argparse.Namespace) -> int:
    """Run all parts until somebody asks to stop; return 0. Raises: CannotStart."""
    settings = _settings()
    lines = Lines(settings.HOME / "log" / "up.log", verbose=options.verbose)
    # The parts end before what they use is taken away: port and broker's socket.
    with HomeLock(settings.HOME) as lock, contextlib.ExitStack() as held, supervising(lines) as supervisor:
        try:
            _start(supervisor, settings, options.port, lock, held)
            supervisor.watch()
        except AskedToStop:
            lines.say("Stopping …")
    lines.say("Stopped.")
    return 0


def _settings() -> Any:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")
    # Not before: usage is told, and refused, without them.
    from django.conf import settings

    from config.env import BadSetting

    try:
        settings.HOME  # noqa: B018  the settings are read when the first of them is asked for
    except BadSetting as refusal:
        raise CannotStart(str(refusal)) from refusal
    return settings


def _start(supervisor: Supervisor, settings: Any, port: int, lock: HomeLock, held: contextlib.ExitStack) -> None:
    """Start one part after the other, each when what it needs is there. Raises: CannotStart, AskedToStop."""
    taken = held.enter_context(parts.listening(port))
    port = taken.getsockname()[1]
    address = f"http://127.0.0.1:{port}"
    lock.note(address)
    supervisor.lines.say(f"Kitproof is starting, with all it keeps in {settings.HOME} …")
    if not os.environ.get("KITPROOF_BROKER_URL", "").strip():
        broker = held.enter_context(parts.embedded_broker(settings.HOME))
        supervisor.wait(supervisor.run(parts.broker(broker)), broker.is_ready, _PATIENCE)
    sign_in = _prepare(supervisor, settings.HOME / "prepared.json")
    supervisor.run(parts.worker())
    supervisor.run(parts.beat())
    answer = parts.WebAnswer(port, settings.ALLOWED_HOSTS[0])
    supervisor.wait(supervisor.run(parts.web(taken)), answer, _PATIENCE)
    supervisor.lines.say(f"Kitproof is at {address}{_shown(sign_in)}\nStop it with Ctrl-C.")


def _prepare(supervisor: Supervisor, result: Path) -> dict[str, Any] | None:
    """Return the demo's sign-in, None without demo."""
    try:
        supervisor.finish(parts.preparing(result))
        sign_in: dict[str, Any] | None = json.loads(result.read_bytes())
    finally:
        # It holds a password.
        result.unlink(missing_ok=True)
    return sign_in


def _shown(sign_in: dict[str, Any] | None) -> str:
    if sign_in is None:
        return ""
    people = "".join(f"\n  {role:<8}  {email}" for role, email in sign_in["people"].items())
    return f"\n\nSign in (a demo, for this machine alone) with the password {sign_in['password']} as{people}\n"
