"""What marks, hems and pleats say of themselves, as trees."""

from collections.abc import Sequence
from dataclasses import replace

from lark import Token, Tree

from publisher.measures.formulas import read_formula, read_name, read_spot
from publisher.measures.grammar import Parsed, parse
from publisher.measures.values import (
    DartSaying,
    EdgeSpot,
    HemSaying,
    MarkSaying,
    PleatSaying,
)
from publisher.terms import Written


def parse_mark(written: Written) -> MarkSaying:
    """What a mark says of itself."""
    mark, *tails = parse(written, "mark").children
    assert isinstance(mark, Tree)
    said = _mark_body(mark, written)
    face, copies = said.face, list(said.copies)
    for tail in tails:
        if isinstance(tail, Token):
            face = _face(tail)
        else:
            copies += [read_name(token, written) for token in tail.children]
    return replace(said, face=face, copies=tuple(copies))


def _face(token: Token) -> str:
    return "right side" if "right" in str(token).split() else "wrong side"


def _mark_body(mark: Parsed, written: Written) -> MarkSaying:
    parts = mark.children
    if mark.data == "derived":
        return MarkSaying("derived", start=read_name(parts[1], written), end=read_name(parts[2], written))
    if mark.data == "carried":
        kind = str(parts[0]).split()[0]
        return MarkSaying(kind, start=read_name(parts[1], written), end=read_name(parts[2], written))
    if mark.data == "stretch":
        along, *ends = (read_name(part, written) for part in parts[1:])
        start, end = ends or (None, None)
        return MarkSaying(str(parts[0]).split()[0], along=along, start=start, end=end)
    if mark.data in ("line_between", "line_beside", "line_across", "line_drawn"):
        return _line_body(mark, " ".join(str(parts[0]).split()), written)
    if mark.data in ("notch", "met", "notch_drawn"):
        return _notch_body(mark, "double notch" if str(parts[0]).startswith("double") else "notch", written)
    return replace(_point_body(parts[1], written), symbol=" ".join(str(parts[0]).split()))


def _notch_body(mark: Parsed, kind: str, written: Written) -> MarkSaying:
    parts = mark.children[1:]
    if mark.data == "met":
        return MarkSaying(kind, start=read_name(parts[0], written), end=read_name(parts[1], written))
    if mark.data == "notch_drawn":
        return MarkSaying(kind, element=_element(parts[0]))
    return MarkSaying(kind, spot=read_spot(parts[0], written))


def _element(token: object) -> str:
    return str(token).split(maxsplit=1)[1]


def _line_body(mark: Parsed, kind: str, written: Written) -> MarkSaying:
    parts = mark.children[1:]
    if mark.data == "line_drawn":
        return MarkSaying(kind, element=_element(parts[0]))
    if mark.data == "line_between":
        return MarkSaying(kind, start=read_name(parts[0], written), end=read_name(parts[1], written))
    if mark.data == "line_beside":
        return MarkSaying(kind, insets=((read_formula(parts[0], written), read_name(parts[1], written)),))
    return MarkSaying(kind, spot=read_spot(parts[0], written))


def _point_body(tree: object, written: Written) -> MarkSaying:
    if isinstance(tree, Token):
        return MarkSaying("point", element=_element(tree))
    assert isinstance(tree, Tree)
    parts = tree.children
    match tree.data:
        case "into":
            return MarkSaying(
                "point", spot=EdgeSpot(read_name(parts[1], written), None, None), into=read_formula(parts[0], written)
            )
        case "insets":
            first, second = ((read_formula(parts[at], written), read_name(parts[at + 1], written)) for at in (0, 2))
            return MarkSaying("point", insets=(first, second))
        case "place":
            return MarkSaying("point", x=read_formula(parts[0], written), y=read_formula(parts[1], written))
        case _:
            return MarkSaying("point", spot=read_spot(tree, written))


def parse_hem(written: Written) -> HemSaying:
    """`2 cm`, `2 cm, turned twice`, `2 cm, turned under 6 mm`, `casing for 1 cm, turned under 6 mm`."""
    casing, twice, depth, under = False, False, None, None
    for part in parse(written, "hem").children:
        if isinstance(part, Token):
            casing, twice = casing or part.type == "CASING_FOR", twice or part.type == "TURNED_TWICE"
        elif depth is None:
            depth = read_formula(part, written)
        else:
            under = read_formula(part, written)
    assert depth is not None
    return HemSaying(depth, casing, twice, under)


def parse_pleat(written: Written) -> PleatSaying:
    """`knife pleat of 1 cm at 10 cm from the left end of bottom edge, towards the left`."""
    kind, depth, spot, *tails = parse(written, "pleat").children
    towards, face = _tails(tails, "right side")
    return PleatSaying(
        " ".join(str(kind).split()), read_formula(depth, written), read_spot(spot, written), towards, face
    )


def parse_dart(written: Written) -> DartSaying:
    """`dart of 2 cm by 9 cm at the middle of waist`, `dart of 3 cm to bust at 8 cm from the top end of side`."""
    _, width, reach, spot, *tails = parse(written, "dart").children
    towards, face = _tails(tails, "wrong side")
    named = read_name(reach, written) if isinstance(reach, Token) else None
    length = None if named is not None else read_formula(reach, written)
    return DartSaying(read_formula(width, written), length, named, read_spot(spot, written), towards, face)


def _tails(tails: Sequence[object], face: str) -> tuple[str | None, str]:
    """Which way something is pressed, where that is said, and on which face it is marked."""
    towards = None
    for tail in tails:
        assert isinstance(tail, Token)
        if tail.type == "FACE":
            face = _face(tail)
        else:
            towards = str(tail).split()[-1]
    return towards, face
