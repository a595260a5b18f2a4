#!/usr/bin/env python
"""Every command starts here: those of the contract go through their one door, all others to Django."""

import os
import sys

from config import door


def main() -> None:
    if door.is_contract_command(sys.argv):
        sys.exit(door.main(sys.argv))
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")
    from django.core.management import execute_from_command_line

    from config.env import BadSetting

    try:
        execute_from_command_line(sys.argv)
    except BadSetting as refusal:
        sys.exit(f"manage.py: {refusal}")


if __name__ == "__main__":
    main()
