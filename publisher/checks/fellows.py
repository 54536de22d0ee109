"""Measures that are reckoned alike but for one: `awl pocket`, `chisel pocket`, `pliers pocket`."""

from collections import Counter, defaultdict
from collections.abc import Iterator

from publisher.checks.values import Proof
from publisher.frozen import dataclass
from publisher.measures import Asked, Literal, Name, Operation
from publisher.terms import Finding, Severity, UnitSystem, Variant, Written

# So many must be alike before one that differs is taken for a slip (a rule of the house).
FELLOWS = 3
ITS = "its own"  # stands for the word that tells a measure from its fellows


@dataclass(frozen=True, slots=True)
class Reckoned:
    """A measure's formula in one unit system, and what of it is the same in its fellows."""

    name: str
    written: Written
    shape: str  # the formula without its numbers
    whole: str


def fellow_reckoned_otherwise(proof: Proof) -> Iterator[Finding]:
    """Of several measures that bear the same last word and are reckoned in the same way, one has another number or sign.

    Why: `awl girth / 4` among five others that are halved is a slip of the finger, and no seam tells of it.

    Fix: reckon it as its fellows are; or, where it is to differ, write it in another way, or as a measure of its own."""
    for units in UnitSystem:
        groups: dict[tuple[str, str], list[Reckoned]] = defaultdict(list)
        for one in _reckoned(proof, units):
            groups[one.name.rpartition(" ")[2], one.shape].append(one)
        variants = tuple(draft.variant for draft in proof.drafts if draft.variant.units is units)
        for fellows in groups.values():
            yield from _odd_one_out(fellows, variants)


def _odd_one_out(fellows: list[Reckoned], variants: tuple[Variant, ...]) -> Iterator[Finding]:
    counts = Counter(one.whole for one in fellows)
    usual, times = counts.most_common(1)[0]
    others = [one for one in fellows if one.whole != usual]
    if times < FELLOWS or len(others) != 1:
        return
    alike = next(one for one in fellows if one.whole == usual)
    yield Finding(
        "fellow-reckoned-otherwise",
        Severity.WARNING,
        others[0].written.place,
        f"'{others[0].name}' is '{others[0].written.strip()}', and {times} others are reckoned as '{alike.name}' is: "
        f"'{alike.written.strip()}'",
        "reckon it as its fellows are; where it is to differ, give what differs a measure of its own",
        variants,
    )


def _reckoned(proof: Proof, units: UnitSystem) -> Iterator[Reckoned]:
    firsts: dict[str, set[str]] = defaultdict(set)
    for measure in proof.source.measures:
        first, _, last = str(measure.name).rpartition(" ")
        firsts[last].add(first)
    for measure in proof.source.measures:
        name = str(measure.name)
        first, _, last = name.rpartition(" ")
        if not first or len(measure.by_size) != 1:
            continue
        native = measure.by_size[0][1]
        written = native.inch if units is UnitSystem.INCH else native.metric
        formula = proof.measures.saying(written)
        if isinstance(formula, Operation):
            shape, whole = (_told(formula, first, exactly, firsts[last]) for exactly in (False, True))
            yield Reckoned(name, written, shape, whole)


def _told(formula: object, first: str, whole: bool, fellows: set[str]) -> str:
    """A formula as text in which a measure's own first words are the same as those of its fellows."""
    match formula:
        case Literal():
            return f"{formula.quantity.amount} {formula.unit}" if whole else "number"
        case Name():
            head, _, tail = formula.text.rpartition(" ")
            own = head == first or (head in fellows and not whole)
            return f"{ITS} {tail}" if own else formula.text
        case Operation():
            left = _told(formula.left, first, whole, fellows) if formula.left is not None else ""
            return f"({left} {formula.sign if whole else '?'} {_told(formula.right, first, whole, fellows)})"
        case Asked():
            return f"{formula.what} of " + " and ".join(_told(one, first, whole, fellows) for one in formula.about)
        case _:
            return repr(formula)
