"""Allowances as written: one for a whole piece, one for each edge, and those of single copies."""

from publisher.frozen import dataclass
from publisher.source.names import native
from publisher.source.values import Native, WrittenAllowances
from publisher.source.yaml_nodes import Mapping, Node
from publisher.terms import Finding, Severity, Written, did_you_mean


@dataclass(frozen=True, slots=True)
class PieceAllowances:
    """What is said below `allowance:` of a piece, and of its copies by name."""

    whole: Native | None = None
    edges: tuple[tuple[Written, Native], ...] = ()
    copies: tuple[tuple[Written, WrittenAllowances], ...] = ()

    def of(self, copy: Written) -> WrittenAllowances | None:
        """What is said of one copy."""
        return next((own for name, own in self.copies if name == copy), None)


def read_allowances(node: Mapping, copies: tuple[Written, ...], found: list[Finding]) -> PieceAllowances:
    """`allowance: 1 cm`; or `all` and edges; or, by the name of a copy, its own, again one or for each edge."""
    given, said = next(((key, value) for key, value in node.items if key == "allowance"), (None, None))
    if given is None or said is None:
        return PieceAllowances()
    if isinstance(said, Written):
        return PieceAllowances(native(said, found))
    if not isinstance(said, Mapping):
        says, mend = "an allowance is one value, or one for each edge", "write 'allowance: 1 cm'"
        found.append(Finding("wrong-kind", Severity.ERROR, given.place, says, mend))
        return PieceAllowances()
    of_copies = [(key, value) for key, value in said.items if key in copies or isinstance(value, Mapping)]
    own = _own([item for item in said.items if item not in of_copies], found)
    return PieceAllowances(own.whole, own.edges, tuple(_of_copies(of_copies, copies, found)))


def _of_copies(
    items: list[tuple[Written, Node]], copies: tuple[Written, ...], found: list[Finding]
) -> list[tuple[Written, WrittenAllowances]]:
    read: list[tuple[Written, WrittenAllowances]] = []
    for copy, value in items:
        if copy not in copies:
            says = f"there is no copy called '{copy}' to give allowances to"
            mend = did_you_mean(copy, copies) or "write the allowance of an edge behind its colon"
            found.append(Finding("no-such-copy", Severity.ERROR, copy.place, says, mend))
        elif isinstance(value, Mapping):
            read.append((copy, _own(list(value.items), found)))
        else:
            read.append((copy, _own([(Written("all", copy.place), value)], found)))
    return read


def _own(items: list[tuple[Written, Node]], found: list[Finding]) -> WrittenAllowances:
    whole: Native | None = None
    edges: list[tuple[Written, Native]] = []
    for key, value in items:
        if not isinstance(value, Written):
            says = f"the allowance of '{key}' is not one value"
            found.append(Finding("wrong-kind", Severity.ERROR, key.place, says, "write it behind the colon"))
        elif key == "all":
            whole = native(value, found)
        else:
            edges.append((key, native(value, found)))
    return WrittenAllowances(whole, tuple(edges))
