"""Transactions that meet, on each database."""

from __future__ import annotations

import threading
from concurrent.futures import ThreadPoolExecutor

import pytest
from django.db import connection, transaction

from kits.members.models import Person


@pytest.mark.django_db(transaction=True)
def test_two_writers_that_read_first_both_get_through():
    """Each transaction reads and then writes; had SQLite taken the lock at the write, the second would be refused."""
    both = threading.Barrier(2, timeout=10)

    def write(email: str) -> None:
        both.wait()
        try:
            for number in range(20):
                with transaction.atomic():
                    Person.objects.count()
                    Person.objects.create_user(email=f"{number}-{email}")
        finally:
            connection.close()

    with ThreadPoolExecutor() as threads:
        assert list(threads.map(write, ["ines@example.org", "mila@example.org"])) == [None, None]
    assert Person.objects.count() == 40


@pytest.mark.django_db
def test_sqlite_writes_ahead_so_that_readers_do_not_wait(database):
    if database == "sqlite":
        with connection.cursor() as cursor:
            assert cursor.execute("PRAGMA journal_mode").fetchone() == ("wal",)
