"""Texts of the expression language as trees: formulas, edges, marks, copies, seams' sides, actions, widths."""

import re
from fractions import Fraction

from lark import Token, Tree

from publisher.measures.grammar import SPACES, Parsed, parse, unreadable
from publisher.measures.values import (
    ActionSaying,
    ArcSaying,
    Asked,
    CopySaying,
    EdgeSpot,
    Formula,
    HemSaying,
    LineSaying,
    Literal,
    MarkSaying,
    Matching,
    MaterialWidth,
    Name,
    Operation,
    Pair,
    PleatSaying,
)
from publisher.terms import UNITS, Dimension, Quantity, Written, did_you_mean, read_amount, read_length

VERBS = (
    "cut",
    "mark",
    "fuse",
    "place",
    "baste",
    "sew",
    "close",
    "trim",
    "clip",
    "hem",
    "bind",
    "gather",
    "pleat",
    "topstitch",
    "fold",
    "press",
    "turn",
    "attach",
)
LONGEST_WIDTH = 80  # signs
_STANDS_ALONE = re.compile(r"\d+,\d+\s*[A-Za-z\"″]+")


def parse_formula(written: Written) -> Formula:
    """A formula. Raises Unusable."""
    if _STANDS_ALONE.fullmatch(written.strip()):
        return _decimal_comma(written)
    return _formula(parse(written, "formula").children[0], written)


def _decimal_comma(written: Written) -> Formula:
    try:
        text = str(written).translate(SPACES).strip()
        return Literal(read_length(text), text.lstrip("0123456789, "), written.place)
    except ValueError as reason:
        raise unreadable(written, 0, len(written), str(reason), "write it like 5.7 cm") from None


def _name(token: object, written: Written) -> Name:
    assert isinstance(token, Token)
    text = re.sub(r" *\. *", ".", re.sub(r" +", " ", str(token).strip()))
    return Name(text, written.part(_start(token), _end(token)).place)


def _start(token: Token) -> int:
    assert token.start_pos is not None
    return token.start_pos


def _end(token: Token) -> int:
    assert token.end_pos is not None
    return token.end_pos


def _formula(tree: object, written: Written) -> Formula:
    assert isinstance(tree, Tree)
    parts = tree.children
    match tree.data:
        case "literal":
            return _literal(parts[0], written)
        case "name":
            return _name(parts[0], written)
        case "sign":
            return Operation("-", None, _formula(parts[1], written), _token_place(parts[0], written))
        case "operation":
            sign = {"−": "-", "×": "*", "÷": "/"}.get(str(parts[1]).strip(), str(parts[1]).strip())
            place = _token_place(parts[1], written)
            return Operation(sign, _formula(parts[0], written), _formula(parts[2], written), place)
        case "asked_which":
            return Asked(
                _first_word(parts[0]),
                tuple(_formula(part, written) for part in parts[1:]),
                _token_place(parts[0], written),
            )
        case _:
            names = tuple(_name(part, written) for part in parts[1:])
            return Asked(_first_word(parts[0]), names, _token_place(parts[0], written))


def _token_place(token: object, written: Written):  # type: ignore[no-untyped-def]
    assert isinstance(token, Token)
    lead = len(token) - len(token.lstrip())
    return written.part(_start(token) + lead, _start(token) + lead + len(token.strip())).place


def _first_word(token: object) -> str:
    """What a question asks, without its `of`, `from` or `to`: `length`, `cut width`."""
    return " ".join(str(token).split()[:-1])


_LITERAL = re.compile(r"(?P<amount>.*?)\s*(?P<unit>inches|inch|in|mm|cm|ft|yards|yard|yd|m|deg|[\"″°])?")


def _literal(token: object, written: Written) -> Literal:
    assert isinstance(token, Token)
    place = written.part(_start(token), _end(token)).place
    match = _LITERAL.fullmatch(str(token))
    assert match is not None
    unit = match["unit"] or ""
    try:
        amount = read_amount(match["amount"])
    except (ValueError, ZeroDivisionError):
        raise unreadable(
            written, _start(token), _end(token), f"'{token}' is no amount", "write it like 2 1/4 in"
        ) from None
    if not unit:
        return Literal(Quantity(amount, Dimension.NUMBER), "", place)
    if unit in ("deg", "°"):
        return Literal(Quantity(amount, Dimension.ANGLE), "deg", place)
    return Literal(Quantity(amount * UNITS[unit], Dimension.LENGTH), unit, place)


def parse_pair(written: Written, kind: str) -> Pair:
    """`A by B` (kind `rectangle`) or `X, Y` (kind `point`)."""
    first, second = parse(written, kind).children
    return Pair(_formula(first, written), _formula(second, written))


def parse_edge(written: Written) -> LineSaying | ArcSaying:
    """`line from A to B`, `arc from A to B with radius R`."""
    tree = parse(written, "edge").children[0]
    assert isinstance(tree, Tree)
    start, end = (_name(part, written) for part in tree.children[:2])
    if tree.data == "line":
        return LineSaying(start, end)
    kind, size, *inwards = tree.children[2:]
    formula = _formula(size, written)
    by_radius = str(kind) == "radius"
    return ArcSaying(start, end, formula if by_radius else None, None if by_radius else formula, bool(inwards))


def parse_side(written: Written) -> tuple[Name, ...]:
    """`A and B`: the edges of one side of a seam."""
    return tuple(_name(token, written) for token in parse(written, "side").children)


def parse_matching(written: Written) -> Matching:
    """`A` or `A to B`."""
    names = [_name(token, written) for token in parse(written, "matching").children]
    return Matching(names[0], names[-1])


