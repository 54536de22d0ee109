"""Outlines that were drawn in another program: read, split into edges at their corners, and named. Millimetres."""

from dataclasses import replace

from publisher.drafting.bench import Asker, Bench, unusable
from publisher.drawings import Drawing, DrawnOutline, outline_of, read_drawing
from publisher.frozen import dataclass
from publisher.geometry import Path
from publisher.source import WrittenDrawing, WrittenPiece
from publisher.terms import Place, Unusable, did_you_mean

NEAR = 1e-6  # mm


@dataclass(frozen=True, slots=True)
class DrawnEdge:
    """An edge of a drawn outline, counter-clockwise; `place` is where the drawing or the pattern names it.

    `corner` is the id of what was drawn where it begins.
    """

    name: str
    path: Path
    place: Place
    corner: str | None = None


def drawn_edges(bench: Bench, piece: WrittenPiece, written: WrittenDrawing) -> tuple[DrawnEdge, ...]:
    """The edges of the element, in order round it. Raises Unusable where there is none, or it is no outline."""
    asker = Asker("drawn", str(piece.name), piece.name.place)
    return bench.work_out(asker, lambda: _edges(bench, piece, written))


def _edges(bench: Bench, piece: WrittenPiece, written: WrittenDrawing) -> tuple[DrawnEdge, ...]:
    drawing = drawing_of(bench, written)
    outline, told = outline_of(drawing, written.element)
    if outline is None:
        raise Unusable(told[0])
    edges = _split(outline)
    names = [edge.name for edge in edges]
    for key, _ in written.edges:
        if str(key) not in names:
            raise unusable(
                "no-such-edge",
                key.place,
                f"the drawing of '{piece.name}' has no edge called '{key}'",
                did_you_mean(key, names),
            )
    renamed = {str(key): name for key, name in written.edges}
    return tuple(
        replace(edge, name=str(renamed[edge.name]), place=renamed[edge.name].place) if edge.name in renamed else edge
        for edge in edges
    )


def drawing_of(bench: Bench, written: WrittenDrawing) -> Drawing:
    """The drawing that an outline is taken from, read once. Raises Unusable."""
    asker = Asker("drawing", str(written.file), written.file.place)
    return bench.work_out(asker, lambda: _drawing(bench, written))


def _drawing(bench: Bench, written: WrittenDrawing) -> Drawing:
    files = dict(bench.source.drawings)
    content = files.get(str(written.file))
    if content is None:
        raise unusable(
            "missing-file",
            written.file.place,
            f"the pattern folder has no {written.file}",
            did_you_mean(written.file, files) if files else "put the drawing into the folder images/",
        )
    drawing, told = read_drawing(content, str(written.file))
    if drawing is None:
        raise Unusable(told[0])
    bench.told.extend(told)
    return drawing


def _split(outline: DrawnOutline) -> list[DrawnEdge]:
    """Stretches with ids as they are; a closed shape of one piece at its corners, as `edge 1`, `edge 2` and so on."""
    if len(outline.stretches) > 1:
        return [
            DrawnEdge(stretch.id or f"edge {at}", stretch.path, stretch.place, _corner_id(outline, stretch.path))
            for at, stretch in enumerate(outline.stretches, start=1)
        ]
    runs: list[list[int]] = []
    for at, joint in enumerate(outline.joints):
        if joint.is_corner or not runs:
            runs.append([])
        runs[-1].append(at)
    if len(runs) > 1 and not outline.joints[0].is_corner:
        runs[-1] += runs.pop(0)  # the outline begins in the middle of an edge
    segments = outline.path.segments
    return [
        DrawnEdge(f"edge {at}", Path(tuple(segments[one] for one in run)), outline.place, outline.joints[run[0]].id)
        for at, run in enumerate(runs, start=1)
    ]


def _corner_id(outline: DrawnOutline, path: Path) -> str | None:
    return next((joint.id for joint in outline.joints if (joint.point - path.start).length < NEAR), None)
