"""Pieces as written: exactly one shape each, with allowances, copies and marks."""

from publisher.source import shapes
from publisher.source.allowances_reader import read_allowances
from publisher.source.fitting import fit
from publisher.source.names import check_names, native
from publisher.source.values import (
    Native,
    WrittenCopy,
    WrittenCorner,
    WrittenDrawing,
    WrittenForm,
    WrittenHalf,
    WrittenMark,
    WrittenOutline,
    WrittenPiece,
    WrittenRectangle,
    WrittenStrip,
)
from publisher.source.yaml_nodes import Mapping, Node, is_nothing
from publisher.terms import Finding, Severity, Written, did_you_mean, nearest_name

DRAWN_AS = ("finished line", "cut line")
SHAPES = ("outline", "rectangle", "strip")
Pairs = tuple[tuple[Written, Native], ...]


FORMS: dict[str, type[shapes.Circle | shapes.Ellipse | shapes.Trapezium | shapes.RingSector]] = {
    "circle": shapes.Circle,
    "ellipse": shapes.Ellipse,
    "trapezium": shapes.Trapezium,
    "ring sector": shapes.RingSector,
}


def read_piece(name: Written, node: Node, found: list[Finding]) -> WrittenPiece | None:
    """One piece, or None after telling what is wrong with it."""
    found.extend(check_names([name]))
    piece = fit(shapes.Piece, node, name, found)
    if piece is None or not isinstance(node, Mapping):
        return None
    given = [shape for shape in SHAPES if node.get(shape) is not None]
    if len(given) != 1:
        says = f"'{name}' has no shape" if not given else f"'{name}' has {len(given)} shapes: {', '.join(given)}"
        mend = "give it one of: outline (with a template), rectangle (cut with a ruler), strip"
        found.append(Finding("one-shape", Severity.ERROR, name.place, says, mend))
        return None
    shape = _shape(node, piece, found)
    if shape is None:
        return None
    allowances = read_allowances(node, tuple(piece.copies), found)
    found.extend(check_names([*piece.copies, *piece.marks, *piece.pleats, *piece.darts, *piece.joint_edges]))
    if not piece.copies:
        found.append(
            Finding(
                "no-copies", Severity.ERROR, name.place, f"'{name}' is cut from nothing", "add a copy below 'copies:'"
            )
        )
    return WrittenPiece(
        name=name,
        drawn=given == ["outline"],
        rectangle=shape if isinstance(shape, WrittenRectangle) else None,
        outline=shape if isinstance(shape, WrittenOutline) else None,
        strip=shape if isinstance(shape, WrittenStrip) else None,
        drawing=shape if isinstance(shape, WrittenDrawing) else None,
        form=shape if isinstance(shape, WrittenForm) else None,
        joint_edges=tuple((joint, tuple(edges)) for joint, edges in piece.joint_edges.items()),
        allowance=allowances.whole,
        edge_allowances=allowances.edges,
        grain=piece.grain,
        copies=tuple(WrittenCopy(copy, says, allowances.of(copy)) for copy, says in piece.copies.items()),
        marks=tuple(WrittenMark(mark, says) for mark, says in piece.marks.items()),
        note=piece.note,
        holds=native(piece.holds, found) if piece.holds is not None else None,
        hems=tuple(piece.hems.items()),
        corners=tuple(piece.corners.items()),
        pleats=tuple(WrittenMark(pleat, says) for pleat, says in piece.pleats.items()),
        darts=tuple(WrittenMark(dart, says) for dart, says in piece.darts.items()),
    )


def _shape(
    node: Mapping, piece: shapes.Piece, found: list[Finding]
) -> WrittenRectangle | WrittenOutline | WrittenStrip | WrittenDrawing | WrittenForm | None:
    key, inner = next((key, inner) for key, inner in node.items if key in SHAPES)
    if key == "rectangle":
        whole = piece.rectangle  # None: it has been told as wrong
        return WrittenRectangle(native(whole, found), (), ()) if whole is not None else None
    if not isinstance(inner, Mapping):
        _no_parts(key, inner, found)
        return None
    if key == "strip":
        return _strip(key, inner, found)
    if inner.get("rectangle") is not None:
        return _rectangle(key, inner, found)
    if inner.get("svg") is not None:
        return _drawing(key, inner, found)
    form = next((kind for kind in FORMS if inner.get(kind) is not None), None)
    if form is not None:
        return _form(form, key, inner, found)
    misspelled = _misspelled_kind(inner)
    if misspelled is not None:
        found.append(misspelled)
        return None
    return _outline(key, inner, found)


def _misspelled_kind(node: Mapping) -> Finding | None:
    """What is told where the word for the kind of outline is misspelled: nothing else of it can be read then."""
    if node.get("points") is not None:
        return None
    kinds = ("rectangle", "points", "svg", *FORMS)
    known = {field.alias or name for name, field in shapes.Outline.model_fields.items()}
    for key, _ in node.items:
        if key not in known and nearest_name(key, kinds) is not None:
            says = f"no '{key}' can stand here"
            return Finding("unknown-key", Severity.ERROR, key.place, says, did_you_mean(key, kinds))
    return None


