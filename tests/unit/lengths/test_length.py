"""A length as a value: what it may be made of, what equals what, and its arithmetic."""

from __future__ import annotations

import copy
import dataclasses
import pickle
from fractions import Fraction

import pytest

from layouts.lengths import LONGEST, TICKS_PER_INCH, TICKS_PER_MM, Length


@pytest.mark.parametrize(
    "ticks",
    [
        pytest.param(1.0, id="a float"),
        pytest.param(True, id="a bool"),
        pytest.param("1", id="a text"),
        pytest.param(Fraction(1), id="a fraction"),
        pytest.param(None, id="nothing"),
    ],
)
def test_ticks_are_whole_numbers(ticks):
    with pytest.raises(TypeError, match="ticks are whole numbers"):
        Length(ticks, "in")


@pytest.mark.parametrize("system", ["cm", "inch", "", None, 1])
def test_a_length_is_written_in_inches_or_millimetres(system):
    with pytest.raises(ValueError, match="in or mm"):
        Length(1, system)


def test_a_length_cannot_be_changed():
    with pytest.raises(dataclasses.FrozenInstanceError):
        Length(1, "in").ticks = 2  # type: ignore[misc]


def test_equal_ticks_are_equal_whatever_system_they_were_written_in():
    inch, metric = Length.of("1 in"), Length.of("25.4 mm")
    assert inch == metric
    assert hash(inch) == hash(metric)
    assert len({inch, metric}) == 1
    assert inch != 8128
    assert inch != "1 in"


@pytest.mark.parametrize(
    ("one", "other", "alike"),
    [
        pytest.param("1 in", "1 in", True, id="the same"),
        pytest.param("1 in", "16/16 in", True, id="written otherwise"),
        pytest.param("1 in", "25.4 mm", False, id="another system"),
        pytest.param("2.54 cm", "25.4 mm", True, id="cm is mm"),
        pytest.param("1 in", "2 in", False, id="other ticks"),
        pytest.param("0 in", "0 mm", True, id="zero has no system"),
    ],
)
def test_written_alike_means_the_same_ticks_in_the_same_system(one, other, alike):
    assert Length.of(one).written_like(Length.of(other)) is alike
    assert Length.of(other).written_like(Length.of(one)) is alike


def test_order_looks_at_ticks_alone():
    lengths = [Length.of(text) for text in ("26 mm", "1 in", "25.5 mm", "0", "1 1/64 in")]
    assert [str(length) for length in sorted(lengths)] == ["0", "1 in", "25.5 mm", "1 1/64 in", "26 mm"]
    assert Length.of("1 in") <= Length.of("25.4 mm") <= Length.of("1 in")
    assert not Length.of("1 in") < Length.of("25.4 mm")
    assert max(lengths) == Length.of("26 mm")


@pytest.mark.parametrize(
    ("sum_", "expected"),
    [
        pytest.param(Length.of("2 7/8 in") + Length.of("1/8 in"), "3 in", id="inches and inches"),
        pytest.param(Length.of("70 mm") + Length.of("3.025 mm"), "73.025 mm", id="mm and mm"),
        pytest.param(Length.of("1 in") + Length.of("0.6 mm"), "26 mm", id="both systems: exact millimetres"),
        pytest.param(Length.of("0.6 mm") + Length.of("1 in"), "26 mm", id="both systems, the other way"),
        pytest.param(Length.of("1 in") + Length.of("25.4 mm"), "50.8 mm", id="both systems, where inches could say it"),
        pytest.param(Length.of("1 in") + Length.of("0 mm"), "1 in", id="nothing changes no system"),
        pytest.param(Length.zero("mm") + Length.of("1 in"), "1 in", id="nothing changes no system, in front"),
        pytest.param(Length.of("1 in") - Length.of("1 in"), "0", id="nothing is left"),
        pytest.param(Length.of("1 in") - Length.of("1 1/8 in"), "-1/8 in", id="less than nothing"),
        pytest.param(Length.of("1 1/2 in") * 3, "4 1/2 in", id="times"),
        pytest.param(4 * Length.of("2.5 mm"), "10 mm", id="times, in front"),
        pytest.param(-Length.of("1/16 in"), "-1/16 in", id="turned round"),
    ],
)
def test_arithmetic_is_exact_and_keeps_a_system_that_can_say_it(sum_, expected):
    assert str(sum_) == expected


@pytest.mark.parametrize(
    "mixed",
    [
        pytest.param(lambda length: length + 1, id="plus a number"),
        pytest.param(lambda length: 1 + length, id="a number plus"),
        pytest.param(lambda length: length - 1, id="minus a number"),
        pytest.param(lambda length: length * 1.5, id="times a float"),
        pytest.param(lambda length: length * Fraction(1, 2), id="times a fraction"),
        pytest.param(lambda length: length * length, id="times a length"),
        pytest.param(lambda length: length < 1, id="compared with a number"),
        pytest.param(lambda length: length / 2, id="divided: nobody said how to round"),
    ],
)
def test_a_bare_number_is_no_length(mixed):
    with pytest.raises(TypeError):
        mixed(Length.of("1 in"))


def test_only_nothing_is_false():
    assert not Length.zero()
    assert Length(1, "mm")
    assert Length(-1, "mm")


def test_millimetres_and_inches_are_exact_fractions():
    assert Length.of("2 7/8 in").mm == Fraction(73025, 1000)
    assert Length.of("25.4 mm").inches == 1
    assert Length(1, "mm").inches == Fraction(1, 8128)


def test_the_constants_of_the_grid():
    """1 tick = 1/320 mm = 1/8128 in; lengths up to 10 m."""
    assert Fraction(TICKS_PER_INCH, TICKS_PER_MM) == Fraction(254, 10)
    assert (TICKS_PER_MM, TICKS_PER_INCH, LONGEST) == (320, 8128, 3_200_000)


def test_a_length_survives_pickling_and_copying_with_its_system():
    length = Length.of("2 7/8 in")
    for again in (pickle.loads(pickle.dumps(length)), copy.deepcopy(length), copy.copy(length)):
        assert (again.ticks, again.system) == (23368, "in")


def test_its_representation_can_be_typed_again():
    assert repr(Length.of("2⅞")) == 'Length.of("2 7/8 in")'
    assert eval(repr(Length.of("7.3 cm"))) == Length.of("73 mm")
