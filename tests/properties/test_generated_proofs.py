"""Kits that were made by cutting sheets up: whatever the search finds or does not find, nothing is called short."""

from __future__ import annotations

import json
from typing import Any

import pytest

from layouts.document import canonical_bytes, read_kit, read_kit_tree
from layouts.proofing import prove_at_once
from tests.generated.kits import generated, generated_kit
from tests.reference.verify_plan import Checker

# All are read, and the first of them proved: the other kind of made kits is proved in tests/reference.
KITS, PROVED, IN_ONE = 300, 100, 10
# All of these would say that something cannot be done which has been done.
FALSE = {"paper-short", "piece-too-big", "turn-impossible", "side-missing", "cut-out-too-small", "cut-out-overdrawn"}


def untruths(proof: dict[str, Any], sheets: dict[str, int]) -> list[str]:
    """What a proof says that cannot be, where `sheets` are known to do."""
    found = [f"{finding['rule']} at {finding['at']}" for finding in proof["findings"] if finding["rule"] in FALSE]
    for paper in proof["papers"]:
        needed = paper["needed"]
        if paper["verdict"] == "short":
            found.append(f"{paper['paper']} is called short")
        if needed["at_least"] > sheets[paper["paper"]]:
            found.append(f"{paper['paper']} needs at least {needed['at_least']}, cut from {sheets[paper['paper']]}")
        if paper["verdict"] == "fits" and needed["at_most"] is None:
            found.append(f"{paper['paper']} fits, and on no number of sheets")
    return found


@pytest.mark.parametrize(
    "seeds", [pytest.param(range(n, n + IN_ONE), id=f"{n} to {n + IN_ONE - 1}") for n in range(0, PROVED, IN_ONE)]
)
def test_what_was_cut_from_the_sheets_is_never_called_short_and_every_plan_can_be_cut(seeds):
    faults = {}
    for seed in seeds:
        made = generated(seed)
        proof = prove_at_once(read_kit_tree(made.kit))
        checker = Checker(made.kit, proof)
        checker.run()
        faults[seed] = checker.faults + untruths(proof, made.sheets)
    assert {seed: found for seed, found in faults.items() if found} == {}


def test_equal_seeds_make_equal_kits_that_are_read_and_keep_their_canonical_form():
    for seed in range(KITS):
        tree = generated_kit(seed)
        assert tree == generated_kit(seed)
        kit = read_kit_tree(tree)
        assert read_kit(canonical_bytes(kit)) == kit


def test_the_kits_are_worth_the_trouble():
    """All that cutting knows turns up often: counted over all of them."""
    kits = [generated_kit(seed) for seed in range(KITS)]
    projects = [project for kit in kits for project in kit["projects"]]
    pieces = [piece for project in projects for piece in project["pieces"]]
    text = json.dumps(kits)
    often = {
        "pieces from cut-outs": sum("from" in piece for piece in pieces),
        "cut-outs within cut-outs": sum("from" in piece and "windows" in piece for piece in pieces),
        "pieces of a set": sum("each" in piece.get("paper", ()) for piece in pieces),
        "pieces from the back": sum(piece["side"] == "back" for piece in pieces),
        "pieces that read one way": sum(piece["print_reads"] != "any" for piece in pieces),
        "projects made several times": sum(project["makes"] > 1 for project in projects),
        "spoilt margins": text.count('"spoilt"'),
        "undersized sheets": text.count('"undersize"'),
        "kits with slack": sum(kit["cutting"]["slack"] != "0" for kit in kits),
        "metric kits": sum(kit["unit"] == "mm" for kit in kits),
    }
    assert {name: number for name, number in often.items() if number < 75} == {}
    constructions = {form["as"] for project in projects for form in project["forms"]}
    # A lid needs something that it fits.
    assert constructions == {"tray", "tag", "scored", "pocket", "envelope", "sleeve", "concertina", "frame"}
