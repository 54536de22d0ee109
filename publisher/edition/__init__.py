"""One view to HTML, to PDF, to files on disk that are replaced whole."""

from publisher.edition.layouts import layouts_folder
from publisher.edition.printed import PrintedEdition, SetEdition, print_edition, print_set, set_edition
from publisher.edition.printing import DrawingFailed, MissingPango

__all__ = [
    "DrawingFailed",
    "MissingPango",
    "PrintedEdition",
    "SetEdition",
    "layouts_folder",
    "print_edition",
    "print_set",
    "set_edition",
]
