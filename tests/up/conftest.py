"""A Kitproof that runs, shared by the tests that leave it running: a start costs seconds."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.up.started import Up, started


@pytest.fixture(scope="session")
def up(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Up]:
    home = tmp_path_factory.mktemp("up") / "home"
    with started(home) as running:
        yield running
