"""Photographs: how large they are, and made ready for print. The one door to Pillow."""

import io
from typing import Any

from publisher.frozen import dataclass

LARGEST_SIDE = 20_000  # pixels; more is a bomb, or a mistake
MOST_PIXELS = 60_000_000
PRINTED_AT = 220  # pixels to the inch that are kept: more is not seen on paper
KINDS = ("JPEG", "PNG")


class NoPicture(Exception):
    """What cannot be read as a photograph; says why."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A photograph's pixels across and down, upright."""

    width: int
    height: int


def measure_picture(content: bytes) -> Picture:
    """The size of a photograph, without reading all of it. Raises NoPicture."""
    with _opened(content) as image:
        turned = image.getexif().get(0x0112, 1) in (5, 6, 7, 8)  # the camera was held upright
        width, height = image.size[::-1] if turned else image.size
        return Picture(width, height)


def printable_picture(content: bytes, width: float) -> bytes:
    """The photograph as a plain JPEG, upright, no finer than print shows at a width in mm. Raises NoPicture."""
    from PIL import Image, ImageOps

    with _opened(content) as image:
        try:
            upright = ImageOps.exif_transpose(image).convert("RGB")
        except (OSError, SyntaxError, ValueError) as reason:
            raise NoPicture("it is damaged") from reason
        across = min(upright.width, round(width / 25.4 * PRINTED_AT))
        down = max(round(upright.height * across / upright.width), 1)
        kept = io.BytesIO()
        upright.resize((across, down), Image.Resampling.LANCZOS).save(kept, "JPEG", quality=88)
        return kept.getvalue()


def _opened(content: bytes) -> Any:
    from PIL import Image

    try:
        image = Image.open(io.BytesIO(content), formats=KINDS)
    except Exception as reason:  # the library raises whatever it stumbles over
        raise NoPicture("it is no JPEG or PNG") from reason
    wide, high = image.size
    if max(wide, high) > LARGEST_SIDE or wide * high > MOST_PIXELS:
        raise NoPicture(f"it has {wide} × {high} pixels, more than a page can use")
    return image
