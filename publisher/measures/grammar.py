"""The parser of the expression language, built once and only when it is needed. The one door to Lark."""

import re
import sys
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from importlib.util import cache_from_source
from pathlib import Path

from lark import Lark, Token, Tree, UnexpectedCharacters, UnexpectedInput, UnexpectedToken

from publisher.terms import AMOUNT_PATTERN, Finding, Severity, Unusable, Written

LONGEST = 500  # signs: a formula longer than this is not one
DEEPEST = 40  # brackets within brackets
RESERVED = ("of", "from", "to", "and", "at", "the", "with", "by", "for")
STARTS = ("formula", "rectangle", "held", "point", "edge", "side", "matching", "mark", "hem", "pleat", "dart")

# The other spaces that text programs put between a number and its unit, and tabs.
SPACES = str.maketrans({"\t": " ", "\u00a0": " ", "\u202f": " ", "\u2009": " "})

Parsed = Tree[Token]

# How a finding names what might have stood there.
_WORDS = {
    "QUANTITY": "a length",
    "NUMBER": "a number",
    "NAME": "a name",
    "PLUS": "'+'",
    "MINUS": "' - '",
    "TIMES": "'*'",
    "OVER": "'/'",
    "SIGN": "",
    "$END": "the end",
    "_COMMA": "','",
    "_CLOSE": "')'",
    "_OPEN": "",
    "_FROM": "'from'",
    "_TO": "'to'",
    "_AND": "'and'",
    "_AT": "'at'",
    "_BY": "'by'",
    "_WITH": "'with'",
    "_FOR": "'for'",
    "_LINE": "'line from … to …'",
    "_ARC": "'arc from … to … with radius …'",
    "NOTCH": "'notch at …'",
    "SYMBOL": "'point at …'",
    "LINE_KIND": "'fold line …'",
    "DERIVED_FROM": "'derived from … by …'",
    "PLEAT_KIND": "'box pleat of … at …'",
    "DART_OF": "'dart of … by … at …'",
    "TOWARDS": "'towards the left'",
    "CASING_FOR": "'casing for …'",
    "TURNED_TWICE": "'turned twice'",
    "TURNED_UNDER": "'turned under …'",
    "_OF": "'of'",
    "EQUALS": "'='",
    "WAY": "'to the right'",
    "OF_THE_WAY_FROM": "'of the way from … to …'",
    "RADIUS": "'radius'",
    "HEIGHT": "'height'",
    "FACE": "'on the right side'",
    "INWARDS": "'inwards'",
    "_CENTRE": "'centre'",
    "TANGENT": "'tangent'",
    "CURVE": "'smooth curve from … to … by …'",
    "LEAVING_TO": "'leaving to …'",
    "ARRIVING_FROM": "'arriving from …'",
    "END_OF": "'the left end of …'",
    "_MIDDLE_OF": "'the middle of …'",
}
_OPERATORS = {"PLUS", "MINUS", "TIMES", "OVER"}


@cache
def _parser() -> Lark:
    grammar = files("publisher.measures").joinpath("expressions.lark")
    text = grammar.read_text("utf-8")
    reserved = rf"(?:{'|'.join(RESERVED)})\b"
    text = text.replace("AMOUNT", f"(?:{AMOUNT_PATTERN})".replace("/", r"\/"), 2).replace("RESERVED", reserved)
    return Lark(text, parser="lalr", start=list(STARTS), maybe_placeholders=False, cache=_tables_of(grammar))


def _tables_of(grammar: Traversable) -> str | bool:
    """The file that the parser's tables are kept in, or False: beside the byte code, and only where that is kept.

    Working them out takes as long as proving a small pattern. Lark makes them anew when the grammar, its own version or
    Python's is another, or when the file cannot be read; where it cannot be written, nothing is kept.
    """
    if sys.dont_write_bytecode or not isinstance(grammar, Path):
        return False
    return str(Path(cache_from_source(str(grammar))).with_suffix(".tables"))


def parse(written: Written, start: str) -> Parsed:
    """The parse tree of a text as one of STARTS. Raises Unusable with what was expected, at the guilty sign."""
    text = str(written).translate(SPACES)
    if len(text) > LONGEST:
        raise unreadable(written, 0, len(text), f"this is {len(text)} signs long", f"keep it under {LONGEST} signs")
    if _depth(text) > DEEPEST:
        raise unreadable(
            written, 0, len(text), f"more than {DEEPEST} brackets within brackets", "make measures of the parts"
        )
    twice = re.search(r"[/÷] *\d+[/⁄]\d", text)
    if twice is not None:
        raise unreadable(
            written,
            twice.start() + 1,
            twice.end(),
            "a fraction straight behind a division sign can be read in two ways",
            "put it in brackets: depth / (1/2); or leave spaces round both signs: depth / 4 / 2",
        )
    try:
        return _parser().parse(text, start=start)
    except UnexpectedInput as reason:
        raise _explained(written, text, reason) from None


