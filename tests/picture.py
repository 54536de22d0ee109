"""The README's picture: three pages of the demo side by side. `python tests/picture.py` (needs Pillow and pdftoppm)."""

import subprocess
import tempfile
from pathlib import Path

from PIL import Image

from publisher.commands import run

ROOT = Path(__file__).parents[1]
DEMO = "sanderling-lined-pouch"


def main() -> None:
    """Publishes the demo and writes tests/pictures/pages.png."""
    with tempfile.TemporaryDirectory() as folder:
        run(["publish", str(ROOT / "content" / DEMO), "--edition", "inch-letter", "--into", folder])
        pdf = Path(folder) / DEMO / f"{DEMO}-inch-letter.pdf"
        subprocess.run(["pdftoppm", "-r", "42", "-png", "-gray", str(pdf), f"{folder}/page"], check=True)
        pages = sorted(Path(folder).glob("page-*.png"))
        images = [Image.open(pages[at]).convert("L") for at in (0, 6, len(pages) - 3, len(pages) - 1)]
        gap = 8
        width = sum(image.width for image in images) + gap * (len(images) + 1)
        sheet = Image.new("L", (width, images[0].height + 2 * gap), 160)
        left = gap
        for image in images:
            sheet.paste(image, (left, gap))
            left += image.width + gap
        (ROOT / "tests" / "pictures").mkdir(exist_ok=True)
        sheet.quantize(16).save(ROOT / "tests" / "pictures" / "pages.png", optimize=True)


if __name__ == "__main__":
    main()
