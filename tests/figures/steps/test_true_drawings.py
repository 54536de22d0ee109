"""Over all demos: figures show the copies that they name, in their true proportions, and no two steps show the same."""

import re
from collections.abc import Iterator

import pytest
import svgelements

from publisher.figures.pdf_writer import shown
from publisher.figures.steps import drawing_svg, lay_out
from publisher.figures.steps.cloth import Bench
from publisher.terms import UnitSystem
from tests.demo import DEMOS, demo_proof
from tests.figures.steps.drawn_demos import LETTERS, drawn_demo

# What is drawn whole: the first of a panel's copies, as it lies flat.
WHOLE = (
    "piece",
    "fuse",
    "placement",
    "seam",
    "topstitch",
    "notion",
    "stitched lines",
    "quilting",
    "basting",
    "threading",
)


def boxes_in(svg: str) -> Iterator[tuple[float, float]]:
    """Width and height, mm, of each path, as another library reads it."""
    for data in re.findall(r' d="([^"]*)"', svg):
        left, low, right, high = svgelements.Path(data).bbox()
        yield right - left, high - low


@pytest.mark.parametrize("units", UnitSystem)
@pytest.mark.parametrize("demo", DEMOS)
def test_a_figure_holds_the_outline_of_the_copy_it_names_to_scale(demo: str, units: UnitSystem) -> None:
    """Read back from the SVG: somewhere a path is exactly as wide and as high as the copy is by the draft."""
    draft = demo_proof(demo).drafts_of(units)[0]
    tried = 0
    for which, step, panels, _ in drawn_demo(demo, units):
        for panel in panels:
            if panel.kind not in WHOLE or not panel.copies:
                continue
            drawing = lay_out([panel], LETTERS[units])
            boxes = list(boxes_in(drawing_svg(drawing, "")))
            copies = [panel.copies[-1]] if panel.kind in ("placement", "fuse") else panel.copies[:1]
            for state in (step.before, step.after):
                copy = copies[0] if panel.kind != "fuse" else panel.copies[1]
                box = Bench(draft, state).outline(copy).box
                wanted = box.width * drawing.scales[0], box.height * drawing.scales[0]
                if any(abs(w - wanted[0]) < 0.02 and abs(h - wanted[1]) < 0.02 for w, h in boxes):
                    tried += 1
                    break
            else:
                pytest.fail(f"{which}: {panel.kind} does not show '{copy}', {wanted}")
    assert tried > 3


@pytest.mark.parametrize("units", UnitSystem)
@pytest.mark.parametrize("demo", DEMOS)
def test_no_two_steps_share_a_drawing(demo: str, units: UnitSystem) -> None:
    """Unlike actions and states are drawn unlike, words and all; and within a figure no panel comes twice."""
    seen: dict[str, str] = {}
    for which, _, panels, drawing in drawn_demo(demo, units):
        svg = drawing_svg(drawing, "")
        assert svg not in seen, f"{which} is drawn as {seen.get(svg)}"
        seen[svg] = which
        parts = [drawing_svg(lay_out([panel], LETTERS[units]), "") for panel in panels]
        assert len(set(parts)) == len(parts), f"{which} draws a panel twice"


@pytest.mark.parametrize("demo", DEMOS)
def test_like_actions_on_other_copies_are_drawn_unlike(demo: str) -> None:
    """No panel of a step is that of another step, but for the folds of strips that are folded alike."""
    seen: dict[str, str] = {}
    for which, _, panels, _ in drawn_demo(demo, UnitSystem.METRIC):
        for panel in panels:
            svg = drawing_svg(lay_out([panel], LETTERS[UnitSystem.METRIC]), LETTERS[UnitSystem.METRIC].say(panel.told))
            assert svg not in seen, f"{which}: {panel.kind} is drawn in {seen.get(svg)}"
            seen[svg] = which


@pytest.mark.parametrize("demo", DEMOS)
def test_a_drawing_is_named_by_what_it_shows(demo: str) -> None:
    """The text alternative names every copy that the panel shows."""
    letters = LETTERS[UnitSystem.INCH]
    for which, _, panels, _ in drawn_demo(demo, UnitSystem.INCH):
        for panel in panels:
            told = letters.say(panel.told)
            assert told.endswith("."), f"{which}: {told}"
            assert "{" not in told
            assert not panel.copies or any(_name(copy) in told for copy in panel.copies[:1]), f"{which}: {told}"


def _name(copy: str) -> str:
    """Pieces are named where all their copies are meant."""
    return copy.split(" ")[0]


def test_numbers_are_short() -> None:
    assert [shown(value) for value in (1.0, 0.12345, -0.0001)] == ["1", "0.123", "0"]
