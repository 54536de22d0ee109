"""steps.md read into sections, steps, fields and quotes, and what a maker gets wrong in it."""

import time
from textwrap import dedent

import pytest

from publisher.source import Source
from publisher.source.steps_reader import read_steps
from publisher.terms import Finding, Place, Severity
from tests.source.marked import STEPS, marked, read, told, whole_pattern


def _read_steps(text: str) -> tuple[Source, tuple[Finding, ...]]:
    source, findings = read(whole_pattern(""), text)
    assert source is not None
    return source, findings


def _sound(text: str) -> Source:
    source, findings = _read_steps(dedent(text))
    assert findings == ()
    return source


# The file, the finding, what it says, how it is mended.
MISTAKES = [
    ("«# Sew»\n", "wrong-heading", "a heading with 1 signs", "'## '"),
    ("## Cut\n\n«### Sew»\n", "wrong-heading", "a heading with 3 signs", "'## '"),
    ("«##»\n", "wrong-heading", "a heading without words", "name the section"),
    ("## Sew\n«Vidoe»: 14:20\n", "unknown-field", "no field called 'Vidoe'", "did you mean 'Video'?"),
    ("## Sew\n«Minute»: 15\n", "unknown-field", "no field called 'Minute'", "did you mean 'Minutes'?"),
    ("1. Sew.\n   «Dose»: sew side seam\n", "unknown-field", "no field called 'Dose'", "did you mean 'Does'?"),
    ("## Sew\n«Video»:\n", "no-value", "'Video:' has no value", "behind it"),
    ("1. Sew.\n   «Does»:  \n", "no-value", "'Does:' has no value", "behind it"),
    ("## Sew\nVideo: «14.20»\n", "bad-time", "'14.20' is no time in a video", "4:25"),
    ("## Sew\nVideo: «14:2»\n", "bad-time", "'14:2' is no time", "minutes and seconds"),
    ("## Sew\nVideo: «at the start»\n", "bad-time", "'at the start' is no time", "minutes and seconds"),
    ("## Sew\nMinutes: «half an hour»\n", "bad-minutes", "'half an hour' is no number of minutes", "15"),
    ("## Sew\nMinutes: «7.5»\n", "bad-minutes", "'7.5' is no number", "a whole number"),
    ("## Sew\nMinutes: «-5»\n", "bad-minutes", "'-5' is no number", "a whole number"),
    ("## Sew\nVideo: 1:00\nVideo: «2:00»\n", "doubled-key", "'Video:' is written twice here", "take one"),
    ("## Sew\nMinutes: 5\nMinutes: «5»\n", "doubled-key", "'Minutes:' is written twice here", "take one"),
    ("1. Sew.\n   Id: side\n   Id: «base»\n", "doubled-key", "'Id:' is written twice here", "take one"),
    ("1. Sew.\n   Id: side\n2. Sew.\n   Id: «side»\n", "doubled-key", "the id 'side' is used twice", "another one"),
    ("1. Sew.\n   Id: «Side Seam»\n", "bad-id", "'Side Seam' is no id", "small letters"),
    ("## Sew\nDoes: «sew side seam»\n", "field-without-step", "'Does:' stands under no step", "indented, under the"),
    ("Now: «body»\n", "field-without-step", "'Now:' stands under no step", "it belongs to"),
    ("1. Sew.\n\n## Turn\nId: «turn»\n", "field-without-step", "'Id:' stands under no step", "it belongs to"),
    ("1. Take «{»flap.\n", "open-brace", "opened and not closed in this line", "{pocket depth}"),
    ("1. Take {flap} and «{»lid.\n", "open-brace", "opened and not closed", "{pocket depth}"),
    ("1. Take flap«}».\n", "open-brace", "closed that was not opened", "}}"),
    ("Take it.\nTake {flap}«}».\n", "open-brace", "closed that was not opened", "}}"),
    ("1. Take {«}».\n", "empty-quote", "nothing stands in these braces", "name a measure or a piece"),
    ("1. Take it:\n   then { «}» too.\n", "empty-quote", "nothing stands in these braces", "name a measure"),
    # Nearly a field, nearly a step.
    ("1. Sew.\n   «Does:»sew side seam\n", "field-not-read", "no space stands behind 'Does:'", "'Does: …'"),
    ("## Sew\n«Minutes:»15\n", "field-not-read", "no space stands behind 'Minutes:'", "'Minutes: …'"),
    ("«1.»Sew.\n   Does: sew side seam\n2. Turn.\n", "step-not-read", "no space stands behind '1.'", "'1. Sew.…'"),
    ("1. Sew.\n«2)»Turn.\n3. Press.\n", "step-not-read", "no space stands behind '2)'", "'2) Turn.…'"),
    ("«1. " + 20_001 * "x" + "»\n", "too-much", "more than 20000 signs in one step", "several steps"),
    ("1. " + 20_000 * "x" + "\n«y»\n", "too-much", "more than 20000 signs in one step", "several steps"),
    (
        "".join(f"{at}. Sew.\n" for at in range(1, 201)) + "«201. Sew.»\n202. Sew.\n",
        "too-much",
        "more than 200 steps",
        "several patterns",
    ),
]


