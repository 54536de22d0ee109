"""From the bytes of a pattern folder to a Source, every value with its place, every mistake a finding."""

import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any, TypeVar

from publisher.source import shapes, yaml_nodes
from publisher.source.facts_reader import read_facts
from publisher.source.fitting import fit, fit_whole
from publisher.source.names import check_names, native
from publisher.source.pieces_reader import read_piece
from publisher.source.sizes_reader import check_sizes, read_size_guide
from publisher.source.steps_reader import read_steps
from publisher.source.swallowed import swallowed
from publisher.source.values import (
    Native,
    Source,
    WrittenBinding,
    WrittenMaterial,
    WrittenMeasure,
    WrittenNotion,
    WrittenPlacement,
    WrittenSeam,
    WrittenSection,
)
from publisher.terms import Finding, Place, Severity, Written, nearest_name

LARGEST = 1_000_000  # bytes of pattern.yaml or steps.md
PATTERN, STEPS = "pattern.yaml", "steps.md"
TOP = Place(PATTERN, 1, 1, 1, 2)
# Keys that others are named from, or that pieces rely on.
GROUPS = ("sizes", "allowance", "measures", "materials", "notions", "pieces", "seams", "placements", "bindings")
Read = TypeVar("Read")


def read_source(name: str, files: Mapping[str, bytes]) -> tuple[Source | None, tuple[Finding, ...]]:
    """The source of the pattern `name`, and what was found; no source where pattern.yaml cannot be read at all."""
    found: list[Finding] = []
    pattern, steps = (_text(file, files, found) for file in (PATTERN, STEPS))
    sections, unread = read_steps(steps, STEPS) if steps is not None else ((), ())
    if pattern is None:
        return None, (*found, *unread)
    root, problems = yaml_nodes.read_yaml(pattern, PATTERN)
    found.extend((*problems, *unread))
    if not isinstance(root, yaml_nodes.Mapping):
        if not problems:
            found.append(
                _error(
                    "wrong-kind",
                    Place(PATTERN, 1, 1, 1, 2),
                    "the file is no list of names with values",
                    "begin with a line 'title: …'",
                )
            )
        return None, tuple(found)
    found.extend(swallowed(root, pattern))
    said, wrong = fit_whole(shapes.Pattern, root, _stand_ins(), found)
    kept = tuple(
        sorted((file.removeprefix("kept/"), content) for file, content in files.items() if file.startswith("kept/"))
    )
    drawings = tuple(
        sorted((file, content) for file, content in files.items() if re.fullmatch(r"images/[^/]+\.svg", file, re.I))
    )
    texts = tuple((file, text) for file, text in ((PATTERN, pattern), (STEPS, steps)) if text is not None)
    texts += tuple((file, content.decode("utf-8", "replace")) for file, content in drawings)
    source = _source(name, root, said, wrong, sections, texts, kept, drawings, found)
    return replace(source, pictures=_pictures(files)), tuple(found)


def _pictures(files: Mapping[str, bytes]) -> tuple[tuple[str, bytes], ...]:
    named = (one for one in files.items() if re.fullmatch(r"images/[^/]+\.(jpe?g|png)", one[0], re.I))
    return tuple(sorted(named))


def _text(file: str, files: Mapping[str, bytes], found: list[Finding]) -> str | None:
    place = Place(file, 1, 1, 1, 2)
    content = files.get(file)
    if content is None:
        found.append(
            _error(
                "missing-file",
                place,
                f"the pattern folder has no {file}",
                "write one; 'publisher new' shows how it looks",
            )
        )
        return None
    if len(content) > LARGEST:
        found.append(
            _error(
                "too-much",
                place,
                f"{file} has more than {LARGEST:,} bytes",
                "a pattern is smaller than this",
            )
        )
        return None
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as reason:
        line = content[: reason.start].count(b"\n") + 1
        found.append(
            _error(
                "not-utf8", Place(file, line, 1, line, 2), "this line is not written in UTF-8", "save the file as UTF-8"
            )
        )
        return None


