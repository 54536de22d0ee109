"""Rows of stitching as the words of a step tell them: how far in, how far apart, how many, and where the last one lies."""

import re
import sys
from collections.abc import Iterator

from publisher.checks.amounts import told
from publisher.checks.deeds import told_steps
from publisher.checks.named_edges import distance_between, edge_named
from publisher.checks.sayings import NUMBERS
from publisher.checks.values import Proof
from publisher.drafting import Draft, Piece
from publisher.source import WrittenStep
from publisher.terms import Dimension, Finding, Severity, Written

APART = re.compile(r"\brows? \{(?P<one>[^{}]*)\} apart\b|\{(?P<other>[^{}]*)\} apart,? in rows\b", re.IGNORECASE)
# "{brim lines} rows in all", "6 rows", "six rows", "five more rows".
COUNT = re.compile(
    rf"(?:\{{(?P<quote>[^{{}}]*)\}}|\b(?P<typed>{'|'.join(NUMBERS)}|\d+)) (?P<more>more |further )?rows\b", re.I
)
FIRST = re.compile(
    r"\{(?P<one>[^{}]*)\} (?:away )?from (?:the|its|this|that) (?:[\w-]+ ){0,2}(?:edge|seam|fold|rim)\b", re.I
)
LAST = re.compile(
    r"\bthe last(?: (?:one|row|line))?(?: of (?:them|these|the rows))?(?: (?:is|lies|runs|comes|at))? \{(?P<one>[^{}]*)\} "
    r"(?:away )?from\b",
    re.IGNORECASE,
)
# A last row that lies nearer than this share of a row to where it is told to is only rounded.
ROUNDED = 0.25
SAME = 0.3  # mm


def last_row_elsewhere(proof: Proof) -> Iterator[Finding]:
    """A step tells where the first row lies, how far apart the rows are and how many, and has the last one elsewhere.

    Why: the reader measures from the edge, finds her last row a row too far in or out, and unpicks what is right.

    Fix: the last of six rows lies five distances from the first: `first + (count - 1) * apart`."""
    for draft, step, written in told_steps(proof):
        last, apart = _length(draft, written, LAST), _length(draft, written, APART)
        if last is None or apart is None or not apart[1]:
            continue
        text = str(written.text)
        first, counted = _length(draft, written, FIRST, _sentence(text, apart[0])), _counted(draft, written)
        if first is None or not counted or str(first[0]) == str(last[0]):
            continue
        lie = [first[1] + (count - 1) * apart[1] for count in counted]
        if all(abs(last[1] - one) > ROUNDED * apart[1] for one in lie):
            yield Finding(
                "last-row-elsewhere",
                Severity.WARNING,
                last[0].place,
                f"step {step.number} has the last of {counted[0]} rows {told(last[1], draft)} in, and counted from the first "
                f"it lies {told(lie[0], draft)} in",
                f"write {{{first[0]} + {counted[0] - 1} * {apart[0]}}}",
                (draft.variant,),
            )


def rows_wider_than_the_piece(proof: Proof) -> Iterator[Finding]:
    """A step stitches rows along an edge, and together they are wider than the piece is there.

    Why: the last row lies beyond the other edge, and the second one, too, where they are as far apart.

    Fix: fewer rows, or nearer to each other."""
    for draft, step, written in told_steps(proof):
        apart = _length(draft, written, APART)
        if apart is None:
            continue
        first = _length(draft, written, FIRST, _sentence(str(written.text), apart[0]))
        count = min(_counted(draft, written), default=2)
        reach = (first[1] if first is not None else 0.0) + (count - 1) * apart[1]
        for one in step.actions:
            edge = edge_named(draft, one.target) if one.verb == "topstitch" else None
            width = _width_beside(edge.piece, [part.name for part in edge.parts]) if edge is not None else None
            if width is not None and reach > width:
                yield Finding(
                    "rows-wider-than-the-piece",
                    Severity.WARNING,
                    apart[0].place,
                    f"step {step.number} stitches {count} rows or more {told(apart[1], draft)} apart, the last "
                    f"{told(reach, draft)} in, and '{one.target}' lies {told(width, draft)} from the other edge",
                    "stitch fewer rows, or nearer to each other",
                    (draft.variant,),
                )
                break


def _width_beside(piece: Piece, names: list[str]) -> float | None:
    """How far the edges that do not touch these lie from them, mm."""
    own = [edge for edge in piece.edges if edge.name in names]
    ends = [end for edge in own for end in (edge.path.start, edge.path.end)]
    apart = [
        distance_between(mine.path.point_at(mine.length / 2), edge.path)
        for mine in own
        for edge in piece.edges
        if edge.name not in names
        and all((end - other).length > SAME for end in ends for other in (edge.path.start, edge.path.end))
    ]
    return min(apart, default=None)


def _sentence(text: str, quote: Written) -> tuple[int, int]:
    """From where the sentence begins that has a quote as far as the quote."""
    end = text.find(f"{{{quote}}}")
    return max(text.rfind(mark, 0, end) for mark in ".;") + 1, end


def _length(
    draft: Draft, step: WrittenStep, words: re.Pattern[str], within: tuple[int, int] = (0, sys.maxsize)
) -> tuple[Written, float] | None:
    """The last length within a stretch of the text that stands where a pattern has a group, mm."""
    groups = [group.strip() for found in words.finditer(str(step.text), *within) for group in found.groups() if group]
    return next(iter(_quoted(draft, step, groups[-1], Dimension.LENGTH)), None) if groups else None


def _quoted(draft: Draft, step: WrittenStep, name: str, of: Dimension) -> Iterator[tuple[Written, float]]:
    values = {where: value.quantity for where, value in draft.quoted}
    for quote in step.quotes:
        quantity = values.get((quote.place, str(quote))) if str(quote).strip() == name else None
        if quantity is not None and quantity.dimension is of:
            yield quote, float(quantity.amount)


def _counted(draft: Draft, step: WrittenStep) -> list[int]:
    """How many rows there are with the first one; two numbers where it may be one of them, or not."""
    text = str(step.text)
    found = list(COUNT.finditer(text))
    if len(found) != 1:
        return []
    (one,) = found
    if one["quote"] is not None:
        amounts = [amount for _, amount in _quoted(draft, step, one["quote"].strip(), Dimension.NUMBER)]
        count = int(amounts[0]) if amounts and amounts[0] == int(amounts[0]) else 0
    else:
        count = NUMBERS.index(one["typed"].lower()) + 2 if one["typed"].lower() in NUMBERS else int(one["typed"])
    if not count:
        return []
    if one["more"]:
        return [count + 1]
    in_all = re.match(r" (?:in all|altogether|in total)\b", text[one.end() :]) is not None
    return [count] if in_all else [count, count + 1]
