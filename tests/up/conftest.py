"""A Kitproof that runs, shared by the tests of one module: a start costs seconds."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.up.started import Up, started


@pytest.fixture(scope="module")
def up(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Up]:
    home = tmp_path_factory.mktemp("up") / "home"
    with started(home) as running:
        yield running
