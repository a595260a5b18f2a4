"""`manage.py person EMAIL`: add somebody who can sign in; the way to a team's first planner."""

from __future__ import annotations

import getpass
import sys
from argparse import ArgumentParser
from typing import Any

from django.core.exceptions import ValidationError
from django.core.management.base import BaseCommand, CommandError

from kits.members.models import Role
from kits.members.services import person_add


class Command(BaseCommand):
    help = "Add a person who can sign in. The password is asked for, or read from a standard input that is no terminal."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("email", metavar="EMAIL")
        parser.add_argument("--name", default="", help="what the pages call them")
        parser.add_argument(
            "--role", action="append", choices=Role.values, default=[], dest="roles", help="may be given several times"
        )

    def handle(self, *args: Any, **options: Any) -> None:
        password = getpass.getpass() if sys.stdin.isatty() else sys.stdin.readline().rstrip("\n")
        roles = [Role(role) for role in dict.fromkeys(options["roles"])]
        try:
            person = person_add(email=options["email"], name=options["name"], password=password, roles=roles, by=None)
        except ValidationError as refusal:
            raise CommandError(" ".join(refusal.messages)) from refusal
        held = ", ".join(roles) or "no role yet"
        self.stdout.write(f"{person.email} can sign in ({held})")
