"""The ink of every text of a PDF as PDFium reads it: boxes of the signs themselves, mm, y down, page by page."""

import ctypes
import itertools
from collections.abc import Iterator
from dataclasses import dataclass

import pypdfium2
import pypdfium2.raw as pdfium

MM = 25.4 / 72


@dataclass(frozen=True)
class InkText:
    """A run of text set at one go: the box of its ink, no more; where it stands; `tag` is its marked content (or -1)."""

    text: str
    left: float
    top: float
    right: float
    bottom: float
    baseline: float
    tag: int


@dataclass(frozen=True)
class _Sign:
    sign: str
    left: float
    top: float
    right: float
    bottom: float
    baseline: float


def inks_of(pdf_bytes: bytes) -> list[tuple[InkText, ...]]:
    """The runs of text of every page; a run that is only white is none."""
    with pypdfium2.PdfDocument(pdf_bytes) as document:
        return [tuple(_runs(document[at])) for at in range(len(document))]


def _runs(page: pypdfium2.PdfPage) -> Iterator[InkText]:
    text, height = page.get_textpage(), page.get_height()
    signs = range(pdfium.FPDFText_CountChars(text.raw))
    drawn = ((at, pdfium.FPDFText_GetTextObject(text.raw, at)) for at in signs)
    # A sign that PDFium adds, between lines or words, belongs to no object.
    for _, run in itertools.groupby(((at, one) for at, one in drawn if one), key=lambda pair: _address(pair[1])):
        members = list(run)
        found = [_sign(text.raw, at, height) for at, _ in members]
        inked = [one for one in found if one.sign.strip()]
        if inked:
            yield InkText(
                text="".join(one.sign for one in found).strip(),
                left=min(one.left for one in inked),
                top=min(one.top for one in inked),
                right=max(one.right for one in inked),
                bottom=max(one.bottom for one in inked),
                baseline=inked[0].baseline,
                tag=pdfium.FPDFPageObj_GetMarkedContentID(members[0][1]),
            )


def _address(thing: object) -> int | None:
    return ctypes.cast(thing, ctypes.c_void_p).value  # type: ignore[arg-type]


def _sign(text: object, at: int, height: float) -> _Sign:
    left, right, low, high, x, y = (ctypes.c_double() for _ in range(6))
    assert pdfium.FPDFText_GetCharBox(text, at, left, right, low, high)
    assert pdfium.FPDFText_GetCharOrigin(text, at, x, y)
    return _Sign(
        chr(pdfium.FPDFText_GetUnicode(text, at)),
        left.value * MM,
        (height - high.value) * MM,
        right.value * MM,
        (height - low.value) * MM,
        (height - y.value) * MM,
    )
