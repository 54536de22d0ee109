"""The hint for a name that nothing bears: misspelt, or taken out with what bore it."""

import pytest

from publisher.terms import did_you_mean_or_gone

KNOWN = ("loop drop", "body front.left edge", "topstitching")


@pytest.mark.parametrize(
    ("word", "hint"),
    [
        ("topstiching", "did you mean 'topstitching'?"),
        ("loop drap", "did you mean 'loop drop'?"),
        ("body frnt.left edge", "did you mean 'body front.left edge'?"),
        ("loop", "if 'loop' was taken out, take this out too; did you mean 'loop drop'?"),
        ("loop.left end", "if 'loop.left end' was taken out, take this out too; did you mean 'body front.left edge'?"),
    ],
)
def test_what_shares_a_word_with_a_name_is_not_taken_for_it_misspelt(word: str, hint: str) -> None:
    assert did_you_mean_or_gone(word, KNOWN) == hint
