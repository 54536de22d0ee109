"""A formula worked out exactly, its names and questions answered by whoever knows them."""

from fractions import Fraction
from typing import Protocol

from publisher.measures.values import Asked, Formula, Literal, Name, Operation, Solved
from publisher.terms import (
    Dimension,
    DimensionError,
    Finding,
    Place,
    Quantity,
    Severity,
    UnitSystem,
    Unusable,
    convert_length,
)

INCH_UNITS = ("in", "inch", "inches", '"', "″", "ft", "yd", "yard", "yards")
# Beyond this a number is no longer a measure of anything sewn, and its fractions would only eat time.
GREATEST = Fraction(10) ** 9


class Lookup(Protocol):
    """Who answers what a formula asks."""

    def named(self, name: Name) -> Quantity:
        """The quantity of a name. Raises Unusable."""

    def asked(self, asked: Asked) -> Quantity:
        """What geometry answers. Raises Unusable."""

    def solved(self, solved: Solved) -> Quantity:
        """The length that makes both sides of it equal. Raises Unusable."""

    def literal(self, literal: Literal) -> Quantity:
        """A literal in the variant's own units."""


def native_literal(literal: Literal, units: UnitSystem, inch_step: Fraction) -> Quantity:
    """The literal, converted and rounded when its unit belongs to the other system."""
    if literal.quantity.dimension is not Dimension.LENGTH:
        return literal.quantity
    native = UnitSystem.INCH if literal.unit in INCH_UNITS else UnitSystem.METRIC
    return literal.quantity if native is units else convert_length(literal.quantity, units, inch_step)


def evaluate(formula: Formula, lookup: Lookup) -> Quantity:
    """The exact quantity. Raises Unusable where dimensions do not go together, at the guilty sign."""
    match formula:
        case Literal():
            return lookup.literal(formula)
        case Name():
            return lookup.named(formula)
        case Asked(what="larger" | "smaller"):
            return _which(formula, [evaluate(about, lookup) for about in formula.about])
        case Asked():
            return lookup.asked(formula)
        case Solved():
            return lookup.solved(formula)
        case Operation():
            return _chained(formula, lookup)


def _chained(formula: Operation, lookup: Lookup) -> Quantity:
    """A row of operations from its left end, without a call for each: a formula may have hundreds."""
    row: list[Operation] = []
    first: Formula | None = formula
    while isinstance(first, Operation):
        row.append(first)
        first = first.left
    worked = None if first is None else evaluate(first, lookup)
    for operation in reversed(row):
        worked = _operate(operation, worked, evaluate(operation.right, lookup))
    assert worked is not None
    return worked


def _which(asked: Asked, quantities: list[Quantity]) -> Quantity:
    try:
        return max(quantities) if asked.what == "larger" else min(quantities)
    except DimensionError as reason:
        raise _unusable(asked.place, str(reason)) from None


def _operate(operation: Operation, left: Quantity | None, right: Quantity) -> Quantity:
    if left is None:
        return -right
    try:
        worked = _worked(operation.sign, left, right)
    except DimensionError as reason:
        raise _unusable(operation.place, str(reason)) from None
    except ZeroDivisionError:
        raise Unusable(
            Finding(
                "divides-by-nought",
                Severity.ERROR,
                operation.place,
                "this divides by nought",
                "look at what stands behind the sign",
            )
        ) from None
    if abs(worked.amount) > GREATEST or worked.amount.denominator > GREATEST**2:
        raise Unusable(
            Finding(
                "too-large",
                Severity.ERROR,
                operation.place,
                "this grows beyond anything that is sewn",
                "look at the numbers on both sides of the sign",
            )
        )
    return worked


def _worked(sign: str, left: Quantity, right: Quantity) -> Quantity:
    match sign:
        case "+":
            return left + right
        case "-":
            return left - right
        case "*":
            return left * right
        case _:
            return left / right


def _unusable(place: Place, says: str) -> Unusable:
    mend = "look at the units on both sides of the sign: 10 cm + 5 mm, 2 * depth"
    return Unusable(Finding("wrong-dimension", Severity.ERROR, place, says, mend))
