"""What a maker gets wrong in pattern.yaml, each mistake told at its place and mended in words.

The guilty signs stand between guillemets, which the file itself does not hold.
"""

import pytest

from publisher.pipeline import errors_in, prove
from publisher.terms import Place, Severity
from tests.source.marked import PATTERN, REQUIRED, STEPS, folder, marked, read, told, whole_pattern

# The specimen, the finding, what it says, how it is mended. Below each stands what else a pattern needs.
MISTAKES = [
    # Keys.
    ("«mesures»:\n  width: 10 cm", "unknown-key", "no 'mesures' can stand here", "did you mean 'measures'?"),
    ("«Maker»: Me", "unknown-key", "no 'Maker' can stand here", "did you mean 'maker'?"),
    ("«xyz»: 1", "unknown-key", "no 'xyz' can stand here", "known here: 'title', 'maker'"),
    ("maker: Me\n«maker»: You", "doubled-key", "'maker' is written twice; the first stands in line 1", "take one"),
    (
        "measures:\n  width: 10 cm\n  «width»: 11 cm",
        "doubled-key",
        "'width' is written twice; the first stands in line 2",
        "rename it",
    ),
    ("sizes:\n  - S\n  - «S»", "doubled-key", "the size 'S' is listed twice", "take one"),
    ("? «[»width]\n: 10 cm", "wrong-kind", "stands where a name belongs", "plain text"),
    ("measures:\n  «a:b»: 10 cm", "colon-in-name", "'a:b' holds a colon", "behind the first colon"),
    ("finished size:\n  «width:across»: 10 cm", "colon-in-name", "'width:across' holds a colon", "put a space"),
    (
        """\
        materials:
          canvas:
            kind: fabric
            name: Canvas
            «shrinkege»: 4%
            sold:
              - fat quarter
        """,
        "unknown-key",
        "no 'shrinkege' can stand here",
        "did you mean 'shrinkage'?",
    ),
    (
        """\
        pieces:
          flap:
            «grian»: up
            rectangle: 10 cm by 4 cm
            copies:
              only: canvas
        """,
        "unknown-key",
        "no 'grian' can stand here",
        "did you mean 'grain'?",
    ),
    (
        """\
        pieces:
          flap:
            outline:
              rectangle: 10 cm by 4 cm
              «roud»:
                all: 1 cm
            copies:
              only: canvas
        """,
        "unknown-key",
        "no 'roud' can stand here",
        "did you mean 'round'?",
    ),
    (
        """\
        pieces:
          loop:
            strip:
              finished width: 12 mm
              lenght of it: 10 cm
              length: 10 cm
              fold: in fourths
            copies:
              only: canvas
        """.replace("lenght of it", "«lenght»"),
        "unknown-key",
        "no 'lenght' can stand here",
        "did you mean 'length'?",
    ),
    (
        """\
        seams:
          side seam:
            «leave opne»: 8 cm
            join:
              - band.left edge
              - band.right edge
        """,
        "unknown-key",
        "no 'leave opne' can stand here",
        "did you mean 'leave open'?",
    ),
    # What is missing.
    (
        "materials:\n  «canvas»:\n    kind: fabric\n    name: Canvas",
        "missing-key",
        "'canvas' lacks 'sold'",
        "'sold: …'",
    ),
    ("notions:\n  «snap»:\n    count: 1", "missing-key", "'snap' lacks 'name'", "'name: …'"),
    ("pieces:\n  «flap»:\n    rectangle: 10 cm by 4 cm", "missing-key", "'flap' lacks 'copies'", "'copies: …'"),
    (
        """\
        pieces:
          flap:
            «outline»:
              edges:
                base: line from left to right
            copies:
              only: canvas
        """,
        "missing-key",
        "'outline' lacks 'points'",
        "'points: …'",
    ),
    (
        "placements:\n  «patch»:\n    place: band\n    matching:\n      - centre",
        "missing-key",
        "'patch' lacks 'on'",
        "'on: …'",
    ),
    ("«maker»:", "no-value", "'maker' has no value", "behind the colon"),
    ("measures:\n  «width»:\n  depth: 4 cm", "no-value", "'width' has no value", "take the line out"),
    ("measures:\n  width: «''»", "no-value", "'width' has no value", "take the line out"),
    ("«measures»:", "no-value", "'measures' has no value", "behind the colon"),
    ("notions:\n  snap:\n    name: Snap\n    «across»:", "no-value", "'across' has no value", "behind the colon"),
    ("tools:\n  «-»\n  - iron", "no-value", "nothing stands behind this dash", "write it there"),
    ("sizes:\n  - S\n  «-»\nmeasures:\n  width:\n    S: 1 cm", "no-value", "behind this dash", "take the line out"),
    (
        "pieces:\n  flap:\n    «outline»:\n    copies:\n      only: canvas",
        "no-value",
        "'outline' has no value",
        "behind the colon",
    ),
    # What YAML swallows.
    ("maker: Me «#»2", "comment-cuts-value", "the value is 'Me'", "in quotes"),
    ("maker: Me «#» 2", "comment-cuts-value", "the value is 'Me'", "two spaces before the #"),
    ("maker: Me  «#»2", "comment-cuts-value", "the value is 'Me'", "one behind it"),
    ("maker: Mé 🧵 «#»2", "comment-cuts-value", "the value is 'Mé 🧵'", "in quotes"),
    ("tools:\n  - pins «#»2\n  - iron", "comment-cuts-value", "the value is 'pins'", "in quotes"),
    ("tools: [«5,7 cm ruler», iron]", "comma-splits-number", "two values, '5' and '7 cm ruler'", "with a point"),
    ("tools: [iron, «pins 1,5 mm»]", "comma-splits-number", "'pins 1' and '5 mm'", "in quotes"),
    ("title: «Pouch\n  maker»\n", "lines-run-together", "lines 1 to 2 are read as one value: 'Pouch maker'", "'>'"),
    (
        "measures:\n  width: «10 cm\n    depth:4 cm»\n",
        "lines-run-together",
        "lines 2 to 3 are read as one value",
        "a missing space",
    ),
    ("tools:\n  - «iron\n    pins»\n  - ruler", "lines-run-together", "'iron pins'", "a missing colon"),
    ("measures:\n  «width:10 cm»", "wrong-kind", "'measures' is the text 'width:10 cm'", "'name: value'"),
    # A value, a list, a group: one stands where another belongs.
    ("«maker»:\n  - Me", "wrong-kind", "'maker' is a list; one value belongs here", "on the same line"),
    ("«maker»:\n  name: Me", "wrong-kind", "'maker' is a group of names with values; one value", "on the same line"),
    ("tools: «iron»", "wrong-kind", "'tools' is the text 'iron'; a list belongs here", "behind '- '"),
    ("«tools»:\n  iron: hot", "wrong-kind", "'tools' is a group of names with values; a list", "behind '- '"),
    ("notions:\n  snap:\n    «name»:\n      - Snap", "wrong-kind", "'name' of the notion 'snap' is not", "behind"),
    ("seams:\n  side seam:\n    join: «band.left edge»", "wrong-kind", "'join' is the text", "behind '- '"),
    (
        "pieces:\n  flap:\n    «rectangle»: [1, 2]\n    copies:\n      only: canvas",
        "wrong-kind",
        "'rectangle' is a list; one value belongs here",
        "on the same line",
    ),
    ("sizes: «S»\nmeasures:\n  width:\n    S: 1 cm", "wrong-kind", "'sizes' is the text 'S'; a list", "behind '- '"),
    ("measures: «10 cm»", "wrong-kind", "'measures' is the text '10 cm'; names with values", "'name: value'"),
    ("«measures»:\n  - 10 cm", "wrong-kind", "'measures' is a list; names with values", "'name: value'"),
    ("measures:\n  «width»:\n    - 10 cm", "wrong-kind", "'width' is a list; a measure is one value", "the colon"),
    ("notions:\n  «snap»: Magnetic snap", "wrong-kind", "the notion 'snap' is one text", "name: …"),
    (
        "notions:\n  snap:\n    name: Magnetic snap\n    «across»:\n      - 18 mm",
        "wrong-kind",
        "'across' of the notion 'snap' is not one value",
        "behind the colon",
    ),
    ("seams:\n  side seam: «band and band»", "wrong-kind", "the text 'band and band'; names with values", "below"),
    ("sizes:\n  - S\nmeasures:\n  head:\n    «S»:\n      - 50 cm", "wrong-kind", "for size S is not one", "the colon"),
    (
        """\
        pieces:
          flap:
            rectangle: 10 cm by 4 cm
            joint edges:
              around: «left edge»
            copies:
              only: canvas
        """,
        "wrong-kind",
        "'around' is the text 'left edge'; a list belongs here",
        "behind '- '",
    ),
    (
        """\
        pieces:
          flap:
            rectangle: 10 cm by 4 cm
            allowance:
              all: 1 cm
              «top edge»:
                - 2 cm
            copies:
              only: canvas
        """,
        "wrong-kind",
        "the allowance of 'top edge' is not one value",
        "behind the colon",
    ),
    (
        "pieces:\n  flap:\n    «outline»: curved\n    copies:\n      only: canvas",
        "wrong-kind",
        "'outline' says nothing of its shape",
        "below it",
    ),
    # What stands there is of the right kind and cannot be meant.
    ("date: «1 May 2026»", "bad-date", "'1 May 2026' is no date", "2026-05-31"),
    ("date: «2026-13-01»", "bad-date", "'2026-13-01' is no date", "year, month and day"),
    ("date: «2026-02-31»", "bad-date", "'2026-02-31' is no date", "year, month and day"),
    ("date: «2026-02-29»", "bad-date", "'2026-02-29' is no date", "year, month and day"),  # no leap year
    ("date: «0000-01-01»", "bad-date", "'0000-01-01' is no date", "year, month and day"),
    ("«date»:", "no-value", "'date' has no value", "behind the colon"),
    ("inch rounding: «none»", "bad-rounding", "not 'none'", "write 1/8 or 1/16"),
    ("inch rounding: «0»", "bad-rounding", "not '0'", "write 1/8 or 1/16"),
    ("maker: Me\ntitle: «''»", "no-value", "'title' has no value", "in the quotation marks"),
    ('maker: Me\nrevision: «" "»', "no-value", "'revision' has no value", "in the quotation marks"),
    ("tools:\n  - «''»\n  - iron", "no-value", "nothing stands behind this dash", "write it there"),
    (
        """\
        pieces:
          flap:
            rectangle: 10 cm by 4 cm
            «allowance»:
              - 1 cm
            copies:
              only: canvas
        """,
        "wrong-kind",
        "an allowance is one value, or one for each edge",
        "'allowance: 1 cm'",
    ),
    ("date: «2026-5-1»", "bad-date", "'2026-5-1' is no date", "year, month and day"),
    ("video: «video.example/pouch»", "bad-link", "'video.example/pouch' is no address", "with https://"),
    ("video: «https://video.example/my pouch»", "bad-link", "is no address on the web", "copy it whole"),
    ("inch rounding: «1/32»", "bad-rounding", "not '1/32'", "write 1/8 or 1/16"),
    (
        "sizes:\n  - S\n  - M\nmeasures:\n  head:\n    S: 50 cm\n    M: 52 cm\n    «L»: 54 cm",
        "unknown-size",
        "'L' is no size of this pattern (sizes: S, M)",
        "list the sizes",
    ),
    ("measures:\n  head:\n    «S»: 50 cm", "unknown-size", "(sizes: none)", "list the sizes"),
    ("measures:\n  width: «6 in | 15 cm | 16 cm»", "bad-native-pair", "has 2 bars", "10 in | 26 cm"),
    ("measures:\n  width: «6 in |»", "bad-native-pair", "one side of the bar is empty in '6 in |'", "10 in | 26 cm"),
    ("allowance: «'| 1 cm'»", "bad-native-pair", "one side of the bar is empty", "10 in | 26 cm"),
    ("pieces:\n  «flap»:\n    copies:\n      only: canvas", "one-shape", "'flap' has no shape", "outline"),
    (
        """\
        pieces:
          «flap»:
            outline:
              rectangle: 10 cm by 4 cm
            rectangle: 10 cm by 4 cm
            copies:
              only: canvas
        """,
        "one-shape",
        "'flap' has 2 shapes: outline, rectangle",
        "give it one of",
    ),
    ("pieces:\n  «flap»:\n    rectangle: 10 cm by 4 cm\n    copies: {}", "no-copies", "cut from nothing", "'copies:'"),
    # Names that no formula could read.
    ("measures:\n  «flap-width»: 10 cm", "bad-name", "'flap-width' holds a hyphen", "put a space"),
    ("measures:\n  «flap – width»: 10 cm", "bad-name", "holds a hyphen", "put a space"),
    ("measures:\n  «way to top»: 10 cm", "bad-name", "holds 'to', a word of the formula language", "another word"),
    ("measures:\n  «2nd width»: 10 cm", "bad-name", "'2nd width' cannot be a name", "begin with a letter"),
    ("measures:\n  «flap.width»: 10 cm", "bad-name", "'flap.width' cannot be a name", "single spaces"),
    ("measures:\n  «flap  width»: 10 cm", "bad-name", "cannot be a name", "single spaces"),
    ("notions:\n  «d-ring»:\n    name: D-ring", "bad-name", "hyphen", "put a space"),
    ("notions:\n  zip:\n    name: Zip\n    «zip-length»: 20 cm", "bad-name", "'zip-length'", "put a space"),
    (
        "materials:\n  «ripstop-nylon»:\n    kind: fabric\n    name: Ripstop\n    sold:\n      - 150 cm wide",
        "bad-name",
        "'ripstop-nylon'",
        "put a space",
    ),
    ("seams:\n  «at top»:\n    join:\n      - band.top edge\n      - band.bottom edge", "bad-name", "'at'", "another"),
    (
        "placements:\n  «band-on-band»:\n    place: band\n    on: band\n    matching:\n      - centre",
        "bad-name",
        "'band-on-band'",
        "put a space",
    ),
    (
        "pieces:\n  «flap-lid»:\n    rectangle: 10 cm by 4 cm\n    copies:\n      only: canvas",
        "bad-name",
        "-lid'",
        "put",
    ),
    (
        "pieces:\n  flap:\n    rectangle: 10 cm by 4 cm\n    copies:\n      «in-side»: canvas",
        "bad-name",
        "'in-side'",
        "put",
    ),
    (
        """\
        pieces:
          flap:
            outline:
              rectangle: 10 cm by 4 cm
              edges:
                left: «left-hand»
            copies:
              only: canvas
        """,
        "bad-name",
        "'left-hand'",
        "put a space",
    ),
    (
        """\
        pieces:
          flap:
            outline:
              points:
                «1st corner»: 0, 0
                tip: 10 cm, 0
              edges:
                base: line from tip to tip
            marks:
              middle: notch at the middle of base
            copies:
              only: canvas
        """,
        "bad-name",
        "'1st corner' cannot be a name",
        "begin with a letter",
    ),
    (
        """\
        pieces:
          flap:
            rectangle: 10 cm by 4 cm
            joint edges:
              «all-around»:
                - left edge
                - top edge
            copies:
              only: canvas
        """,
        "bad-name",
        "'all-around'",
        "put a space",
    ),
    (
        """\
        pieces:
          flap:
            outline:
              rectangle: 10 cm by 4 cm
            marks:
              «for snap»: point at 1 cm, 1 cm
            copies:
              only: canvas
        """,
        "bad-name",
        "'for'",
        "another word",
    ),
]