@pytest.mark.parametrize(("text", "name", "says", "mend"), MISTAKES, ids=[case[1] for case in MISTAKES])
def test_one_mistake_is_one_finding_at_its_place(text: str, name: str, says: str, mend: str) -> None:
    steps, (place,) = marked(text, STEPS)
    _, findings = _read_steps(steps)
    assert told(findings) == [(name, place)]
    assert findings[0].severity is Severity.ERROR
    assert says in findings[0].says
    assert mend in findings[0].mend


# What may be meant as words is told and printed as it stands.
WARNINGS = [
    ("1. Sew.\n   «does:» sew side seam\n", "field-not-read", "'does:' is printed as it stands", "'Does: …'"),
    ("1. Sew.\n   «hint:»\n", "field-not-read", "'hint:' is printed as it stands", "'Hint: …'"),
    ("## Sew\n«video:» 1:20\n", "field-not-read", "'video:' is printed as it stands", "'Video: …'"),
    (" «1.» Sew.\n", "step-not-read", "is no step 1", "at the left"),
    ("Take:\n\n  «1.» pins\n  2. iron\n\n## Sew\n\n1. Sew.\n", "step-not-read", "is no step 1", "with '- '"),
    ("1. Sew.\n «2.» Turn.\n", "step-not-read", "is no step 2", "at the left"),
    ("1. Sew.\n\n   «2.» Turn.\n", "step-not-read", "is no step 2", "at the left"),
]


@pytest.mark.parametrize(("text", "name", "says", "mend"), WARNINGS)
def test_what_looks_like_a_field_or_a_step_is_a_warning(text: str, name: str, says: str, mend: str) -> None:
    steps, (place,) = marked(text, STEPS)
    _, findings = _read_steps(steps)
    assert told(findings) == [(name, place)]
    assert findings[0].severity is Severity.WARNING
    assert says in findings[0].says
    assert mend in findings[0].mend


def test_a_step_without_its_space_is_a_step_all_the_same() -> None:
    """So that nothing else is told of its fields and of the numbers behind it."""
    source, findings = _read_steps("1.Sew.\n   Does: sew side seam\n2.Turn.\n")
    assert [finding.name for finding in findings] == ["step-not-read", "step-not-read"]
    assert [(str(step.text), step.does) for step in source.sections[0].steps] == [
        ("Sew.", ("sew side seam",)),
        ("Turn.", ()),
    ]


def test_a_step_with_another_number_is_a_warning() -> None:
    """The edition counts the steps itself. The first wrong number is told, for all others follow from it."""
    steps, (place,) = marked("1. Cut.\n\n## Sew\n\n«3. Sew.»\n4. Turn.\n", STEPS)
    source, findings = _read_steps(steps)
    assert told(findings) == [("step-number", place)]
    assert findings[0].severity is Severity.WARNING
    assert findings[0].says == "this is step 2, and it is numbered 3"
    assert "write 2." in findings[0].mend
    assert [step.number for section in source.sections for step in section.steps] == [1, 2, 3]


def test_several_mistakes_are_told_at_once() -> None:
    steps, places = marked(
        """\
«# Sew»
Video: «soon»

1. Take «{»flap.
   «Dose»: sew side seam
   Minutes: «5 min»
2. Turn«}».
   Id: «Turn it»
""",
        STEPS,
    )
    _, findings = _read_steps(steps)
    names = ["wrong-heading", "bad-time", "open-brace", "unknown-field", "bad-minutes", "open-brace", "bad-id"]
    assert told(findings) == list(zip(names, places, strict=True))


