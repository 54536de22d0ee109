"""Reads drawings made elsewhere (SVG) at their true size: outlines and marks by the ids of their elements, in mm."""

from publisher.drawings.marks import marks_of
from publisher.drawings.outlines import outline_of
from publisher.drawings.pictures import NoPicture, Picture, measure_picture, printable_picture
from publisher.drawings.reader import read_drawing
from publisher.drawings.values import (
    Drawing,
    DrawnJoint,
    DrawnLine,
    DrawnMark,
    DrawnOutline,
    DrawnPoint,
    DrawnStretch,
)

__all__ = [
    "Drawing",
    "DrawnJoint",
    "DrawnLine",
    "DrawnMark",
    "DrawnOutline",
    "DrawnPoint",
    "DrawnStretch",
    "NoPicture",
    "Picture",
    "marks_of",
    "measure_picture",
    "outline_of",
    "printable_picture",
    "read_drawing",
]
