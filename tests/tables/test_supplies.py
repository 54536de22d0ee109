"""Supplies that the pattern asks for: zips, needles, feet, spare length. The values are common practice, no source."""

import re
from html import unescape

import pytest

from publisher.drafting.goods import SORTS, WEIGHTS
from publisher.edition.printed import set_edition, speaker_of
from publisher.pipeline import prove
from publisher.tables import Supplies, joining_tools, tabulate
from publisher.template_pages import DEFAULT_EDITIONS
from publisher.terms import Phrase, read_length
from tests.demo import demo_proof
from tests.specimens import HEAD, files
from tests.tables.specimen_tables import THREE, proved

PANEL = """\
pieces:
  panel:
    rectangle: 8 in by 12 in | 20 cm by 30 cm
    copies:
      front: canvas
      back: canvas
      lining: cotton
"""
ZIP = """\
notions:
  zip:
    kind: zip
    name: Zip
    length: {length}
    tape width: 1 1/8 in | 28 mm
"""
RULER = Phrase.of("tools.ruler")  # for what is cut by measure, as PANEL is
ATTACHED = """\
## Sew
1. Sew the zip on.
   Does: attach {what} at panel front.top edge
"""


def supplies(pattern: str, steps: str = "", head: str = THREE) -> tuple[Supplies, Supplies]:
    """Those of a pattern, inch and metric."""
    proof, findings = prove("specimen", files(pattern, steps, head))
    assert proof is not None, findings
    inch, metric = proof.tables
    return inch.supplies, metric.supplies


@pytest.mark.parametrize(
    ("length", "stocked", "longer"),
    [
        ("16 in | 40 cm", (True, True), (("18 in", "20 in"), ("45 cm", "50 cm"))),
        ("15 in | 38 cm", (False, False), (("16 in", "18 in"), ("40 cm", "45 cm"))),
        ("7 in | 18 cm", (True, True), (("8 in", "9 in"), ("20 cm", "22 cm"))),
        ("36 in | 90 cm", (True, True), ((), ())),
    ],
)
def test_longer_zips_that_may_be_cut_down(
    length: str, stocked: tuple[bool, bool], longer: tuple[tuple[str, ...], tuple[str, ...]]
) -> None:
    for each, usual, lengths, tape in zip(
        supplies(ZIP.format(length=length) + PANEL), stocked, longer, ("1 1/8 in", "28 mm"), strict=True
    ):
        (told,) = each.zips
        assert told.stocked is usual
        assert told.longer == tuple(map(read_length, lengths))
        assert told.tape == read_length(tape)


def test_a_zip_without_a_length_has_no_substitute() -> None:
    assert supplies(ZIP.replace("    length: {length}\n", "") + PANEL)[0].zips == ()


def test_a_zip_that_is_sewn_on_needs_its_foot_unless_it_is_listed() -> None:
    pattern, steps = ZIP.format(length="16 in | 40 cm") + PANEL, ATTACHED.format(what="zip")
    foot = (RULER, Phrase.of("tools.zip-foot"))
    assert [each.tools for each in supplies(pattern, steps)] == [foot, foot]
    assert [each.tools for each in supplies(pattern)] == [(RULER,), (RULER,)]  # no step attaches it
    for listed in ("zip foot", "Zipper foot, if you have one", "adjustable zip-foot"):
        assert supplies(f"tools:\n  - {listed}\n" + pattern, steps)[0].tools == (RULER,)


@pytest.mark.parametrize(
    ("kind", "tool", "listed"),
    [
        ("button", "hand-needle", "hand needle"),
        ("eyelet", "setter", "eyelet setter and hammer"),
        ("rivet", "setter", "setting tool"),
    ],
)
def test_tools_that_set_notions(kind: str, tool: str, listed: str) -> None:
    pattern = f"notions:\n  small:\n    kind: {kind}\n    name: It\n    count: 1\n" + PANEL
    steps = ATTACHED.format(what="small")
    assert supplies(pattern, steps)[0].tools == (RULER, Phrase.of(f"tools.{tool}"))
    assert supplies(f"tools:\n  - {listed}\n" + pattern, steps)[0].tools == (RULER,)


CASED = """\
notions:
  elastic:
    kind: elastic
    name: Flat elastic
    width: 3/4 in | 2 cm
    length: 22 in | 56 cm
pieces:
  panel:
    rectangle: 8 in by 12 in | 20 cm by 30 cm
    hems:
      top edge: casing for elastic.width, turned under 1/4 in
    copies:
      front: canvas
      lining: cotton
"""


def test_what_draws_elastic_through_a_casing() -> None:
    assert supplies(CASED)[0].tools == (RULER, Phrase.of("tools.bodkin"))
    assert supplies("tools:\n  - safety pin\n" + CASED)[0].tools == (RULER,)


DRAWN = PANEL.replace("    rectangle:", "    outline:\n      rectangle:")


@pytest.mark.parametrize(
    ("pattern", "listed", "tools"),
    [
        (PANEL, "- scissors", ["ruler"]),
        (PANEL, "- scissors\n  - quilter's ruler", []),
        (DRAWN, "- scissors", ["paper-scissors"]),
        (DRAWN, "- Paper scissors", []),
        (DRAWN.replace("front: canvas", "front: canvas, rough by 2 cm"), "- paper scissors", ["ruler"]),
        (PANEL, "- ruler\n  - rotary cutter", ["cutting-mat"]),
        (PANEL, "- ruler\n  - rotary cutter and cutting mat", []),
    ],
)
def test_tools_to_cut_out_and_to_measure_with(pattern: str, listed: str, tools: list[str]) -> None:
    told = supplies(f"tools:\n  {listed}\n" + pattern)[0].tools
    assert told == tuple(Phrase.of(f"tools.{tool}") for tool in tools)