# Right as they stand, however near to a mistake.
SOUND = [
    "maker: Me  # and nobody else",
    "maker: Me  #",
    'maker: "Me #2"',
    "maker: Me#2",
    "maker: 'Me: myself'",
    "title: Pouch\nabout: >\n  Small.\n  Boxed: it stands up.\n",
    'about: "Small.\n  Boxed."',
    "tools: [iron, pins]",
    "tools: [1, 2]",
    "tools: [size 1,pins]",
    "tools: [pins,2 irons]",
    "about: |\n  Small.\n  Boxed.\n",
    "care: ''",
    "tools: ['5,7 cm ruler', iron]",
    "measures: {width: 10 cm, depth: 4 cm}",
    "measures: {}\nnotions: {}",
    "measures:\n  it's width: 10 cm\n  front’s width 2: 10 cm\n  together: 1 cm",
    "date: 2026-12-31\nvideo: http://video.example/a?b=c#d\ninch rounding: 1/16",
    "---\nmaker: Me\n",
    "tools: []",
]


@pytest.mark.parametrize(("text", "name", "says", "mend"), MISTAKES, ids=[case[1] for case in MISTAKES])
def test_one_mistake_is_one_finding_at_its_place(text: str, name: str, says: str, mend: str) -> None:
    pattern, (place,) = marked(whole_pattern(text), PATTERN)
    _, findings = read(pattern)
    assert told(findings) == [(name, place)]
    assert findings[0].severity is Severity.ERROR
    assert says in findings[0].says
    assert mend in findings[0].mend


