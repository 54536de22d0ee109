"""Formulas and names as trees, each part with its place."""

import math
import re
from fractions import Fraction

from lark import Token, Tree

from publisher.measures.grammar import SPACES, parse, unreadable
from publisher.measures.values import (
    Asked,
    EdgeSpot,
    Formula,
    Literal,
    Name,
    Operation,
    Solved,
)
from publisher.terms import UNITS, Dimension, Quantity, Written, read_amount, read_length

# A radian in degrees, as near as lengths are worked out; 360 deg / 1 rad is twice pi.
RADIAN = Fraction(180) / Fraction(math.pi)
_STANDS_ALONE = re.compile(r"\d+,\d+\s*[A-Za-z\"″]+")


def parse_formula(written: Written) -> Formula:
    """A formula. Raises Unusable."""
    if _STANDS_ALONE.fullmatch(written.strip()):
        return _decimal_comma(written)
    return read_formula(parse(written, "formula").children[0], written)


def _decimal_comma(written: Written) -> Formula:
    try:
        text = str(written).translate(SPACES).strip()
        return Literal(read_length(text), text.lstrip("0123456789, "), written.place)
    except ValueError as reason:
        raise unreadable(written, 0, len(written), str(reason), "write it like 5.7 cm") from None


def read_name(token: object, written: Written) -> Name:
    """The name a token holds, its spaces made single."""
    assert isinstance(token, Token)
    text = re.sub(r" *\. *", ".", re.sub(r" +", " ", str(token).strip()))
    return Name(text, written.part(_start(token), _end(token)).place)


def _start(token: Token) -> int:
    assert token.start_pos is not None
    return token.start_pos


def _end(token: Token) -> int:
    assert token.end_pos is not None
    return token.end_pos


def read_formula(tree: object, written: Written) -> Formula:
    """The formula of a parse tree. Raises Unusable."""
    assert isinstance(tree, Tree)
    parts = tree.children
    match tree.data:
        case "literal":
            return _literal(parts[0], written)
        case "name":
            return read_name(parts[0], written)
        case "sign":
            return Operation("-", None, read_formula(parts[1], written), _token_place(parts[0], written))
        case "operation":
            sign = {"−": "-", "×": "*", "÷": "/"}.get(str(parts[1]).strip(), str(parts[1]).strip())
            place = _token_place(parts[1], written)
            return Operation(sign, read_formula(parts[0], written), read_formula(parts[2], written), place)
        case "solved":
            asked, left, _, right, low, high = parts
            first, second, least, most = (read_formula(part, written) for part in (left, right, low, high))
            return Solved(first, second, least, most, _token_place(asked, written))
        case "asked_which":
            return Asked(
                _first_word(parts[0]),
                tuple(read_formula(part, written) for part in parts[1:]),
                _token_place(parts[0], written),
            )
        case _:
            names = tuple(read_name(part, written) for part in parts[1:])
            return Asked(_first_word(parts[0]), names, _token_place(parts[0], written))


def _token_place(token: object, written: Written):  # type: ignore[no-untyped-def]
    assert isinstance(token, Token)
    lead = len(token) - len(token.lstrip())
    return written.part(_start(token) + lead, _start(token) + lead + len(token.strip())).place


def _first_word(token: object) -> str:
    """What a question asks, without its `of`, `from` or `to`: `length`, `cut width`."""
    return " ".join(str(token).split()[:-1])


_LITERAL = re.compile(r"(?P<amount>.*?)\s*(?P<unit>inches|inch|in|mm|cm|ft|yards|yard|yd|m|deg|rad|[\"″°])?")


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
    if unit == "rad":
        return Literal(Quantity(amount * RADIAN, Dimension.ANGLE), "rad", place)
    if unit in ("deg", "°"):
        return Literal(Quantity(amount, Dimension.ANGLE), "deg", place)
    return Literal(Quantity(amount * UNITS[unit], Dimension.LENGTH), unit, place)


def read_spot(tree: object, written: Written) -> EdgeSpot:
    """A spot on an edge: its middle, or a distance from one of its ends."""
    assert isinstance(tree, Tree)
    if tree.data == "middle":
        return EdgeSpot(read_name(tree.children[0], written), None, None)
    distance, end, edge = tree.children
    return EdgeSpot(read_name(edge, written), read_formula(distance, written), str(end).split()[1])
