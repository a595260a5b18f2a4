"""Small kits in millimetres for tests of what is asked of a print and of its answer. One millimetre is 320 ticks."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from layouts.cutting import Answer, Culprits, Problem, find_culprits, solve
from layouts.document import Kit, read_kit_tree
from layouts.proofing.plans import PrintAnswer, plan_print
from layouts.proofing.prints import PrintPart, Want, print_parts

type Tree = dict[str, Any]

MM = 320
ONE_WAY = {"name": "One-way", "reads": "up", "repeat": "one-way"}


class Unasked:
    """A solver that must not be needed: small lists are decided by quick plans and bounds."""

    def check(self) -> None:
        pass

    def ask(self, question: dict[str, Any]) -> dict[str, Any]:
        raise AssertionError(f"the solver was asked {question}")


def decided(problem: Problem) -> Answer:
    return solve(problem, Unasked())


class Unable(Unasked):
    """A solver that finds nothing out: what bounds do not prove is not proven."""

    def ask(self, question: dict[str, Any]) -> dict[str, Any]:
        return {"by": None, "steps": 0}


def explained(problem: Problem) -> Culprits | None:
    return find_culprits(problem, Unable())


def kit_of(*projects: Tree, papers: Sequence[Tree] = (), **more: Any) -> Kit:
    head = {"format": "kitproof/1", "code": "k", "title": "Small", "unit": "mm"}
    return read_kit_tree({**head, "papers": list(papers) or [paper()], "projects": list(projects), **more})


def paper(id_: str = "oak", width: str = "100", height: str = "80", **more: Any) -> Tree:
    return {"id": id_, "name": id_.capitalize(), "size": [width, height], "sheets": 1, "front": {"name": "F"}, **more}


def project(*pieces: Tree, id_: str = "p", **more: Any) -> Tree:
    return {"id": id_, "title": id_.upper(), "pieces": list(pieces), **more}


def piece(id_: str, width: str, height: str, **more: Any) -> Tree:
    """A piece from the oak paper, unless it is said to come from elsewhere."""
    source = {} if "from" in more else {"paper": "oak"}
    return {"id": id_, "name": f"piece {id_}", "size": [width, height], **source, **more}


def window(id_: str, width: str, height: str, **more: Any) -> Tree:
    """A kept window in the lower left, with a rim of 1 mm there."""
    return {"id": id_, "left": "1", "bottom": "1", "width": width, "height": height, "cut_out": "kept", **more}


def part_of(kit: Kit, paper_id: str = "oak") -> PrintPart:
    return next(part for part in print_parts(kit) if part.paper == paper_id)


def wants_of(kit: Kit, paper_id: str = "oak") -> dict[str, Want]:
    """What is asked of a paper, by the place without its project where there is one project only."""
    return {want.place.removeprefix("project:p/"): want for want in part_of(kit, paper_id).wants}


def answer_of(kit: Kit, paper_id: str = "oak") -> PrintAnswer:
    return plan_print(part_of(kit, paper_id), decided)


def leaves(answer: PrintAnswer) -> list[dict[str, Any]]:
    """All parts of a plan that are not cut further, in the order of its cuts, those of cut-outs behind their piece."""
    found: list[dict[str, Any]] = []

    def walk(node: dict[str, Any]) -> None:
        for part in node.get("parts", ()):
            walk(part)
        if "parts" not in node:
            found.append(node)
        for tree in node.get("cut_outs", {}).values():
            walk(tree)

    for sheet in answer.plan:
        walk(sheet["tree"])
    return found


def laid(answer: PrintAnswer) -> dict[tuple[str, int], dict[str, Any]]:
    """The pieces of a plan by the id of the piece (or form and part) and the number of the copy."""
    pieces = [leaf for leaf in leaves(answer) if "piece" in leaf]
    by_copy = {(leaf["piece"].partition("/")[2].partition(":")[2], leaf["copy"]): leaf for leaf in pieces}
    assert len(by_copy) == len(pieces), "a copy is cut twice"
    return by_copy