@pytest.mark.parametrize("rounding", ["none", "0", "1/0", "''"])
def test_a_rounding_that_is_none_is_told_and_another_used(rounding: str) -> None:
    _, findings = prove("specimen", folder(whole_pattern(f"allowance: 1 cm\ninch rounding: {rounding}\n")))
    assert [finding.name for finding in findings if finding.severity is Severity.ERROR] == ["bad-rounding"]


@pytest.mark.parametrize("text", SOUND)
def test_what_is_right_is_not_told(text: str) -> None:
    _, findings = read(whole_pattern(text))
    assert findings == ()


@pytest.mark.parametrize(
    ("sides", "says"),
    [("- band.left edge", "lists one, and it takes two"), ("- a\n      - b\n      - c", "lists 3, and it takes two")],
)
def test_a_seam_has_two_sides(sides: str, says: str) -> None:
    pattern, (place,) = marked(whole_pattern(f"seams:\n  side seam:\n    «join»:\n      {sides}\n"), PATTERN)
    _, findings = read(pattern)
    (finding,) = [finding for finding in findings if finding.place == place]
    assert finding.name == "wrong-kind"
    assert says in finding.says
    assert "the two sides, each behind '- '" in finding.mend


@pytest.mark.parametrize("key", ["title", "revision", "materials", "pieces"])
def test_what_no_pattern_goes_without(key: str) -> None:
    """What is not there has no place of its own: it is told at the top of the file."""
    _, findings = read("".join(text for said, text in REQUIRED.items() if said != f"{key}:"))
    assert told(findings) == [("missing-key", Place(PATTERN, 1, 1, 1, 2))]
    assert findings[0].says == f"the pattern lacks '{key}'"
    assert findings[0].mend == f"add a line '{key}: …'"


