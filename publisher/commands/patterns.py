"""Which folder a PATTERN on the command line means."""

import re
from pathlib import Path

import click

from publisher.terms import did_you_mean

CONTENT = Path("content")


def all_patterns() -> list[Path]:
    """Every pattern in content/, by name."""
    return sorted(path.parent for path in CONTENT.glob("*/pattern.yaml")) if CONTENT.is_dir() else []


def find_pattern(given: str) -> Path:
    """The folder of a pattern: a folder itself, or a name in content/. Raises click.UsageError with the nearest name."""
    for folder in (Path(given), CONTENT / given):
        if folder.is_dir():
            return folder
    known = [path.name for path in all_patterns()]
    hint = did_you_mean(given, known) or "there is no content/ folder here; name a pattern's folder"
    raise click.UsageError(f"no pattern called '{given}': {hint}")


def output_name(folder: Path) -> str:
    """The name of a pattern's output: its folder's, in signs that every disk takes."""
    name = folder.resolve().name
    return re.sub(r"[^\w.-]+", "-", name).strip(".-") or "pattern"
