"""Cases from outside, asked as decision problems: how many are decided in time, and that no answer is wrong.

One sheet, upright and turning: Clautiaux, Carlier and Moukrim 2007 (42 cases, 5 s of one core), Hopper and Turton 2001
(categories 1 to 7, 10 s); guillotine verdicts are those proven in the data of H. Becker's thesis. Knapsacks with known
optima (`g2kp59.json`): a choice of pieces worth the optimum, found by the bare library, is never short, and with one
piece more it never fits. Plates with copies without limit (`gcut_unconstrained.json`): their worth by area is the
optimum, and the pieces that make it fit one sheet. An answer against any of these ends the run.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from layouts.cutting import Item, Problem, Solver, solve
from layouts.cutting.builds.asked import Asked, Stock
from layouts.cutting.builds.grid import Grid, TooFine
from layouts.cutting.builds.worth import best_pattern, plate_worths
from layouts.cutting.reduced import reduced
from tests.benchmarks.measured import in_words, measured
from tests.unit.cutting.plans import faults, problem

DATA = Path(__file__).resolve().parents[1] / "reference" / "bench"
LETTERS = (("O", False), ("R", True))
# For the choice of pieces that the library is asked to make.
CHOICE_SECONDS = 2.0

type Case = dict[str, Any]


def main(arguments: Sequence[str] = ()) -> None:
    parser = argparse.ArgumentParser(prog="outside", description=__doc__)
    parser.add_argument("parts", nargs="*", choices=[*PARTS, []], help="some of them; without, all")
    options = parser.parse_args(arguments)
    for name in options.parts or PARTS:
        PARTS[name]()


def _read(name: str) -> dict[str, Any]:
    data: dict[str, Any] = json.loads((DATA / name).read_text())
    return data


def clautiaux() -> None:
    _one_sheet("Clautiaux, Carlier and Moukrim", _read("g2opp_feasibility.json")["clautiaux42"], 5.0)


def hopper() -> None:
    cases = _read("g2opp_feasibility.json")["hopper_turton_2001_C"]
    for name, some in (("C1 to C3", "123"), ("C4 to C7", "4567")):
        _one_sheet(f"Hopper and Turton {name}", [case for case in cases if case["name"][1] in some], 10.0)


def _one_sheet(name: str, cases: Sequence[Case], seconds: float) -> None:
    asked = [(case, letter, turns) for case in cases for letter, turns in LETTERS]
    taken, open_ = list[float](), list[str]()
    for case, letter, turns in asked:
        question = problem(case["W"], case["H"], 1, case["items"], turn=turns)
        found = measured(question)
        verdict = found.answer.verdict
        proven = {"feasible": "fits", "infeasible": "short"}.get(case["guillotine"].get(letter), verdict)
        if verdict not in ("unknown", proven) or (verdict == "fits" and faults(question, found.answer.sheets)):
            raise AssertionError(f"{case['name']} {letter} is proven to be {proven}, not {verdict}")
        if verdict == "unknown" or found.seconds > seconds:
            open_.append(f"{case['name']} {letter}")
        taken.append(found.seconds)
    told = f"; not decided: {', '.join(open_)}" if open_ else ""
    print(f"{name}: {len(asked) - len(open_)} of {len(asked)} within {seconds:g} s; {in_words(taken)}{told}")


def knapsacks() -> None:
    """Of how many instances a best choice is known, is found to fit, and is proven not to go with one piece more."""
    instances = _read("g2kp59.json")["instances"]
    known, fits, short, more = 0, 0, 0, 0
    with Solver(seconds=3_600) as solver:
        for instance in instances:
            copies = _best_choice(instance)
            if copies is None:
                continue
            known += 1
            asked = _chosen(instance, copies)
            answer = solve(asked, solver)
            if answer.verdict == "short":
                raise AssertionError(f"{instance['name']}: the best choice fits, and is called short")
            fits += answer.verdict == "fits" and not faults(asked, answer.sheets)
            for kind, (_, _, most, value) in enumerate(instance["items"]):
                if value > 0 and copies[kind] < most:
                    better = [number + (place == kind) for place, number in enumerate(copies)]
                    verdict = solve(_chosen(instance, better), solver).verdict
                    if verdict == "fits":
                        raise AssertionError(f"{instance['name']}: {better} is worth more than the optimum, and fits")
                    more, short = more + 1, short + (verdict == "short")
    print(
        f"constrained knapsacks: {known} of {len(instances)} with a best choice; of these {fits} found to fit, and "
        f"{short} of {more} with one piece more proven short; none against a known optimum"
    )


def _chosen(instance: Case, copies: Sequence[int]) -> Problem:
    items = zip(instance["items"], copies, strict=True)
    return problem(instance["W"], instance["H"], 1, [(w, h, number) for (w, h, _, _), number in items if number])


def _best_choice(instance: Case) -> list[int] | None:
    """How many of each the library takes for the known optimum, or None where it stays below."""
    import packingsolver
    from packingsolver import rectangleguillotine as library

    builder = library.InstanceBuilder()
    builder.set_objective(packingsolver.Objective.Knapsack)
    builder.set_number_of_stages_unlimited()
    builder.add_bin_type(instance["W"], instance["H"], copies=1)
    for w, h, copies, value in instance["items"]:
        builder.add_item_type(w, h, profit=value, copies=copies, oriented=True)
    parameters = library.OptimizeParameters()
    parameters.time_limit = CHOICE_SECONDS
    parameters.verbosity_level = 0
    parameters.messages_to_stdout = False
    try:
        solution = library.optimize(builder.build(), parameters).solution
    except RuntimeError:
        return None
    if round(solution.profit()) != instance["opt_guillotine_oriented"]:
        return None
    return [solution.item_copies(kind) for kind in range(len(instance["items"]))]


def plates() -> None:
    instances = _read("gcut_unconstrained.json")["instances"]
    optimal, fits, asked, fine = 0, 0, 0, 0
    with Solver(seconds=3_600) as solver:
        for instance in instances:
            for name, turns in (("opt_unconstrained_computed", False), ("opt_unconstrained_rotatable_computed", True)):
                if instance.get(name) is None:
                    continue
                asked += 1
                question = _without_limit(instance, turns=turns)
                small = reduced(question)
                assert small is not None
                what = Asked((Stock(small.width, small.height, 1),), small.kinds)
                try:
                    grid = Grid.of(what)
                except TooFine:
                    fine += 1
                    continue
                areas = [kind.width * kind.height for kind in small.kinds]
                worth = plate_worths(grid, what, areas)
                if worth[grid.ends[0]] * small.unit_x * small.unit_y != instance[name]:
                    raise AssertionError(f"{instance['name']}: {worth[grid.ends[0]]}, not {instance[name]}")
                optimal += 1
                pattern = best_pattern(grid, what, areas, worth, grid.ends[0])
                chosen = tuple(
                    Item(f"P{number}", kind.width, kind.height, copies, True, kind.turns)
                    for number, (kind, copies) in enumerate(zip(small.kinds, pattern, strict=True))
                    if copies
                )
                verdict = solve(Problem(small.width, small.height, 1, chosen), solver).verdict
                if verdict == "short":
                    raise AssertionError(f"{instance['name']}: what is cut from a sheet does not fit it")
                fits += verdict == "fits"
    print(
        f"plates without limit: {optimal} of {asked} worth the known optimum, {fine} too fine to be looked at; the "
        f"pieces of {fits} found to fit"
    )


def _without_limit(instance: Case, *, turns: bool) -> Problem:
    width, height = instance["W"], instance["H"]
    pieces = [(w, h, (width // min(w, h) + 1) * (height // min(w, h) + 1)) for w, h, _ in instance["items"]]
    return problem(width, height, 1, pieces, turn=turns)


PARTS: dict[str, Callable[[], None]] = {
    "clautiaux": clautiaux,
    "hopper": hopper,
    "knapsacks": knapsacks,
    "plates": plates,
}

if __name__ == "__main__":
    import sys

    main(sys.argv[1:])
