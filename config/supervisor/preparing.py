"""What has to be done before the parts start: the database's tables, the collected static files, the demo.

`python -m config.supervisor.preparing RESULT` does it and writes what a person must know, the demo's sign-in, as JSON
into a file. A process of its own: the supervisor stays small, and whatever fails here is told like any part's end.
"""

from __future__ import annotations

import hashlib
import json
import os
import sys
from pathlib import Path

__all__ = ["main"]


def main() -> None:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")
    import django

    django.setup()

    from django.conf import settings
    from django.core.management import call_command

    if os.environ.get("KITPROOF_BROKER_URL", "").strip():
        _reach_broker()
    call_command("migrate", verbosity=0, interactive=False)
    _collect_static(settings.HOME / "static-made-from")
    Path(sys.argv[1]).write_text(json.dumps(_load_demo() if settings.DEMO else None), encoding="utf-8")


def _reach_broker() -> None:
    """Fail now, and with a sentence, where a broker is named that nobody answers at."""
    from kombu.exceptions import OperationalError

    from config.celery import app

    with app.connection_for_write() as connection:
        try:
            connection.ensure_connection(max_retries=1, interval_start=0, timeout=5)
        except OperationalError as error:
            sys.exit(f"The broker at {connection.as_uri()} cannot be reached: {error}")


def _collect_static(note: Path) -> None:
    """Collect the static files, unless none has changed since they were collected."""
    from django.core.management import call_command

    state = _static_state()
    if note.exists() and note.read_text() == state:
        return
    note.unlink(missing_ok=True)
    call_command("collectstatic", verbosity=0, interactive=False, clear=True)
    note.write_text(state)


def _static_state() -> str:
    """Name all static files with their sizes and times, shortened."""
    from django.contrib.staticfiles.finders import get_finders

    state = hashlib.sha256()
    for finder in get_finders():
        for name, storage in finder.list([]):
            path = storage.path(name)
            status = os.stat(path)
            state.update(f"{path}\0{status.st_size}\0{status.st_mtime_ns}\0".encode())
    return state.hexdigest()


def _load_demo() -> dict[str, object]:
    from kits.planning.demo import demo_load

    sign_in = demo_load()
    return {"password": sign_in.password, "people": dict(sign_in.people)}


if __name__ == "__main__":
    main()
