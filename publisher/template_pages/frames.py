"""The part of a template page where everything prints, and what the first page keeps for checking the printer."""

from publisher.template_pages.values import Frame, Paper

# Printers leave 3 to 6.35 mm white, some 12.7 mm at the foot (published attribute samples of printers; the laser
# figures are from memory): 10 mm clears all but the last.
UNPRINTABLE = 10.0
# What the header and the footer of a template page take inside the printable area.
HEADER = 7.0
FOOTER = 9.0
# Two columns of squares and a card standing upright: see figures/check_block.py.
CHECK_BLOCK_WIDTH = 180.0
CHECK_BLOCK_HEIGHT = 88.0


def frame_of(paper: Paper) -> Frame:
    """The frame of a template page, mm."""
    return Frame(
        left=UNPRINTABLE,
        top=UNPRINTABLE + HEADER,
        width=paper.width - 2 * UNPRINTABLE,
        height=paper.height - 2 * UNPRINTABLE - HEADER - FOOTER,
    )


def check_block_of(frame: Frame) -> Frame:
    """Where the squares and the card stand on the first template page, mm."""
    return Frame(frame.left, frame.top, min(CHECK_BLOCK_WIDTH, frame.width), CHECK_BLOCK_HEIGHT)
