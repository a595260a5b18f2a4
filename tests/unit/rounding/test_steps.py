"""Figures on the grid of a printed step."""

from __future__ import annotations

import pytest

from layouts.lengths import Length
from layouts.rounding import nearest_step, step_up

INCH, MM = 8128, 320


@pytest.mark.parametrize(
    ("text", "step", "expected"),
    [
        # The whole set of ties: two multiples of 1/64 in up to 12 in tie at whole millimetres, and within one inch two
        # at 0.1 mm (identity). Half to even: NIST PS 20-20 App. B1, whose Table 3 prints 7 1/2 in as 190 mm.
        pytest.param("2 1/2 in", MM, 64 * MM, id="2 1/2 in = 63.5 mm goes to 64, even and up"),
        pytest.param("7 1/2 in", MM, 190 * MM, id="7 1/2 in = 190.5 mm goes to 190, even and down"),
        pytest.param("1/4 in", MM // 10, 64 * MM // 10, id="1/4 in = 6.35 mm goes to 6.4"),
        pytest.param("3/4 in", MM // 10, 190 * MM // 10, id="3/4 in = 19.05 mm goes to 19.0"),
        pytest.param("2 7/8 in", MM, 73 * MM, id="73.025 mm goes down"),
        pytest.param("1 5/16 in", MM, 33 * MM, id="33.3375 mm goes down"),
        pytest.param("3/8 in", MM, 10 * MM, id="9.525 mm goes up"),
        pytest.param("0.5 mm", MM, 0, id="half a step goes to 0, which is even"),
        pytest.param("1.5 mm", MM, 2 * MM, id="one and a half steps go to 2"),
        pytest.param("1/32 in", INCH // 16, 0, id="half of 1/16 in goes to 0 sixteenths"),
        pytest.param("3/32 in", INCH // 16, INCH // 8, id="one and a half sixteenths go to 2"),
        pytest.param("5/32 in", INCH // 16, INCH // 8, id="two and a half sixteenths go to 2"),
        pytest.param("0", MM, 0, id="nothing"),
        pytest.param("3 in", INCH // 16, 3 * INCH, id="what lies on the grid stays"),
        pytest.param("0.503125 mm", MM, MM, id="one tick above the half"),
        pytest.param("0.496875 mm", MM, 0, id="one tick below the half"),
    ],
)
def test_to_the_nearest_step_and_from_a_tie_to_the_even_one(text, step, expected):
    assert nearest_step(Length.of(text).ticks, step) == expected


def test_no_other_64th_up_to_twelve_inches_ties():
    """The tie set is complete: at every other 64th rounding half up and half to even agree (identity)."""

    def half_up(ticks: int, step: int) -> int:
        return (2 * ticks + step) // (2 * step) * step

    ties = [n for n in range(1, 12 * 64 + 1) if (n * 127) % MM == MM // 2]
    assert [Length(n * 127, "in").text("in") for n in ties] == ["2 1/2", "7 1/2"]
    tenths = [n for n in range(1, 65) if (n * 127) % 32 == 16]
    assert [Length(n * 127, "in").text("in") for n in tenths] == ["1/4", "3/4"]
    for n in range(1, 12 * 64 + 1):
        if n not in ties:
            assert nearest_step(n * 127, MM) == half_up(n * 127, MM)


def test_differences_below_zero_round_like_their_mirror_images():
    assert nearest_step(-Length.of("7 1/2 in").ticks, MM) == -190 * MM
    assert nearest_step(-100, MM) == 0


@pytest.mark.parametrize(
    ("ticks", "step", "expected"),
    [
        pytest.param(0, MM, 0, id="nothing"),
        pytest.param(1, MM, MM, id="one tick"),
        pytest.param(MM, MM, MM, id="what lies on the grid stays"),
        pytest.param(MM + 1, MM, 2 * MM, id="one tick above"),
        pytest.param(2 * MM - 1, MM, 2 * MM, id="one tick below"),
        pytest.param(509, 508, 1016, id="sixteenths"),
        pytest.param(-1, MM, 0, id="below zero, up is towards zero"),
    ],
)
def test_up_to_the_step(ticks, step, expected):
    assert step_up(ticks, step) == expected
