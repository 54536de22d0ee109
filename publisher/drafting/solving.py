"""A measure that is solved for: the length at which two formulas are equal, found between two bounds."""

from collections.abc import Callable
from dataclasses import replace

from publisher.drafting.bench import UNUSABLE, Bench, unusable
from publisher.drafting.references import work_out_formula
from publisher.frozen import dataclass
from publisher.measures import Formula, Solved
from publisher.terms import Dimension, Finding, Place, Quantity, Severity, UnitSystem, Unusable, length

# Where to look for a change of sign before it is closed in on; lengths between the bounds, evenly.
SAMPLES = 24
STEPS = 80
CLOSE_ENOUGH = 1e-7  # mm that both sides may differ in


@dataclass(frozen=True, slots=True)
class _Tried:
    at: float
    off: float  # left side less right side, mm


def solve(
    low: float, high: float, off: Callable[[float], float], place: Place, told: Callable[[float], str]
) -> Quantity:
    """The length between `low` and `high` (mm) at which `off` is nought. Raises Unusable where there is none.

    Lengths at which the pattern cannot be drafted are passed over.
    """
    tried: list[_Tried] = []
    failed: list[Exception] = []
    for at in range(SAMPLES + 1):
        length_tried = low + (high - low) * at / SAMPLES
        try:
            tried.append(_Tried(length_tried, off(length_tried)))
        except UNUSABLE as reason:
            failed.append(reason)
            continue
        if abs(tried[-1].off) <= CLOSE_ENOUGH:
            return length(tried[-1].at)
        if len(tried) > 1 and tried[-2].off * tried[-1].off < 0:
            return length(_closed_in(tried[-2], tried[-1], off))
    if not tried:
        raise failed[0]  # it fails everywhere, so it does not lie at the length
    raise Unusable(_no_answer(low, high, tried, place, told))


def _closed_in(first: _Tried, last: _Tried, off: Callable[[float], float]) -> float:
    """Regula falsi with the halving of a bound that stays (the Illinois rule): it never leaves the bounds."""
    low, high = first, last
    for _ in range(STEPS):
        at = (low.at * high.off - high.at * low.off) / (high.off - low.off)
        middle = _Tried(at, off(at))
        if abs(middle.off) <= CLOSE_ENOUGH or abs(high.at - low.at) <= CLOSE_ENOUGH:
            return middle.at
        if middle.off * high.off < 0:
            low, high = high, middle
        else:
            low, high = _Tried(low.at, low.off / 2), middle
    return high.at


def _no_answer(low: float, high: float, tried: list[_Tried], place: Place, told: Callable[[float], str]) -> Finding:
    first, last = tried[0], tried[-1]
    says = (
        f"no length between {told(low)} and {told(high)} makes both sides equal: at {told(first.at)} the first is "
        f"{_off(first.off, told)} the second, at {told(last.at)} {_off(last.off, told)}"
    )
    return Finding(
        "no-solution", Severity.ERROR, place, says, "look for it between wider bounds, or at the other measures"
    )


def _off(off: float, told: Callable[[float], str]) -> str:
    return f"{told(abs(off))} {'longer than' if off > 0 else 'shorter than'}"


def solve_measure(bench: Bench, solved: Solved) -> Quantity:
    """The measure that is being worked out, solved for. Raises Unusable where it is no measure, or has no answer."""
    asker = bench.underway[-1] if bench.underway else None
    if asker is None or asker.kind != "measure" or asker.name not in bench.measures_by_name:
        raise unusable(
            "solved-without-name",
            solved.place,
            "what is solved for needs a name",
            "make it a measure, and write the measure's name here",
        )
    low, high = (_mm(bench, bound, solved) for bound in (solved.low, solved.high))
    if bench.fixed:
        bench.rest_on_trial()  # whether it does is not asked: one solved for within another is rare
    steady = dict(bench.done)  # what does not rest on the measure is worked out once for all that is tried

    def off(value: float) -> float:
        fixed = {**bench.fixed, asker.name: length(value)}
        trial = replace(bench, fixed=fixed, resting=set(), done=dict(steady), failed={}, underway=[])
        try:
            return _mm(trial, solved.left, solved) - _mm(trial, solved.right, solved)
        finally:
            steady.update((one, worked) for one, worked in trial.done.items() if one not in trial.resting)

    return solve(low, high, off, solved.place, lambda value: _told(value, bench.units))


def _told(value: float, units: UnitSystem) -> str:
    return f"{value / 25.4:.4g} in" if units is UnitSystem.INCH else f"{value:.4g} mm"


def _mm(bench: Bench, formula: Formula, solved: Solved) -> float:
    quantity = work_out_formula(bench, formula)
    if quantity.dimension is not Dimension.LENGTH:
        raise unusable(
            "not-a-length", solved.place, "what is solved for is a length", "compare lengths, between lengths"
        )
    return float(quantity.amount)
