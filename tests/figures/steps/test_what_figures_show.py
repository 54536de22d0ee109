"""What single figures of the demos must show, measured from their scenes: what is cut, which face is up, what lies where."""

import math
from dataclasses import replace

import pytest
import shapely

from publisher.drafting import Draft
from publisher.figures.steps import Panel, facts_of, lay_out, panels_of
from publisher.figures.steps.values import Look, Shape, Texture
from publisher.geometry import Path
from publisher.terms import UnitSystem
from tests.demo import demo_proof
from tests.figures.steps.drawn_demos import LETTERS, drawn_demo
from tests.specimens import found, prove_text

METRIC = UnitSystem.METRIC
INTERFACING = Texture.INTERFACING


def panel_of(demo: str, step: int, kind: str) -> Panel:
    """The first panel of a kind in a step's figure."""
    panels = next(panels for _, one, panels, _ in drawn_demo(demo, METRIC) if one.number == step)
    return next(panel for panel in panels if panel.kind == kind)


def words_of(panel: Panel) -> list[str]:
    letters = LETTERS[METRIC]
    return [letters.say(callout.words).replace("\u00a0", " ").replace("\n", " ") for callout in panel.scene.callouts]


def drawn(panel: Panel, look: Look) -> list[Path]:
    return [shape.path for shape in panel.scene.shapes if shape.look is look]


def as_line(path: Path) -> shapely.LineString:
    return shapely.LineString([(spot.x, spot.y) for spot in path.flattened(0.02)])


def as_area(shape: Shape) -> shapely.Geometry:
    return shapely.Polygon([(spot.x, spot.y) for spot in shape.path.flattened(0.02)]).buffer(0)


def draft_of(demo: str) -> Draft:
    return demo_proof(demo).drafts_of(METRIC)[0]


@pytest.mark.parametrize(
    ("demo", "step"), [("sanderling-lined-pouch", 6), ("avocet-sun-hat", 6), ("dunlin-workshop-apron", 16)]
)
def test_what_is_trimmed_is_cloth_on_both_sides_of_the_cut(demo: str, step: int) -> None:
    panel = panel_of(demo, step, "trim and clip")
    cloth = as_area(panel.scene.shapes[0])
    for cut in drawn(panel, Look.CUT):
        assert as_line(cut).intersection(cloth).length > 0.95 * cut.length
        assert as_line(cut).intersection(cloth.boundary.buffer(0.1)).length < 0.1 * cut.length


def test_the_fold_of_the_cloth_is_not_cut() -> None:
    panel = panel_of("dunlin-workshop-apron", 1, "cutting")
    half = draft_of("dunlin-workshop-apron").piece("apron").half
    assert half is not None
    assert half.fold_edge is not None
    fold = half.edge(half.fold_edge).path
    near = as_line(fold).buffer(0.1)
    assert [as_line(cut).intersection(near).length < 1.0 for cut in drawn(panel, Look.CUT)] == [True]
    assert sum(cut.length for cut in drawn(panel, Look.CUT)) == pytest.approx(half.cut_line.length - near_length(half))
    assert "fold, not cut" in words_of(panel)


def near_length(half) -> float:  # type: ignore[no-untyped-def]
    """How long the cut line runs along the fold: from hem to hem, mm."""
    fold = half.edge(half.fold_edge).path
    middle, along = fold.point_at(0.0), fold.direction_at(0.0)
    parts = half.cut_line.segments
    on_it = [part for part in parts if max(abs((spot - middle).cross(along)) for spot in (part.start, part.end)) < 0.01]
    return sum((part.end - part.start).length for part in on_it)


def test_of_a_piece_that_was_turned_out_the_other_face_is_seen() -> None:
    panel = panel_of("sanderling-lined-pouch", 12, "placement")
    assert words_of(panel)[:2] == ["flap lining, right side", "body back, right side"]
    textures = {shape.texture.value for shape in panel.scene.shapes if shape.texture is not None}
    assert textures == {"right side", "lining"}


def test_wadding_has_no_right_side() -> None:
    assert words_of(panel_of("turnstone-tool-roll", 3, "layers"))[1] == "roll wadding"


def test_a_covering_layer_has_a_corner_turned_back() -> None:
    panel = panel_of("curlew-wash-bag", 18, "placement")
    assert words_of(panel) == ["panel lid lining, right side", "panel lid, wrong side"]
    lid = as_area(panel.scene.shapes[0])
    assert lid.contains(shapely.Point(panel.scene.callouts[1].at.x, panel.scene.callouts[1].at.y))


