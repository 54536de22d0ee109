"""Cut lines of curves as they stand in the PDF: parallels of curves that the pattern tells, reckoned here with numpy."""

import random

import numpy
import pytest
import shapely
from shapely import LineString

from publisher.drafting import Draft
from tests.edition.test_template_lines import A4, CUT, FINISHED, in_piece, paths_of, printed
from tests.pdfium_reading import Command, ReadPath, lines_of
from tests.specimens import draft_text

ALLOWANCE = 10.0  # mm, of the specimens' usual head
WITHIN = 0.02  # mm in the PDF; of this the parallel may take 0.01
MOST_CUBICS = 8  # for one cubic

PIECE = """
  piece {number}:
    outline:
      points:
        low left: 0 mm, 0 mm
        low right: 150 mm, 0 mm
        high right: 150 mm, {right} mm
        over right: {first[0]} mm, {first[1]} mm
        over left: {second[0]} mm, {second[1]} mm
        high left: 0 mm, {left} mm
      edges:
        base: line from low left to low right
        right: line from low right to high right
        top: curve from high right to high left by over right and over left
        left: line from high left to low left
    copies:
      only: canvas
"""

Handles = tuple[tuple[float, float], ...]


def some_curve(chance: random.Random) -> Handles:
    """Handles of a top edge that swells up, hollows or swings, nowhere as tight as its allowance."""
    ends, first, second = chance.sample(range(60, 81), 2), chance.randint(90, 115), chance.randint(35, 60)
    high, higher = chance.randint(75, 120), chance.randint(75, 120)
    return (150.0, float(ends[0])), (float(first), float(high)), (float(second), float(higher)), (0.0, float(ends[1]))


def drafted(curves: list[Handles]) -> Draft:
    """The pattern of these curves, in metric; no finding about them."""
    pieces = (
        PIECE.format(number=at, right=curve[0][1], first=curve[1], second=curve[2], left=curve[3][1])
        for at, curve in enumerate(curves)
    )
    draft, findings = draft_text("pieces:" + "".join(pieces))
    assert [finding for finding in findings if draft.variant in finding.variants] == []
    return draft


def parallel(curve: Handles, by: float) -> numpy.ndarray:
    """Dense points on the curve's exact parallel, to the right of its way; the curve itself for nought."""
    at = numpy.linspace(0, 1, 4001)[:, None]
    one, two, three, four = (numpy.array(handle) for handle in curve)
    spots = (1 - at) ** 3 * one + 3 * (1 - at) ** 2 * at * two + 3 * (1 - at) * at**2 * three + at**3 * four
    speeds = 3 * ((1 - at) ** 2 * (two - one) + 2 * (1 - at) * at * (three - two) + at**2 * (four - three))
    return spots + by * numpy.stack([speeds[:, 1], -speeds[:, 0]], axis=1) / numpy.hypot(*speeds.T)[:, None]


def curve_of(paths: list[ReadPath]) -> tuple[ReadPath, int]:
    """The curved stretch of these lines by itself, and the cubics that it takes."""
    for path in paths:
        curved = [at for at, command in enumerate(path.commands) if command.operator == "c"]
        if curved:
            before = path.commands[curved[0] - 1]
            assert curved == list(range(curved[0], curved[-1] + 1))
            start = Command("m", before.points[-1:])
            commands = (start, *path.commands[curved[0] : curved[-1] + 1])
            return ReadPath(commands, False, True, False, path.width, (), None, 0), len(curved)
    raise AssertionError("no curve among these lines")


def test_cut_lines_of_new_curves_in_the_pdf_are_their_exact_parallels_in_few_cubics() -> None:
    seed = random.SystemRandom().randrange(2**32)
    print(f"seed {seed}")
    chance = random.Random(seed)
    curves = [some_curve(chance) for _ in range(12)]
    pages, content = printed([drafted(curves)], A4)
    worst, most, seen = 0.0, 0, 0
    for page, sheet in zip(pages, lines_of(content), strict=True):
        for form, placed in enumerate(page.placed):
            curve = curves[int(placed.piece.split()[1])]
            for width, by in ((CUT, ALLOWANCE), (FINISHED, 0.0)):
                paths = [path for path in paths_of(sheet, form) if path.width == pytest.approx(width, abs=1e-3)]
                line, cubics = curve_of(paths)
                exact = LineString(parallel(curve, by))
                read = numpy.array([in_piece(placed, spot) for spot in line.flattened()])
                # The mitres at its ends run straight on from the curve: what lies beyond its ends is not part of it.
                within = (read[:, 0] > 2) & (read[:, 0] < 148)
                worst = max(worst, float(shapely.distance(exact, shapely.points(read[within])).max()))
                most = max(most, cubics)
            seen += 1
    assert seen == len(curves)
    assert worst < WITHIN
    assert most <= MOST_CUBICS
