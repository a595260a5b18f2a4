"""`manage.py up` beside a PostgreSQL and a Redis that are there already: it starts the rest."""

from __future__ import annotations

from functools import partial
from urllib.parse import urlsplit

import psycopg

from tests.outside.redis_server import redis_server
from tests.outside.server import short_folder
from tests.up.started import eventually, started
from tests.up.visitor import Visitor, demo_visitor


def test_it_uses_the_database_and_the_broker_that_it_is_told(tmp_path, postgres_url):
    # A database of its own: that of the other tests comes and goes with them.
    address = urlsplit(postgres_url)._replace(path="/kitproof_up").geturl()
    with psycopg.connect(urlsplit(postgres_url)._replace(path="/postgres").geturl(), autocommit=True) as server:
        server.execute("CREATE DATABASE kitproof_up")
    with short_folder(None) as folder, redis_server(folder) as broker:
        told = {"KITPROOF_DATABASE_URL": address, "KITPROOF_BROKER_URL": broker}
        with started(tmp_path / "home", KITPROOF_DEMO="", **told) as up:
            assert set(up.parts()) == {"worker", "beat", "web"}
            planner = demo_visitor(up.address, up.said, "planner")
            eventually(partial(_proved, planner))
            assert up.stop() == 0
    kept = {path.name for path in (tmp_path / "home").iterdir()}
    assert not kept & {"broker", "kitproof.sqlite3"}


def _proved(visitor: Visitor) -> bool:
    return visitor.get("/kits/2027-04/proof.json")[0] == 200
