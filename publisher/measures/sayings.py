"""Texts of the expression language as trees: points, edges, seams' sides, copies, widths."""

import re
from fractions import Fraction

from lark import Token, Tree

from publisher.measures.formulas import parse_formula, read_formula, read_name, read_spot
from publisher.measures.grammar import Parsed, parse, unreadable
from publisher.measures.values import (
    ArcSaying,
    CopySaying,
    CornerSaying,
    CurveSaying,
    HeldSaying,
    LineSaying,
    Matching,
    MaterialWidth,
    Name,
    Pair,
    PointSaying,
)
from publisher.terms import Written, did_you_mean, read_length

LONGEST_WIDTH = 80  # signs


def parse_pair(written: Written) -> Pair:
    """`A by B`: the sides of a rectangle."""
    first, second = parse(written, "rectangle").children
    return Pair(read_formula(first, written), read_formula(second, written))


def parse_held(written: Written) -> HeldSaying:
    """`A by B by C`: width, height and thickness of a thing; without the last it is thin."""
    sides = [read_formula(side, written) if side is not None else None for side in parse(written, "held").children]
    width, height, thickness = sides
    assert width is not None
    assert height is not None
    return HeldSaying(width, height, thickness)


def parse_point(written: Written) -> Pair | PointSaying:
    """`X, Y`, or where a point lies by others: `4 cm to the right of A`, `halfway from A to B`, …"""
    tree = parse(written, "point")
    parts = tree.children
    match tree.data:
        case "coordinates":
            return Pair(read_formula(parts[0], written), read_formula(parts[1], written))
        case "on_edge":
            return PointSaying("on edge", spot=read_spot(parts[0], written))
        case "square":
            amount, way, edge, spot = parts
            return PointSaying(
                "square",
                (read_name(edge, written),),
                (read_formula(amount, written),),
                (str(way).split()[-1],),
                read_spot(spot, written),
            )
    kinds = {"beside": "beside", "polar": "polar", "between": "between", "meeting": "meeting"}
    names = tuple(read_name(part, written) for part in parts if isinstance(part, Token) and part.type == "NAME")
    ways = tuple(str(part).split()[-1] for part in parts if isinstance(part, Token) and part.type == "WAY")
    amounts = tuple(read_formula(part, written) for part in parts if isinstance(part, Tree))
    return PointSaying(kinds[str(tree.data)], names, amounts, ways)


def parse_edge(written: Written) -> LineSaying | ArcSaying | CurveSaying:
    """`line from A to B`, `arc from A to B with radius R`, `smooth curve from A to D by B and C`."""
    tree = parse(written, "edge").children[0]
    assert isinstance(tree, Tree)
    if tree.data == "curve":
        return _curve(tree, written)
    start, end = (read_name(part, written) for part in tree.children[:2])
    if tree.data == "arc_about":
        return ArcSaying(start, end, None, None, False, centre=read_name(tree.children[2], written))
    if tree.data == "arc_by":
        return ArcSaying(start, end, None, None, False, by=read_name(tree.children[2], written))
    if tree.data == "arc_tangent":
        return ArcSaying(start, end, None, None, False, tangent=True)
    if tree.data == "line":
        return LineSaying(start, end)
    kind, size, *inwards = tree.children[2:]
    formula = read_formula(size, written)
    by_radius = str(kind) == "radius"
    return ArcSaying(start, end, formula if by_radius else None, None if by_radius else formula, bool(inwards))


def _curve(tree: Parsed, written: Written) -> CurveSaying:
    kind, first, last, *others = tree.children
    by: list[Name] = []
    directions: dict[str, Name] = {}
    asked = None
    for part in others:
        assert isinstance(part, Token)
        if part.type != "NAME":
            asked = part.type
        elif asked is None:
            by.append(read_name(part, written))
        else:
            directions[asked] = read_name(part, written)
    start, end = read_name(first, written), read_name(last, written)
    smooth = str(kind).startswith("smooth")
    if not smooth and (len(by) != 2 or directions):
        raise unreadable(
            written,
            0,
            len(written),
            f"a curve has two handles, and {len(by)} {'is' if len(by) == 1 else 'are'} named",
            "write 'curve from A to B by C and D', or 'smooth curve' for one that passes the points",
        )
    return CurveSaying(start, end, tuple(by), smooth, directions.get("LEAVING_TO"), directions.get("ARRIVING_FROM"))


