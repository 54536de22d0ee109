"""A content hash of a frozen value: equal values hash alike in every process; places take no part."""

import dataclasses
import hashlib
from enum import Enum
from fractions import Fraction

from publisher.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Walked:
    """A value as a hash takes it, to be part of several."""

    steps: bytes


def walked(value: object) -> Walked:
    """What `content_hash` feeds of a value. Raises TypeError as it does."""
    steps: list[bytes] = []
    _feed(steps.append, value)
    return Walked(b"".join(steps))


def content_hash(value: object) -> str:
    """Sixteen hexadecimal digits over all that takes part in comparison. Raises TypeError for a value it cannot walk."""
    digest = hashlib.sha256()
    _feed(digest.update, value)
    return digest.hexdigest()[:16]


def _feed(update, value: object) -> None:  # type: ignore[no-untyped-def]
    name = type(value).__name__
    if isinstance(value, Walked):
        update(value.steps)
    elif value is None or isinstance(value, (bool, int, float, Fraction)):
        update(f"{name}:{value!r};".encode())
    elif isinstance(value, str):
        update(f"str:{len(value)}:{value};".encode())
    elif isinstance(value, bytes):
        update(f"bytes:{len(value)}:".encode() + value)
    elif isinstance(value, Enum):
        update(f"{name}.{value.name};".encode())
    elif dataclasses.is_dataclass(value):
        update(f"{name}(".encode())
        for field in dataclasses.fields(value):
            if field.compare:
                _feed(update, getattr(value, field.name))
        update(b")")
    elif _are_points(value):
        # The same as below, at one go: there are many.
        update(f"[{''.join(f'[float:{x!r};float:{y!r};]' for x, y in value)}]".encode())  # type: ignore[attr-defined]
    elif isinstance(value, (tuple, list)):
        update(b"[")
        for item in value:
            _feed(update, item)
        update(b"]")
    elif isinstance(value, dict):
        update(b"{")
        for key in sorted(value, key=str):
            _feed(update, key)
            _feed(update, value[key])
        update(b"}")
    else:
        raise TypeError(f"no content hash for {name}")


def _are_points(value: object) -> bool:
    """True for pairs of floats."""
    return isinstance(value, tuple) and all(
        type(one) is tuple and len(one) == 2 and type(one[0]) is type(one[1]) is float for one in value
    )
