"""One edition from a proof: view and sheets, HTML, PDF, and what was found on the way."""

from collections.abc import Sequence
from fractions import Fraction

from publisher.checks import Proof
from publisher.edition.html import edition_html
from publisher.edition.ingredients import ingredients
from publisher.edition.printing import print_pdf
from publisher.edition.requested import build_requested
from publisher.edition.requests import Request
from publisher.edition.sheets import Sheets, build_sheets
from publisher.edition.view import build_view
from publisher.edition.words import Speaker, speaker
from publisher.frozen import dataclass
from publisher.template_pages import Edition
from publisher.terms import Finding, Severity, content_hash


@dataclass(frozen=True, slots=True)
class SetEdition:
    """An edition as HTML, its template pages still placeholders. `made_of` hashes all that the PDF depends on."""

    edition: Edition
    requests: tuple[Request, ...]
    html: str
    sheets: Sheets
    date: str
    made_of: str
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class PrintedEdition:
    """The PDF of an edition."""

    edition: Edition
    requests: tuple[Request, ...]
    pdf: bytes
    pages: int
    template_pages: int
    made_of: str
    findings: tuple[Finding, ...]


def speaker_of(proof: Proof, edition: Edition) -> Speaker:
    """The speaker of a pattern's language in an edition's units. Raises NoSuchLanguage."""
    facts = proof.source.facts
    step = Fraction(str(facts.inch_rounding)) if facts.inch_rounding else Fraction(1, 8)
    return speaker(str(facts.language), edition.units, step)


def set_edition(proof: Proof, edition: Edition, requests: Sequence[Request] = ()) -> SetEdition:
    """The edition set into HTML, with the pages asked for. Needs no WeasyPrint."""
    speak = speaker_of(proof, edition)
    wanted = tuple(request for request in Request if request in requests)
    sheets = build_sheets(proof, edition, speak)
    view = build_view(proof, edition.units, speak, sheets.tiled)
    requested = build_requested(proof, edition.units, wanted, speak)
    html = edition_html(view, requested, sheets, edition, speak)
    made_of = content_hash((html, sheets.orders, wanted, ingredients()))
    findings = (*requested.findings, *sheets.findings)
    return SetEdition(edition, wanted, html, sheets, str(proof.source.facts.date or ""), made_of, findings)


def print_edition(proof: Proof, edition: Edition, requests: Sequence[Request] = ()) -> PrintedEdition:
    """The edition printed. Raises MissingPango, DrawingFailed, NoSuchLanguage."""
    return print_set(set_edition(proof, edition, requests))


def print_set(made: SetEdition) -> PrintedEdition:
    """The PDF of an edition that has been set."""
    printed = print_pdf(made.html, made.sheets.orders, made.date, made.sheets.sizes)
    found = list(made.findings)
    if not printed.subset_by_harfbuzz:
        found.append(
            Finding(
                "fonts-cut-slowly",
                Severity.WARNING,
                None,
                "the library harfbuzz-subset is missing, so fonts are cut down by slower means",
                "Debian, Ubuntu: sudo apt-get install libharfbuzz-subset0",
            )
        )
    return PrintedEdition(
        edition=made.edition,
        requests=made.requests,
        pdf=printed.content,
        pages=printed.pages,
        template_pages=len(made.sheets.pages),
        made_of=made.made_of,
        findings=tuple(found),
    )
