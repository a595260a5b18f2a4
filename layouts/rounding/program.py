"""The best choice for a larger system, as a small integer program that the HiGHS solver decides.

The library is imported when the first such system is met: most kits have none, and a command should start at once.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from layouts.rounding.effort import Effort, Exhausted
from layouts.rounding.search import within_least_error
from layouts.rounding.system import System, cost_of

__all__ = ["MOST_CHOICES", "STEPS", "any_way", "solve_program"]

# A larger system is not put to the solver.
MOST_CHOICES = 400
# What one question to the solver counts, in steps of the search, and how far it may branch.
STEPS = 400
_MOST_NODES = 400
# Preferences weighed at once: 2 to this power is a whole number that no float blurs.
_AT_ONCE = 16


def solve_program(system: System, effort: Effort) -> tuple[int, ...] | None:
    """Return the best choice, as `search` would, or None where there is none. Raises: Exhausted.

    What the solver finds is rounded to whole numbers and held against every equation exactly; it is never believed.
    """
    if len(system.choices) > MOST_CHOICES:
        raise Exhausted("too many figures hang together")
    program = _Program(effort)
    least = within_least_error(system, lambda one: program.minimum(one, {}) is not None)
    if least is None:
        return None
    costs = [one.figures * (one.errors[1] - one.errors[0]) for one in least.choices]
    cheapest = program.minimum(least, dict(enumerate(costs)))
    if cheapest is None:
        raise Exhausted("the solver contradicts itself")
    return _preferred(program, least, costs, cheapest)


def any_way(system: System, effort: Effort) -> tuple[int, ...] | None:
    """Return any choice, or None where there is none. Raises: Exhausted."""
    if len(system.choices) > MOST_CHOICES:
        raise Exhausted("too many figures hang together")
    return _Program(effort).minimum(system, {})


def _preferred(program: _Program, system: System, costs: Sequence[int], found: tuple[int, ...]) -> tuple[int, ...]:
    """Of all choices that cost no more, the one in which the first values stand as they prefer."""
    dearest = sum(cost * option for cost, option in zip(costs, found, strict=True))
    fixed: dict[int, int] = {}
    for start in range(0, len(system.choices), _AT_ONCE):
        block = range(start, min(start + _AT_ONCE, len(system.choices)))
        if all(found[at] == system.choices[at].preferred or len(system.choices[at].allowed) == 1 for at in block):
            fixed |= {at: found[at] for at in block}
            continue
        wishes = {at: (-1 if system.choices[at].preferred else 1) * 2 ** (_AT_ONCE - 1 - (at - start)) for at in block}
        better = program.minimum(system, wishes, fixed=fixed, costs=costs, dearest=dearest)
        if better is None or cost_of(system.choices, better) != cost_of(system.choices, found):
            raise Exhausted("the solver contradicts itself")
        found = better
        fixed |= {at: found[at] for at in block}
    return found


class _Program:
    """Questions to the solver, each a program of its own: nothing of one may show in the answer to the next."""

    def __init__(self, effort: Effort) -> None:
        self._effort = effort

    def minimum(
        self,
        system: System,
        weights: Mapping[int, int],
        *,
        fixed: Mapping[int, int] | None = None,
        costs: Sequence[int] = (),
        dearest: int = 0,
    ) -> tuple[int, ...] | None:
        """Return a choice of least weight, some of it fixed and its costs no more than `dearest`; None: there is none.

        Raises: Exhausted where the solver does not decide, or gives what does not hold.
        """
        self._effort.spend(STEPS + len(system.choices))
        import highspy
        import numpy as np

        many = len(system.choices)
        fixed = fixed or {}
        rows: list[tuple[dict[int, int], int | None, int]] = [
            ({choice: times for times, choice in one.terms}, one.rest, one.rest) for one in system.equations
        ]
        if costs:
            rows.append((dict(enumerate(costs)), None, dearest))

        class Quiet(highspy.Highs):
            """The wrapper's own start would print a banner before it can be told not to."""

            def __init__(self) -> None:
                super(highspy.Highs, self).__init__()

        solver = Quiet()
        for option, value in _OPTIONS.items():
            solver.setOptionValue(option, value)
        lp = highspy.HighsLp()
        lp.num_col_, lp.num_row_ = many, len(rows)
        lp.col_cost_ = np.array([weights.get(at, 0) for at in range(many)], dtype=np.double)
        lp.col_lower_ = np.array([fixed.get(at, min(one.allowed)) for at, one in enumerate(system.choices)], np.double)
        lp.col_upper_ = np.array([fixed.get(at, max(one.allowed)) for at, one in enumerate(system.choices)], np.double)
        lp.row_lower_ = np.array([-highspy.kHighsInf if low is None else low for _, low, _ in rows], np.double)
        lp.row_upper_ = np.array([high for _, _, high in rows], np.double)
        lp.integrality_ = [highspy.HighsVarType.kInteger] * many
        lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        lp.a_matrix_.num_col_, lp.a_matrix_.num_row_ = many, len(rows)
        starts = [0]
        for terms, _, _ in rows:
            starts.append(starts[-1] + len(terms))
        lp.a_matrix_.start_ = np.array(starts, dtype=np.int32)
        lp.a_matrix_.index_ = np.array([at for terms, _, _ in rows for at in terms], dtype=np.int32)
        lp.a_matrix_.value_ = np.array([times for terms, _, _ in rows for times in terms.values()], dtype=np.double)
        solver.passModel(lp)
        solver.run()
        status = solver.getModelStatus()
        if status in (highspy.HighsModelStatus.kInfeasible, highspy.HighsModelStatus.kUnboundedOrInfeasible):
            return None
        if status != highspy.HighsModelStatus.kOptimal:
            raise Exhausted("the solver did not decide")
        shown = tuple(round(value) for value in solver.getSolution().col_value)
        if not system.is_met(shown) or any(shown[at] != option for at, option in fixed.items()):
            raise Exhausted("what the solver found does not hold")
        return shown


_OPTIONS: Mapping[str, bool | int | float] = {
    "output_flag": False,  # its banner
    "threads": 1,
    "random_seed": 0,
    "mip_rel_gap": 0.0,
    "mip_abs_gap": 0.0,
    "mip_max_nodes": _MOST_NODES,
}