def _depth(text: str) -> int:
    depth = deepest = 0
    for sign in text:
        depth += (sign == "(") - (sign == ")")
        deepest = max(deepest, depth)
    # A row of minus signs nests as brackets do.
    return max(deepest, text.count("-") - text.count(" - ") + text.count("−"))


def _explained(written: Written, text: str, reason: UnexpectedInput) -> Unusable:
    at = reason.pos_in_stream if reason.pos_in_stream is not None else len(text)
    ended = isinstance(reason, UnexpectedToken) and reason.token.type == "$END"
    at = len(text) if ended or at < 0 else at
    while at < len(text) and text[at] == " ":
        at += 1
    if at < len(text) and text[at] in "-−" and text[at - 1 : at + 2] != f" {text[at]} ":
        return unreadable(
            written,
            at,
            at + 1,
            "a minus has a space on both sides, for a name may be beside it",
            "write it as 'width - depth'",
        )
    if at < len(text) and text[at] == "," and text[at - 1 : at].isdigit() and text[at + 1 : at + 2].isdigit():
        return unreadable(
            written,
            at,
            at + 1,
            "a comma is a decimal sign only in a length that stands alone",
            "write the decimals with a point: 5.7 cm",
        )
    if re.match(r"\d", text[at : at + 1]) and re.search(r"\d{9}$", text[:at]):
        return unreadable(written, at, at + 1, "this number is larger than anything sewn", "look at its digits")
    if isinstance(reason, UnexpectedCharacters) and at < len(text) and not text[at].isalnum():
        return _foreign(written, text, at)
    expected = (
        reason.accepts
        if isinstance(reason, UnexpectedToken)
        else reason.allowed
        if isinstance(reason, UnexpectedCharacters)
        else ()
    )
    wanted = _wanted(set(expected or ()))
    stands = "the end" if at >= len(text) else f"'{_word_at(text, at)}'"
    return unreadable(
        written,
        min(at, max(len(text) - 1, 0)),
        min(at, max(len(text) - 1, 0)) + max(len(_word_at(text, at)), 1),
        f"{stands} cannot stand here" + (f"; {wanted} is expected" if wanted else ""),
        _mend(text, at, set(expected or ())),
    )


def _foreign(written: Written, text: str, at: int) -> Unusable:
    """A sign that the language has no use for there."""
    mend = (
        "a bar parts inches from metric only in a whole value; name the length under measures: and write its name here"
        if text[at] == "|"
        else "write lengths like 2 1/4 in or 5.7 cm, names as they stand in the pattern, and + - * / between them"
    )
    return unreadable(written, at, at + 1, f"'{text[at]}' cannot stand here", mend)


def _wanted(expected: set[str]) -> str:
    if {"NAME", "NUMBER"} <= expected:
        expected = expected - {
            "NUMBER",
            "LENGTH_OF",
            "WIDTH_OF",
            "HEIGHT_OF",
            "CUT_WIDTH_OF",
            "CUT_HEIGHT_OF",
            "DISTANCE_FROM",
            "LARGER_OF",
            "SMALLER_OF",
        }
    if expected >= _OPERATORS:
        expected = expected - {"TIMES", "OVER", "MINUS"}
    words = sorted({_WORDS.get(name, "") for name in expected} - {""})
    return " or ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def _mend(text: str, at: int, expected: set[str]) -> str:
    word = _word_at(text, at)
    if word in RESERVED:
        return f"'{word}' is a word of the formula language, so no name may contain it"
    if at < len(text) and expected >= _OPERATORS and text[at].isalnum():
        return "is a sign missing, such as * or +?"
    return "write lengths like 2 1/4 in or 5.7 cm, names as they stand in the pattern, and + - * / between them"


def _word_at(text: str, at: int) -> str:
    end = at
    while end < len(text) and (text[end].isalnum() or text[end] in "'’"):
        end += 1
    return text[at:end] or text[at : at + 1]


def unreadable(written: Written, start: int, end: int, says: str, mend: str) -> Unusable:
    """An error about part of a text, to raise."""
    return Unusable(
        Finding(
            "unreadable", Severity.ERROR, written.part(start, max(end, start)).place, f"in '{written}': {says}", mend
        )
    )