@pytest.mark.parametrize(
    "text",
    [
        "Note: sew slowly.\n",  # no field, and like none
        "Sew it: {{not a quote}}.\n",
        "1. Sew.\n\n   Tip: go slowly.\n",
        "1) Sew.\n2) Turn.\n",
        "It does: sew it. Do it now: sew.\n",
        "1. Sew from notch 1 to notch\n   2. Then turn.\n",
        "1. Sew to notch\n 12. Then turn.\n",
        "1. Take:\n   1. pins\n   2. iron\n2. Sew.\n",
        "It measures\n2.5 cm, or about\n1.25 in, by letter\n4.b of the list.\n",
        "## Sew ##\n",
        "It measures 4.\n5 is too much.\n",
        "1. " + 20_000 * "x" + "\n",
        "",
        "\n\n",
    ],
)
def test_what_is_right_is_not_told(text: str) -> None:
    assert _read_steps(text)[1] == ()


def test_sections_steps_and_their_fields() -> None:
    source = _sound(
        """\
        Press each seam, {seam allowance} wide.

        ## Outside
        Video: 14:20
        Minutes: 45

        Have the iron hot.

        1. Sew the sides.
           Does: sew left side seam
           Does: sew right side seam
           Now: body front
           Video: 1:02:30
           Minutes: 5
           Id: sides
        2. Turn.

        ## Lining

        3. Sew the base.
        """
    )
    before, outside, lining = source.sections
    assert (before.title, before.intro, before.quotes) == (
        "",
        "Press each seam, {seam allowance} wide.",
        ("seam allowance",),
    )
    assert (before.steps, before.video, before.minutes) == ((), None, None)
    assert (outside.title, outside.video, outside.minutes) == ("Outside", "14:20", "45")
    assert outside.intro == "Have the iron hot."
    sides, turn = outside.steps
    assert (sides.id, sides.number, sides.text) == ("sides", 1, "Sew the sides.")
    assert sides.does == ("sew left side seam", "sew right side seam")
    assert (sides.now, sides.video, sides.minutes) == (("body front",), "1:02:30", "5")
    assert (turn.number, turn.text, turn.does, turn.now, turn.video, turn.minutes) == (2, "Turn.", (), (), None, None)
    assert [(step.number, step.text) for step in lining.steps] == [(3, "Sew the base.")]


def test_an_empty_file_is_one_empty_section() -> None:
    (section,) = _sound("").sections
    assert (section.title, section.intro, section.steps) == ("", "", ())


def test_a_file_that_begins_with_a_heading_has_nothing_before_it() -> None:
    assert [section.title for section in _sound("## Cut\n\n## Sew\n").sections] == ["Cut", "Sew"]


def test_a_steps_lines_keep_the_indentation_that_is_their_own() -> None:
    """A step's text begins three or four columns in; what stands further in does so for Markdown."""
    (section,) = _sound(
        """\
        1. Cut:

           - the flap
             twice
        2. Sew.
        3. Sew.
        4. Sew.
        5. Sew.
        6. Sew.
        7. Sew.
        8. Sew.
        9. Sew.
        10. Turn
            and press.
        """
    ).sections
    assert section.steps[0].text == "Cut:\n\n- the flap\n  twice"
    assert section.steps[9].text == "Turn\nand press."


def test_quotes_stand_where_they_are_written() -> None:
    steps, places = marked(
        """\
{«gap»} first.

## Sew {it}

1. Put {«body front»} and { «length of body.base»  } and {{no quote}} on
   {«flap»}{«loop»}.
10. Turn {«body back»}.
    Does: sew {this}
""",
        STEPS,
    )
    source, _ = _read_steps(steps)
    quotes = [quote for section in source.sections for quote in section.quotes]
    quotes += [quote for section in source.sections for step in section.steps for quote in step.quotes]
    assert quotes == ["gap", "body front", "length of body.base", "flap", "loop", "body back"]
    assert [quote.place for quote in quotes] == places


def test_tabs_move_no_column() -> None:
    """A tab in the indentation is read as up to four spaces, and a place counts it as the one sign it is."""
    steps, places = marked(
        """\
1.\tPut {«flap»}\tand {«lid»}:
\t1. Fold {«gap»}.
\t\ton {«loop»}
\t \t- with {«thread»}
\tHint:\tTake {«iron»}.
\t \tDoes:\t«sew\tside seam»
\tMinutes: «soon»
\tTake «}».
""",
        STEPS,
    )
    source, findings = _read_steps(steps)
    (step,) = source.sections[0].steps
    quotes = [*step.quotes, *step.asides[0].quotes, *step.does]
    assert quotes == ["flap", "lid", "gap", "loop", "thread", "iron", "sew\tside seam"]
    assert [quote.place for quote in quotes] == places[:7]
    assert [finding.place for finding in findings if finding.name in ("bad-minutes", "open-brace")] == places[7:]


