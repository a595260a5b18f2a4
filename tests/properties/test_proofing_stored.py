"""The answer of a print, kept as JSON: read again it is the same answer, and prints the same bytes."""

from __future__ import annotations

import json
import string

from hypothesis import given
from hypothesis import strategies as st

from layouts.cutting import Culprits
from layouts.proofing import PrintAnswer, PrintPart, answer_from_json, answer_to_json
from layouts.proofing.families import CutOutAnswer
from layouts.proofing.prints import KeptWindow, Want
from layouts.shapes import UsableSheet

TICKS = st.integers(0, 3_200_000)
IDS = st.text(string.ascii_letters + string.digits, min_size=1, max_size=6)
# A tree of numbers, names and lists, its members in any order: what a plan's nodes hold matters to its readers only.
NODES = st.recursive(
    st.integers(-5, 3_200_000) | st.text(max_size=8) | st.booleans(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=4),
    max_leaves=12,
)


@st.composite
def parts(draw):
    wants: list[Want] = []
    for number in range(draw(st.integers(0, 4))):
        hosts = [(want.place, window.id) for want in wants for window in want.windows]
        wants.append(
            Want(
                place=f"project:P/piece:{number}",
                width=draw(TICKS),
                height=draw(TICKS),
                copies=range(1, draw(st.integers(1, 9))),
                turns=tuple(draw(st.lists(st.tuples(st.sampled_from([0, 90]), st.sampled_from(["front", "back"]))))),
                host=draw(st.sampled_from(hosts)) if hosts and draw(st.booleans()) else None,
                windows=tuple(KeptWindow(name, draw(TICKS), draw(TICKS)) for name in draw(st.sets(IDS, max_size=2))),
            )
        )
    sheet = UsableSheet(*(draw(TICKS) for _ in range(6)))
    return PrintPart(draw(IDS), draw(st.integers(0, 9)), sheet, draw(TICKS), sheet, draw(TICKS), tuple(wants))


CULPRITS = st.builds(
    Culprits,
    st.lists(st.tuples(IDS, st.integers(1, 9)), max_size=3).map(tuple),
    st.sampled_from(["too-big", "area", "apart", "cuts"]),
    st.booleans(),
)


@st.composite
def answers(draw):
    part = draw(parts())
    windows = [(want.place, window) for want in part.wants for window in want.windows]
    refused = draw(st.lists(st.sampled_from(windows), max_size=3)) if windows else []
    impossible = draw(st.lists(st.sampled_from(part.wants), max_size=3)) if part.wants else []
    states = st.sampled_from(["too-small", "overdrawn", "undecided", "no-host"])
    return PrintAnswer(
        part=part,
        verdict=draw(st.sampled_from(["fits", "short", "unknown"])),
        reason=draw(st.text(max_size=10)),
        at_least=draw(st.integers(0, 10_000)),
        at_most=draw(st.none() | st.integers(0, 10_000)),
        plan=tuple(draw(st.lists(st.dictionaries(st.text(max_size=5), NODES, max_size=3), max_size=3))),
        impossible=tuple((want, draw(st.sampled_from(["too-big", "turn"]))) for want in impossible),
        refused=tuple(
            CutOutAnswer(host, window, draw(states), tuple(draw(st.lists(IDS, max_size=2)))) for host, window in refused
        ),
        dead_fit=draw(st.booleans()),
        culprits=draw(st.none() | CULPRITS),
        is_spent=draw(st.booleans()),
    )


@given(answers())
def test_an_answer_that_was_kept_is_the_answer_that_was_found(answer):
    kept = answer_from_json(answer_to_json(answer), answer.part)
    assert kept == answer
    # Equal dicts may differ in the order of their members, which is the order in which a proof prints them.
    assert json.dumps(kept.plan) == json.dumps(answer.plan)
