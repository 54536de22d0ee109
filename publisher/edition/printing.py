"""HTML to PDF. The one door to WeasyPrint: its fonts, its fetching, its mistakes and its finishing are kept in hand."""

import gc
import logging
import os
import tempfile
import warnings
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, redirect_stdout
from datetime import UTC, datetime
from io import StringIO
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

from publisher.edition.layouts import layouts_folder
from publisher.edition.pdf_forms import DrawingOrder, draw_forms
from publisher.edition.tags import mend_tags
from publisher.frozen import dataclass

FAMILY = "publisher text"
PHOTOGRAPH = "data:image/jpeg;base64,"


class MissingPango(RuntimeError):
    """The text library that WeasyPrint draws with is not on this machine."""

    INSTALL = (
        "Debian, Ubuntu: sudo apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0\n"
        "Fedora:         sudo dnf install pango harfbuzz\n"
        "macOS:          brew install pango\n"
        "Windows:        install MSYS2, then in its window: pacman -S mingw-w64-x86_64-pango"
    )


class DrawingFailed(RuntimeError):
    """WeasyPrint met something that it could not draw, and would have gone on without it."""


@dataclass(frozen=True, slots=True)
class PrintedPdf:
    """The bytes of a PDF, its number of pages, and whether its fonts were cut down by HarfBuzz."""

    content: bytes
    pages: int
    subset_by_harfbuzz: bool


def print_pdf(html: str, orders: Sequence[DrawingOrder], date: str, sizes: Sequence[str] = ()) -> PrintedPdf:
    """The tagged PDF of a document of ours, with a layer for each of its sizes. The same input gives the same bytes.

    Raises MissingPango, and DrawingFailed where anything at all could not be drawn.
    """
    # Without HarfBuzz's subsetter fonts would carry the time of day.
    stamp = datetime.fromisoformat(date).replace(tzinfo=UTC) if date else datetime(2000, 1, 1, tzinfo=UTC)
    os.environ["SOURCE_DATE_EPOCH"] = str(int(stamp.timestamp()))
    weasyprint = load_weasyprint()
    pages: list[int] = []

    def finish(document: Any, pdf: Any) -> None:
        pages.append(len(document.pages))
        _refuse_foreign_fonts(document)
        draw_forms(pdf, orders, sizes)
        mend_tags(pdf)
        _set_preferences(pdf)

    with _fatal_log(), _collector_at_rest():
        document = weasyprint.HTML(
            string=html, base_url=layouts_folder().as_uri() + "/", url_fetcher=_fetcher(weasyprint)
        )
        try:
            content: bytes = document.write_pdf(pdf_variant="pdf/ua-1", finisher=finish)
        except weasyprint.urls.FatalURLFetchingError as refused:
            raise DrawingFailed(str(refused.__cause__ or refused)) from refused
    return PrintedPdf(content, pages[0], _has_harfbuzz_subset())


def load_weasyprint() -> Any:
    """The library, the system's fonts hidden from it before it is first imported. Raises MissingPango."""
    _hide_system_fonts()
    # Where Pango is missing the library prints a banner; that no system font is found is how we want it.
    with warnings.catch_warnings(), redirect_stdout(StringIO()):
        warnings.filterwarnings("ignore", message="No fonts configured")
        try:
            import weasyprint
        except OSError as reason:
            raise MissingPango(str(reason)) from reason
    return weasyprint


def _hide_system_fonts() -> None:
    """A configuration that names only a cache folder: no font of the machine can leak into an edition."""
    if "PUBLISHER_FONTCONFIG" in os.environ:
        return
    folder = Path(tempfile.gettempdir()) / f"publisher-fonts-{os.getuid() if hasattr(os, 'getuid') else 'user'}"
    folder.mkdir(mode=0o700, exist_ok=True)
    file = folder / "fonts.conf"
    text = f'<?xml version="1.0"?><fontconfig><cachedir>{folder}</cachedir></fontconfig>'
    if not file.is_file() or file.read_text("utf-8") != text:
        file.write_text(text, "utf-8")
    os.environ["FONTCONFIG_FILE"] = os.environ["PUBLISHER_FONTCONFIG"] = str(file)


def _has_harfbuzz_subset() -> bool:
    from weasyprint.text import ffi

    return getattr(ffi, "harfbuzz_subset", None) is not None


def _fetcher(weasyprint: Any) -> Any:
    """Fetches files of the layouts, and photographs that lie in the document itself; any other address ends the printing."""
    root = layouts_folder().resolve()
    fetcher = weasyprint.urls.URLFetcher

    class LayoutsOnly(fetcher):  # type: ignore[misc, valid-type]
        def fetch(self, url: str, headers: Any = None) -> Any:
            if url.startswith(PHOTOGRAPH):
                return super().fetch(url, headers)
            parts = urlsplit(url)
            path = Path(unquote(parts.path)).resolve() if parts.scheme == "file" and not parts.netloc else None
            if path is None or not path.is_relative_to(root):
                raise DrawingFailed(f"'{url[:80]}' is no part of the layouts")
            return super().fetch(url, headers)

    return LayoutsOnly(allowed_protocols=("file", "data"), allow_redirects=False, fail_on_errors=True)


class _Raise(logging.Handler):
    """Turns what the library would only log into an exception: after an error the rest of the page is drawn wrong."""

    def emit(self, record: logging.LogRecord) -> None:
        raise DrawingFailed(record.getMessage())


@contextmanager
def _fatal_log() -> Iterator[None]:
    logger = logging.getLogger("weasyprint")
    handler = _Raise(level=logging.ERROR)
    logger.addHandler(handler)
    propagate, logger.propagate = logger.propagate, False
    try:
        yield
    finally:
        logger.removeHandler(handler)
        logger.propagate = propagate


@contextmanager
def _collector_at_rest() -> Iterator[None]:
    """Layout makes many objects and keeps them: looking for garbage meanwhile costs a tenth of the time."""
    working = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if working:
            gc.enable()


def _refuse_foreign_fonts(document: Any) -> None:
    """Raises DrawingFailed where a sign is missing from the product's fonts, or another font has come in."""
    for font in document.fonts.values():
        missing = getattr(font, "missing", None)
        if missing:
            signs = ", ".join(repr(sign) for sign in list(missing)[:5])
            raise DrawingFailed(f"the fonts lack {signs}")


def _set_preferences(pdf: Any) -> None:
    """Asks the print dialog for actual size and for paper of the pages' own size."""
    import pydyf

    preferences = pdf.catalog.get("ViewerPreferences") or pydyf.Dictionary()
    preferences["PrintScaling"] = "/None"
    preferences["PickTrayByPDFSize"] = "true"
    preferences["DisplayDocTitle"] = "true"
    pdf.catalog["ViewerPreferences"] = preferences
