"""Puts the tests' database behind Django's default connection: one test run serves several kinds."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterator
from pathlib import Path
from unittest import mock

from django.db import DEFAULT_DB_ALIAS, connections
from django.test.utils import setup_databases, teardown_databases

from config import env

__all__ = ["default_database"]


@contextlib.contextmanager
def default_database(address: str) -> Iterator[None]:
    """Create a test database at an address, by all migrations, make it the default, and remove it at the end."""
    with mock.patch.dict(os.environ, {"KITPROOF_DATABASE_URL": address}):
        described = env.database("KITPROOF_DATABASE_URL", default=Path("/nowhere"))
    if described["ENGINE"].endswith("sqlite3"):
        # A file, as in real use: in memory there would be no write-ahead log, and threads could not share it.
        described["TEST"] = {"NAME": described["NAME"]}
    usual = connections.settings[DEFAULT_DB_ALIAS]
    _replace(connections.configure_settings({DEFAULT_DB_ALIAS: described})[DEFAULT_DB_ALIAS])
    try:
        created = setup_databases(verbosity=0, interactive=False)
        try:
            yield
        finally:
            teardown_databases(created, verbosity=0)
    finally:
        _replace(usual)


def _replace(described: dict[str, object]) -> None:
    connections[DEFAULT_DB_ALIAS].close()
    connections.settings[DEFAULT_DB_ALIAS] = described
    # The next use makes a new connection from the settings, in this thread as in others.
    del connections[DEFAULT_DB_ALIAS]
