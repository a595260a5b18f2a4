"""Who gets which window, against trying every choice there is."""

from __future__ import annotations

from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layouts.proofing.mends.matching import matched


def always(chosen) -> bool:
    return True


def best(worth, hosts, room, now=None, allowed=always):
    return matched(list(worth), hosts, worth.__getitem__, room.__getitem__, now=now or {}, allowed=allowed)


def test_the_choice_that_is_worth_most_is_taken_also_where_the_greatest_could_go_anywhere():
    worth = {"a": 5, "b": 4}
    assert best(worth, {"a": ["x", "y"], "b": ["x"]}, {"x": 9, "y": 9}) == {"a": "y", "b": "x"}


def test_of_choices_worth_as_much_the_smallest_windows_are_taken():
    assert best({"a": 5}, {"a": ["large", "small"]}, {"large": 9, "small": 6}) == {"a": "small"}


def test_one_that_is_worth_more_goes_before_two_that_are_worth_less():
    worth = {"a": 5, "b": 2, "c": 2}
    hosts = {"a": ["x"], "b": ["x"], "c": ["x"]}
    assert best(worth, hosts, {"x": 9}) == {"a": "x"}


def test_who_has_one_keeps_it_or_another_and_nobody_moves_for_nothing():
    worth, room = {"has": 3, "wants": 1}, {"x": 9, "y": 4}
    now = {"has": "x"}
    hosts = {"has": ["x", "y"], "wants": ["x"]}
    assert best(worth, hosts, room, now) == {"has": "y", "wants": "x"}
    assert best(worth, {**hosts, "has": ["x"]}, room, now) == {"has": "x"}
    assert best({"has": 3}, {"has": ["x", "y"]}, room, now) == {"has": "x"}


def test_what_is_not_allowed_together_is_not_chosen_together():
    def apart(chosen) -> bool:
        return len(chosen) < 2

    assert best({"a": 1, "b": 2}, {"a": ["x"], "b": ["y"]}, {"x": 1, "y": 1}, allowed=apart) == {"b": "y"}


_TABLES = st.lists(st.lists(st.booleans(), min_size=4, max_size=4), min_size=1, max_size=5)


@given(_TABLES, st.lists(st.integers(1, 5), min_size=5, max_size=5))
def test_no_other_choice_is_worth_more(fits, worths):
    worth = {f"g{number}": worths[number] for number in range(len(fits))}
    hosts = {f"g{number}": [f"h{at}" for at, does in enumerate(row) if does] for number, row in enumerate(fits)}
    chosen = best(worth, hosts, {f"h{at}": 1 for at in range(4)})
    assert len(set(chosen.values())) == len(chosen)
    assert all(host in hosts[guest] for guest, host in chosen.items())
    guests = [*worth, *[None] * 4]
    most = max(
        sum(worth[guest] for at, guest in enumerate(order) if guest is not None and f"h{at}" in hosts[guest])
        for order in set(permutations(guests, 4))
    )
    assert sum(worth[guest] for guest in chosen) == most


@pytest.mark.parametrize("guests", [0, 1])
def test_without_guests_or_windows_there_is_no_choice(guests):
    assert best({f"g{at}": 1 for at in range(guests)}, {"g0": []}, {}) == {}
