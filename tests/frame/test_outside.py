"""The servers and the browser that tests are given, seen doing what later tests rely on."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import psycopg
import pytest
import redis

from tests.outside import packages, server
from tests.outside.redis_server import redis_server


def test_postgresql_is_new_enough_and_private(postgres_url):
    with psycopg.connect(postgres_url.replace("/kitproof?", "/postgres?")) as connection:
        assert connection.info.server_version >= 15_00_00
        row = connection.execute("SELECT current_setting('listen_addresses'), current_setting('server_encoding')")
        assert row.fetchone() == ("", "UTF8")


def test_redis_remembers_over_a_restart(tmp_path):
    with server.short_folder(None) as folder:
        with redis_server(folder) as address, redis.Redis.from_url(address) as client:
            assert client.ping()
            client.set("kit", "potting-shed")
        with redis_server(folder) as address, redis.Redis.from_url(address) as client:
            assert client.get("kit") == b"potting-shed"


def test_the_browser_reads_a_page(browser):
    page = browser.new_page()
    page.set_content("<!doctype html><title>Cut guide</title><p>Sheet 1 of 4")
    assert page.title() == "Cut guide"
    assert page.inner_text("p") == "Sheet 1 of 4"


def test_a_server_ends_with_tests_that_are_killed(tmp_path):
    """The server is `sleep`: it is ready when its number is written, and gone when the tests that started it are."""
    number = tmp_path / "number"
    tests = subprocess.Popen(
        [
            sys.executable,
            "-c",
            "import sys, time\n"
            "from pathlib import Path\n"
            "from tests.outside.server import running\n"
            "number = Path(sys.argv[1])\n"
            "server = ['sh', '-c', 'echo $$ >\"$1\"; exec sleep 1000', 'sh', str(number)]\n"
            "with running(server, folder=number.parent, ready=number.exists):\n"
            "    time.sleep(1000)\n",
            str(number),
        ]
    )
    pid = int(_eventually(lambda: number.read_text().strip() if number.exists() else ""))
    assert Path(f"/proc/{pid}").exists()
    os.kill(tests.pid, signal.SIGKILL)
    tests.wait()
    assert _eventually(lambda: not Path(f"/proc/{pid}").exists())


def _eventually[Answer](ask: Callable[[], Answer]) -> Answer:
    deadline = time.monotonic() + 30
    while not (answer := ask()) and time.monotonic() < deadline:
        time.sleep(0.02)
    return answer


def test_a_server_that_cannot_start_shows_what_it_wrote(tmp_path, monkeypatch):
    monkeypatch.setattr(server, "_PATIENCE", 0.5)
    with (
        pytest.raises(server.NotStarted, match="no such paper"),
        server.running(["sh", "-c", "echo no such paper"], folder=tmp_path, ready=lambda: False),
    ):
        pass


def test_what_cannot_be_installed_is_named(monkeypatch):
    monkeypatch.setattr(os, "geteuid", lambda: 1000)
    with pytest.raises(packages.Missing, match="paper-press"):
        packages.bring("paper-press", lambda: None)
