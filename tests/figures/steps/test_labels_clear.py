"""Over all demos: no label's box crosses a line, lies on cloth's pattern or another label, or leaves its figure."""

from collections.abc import Iterator

import shapely

from publisher.figures.steps.values import Drawing
from publisher.geometry import Box
from tests.figures.steps.drawn_demos import all_drawn

HAIR = 0.05  # mm that a box may touch a line by


def shrunk(box: Box) -> shapely.Geometry:
    return shapely.box(box.left + HAIR, box.bottom + HAIR, box.right - HAIR, box.top - HAIR)


def crossed(drawing: Drawing) -> Iterator[str]:
    lines = [
        shapely.LineString([(spot.x, spot.y) for spot in shape.path.flattened(0.02)])
        for shape in drawing.shapes
        if shape.look is not None
    ]
    areas = [
        shapely.Polygon([(spot.x, spot.y) for spot in shape.path.flattened(0.02)]).buffer(0)
        for shape in drawing.shapes
        if shape.texture is not None
    ]
    boxes = [shrunk(text.box) for text in drawing.texts]
    for at, (text, box) in enumerate(zip(drawing.texts, boxes, strict=True)):
        if any(line.intersects(box) for line in lines):
            yield f"a line crosses '{text.text}'"
        if any(area.intersects(box) for area in areas):
            yield f"cloth lies under '{text.text}'"
        if any(box.intersects(other) for other in boxes[:at]):
            yield f"a label lies on '{text.text}'"
        if text.box.left < 0 or text.box.bottom < 0 or text.box.right > drawing.width or text.box.top > drawing.height:
            yield f"'{text.text}' leaves the figure"


def test_labels_keep_clear() -> None:
    assert [f"{which}: {what}" for which, _, _, drawing in all_drawn() for what in crossed(drawing)] == []


def test_figures_are_as_wide_as_a_step_has_room() -> None:
    assert [which for which, _, _, drawing in all_drawn() if drawing.width > 146.0] == []
