"""What a step's `Does:` lines say, as trees."""

import re
from dataclasses import replace

from publisher.measures.grammar import unreadable
from publisher.measures.sayings import parse_name, trimmed
from publisher.measures.values import (
    ActionSaying,
)
from publisher.terms import Written, did_you_mean

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
    "dart",
    "topstitch",
    "fold",
    "roll",
    "press",
    "turn",
    "attach",
    "join",
    "begin",
    "mitre",
    "thread",
    "open",
)

SHOWN = (*VERBS, "assembled")  # what a figure can show, beside what a step does
TOGETHER = ", wrong sides together"
SHORT = ", from seam line to seam line"
FOLDED = ", still folded"
SEWN = ("sew", "baste")
# How a thing is done, and the verbs that may say so.
MANNERS = {TOGETHER: SEWN, SHORT: SEWN, FOLDED: ("mark",)}
# What stands between the two names of an action; elsewhere it is `to` or `at`.
SMALL_WORDS = {"thread": "through", "bind": "to|at|with"}


def parse_action(written: Written) -> ActionSaying:
    """`sew side seam`, `fuse A to B`, `attach snap at body front.snap`, `thread cord through casing`, `sew lining join,
    wrong sides together`."""
    return _said(written, VERBS)


def parse_shown(written: Written) -> ActionSaying:
    """What a step's figure shows, said as an action; or `assembled apron`."""
    return _said(written, SHOWN)


def _said(written: Written, verbs: tuple[str, ...]) -> ActionSaying:
    says, manners = str(written), set()
    while manner := next((one for one in MANNERS if says.endswith(one)), None):
        manners.add(manner)
        says = says.removesuffix(manner)
    if not manners:
        return _parse(written, verbs)
    said = _parse(trimmed(written, 0, says), verbs)
    unfit = sorted(manner.removeprefix(", ") for manner in manners if said.verb not in MANNERS[manner])
    if unfit:
        raise unreadable(written, 0, len(written), f"'{said.verb}' is done one way only", f"take '{unfit[0]}' out")
    return replace(said, wrong_sides=TOGETHER in manners, stops_short=SHORT in manners, still_folded=FOLDED in manners)


def _parse(written: Written, verbs: tuple[str, ...]) -> ActionSaying:
    verb, _, rest = str(written).partition(" ")
    if verb not in verbs:
        raise unreadable(written, 0, len(verb), f"no work called '{verb}'", did_you_mean(verb, verbs))
    parts = re.split(rf"(?<!\w)({SMALL_WORDS.get(verb, 'to|at')})(?!\w)", rest)
    if len(parts) > 3:
        raise unreadable(
            written, 0, len(written), f"'{parts[1]}' and '{parts[3]}' stand in one line", "write a Does: line for each"
        )
    if not parts[0].strip():
        raise unreadable(
            written, 0, len(written), f"'{verb}' what?", f"write: {verb} and the name of what it is done to"
        )
    start = len(verb) + 1
    target = trimmed(written, start, parts[0])
    if len(parts) == 1:
        return ActionSaying(verb, parse_name(target), None, None, written.place)
    other = trimmed(written, start + len(parts[0]) + len(parts[1]), parts[2])
    if not other:
        raise unreadable(written, 0, len(written), f"{parts[1]} what?", f"name something behind '{parts[1]}'")
    return ActionSaying(verb, parse_name(target), parts[1], parse_name(other), written.place)
