"""Templates of several sizes on one another: every size's line in the PDF where its formula says, layer by layer."""

import io
import math
import re
from functools import cache

import pikepdf
import pypdfium2
import pytest
import shapely

from publisher.edition import PrintedEdition, print_edition
from publisher.geometry import Point
from publisher.template_pages import DEFAULT_EDITIONS, EDITIONS, Edition, PlacedPiece
from publisher.terms import UnitSystem
from tests.graded import ALLOWANCE, EASE, HEAD, HEIGHT, SIZES, above_advice, cap_proof, radius
from tests.page_measures import crossed, too_near
from tests.pdfium_reading import ReadPath, Spot, lines_of
from tests.pdfium_texts import InkText, inks_of

TRUE = 0.02
CUT, SHARED = 0.5, 0.7
METRIC = DEFAULT_EDITIONS[1]

every_edition = pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.name)
both_units = pytest.mark.parametrize("edition", DEFAULT_EDITIONS, ids=lambda edition: edition.name)


@cache
def printed(edition: Edition) -> PrintedEdition:
    return print_edition(cap_proof(), edition)


def in_piece(placed: PlacedPiece, spot: Spot) -> Spot:
    origin = placed.on_paper(Point(0.0, 0.0))
    right, up = placed.on_paper(Point(1.0, 0.0)) - origin, placed.on_paper(Point(0.0, 1.0)) - origin
    away = Point(*spot) - origin
    return away.dot(right), away.dot(up)


def layers_of(pdf: bytes, page: int) -> list[tuple[str, ...] | None]:
    """Of each form of a page, in drawing order: the sizes that show it, None for one that always shows."""
    found: list[tuple[str, ...] | None] = []
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        resources = opened.pages[page].Resources
        for name in re.findall(rb"/(template\d+) Do", opened.pages[page].Contents.read_bytes()):
            layer = resources.XObject[f"/{name.decode()}"].get("/OC")
            if layer is None:
                found.append(None)
            else:
                groups = layer.OCGs if "/OCGs" in layer else [layer]
                found.append(tuple(str(group.Name) for group in groups))
    return found


def cut_lines(edition: Edition, piece: str, size: str) -> list[tuple[PlacedPiece, list[ReadPath], list[InkText]]]:
    """The cut lines that a reader sees of a size when the other sizes are switched off, on each page of its sheet, and
    the words that tell of it."""
    made = printed(edition)
    pages = cap_proof().pages_of(edition).pages
    first = made.pages - made.template_pages
    read, inks = lines_of(made.pdf), inks_of(made.pdf)
    found = []
    for at, page in enumerate(pages):
        placed = next((one for one in page.placed if one.piece == piece and one.size == size), None)
        if placed is None:
            continue
        layers = layers_of(made.pdf, first + at)
        seen = [
            path
            for path in read[first + at].paths
            if path.form is not None
            and (layers[path.form] is None or size in (layers[path.form] or ()))
            and path.stroked
            and any(path.width == pytest.approx(width, abs=1e-3) for width in (CUT, SHARED))
            and not _is_notch(path)
        ]
        told = [
            text for text in inks[first + at] if text.text == "all sizes" or size in re.split(", | and ", text.text)
        ]
        found.append((placed, seen, told))
    return found


def is_told_in_its_gaps(outline: shapely.LineString, line: tuple[PlacedPiece, list[ReadPath], list[InkText]]) -> bool:
    """True when an outline is drawn once and all along, but for gaps in each of which the size is told."""
    placed, paths, texts = line
    lines = [shapely.LineString([in_piece(placed, spot) for spot in path.flattened()]) for path in paths]
    drawn = shapely.union_all(lines)
    once = sum(one.length for one in lines) == pytest.approx(drawn.length, abs=TRUE)
    words = [in_piece(placed, ((one.left + one.right) / 2, (one.top + one.bottom) / 2)) for one in texts]
    gaps = shapely.get_parts(shapely.line_merge(outline.difference(drawn.buffer(TRUE))))
    told = all(
        any(gap.interpolate(0.5, normalized=True).distance(shapely.Point(*word)) < 1.0 for word in words)
        for gap in gaps
    )
    whole = drawn.length + sum(gap.length for gap in gaps) == pytest.approx(outline.length, abs=3 * TRUE * len(gaps))
    return bool(once and told and whole and len(gaps) > 0 and drawn.difference(outline.buffer(TRUE)).length == 0)


