"""The line of a finding, with a caret under its first guilty sign and a wave under the others."""

from hypothesis import given, settings
from hypothesis import strategies as st

from publisher.source import excerpt
from publisher.terms import Place
from tests.source.marked import PATTERN, marked


def _shown(text: str) -> tuple[str, str] | None:
    plain, (place,) = marked(text, PATTERN)
    return excerpt(((PATTERN, plain),), place)


def test_the_guilty_signs_are_underlined() -> None:
    assert _shown("title: Pouch\n  «pokcet» depth: 4 cm\n") == ("  pokcet depth: 4 cm", "  ^~~~~~")


def test_a_single_sign_has_a_caret_alone() -> None:
    assert _shown("maker: Me «#»2\n") == ("maker: Me #2", " " * 10 + "^")


def test_a_place_of_no_signs_has_a_caret_too() -> None:
    assert _shown("maker:«»\n") == ("maker:", "      ^")


def test_of_several_lines_the_first_is_shown() -> None:
    assert _shown("title: «Small\n  pouch»\n") == ("title: Small", "       ^~~~~")


def test_tabs_are_four_columns_wide() -> None:
    assert _shown("a\t«bad»\tc\n") == ("a   bad c", "    ^~~")
    assert _shown("«\t»width: 10 cm\n") == ("    width: 10 cm", "^~~~")


def test_signs_that_cannot_be_printed_are_dots() -> None:
    assert _shown("maker: M«\x01»e\x1b[2J\n") == ("maker: M·e·[2J", "        ^")


def test_a_line_that_is_not_there() -> None:
    assert excerpt(((PATTERN, "title: Pouch\n"),), Place(PATTERN, 2, 1, 2, 2)) is None
    assert excerpt(((PATTERN, ""),), Place(PATTERN, 1, 1, 1, 2)) is None
    assert excerpt(((PATTERN, "title: Pouch\n"),), Place("steps.md", 1, 1, 1, 2)) is None


def test_a_long_line_is_cut_round_the_guilty_signs() -> None:
    line, carets = _shown(300 * "a" + "«bad»" + 300 * "c") or ("", "")
    assert len(line) == 100
    assert line[carets.index("^") : len(carets)] == "bad"
    assert line.strip("abcd") == ""


def test_a_wave_is_no_longer_than_the_line_that_is_shown() -> None:
    assert _shown("about: «" + 300 * "a" + "»\n") == ("about: " + 93 * "a", " " * 7 + "^" + 92 * "~")


@given(st.text(st.characters(codec="ascii", exclude_categories=["Cc"]), min_size=1, max_size=250), st.data())
@settings(derandomize=True, deadline=None)
def test_what_stands_above_the_wave_is_what_stands_at_the_place(line: str, data: st.DataObject) -> None:
    start = data.draw(st.integers(0, len(line) - 1))
    end = data.draw(st.integers(start + 1, len(line)))
    shown = excerpt(((PATTERN, line + "\n"),), Place(PATTERN, 1, start + 1, 1, end + 1))
    assert shown is not None
    text, carets = shown
    at = carets.index("^")
    assert len(text) <= 100
    assert carets == " " * at + "^" + "~" * (len(carets) - at - 1)
    above = text[at : len(carets)]
    assert line[start:end].startswith(above)
    assert len(carets) - at == min(end - start, 100 - at)
