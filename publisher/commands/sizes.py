"""Sizes asked for on the command line, and the names of the files that hold only these."""

import re
from collections.abc import Sequence
from pathlib import Path

import click

from publisher.commands.patterns import output_name
from publisher.source import read_folder, read_source
from publisher.terms import did_you_mean


def chosen_sizes(folder: Path, asked: Sequence[str]) -> tuple[str, ...]:
    """The sizes asked for in the pattern's order; none where all are printed. Raises click.BadParameter for another."""
    if not asked:
        return ()
    source, _ = read_source(output_name(folder), read_folder(folder)[0])
    if source is None:
        return ()  # what keeps it from being read is told when it is proved
    known = [str(size) for size in source.sizes]
    for size in asked:
        if size not in known:
            hint = did_you_mean(size, known) if known else "leave --size out"
            told = f"sizes: {', '.join(known)}" if known else "it has no sizes"
            raise click.BadParameter(f"'{folder.name}' has no size '{size}' ({told}): {hint}", param_hint="--size")
    return tuple(size for size in known if size in asked) if set(asked) != set(known) else ()


def sized_name(edition: str, sizes: Sequence[str], known: Sequence[str], make: int = 1) -> str:
    """The name of an edition for some sizes, or for many: `inch-letter-m-for-12`, in signs that every disk takes."""
    slugs = [_slug(size) for size in known]
    doubled = {slug for slug in slugs if slugs.count(slug) > 1}
    numbered = {
        size: f"{slug}{at}" if slug in doubled else slug
        for at, (size, slug) in enumerate(zip(known, slugs, strict=True), 1)
    }
    many = (f"for-{make}",) if make > 1 else ()
    return "-".join((edition, *(numbered[size] for size in sizes), *many))


def _slug(size: str) -> str:
    return re.sub(r"[^\w]+", "-", size.lower()).strip("-") or "size"
