"""The text at a value's place in its file is the value: of the demo, and of files as makers may lay them out."""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass

from hypothesis import given, settings
from hypothesis import strategies as st

from publisher.source import Source, WrittenMeasure, read_source
from publisher.terms import Place, Written
from tests.demo import DEMO, demo_files
from tests.source.marked import PATTERN, REQUIRED, STEPS, read

BOM = "\N{ZERO WIDTH NO-BREAK SPACE}"


def written_in(value: object) -> Iterator[Written]:
    """Every written text of a source, however deep."""
    if isinstance(value, Written):
        yield value
    elif isinstance(value, tuple):
        for one in value:
            yield from written_in(one)
    elif is_dataclass(value):
        for field in fields(value):
            yield from written_in(getattr(value, field.name))


def at_place(text: str, place: Place) -> str:
    """What stands in a text from the first sign of a place to its last."""
    lines = [*text.removeprefix(BOM).splitlines(keepends=True), ""]
    inside = lines[place.line - 1 : place.end_line]
    inside[-1] = inside[-1][: place.end_column - 1]
    inside[0] = inside[0][place.column - 1 :]
    return "".join(inside)


def _astray(source: Source, files: dict[str, str]) -> list[tuple[str, str, str]]:
    """The exact values that are not what stands at their place."""
    placed = [(one, at_place(files[one.place.file], one.place)) for one in written_in(source) if one.exact and one]
    return [(str(one.place), str(one), there) for one, there in placed if one != there]


def test_every_value_of_the_demo_stands_at_its_place() -> None:
    source, findings = read_source(DEMO, demo_files())
    assert source is not None
    assert findings == ()
    files = {name: content.decode() for name, content in demo_files().items()}
    exact = [one for one in written_in(source) if one.exact and one]
    assert {one.place.file for one in exact} == {PATTERN, STEPS}
    assert {"Sanderling lined pouch", "6 1/2 in", "flap length - depth - snap inset", "9 cm"} <= set(exact)
    assert {"body front interfacing", "attach snap at flap lining.snap", "14:20"} <= set(exact)
    assert _astray(source, files) == []


def test_a_quoted_or_folded_value_of_the_demo_has_its_whole_place() -> None:
    """`revision: "1.0"` with its quotation marks; `about: >` from its sign to its last line."""
    source, _ = read_source(DEMO, demo_files())
    assert source is not None
    text = demo_files()[PATTERN].decode()
    facts = source.facts
    assert facts.about is not None
    assert not facts.revision.exact
    assert at_place(text, facts.revision.place) == '"1.0"'
    assert at_place(text, facts.about.place).split() == [">", *facts.about.split()]


@st.composite
def laid_out(draw: st.DrawFn, value: str) -> str:
    """A value plain or in quotes, with more spaces before it, and a comment behind."""
    quote = draw(st.sampled_from(["", "", '"', "'"]))
    before = draw(st.sampled_from([" ", "  ", "      "]))
    behind = draw(st.sampled_from(["", "   ", "  # so that it fits", "  # 10 cm: ½ of it"]))
    return f"{before}{quote}{value}{quote}{behind}"


NAMES = st.lists(
    st.sampled_from(["width", "café width", "it's 2", "front’s height", "x", "a b c d e"]), unique=True, min_size=1
)
SAID = st.sampled_from(
    ["10 cm", "6½ in", "2.25″", "6 in|15 cm", "6 in | 15 cm", "6 in   |  width ÷ 2", "(width - 2 cm) × 3", "½ in | 𝟙"]
)
BETWEEN = st.sampled_from(["", "", "\n", "# a comment: {x}\n", "\n  # width: 3\n\n"])


@st.composite
def measures(draw: st.DrawFn) -> tuple[str, dict[str, list[str]]]:
    """Lines of `measures:` and, for each name, the formulas that stand behind it."""
    indent = draw(st.sampled_from(["  ", "    ", " "]))
    lines = draw(BETWEEN) + "measures:\n"
    expected = {}
    for name in draw(NAMES):
        said = draw(SAID)
        lines += f"{indent}{name}:{draw(laid_out(said))}\n{draw(BETWEEN)}"
        parts = [part.strip() for part in said.split("|")]
        expected[name] = parts if len(parts) == 2 else parts * 2
    return lines, expected


def _formulas(measure: WrittenMeasure) -> list[str]:
    ((_, pair),) = measure.by_size
    return [str(pair.inch), str(pair.metric)]


@given(
    measures(), st.sampled_from(["\n", "\r\n"]), st.sampled_from(["", BOM]), st.permutations(list(REQUIRED.values()))
)
@settings(derandomize=True, max_examples=100, deadline=None)
def test_a_pattern_however_laid_out_has_its_values_at_their_places(
    made: tuple[str, dict[str, list[str]]], ending: str, bom: str, others: list[str]
) -> None:
    lines, expected = made
    text = bom + (others[0] + lines + "".join(others[1:])).replace("\n", ending)
    source, findings = read(text)
    assert findings == ()
    assert source is not None
    assert {str(measure.name): _formulas(measure) for measure in source.measures} == expected
    assert _astray(source, {PATTERN: text}) == []


BLANKS = st.sampled_from(["", "", " ", "   "])
QUOTED = st.sampled_from(["flap", "length of body.base", "größe", "snap.across", "2 × depth"])


@st.composite
def worded(draw: st.DrawFn) -> tuple[str, list[str]]:
    """A line of words and quotes, and what the quotes say."""
    parts = draw(
        st.lists(
            st.tuples(st.sampled_from(["Take ", "🧵, ", "{{so}} ", "½ of “it” "]), QUOTED, BLANKS, BLANKS), max_size=4
        )
    )
    line = "".join(f"{words}{{{before}{quote}{behind}}}" for words, quote, before, behind in parts)
    return f"Sew {line}.", [quote for _, quote, _, _ in parts]


@given(
    st.lists(st.tuples(worded(), worded(), BLANKS), max_size=12),
    st.sampled_from(["\n", "\r\n"]),
    st.sampled_from(["", BOM]),
)
@settings(derandomize=True, max_examples=50, deadline=None)
def test_steps_however_laid_out_have_their_quotes_at_their_places(
    made: list[tuple[tuple[str, list[str]], tuple[str, list[str]], str]], ending: str, bom: str
) -> None:
    text, expected = "## Sew\n\n", []
    for number, ((first, in_first), (second, in_second), more) in enumerate(made, start=1):
        text += f"{number}. {first}\n   {more}{second}\n   {more}Does: {more}sew side seam{more}\n"
        expected.append([*in_first, *in_second])
    text = bom + text.replace("\n", ending)
    pattern = "".join(REQUIRED.values())
    source, findings = read(pattern, text)
    assert findings == ()
    assert source is not None
    steps = [step for section in source.sections for step in section.steps]
    assert [list(step.quotes) for step in steps] == expected
    assert all(step.does == ("sew side seam",) for step in steps)
    assert _astray(source, {PATTERN: pattern, STEPS: text}) == []
