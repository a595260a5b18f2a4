"""What all tests share: the databases, servers and the browser, each started only when a test asks for it."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings as hypothesis_settings

if TYPE_CHECKING:
    from playwright.sync_api import Browser
    from pytest_django import DjangoDbBlocker

# No example is judged by its time: machines differ. On a build machine the same examples come every time, so that a
# change cannot fail for what another change broke.
hypothesis_settings.register_profile("kitproof", deadline=None, derandomize="CI" in os.environ, print_blob=True)
hypothesis_settings.load_profile("kitproof")


# A shell starts what it runs in the background with Ctrl-C switched off, and children inherit that: what stops at
# Ctrl-C is started as from a terminal, wherever the tests are.
signal.signal(signal.SIGINT, signal.default_int_handler)


@pytest.fixture(scope="session", autouse=True)
def _no_broker() -> None:
    """Messages go nowhere: the broker of the settings is that of whoever runs the tests, and so are its workers."""
    from config.celery import app

    app.conf.update(broker_url="redis+socket:///nowhere/broker.sock")


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """Run every test that uses the database once on each kind that Kitproof supports."""
    marked = metafunc.definition.get_closest_marker("django_db") is not None
    if marked or {"db", "transactional_db", "live_server"} & set(metafunc.fixturenames):
        # In front: Django's own preparation of a test works on the connection that it finds.
        metafunc.fixturenames.insert(0, "database")
        metafunc.parametrize("database", ["sqlite", "postgresql"], indirect=True, scope="session")


@pytest.fixture(scope="session")
def django_db_setup(database: str) -> None:
    """Nothing itself: `database` creates the test databases.

    It is asked for here, on the way to every use of a database. A test that only had it among its parameters was
    given the database of whoever ran the tests.
    """


@pytest.fixture(scope="session")
def database(
    request: pytest.FixtureRequest,
    django_test_environment: None,
    django_db_blocker: DjangoDbBlocker,
    tmp_path_factory: pytest.TempPathFactory,
) -> Iterator[str]:
    """The kind of database behind the default connection: sqlite or postgresql."""
    from tests.outside.databases import default_database

    if request.param == "sqlite":
        address = f"sqlite:///{tmp_path_factory.mktemp('database') / 'kitproof.sqlite3'}"
    else:
        address = request.getfixturevalue("postgres_url")
    prepared = default_database(address)
    with django_db_blocker.unblock():
        prepared.__enter__()
    yield request.param
    with django_db_blocker.unblock():
        prepared.__exit__(None, None, None)


@pytest.fixture(scope="session")
def postgres_url() -> Iterator[str]:
    """The address of a database on a PostgreSQL server of our own; whoever asks creates the database."""
    from tests.outside.postgresql import postgresql

    with postgresql() as address:
        yield address


# For one module, not for the session: see `chromium` on what Django does while a browser runs.
@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    from tests.outside.chromium import chromium

    with chromium() as started:
        yield started
