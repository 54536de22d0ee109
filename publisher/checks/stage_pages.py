"""The pages of what earlier stages find, by subject, from stage_pages.toml: the codes that no check yields."""

import tomllib
from importlib.resources import files

from publisher.checks.pages import Page


def stage_pages() -> tuple[Page, ...]:
    """A page for each code, in the order of the file; they have no examples."""
    text = (files("publisher.checks") / "stage_pages.toml").read_text(encoding="utf-8")
    return tuple(
        Page(code, subject, finds, why, fix, (), ())
        for subject, codes in tomllib.loads(text).items()
        for code, (finds, why, fix) in codes.items()
    )
