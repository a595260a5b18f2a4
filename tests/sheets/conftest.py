"""What the tests of sheets share."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from kits.sheets.rendering import Renderer
from tests.sheets.specimen import ASSETS, SPECIMEN


@pytest.fixture(scope="session")
def renderer() -> Iterator[Renderer]:
    """One renderer for all that do not harm it: to start one takes longer than most pages."""
    with Renderer() as started:
        yield started


@pytest.fixture(scope="session")
def specimen(renderer: Renderer) -> bytes:
    """The PDF of the page with one of everything."""
    return renderer.pdf(SPECIMEN, ASSETS, title="The Potting Shed: the chest")
