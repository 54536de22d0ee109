"""The pages that were asked for beside the usual ones, and advice where there is nothing for them to show."""

from collections.abc import Sequence

from publisher.checks import Proof
from publisher.edition.drafting_pages import DraftingPages, drafting_pages
from publisher.edition.pin_on_labels import PinOnLabel, pin_on_labels
from publisher.edition.requests import Request
from publisher.edition.words import Speaker
from publisher.frozen import dataclass
from publisher.terms import Finding, Severity, UnitSystem


@dataclass(frozen=True, slots=True)
class RequestedPages:
    """Drafting pages, and labels in rows of three; none where not asked for or without anything to show."""

    drafting: DraftingPages | None
    labels: tuple[tuple[PinOnLabel, ...], ...]
    findings: tuple[Finding, ...]


def build_requested(proof: Proof, units: UnitSystem, requests: Sequence[Request], speak: Speaker) -> RequestedPages:
    """The pages asked for, for one unit system over all its sizes."""
    labels = pin_on_labels(proof, units, speak) if Request.PIN_ON_LABELS in requests else ()
    drafting = drafting_pages(proof, units, speak) if Request.DRAFTING_PAGE in requests else None
    found: list[Finding] = []
    if Request.DRAFTING_PAGE in requests and drafting is None:
        says = "no piece of this pattern has an outline, so there is nothing to draw by hand"
        found.append(Finding("nothing-to-draw", Severity.ADVICE, None, says, "leave --with drafting-page out"))
    if Request.PIN_ON_LABELS in requests and not labels:
        says = "no piece of this pattern is cut by measure, so there are no labels to pin on"
        found.append(Finding("nothing-to-label", Severity.ADVICE, None, says, "leave --with pin-on-labels out"))
    return RequestedPages(drafting, labels, tuple(found))
