"""The one door of the contract's commands: it alone turns what happens inside them into exit codes.

Codes 0 to 3 are answers and come from the command's own `run` only. Whatever else happens must not look like one of
them: wrong usage is 64, an unreadable file 66, anything unforeseen 70, Ctrl-C 130 and a reader of standard output who
went away 141 (128 + the signal's number, as a shell reports it).

A command is a module with `SUMMARY`, `add_arguments(parser)` and `run(options) -> int`. It is imported inside the door
and without Django, so that a broken import is an internal error like any other and a proof starts quickly; one that
needs settings asks for them itself.
"""

from __future__ import annotations

import argparse
import contextlib
import gc
import importlib
import os
import select
import sys
import traceback
from collections.abc import Sequence
from types import ModuleType
from typing import TYPE_CHECKING, NoReturn, TextIO

if TYPE_CHECKING:
    from _typeshed import SupportsWrite

__all__ = ["COMMANDS", "is_contract_command", "main"]

COMMANDS = {
    "mends": "layouts.commands.mends",
    "proof": "layouts.commands.proof",
    "sheets": "kits.sheets.commands.sheets",
    "up": "config.commands.up",
}

_ANSWERS = (0, 1, 2, 3)
_WRONG_USAGE = 64
_UNREADABLE_FILE = 66
_INTERNAL_ERROR = 70
_INTERRUPTED = 130
_READER_GONE = 141


class _Parser(argparse.ArgumentParser):
    def print_help(self, file: SupportsWrite[str] | None = None) -> None:
        # argparse's own keeps silent when nothing can be written, and would report a success.
        print(self.format_help(), end="", file=file)

    def error(self, message: str) -> NoReturn:
        self.print_usage(sys.stderr)
        self.exit(_WRONG_USAGE, f"{self.prog}: {message}\n")


def is_contract_command(argv: Sequence[str]) -> bool:
    return len(argv) > 1 and argv[1] in COMMANDS


def main(argv: Sequence[str]) -> int:
    """Run the command that `argv` names (`["manage.py", "proof", …]`) and return the status to exit with."""
    try:
        for stream in (sys.stdout, sys.stderr):
            _speak_utf8(stream)
        status = _answer(argv[1], argv[2:])
    except KeyboardInterrupt:
        status = _INTERRUPTED
    except BaseException as error:  # noqa: BLE001  the last door: what passes here would exit 1, which means "not ready"
        status = _after(error)
    return _closed(status)


def _answer(command: str, arguments: Sequence[str]) -> int:
    module = _imported(COMMANDS[command])
    try:
        options = _parser(command, module).parse_args(arguments)
    except SystemExit as stop:  # --help and wrong usage end inside the parser
        return stop.code if isinstance(stop.code, int) else 0
    status = module.run(options)
    if type(status) is not int or status not in _ANSWERS:
        raise TypeError(f"{module.__name__}.run returned {status!r}, which is no answer")
    if sys.stdout is not None:
        sys.stdout.flush()
    return status


def _imported(name: str) -> ModuleType:
    """Import a command, which is half the time of a small proof.

    Nothing that is imported is garbage, and looking for it takes a tenth of that. Plugins of pydantic that happen to
    be installed must not take part in reading a document; already to look for them reads every package's files.
    """
    os.environ["PYDANTIC_DISABLE_PLUGINS"] = "__all__"
    gc.disable()
    try:
        return importlib.import_module(name)
    finally:
        gc.enable()


def _parser(command: str, module: ModuleType) -> _Parser:
    parser = _Parser(prog=f"manage.py {command}", description=module.SUMMARY, allow_abbrev=False)
    module.add_arguments(parser)
    return parser


def _after(error: BaseException) -> int:
    """Say what went wrong where that helps, and return its status."""
    if isinstance(error, BrokenPipeError) and _reader_gone():
        return _READER_GONE
    # Found by name: importing the class here could itself be what fails.
    errors = sys.modules.get("layouts.errors")
    if errors is not None and isinstance(error, errors.UnreadableFile):
        _say(f"manage.py: {error.message}\n")
        return _UNREADABLE_FILE
    if errors is not None and isinstance(error, errors.WrongUsage):
        _say(f"manage.py: {error.message}\n")
        return _WRONG_USAGE
    if errors is not None and isinstance(error, (errors.CannotStart, errors.UnwritableFile)):
        _say(f"manage.py: {error.message}\n")
        return _INTERNAL_ERROR
    _say("".join(traceback.format_exception(error)))
    return _INTERNAL_ERROR


def _speak_utf8(stream: TextIO | None) -> None:
    """Make the bytes independent of the locale, and never fail on a letter that a terminal lacks."""
    if stream is not None and hasattr(stream, "reconfigure"):
        stream.reconfigure(encoding="utf-8", errors="backslashreplace", newline="\n")


def _reader_gone() -> bool:
    """Tell whether it is standard output that broke: a pipe to a child may break as well, and that is a defect."""
    if sys.stdout is None:
        return False
    poll = select.poll()
    poll.register(sys.stdout.fileno(), 0)
    return any(event & (select.POLLERR | select.POLLHUP) for _, event in poll.poll(0))


def _say(text: str) -> None:
    # Nobody may be listening; the status still tells.
    if sys.stderr is not None:
        with contextlib.suppress(OSError):
            sys.stderr.write(text)


def _closed(status: int) -> int:
    """Empty both streams, so that the interpreter's own last flush cannot fail and change the status to 120."""
    for stream in (sys.stdout, sys.stderr):
        if stream is None:
            continue
        try:
            stream.flush()
        except OSError as error:
            if stream is sys.stdout and status in _ANSWERS:
                status = _after(error)
            with open(os.devnull, "w") as nowhere:
                os.dup2(nowhere.fileno(), stream.fileno())
    return status