def _is_notch(path: ReadPath) -> bool:
    return path.length < 8 and len(path.commands) == 2 and not path.dashes


@both_units
@pytest.mark.parametrize("size", SIZES)
def test_the_crown_of_every_size_is_a_circle_as_long_as_its_band(edition: Edition, size: str) -> None:
    units = edition.units.value
    wanted = radius(units, size) + ALLOWANCE[units]
    pages = cut_lines(edition, "crown", size)
    assert len(pages) == 2
    circle = shapely.Point(0.0, 0.0).buffer(wanted, quad_segs=400).exterior
    for line in pages:
        placed, paths, _ = line
        away = [math.hypot(*in_piece(placed, spot)) for path in paths for spot in path.flattened()]
        assert max(abs(one - wanted) for one in away) < TRUE
        assert is_told_in_its_gaps(circle, line)


@both_units
@pytest.mark.parametrize("size", SIZES)
def test_the_band_of_every_size_is_a_rectangle_once_round(edition: Edition, size: str) -> None:
    units = edition.units.value
    add = ALLOWANCE[units]
    right, top = (HEAD[units][size] + EASE[units]) / 2 + add, HEIGHT[units] + add
    outline = shapely.box(-add, -add, right, top).exterior
    for line in cut_lines(edition, "band", size):
        assert is_told_in_its_gaps(outline, line)


def test_a_line_that_sizes_share_is_heavier_than_one_of_one_size() -> None:
    made = printed(METRIC)
    first = made.pages - made.template_pages
    read = lines_of(made.pdf)
    at = next(
        at for at, page in enumerate(cap_proof().pages_of(METRIC).pages) if "band" in {one.piece for one in page.placed}
    )
    layers = layers_of(made.pdf, first + at)
    widths: dict[bool, set[float]] = {True: set(), False: set()}
    for path in read[first + at].paths:
        if path.form is not None and path.stroked and path.width > 0.45 and not _is_notch(path):
            sizes = layers[path.form]
            widths[sizes is None or len(sizes) > 1].add(round(path.width, 3))
    assert widths == {True: {SHARED}, False: {CUT}}


def test_lines_of_sizes_are_told_apart_without_colour() -> None:
    made = printed(METRIC)
    first = made.pages - made.template_pages
    (at,) = [at for at, page in enumerate(cap_proof().pages_of(METRIC).pages) if page.placed[0].piece == "crown"][:1]
    layers = layers_of(made.pdf, first + at)
    dashes = {
        layers[path.form]: tuple(round(dash, 2) for dash in path.dashes)
        for path in lines_of(made.pdf)[first + at].paths
        if path.form is not None and layers[path.form] is not None and path.width == pytest.approx(CUT, abs=1e-3)
        if path.stroked and not _is_notch(path)
    }
    assert set(dashes) == {(size,) for size in SIZES}
    assert len(set(dashes.values())) == len(SIZES)
    assert dashes[("S",)] == ()


@every_edition
def test_notches_of_sizes_that_lie_close_are_triangles_each_on_its_own_line(edition: Edition) -> None:
    """Of the cap's crown, radii some 3 mm apart: every triangle stands on its circle and ends 1 mm before the next."""
    made = printed(edition)
    pages = cap_proof().pages_of(edition).pages
    first = made.pages - made.template_pages
    radii = {size: radius(edition.units.value, size) + ALLOWANCE[edition.units.value] for size in SIZES}
    found: list[str] = []
    for at, page in enumerate(pages):
        placed = next((one for one in page.placed if one.piece == "crown"), None)
        if placed is None:
            continue
        layers = layers_of(made.pdf, first + at)
        frame = page.frame
        for path in lines_of(made.pdf)[first + at].paths:
            sizes = layers[path.form] if path.form is not None else None
            corners = [math.hypot(*in_piece(placed, spot)) for spot in path.flattened()[:3]]
            foot = path.flattened()[0]
            here = frame.left < foot[0] < frame.left + frame.width and frame.top < foot[1] < frame.top + frame.height
            if sizes is None or path.stroked or len(path.flattened()) != 4 or not here:
                continue
            (size,) = sizes
            # A foot beside the radius lies off the circle by less than a tenth of its pen.
            assert sorted(corners)[1:] == pytest.approx([radii[size]] * 2, abs=0.05)
            assert min(corners) == pytest.approx(radii[size] - 2.0, abs=0.02)
            assert all(abs(min(corners) - other) > 0.99 for other in radii.values())
            found.append(size)
    # One triangle of the single notch in front, two of the double one behind.
    assert {size: found.count(size) for size in SIZES} == dict.fromkeys(SIZES, 3)


