"""How much of the paper becomes something, in areas worked by hand (mm²); the sheet is 100 x 80 = 8000."""

from __future__ import annotations

import pytest

from layouts.proofing.plans import PrintAnswer
from layouts.proofing.yields import yield_of
from tests.unit.proofing.small_prints import answer_of, kit_of, paper, piece, project, window

TAG = {"id": "t", "name": "tag", "as": "tag", "paper": "oak", "size": ["40", "20"]}


@pytest.mark.parametrize(
    ("pieces", "more", "expected"),
    [
        pytest.param([], {}, None, id="nothing is cut: no sheet is touched"),
        pytest.param([piece("A", "100", "80")], {}, "1.000", id="the whole sheet"),
        pytest.param([piece("A", "40", "20")], {}, "0.100", id="800 of 8000"),
        pytest.param([piece("A", "40", "20")], {"sheets": 5}, "0.100", id="sheets that are not touched do not count"),
        pytest.param([piece("A", "60", "80", count=2)], {"sheets": 2}, "0.600", id="9600 of two sheets"),
        pytest.param([piece("A", "10", "10")], {"undersize": "1"}, "0.013", id="100 of 99 x 79 = 7821: 0.01278…"),
        pytest.param([piece("A", "10", "10")], {"spoilt": {"left": "50"}}, "0.012", id="margins are of the sheet"),
        # Half to even: 100 / 8000 = 0.0125, 300 / 8000 = 0.0375, 4 / 8000 = 0.0005.
        pytest.param([piece("A", "10", "10")], {}, "0.012", id="0.0125 to the even 0.012"),
        pytest.param([piece("A", "20", "15")], {}, "0.038", id="0.0375 to the even 0.038"),
        pytest.param([piece("A", "2", "2")], {}, "0.000", id="0.0005 to the even 0.000"),
    ],
)
def test_the_area_cut_over_the_area_touched(pieces, more, expected):
    assert yield_of(answer_of(kit_of(project(*pieces), papers=[paper(**more)]))) == expected


def test_flat_parts_count_and_what_comes_out_of_cut_outs_does_not():
    host = piece("H", "60", "40", windows=[window("w", "30", "20")])
    guest = piece("G", "30", "20", **{"from": "p/H/w"})

    # 60 x 40 and two tags of 40 x 20 are 4000 of 8000.
    assert yield_of(answer_of(kit_of(project(host, guest, forms=[{**TAG, "count": 2}])))) == "0.500"


def test_a_short_print_has_no_yield():
    answer = answer_of(kit_of(project(piece("A", "100", "80", count=2))))

    assert isinstance(answer, PrintAnswer)
    assert yield_of(answer) is None