def _no_parts(key: Written, node: Node, found: list[Finding]) -> None:
    if not is_nothing(node):  # an empty value has been told as one
        says, mend = f"'{key}' says nothing of its shape", "write its parts below it, indented"
        found.append(Finding("wrong-kind", Severity.ERROR, key.place, says, mend))


def _form(kind: str, key: Written, node: Mapping, found: list[Finding]) -> WrittenForm | None:
    said = fit(FORMS[kind], node, key, found)
    if said is None:
        return None
    found.extend(check_names(said.edges.values()))
    sizes = _sizes(said, kind, node, found)
    if not sizes:
        return None
    return WrittenForm(kind, tuple(native(size, found) for size in sizes), tuple(said.edges.items()))


def _sizes(said: shapes.Shape, kind: str, node: Mapping, found: list[Finding]) -> tuple[Written, ...]:
    """The sizes of a form in their order; none where they could not be read, which has been told."""
    if isinstance(said, shapes.Circle):
        return (said.circle,)
    if isinstance(said, shapes.Ellipse):
        return (said.ellipse,)
    word, inner = next((word, inner) for word, inner in node.items if word == kind)
    if not isinstance(inner, Mapping):
        _no_parts(word, inner, found)
        return ()
    if kind == "trapezium":
        level = fit(shapes.TrapeziumSizes, inner, word, found)
        return (level.bottom, level.top, level.height) if level else ()
    ring = fit(shapes.RingSectorSizes, inner, word, found)
    return (ring.inner_radius, ring.outer_radius, ring.angle) if ring else ()


def _drawing(key: Written, node: Mapping, found: list[Finding]) -> WrittenDrawing | None:
    said = fit(shapes.DrawnElsewhere, node, key, found)
    if said is None:
        return None
    found.extend(check_names(said.edges.values()))
    if said.drawn_as is not None and said.drawn_as not in DRAWN_AS:
        says = f"an outline is drawn as its {DRAWN_AS[0]} or its {DRAWN_AS[1]}, not as '{said.drawn_as}'"
        mend = did_you_mean(said.drawn_as, DRAWN_AS) or f"write one of: {', '.join(DRAWN_AS)}"
        found.append(Finding("wrong-kind", Severity.ERROR, said.drawn_as.place, says, mend))
    return WrittenDrawing(said.svg, said.element, tuple(said.edges.items()), said.drawn_as == "cut line")


def _natives(pairs: dict[Written, Written], found: list[Finding]) -> Pairs:
    return tuple((key, native(value, found)) for key, value in pairs.items())


def _rectangle(key: Written, node: Mapping, found: list[Finding]) -> WrittenRectangle | None:
    said = fit(shapes.Rectangle, node, key, found)
    if said is None:
        return None
    found.extend(check_names(said.edges.values(), keys=False))
    return WrittenRectangle(
        native(said.rectangle, found), tuple(said.edges.items()), _corners(said, found), _half(said, found)
    )


def _outline(key: Written, node: Mapping, found: list[Finding]) -> WrittenOutline | None:
    said = fit(shapes.Outline, node, key, found)
    if said is None:
        return None
    found.extend(check_names([*said.points, *said.edges]))
    edges, corners = tuple(said.edges.items()), _corners(said, found)
    return WrittenOutline(_natives(said.points, found), edges, corners, _half(said, found))


def _corners(said: shapes.Rectangle | shapes.Outline, found: list[Finding]) -> tuple[WrittenCorner, ...]:
    shaped = (("round", said.round), ("cut", said.cut), ("cut out", said.cut_out))
    return tuple(
        WrittenCorner(shape, which, native(size, found)) for shape, sizes in shaped for which, size in sizes.items()
    )


def _half(said: shapes.Rectangle | shapes.Outline, found: list[Finding]) -> WrittenHalf | None:
    mirrored, on_fold = said.mirrored_along, said.on_the_fold_along
    if mirrored is not None and on_fold is not None:
        says = "an outline is mirrored into a whole, or lies on the fold, not both"
        found.append(Finding("one-half", Severity.ERROR, on_fold.place, says, "take one of the two lines out"))
    along = mirrored if mirrored is not None else on_fold
    return None if along is None else WrittenHalf(along, on_fold=mirrored is None)


def _strip(key: Written, node: Mapping, found: list[Finding]) -> WrittenStrip | None:
    said = fit(shapes.Strip, node, key, found)
    if said is None:
        return None
    return WrittenStrip(
        finished_width=native(said.finished_width, found),
        length=native(said.length, found),
        fold=said.fold,
        ends=native(said.ends, found) if said.ends is not None else None,
        joins=said.joins,
        thickness=native(said.thickness, found) if said.thickness is not None else None,
        place=key.place,
    )
