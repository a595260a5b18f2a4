"""Documents with very many steps that all glue, cut or close the same things: judged and scheduled all the same.

Time is not judged here, since machines differ. What took time that grows with the square of the number of steps would
take minutes in each of these.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from layouts.assembly import one_person, order_of, schedule_of, steps_of, time_of, waits_of
from layouts.document import read_kit_tree
from layouts.proofing.rules import fineness, templates, tools, waits, windows

type Tree = dict[str, Any]

STEPS, THINGS = 10_000, 5_000


def _piece(id_: str, **members: Any) -> Tree:
    return {"id": id_, "name": "", "size": ["1", "1"], **members}


def _kit(pieces: list[Tree], steps: list[Tree], placements: list[Tree] | None = None, **lists: Any) -> Tree:
    project = {"id": "p", "title": "", "pieces": pieces, "steps": steps, "placements": placements or []}
    return {"format": "kitproof/1", "code": "c", "title": "", "unit": "in", "projects": [project], **lists}


def _glue_in_a_row(**members: Any) -> Tree:
    glued = {"text": "", "use": [{"piece": "A"}], "tools": ["g"], "work": "1 s", **members}
    return _kit(
        [_piece("A")],
        [{"id": f"s{at}", **glued} for at in range(STEPS)],
        tools=[{"id": "g", "kind": "solvent-glue"}],
    )


def _glue_before_and_after_one_step() -> Tree:
    used = {"text": "", "use": [{"piece": "A"}]}
    first = [{"id": f"a{at}", **used, "dry": f"{at + 1} s", "after": []} for at in range(THINGS)]
    hub = {"id": "hub", "text": "", "after": [step["id"] for step in first]}
    then = [{"id": f"b{at}", **used, "dry": "1 s", "after": ["hub"]} for at in range(THINGS)]
    return _kit([_piece("A")], [*first, hub, *then])


def _close_everything() -> Tree:
    face = {"id": "f", "size": ["1", "1"], "inside": True}
    blanks = [{"id": f"b{at}", "name": "", "faces": [face]} for at in range(THINGS)]
    put = [{"id": f"p{at}", "put": {"piece": "A"}, "on": {"blank": f"b{at}", "face": "f"}} for at in range(THINGS)]
    close = {"id": "close", "text": "", "closes": [blank["id"] for blank in blanks]}
    lay = [{"id": f"s{at}", "text": "", "use": [{"piece": "A"}]} for at in range(THINGS)]
    return _kit([_piece("A")], [close, *lay], put, blanks=blanks)


def _cut_everything_again_and_again() -> Tree:
    window = {"id": "w", "left": "1/8", "width": "1/8", "top": "1/8", "height": "1/8", "cut_out": "kept"}
    pieces = [_piece(f"A{at}", windows=[window], edges={"top": f"t{at}"}) for at in range(THINGS)]
    listed = [{"id": f"t{at}", "kind": "decorative", "step": "3", "narrowest": "2"} for at in range(THINGS)]
    cut = {"text": "", "cut": [piece["id"] for piece in pieces], "tools": ["trimmer", "t0"]}
    trimmer = {"id": "trimmer", "kind": "trimmer", "step": "3", "narrowest": "2", "longest": "1"}
    return _kit(pieces, [{"id": f"s{at}", **cut} for at in range(10)], tools=[trimmer, *listed])


@pytest.mark.parametrize(
    "document",
    [
        pytest.param(_glue_in_a_row, id="one after the other, without a wait"),
        pytest.param(lambda: _glue_in_a_row(dry="1 s"), id="one after the other, each with a wait"),
        pytest.param(lambda: _glue_in_a_row(dry="1 s", after=[]), id="none after another"),
        pytest.param(_glue_before_and_after_one_step, id="before and after one step"),
        pytest.param(_close_everything, id="many boxes closed at once"),
        pytest.param(_cut_everything_again_and_again, id="many pieces cut again and again"),
    ],
)
def test_many_steps_are_judged_and_scheduled(document: Callable[[], Tree]):
    kit = read_kit_tree(document())
    steps = steps_of(kit)
    told = [
        *fineness.findings(kit),
        *templates.findings(kit),
        *tools.findings(kit, steps, []),
        *waits.findings(kit, steps),
        *windows.findings(kit),
    ]
    # 200 of each rule at most, and of figures the first hundred.
    assert len(told) <= 1_000
    assert time_of(kit, steps).critical_s <= 2 * STEPS
    schedule, alone = schedule_of(kit, steps), one_person(kit, steps)
    assert (schedule is None) == (alone is None)
    named = [len(wait.meanwhile) for wait in waits_of(kit, steps, order_of(kit, steps))]
    assert max(named, default=0) <= 12