def parse_name(written: Written) -> Name:
    """One name."""
    names = parse_side(written)
    if len(names) > 1:
        raise unreadable(written, 0, len(written), "one name is expected, not several", "write a line for each")
    return names[0]


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
            copies += [_name(token, written) for token in tail.children]
    return MarkSaying(
        said.kind, said.spot, said.into, said.insets, said.x, said.y, said.start, said.end, face, tuple(copies)
    )


def _face(token: Token) -> str:
    return "right side" if "right" in str(token).split() else "wrong side"


def _mark_body(mark: Parsed, written: Written) -> MarkSaying:
    parts = mark.children
    if mark.data == "derived":
        return MarkSaying("derived", start=_name(parts[1], written), end=_name(parts[2], written))
    if mark.data in ("line_between", "line_beside", "line_across"):
        return _line_body(mark, " ".join(str(parts[0]).split()), written)
    if mark.data == "notch":
        kind = "double notch" if str(parts[0]).startswith("double") else "notch"
        return MarkSaying(kind, spot=_spot(parts[1], written))
    return _point_body(parts[0], written)


def _line_body(mark: Parsed, kind: str, written: Written) -> MarkSaying:
    parts = mark.children[1:]
    if mark.data == "line_between":
        return MarkSaying(kind, start=_name(parts[0], written), end=_name(parts[1], written))
    if mark.data == "line_beside":
        return MarkSaying(kind, insets=((_formula(parts[0], written), _name(parts[1], written)),))
    return MarkSaying(kind, spot=_spot(parts[0], written))


def _point_body(tree: object, written: Written) -> MarkSaying:
    assert isinstance(tree, Tree)
    parts = tree.children
    match tree.data:
        case "into":
            return MarkSaying(
                "point", spot=EdgeSpot(_name(parts[1], written), None, None), into=_formula(parts[0], written)
            )
        case "insets":
            first, second = ((_formula(parts[at], written), _name(parts[at + 1], written)) for at in (0, 2))
            return MarkSaying("point", insets=(first, second))
        case "place":
            return MarkSaying("point", x=_formula(parts[0], written), y=_formula(parts[1], written))
        case _:
            return MarkSaying("point", spot=_spot(tree, written))


def _spot(tree: object, written: Written) -> EdgeSpot:
    assert isinstance(tree, Tree)
    if tree.data == "middle":
        return EdgeSpot(_name(tree.children[0], written), None, None)
    distance, end, edge = tree.children
    return EdgeSpot(_name(edge, written), _formula(distance, written), str(end).split()[1])


def parse_hem(written: Written) -> HemSaying:
    """`2 cm`, `2 cm, turned twice`, `2 cm, turned under 6 mm`, `casing for 1 cm, turned under 6 mm`."""
    casing, twice, depth, under = False, False, None, None
    for part in parse(written, "hem").children:
        if isinstance(part, Token):
            casing, twice = casing or part.type == "CASING_FOR", twice or part.type == "TURNED_TWICE"
        elif depth is None:
            depth = _formula(part, written)
        else:
            under = _formula(part, written)
    assert depth is not None
    return HemSaying(depth, casing, twice, under)


def parse_pleat(written: Written) -> PleatSaying:
    """`knife pleat of 1 cm at 10 cm from the left end of bottom edge, towards the left`."""
    kind, depth, spot, *tails = parse(written, "pleat").children
    towards, face = None, "right side"
    for tail in tails:
        assert isinstance(tail, Token)
        if tail.type == "FACE":
            face = _face(tail)
        else:
            towards = str(tail).split()[-1]
    return PleatSaying(" ".join(str(kind).split()), _formula(depth, written), _spot(spot, written), towards, face)


def parse_copy(written: Written) -> CopySaying:
    """`canvas, cut 2, to the finished line, alike`, `canvas, rough by 2 cm`."""
    material, *options = written.split_at(",")
    name = parse_name(material)
    count, to_finished_line, alike, rough = 1, False, False, None
    for option in options:
        cut = re.fullmatch(r"cut +(\d{1,3})", option)
        if cut and int(cut[1]) > 0:
            count = int(cut[1])
        elif option == "to the finished line":
            to_finished_line = True
        elif option == "alike":
            alike = True
        elif option.startswith("rough by "):
            rough = parse_formula(_trimmed(option, 8, option[8:]))
        else:
            known = ("cut 2", "to the finished line", "alike", "rough by 2 cm")
            raise unreadable(option, 0, len(option), "this says nothing about a copy", did_you_mean(option, known))
    return CopySaying(name, count, to_finished_line, alike, rough)


def parse_action(written: Written) -> ActionSaying:
    """`sew side seam`, `fuse A to B`, `attach snap at body front.snap`."""
    verb, _, rest = str(written).partition(" ")
    if verb not in VERBS:
        raise unreadable(written, 0, len(verb), f"no work called '{verb}'", did_you_mean(verb, VERBS))
    parts = re.split(r"(?<!\w)(to|at)(?!\w)", rest)
    if len(parts) > 3:
        raise unreadable(
            written, 0, len(written), f"'{parts[1]}' and '{parts[3]}' stand in one line", "write a Does: line for each"
        )
    if not parts[0].strip():
        raise unreadable(
            written, 0, len(written), f"'{verb}' what?", f"write: {verb} and the name of what it is done to"
        )
    start = len(verb) + 1
    target = _trimmed(written, start, parts[0])
    if len(parts) == 1:
        return ActionSaying(verb, parse_name(target), None, None, written.place)
    other = _trimmed(written, start + len(parts[0]) + len(parts[1]), parts[2])
    if not other:
        raise unreadable(written, 0, len(written), f"{parts[1]} what?", f"name something behind '{parts[1]}'")
    return ActionSaying(verb, parse_name(target), parts[1], parse_name(other), written.place)


def _trimmed(written: Written, start: int, text: str) -> Written:
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
