"""Drafting pages: a template told in numbers that a reader can draw by, checked against drawings made on paper."""

import io
import itertools
import math
from functools import cache

import pikepdf
import pytest
import shapely

from publisher.checks import Proof
from publisher.drafting import Piece
from publisher.edition import PrintedEdition, Request, print_edition, set_edition
from publisher.edition.drafting_pages import DraftedPiece, drafting_pages
from publisher.edition.printed import speaker_of
from publisher.figures import LetteredPiece, Style, lettered_piece
from publisher.tables import dimensions
from publisher.template_pages import DEFAULT_EDITIONS, Edition
from publisher.terms import UnitSystem
from tests.demo import demo_proof
from tests.edition.test_page_texts import outside, overlapping
from tests.pdf_reading import texts_of
from tests.specimens import prove_text

INCH, METRIC = DEFAULT_EDITIONS
# A tab 12 cm wide with an arc above: chord 12 cm, height 2 cm, so its radius is (6² + 2²) / (2 · 2) = 10 cm and its
# centre lies 10 cm below the arc's top, 2 cm below the base. A slanted side: 3 cm across and 3 cm up, √18 = 4.243 cm.
TAB = """\
pieces:
  tab:
    outline:
      points:
        low left:  1 in, 2 in | 1 cm, 2 cm
        low right: 13 cm, 2 cm
        top right: 13 cm, 8 cm
        top left:  1 cm, 8 cm
      edges:
        base:  line from low left to low right
        right: line from low right to top right
        crown: arc from top right to top left with height 2 cm
        left:  line from top left to low left
    allowance:
      all: 1 cm
      base: 0
    copies:
      front: canvas
    marks:
      middle: notch at the middle of crown
      ring: point at 4 cm, 5 cm, for front
      crease: fold line at 25 mm from base
  gusset:
    outline:
      points:
        a: 0, 0
        b: 3 in, 3 in | 3 cm, 3 cm
        c: 0, 6 in | 0, 6 cm
      edges:
        up: line from a to b
        back: line from b to c
        side: line from c to a
    copies:
      front: canvas
"""
STAR = """\
pieces:
  star:
    outline:
      points:
        a: 0, 4 cm
        b: 1 cm, 4 cm
        b2: 1.5 cm, 2 cm
        c: 6 cm, 0
        d: 6.5 cm, 2.2 cm
        e: 12 cm, 4 cm
        f: 7 cm, 6 cm
        g: 6 cm, 14 cm
        h: 5 cm, 6 cm
      edges:
        ab: line from a to b
        bb: line from b to b2
        bc: line from b2 to c
        cd: line from c to d
        de: line from d to e
        ef: line from e to f
        fg: line from f to g
        gh: line from g to h
        ha: line from h to a
    allowance: 5 mm
    copies:
      front: canvas
  band:
    outline:
      rectangle: 90 cm by 3 cm
      round:
        right corners: 1 cm
    copies:
      front: canvas
"""
SIZED = """\
sizes:
  - S
  - M
measures:
  head:
    S: 21 1/4 in | 54 cm
    M: 22 1/8 in | 56.5 cm
pieces:
  band:
    outline:
      rectangle: head / 2 by 6 cm
    copies:
      front: canvas
  crown:
    outline:
      rectangle: 6 cm by 6 cm
    copies:
      front: canvas
"""


def _plain(text: str) -> str:
    return text.replace("\xa0", " ")


def _drafted(proof: Proof, edition: Edition) -> list[tuple[str, DraftedPiece]]:
    pages = drafting_pages(proof, edition.units, speaker_of(proof, edition))
    assert pages is not None
    return [(size.title, piece) for size in pages.sizes for piece in size.pieces]


def _corners(piece: DraftedPiece) -> list[tuple[str, ...]]:
    return [
        tuple(map(_plain, (one.name, one.right, one.above, one.edge, one.how, one.allowance))) for one in piece.corners
    ]


@cache
def _demo(edition: Edition) -> PrintedEdition:
    return print_edition(demo_proof(), edition, [Request.DRAFTING_PAGE, Request.PIN_ON_LABELS])


def test_a_piece_in_the_numbers_of_a_drawing_on_paper() -> None:
    """Measured from the box's corner, so 1 cm and 2 cm less than its points say."""
    proof, _ = prove_text(TAB)
    (_, tab), _ = _drafted(proof, METRIC)
    assert [_plain(fact) for fact in tab.facts] == ["Box 12 cm wide, 8 cm high", "grain upwards", "drawn at 1 : 2"]
    assert _corners(tab) == [
        ("A", "0 mm", "0 mm", "base, to B", "straight, 12 cm", "none"),
        ("B", "12 cm", "0 mm", "right, to C", "straight, 6 cm", "1 cm"),
        ("C", "12 cm", "6 cm", "crown, to D", "arc, radius 10 cm, centre 6 cm right, 2 cm down", "1 cm"),
        ("D", "0 mm", "6 cm", "left, to A", "straight, 6 cm", "1 cm"),
    ]
    told = [(mark.name, mark.right, mark.above, mark.end_right, mark.end_above) for mark in tab.marks]
    assert [tuple(map(_plain, line)) for line in told] == [
        ("middle, notch", "6 cm", "8 cm", "", ""),
        ("ring (front), point", "3 cm", "3 cm", "", ""),
        ("crease", "0 mm", "2.5 cm", "12 cm", "2.5 cm"),
    ]


