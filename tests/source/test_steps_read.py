"""Sub-steps, hints and cautions of steps.md: what is read, where, and what is told of slips."""

import re

import pytest

from publisher.edition import set_edition
from publisher.template_pages import DEFAULT_EDITIONS
from tests.specimens import found, prove_text

PATTERN = """\
measures:
  gap: 3 1/2 in | 9 cm
pieces:
  flap:
    outline:
      rectangle: 20 cm by 10 cm
    copies:
      outside: canvas
"""
METRIC = DEFAULT_EDITIONS[1]


def _words(steps: str, step: int = 1) -> str:
    """The HTML of a step's words, on one line."""
    proof, findings = prove_text(PATTERN, steps)
    assert not [finding for finding in findings if finding.severity.value == "error"]
    html = set_edition(proof, METRIC).html
    words = re.findall(r'<div class="words">(.*?)</div>\n(?:<div class="figure"|</div>)', html, flags=re.DOTALL)
    return re.sub(r"\s+", " ", words[step - 1].replace("\xa0", " ")).replace("> <", "><").strip()


def test_an_indented_list_becomes_sub_steps_with_quotes_and_fields_below() -> None:
    steps = """\
    ## Flap

    1. Take {flap outside}:
       1. Leave {gap} open,
          in the middle.
       2. Press.
       Does: cut all
    2. Rest.
    """
    proof, findings = prove_text(PATTERN, steps)
    assert {finding.name for finding in findings} == {"copy-never-used"}
    first = proof.source.sections[0].steps[0]
    assert [str(action) for action in first.does] == ["cut all"]
    assert [(str(quote), quote.place.line, quote.place.column) for quote in first.quotes] == [
        ("flap outside", 3, 10),
        ("gap", 4, 14),
    ]
    assert _words(steps) == (
        '<p>Take <b class="name">flap outside</b>:</p><ol><li>Leave 9 cm open, in the middle.</li><li>Press.</li></ol>'
    )


@pytest.mark.parametrize(
    "steps",
    [
        "1. Take {flap outside}:\n   1. Fold.\n   2. Press.\n",
        "1. Take {flap outside}:\n\n   1. Fold.\n\n   2. Press.\n",
        "1. Take {flap outside}:\n       1) Fold.\n       2) Press.\n",
        "1. Take {flap outside}:\n  1. Fold.\n  1. Press.\n",
        "1. Take {flap outside}:\n\t1. Fold.\n\t2. Press.\n",
    ],
    ids=["close", "loose", "deep, with brackets", "shallow, both numbered 1", "tabs"],
)
def test_ways_to_write_sub_steps(steps: str) -> None:
    assert "<ol><li>Fold.</li><li>Press.</li></ol>" in _words(steps)


def test_steps_from_ten_on_may_hold_sub_steps_too() -> None:
    steps = "".join(f"{at}. Press.\n" for at in range(1, 10)) + "10. Take it:\n    1. Fold.\n    2. Press.\n"
    assert "<ol><li>Fold.</li><li>Press.</li></ol>" in _words(steps, 10)


def test_a_number_at_the_beginning_of_a_line_begins_no_list() -> None:
    assert "<ol" not in _words("1. Sew to notch\n   12. Then press.\n")


def test_words_behind_sub_steps_stand_below_them() -> None:
    assert _words("1. Take it:\n   1. Fold.\n\n   Then press.\n") == (
        "<p>Take it:</p><ol><li>Fold.</li></ol><p>Then press.</p>"
    )


def test_a_list_inside_a_sub_step_is_told() -> None:
    _, findings = prove_text(PATTERN, "1. Take it:\n   1. Fold.\n      1. Twice.\n")
    nested = found(findings, "sub-steps-nested")
    assert (nested.place.line, nested.place.column) == (3, 7)  # type: ignore[union-attr]


def test_hints_and_cautions_stand_in_their_order_below_the_words() -> None:
    steps = """\
    ## Flap
    Caution: Mind {flap outside}.

    1. Sew.
       Hint: A *firm* press helps by {gap} & more.
       Caution: - Steam burns.
       Does: cut all
       Hint: Breathe.
    """
    proof, _ = prove_text(PATTERN, steps)
    section = proof.source.sections[0]
    (caution,) = section.asides
    assert [(str(quote), quote.place.line, quote.place.column) for quote in caution.quotes] == [("flap outside", 2, 16)]
    assert [(aside.kind, str(aside.text)) for aside in section.steps[0].asides] == [
        ("hint", "A *firm* press helps by {gap} & more."),
        ("caution", "- Steam burns."),
        ("hint", "Breathe."),
    ]
    (quote,) = section.steps[0].asides[0].quotes
    assert (quote.place.line, quote.place.column) == (5, 35)
    hint, caution_head = '<p class="hint"><b class="head">Hint</b>', '<p class="caution"><b class="head">Take care</b>'
    assert _words(steps) == (
        f"<p>Sew.</p>{hint} A <em>firm</em> press helps by 9 cm &amp; more.</p>"
        f"{caution_head} - Steam burns.</p>{hint} Breathe.</p>"
    )
    assert f'{caution_head} Mind <b class="name">flap outside</b>.</p>' in set_edition(proof, METRIC).html


@pytest.mark.parametrize(
    ("steps", "name", "line", "column"),
    [
        ("1. Sew.\n   Hint:\n", "no-value", 2, 4),
        ("1. Sew.\n   Caution: \n", "no-value", 2, 4),
        ("1. Sew.\n   Hint: mind the {gpa}\n", "no-such-name", 2, 20),
        ("1. Sew.\n   Hint: mind the {gap\n", "open-brace", 2, 19),
        ("1. Sew.\n   Caution: mind gap}\n", "open-brace", 2, 21),
        ("1. Sew.\n   Caution: mind { }\n", "empty-quote", 2, 20),
        ("1. Sew.\n   Cautoin: mind\n", "unknown-field", 2, 4),
        ("1. Sew.\n   Hint: mind the\n   gap.\n", "field-goes-on", 3, 1),
    ],
)
def test_slips_in_hints_and_cautions(steps: str, name: str, line: int, column: int) -> None:
    _, findings = prove_text(PATTERN, steps)
    slip = found(tuple(one for one in findings if one.name != "copy-never-used"), name)
    assert slip.place is not None
    assert (slip.place.file, slip.place.line, slip.place.column) == ("steps.md", line, column)


def test_words_of_the_step_may_follow_behind_an_empty_line() -> None:
    words = _words("1. Sew {flap outside}.\n   Hint: gently\n\n   Then press.\n")
    assert words.endswith('<p>Then press.</p><p class="hint"><b class="head">Hint</b> gently</p>')
