"""One view to HTML, to PDF, to files on disk that are replaced whole."""

from publisher.edition.computed import EditionRecord, computed_json
from publisher.edition.layouts import layouts_folder
from publisher.edition.output import ForeignFiles, exchange_output, foreign_files, read_record
from publisher.edition.printed import PrintedEdition, SetEdition, print_edition, print_set, set_edition
from publisher.edition.printing import DrawingFailed, MissingPango
from publisher.edition.requests import Request, requests_named
from publisher.edition.side_by_side import print_editions
from publisher.edition.words import NoSuchLanguage, languages

__all__ = [
    "DrawingFailed",
    "EditionRecord",
    "ForeignFiles",
    "MissingPango",
    "NoSuchLanguage",
    "PrintedEdition",
    "Request",
    "SetEdition",
    "computed_json",
    "exchange_output",
    "foreign_files",
    "languages",
    "layouts_folder",
    "print_edition",
    "print_editions",
    "print_set",
    "read_record",
    "requests_named",
    "set_edition",
]