def test_odd_lengths_are_rounded_finer_than_elsewhere() -> None:
    """√18 cm = 42.43 mm: 42.5 mm. √18 in = 4.243 in: 67.9 sixteenths, 4 1/4 in. 12 cm there are 4 3/4 in."""
    proof, _ = prove_text(TAB)
    _, (_, metric) = _drafted(proof, METRIC)
    _, (_, inch) = _drafted(proof, INCH)
    assert [line[:5] for line in _corners(metric)] == [
        ("A", "0 mm", "0 mm", "up, to B", "straight, 4.25 cm"),
        ("B", "3 cm", "3 cm", "back, to C", "straight, 4.25 cm"),
        ("C", "0 mm", "6 cm", "side, to A", "straight, 6 cm"),
    ]
    assert [line[4] for line in _corners(inch)] == ["straight, 4 1⁄4 in", "straight, 4 1⁄4 in", "straight, 6 in"]
    html = _plain(set_edition(proof, INCH, [Request.DRAFTING_PAGE]).html)
    assert "rounded to the nearest 1⁄16 in on these pages" in html
    assert "rounded to the nearest 0.5 mm on these pages" in _plain(
        set_edition(proof, METRIC, [Request.DRAFTING_PAGE]).html
    )


def test_a_very_wide_arc_tells_its_height_too() -> None:
    """Chord 40 cm and height 2 cm: a radius of (20² + 2²) / 4 = 101 cm, beyond any compasses."""
    proof, _ = prove_text(
        TAB.replace("13 cm", "41 cm").replace("1 in, 2 in | 1 cm, 2 cm", "1 cm, 2 cm").split("  gusset:")[0]
    )
    ((_, tab),) = _drafted(proof, METRIC)
    assert _corners(tab)[2][4] == (
        "arc, radius 101 cm, centre 20 cm right, 93 cm down; its middle lies 2 cm from the straight line between its ends"
    )


def _pieces(pattern: str) -> list[Piece]:
    proof = prove_text(pattern)[0]
    return list(proof.drafts_of(UnitSystem.METRIC)[0].pieces)


def _lettered(piece: Piece) -> LetteredPiece:
    return lettered_piece(piece, dimensions(piece), lambda letter: (2.5 * len(letter), 3.5))


DRAWN = [
    *(piece for piece in demo_proof().drafts_of(UnitSystem.METRIC)[0].pieces if piece.grain_line and piece.number < 4),
    *_pieces(TAB),
    *_pieces(STAR),
]


@pytest.mark.parametrize("piece", DRAWN, ids=lambda piece: piece.name)
def test_letters_stand_outside_clear_of_lines_and_of_one_another(piece: Piece) -> None:
    drawing = _lettered(piece)
    height = drawing.figure.height
    boxes = [
        shapely.box(one.left, height - one.top - one.height, one.left + one.width, height - one.top)
        for one in drawing.letters
    ]
    lines = {
        style: [
            shapely.LineString([(point.x, point.y) for point in stroke.path.flattened(0.01)])
            for stroke in drawing.figure.strokes
            if stroke.style is style
        ]
        for style in Style
    }
    (cut_line,) = lines[Style.CUT]
    for box in boxes:
        assert not shapely.Polygon(cut_line).intersects(box)
        for style, drawn in lines.items():
            for line in drawn:
                assert box.distance(line) > (0.1 if style is Style.LEADER else 0.7), style
    for one, other in itertools.combinations(boxes, 2):
        assert one.distance(other) > 0.5
    whole = shapely.box(0, 0, drawing.figure.width, height)
    assert all(whole.contains(box) for box in boxes)
    assert max(piece.cut_line.box.width, piece.cut_line.box.height) / drawing.scale <= 75
    assert drawing.scale >= 2


@pytest.mark.parametrize("piece", DRAWN, ids=lambda piece: piece.name)
def test_corners_go_round_the_piece_from_the_lower_left(piece: Piece) -> None:
    told = dimensions(piece)
    assert [corner.letter for corner in told.corners] == list("ABCDEFGHIJ")[: len(told.corners)]
    assert told.corners[0].at.x + told.corners[0].at.y == min(one.at.x + one.at.y for one in told.corners)
    assert min(corner.at.x for corner in told.corners) > -1e-6
    for corner, side, following in zip(told.corners, told.sides, (*told.corners[1:], told.corners[0]), strict=True):
        assert (side.start, side.end) == (corner.letter, following.letter)
        assert math.dist((side.segment.end.x, side.segment.end.y), (following.at.x, following.at.y)) < 1e-6
        outline = shapely.Polygon([(p.x, p.y) for p in piece.finished_line.flattened(0.01)])
        outside = corner.at + told.lower_left + corner.outward * 0.5
        assert not outline.contains(shapely.Point(outside.x, outside.y))


