"""Cutting layouts of all demos as they are drawn: true to scale, every cut once, numbers clear of lines."""

from collections import Counter
from collections.abc import Callable, Iterator
from functools import cache

import pytest
import shapely
import shapely.affinity
import shapely.ops

from publisher.cloth import ClothLayout
from publisher.drafting import Draft
from publisher.edition.step_letters import StepLetters
from publisher.edition.words import speaker
from publisher.figures import Drawing, LayoutWords, in_rows, layout_drawing, layout_scale
from publisher.figures.steps.values import DrawnShape, DrawnText, Look
from publisher.geometry import Path
from publisher.terms import Phrase, UnitSystem
from tests.demo import DEMOS, demo_proof

LETTERS = {units: StepLetters(speaker("en", units)) for units in UnitSystem}
WORDS = LayoutWords(
    Phrase.of("layouts.long", amount="70 cm"), Phrase.of("layouts.wide", amount="110 cm"), Phrase("layouts.fold")
)
Drawn = tuple[str, Draft, ClothLayout, Drawing, int]


@cache
def drawn(demo: str, units: UnitSystem) -> tuple[Drawn, ...]:
    proof = demo_proof(demo)
    draft = proof.drafts_of(units)[-1]
    layouts = [layout for layout in proof.cloth_of(draft.variant).layouts if layout.laid]
    scale = layout_scale(layouts, 21.0, [24.0] * len(layouts))
    return tuple(
        (
            f"{demo} {units.value} {layout.material} {layout.precut or round(layout.width)}",
            draft,
            layout,
            layout_drawing(layout, draft, WORDS, LETTERS[units], scale),
            scale,
        )
        for layout in layouts
    )


def every() -> Iterator[Drawn]:
    for demo in DEMOS:
        for units in UnitSystem:
            yield from drawn(demo, units)


def ring(path: Path) -> shapely.Polygon:
    return shapely.Polygon([(spot.x, spot.y) for spot in path.flattened(0.01)])


def cuts(drawing: Drawing) -> list[DrawnShape]:
    """Outlines of pieces; an open one ends on the fold, which closes it."""
    return [shape for shape in drawing.shapes if shape.look is Look.RAW]


@pytest.mark.parametrize("demo", DEMOS)
@pytest.mark.parametrize("units", UnitSystem)
def test_every_cut_is_drawn_once_and_true_to_scale(demo: str, units: UnitSystem) -> None:
    for which, _, layout, drawing, scale in drawn(demo, units):
        middle = layout.usable_width / 2 if layout.folded else 0.0
        half = shapely.box(middle, -1, 10_000, 100_000)
        expected = sorted(
            area for one in layout.laid if (area := ring(one.outline).buffer(0).intersection(half).area) > 1
        )
        found = sorted(ring(shape.path).area * scale**2 for shape in cuts(drawing))
        assert found == pytest.approx(expected, rel=0.02), which


def text_box(text: DrawnText) -> shapely.Geometry:
    return shapely.box(text.box.left, text.box.bottom, text.box.right, text.box.top)


def test_numbers_and_words_keep_clear_of_lines_and_of_each_other() -> None:
    told: list[str] = []
    for which, _, _, drawing, _ in every():
        lines = [
            shapely.LineString([(spot.x, spot.y) for spot in shape.path.flattened(0.02)]) for shape in drawing.shapes
        ]
        boxes = [text_box(text).buffer(-0.05) for text in drawing.texts]
        for at, (text, box) in enumerate(zip(drawing.texts, boxes, strict=True)):
            backing = [shape for shape in drawing.shapes if shape.look is None]
            outlines = [one for one, shape in zip(lines, drawing.shapes, strict=True) if shape not in backing]
            told += [f"{which}: a line crosses {text.text}" for line in outlines if line.intersects(box)]
            told += [f"{which}: {text.text} lies on another" for other in boxes[:at] if other.intersects(box)]
    assert told == [], "\n".join(told)


def test_every_piece_has_its_number() -> None:
    for which, draft, layout, drawing, _ in every():
        number = {copy.name: str(piece.number) for piece in draft.pieces for copy in piece.copies}
        middle = layout.usable_width / 2 if layout.folded else -1.0
        shown = {number[one.copy] for one in layout.laid if one.x + one.width > middle + 1}
        written = Counter(text.text for text in drawing.texts if text.bold)
        assert set(written) == shown, which


def test_rows_are_no_wider_than_the_page() -> None:
    assert in_rows([60.0, 60.0, 20.0, 100.0, 100.0]) == ((0, 1), (2, 3), (4,))  # words take 48 mm below the third
    assert in_rows([]) == ()


KINDS = {
    "strips": ("turnstone-tool-roll", 0),
    "bias square": ("turnstone-tool-roll", 2),
    "precuts": ("curlew-wash-bag", 1),
    "on the fold": ("dunlin-workshop-apron", 2),
}


@pytest.mark.parametrize("kind", KINDS)
def test_a_layout_of_each_kind(kind: str, golden: Callable[[str, str], None]) -> None:
    demo, at = KINDS[kind]
    which, _, _, drawing, scale = drawn(demo, UnitSystem.METRIC)[at]
    lines = [f"{which}, 1 : {scale}, {drawing.width:.1f} × {drawing.height:.1f} mm"]
    for shape in drawing.shapes:
        box, look = shape.path.box, shape.look.value if shape.look else "backing"
        filled = f", {shape.texture.value}" if shape.texture else ""
        lines.append(f"{look}{filled}: {box.left:.1f} {box.bottom:.1f} {box.right:.1f} {box.top:.1f}")
    for text in drawing.texts:
        lines.append(f"'{text.text}' at {text.box.left:.1f} {text.box.bottom:.1f}, {text.points:g} pt")
    golden(f"layout {kind}", "\n".join(lines) + "\n")


def test_the_fold_of_a_template_runs_across_what_is_cut_opened_out() -> None:
    """Of a piece that is mirrored along it, it halves the area."""
    for which, _, layout, drawing, _ in every():
        folds = [shape.path for shape in drawing.shapes if shape.look is Look.FOLD][(1 if layout.folded else 0) :]
        opened = [one for one in layout.laid if one.opened_out]
        assert len(folds) == len(opened), which
        whole = [ring(shape.path) for shape in cuts(drawing)]
        for fold in folds:
            across = shapely.LineString([(fold.start.x, fold.start.y), (fold.end.x, fold.end.y)])
            (area,) = (one for one in whole if one.buffer(0.05).contains(across))
            far = shapely.affinity.scale(across, 100, 100)
            parts = shapely.ops.split(area, far).geoms
            left = sum(one.area for one in parts if shapely.LinearRing([*across.coords, one.centroid.coords[0]]).is_ccw)
            assert left == pytest.approx(area.area / 2, rel=0.02), which
