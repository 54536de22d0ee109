"""How to choose a size, as the layouts set it: what to measure, and what each size measures."""

from collections.abc import Sequence

from publisher.checks import Proof
from publisher.drafting import Draft
from publisher.edition.step_views import prose_html
from publisher.edition.words import Speaker
from publisher.frozen import dataclass
from publisher.source import quotes_of
from publisher.terms import Written, length


@dataclass(frozen=True, slots=True)
class SizeLine:
    """One size: its name, the body it is for, what it measures when it is sewn, and the difference."""

    size: str
    body: str
    finished: str
    ease: str


@dataclass(frozen=True, slots=True)
class SizeGuideView:
    """Words as HTML, and a line for each size that is printed."""

    measure: str
    how: str
    lines: tuple[SizeLine, ...]
    between: str


def size_guide_of(proof: Proof, drafts: Sequence[Draft], speak: Speaker) -> SizeGuideView | None:
    """The size guide of a pattern with sizes; None where she has written none."""
    guide = proof.source.facts.size_guide
    lines = tuple(line for draft in drafts if (line := _line(draft, speak)) is not None)
    if guide is None or not lines:
        return None

    def html(text: Written) -> str:
        return prose_html(text, quotes_of(text), drafts, speak)

    return SizeGuideView(html(guide.measure), html(guide.how), lines, html(guide.between))


def _line(draft: Draft, speak: Speaker) -> SizeLine | None:
    told = draft.sizing
    if told is None or draft.variant.size is None:
        return None
    ease = length(told.finished.amount - told.body.amount)
    return SizeLine(draft.variant.size, speak.length(told.body), speak.length(told.finished), speak.length(ease))
