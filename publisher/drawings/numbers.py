"""Numbers and lengths as a drawing writes them."""

import re

GREATEST = 1e9  # no drawing needs a number beyond this; far inside what doubles can hold
NUMBER = re.compile(r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")
SEPARATOR = re.compile(r"[ \t\r\n\f]*,?[ \t\r\n\f]*")
_LENGTH = re.compile(rf"\s*({NUMBER.pattern})\s*([a-zA-Z]*|%)\s*")
LONGEST = 60  # signs of one number
# CSS Values and Units, §6.2: 1 in = 2.54 cm = 96 px, 1 pt = 1/72 in, 1 pc = 1/6 in, 1 Q = 1/40 cm.
MILLIMETRES = {"mm": 1.0, "cm": 10.0, "in": 25.4, "pt": 25.4 / 72, "pc": 25.4 / 6, "q": 0.25, "px": 25.4 / 96}
PIXEL = MILLIMETRES["px"]


class BadValue(Exception):
    """A value that cannot be read; its text says which, to follow "cannot read"."""


def read_number(text: str) -> float:
    """A number that NUMBER has matched. Raises BadValue where it is out of all bounds."""
    value = float(text) if len(text) <= LONGEST else GREATEST * 2
    if not abs(value) <= GREATEST:
        raise BadValue(f"'{text[:20]}{'…' if len(text) > 20 else ''}', a number beyond all bounds")
    return value


def read_numbers(text: str, most: int = 20_000) -> tuple[float, ...]:
    """Numbers with spaces or commas between them. Raises BadValue."""
    numbers: list[float] = []
    text = text.strip()
    at = 0
    while at < len(text):
        found = NUMBER.match(text, at)
        if not found or len(numbers) >= most:
            raise BadValue(f"'{text[at:][:20]}' as numbers")
        numbers.append(read_number(found[0]))
        between = SEPARATOR.match(text, found.end())
        assert between is not None
        at = between.end()
    return tuple(numbers)


def read_length(text: str) -> tuple[float, str]:
    """A length's number and its unit in small letters, "" where none is written. Raises BadValue."""
    found = _LENGTH.fullmatch(text[: 4 * LONGEST])
    if not found:
        raise BadValue(f"'{text[:40]}' as a length")
    return read_number(found[1]), found[2].lower()


def in_user_units(text: str, whole: float) -> float:
    """A length inside a drawing, in user units; per cent are of `whole`. Raises BadValue."""
    value, unit = read_length(text)
    if unit == "%":
        return value / 100 * whole
    if unit and unit not in MILLIMETRES:
        raise BadValue(f"'{text[:40]}', a length in a unit that depends on type")
    return value * MILLIMETRES[unit] / PIXEL if unit not in ("", "px") else value