@pytest.mark.parametrize(
    ("tiled", "listed", "tools"),
    [(False, (), 0), (True, ("pins",), 1), (True, ("Sticky tape",), 0), (True, ("tape measure",), 1)],
)
def test_tape_joins_the_pages_of_a_large_template(tiled: bool, listed: tuple[str, ...], tools: int) -> None:
    assert joining_tools(tiled, listed) == (Phrase.of("tools.tape"),) * tools


def test_a_length_is_bought_with_something_to_spare() -> None:
    """22 + 1 in, up to 3/4 yd, which is 27 in; 56 + 2.5 cm, up to 60. Of three: 69 in, up to 2 yd; 175.5, up to 180."""
    three = CASED.replace("name: Flat", "count: 3\n    name: Flat")
    for text, yards, metres in ((CASED, "3/4 yd", "60 cm"), (three, "2 yd", "180 cm")):
        inch, metric = proved(text)[0]
        assert [row.buy for row in (*inch.notions, *metric.notions)] == [read_length(yards), read_length(metres)]
        assert [row.spare for row in (*inch.notions, *metric.notions)] == [read_length("1 in"), read_length("25 mm")]


def test_what_is_bought_by_the_piece_has_no_such_length() -> None:
    (row,) = proved(ZIP.format(length="16 in | 40 cm") + PANEL)[0][0].notions
    assert (row.buy, row.spare) == (None, None)


HEAVY = THREE.replace("name: Canvas\n", "name: Canvas\n    weight: {canvas}\n").replace(
    "name: Plain cotton\n", "name: Plain cotton\n    weight: {cotton}\n"
)


def test_needle_and_thread_by_the_weight_of_the_cloth() -> None:
    told = supplies(PANEL, head=HEAVY.format(canvas="heavy", cotton="light, knit"))[0].needles
    assert [(one.materials, one.needle, one.thread) for one in told] == [
        (("canvas",), Phrase.of("needles.heavy"), Phrase.of("threads.heavy")),
        (("cotton",), Phrase.of("needles.light-knit"), Phrase.of("threads.light")),
    ]
    (one,) = supplies(PANEL, head=HEAVY.format(canvas="medium", cotton="medium"))[0].needles
    assert one.materials == ("canvas", "cotton")
    assert supplies(PANEL)[0].needles == ()  # no weight is stated
    assert (
        supplies("tools:\n  - machine needle, 90/14\n" + PANEL, head=HEAVY.format(canvas="heavy", cotton="light"))[
            0
        ].needles
        == ()
    )


def test_coated_cloth_is_held_by_clips() -> None:
    head = HEAVY.format(canvas="medium, coated", cotton="light")
    assert supplies(PANEL, head=head)[0].tools == (RULER, Phrase.of("tools.clips"))
    assert supplies("tools:\n  - sewing clips\n" + PANEL, head=head)[0].tools == (RULER,)


@pytest.mark.parametrize(
    ("said", "says"),
    [
        ("hevy", "no weight called 'hevy'"),
        ("heavy, kint", "no weight called 'kint'"),
        ("heavy, knit, coated", "a cloth is of one sort"),
    ],
)
def test_a_weight_that_is_none(said: str, says: str) -> None:
    _, findings = prove("specimen", files(PANEL.replace("cotton", "canvas"), "", HEAD + f"    weight: {said}\n"))
    finding = next(finding for finding in findings if finding.name == "no-such-weight")
    assert says in finding.says
    assert finding.place is not None
    assert finding.place.line == HEAD.count("\n") + 1


def _text(html: str) -> str:
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]*>", " ", html)).replace("\N{NO-BREAK SPACE}", " "))


def test_the_edition_tells_supplies_and_no_tool_twice() -> None:
    proof = demo_proof("curlew-wash-bag")
    for edition, words in zip(
        DEFAULT_EDITIONS,
        (
            (
                "zip, 16 in 18 in or 20 in 1 1⁄8 in",
                "From the stops at its head, where the slider is, measure the length of the first towards the foot",
                "cut the zip 3⁄4 in beyond these stitches, on the side of the foot",
                "For canvas and cotton: an 80/12 needle",
            ),
            ("zip, 40 cm 45 cm or 50 cm 2.8 cm", "cut the zip 2 cm beyond these stitches", "all-purpose thread."),
        ),
        strict=True,
    ):
        text = _text(set_edition(proof, edition).html)
        assert all(one in text for one in words), [one for one in words if one not in text]
        tools = text[text.index("Tools") : text.index("Cutting chart")]
        assert tools.count("zip foot") == 1  # steps may name it, too


def test_every_sort_of_cloth_has_its_words() -> None:
    speak = speaker_of(demo_proof(), DEFAULT_EDITIONS[0])
    for weight in WEIGHTS:
        assert speak.has(f"threads.{weight}")
        assert all(speak.has(f"needles.{weight}{sort}") for sort in ("", *(f"-{one}" for one in SORTS)))


def test_tables_without_steps_have_the_tools_for_cutting_alone() -> None:
    proof = demo_proof("curlew-wash-bag")
    assert tabulate(proof.drafts[0], proof.cloths[0]).supplies.tools == (Phrase.of("tools.paper-scissors"), RULER)