def test_fields_and_titles_stand_where_they_are_written() -> None:
    steps, places = marked(
        """\
##  «Sew it» ##
Video:   «1:20»

1. Sew.
   Does: «sew side seam»  
      Now:  «body»
""",
        STEPS,
    )
    (section,) = _read_steps(steps)[0].sections
    assert section.video is not None
    written = [section.title, section.video, *section.steps[0].does, *section.steps[0].now]
    assert written == ["Sew it", "1:20", "sew side seam", "body"]
    assert [one.place for one in written] == places


def test_a_step_stands_at_its_line() -> None:
    (section,) = _read_steps("## Sew\n\n1. Sew\n   it.\n2. Turn.\n")[0].sections
    assert [step.place for step in section.steps] == [Place(STEPS, 3, 1, 3, 7), Place(STEPS, 5, 1, 5, 9)]


def test_ids_are_made_of_the_section_and_the_first_six_words() -> None:
    (section,) = _sound(
        """\
        ## Lining & finishing

        1. Put {front} and “back” right sides together, then sew.
        2. Turn.
        3. Turn.
        4. Turn.
           Id: turn-again
        5. …
        """
    ).sections
    assert [step.id for step in section.steps] == [
        "lining-finishing-put-front-and-back-right-sides",
        "lining-finishing-turn",
        "lining-finishing-turn-2",
        "turn-again",
        "lining-finishing",
    ]


@pytest.mark.parametrize("first", [True, False])
def test_no_two_steps_have_one_id(first: bool) -> None:
    """`turn-2` is what a second step that begins with the same words would be called."""
    owner = "{}. Press.\n   Id: turn-2\n"
    text = owner.format(1) + "2. Turn.\n3. Turn.\n" if first else "1. Turn.\n2. Turn.\n" + owner.format(3)
    source, findings = _read_steps(text)
    assert findings == ()
    ids = [step.id for section in source.sections for step in section.steps]
    assert ids == (["turn-2", "turn", "turn-3"] if first else ["turn", "turn-3", "turn-2"])


def test_an_id_is_never_empty_and_never_longer_than_sixty_signs() -> None:
    (section,) = _sound(f"1. …\n2. {50 * 'a'} {50 * 'b'}\n").sections
    assert [step.id for step in section.steps] == ["step", f"{50 * 'a'}-{9 * 'b'}"]


def test_a_step_keeps_its_id_when_another_is_put_before_it() -> None:
    (before,) = _sound("## Sew\n\n1. Sew the base.\n2. Turn.\n").sections
    (after,) = _sound("## Sew\n\n1. Cut.\n2. Sew the base.\n3. Turn.\n").sections
    assert [step.id for step in after.steps[1:]] == [step.id for step in before.steps]


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("\n" * 200_000, None),
        ("1. Sew.\n" + "\n" * 200_000, None),
        ("## Sew" + 900_000 * " " + "on\n", None),
        ("## Sew" + 300_000 * " #" + "\n", None),
        ("1. Sew.\n   Does: sew" + 900_000 * " " + "side\n", "too-much"),
        ("1. Sew.\n   Hint: sew" + 900_000 * " " + "side\n", "too-much"),
        (900_000 * " " + "\n", None),
        ("1." + 900_000 * " " + "\n", "too-much"),
    ],
    ids=["lines", "lines of a step", "heading", "heading signs", "field", "hint", "blanks", "number"],
)
def test_a_million_signs_are_read_in_a_moment(text: str, name: str | None) -> None:
    """Each took minutes while it was read again for every sign or line; the bound is for that, not for speed."""
    begun = time.process_time()
    _, findings = read_steps(text, STEPS)
    assert time.process_time() - begun < 20
    assert [finding.name for finding in findings] == ([name] if name else [])


def test_too_long_a_step_is_told_once() -> None:
    _, findings = _read_steps("1. Sew.\n" + 30 * (1_000 * "x" + "\n"))
    assert told(findings) == [("too-much", Place(STEPS, 21, 1, 21, 1_001))]


def test_only_so_many_steps_are_read() -> None:
    source, _ = _read_steps("".join(f"{at}. Sew.\n" for at in range(1, 300)))
    assert sum(len(section.steps) for section in source.sections) == 200
