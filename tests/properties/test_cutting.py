"""What holds for every list: answers are true, plans can be cut, and the way of asking does not matter."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from layouts.cutting import Answer, Item, Problem, Solver, solve, taken
from layouts.cutting.bounds import area, clique, dual
from layouts.cutting.reduced import reduced
from tests.unit.cutting.exact import sheets_needed
from tests.unit.cutting.plans import cuts_through_waste, faults

MANY = settings(max_examples=200, suppress_health_check=[HealthCheck.too_slow])


@pytest.fixture(scope="module")
def solver() -> Iterator[Solver]:
    with Solver(seconds=3600) as running:
        yield running


def _items(sizes: list[tuple[int, int]], lies: list[tuple[bool, bool]]) -> tuple[Item, ...]:
    return tuple(
        Item(f"P{n}", width, height, 1, *lie) for n, ((width, height), lie) in enumerate(zip(sizes, lies, strict=True))
    )


LIES = st.sampled_from([(True, False), (False, True), (True, True)])


@st.composite
def loose(draw: st.DrawFn, slack: int = 2) -> Problem:
    """A few pieces of any size, up to seven copies."""
    side = draw(st.integers(3, 14))
    pieces = draw(st.lists(st.tuples(st.integers(1, side), st.integers(1, side), LIES), min_size=1, max_size=5))
    items = tuple(
        Item(f"P{n}", width, height, draw(st.integers(1, 2)) if n < 2 else 1, *lie)
        for n, (width, height, lie) in enumerate(pieces)
    )
    return Problem(side, draw(st.integers(3, 14)), draw(st.integers(0, 3)), items, draw(st.integers(0, slack)))


@st.composite
def tight(draw: st.DrawFn) -> Problem:
    """One to three sheets cut up at random, some parts a tick larger or smaller: lists that just fit or just do not."""
    width, height, sheets = draw(st.integers(4, 20)), draw(st.integers(4, 20)), draw(st.integers(1, 3))
    parts = [(width, height)] * sheets
    for _ in range(draw(st.integers(0, 7 - sheets))):
        w, h = parts.pop(draw(st.integers(0, len(parts) - 1)))
        upright = draw(st.booleans())
        length = w if upright else h
        at = draw(st.integers(1, length - 1)) if length > 1 else 0
        halves = [(at, h), (w - at, h)] if upright else [(w, at), (w, h - at)]
        parts.extend((a, b) for a, b in halves if a and b)
    change = st.sampled_from([0, 0, 0, 0, 0, 1, -1])
    sizes = [(max(1, min(width, w + draw(change))), max(1, min(height, h + draw(change)))) for w, h in parts]
    return Problem(width, height, sheets, _items(sizes, [(True, draw(st.booleans())) for _ in sizes]))


LISTS = loose() | tight()


@MANY
@given(LISTS)
def test_answers_are_true(solver: Solver, asked: Problem):
    found = solve(asked, solver)
    needed = sheets_needed(asked)
    if needed is None:
        assert (found.verdict, found.at_least, found.at_most) == ("short", asked.sheets + 1, None)
        return
    assert found.at_least <= needed <= (found.at_most or 0)
    assert found.verdict in ("fits" if needed <= asked.sheets else "short", "unknown")


@MANY
@given(LISTS)
def test_no_bound_proves_more_than_is_needed(asked: Problem):
    small, needed = reduced(asked), sheets_needed(asked)
    assert (small is None) == (needed is None)
    if small is not None and needed is not None:
        assert area(asked).at_least <= needed
        assert clique(small).at_least <= needed
        assert dual(small, enough=99).at_least <= needed


@MANY
@given(LISTS)
def test_every_plan_can_be_cut_and_gives_every_piece_once(solver: Solver, asked: Problem):
    found = solve(asked, solver)
    assume(found.sheets)
    assert faults(asked, found.sheets, supply=found.at_most) == ()
    pieces = Counter(what.key for sheet in found.sheets for _, what in taken(sheet))
    assert pieces == {item.key: item.copies for item in asked.items}
    assert sum(map(cuts_through_waste, found.sheets)) == 0


def _bounds(found: Answer) -> tuple[str, int, int | None]:
    return found.verdict, found.at_least, found.at_most


@MANY
@given(loose(), st.integers(1, 3))
def test_slack_is_paper_that_every_piece_and_the_sheet_carry_along(solver: Solver, asked: Problem, slack: int):
    grown = tuple(replace(item, width=item.width + slack, height=item.height + slack) for item in asked.items)
    without = Problem(asked.width + slack, asked.height + slack, asked.sheets, grown)
    assert _bounds(solve(replace(asked, slack=slack), solver)) == _bounds(solve(without, solver))


type Piece = tuple[int, int, bool, bool]


def _gives(width: int, height: int, pieces: tuple[Piece, ...], slack: int) -> bool:
    """Whether a part gives the pieces, by trying every cut as a person makes it: both parts, less what it takes."""
    if not pieces:
        return True
    if len(pieces) == 1:
        w, h, upright, sideways = pieces[0]
        if (upright and (w, h) == (width, height)) or (sideways and (h, w) == (width, height)):
            return True
    for chosen in range(1 << len(pieces)):
        some = tuple(piece for n, piece in enumerate(pieces) if chosen >> n & 1)
        others = tuple(piece for n, piece in enumerate(pieces) if not chosen >> n & 1)
        for at in range(1, width):
            rest = width - at - slack
            if _gives(at, height, some, slack) and (_gives(rest, height, others, slack) if rest > 0 else not others):
                return True
        for at in range(1, height):
            rest = height - at - slack
            if _gives(width, at, some, slack) and (_gives(width, rest, others, slack) if rest > 0 else not others):
                return True
    return False


@settings(max_examples=60)
@given(
    st.integers(2, 6),
    st.integers(2, 5),
    st.lists(st.tuples(st.integers(1, 4), st.integers(1, 4), LIES), min_size=1, max_size=2),
    st.integers(0, 2),
)
def test_slack_is_what_a_person_loses_at_each_cut(solver, width, height, pieces, slack):
    items = tuple(Item(f"P{n}", w, h, 1, *lie) for n, (w, h, lie) in enumerate(pieces))
    found = solve(Problem(width, height, 1, items, slack), solver)
    flat = tuple((w, h, *lie) for w, h, lie in pieces)
    assert found.verdict in ("fits" if _gives(width, height, flat, slack) else "short", "unknown")


@MANY
@given(LISTS)
def test_more_sheets_never_make_a_list_short(solver: Solver, asked: Problem):
    fewer, more = solve(asked, solver), solve(replace(asked, sheets=asked.sheets + 1), solver)
    if fewer.verdict == "fits":
        assert more.verdict == "fits"
    assert more.verdict != "short" or fewer.verdict == "short"


@MANY
@given(LISTS, st.randoms(use_true_random=False))
def test_the_same_question_has_the_same_bytes(solver: Solver, asked: Problem, chance):
    shuffled = list(asked.items)
    chance.shuffle(shuffled)
    again = Problem.from_json(asked.to_json())
    assert solve(asked, solver).to_json() == solve(replace(again, items=tuple(shuffled)), solver).to_json()


@MANY
@given(LISTS, st.integers(2, 127))
def test_the_unit_of_length_does_not_matter(solver: Solver, asked: Problem, times: int):
    items = tuple(replace(item, width=item.width * times, height=item.height * times) for item in asked.items)
    larger = Problem(asked.width * times, asked.height * times, asked.sheets, items, asked.slack * times)
    found = solve(larger, solver)
    assert _bounds(found) == _bounds(solve(asked, solver))
    assert faults(larger, found.sheets, supply=found.at_most) == () or found.verdict == "short"


@MANY
@given(LISTS)
def test_exchanging_the_axes_never_contradicts(solver: Solver, asked: Problem):
    items = tuple(replace(item, width=item.height, height=item.width) for item in asked.items)
    verdicts = {
        solve(asked, solver).verdict,
        solve(Problem(asked.height, asked.width, asked.sheets, items, asked.slack), solver).verdict,
    }
    assert verdicts != {"fits", "short"}


@MANY
@given(LISTS)
def test_an_answer_survives_being_kept(solver: Solver, asked: Problem):
    found = solve(asked, solver)
    assert Answer.from_json(found.to_json()) == found