def test_hems_of_one_depth_share_a_drawing() -> None:
    """Both sides of the apron, 12 mm of 79 cm: turned edges heavy, how they are stitched magnified."""
    panel = panel_of("dunlin-workshop-apron", 11, "hem")
    assert len(drawn(panel, Look.FOLDED)) == 2
    detail = panel.scene.detail
    assert detail is not None
    assert sum(shape.look is Look.STITCHING for shape in detail.shapes) == 2
    assert LETTERS[METRIC].say(detail.callouts[0].words) == "right side and left side, turned and stitched"


def test_a_strip_is_shown_at_both_its_ends() -> None:
    panel = panel_of("curlew-wash-bag", 9, "placement")
    hinge, _tab, *strips = (shape.path.box for shape in panel.scene.shapes if shape.closed)
    assert [min(strip.left - hinge.left, hinge.right - strip.right) for strip in strips] == pytest.approx([0.0, 0.0])


def test_the_ends_of_a_loop_lie_level_with_the_raw_edge() -> None:
    panel = panel_of("sanderling-lined-pouch", 8, "placement")
    body, loop = (shape.path.box for shape in panel.scene.shapes if shape.closed and shape.texture is not None)
    assert loop.right == pytest.approx(body.right)


def test_a_cord_runs_within_its_casings() -> None:
    panel = panel_of("dunlin-workshop-apron", 21, "threading")
    facings = [as_area(shape) for shape in panel.scene.shapes if shape.look is Look.BEFORE_FOLDED and shape.closed]
    ways = drawn(panel, Look.CORD_WITHIN)
    assert len(ways) == 2
    for way in ways:
        spot = way.point_at(way.length / 2)
        inside = [facing for facing in facings if facing.contains(shapely.Point(spot.x, spot.y))]
        # Half of the casing's 29 mm lies on either side of it, but for the fold of its outer edge.
        assert inside
        assert inside[0].boundary.distance(shapely.Point(spot.x, spot.y)) == pytest.approx(14.5, abs=0.3)


def test_a_cord_through_what_is_no_casing_has_no_figure_and_half_a_sentence_is_told() -> None:
    pattern = "pieces:\n  bag:\n    outline:\n      rectangle: 20 cm by 10 cm\n    copies:\n      only: canvas\n"
    proof, _ = prove_text(pattern, "1. Cut.\n   Does: cut all\n2. Draw.\n   Does: thread bag through bag\n3. Press.\n")
    draft = proof.drafts_of(METRIC)[0]
    assembly = proof.assembly_of(draft.variant)
    assert panels_of(draft, facts_of(assembly, assembly.steps[1])) == ()
    _, findings = prove_text(pattern, "1. Draw.\n   Does: thread bag\n")
    assert found(findings, "unfinished-action").says == "thread bag through what?"


def test_the_parts_beside_a_zip_are_as_high_together_as_the_hinge() -> None:
    panel = panel_of("curlew-wash-bag", 15, "seam onto parts")
    draft = draft_of("curlew-wash-bag")
    heights = {name: draft.piece(name).finished_line.box.height for name in ("hinge", "upper panel", "wall")}
    by_height = {round(shape.path.box.height, 1): shape.path.box for shape in panel.scene.shapes}
    allowances = {"upper panel": 16.0, "wall": 16.0}  # 1 cm, and 6 mm beside the zip, which is sewn already
    upper, wall = (by_height[round(heights[name] + allowances[name] - 6.0, 1)] for name in ("upper panel", "wall"))
    # From the raw edge of the one to that of the other: 110 mm and an allowance of 1 cm at either end.
    assert upper.top - wall.bottom == pytest.approx(heights["hinge"] + 20.0, abs=0.1)
    assert upper.bottom > wall.top


def test_a_hat_is_as_wide_as_its_edges_are_long() -> None:
    """A ring's circumference is π times its width, whatever it was cut from."""
    draft = draft_of("avocet-sun-hat")
    panel = panel_of("avocet-sun-hat", 15, "finished front")
    widths = sorted(shape.path.box.width for shape in panel.scene.shapes)
    brim, band = draft.piece("brim"), draft.piece("band")
    assert widths[-1] == pytest.approx(brim.edge("outer edge").length / math.pi, rel=2e-3)
    assert widths[0] == pytest.approx(draft.piece("crown").finished_line.length / math.pi, rel=2e-3)
    assert widths[1] == pytest.approx(band.edge("lower edge").length / math.pi, rel=2e-3)


