"""`manage.py mends`, one of the commands of the contract."""

from config.management.through_the_door import Command

__all__ = ["Command"]
