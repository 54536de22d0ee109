"""From the bytes of a pattern folder to a Source, every value with its place, every mistake a finding."""

import re
from collections.abc import Callable, Mapping
from typing import TypeVar

from publisher.source import shapes, yaml_nodes
from publisher.source.fitting import fit
from publisher.source.names import check_names, native
from publisher.source.pieces_reader import read_piece
from publisher.source.quotes import read_quotes
from publisher.source.sizes_reader import check_sizes, read_size_guide
from publisher.source.steps_reader import read_steps
from publisher.source.swallowed import swallowed
from publisher.source.values import (
    Facts,
    Native,
    Source,
    WrittenBinding,
    WrittenMaterial,
    WrittenMeasure,
    WrittenNotion,
    WrittenPlacement,
    WrittenSeam,
    WrittenSection,
    WrittenSizeGuide,
)
from publisher.terms import Finding, Place, Severity, Written

LARGEST = 1_000_000  # bytes of pattern.yaml or steps.md
PATTERN, STEPS = "pattern.yaml", "steps.md"
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
    said = fit(shapes.Pattern, root, None, found)
    if said is None:
        return None, tuple(found)
    kept = tuple(
        sorted((file.removeprefix("kept/"), content) for file, content in files.items() if file.startswith("kept/"))
    )
    texts = tuple((file, text) for file, text in ((PATTERN, pattern), (STEPS, steps)) if text is not None)
    return _source(name, root, said, sections, texts, kept, found), tuple(found)


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
                f"{file} has {len(content):,} bytes, more than {LARGEST:,}",
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
    sections: tuple[WrittenSection, ...],
    texts: tuple[tuple[str, str], ...],
    kept: tuple[tuple[str, bytes], ...],
    found: list[Finding],
) -> Source:
    sizes = tuple(said.sizes)
    found.extend(check_sizes(sizes))
    unread: list[str] = []

    def each(key: str, read: Callable[[Written, yaml_nodes.Node, list[Finding]], Read | None]) -> tuple[Read, ...]:
        group = root.get(key)
        items = group.items if isinstance(group, yaml_nodes.Mapping) else ()
        readings = [(name, read(name, node, found)) for name, node in items]
        unread.extend(str(name) for name, one in readings if one is None)
        return tuple(one for _, one in readings if one is not None)

    finished = tuple((side, native(value, found)) for side, value in said.finished_size.items())
    return Source(
        name=name,
        facts=_facts(said, read_size_guide(root, found), found),
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
        unread=tuple(unread),
    )


def _facts(said: shapes.Pattern, guide: WrittenSizeGuide | None, found: list[Finding]) -> Facts:
    if said.date is not None and not re.fullmatch(r"\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])", said.date):
        found.append(
            _error("bad-date", said.date.place, f"'{said.date}' is no date", "write year, month and day: 2026-05-31")
        )
    if said.video is not None and not re.fullmatch(r"https?://[^\s<>\"]+", said.video):
        found.append(
            _error(
                "bad-link", said.video.place, f"'{said.video}' is no address on the web", "copy it whole, with https://"
            )
        )
    if said.inch_rounding is not None and said.inch_rounding not in ("1/8", "1/16"):
        found.append(
            _error(
                "bad-rounding",
                said.inch_rounding.place,
                f"lengths are rounded to 1/8 or 1/16 in, not '{said.inch_rounding}'",
                "write 1/8 or 1/16",
            )
        )
    names = (
        "title",
        "maker",
        "revision",
        "date",
        "level",
        "cover_drawing",
        "about",
        "video",
        "terms",
        "finishing",
        "care",
        "tested",
        "inch_rounding",
    )
    given = {name: getattr(said, name) for name in names}
    language = said.language if said.language is not None else Written("en", said.title.place, exact=False)
    facts = Facts(**given, language=language, tools=tuple(said.tools), changes=tuple(said.changes), size_guide=guide)
    for text in facts.prose:
        found.extend(read_quotes(text)[1])
    return facts


def _measure(
    name: Written, node: yaml_nodes.Node, sizes: tuple[Written, ...], found: list[Finding]
) -> WrittenMeasure | None:
    found.extend(check_names([name]))
    if isinstance(node, Written):
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
    return WrittenMaterial(key, said.kind, said.name, sold, said.shrinkage, said.note)


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
    return WrittenSeam(name, (said.join[0], said.join[1]), ease, leave_open)


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