def _source(
    name: str,
    root: yaml_nodes.Mapping,
    said: shapes.Pattern,
    wrong: frozenset[str],
    sections: tuple[WrittenSection, ...],
    texts: tuple[tuple[str, str], ...],
    kept: tuple[tuple[str, bytes], ...],
    drawings: tuple[tuple[str, bytes], ...],
    found: list[Finding],
) -> Source:
    sizes = tuple(filter(None, said.sizes)) if "sizes" not in wrong else _sizes_of_measures(root)
    found.extend(check_sizes(sizes))
    unread: list[str] = []
    meant = {nearest_name(key, GROUPS) for key in wrong}

    def each(key: str, read: Callable[[Written, yaml_nodes.Node, list[Finding]], Read | None]) -> tuple[Read, ...]:
        group = root.get(key)
        items = group.items if isinstance(group, yaml_nodes.Mapping) else ()
        readings = [(name, read(name, node, found)) for name, node in items]
        unread.extend(str(name) for name, one in readings if one is None)
        return tuple(one for _, one in readings if one is not None)

    finished = tuple((side, native(value, found)) for side, value in said.finished_size.items())
    return Source(
        name=name,
        facts=read_facts(said, read_size_guide(root, found), found),
        sizes=sizes,
        measures=each("measures", lambda name, node, told: _measure(name, node, sizes, told)),
        allowance=native(said.allowance, found) if said.allowance is not None else None,
        finished_size=finished,
        materials=each("materials", _material),
        notions=each("notions", _notion),
        pieces=each("pieces", read_piece),
        seams=each("seams", _seam),
        placements=each("placements", _placement),
        bindings=each("bindings", _binding),
        sections=sections,
        texts=texts,
        kept=kept,
        drawings=drawings,
        allow=tuple(said.allow.items()),
        unread=tuple(unread),
        unread_groups=tuple(key for key in GROUPS if key in wrong or (root.get(key) is None and key in meant)),
    )


def _stand_ins() -> dict[Written, Any]:
    """What stands in for keys that no pattern goes without, so that a pattern that lacks them is read none the less."""
    nothing: dict[str, Any] = {"title": _nothing(), "revision": _nothing(), "materials": {}, "pieces": {}}
    return {Written(key, TOP): value for key, value in nothing.items()}


def _nothing() -> Written:
    return Written("", Place(PATTERN, 1, 1, 1, 1), exact=False)


def _sizes_of_measures(root: yaml_nodes.Mapping) -> tuple[Written, ...]:
    """The sizes that measures speak of, where the list of them is wrong, which has been told."""
    group = root.get("measures")
    measures = [node for _, node in group.items] if isinstance(group, yaml_nodes.Mapping) else []
    by_size = [node for node in measures if isinstance(node, yaml_nodes.Mapping)]
    return tuple(dict.fromkeys(size for node in by_size for size, _ in node.items))


def _measure(
    name: Written, node: yaml_nodes.Node, sizes: tuple[Written, ...], found: list[Finding]
) -> WrittenMeasure | None:
    found.extend(check_names([name]))
    if isinstance(node, Written):
        if not node and not yaml_nodes.is_nothing(node):
            found.append(_error("no-value", node.place, f"'{name}' has no value", "write one, or take the line out"))
        return WrittenMeasure(name, ((None, native(node, found)),)) if node else None
    if not isinstance(node, yaml_nodes.Mapping):
        found.append(
            _error(
                "wrong-kind",
                name.place,
                f"'{name}' is a list; a measure is one value, or one for each size",
                "write it behind the colon",
            )
        )
        return None
    by_size: list[tuple[str | None, Native]] = []
    for size, value in node.items:
        if size not in sizes:
            listed = ", ".join(sizes) or "none"
            found.append(
                _error(
                    "unknown-size",
                    size.place,
                    f"'{size}' is no size of this pattern (sizes: {listed})",
                    "list the sizes at the top: sizes:",
                )
            )
        elif not isinstance(value, Written):
            found.append(
                _error(
                    "wrong-kind", size.place, f"'{name}' for size {size} is not one value", "write it behind the colon"
                )
            )
        else:
            by_size.append((str(size), native(value, found)))
    return WrittenMeasure(name, tuple(by_size))


