"""One figure of each kind as text: what it tells, its words and where they stand, its shapes and the room they take."""

from collections.abc import Callable, Iterator

from publisher.figures.steps import Drawing, Panel, lay_out
from publisher.terms import UnitSystem
from tests.figures.steps.drawn_demos import LETTERS, drawn_demo

# In this order: the first figure of a kind is the one that is kept.
DEMOS = ("sanderling-lined-pouch", "turnstone-tool-roll", "avocet-sun-hat", "dunlin-workshop-apron", "curlew-wash-bag")
KINDS = {
    "bag",
    "bag in bag",
    "bias block",
    "bias block ruled",
    "bias square",
    "band turned up",
    "folded over",
    "rolled",
    "basting",
    "binding begun",
    "binding joined",
    "facing stitched",
    "facing turned",
    "finished back",
    "finished front",
    "folded from the zip",
    "parts between",
    "seam onto parts",
    "threading",
    "understitching",
    "understitching from above",
    "corner cut off",
    "eased edge",
    "marked folded",
    "pinned through",
    "tip folded in",
    "zip end",
    "zip end section",
    "zip open",
    "zip trimmed",
    "binding folded over",
    "binding sewn on",
    "box pleat section",
    "boxed corner",
    "corner to box",
    "cutting",
    "edge to sew",
    "edges pressed in",
    "end turned in",
    "fold",
    "fold-crease",
    "fold-in-half",
    "fold-once-more",
    "fold-to-the-crease",
    "folded seam",
    "fuse",
    "gap closed",
    "hem",
    "hem section",
    "inverted pleat section",
    "join",
    "layers",
    "mitre folded down",
    "mitre folded up",
    "notion",
    "piece",
    "placement",
    "pleats",
    "quilting",
    "rough cut",
    "seam",
    "seam section",
    "snap section",
    "snipped edge",
    "stitched lines",
    "topstitch",
    "trim",
    "trim and clip",
    "turning",
    "ring",
    "ring on",
    "set in",
    "zip",
    "zip section",
}


def first_of_each_kind() -> dict[str, Panel]:
    found: dict[str, Panel] = {}
    for demo in DEMOS:
        for _, _, panels, _ in drawn_demo(demo, UnitSystem.METRIC):
            for panel in panels:
                found.setdefault(panel.kind, panel)
    return found


def as_text(panel: Panel, drawing: Drawing) -> Iterator[str]:
    letters = LETTERS[UnitSystem.METRIC]
    yield letters.say(panel.told)
    yield f"{drawing.width:.1f} × {drawing.height:.1f} mm at {drawing.scales[0]:.4f}"
    for text in drawing.texts:
        yield f"text  {text.box.left:6.1f} {text.box.bottom:6.1f}  {text.text}{' (bold)' if text.bold else ''}"
    for shape in drawing.shapes:
        box = shape.path.box
        room = " ".join(f"{value:6.1f}" for value in (box.left, box.bottom, box.right, box.top))
        what = ", ".join(one.value for one in (shape.texture, shape.look) if one is not None)
        yield f"shape {room}  {what}"


def test_one_figure_of_each_kind(golden: Callable[[str, str], None]) -> None:
    panels = first_of_each_kind()
    assert set(panels) == KINDS
    for kind, panel in panels.items():
        drawing = lay_out([panel], LETTERS[UnitSystem.METRIC])
        golden(kind.replace(" ", "-"), "\n".join(as_text(panel, drawing)).replace("-0.0", " 0.0") + "\n")
