"""`--make 12`: the pattern for many, as for a class or a market stall."""

from collections.abc import Callable
from typing import Any, TypeVar

import click

MOST = 100  # of a pattern at once
Command = TypeVar("Command", bound=Callable[..., Any])


def make_option(command: Command) -> Command:
    """`--make COUNT`, from one to a hundred."""
    return click.option(
        "--make",
        type=click.IntRange(1, MOST),
        default=1,
        metavar="COUNT",
        help=f"For so many of the pattern, up to {MOST}: cloth, counts and notions.",
    )(command)
