"""Hems, casings and strips: what they take, against published sums."""

import pytest

from publisher.terms import UnitSystem
from tests.specimens import draft_text, found, pattern_line


def hemmed(said: str, extra: str = "") -> str:
    return f"""
    pieces:
      band:
        outline:
          rectangle: 10 in by 5 in
        hems:
          top edge: {said}
        {extra}
        copies:
          only: canvas
    """


@pytest.mark.parametrize(
    ("said", "takes"),
    [
        # A folded hem takes its finished width and the first turn: Kinne and Cooley, Clothing and Health (1916), lines
        # 3639 to 3641; McGlauflin, Handicraft for Girls (1910), lines 2463 to 2465, agrees.
        ("1 in, turned under 1/4 in", 1.25),
        ("1/2 in, turned twice", 1.0),
        ("3/4 in", 0.75),
        # A casing: elastic + 1/4 in ease + turning (Math-in-CTE casing formula, Utah core standards, Apparel Strand 5).
        ("casing for 1/2 in, turned under 1/4 in", 1.0),
    ],
)
def test_what_a_hem_takes(said: str, takes: float) -> None:
    draft, findings = draft_text(hemmed(said), units=UnitSystem.INCH)
    assert findings == ()
    piece = draft.piece("band")
    assert piece.edge("top edge").allowance == pytest.approx(takes * 25.4)
    assert piece.edge("bottom edge").allowance == pytest.approx(3 / 8 * 25.4)
    assert piece.cut_height == pytest.approx((5 + 3 / 8 + takes) * 25.4)


@pytest.mark.parametrize(
    ("said", "extra", "name", "says", "fragment"),
    [
        ("1 in, turned over", "", "unreadable", "cannot stand here", "turned over"),
        ("0 in", "", "no-length", "a hem of 0 mm", "0 in"),
        (
            "1 in",
            "allowance:\n          top edge: 1 in",
            "hem-and-allowance",
            "has a hem",
            "top edge: 1 in",
        ),
    ],
)
def test_a_hem_that_cannot_be_is_told(said: str, extra: str, name: str, says: str, fragment: str) -> None:
    pattern = hemmed(said, extra)
    finding = found(draft_text(pattern)[1], name)
    assert says in finding.says
    assert finding.place.line == pattern_line(pattern, fragment)


def test_a_hem_of_an_edge_that_is_not_there_is_told() -> None:
    pattern = hemmed("1 in").replace("top edge", "top egde")
    assert "no edge called 'top egde'" in found(draft_text(pattern)[1], "no-such-edge").says


def strip(fold: str, width: str, extra: str = "") -> str:
    return f"""
    allowance: 1/4 in
    pieces:
      band:
        strip:
          finished width: {width}
          length: 20 in
          fold: {fold}
          ends: 0
          {extra}
        copies:
          only: canvas
    """.replace("    allowance: 1/4 in\n", "", 1)


@pytest.mark.parametrize(
    ("fold", "finished", "cut"),
    [
        # A turned band: Kinne and Cooley (1916), lines 2412 to 2414: cut 2 1/2 in with 1/4 in turnings, finished 1 in.
        ("turned", 1.0, 2.5),
        ("doubled", 1.0, 2.5),  # the same, its raw edges sewn in together instead of turned
        # Double fold, four times; edges to the middle and single fold, twice (common practice, no source).
        ("in fourths", 1.0, 4.0),
        ("edges to the centre", 1.0, 2.0),
        ("single fold", 1.0, 2.0),
        ("plain", 1.0, 1.5),
    ],
)
def test_the_cut_width_of_every_folding(fold: str, finished: float, cut: float) -> None:
    pattern = strip(fold, f"{finished} in").replace("copies:", "allowance: 1/4 in\n        copies:")
    draft, findings = draft_text(pattern, units=UnitSystem.INCH)
    assert findings == ()
    piece = draft.piece("band")
    assert piece.cut_height == pytest.approx(cut * 25.4)
    assert piece.strip is not None
    assert piece.strip.finished_width == pytest.approx(finished * 25.4)


def test_thick_cloth_is_added_to_the_cut_width_and_not_to_the_finished_one() -> None:
    draft, findings = draft_text(strip("in fourths", "1 in", "thickness: 1/8 in"), units=UnitSystem.INCH)
    assert findings == ()
    piece = draft.piece("band")
    assert piece.cut_height == pytest.approx(4.125 * 25.4)
    assert piece.strip is not None
    assert piece.strip.finished_width == pytest.approx(25.4)


@pytest.mark.parametrize(
    ("said", "joins"), [("allowed", "diagonal"), ("diagonal", "diagonal"), ("straight", "straight"), ("none", None)]
)
def test_how_a_strip_may_be_joined(said: str, joins: str | None) -> None:
    draft, findings = draft_text(strip("plain", "1 in", f"joins: {said}"))
    assert findings == ()
    piece = draft.piece("band")
    assert piece.strip is not None
    assert piece.strip.joins == joins


def test_another_way_of_joining_is_told() -> None:
    finding = found(draft_text(strip("plain", "1 in", "joins: strait"))[1], "wrong-kind")
    assert "not 'strait'" in finding.says
    assert "'straight'" in finding.mend
