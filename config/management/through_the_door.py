"""Lists a command of the contract among Django's; the door does the work, also for callers that come past manage.py."""

from __future__ import annotations

import sys

from django.core.management.base import BaseCommand

from config import door

__all__ = ["Command"]


class Command(BaseCommand):
    def run_from_argv(self, argv: list[str]) -> None:
        sys.exit(door.main(argv))

    def print_help(self, prog_name: str, subcommand: str) -> None:
        door.main([prog_name, subcommand, "--help"])