# The keys left out, and the mistakes that are told none the less, by their lines.
FAULTY = """\
date: tomorrow
measures:
  flap-width: 10 cm
  depth: 10 cn
pieces:
  band:
    grian: up
    rectangle: depth by 5 cm
    copies:
      only: canvas
seams:
  side seam:
    eese: 1 cm
    join:
      - band.left edge
      - band.rihgt edge
"""
FAULTS = {"bad-date", "bad-name", "unreadable", "unknown-key"}


@pytest.mark.parametrize("keys", [("title",), ("revision",), ("title", "revision", "materials")])
def test_a_key_that_lacks_hides_no_other_mistake(keys: tuple[str, ...]) -> None:
    rest = "".join(text for said, text in REQUIRED.items() if said not in ("pieces:", *(f"{key}:" for key in keys)))
    _, findings = prove("specimen", folder(FAULTY + rest))
    assert [finding.says for finding in findings if finding.name == "missing-key"] == [
        f"the pattern lacks '{key}'" for key in sorted(keys)
    ]
    assert {finding.name for finding in findings} >= FAULTS
    assert errors_in(findings)


# A whole group of names that lacks or is no group, and everything that speaks of its names.
@pytest.mark.parametrize(
    ("old", "new", "name"),
    [
        ("measures:\n  flap: 10 cm\n", "measures: 10 cm\n", "wrong-kind"),
        ("measures:\n", "mesures:\n", "unknown-key"),
        ("materials:\n  canvas:\n", "materials:\n  - canvas\nxyz:\n  canvas:\n", "wrong-kind"),
        ("pieces:\n  band:\n", "pieces:\n  - band\nxyz:\n  band:\n", "wrong-kind"),
        ("pieces:\n", "peices:\n", "missing-key"),
        ("seams:\n  side seam:\n", "seams:\n  - side seam\nxyz:\n  side seam:\n", "wrong-kind"),
        ("allowance: 1 cm\n", "allowance:\n  - 1 cm\n", "wrong-kind"),
    ],
)
def test_a_group_that_cannot_be_read_is_told_and_nothing_that_follows_from_it(old: str, new: str, name: str) -> None:
    text = """\
title: Specimen
revision: "1"
allowance: 1 cm
measures:
  flap: 10 cm
materials:
  canvas:
    kind: fabric
    name: Canvas
    sold:
      - 110 cm wide
pieces:
  band:
    rectangle: flap by flap
    copies:
      only: canvas, cut 2
seams:
  side seam:
    join:
      - band.left edge
      - band.right edge
notions:
  thread:
    name: Thread
"""
    steps = (
        "1. Sew {band}, {flap} wide.\n   Does: sew side seam\n"
        "   Does: topstitch band.top edge\n   Does: topstitch band.bottom edge\n   Now: band\n"
    )
    assert prove("specimen", folder(text, steps))[1] == ()
    assert old in text
    _, findings = prove("specimen", folder(text.replace(old, new), steps))
    assert {finding.name for finding in findings} <= {name, "unknown-key"}
    assert name in {finding.name for finding in findings}