def parse_side(written: Written) -> tuple[Name, ...]:
    """`A and B`: the edges of one side of a seam."""
    return tuple(read_name(token, written) for token in parse(written, "side").children)


def parse_matching(written: Written) -> Matching:
    """`A` or `A to B`."""
    names = [read_name(token, written) for token in parse(written, "matching").children]
    return Matching(names[0], names[-1])


def parse_name(written: Written) -> Name:
    """One name."""
    names = parse_side(written)
    if len(names) > 1:
        raise unreadable(written, 0, len(written), "one name is expected, not several", "write a line for each")
    return names[0]


def parse_copy(written: Written) -> CopySaying:
    """`canvas, cut 2, to the finished line, alike`, `canvas, rough by 2 cm`."""
    material, *options = written.split_at(",")
    name = parse_name(material)
    count, to_finished_line, alike, rough, turned_over = 1, False, False, None, None
    for option in options:
        cut = re.fullmatch(r"cut +(\d{1,3})", option)
        if cut and int(cut[1]) > 0:
            count = int(cut[1])
        elif option == "to the finished line":
            to_finished_line = True
        elif option == "alike":
            alike = True
        elif option in ("turned over", "not turned over"):
            turned_over = option == "turned over"
        elif option.startswith("rough by "):
            rough = parse_formula(trimmed(option, 8, option[8:]))
        else:
            known = ("cut 2", "to the finished line", "alike", "turned over", "not turned over", "rough by 2 cm")
            raise unreadable(option, 0, len(option), "this says nothing about a copy", did_you_mean(option, known))
    return CopySaying(name, count, to_finished_line, alike, rough, turned_over)


def parse_corner(written: Written) -> CornerSaying:
    """`bevelled`, or `squared to side seam`."""
    if written == "bevelled":
        return CornerSaying(None)
    if written.startswith("squared to "):
        return CornerSaying(parse_name(trimmed(written, 10, written[10:])))
    mend = did_you_mean(written, ("bevelled",)) or "write 'bevelled', or 'squared to' and the edge whose line runs on"
    raise unreadable(written, 0, len(written), "this says nothing about a corner", mend)


def trimmed(written: Written, start: int, text: str) -> Written:
    """Part of a text without the spaces around it, with its place."""
    lead = len(text) - len(text.lstrip())
    return written.part(start + lead, start + lead + len(text.strip()))


def parse_width(written: Written) -> MaterialWidth:
    """`42 in wide`, or the name of a precut."""
    _refuse_long(written)
    wide = re.fullmatch(r"(?P<length>\S.*?) +wide", str(written).strip())
    if wide is None:
        if any(sign.isdigit() for sign in written):
            raise unreadable(written, 0, len(written), "this is no width", "write it like '42 in wide | 110 cm wide'")
        return MaterialWidth(None, str(written).strip())
    try:
        return MaterialWidth(read_length(wide["length"]), None)
    except ValueError as reason:
        raise unreadable(written, 0, len(written), str(reason), "write it like '42 in wide | 110 cm wide'") from None


def _refuse_long(written: Written) -> None:
    if len(written) > LONGEST_WIDTH:
        says = f"this is {len(written)} signs long"
        raise unreadable(written, 0, len(written), says, f"keep it under {LONGEST_WIDTH} signs")


def parse_part(written: Written) -> Fraction:
    """`4%` as a part of 1."""
    _refuse_long(written)
    match = re.fullmatch(r"(\d{1,3}(?:[.,]\d{1,3})?) ?%", str(written).strip())
    if match is None:
        raise unreadable(written, 0, len(written), "this is no percentage", "write it like 4%")
    return Fraction(match[1].replace(",", ".")) / 100
