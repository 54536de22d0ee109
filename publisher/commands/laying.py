"""Cutting layouts that have no answer yet are solved, and kept in the pattern's `kept/`."""

import contextlib
import os
import random
import re
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

import click

from publisher.checks import Proof
from publisher.cloth import (
    AGAIN_SECONDS,
    FIRST_SECONDS,
    WORKERS,
    Question,
    kept_answer,
    length_of,
    parts_of,
    solve_all,
    solver_installed,
    written_answer,
)
from publisher.frozen import dataclass

KEPT_NAME = re.compile(r"cloth-[0-9a-f]{16}\.json")
BETTER = 0.1  # mm: less is no other layout
MISSING = "cutting layouts stay in rows: the solver is not installed (pip install spyrrow rectpack)"


@dataclass(frozen=True, slots=True)
class Solving:
    """What to do about layouts: solve those without an answer, all of them again, or none."""

    again: bool = False
    never: bool = False


def no_solving_option(command: click.decorators.FC) -> click.decorators.FC:
    """`--no-solving`."""
    return click.option(
        "--no-solving",
        is_flag=True,
        envvar="PUBLISHER_NO_SOLVING",
        help="Use the cutting layouts that are kept; others stay in rows.",
    )(command)


def solving_options(command: click.decorators.FC) -> click.decorators.FC:
    """`--solve-again` and `--no-solving`."""
    again = click.option(
        "--solve-again", is_flag=True, help="Look for shorter cutting layouts, and keep what is better."
    )
    return again(no_solving_option(command))


def solved_layouts(folder: Path, name: str, proof: Proof, solving: Solving) -> dict[str, bytes]:
    """Kept files that are new or better, by their name in the folder; written to it where it can be written to."""
    if solving.never:
        return {}
    asked = (cloth.questions if solving.again else cloth.unanswered for cloth in proof.cloths)
    questions = list({one.name: one for each in asked for one in each}.values())
    if not solver_installed():
        if questions:
            click.echo(f"{name}: {MISSING}", err=True)
        return {}
    found: dict[str, bytes] = {}
    writable = True
    for file, content in _solve(name, questions, proof, solving.again) if questions else ():
        found[f"kept/{file}"] = content
        # At once, so that nothing is lost where she stops it.
        writable = writable and _write(folder / "kept", file, content)
    if solving.again:
        click.echo(f"{name}: {len(found)} of {len(questions)} cutting layouts are shorter than before", err=True)
    return found


def _solve(name: str, questions: Sequence[Question], proof: Proof, again: bool) -> Iterator[tuple[str, bytes]]:
    """File and content of each answer that is new, or better than the one that is kept."""
    seconds = AGAIN_SECONDS if again else FIRST_SECONDS
    about = seconds * -(-len(questions) // min(WORKERS, len(questions)))
    _progress(f"{name}: {len(questions)} cutting layouts to look for, {about:.0f} s at most …")
    # What is kept was found under a time limit, so that no seed gives it again; another one may lead further.
    seed = random.randrange(2**31) if again else 0
    for at, (question, answer) in enumerate(solve_all(questions, seconds, seed), 1):
        before = kept_answer(proof.source.kept, question)
        if before is None or length_of(question, answer) < length_of(question, before) - BETTER:
            yield question.name, written_answer(answer)
        if sys.stderr.isatty():
            _progress(f"{name}: {at} of {len(questions)} cutting layouts …")
    _progress("")


def _progress(text: str) -> None:
    """On a terminal in one line, wiped by the next; elsewhere a line of its own."""
    if sys.stderr.isatty():
        click.echo(f"\r\x1b[K{text}", err=True, nl=False)
    elif text:
        click.echo(text, err=True)


def _write(kept: Path, file: str, content: bytes) -> bool:
    """Writes the file whole or not at all; says so where it cannot, and returns False."""
    if kept.is_symlink():
        click.echo(f"{kept} is a link: cutting layouts are not kept there, and solved each time", err=True)
        return False
    try:
        kept.mkdir(exist_ok=True)
        beside = kept / f"{file}.new"
        beside.write_bytes(content)
        os.replace(beside, kept / file)
    except OSError as reason:
        click.echo(f"{kept}: {reason.strerror}; cutting layouts are not kept there, and solved each time", err=True)
        return False
    return True


def clear_away(folder: Path, proof: Proof) -> None:
    """Removes kept answers to what the pattern asks no more: their number is bounded, and git shows each."""
    asked = [one for cloth in proof.cloths for one in cloth.questions]
    used = {one.name for one in asked} | {part.name for one in asked for _, part in parts_of(one)}
    kept = folder / "kept"
    if kept.is_symlink() or not kept.is_dir():
        return
    for path in sorted(kept.glob("cloth-*.json")):
        if KEPT_NAME.fullmatch(path.name) and path.name not in used:
            with contextlib.suppress(OSError):
                path.unlink()
