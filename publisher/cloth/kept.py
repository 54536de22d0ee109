"""Layouts that were found earlier and kept: looked up by the question they answer, checked again before use.

A kept file is `cloth-<hash>.json`, its hash made of the rectangles, the width and the gap; it lists for each
rectangle `[x, y, turned]` in mm, in the order of the question.
"""

import json
from collections.abc import Sequence

from publisher.cloth.shelves import Rectangle, Shelved
from publisher.geometry import boxes_overlap
from publisher.terms import content_hash

# Part of every question: a change in what a layout means asks it anew.
MEANING = "rectangles with a gap, 1"


def question_of(rectangles: Sequence[Rectangle], width: float, gap: float) -> str:
    """The hash that names the question, the same on every machine."""
    told = [(one.name, one.nth, round(one.width, 3), round(one.length, 3), one.free) for one in rectangles]
    return content_hash((MEANING, told, round(width, 3), round(gap, 3)))


def kept_layout(
    kept: tuple[tuple[str, bytes], ...], rectangles: Sequence[Rectangle], width: float, gap: float
) -> tuple[tuple[Shelved, ...], float] | None:
    """The kept answer and the length it takes, or None where there is none that still holds."""
    if not kept:
        return None
    content = dict(kept).get(f"cloth-{question_of(rectangles, width, gap)}.json")
    if content is None:
        return None
    try:
        laid = tuple(
            Shelved(rectangle, float(x), float(y), bool(turned))
            for rectangle, (x, y, turned) in zip(rectangles, json.loads(content), strict=True)
        )
    except (ValueError, TypeError, OverflowError, RecursionError):
        return None
    return (laid, max((one.y + one.length for one in laid), default=0.0)) if holds(laid, width, gap) else None


def holds(laid: Sequence[Shelved], width: float, gap: float) -> bool:
    """True when every rectangle lies on the cloth, turned only where it may be, and none overlaps another.

    The cloth is as long as all of them one behind the other: none may lie further away.
    """
    longest = sum(one.length + gap for one in laid)
    for one in laid:
        across = one.x >= -1e-6 and one.x + one.width <= width + 1e-6
        along = one.y >= -1e-6 and one.y + one.length <= longest + 1e-6
        if not (across and along) or (one.turned and not one.rectangle.free):
            return False
    return not boxes_overlap([(one.x, one.y, one.x + one.width, one.y + one.length) for one in laid], gap)


def written_layout(laid: Sequence[Shelved]) -> bytes:
    """A layout as it is kept: small, one line a rectangle, made for git."""
    lines = ",\n".join(f"  [{one.x:.3f}, {one.y:.3f}, {str(one.turned).lower()}]" for one in laid)
    return f"[\n{lines}\n]\n".encode()
