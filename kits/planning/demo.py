"""A demo for one machine: the example kits, and an account for every role.

Its password is made by chance at the first start and kept in a file that its owner alone can read: accounts that
everybody knows the password of would stay in the database of whoever starts to serve others later.
"""

from __future__ import annotations

import os
import secrets
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings
from django.contrib.auth.hashers import make_password

from kits.members.models import Person, Role
from kits.members.services import role_grant
from kits.planning.errors import CodeKnown
from kits.planning.services import kit_create
from layouts.errors import KitproofError

__all__ = ["DemoRefused", "DemoSignIn", "demo_load"]

_EXAMPLES = Path(__file__).resolve().parents[1] / "examples"
_PEOPLE = {
    Role.PLANNER: ("planner@kitproof.example", "Ines Varga"),
    Role.EDITOR: ("editor@kitproof.example", "Mila Okoro"),
    Role.CARE: ("care@kitproof.example", "Tomas Brandl"),
    Role.STOCK: ("stock@kitproof.example", "Salma Reyes"),
    Role.MEMBER: ("member@kitproof.example", "Jo Lindahl"),
}


class DemoRefused(KitproofError):
    """A demo where other machines may be served."""

    code = "demo-refused"


@dataclass(frozen=True, slots=True)
class DemoSignIn:
    """How to sign in to the demo: one password for all of its people, by role the address of each."""

    password: str
    people: Mapping[str, str]


def demo_load() -> DemoSignIn:
    """Load the demo, as far as it is not there, and say how to sign in. What somebody changed in it stays.

    Raises: DemoRefused where settings.DEMO is off.
    """
    if not settings.DEMO:
        raise DemoRefused("the demo is for a machine that serves itself alone: KITPROOF_DEMO is off")
    password = _password(settings.HOME / "demo-password")
    people = _people(password)
    for path in sorted(_EXAMPLES.glob("*.json")):
        try:
            kit_create(document=path.read_bytes(), by=people[Role.PLANNER])
        except CodeKnown:
            continue  # loaded at an earlier start, and perhaps changed since
    return DemoSignIn(password, {role.value: person.email for role, person in people.items()})


def _password(path: Path) -> str:
    password = path.read_text(encoding="ascii") if path.exists() else ""
    if not password:
        path.unlink(missing_ok=True)
        password = secrets.token_hex(8)
        with open(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w", encoding="ascii") as written:
            written.write(password)
    return password


def _people(password: str) -> dict[Role, Person]:
    addresses = [email for email, _ in _PEOPLE.values()]
    known = {person.email: person for person in Person.objects.filter(email__in=addresses)}
    # Another database may have another password. Checking one of them tells, and takes long on purpose.
    if len(known) < len(addresses) or not known[addresses[0]].check_password(password):
        hashed = make_password(password)
        for email, name in _PEOPLE.values():
            person = known.setdefault(email, Person(email=email, name=name))
            person.password = hashed
            person.save()
    for role, (email, _) in _PEOPLE.items():
        role_grant(person=known[email], role=role, by=None)
    return {role: known[email] for role, (email, _) in _PEOPLE.items()}
