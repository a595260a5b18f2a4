from __future__ import annotations

import hashlib

import pytest

from layouts.cutting import Item, Problem

A = Item("A", 20, 30, 2, True, False)
B = Item("B", 10, 10, 1, True, True)


@pytest.mark.parametrize(
    ("values", "error"),
    [
        pytest.param(("", 1, 1, 1, True, True), ValueError, id="no key"),
        pytest.param(("A", 0, 1, 1, True, True), ValueError, id="no width"),
        pytest.param(("A", 1, -1, 1, True, True), ValueError, id="negative height"),
        pytest.param(("A", 1, 1, 0, True, True), ValueError, id="no copies"),
        pytest.param(("A", 1, 1, 1, False, False), ValueError, id="no lie"),
        pytest.param(("A", 1.0, 1, 1, True, True), TypeError, id="a float has lost its fraction"),
        pytest.param(("A", 1, 1, True, True, True), TypeError, id="a truth is no number"),
    ],
)
def test_a_piece_cannot_be_built_wrong(values, error):
    with pytest.raises(error):
        Item(*values)


@pytest.mark.parametrize(
    ("values", "error"),
    [
        pytest.param((10, 10, -1, (A,)), ValueError, id="fewer sheets than none"),
        pytest.param((10, 10, 1, (A,), -1), ValueError, id="negative slack"),
        pytest.param((10, 10, 1, (A, A)), ValueError, id="one key twice"),
        pytest.param((10.0, 10, 1, ()), TypeError, id="float"),
    ],
)
def test_a_problem_cannot_be_built_wrong(values, error):
    with pytest.raises(error):
        Problem(*values)


def test_the_order_of_pieces_has_no_meaning():
    assert Problem(99, 98, 3, (A, B), 5) == Problem(99, 98, 3, (B, A), 5)
    assert Problem(99, 98, 3, (A, B), 5).hash == Problem(99, 98, 3, (B, A), 5).hash


def test_the_canonical_text_is_read_back():
    asked = Problem(99, 98, 3, (A, B), 5)
    assert Problem.from_json(asked.to_json()) == asked


def test_the_hash_is_that_of_the_canonical_text():
    text = (
        '{"height":98,"items":[{"copies":2,"height":30,"key":"A","sideways":false,"upright":true,"width":20}],'
        '"sheets":3,"slack":5,"width":99}'
    )
    assert Problem(99, 98, 3, (A,), 5).hash == hashlib.sha256(text.encode()).hexdigest()


@pytest.mark.parametrize(
    "other",
    [
        pytest.param(Problem(99, 98, 3, (A,), 6), id="slack"),
        pytest.param(Problem(99, 98, 4, (A,), 5), id="sheets"),
        pytest.param(Problem(98, 99, 3, (A,), 5), id="sides exchanged"),
        pytest.param(Problem(99, 98, 3, (Item("A", 20, 30, 2, True, True),), 5), id="may turn"),
    ],
)
def test_what_may_change_the_answer_changes_the_hash(other):
    assert other.hash != Problem(99, 98, 3, (A,), 5).hash
