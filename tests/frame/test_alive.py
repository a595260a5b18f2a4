"""Whether a part that runs by itself tells that it is alive, and that it is not."""

from __future__ import annotations

import os
import time
from http.server import BaseHTTPRequestHandler, HTTPServer
from threading import Thread

import pytest

from config import alive, settings


class _Answers(BaseHTTPRequestHandler):
    """Answers as the web does: to its own name only."""

    def do_GET(self) -> None:
        self.send_response(200 if self.headers["Host"] == settings.ALLOWED_HOSTS[0] else 400)
        self.end_headers()

    def log_message(self, *said: object) -> None:
        pass


def test_the_web_is_asked_by_its_own_name(monkeypatch):
    with HTTPServer(("127.0.0.1", 0), _Answers) as server:
        thread = Thread(target=server.serve_forever)
        thread.start()
        address = f"http://127.0.0.1:{server.server_port}/health"
        assert alive._web(address) == ""
        monkeypatch.setattr(settings, "ALLOWED_HOSTS", [".example.org"])
        assert "400" in alive._web(address)
        server.shutdown()
        thread.join()
    assert "refused" in alive._web(address)


@pytest.mark.parametrize(("age", "status"), [(60, 0), (3600, 1), (None, 1)], ids=["works", "hangs", "never began"])
def test_beat_is_alive_while_it_writes(tmp_path, monkeypatch, age, status):
    monkeypatch.setattr(settings, "CELERY_BEAT_SCHEDULE_FILENAME", str(tmp_path / "beat-schedule"))
    if age is not None:
        written = tmp_path / "beat-schedule.db"
        written.touch()
        os.utime(written, (time.time() - age, time.time() - age))
    assert alive.main(["beat"]) == status


def test_a_worker_that_nobody_started_is_not_alive(monkeypatch):
    from config.celery import app

    monkeypatch.setattr(app.control, "ping", lambda names, timeout: [])
    assert alive.main(["worker"]) == 1
    monkeypatch.setattr(app.control, "ping", lambda names, timeout: [{names[0]: {"ok": "pong"}}])
    assert alive.main(["worker"]) == 0


@pytest.mark.parametrize("arguments", [[], ["wheel"], ["web", "beat"]])
def test_wrong_usage_is_64(arguments):
    assert alive.main(arguments) == 64