def test_the_back_of_what_is_finished_differs_from_its_front() -> None:
    for demo, step in (
        ("sanderling-lined-pouch", 16),
        ("avocet-sun-hat", 15),
        ("dunlin-workshop-apron", 22),
        ("curlew-wash-bag", 24),
    ):
        front, back = (panel_of(demo, step, f"finished {side}") for side in ("front", "back"))
        assert front.scene.shapes != back.scene.shapes


def test_only_the_last_step_shows_all_that_was_assembled() -> None:
    for demo in ("sanderling-lined-pouch", "dunlin-workshop-apron"):
        figures = drawn_demo(demo, METRIC)
        last = max(step.number for _, step, _, _ in figures)
        shows = {step.number for _, step, panels, _ in figures for panel in panels if panel.kind == "finished front"}
        assert shows == {last}


def test_a_step_may_show_what_is_assembled_so_far() -> None:
    pattern = "pieces:\n  mat:\n    outline:\n      rectangle: 20 cm by 10 cm\n    copies:\n      only: canvas\n"
    proof, _ = prove_text(pattern, "1. Cut.\n   Does: cut all\n   Shows: assembled mat\n2. Press.\n")
    draft = proof.drafts_of(METRIC)[0]
    assembly = proof.assembly_of(draft.variant)
    kinds = [panel.kind for panel in panels_of(draft, facts_of(assembly, assembly.steps[0]))]
    assert kinds == ["finished front", "finished back"]


def test_panels_that_follow_one_another_say_so_and_like_ones_do_not() -> None:
    by_step = {step.number: drawing for _, step, _, drawing in drawn_demo("sanderling-lined-pouch", METRIC)}
    signs = {
        number: sum(shape.look is Look.SOLID and abs(shape.path.box.height - 3.6) < 0.01 for shape in drawing.shapes)
        for number, drawing in by_step.items()
    }
    assert (signs[2], signs[3], signs[8]) == (0, 0, 3)  # three pieces to mark; two to fuse; fold, fold, fold, place


PLAIN = """\
pieces:
  mat:
    outline:
      rectangle: 20 cm by 10 cm
    allowance:
      all: 0
    copies:
      one: canvas
      other: canvas
seams:
  rim seam:
    join:
      - mat one.top edge
      - mat other.top edge
notions:
  thread:
    name: Thread
"""


@pytest.mark.parametrize("does", ["fold mat one.top edge", "bind rim seam with mat one", "open thread"])
def test_what_has_nothing_to_show_is_passed_over(does: str) -> None:
    """An edge with nothing to fold; what is no strip; what is no zip."""
    proof, findings = prove_text(PLAIN, f"1. Cut.\n   Does: cut all\n2. Sew.\n   Shows: {does}\n3. Press.\n")
    assert [one.says for one in findings if one.name == "no-such-name"] == []
    draft = proof.drafts_of(METRIC)[0]
    assembly = proof.assembly_of(draft.variant)
    assert panels_of(draft, facts_of(assembly, assembly.steps[1])) == ()


def test_a_half_that_runs_from_fold_to_fold_in_one_curve_is_cut_along_it() -> None:
    draft = draft_of("avocet-sun-hat")
    (step, *_) = demo_proof("avocet-sun-hat").assembly_of(draft.variant).steps
    cut = replace(step.actions[0], target="crown outside")
    facts = replace(
        facts_of(demo_proof("avocet-sun-hat").assembly_of(draft.variant), step), step=replace(step, shows=(cut,))
    )
    (panel,) = panels_of(draft, facts)
    crown = draft.piece("crown")
    # Half of the circle with an allowance of 1 cm all round.
    radius = crown.finished_line.length / math.tau + 10.0
    assert sum(path.length for path in drawn(panel, Look.CUT)) == pytest.approx(math.pi * radius, rel=1e-3)


def caption_of(panel: Panel) -> str | None:
    return None if panel.caption is None else LETTERS[METRIC].say(panel.caption)


def test_a_strip_folded_in_half_is_as_wide_as_a_ruler_shows_then() -> None:
    """Cut 7 cm wide; 2.5 cm are left when its allowance of 1 cm is sewn."""
    panel = panel_of("avocet-sun-hat", 13, "fold-in-half")
    assert [LETTERS[METRIC].say(one.says).replace("\u00a0", " ") for one in panel.scene.dimensions] == ["3.5 cm"]


