"""The rule about templates stands on a lower floor than the pages that hold them: here both are held together."""

from __future__ import annotations

import pytest

from kits.sheets.content.templates import has_template
from kits.sheets.options import SheetOptions
from layouts.document import Piece, Size
from layouts.lengths import Length
from layouts.proofing.rules.templates import TEMPLATE_ROOM


@pytest.mark.parametrize("page", ["letter", "a4"])
def test_a_page_holds_what_the_rule_says_and_not_a_tick_more(page):
    across, up = TEMPLATE_ROOM[page]
    options = SheetOptions(page=page, unit="mm")

    def is_held(width: int, height: int) -> bool:
        return has_template(Piece(id="A", name="a", size=Size(Length(width, "mm"), Length(height, "mm"))), options)

    assert is_held(across, up)
    assert not is_held(across + 1, up)
    assert not is_held(across, up + 1)


def test_the_rule_knows_every_page():
    assert set(TEMPLATE_ROOM) == {"letter", "a4"}
