"""A pattern read from disk and proved."""

from collections.abc import Callable, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any, TypeVar

import click

from publisher.checks import Allowed, Proof
from publisher.pipeline import prove
from publisher.source import read_folder
from publisher.terms import Finding

Command = TypeVar("Command", bound=Callable[..., Any])

Texts = tuple[tuple[str, str], ...]


def allow_option(command: Command) -> Command:
    """`--allow CHECK`, given any number of times."""
    return click.option(
        "--allow",
        "allow",
        multiple=True,
        metavar="CHECK",
        callback=_allowed,
        help="Let through what a check finds; the edition says so. May be given several times.",
    )(command)


def _allowed(_: click.Context, __: click.Parameter, names: tuple[str, ...]) -> tuple[Allowed, ...]:
    return tuple(Allowed(name, "on the command line, without a reason") for name in names)


def prove_folder(
    folder: Path, name: str, allow: tuple[Allowed, ...] = (), kept: Mapping[str, bytes] = MappingProxyType({})
) -> tuple[Proof | None, tuple[Finding, ...], Texts]:
    """The proof, all findings, and the texts that a finding's line is printed from; `kept` stands before what is on disk."""
    files, unread = read_folder(folder)
    files.update(kept)
    proof, findings = prove(name, files, allow)
    texts = tuple(
        (file, content.decode("utf-8-sig", "replace"))
        for file, content in files.items()
        if not file.startswith("kept/")
    )
    return proof, (*unread, *findings), texts
