"""What the tests of pages share: a cast of one person a role, a kit, and the static files that pages name."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from django.core.management import call_command
from django.test import Client, override_settings

from kits.members.models import Person, Role
from kits.planning.models import Draft
from tests.pages.reading import Page
from tests.services.planning_cast import drafted, person


@pytest.fixture(scope="session", autouse=True)
def _static_files(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Pages name static files by what is in them: they must have been collected, as in real use."""
    with override_settings(STATIC_ROOT=str(tmp_path_factory.mktemp("static"))):
        call_command("collectstatic", interactive=False, verbosity=0)
        yield


@pytest.fixture
def cast(db: None) -> dict[str, Person]:
    """One person a role, by role."""
    names = {
        Role.PLANNER: "Ines Varga",
        Role.EDITOR: "Runa Holm",
        Role.CARE: "Tove Adler",
        Role.STOCK: "Juri Sato",
        Role.MEMBER: "Lea Brandt",
    }
    return {role.value: person(name, role) for role, name in names.items()}


@pytest.fixture
def signed_in(cast: dict[str, Person]) -> Callable[[str], Client]:
    """A browser in which the person of a role has signed in; of a stranger, nobody has."""

    def browser(role: str) -> Client:
        client = Client()
        if role != "stranger":
            client.force_login(cast[role])
        return client

    return browser


@pytest.fixture
def planner(signed_in: Callable[[str], Client]) -> Client:
    return signed_in("planner")


@pytest.fixture
def draft(cast: dict[str, Person]) -> Draft:
    """The kit of the tests about planning, 2027-05; its check waits for ever, since nobody works here."""
    return drafted(cast["planner"])


@pytest.fixture
def look(planner: Client) -> Callable[..., Page]:
    """Get a page as the planner does, and read it."""

    def got(path: str, status: int = 200, **headers: Any) -> Page:
        response = planner.get(path, headers=headers)
        assert response.status_code == status
        return Page(response.content.decode())

    return got
