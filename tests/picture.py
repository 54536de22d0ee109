"""The README's picture: pages of both demos, a row each, inches above metric. `python tests/picture.py` (needs Pillow)."""

import sys
from pathlib import Path

import pypdfium2
from PIL import Image

ROOT = Path(__file__).parents[1]
sys.path.insert(0, str(ROOT))

from tests.demo import printed_demo  # noqa: E402

DPI = 42
FINER = 4  # drawn so much larger, then reduced: PDFium sets small signs on whole dots
GAP = 8
GREY = 160
# Demo and edition, and words by which each page is found: cover, steps, templates.
ROWS = (
    (
        "sanderling-lined-pouch",
        "inch-letter",
        ("For paper of size", "Turn the flap right side out", "Template page 1 of", "Template page 3 of"),
    ),
    (
        "turnstone-tool-roll",
        "metric-a4",
        ("For paper of size", "Close the pleats", "Template page 4 of", "Template page 9 of"),
    ),
)


def page_images(pdf_bytes: bytes, words: tuple[str, ...]) -> list[Image.Image]:
    """The last page that bears each of the words."""
    with pypdfium2.PdfDocument(pdf_bytes) as document:
        texts = [" ".join(page.get_textpage().get_text_range().split()) for page in document]
        found = [max(at for at, text in enumerate(texts) if wanted in text) for wanted in words]
        large = [document[at].render(scale=FINER * DPI / 72, grayscale=True).to_pil().convert("L") for at in found]
        # Reduced, a thin black line is a pale grey one.
        return [image.reduce(FINER).point(lambda grey: max(255 - (255 - grey) * 7 // 5, 0)) for image in large]


def main() -> None:
    """Prints the demos and writes tests/pictures/pages.png."""
    rows = [page_images(printed_demo(edition, demo).pdf, words) for demo, edition, words in ROWS]
    pitch = max(image.width for row in rows for image in row) + GAP
    heights = [max(image.height for image in row) for row in rows]
    sheet = Image.new("L", (pitch * max(map(len, rows)) + GAP, sum(heights) + GAP * (len(rows) + 1)), GREY)
    top = GAP
    for row, height in zip(rows, heights, strict=True):
        for at, image in enumerate(row):
            sheet.paste(image, (GAP + at * pitch + (pitch - GAP - image.width) // 2, top))
        top += height + GAP
    (ROOT / "tests" / "pictures").mkdir(exist_ok=True)
    sheet.quantize(16).save(ROOT / "tests" / "pictures" / "pages.png", optimize=True)


if __name__ == "__main__":
    main()
