"""What the settings ask of SQLite, seen on a connection."""

from __future__ import annotations

import threading

import pytest
from django.db import connection, transaction

from kits.members.models import Person


@pytest.mark.django_db(transaction=True)
def test_two_writers_that_read_first_both_get_through(database):
    """Each transaction reads and then writes; had SQLite taken the lock at the write, the second would be refused."""
    if database == "sqlite":
        with connection.cursor() as cursor:
            assert cursor.execute("PRAGMA journal_mode").fetchone() == ("wal",)
    started = threading.Barrier(2, timeout=10)
    failed: list[Exception] = []

    def write(email: str) -> None:
        started.wait()
        try:
            for number in range(20):
                with transaction.atomic():
                    Person.objects.count()
                    Person.objects.create_user(email=f"{number}-{email}")
        except Exception as error:  # noqa: BLE001  told by the test, whatever it was
            failed.append(error)
        finally:
            connection.close()

    writers = [threading.Thread(target=write, args=(email,)) for email in ("ines@example.org", "mila@example.org")]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    assert failed == []
    assert Person.objects.count() == 40
