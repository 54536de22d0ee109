"""What is a ring or a bag by now and is drawn as it was cut: the panel says so."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import takewhile

from publisher.drafting import Seam
from publisher.figures.steps.cloth import Bench
from publisher.figures.steps.shaping import is_boxed
from publisher.figures.steps.values import Panel
from publisher.figures.steps.wording import names_of
from publisher.terms import Phrase

# Kinds that draw what is a ring as it was cut …
FLAT = ("seam", "topstitch", "turning", "trim and clip", "edge to sew", "placement", "snipped edge")
OF_THE_FIRST = ("trim and clip",)  # … and that draw but the first of their copies


def said_flat(bench: Bench, panels: Sequence[Panel], before: Sequence[str]) -> tuple[Panel, ...]:
    """Where a copy that has been sewn to itself, or whose corners were boxed before this step, is drawn flat, the panel
    says so; what one says no other repeats."""
    seams = [one for one in bench.draft.seams if one.name in bench.state.sewn]
    boxed = {side.copy for one in seams if is_boxed(one) and one.name in before for side in (*one.first, *one.second)}
    said: list[Panel] = []
    told: set[Phrase] = set()
    for panel in panels:
        drawn = panel.copies[:1] if panel.kind in OF_THE_FIRST else panel.copies
        rings = [one for one in seams if _closes_one_of(one, drawn)]
        words = _flat_words(rings) if rings else Phrase.of("figures.drawn-unboxed")
        flat = panel.kind in FLAT and (bool(rings) or not boxed.isdisjoint(drawn))
        if flat and panel.caption is None and words not in told:
            told.add(words)
            panel = replace(panel, caption=words)
        said.append(panel)
    return tuple(said)


def _closes_one_of(seam: Seam, copies: Sequence[str]) -> bool:
    sewn = {side.copy for side in (*seam.first, *seam.second)}
    return len(sewn) == 1 and sewn <= set(copies)


def _flat_words(rings: Sequence[Seam]) -> Phrase:
    """That seams which close copies to rings are drawn open: by what the names of both their edges end in, as a left and
    a right `back edge` do; by their ends where that is one word alone."""
    names = [_common_end(one.first[0].edge, one.second[0].edge) for one in rings]
    if any(" " not in name for name in names):
        return Phrase.of("figures.drawn-flat-ends")
    return Phrase.of("figures.drawn-flat", edges=names_of(names))


def _common_end(first: str, second: str) -> str:
    """The words in which two names end alike."""
    pairs = zip(first.split()[::-1], second.split()[::-1], strict=False)
    return " ".join([one for one, _ in takewhile(lambda pair: pair[0] == pair[1], pairs)][::-1])