def test_what_all_sizes_share_is_in_no_layer_and_shared_by_some_in_each_of_theirs() -> None:
    made = printed(METRIC)
    first = made.pages - made.template_pages
    pages = cap_proof().pages_of(METRIC).pages
    (at, *_) = [at for at, page in enumerate(pages) if page.placed and page.placed[0].piece == "band"]
    assert {(size,) for size in SIZES} | {None, ("M", "L", "XL"), ("L", "XL")} <= set(layers_of(made.pdf, first + at))


def switched_off(pdf: bytes, *off: str) -> bytes:
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        groups = opened.Root.OCProperties
        groups.D.OFF = pikepdf.Array([group for group in groups.OCGs if str(group.Name) in off])
        groups.D.ON = pikepdf.Array([group for group in groups.OCGs if str(group.Name) not in off])
        saved = io.BytesIO()
        opened.save(saved)
    return saved.getvalue()


def ink(pdf: bytes, page: int) -> int:
    with pypdfium2.PdfDocument(pdf) as document:
        return int((document[page].render(scale=2, grayscale=True).to_numpy() < 128).sum())


def test_a_size_that_is_switched_off_takes_its_lines_and_its_words_along() -> None:
    made = printed(METRIC)
    page = made.pages - 1
    whole = ink(made.pdf, page)
    without = [ink(switched_off(made.pdf, *SIZES[:count]), page) for count in range(1, 5)]
    assert whole > without[0] > without[1] > without[2] > without[3] > 0


def test_the_words_of_sizes_are_black_and_in_their_layers() -> None:
    made = printed(METRIC)
    with pikepdf.open(io.BytesIO(made.pdf)) as opened:
        for page in opened.pages[made.pages - made.template_pages + 1 :]:
            content = page.Contents.read_bytes()
            named = re.findall(rb"/OC /(\w+) BDC\nBT\n.*?\nET\nEMC", content, re.DOTALL)
            assert len(named) >= len(SIZES)
            groups = page.Resources.Properties
            told = {str(groups[f"/{name.decode()}"].get("/Name", "")) for name in named}
            assert set(SIZES) <= told
            assert not [colour for colour in re.findall(rb"(\S+ \S+ \S+) rg", content) if colour != b"0 0 0"]


@every_edition
def test_every_page_of_a_nest_tells_every_size_that_it_shows(edition: Edition) -> None:
    made = printed(edition)
    texts = inks_of(made.pdf)[made.pages - made.template_pages :]
    for page, here in zip(cap_proof().pages_of(edition).pages, texts, strict=True):
        words = {text.text for text in here}
        if any(one.piece == "crown" for one in page.placed):
            assert set(SIZES) <= words
        if any(one.piece == "loop" for one in page.placed) and len(page.placed) == 1:
            assert not set(SIZES) & words


@every_edition
def test_no_word_of_a_nest_lies_on_a_line_or_on_another(edition: Edition) -> None:
    made = printed(edition)
    for number, (texts, lines) in enumerate(zip(inks_of(made.pdf), lines_of(made.pdf), strict=True), start=1):
        assert too_near(texts) == [], number
        if number > made.pages - made.template_pages:
            assert crossed(texts, lines) == [], number


def test_a_pattern_that_has_sizes_is_no_more_findings() -> None:
    assert above_advice(cap_proof().findings) == []
    assert [finding.name for edition in DEFAULT_EDITIONS for finding in printed(edition).findings] == []
    assert {draft.variant.units for draft in cap_proof().drafts} == set(UnitSystem)
