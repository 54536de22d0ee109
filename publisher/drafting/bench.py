"""The bench of one variant: measures, points and edges worked out on demand, each once, as one graph.

A measure may ask an edge for its length, an edge asks its points, a point asks measures. Whatever asks for itself,
by whatever way round, is a circle of formulas, and a finding.
"""

import dataclasses
from collections.abc import Callable, Mapping
from dataclasses import field
from fractions import Fraction
from typing import TypeVar, cast

from publisher.drafting.seam_values import Laying
from publisher.frozen import dataclass
from publisher.measures import Asked, Formula, Literal, Measures, Name, Saying, Solved, native_literal
from publisher.source import Native, Source, WrittenMeasure, WrittenPiece, WrittenPlacement
from publisher.terms import Finding, Place, Quantity, Severity, UnitSystem, Unusable, Variant, Written

Worked = TypeVar("Worked")

DEEPEST = 200  # formulas that read one another in a row


class AlreadyFound(Exception):
    """Something cannot be used, and the finding that says so has been reported by an earlier stage."""


# What one thing that cannot be used raises; whoever goes on with the next thing catches these two.
UNUSABLE = (Unusable, AlreadyFound)


@dataclass(frozen=True, slots=True)
class Asker:
    """A node of the graph: what is being worked out, as the maker would call it."""

    kind: str  # measure, point, edge, mark
    name: str
    place: Place = field(compare=False)


@dataclasses.dataclass
class Bench:
    """Source and measures of one variant, and what has been worked out so far."""

    source: Source
    measures: Measures
    variant: Variant
    answer: Callable[["Bench", Asked], Quantity]  # how geometry answers a formula's questions
    lay: Callable[["Bench", WrittenPlacement], Laying]  # how a placement comes to lie, which marks may ask
    solve: Callable[["Bench", Solved], Quantity]  # how a measure is solved for
    fixed: Mapping[str, Quantity] = field(default_factory=dict)  # measures that are tried out while one is solved for
    resting: set[Asker] = field(default_factory=set)  # what has been worked out from a measure that is tried out
    told: list[Finding] = field(default_factory=list)  # what stops nothing, to be told once
    done: dict[Asker, object] = field(default_factory=dict)
    failed: dict[Asker, Exception] = field(default_factory=dict)
    underway: list[Asker] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.measures_by_name: dict[str, WrittenMeasure] = {str(m.name): m for m in self.source.measures}
        self.pieces_by_name: dict[str, WrittenPiece] = {str(p.name): p for p in self.source.pieces}

    @property
    def units(self) -> UnitSystem:
        """The unit system of this variant."""
        return self.variant.units

    @property
    def inch_step(self) -> Fraction:
        """The fraction of an inch that lengths are rounded to: 1/8, or 1/16 where the pattern says so."""
        declared = self.source.facts.inch_rounding
        return Fraction(str(declared)) if declared else Fraction(1, 8)

    def work_out(self, asker: Asker, how: Callable[[], Worked]) -> Worked:
        """What `how` yields, worked out once. Raises Unusable where the asker asks for itself."""
        if asker in self.done:
            if asker in self.resting:
                self.rest_on_trial()
            return cast(Worked, self.done[asker])
        if asker in self.failed:
            raise self.failed[asker]
        if asker in self.underway:
            raise Unusable(self._circle(asker))
        if len(self.underway) >= DEEPEST:
            raise unusable(
                "too-deep",
                asker.place,
                f"'{asker.name}' is the {DEEPEST + 1}st of formulas that each read the next",
                "let some of them begin with a length of their own",
            )
        self.underway.append(asker)
        try:
            worked = how()
        except UNUSABLE as reason:
            self.failed[asker] = reason
            raise
        finally:
            self.underway.pop()
        self.done[asker] = worked
        return worked

    def rest_on_trial(self) -> None:
        """To be said when something is read that rests on a measure tried out: so does all that is being worked out."""
        self.resting.update(self.underway)

    def _circle(self, asker: Asker) -> Finding:
        chain = [*self.underway[self.underway.index(asker) :], asker]
        told = " → ".join(f"'{link.name}'" for link in chain)
        return Finding(
            "circle-of-formulas",
            Severity.ERROR,
            min((link.place for link in chain), key=lambda place: (place.line, place.column)),
            f"a circle: {told}",
            "give one of them a length that does not depend on the others",
        )

    def native(self, native: Native) -> Written:
        """What was written for this variant's unit system."""
        return native.inch if self.units is UnitSystem.INCH else native.metric

    def saying(self, written: Written) -> Saying:
        """The tree of a written text. Raises AlreadyFound where it could not be read."""
        said = self.measures.saying(written)
        if said is None:
            raise AlreadyFound(str(written))
        return said

    def formula(self, native: Native) -> Formula:
        """The formula written for this variant's unit system."""
        return cast(Formula, self.saying(self.native(native)))

    def literal(self, literal: Literal) -> Quantity:
        """A literal in this variant's units: a length given for the other system is converted and rounded."""
        return native_literal(literal, self.units, self.inch_step)


def unusable(name: str, place: Place | None, says: str, mend: str) -> Unusable:
    """An error to raise."""
    return Unusable(Finding(name, Severity.ERROR, place, says, mend))


def unknown(bench: Bench, name: str, place: Place, says: str, mend: str) -> Exception:
    """To raise for a name that nothing bears; silent where what bears it could not be read, which has been told."""
    if any(name == unread or name.startswith(f"{unread} ") for unread in bench.source.unread):
        return AlreadyFound(name)
    return unusable("no-such-name", place, says, mend)


def head_and_tail(name: Name) -> tuple[str, str]:
    """`body front.snap` as ("body front", "snap"); without a dot the tail is empty."""
    head, _, tail = name.text.partition(".")
    return head.strip(), tail.strip()