def test_a_value_that_is_all_comment_to_yaml() -> None:
    """What begins with a # has no value at all, and both are told."""
    pattern, (key, sign) = marked(whole_pattern("«maker»: «#»2 of us\n"), PATTERN)
    assert told(read(pattern)[1]) == [("no-value", key), ("comment-cuts-value", sign)]


def test_several_mistakes_are_told_at_once() -> None:
    pattern, places = marked(
        whole_pattern(
            """\
            maker: Me «#»2
            tools: [«5,7 cm ruler»]
            «levle»: easy
            date: «tomorrow»
            measures:
              «flap-width»: 10 cm
              depth: «4 cm | 5 cm | 6 cm»
            notions:
              «snap»:
                count: 1
            pieces:
              «flap»:
                copies:
                  only: canvas
              lid:
                rectangle: 10 cm by 4 cm
                «grian»: up
                copies:
                  only: canvas
            """
        ),
        PATTERN,
    )
    steps, (brace, field) = marked("## Sew\n\n1. Take {flap} and «{»lid.\n   Minutes: «soon»\n", STEPS)
    names = ["comment-cuts-value", "comma-splits-number", "unknown-key", "bad-date", "bad-name", "bad-native-pair"]
    names += ["missing-key", "one-shape", "unknown-key"]
    expected = [*zip(names, places, strict=True), ("open-brace", brace), ("bad-minutes", field)]
    source, findings = read(pattern, steps)
    assert source is not None
    assert sorted(told(findings), key=str) == sorted(expected, key=str)
    proved = told(prove("specimen", folder(pattern, steps))[1])
    assert [one for one in proved if one in expected] == expected  # pattern.yaml from its top, then steps.md


def test_one_bad_piece_hides_no_other() -> None:
    source, _ = read(
        whole_pattern("pieces:\n  flap: round\n  lid:\n    rectangle: 1 cm by 1 cm\n    copies:\n      a: canvas\n")
    )
    assert source is not None
    assert [str(piece.name) for piece in source.pieces] == ["lid"]
    assert source.unread == ("flap",)
