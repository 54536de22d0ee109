"""The command line. Exit 0: fine; 1: errors found in a pattern; 2: wrong use; 3: a mistake of our own."""

import os
import sys
import traceback
from pathlib import Path

import click

import publisher
from publisher.commands.cloth import cloth
from publisher.commands.explain import explain
from publisher.commands.new import new
from publisher.commands.proof import proof
from publisher.commands.publish import publish
from publisher.commands.schema import schema


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(publisher.__version__, prog_name="publisher")
def commands() -> None:
    """Turns a sewing pattern, one folder of text files, into the PDF that you publish.

    \b
    Begin:    publisher new plover-needle-book
    Check:    publisher proof plover-needle-book
    Publish:  publisher publish plover-needle-book
    """


for command in (publish, proof, cloth, explain, schema, new):
    commands.add_command(command)


def main() -> None:
    """Runs the command line and ends the process with its exit code."""
    try:
        sys.exit(run(sys.argv[1:]))
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(0)


def run(arguments: list[str]) -> int:
    """The exit code of a command; every mistake, the maker's or ours, is told in words."""
    try:
        commands.main(arguments, prog_name="publisher", standalone_mode=False)
    except SystemExit as ended:
        return ended.code if isinstance(ended.code, int) else 0
    except click.exceptions.Abort:
        return 130
    except click.ClickException as wrong:
        click.echo(f"publisher: {wrong.format_message()}", err=True)
        if isinstance(wrong, click.UsageError) and wrong.ctx is not None:
            click.echo(f"See '{wrong.ctx.command_path} --help'.", err=True)
        return 2
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        raise
    except OSError as reason:
        return _machine(reason)
    except Exception as bug:
        return _machine(bug) if type(bug).__name__ == "MissingPango" else _bug(bug)
    return 0


def _machine(reason: Exception) -> int:
    """What the machine lacks or refuses."""
    if type(reason).__name__ == "MissingPango":
        install = getattr(reason, "INSTALL", "")
        click.echo(f"publisher: the text library Pango is missing. To install it:\n{install}", err=True)
    elif isinstance(reason, OSError) and reason.filename:
        click.echo(f"publisher: {reason.filename}: {reason.strerror}. Nothing was written.", err=True)
    else:
        return _bug(reason)
    return 2


def _bug(bug: BaseException) -> int:
    """A mistake of our own, in one plain line."""
    if os.environ.get("PUBLISHER_TRACEBACK"):
        traceback.print_exception(bug)
    last = traceback.extract_tb(bug.__traceback__)[-1:] if bug.__traceback__ else []
    where = f" in {Path(last[0].filename).name}:{last[0].lineno}" if last else ""
    words = " ".join(str(bug).split())[:160]
    click.echo(
        f"publisher stopped on a mistake of its own ({type(bug).__name__}{where}: {words}). Nothing was written. "
        "PUBLISHER_TRACEBACK=1 shows more.",
        err=True,
    )
    return 3
