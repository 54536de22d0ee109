"""Photographs of steps: printed with what they show; what is missing, coarse or unreadable is told."""

import io

import pikepdf
import pytest
from PIL import Image

from publisher.drawings import measure_picture, printable_picture
from publisher.edition import print_edition
from publisher.pipeline import prove
from publisher.template_pages import DEFAULT_EDITIONS
from publisher.terms import Finding
from tests.specimens import files

PATTERN = """
pieces:
  towel:
    outline:
      rectangle: 30 cm by 20 cm
    copies:
      only: canvas
"""


def picture(width: int, height: int, kind: str = "PNG", **more: object) -> bytes:
    kept = io.BytesIO()
    Image.new("RGB", (width, height), "grey").save(kept, kind, **more)
    return kept.getvalue()


def told(says: str, content: bytes | None) -> list[Finding]:
    folder = dict(files(PATTERN, f"1. Cut.\n   Does: cut all\n   Does: press towel\n   Shows: {says}\n"))
    if content is not None:
        folder["images/towel.png"] = content
    return [finding for finding in prove("specimen", folder)[1] if finding.name == "photograph-unfit"]


def test_a_photograph_that_is_fine_enough_is_not_spoken_of() -> None:
    """100 mm at 150 pixels to the inch are 591 pixels."""
    assert told("images/towel.png, the towel", picture(600, 400)) == []


@pytest.mark.parametrize(
    ("says", "content", "fault"),
    [
        ("images/towel.png, the towel", picture(590, 400), "590 pixels wide, 150 to the inch"),
        ("images/towel.png, the towel", picture(300, 200), "300 pixels wide, 76 to the inch"),
        ("images/towel.png", picture(600, 400), "nothing says what"),
        ("images/towle.png, the towel", picture(600, 400), "no photograph 'images/towle.png'"),
        ("images/towel.png, the towel", b"a towel", "no JPEG or PNG"),
        ("images/towel.png, the towel", None, "no photograph 'images/towel.png'"),
    ],
)
def test_what_is_wrong_with_a_photograph_is_told(says: str, content: bytes | None, fault: str) -> None:
    (finding,) = told(says, content)
    assert fault in finding.says
    assert finding.place.line == 4


def test_a_photograph_stands_in_the_pdf_with_its_description() -> None:
    folder = dict(files(PATTERN, "1. Cut.\n   Does: cut all\n   Shows: images/towel.png, the towel, cut\n"))
    folder["images/towel.png"] = picture(1200, 800)
    proof, _ = prove("specimen", folder)
    assert proof is not None
    made = print_edition(proof, DEFAULT_EDITIONS[1])
    with pikepdf.open(io.BytesIO(made.pdf)) as pdf:
        told = [str(one.Alt) for one in pdf.objects if isinstance(one, pikepdf.Dictionary) and "/Alt" in one]
        images = {one.objgen: one for page in pdf.pages for one in page.images.values()}
        sizes = [(int(one.Width), int(one.Height)) for one in images.values()]
    assert "the towel, cut" in told
    assert sizes == [(866, 577)]  # 100 mm at 220 to the inch


def test_a_photograph_taken_upright_stands_upright() -> None:
    exif = Image.Exif()
    exif[0x0112] = 6  # Exif orientation: turned a quarter
    content = picture(800, 600, "JPEG", exif=exif)
    assert (measure_picture(content).width, measure_picture(content).height) == (600, 800)
    with Image.open(io.BytesIO(printable_picture(content, 50.0))) as printed:
        assert printed.size == (433, 577)
        assert not printed.getexif()