def _material(key: Written, node: yaml_nodes.Node, found: list[Finding]) -> WrittenMaterial | None:
    found.extend(check_names([key]))
    said = fit(shapes.Material, node, key, found)
    if said is None:
        return None
    sold = tuple(native(way, found) for way in said.sold)
    allowance = native(said.allowance, found) if said.allowance is not None else None
    thickness = native(said.thickness, found) if said.thickness is not None else None
    along, across = (native(one, found) if one is not None else None for one in (said.repeat, said.repeat_across))
    material = WrittenMaterial(
        key,
        said.kind,
        said.name,
        sold,
        said.shrinkage,
        said.note,
        allowance,
        said.nap,
        thickness,
        said.heat,
        said.grain,
    )
    return replace(material, repeat=along, repeat_across=across, weight=said.weight)


def _notion(key: Written, node: yaml_nodes.Node, found: list[Finding]) -> WrittenNotion | None:
    """A notion's own keys are its words; every other key is one of its sizes."""
    found.extend(check_names([key]))
    if not isinstance(node, yaml_nodes.Mapping):
        found.append(
            _error(
                "wrong-kind", key.place, f"the notion '{key}' is one text", "write its name below it, indented: name: …"
            )
        )
        return None
    values: dict[str, Written] = {}
    for name, value in node.items:
        if isinstance(value, Written):
            values[name] = value
        else:
            found.append(
                _error(
                    "wrong-kind",
                    name.place,
                    f"'{name}' of the notion '{key}' is not one value",
                    "write it behind the colon",
                )
            )
    if "name" not in values:
        if node.get("name") is None:
            found.append(_error("missing-key", key.place, f"'{key}' lacks 'name'", "add a line 'name: …'"))
        return None
    own = ("kind", "name", "count", "note")
    sizes = [(name, native(values[name], found)) for name, _ in node.items if name not in own and name in values]
    found.extend(check_names([name for name, _ in sizes]))
    count = native(values["count"], found) if "count" in values else None
    return WrittenNotion(key, values.get("kind"), values["name"], count, tuple(sizes), values.get("note"))


def _seam(name: Written, node: yaml_nodes.Node, found: list[Finding]) -> WrittenSeam | None:
    found.extend(check_names([name]))
    said = fit(shapes.Seam, node, name, found)
    if said is None:
        return None
    ease, leave_open = (native(one, found) if one is not None else None for one in (said.ease, said.leave_open))
    if said.allowances is not None and said.allowances != "differ":
        says = f"of the allowances of a seam it can be said that they differ, not '{said.allowances}'"
        found.append(_error("wrong-kind", said.allowances.place, says, "write 'allowances: differ', or take it out"))
    return WrittenSeam(name, (said.join[0], said.join[1]), ease, leave_open, said.allowances is not None, said.open_in)


def _placement(name: Written, node: yaml_nodes.Node, found: list[Finding]) -> WrittenPlacement | None:
    found.extend(check_names([name]))
    said = fit(shapes.Placement, node, name, found)
    if said is None:
        return None
    return WrittenPlacement(name, said.place, said.on, tuple(said.matching), said.face)


def _binding(name: Written, node: yaml_nodes.Node, found: list[Finding]) -> WrittenBinding | None:
    found.extend(check_names([name]))
    said = fit(shapes.Binding, node, name, found)
    if said is None:
        return None
    overlap = native(said.overlap, found) if said.overlap is not None else None
    return WrittenBinding(name, said.strip, tuple(said.binds), overlap)


def _error(name: str, place: Place, says: str, mend: str) -> Finding:
    return Finding(name, Severity.ERROR, place, says, mend)
