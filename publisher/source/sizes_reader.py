"""What a pattern says of its sizes: their names, and how a reader chooses one."""

from collections.abc import Iterator

from publisher.source import shapes, yaml_nodes
from publisher.source.fitting import fit
from publisher.source.names import native
from publisher.source.values import WrittenSizeGuide
from publisher.terms import Finding, Severity, Written


def check_sizes(sizes: tuple[Written, ...]) -> Iterator[Finding]:
    """A finding for each size that is listed twice."""
    for at, size in enumerate(sizes):
        if size in sizes[:at]:
            says = f"the size '{size}' is listed twice"
            yield Finding("doubled-key", Severity.ERROR, size.place, says, "take one of them out")


def read_size_guide(root: yaml_nodes.Mapping, found: list[Finding]) -> WrittenSizeGuide | None:
    """The size guide; None where there is none, or after telling what it lacks."""
    entry = next(((key, node) for key, node in root.items if key == "size guide"), None)
    if entry is None:
        return None
    key, node = entry
    said = fit(shapes.SizeGuide, node, key, found)
    if said is None:
        return None
    ease = native(said.ease, found) if said.ease is not None else None
    body, finished = native(said.body, found), native(said.finished, found)
    return WrittenSizeGuide(said.measure, said.how, body, ease, finished, said.between, key.place)