def test_what_is_fused_is_seen_where_the_piece_is_folded_wrong_side_out() -> None:
    """The interfacing ends at the finished line: where the fold is half of it lies up."""
    draft = draft_of("avocet-sun-hat")
    assembly = demo_proof("avocet-sun-hat").assembly_of(draft.variant)
    step = next(one for one in assembly.steps if one.number == 4)
    sewn = tuple(action for action in step.actions if action.target == "brim seam")
    (panel,) = panels_of(draft, replace(facts_of(assembly, step), step=replace(step, shows=sewn)))
    backed = [one for one in panel.scene.shapes if one.texture is INTERFACING]
    brim = draft.piece("brim").finished_line
    (half,) = backed
    assert as_area(half).area == pytest.approx(as_area(replace(half, path=brim)).area / 2, rel=0.05)


def test_the_stitches_of_a_seam_are_not_hidden_by_what_ends_at_it() -> None:
    panel = panel_of("avocet-sun-hat", 6, "trim and clip")
    (backed,) = (one for one in panel.scene.shapes if one.texture is INTERFACING)
    assert backed.look is None
    assert len(drawn(panel, Look.STITCHED)) == 1


@pytest.mark.parametrize(
    ("step", "captions"),
    [
        (5, ["Drawn flat, as if the back seam were open."]),
        (  # the crown is no ring
            9,
            [
                None,
                "Drawn flat, as if the back seam were open.",
                "In the same way: crown lining and band lining",
            ],
        ),
        (10, [None, "Drawn flat, as if the back seam were open."]),
        (
            14,
            [
                "Drawn flat, as if its ends were not sewn together.",
                "Drawn flat, as if the back seam were open.",
                None,
            ],
        ),
    ],
)
def test_what_is_drawn_flat_says_so_in_the_words_of_the_steps(step: int, captions: list[str | None]) -> None:
    panels = next(panels for _, one, panels, _ in drawn_demo("avocet-sun-hat", METRIC) if one.number == step)
    assert [caption_of(panel) for panel in panels] == captions


def test_what_is_done_in_the_same_way_is_told_by_its_pieces() -> None:
    assert caption_of(panel_of("dunlin-workshop-apron", 16, "trim and clip")) == "In the same way: facing left"


def test_how_far_apart_snips_are_is_told_beyond_the_raw_edge() -> None:
    """The crown's rim: 1 cm of allowance all round."""
    panel = panel_of("avocet-sun-hat", 10, "trim and clip")
    assert panel.scene.detail is not None
    (apart,) = panel.scene.detail.dimensions
    raw = as_line(panel.scene.shapes[0].path)
    assert [raw.distance(shapely.Point(end.x, end.y)) for end in (apart.start, apart.end)] == pytest.approx(
        [0, 0], abs=0.1
    )
    assert apart.away > 2


@pytest.mark.parametrize(
    ("step", "kind", "word"),
    [(9, "placement", "apron, right side"), (11, "hem", "apron, wrong side"), (15, "seam", "apron, right side")],
)
def test_a_leader_ends_well_clear_of_what_lies_on_a_piece(step: int, kind: str, word: str) -> None:
    """Of the apron, 74 cm by 79 cm: 3 cm from any pocket and from the facing."""
    panel = panel_of("dunlin-workshop-apron", step, kind)
    named = next(one for one, words in zip(panel.scene.callouts, words_of(panel), strict=True) if words == word)
    # Pockets on the other face are seen by their stitches.
    first, *others = [shape for shape in panel.scene.shapes if shape.look is not None]
    spot = shapely.Point(named.at.x, named.at.y)
    assert as_area(first).contains(spot)
    assert min(as_line(shape.path).distance(spot) for shape in (first, *others)) > 30


def test_of_a_left_and_a_right_one_the_nearer_to_the_words_is_named() -> None:
    panel = panel_of("dunlin-workshop-apron", 22, "finished back")
    spots = dict(zip(words_of(panel), (one.at for one in panel.scene.callouts), strict=True))
    middle = (panel.scene.shapes[0].path.box.left + panel.scene.shapes[0].path.box.right) / 2
    assert "facing right" not in spots
    assert min(spots["facing left"].x, spots["cord"].x) > middle


def test_words_stand_at_the_side_of_what_they_name_beside_a_circle_too() -> None:
    """The facing lies on the armhole at the right; its leader passes above the circle."""
    panels = next(panels for _, one, panels, _ in drawn_demo("dunlin-workshop-apron", METRIC) if one.number == 15)
    drawing = lay_out(panels, LETTERS[METRIC])
    left = {text.text: text.box.left for text in drawing.texts}
    assert left["facing right,"] > drawing.width / 2 > left["apron,"]


def test_a_narrow_edge_folded_in_is_magnified() -> None:
    panel = panel_of("dunlin-workshop-apron", 14, "fold")
    assert panel.scene.dimensions == ()
    assert panel.scene.detail is not None
    assert len(panel.scene.detail.dimensions) == 1
