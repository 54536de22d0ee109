"""What to buy, worked out by hand."""

import pytest

from publisher.cloth import lay_out
from publisher.cloth.kept import kept_answer
from publisher.pipeline import prove
from tests.cloth.asking import asked, panel
from tests.specimens import HEAD, draft_text, files, prove_text

PIECES = """\
pieces:
  panel:
    rectangle: 40 cm by 30 cm
    copies:
      front: canvas
      back: canvas
      spare: canvas
"""


def test_length_to_buy_goes_up_to_the_selling_step() -> None:
    proof, _findings = prove_text(PIECES)
    metric = proof.cloths[1]
    (layout,) = metric.layouts
    # 42 × 32 cm cut; 110 − 2 cm usable holds two beside each other (42 + 0.3 + 42), so two rows: 32 + 0.3 + 32 cm.
    assert layout.usable_width == pytest.approx(1080)
    assert layout.used_length == pytest.approx(643)
    assert layout.needed_length == pytest.approx(668)  # 2.5 cm for squaring up
    assert layout.buy_length == pytest.approx(700)
    inch = proof.cloths[0].layouts[0]
    # 30 cm is 11 3/4 in to the eighth, 12 1/2 in cut; 40 in usable holds two beside each other: two rows and 1/8 in
    # between are 25 1/8 in, with 1 in for squaring up 26 1/8: 3/4 yd.
    assert inch.needed_length == pytest.approx(26.125 * 25.4)
    assert inch.buy_length == pytest.approx(27 * 25.4)


def test_cloth_shrinks_across_too() -> None:
    """Two panels of 42 cm lie beside each other on 88 cm, and no longer once 90 cm of cloth have lost a twentieth."""
    narrow = HEAD.replace("110 cm wide", "90 cm wide")
    shrunk = narrow.replace("    sold:", "    shrinkage: 5%\n    sold:")
    layouts = []
    for head in (narrow, shrunk):
        proof, findings = prove("specimen", files(PIECES, "", head))
        assert proof is not None, findings
        layouts += proof.cloths[1].layouts
    before, after = layouts
    assert (before.usable_width, after.usable_width) == (pytest.approx(880), pytest.approx(835))
    assert (before.used_length, after.used_length) == (pytest.approx(643), pytest.approx(320 + 3 + 320 + 3 + 320))


def test_fat_quarters_are_counted() -> None:
    """A fat quarter is sold as 18 × 21 in, or 50 × 55 cm (common practice, no source): one 42 × 32 cm panel each."""
    quarters = HEAD.replace("42 in wide | 110 cm wide", "fat quarter")
    proof, findings = prove("specimen", files(PIECES, "", quarters))
    assert proof is not None, findings
    assert [row.precuts for tables in proof.tables for row in tables.materials] == [(("fat quarter", 3),)] * 2


def test_precuts_shrink_both_ways_and_say_what_lies_on_which() -> None:
    """A fat quarter of 55 × 50 cm that loses a tenth is 49.5 × 45 cm: two of 42 × 22 cm lie on it, by the row no third."""
    quarters = HEAD.replace("42 in wide | 110 cm wide", "fat quarter").replace(
        "    sold:", "    shrinkage: 10%\n    sold:"
    )
    small = PIECES.replace("40 cm by 30 cm", "40 cm by 20 cm")
    proof, findings = prove("specimen", files(small, "", quarters))
    assert proof is not None, findings
    (layout,) = proof.cloths[1].layouts
    assert (layout.usable_width, layout.precut_length) == (pytest.approx(495), pytest.approx(450))
    assert (layout.precut_count, layout.used_length) == (2, pytest.approx(900))
    assert sorted((one.sheet, one.y) for one in layout.laid) == [(1, 0), (1, pytest.approx(223)), (2, 0)]
    assert all(one.y + one.length <= 450 for one in layout.laid)
    wide = prove("specimen", files(PIECES.replace("40 cm by 30 cm", "48 cm by 20 cm"), "", quarters))[1]
    assert "piece-wider-than-cloth" in {finding.name for finding in wide}


def test_long_strip_is_pieced_or_told() -> None:
    strip = """\
        pieces:
          tie:
            strip:
              finished width: 2 cm
              length: 2.4 m
              fold: in fourths
              joins: {joins}
            copies:
              only: canvas
        """
    proof, findings = prove_text(strip.format(joins="allowed"))
    assert "strip-too-long" not in [finding.name for finding in findings]
    (plan,) = proof.cloths[1].strips
    # 242 cm of 8 cm strip from 108 cm: 3 × 108 − 2 × 8 = 308 ≥ 242 > 2 × 108 − 8.
    assert (plan.count, plan.joins, plan.join_loss) == (3, "diagonal", pytest.approx(80))
    _, findings = prove_text(strip.format(joins="none"))
    names = [finding.name for finding in findings]
    assert "strip-too-long" in names
    assert "piece-wider-than-cloth" not in names


def test_piece_wider_than_the_cloth_is_told_once_for_both_systems() -> None:
    proof, findings = prove_text(PIECES.replace("40 cm", "140 cm"))
    (finding,) = [
        finding for finding in findings if finding.name == "piece-wider-than-cloth" and "front" in finding.says
    ]
    assert len(finding.variants) == 2
    assert [layout.laid for layout in proof.cloths[0].layouts] == []


MORE = """\
  tab:
    rectangle: 120 cm by 5 cm
    copies:
      only: canvas
  patch:
    rectangle: 5 cm by 5 cm
    copies:
      only: canvas
"""


def test_every_piece_that_is_too_wide_is_told() -> None:
    _, findings = prove_text(PIECES.replace("40 cm", "140 cm") + MORE)
    told = sorted(finding.says.split("'")[1] for finding in findings if finding.name == "piece-wider-than-cloth")
    assert told == ["panel back", "panel front", "panel spare", "tab"]


def test_a_kept_layout_longer_than_rows_asks_for_no_more_cloth() -> None:
    pattern = """\
    pieces:
      patch:
        rectangle: 20 cm by 10 cm
        allowance: 0
        copies:
          only: canvas, cut 2
    """
    (by_rows,) = lay_out(draft_text(pattern)[0])[0].layouts
    assert (by_rows.arranged_by, by_rows.used_length) == ("rows", pytest.approx(100))
    draft = draft_text(pattern)[0]
    below = b"[[0, 0, 0, 0, 0], [0, 0, 103, 0, 0]]"  # 203 mm long, which holds and is no better
    question = asked([panel(200, 100)] * 2, by_rows.usable_width, 3.0)
    assert kept_answer(((question.name, below),), question) is not None
    (layout,) = lay_out(draft, ((question.name, below),))[0].layouts
    assert layout == by_rows
