"""Whatever a proof offers does what it says: made in the document, it is proved, brings nothing new to mend, and can be
taken back to the same bytes."""

from __future__ import annotations

from collections import Counter
from random import Random
from typing import Any

import pytest

from layouts.cutting import Solver
from layouts.document import Kit, read_kit_tree
from tests.generated.kits import generated
from tests.unit.proofing.mended import check_each, ideas, mends, proved

type Tree = dict[str, Any]

SMALL, IN_ONE = 200, 25
MADE = 6
_FRONTS = ("Leaves", "Stars")


@pytest.fixture(scope="module")
def solver():
    with Solver(seconds=600) as running:
        yield running


@pytest.mark.parametrize(
    "seeds", [pytest.param(range(n, n + IN_ONE), id=f"{n} to {n + IN_ONE - 1}") for n in range(0, SMALL, IN_ONE)]
)
def test_what_is_offered_for_small_kits_does_what_it_says(solver, seeds):
    for seed in seeds:
        kit = small_kit(seed)
        check_each(kit, proved(kit, solver), solver)


@pytest.mark.parametrize("seed", range(MADE))
@pytest.mark.parametrize("fewer", [0, 1], ids=["as made", "a sheet less of each print"])
def test_what_is_offered_for_kits_cut_from_full_sheets_does_what_it_says(solver, seed, fewer):
    tree = generated(seed).kit
    for paper in tree["papers"]:
        paper["sheets"] = max(0, paper["sheets"] - fewer)
    kit = read_kit_tree(tree)
    check_each(kit, proved(kit, solver), solver)


def test_the_small_kits_are_worth_the_trouble(solver):
    """Every kind turns up, as a mend and as an idea."""
    found: Counter[str] = Counter()
    for seed in range(SMALL):
        proof = proved(small_kit(seed), solver)
        for word, offered in (("mend", mends(proof)), ("idea", ideas(proof))):
            for one in offered:
                kind = next((name for name in one["cost"] if name != "sheets"), "sheets")
                added = any(change["at"].endswith("window:hollow") for change in one["change"])
                sides = any(change["at"].endswith("/side") for change in one["change"])
                found[f"{word}: {'hollow' if added else 'back' if sides else kind}"] += 1
    kinds = ("turned", "cut_outs", "hollow", "moved", "back", "border", "joined", "pieces")
    lacking = [f"{word}: {kind}" for word in ("mend", "idea") for kind in kinds if not found[f"{word}: {kind}"]]
    assert lacking == []
    assert found["mend: sheets"] > 0


def small_kit(seed: int) -> Kit:
    """A kit of a few pieces in whole centimetres on sheets of 10 x 8: mats under pictures, strips under panels, frames,
    and what could come out of them; on one face or two, from leaves that show the same on one side or the other."""
    random = Random(seed)
    papers = [_paper(random, "oak"), _paper(random, "ash"), {**_paper(random, "elm"), "grammage": 90}]
    pieces: list[Tree] = []
    placements: list[Tree] = []
    for number in range(random.randint(2, 4)):
        _add(random, f"{'ABCD'[number]}", pieces, placements)
    names = [piece["id"] for piece in pieces]
    step = {"id": "s", "text": "", "cut": names, "use": [{"piece": name} for name in names]}
    project = {"id": "p", "title": "P", "pieces": pieces, "placements": placements, "steps": [step]}
    face = {"id": "front", "size": ["200", "200"], "count": 1}
    box = {"id": "box", "name": "box", "count": 1, "faces": [face]}
    head = {"format": "kitproof/1", "code": "k", "title": "K", "unit": "mm"}
    return read_kit_tree({**head, "papers": papers, "blanks": [box], "projects": [project]})


def _paper(random: Random, id_: str) -> Tree:
    front, back = (
        {"name": random.choice(_FRONTS), "reads": "up", "repeat": random.choice(("one-way", "any"))} for _ in range(2)
    )
    sheet = {"size": ["102", "82"], "sheets": random.choice((1, 1, 2)), "front": front}
    return {"id": id_, "name": id_.capitalize(), **sheet, **({"back": back} if random.random() < 0.5 else {})}


def _add(random: Random, id_: str, pieces: list[Tree], placements: list[Tree]) -> None:
    """One thing: a piece by itself, a frame, a mat with its picture, a bordered mat, or a strip below a panel."""
    front = {"blank": "box", "face": "front"}
    middle = {"centred": True, "middle": True}
    what = random.choice(("plain", "plain", "frame", "mat", "bordered", "bordered", "strip"))
    width, height = random.randint(3, 10) * 10, random.randint(2, 8) * 10
    piece: Tree = {"id": id_, "name": f"a {what}", "paper": "oak", "size": [str(width), str(height)]}
    pieces.append(piece)
    if what == "plain":
        piece["count"] = random.randint(1, 3)
        if random.random() < 0.5:
            piece["size"] = [str(random.randint(2, 6) * 10), str(random.randint(2, 5) * 10)]
    elif what == "frame":
        piece["size"] = ["90", "70"]
        sides = {"left": "10", "bottom": "10", "width": "60", "height": "50"}
        piece["windows"] = [{"id": "pane", **sides, "cut_out": random.choice(("waste", "waste", "kept"))}]
    elif what == "mat":
        piece["size"] = ["90", "80"]
        pieces.append({"id": f"{id_}p", "name": "a picture", "paper": "elm", "size": ["80", "70"]})
        placements.append({"id": id_, "put": {"piece": f"{id_}p"}, "on": {"piece": id_}, **middle})
    elif what == "bordered":
        piece["size"] = [str(width + 2), str(height)]
        blank = {"id": f"{id_}b", "name": "a backing", "paper": "elm", "size": [str(width + 4), str(height + 2)]}
        pieces.append(blank)
        placements.append({"id": id_, "put": {"piece": id_}, "on": {"piece": f"{id_}b"}, **middle, "border": "1"})
    else:
        piece["size"] = [random.choice(("80", "100")), "10"]
        at = {"on": front, "left": "20", "bottom": "40"}
        placements.append({"id": id_, "put": {"piece": id_}, **at, "intends": ["overlap"]})
        pieces.append({"id": f"{id_}c", "name": "a panel", "paper": "elm", "size": ["60", "40"]})
        cover = {"on": front, "left": "30", "bottom": "30", "intends": ["overlap"]}
        placements.append({"id": f"{id_}c", "put": {"piece": f"{id_}c"}, **cover})
