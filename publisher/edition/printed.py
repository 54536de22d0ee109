"""One edition from a proof: view and sheets, HTML, PDF, and what was found on the way."""

from dataclasses import dataclass
from fractions import Fraction

from publisher.checks import Proof
from publisher.edition.html import edition_html
from publisher.edition.printing import print_pdf
from publisher.edition.sheets import Sheets, build_sheets
from publisher.edition.view import build_view
from publisher.edition.words import Speaker, speaker
from publisher.template_pages import Edition
from publisher.terms import Finding, Severity, content_hash


@dataclass(frozen=True, slots=True)
class SetEdition:
    """An edition as HTML, its template pages still placeholders. `made_of` hashes all that the PDF depends on."""

    edition: Edition
    html: str
    sheets: Sheets
    date: str
    made_of: str


@dataclass(frozen=True, slots=True)
class PrintedEdition:
    """The PDF of an edition."""

    edition: Edition
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


def set_edition(proof: Proof, edition: Edition) -> SetEdition:
    """The edition set into HTML. Needs no WeasyPrint."""
    speak = speaker_of(proof, edition)
    sheets = build_sheets(proof, edition, speak)
    view = build_view(proof, edition.units, speak, sheets.tiled)
    html = edition_html(view, sheets, edition, speak)
    return SetEdition(edition, html, sheets, str(proof.source.facts.date or ""), content_hash((html, sheets.orders)))


def print_edition(proof: Proof, edition: Edition) -> PrintedEdition:
    """The edition printed. Raises MissingPango, DrawingFailed, NoSuchLanguage."""
    return print_set(set_edition(proof, edition))


def print_set(made: SetEdition) -> PrintedEdition:
    """The PDF of an edition that has been set."""
    printed = print_pdf(made.html, made.sheets.orders, made.date)
    found = list(made.sheets.findings)
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
        made.edition, printed.content, printed.pages, len(made.sheets.pages), made.made_of, tuple(found)
    )