def test_each_size_has_pages_of_its_own() -> None:
    """The crown is alike in both sizes and drawn once, before them; bands are 27 and 28.25 cm long."""
    proof, _ = prove_text(SIZED)
    told = [(size, piece.title, _corners(piece)[0][4]) for size, piece in _drafted(proof, METRIC)]
    assert told == [
        ("", "2  crown", "straight, 6 cm"),
        ("size S", "1  band", "straight, 27 cm"),
        ("size M", "1  band", "straight, 28.25 cm"),
    ]
    pages = texts_of(print_edition(proof, METRIC, [Request.DRAFTING_PAGE]).pdf)
    told_on = [[text.text for text in page] for page in pages if any(text.text.startswith("Corner") for text in page)]
    assert [[text for text in page if "band" in text or "crown" in text] for page in told_on] == [
        ["2 crown"],
        ["1 band, size S"],
        ["1 band, size M"],
    ]


@pytest.mark.parametrize(("edition", "drawn"), [(INCH, 3), (METRIC, 2)], ids=["inch", "metric"])
def test_pages_of_the_demo(edition: Edition, drawn: int) -> None:
    """Three drawn pieces on two pages behind the steps, on Letter on three, for the flap is too high to stand below the
    lining there; then one page of labels, then the templates."""
    more = drawn + 1
    printed = _demo(edition)
    plain = print_edition(demo_proof(), edition)
    assert printed.pages == plain.pages + more
    pages = texts_of(printed.pdf)
    first = printed.pages - printed.template_pages - more
    assert any(text.text == "Draw the templates by hand" for text in pages[first])
    for page in pages[first : first + more]:
        assert not overlapping(page)
        assert not outside(page, edition, 9.5)
        assert "Sanderling lined pouch · revision 1.0" in [text.text for text in page]
    with pikepdf.open(io.BytesIO(printed.pdf)) as pdf:
        with pdf.open_outline() as outline:
            assert [item.title for item in outline.root][-5:-3] == ["Draw the templates by hand", "Labels to pin on"]
        alternatives = [str(one.Alt) for one in pdf.objects if isinstance(one, pikepdf.Dictionary) and "/Alt" in one]
        assert "body, small, with its corners lettered A – H" in alternatives


def test_the_pages_that_were_there_before_stay_as_they_were() -> None:
    """Asking for more moves no text of any other page, but for the count of pages and the numbers of the templates'."""
    printed, plain = _demo(METRIC), print_edition(demo_proof(), METRIC)

    def texts(pdf: bytes, pages: slice) -> list[list[tuple[str, float, float]]]:
        return [
            [(text.text, text.left, text.top) for text in page if "age" not in text.text]
            for page in texts_of(pdf)[pages]
        ]

    before = plain.pages - plain.template_pages
    assert texts(printed.pdf, slice(before)) == texts(plain.pdf, slice(before))
    assert texts(printed.pdf, slice(before + 3, None)) == texts(plain.pdf, slice(before, None))


def test_the_same_request_gives_the_same_bytes_in_any_order() -> None:
    again = print_edition(demo_proof(), METRIC, [Request.PIN_ON_LABELS, Request.DRAFTING_PAGE, Request.PIN_ON_LABELS])
    assert again.pdf == _demo(METRIC).pdf
    assert again.made_of == _demo(METRIC).made_of


def test_without_a_drawn_piece_there_is_advice_and_no_page() -> None:
    proof, _ = prove_text("pieces:\n  patch:\n    rectangle: 4 cm by 4 cm\n    copies:\n      only: canvas\n")
    made = set_edition(proof, METRIC, [Request.DRAFTING_PAGE])
    assert [(finding.name, finding.severity.value) for finding in made.findings] == [("nothing-to-draw", "advice")]
    assert made.html == set_edition(proof, METRIC).html


@pytest.mark.parametrize("hemmed", [True, False])
def test_how_the_end_of_a_hem_is_cut_is_told_where_there_is_one(hemmed: bool) -> None:
    """The small drawing shows the end's shape without numbers: the reader folds the paper (common practice)."""
    extra = "    hems:\n      base: 2 cm\n" if hemmed else ""
    proof, _ = prove_text(TAB.replace("      base: 0\n", "").replace("    copies:", f"{extra}    copies:", 1))
    html = set_edition(proof, METRIC, [Request.DRAFTING_PAGE]).html
    assert ("the ends of a hem" in html) is hemmed
