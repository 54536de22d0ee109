"""`publisher publish`: from a pattern folder to its printed editions."""

import sys
from collections.abc import Sequence
from dataclasses import field
from pathlib import Path
from typing import TYPE_CHECKING

import click

from publisher.checks import Allowed, Proof
from publisher.cloth import solver_installed
from publisher.commands.laying import Solving, clear_away, solved_layouts, solving_options
from publisher.commands.many import make_option
from publisher.commands.patterns import all_patterns, find_pattern, output_name
from publisher.commands.proving import allow_option, prove_folder
from publisher.commands.sizes import chosen_sizes, sized_name
from publisher.commands.telling import summary, tell
from publisher.frozen import dataclass
from publisher.pipeline import errors_in, for_many, only_sizes
from publisher.template_pages import DEFAULT_EDITIONS, EDITIONS, Edition, TemplatePages
from publisher.terms import Finding, Severity, did_you_mean

if TYPE_CHECKING:
    from publisher.edition import EditionRecord, Request

NAMES = [edition.name for edition in EDITIONS]


def _editions(_: click.Context, __: click.Parameter, names: tuple[str, ...]) -> tuple[Edition, ...]:
    """The editions of these names. Raises click.BadParameter with the nearest name."""
    for name in names:
        if name not in NAMES:
            raise click.BadParameter(f"no edition called '{name}': {did_you_mean(name, NAMES)}")
    return tuple(edition for edition in EDITIONS if edition.name in names)


def _requests(_: click.Context, __: click.Parameter, names: tuple[str, ...]) -> tuple["Request", ...]:
    """What was asked for by name. Raises click.BadParameter with the nearest name."""
    if not names:
        return ()
    from publisher.edition import Request, requests_named

    known = [request.value for request in Request]
    for name in names:
        if name not in known:
            raise click.BadParameter(f"no pages called '{name}': {did_you_mean(name, known)}")
    return requests_named(names)


@click.command()
@click.argument("patterns", metavar="[PATTERN]...", nargs=-1)
@click.option(
    "--edition",
    "editions",
    multiple=True,
    metavar=f"[{'|'.join(NAMES)}]",
    callback=_editions,
    help="An edition to make; may be given several times.",
)
@click.option(
    "--with",
    "requests",
    metavar="PAGES",
    multiple=True,
    callback=_requests,
    help="Pages to add, pin-on-labels or drafting-page; may be given several times.",
)
@click.option(
    "--size",
    "sizes",
    metavar="SIZE",
    multiple=True,
    help="Print only this size; may be given several times.",
)
@click.option(
    "--into",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("build"),
    show_default=True,
    help="Where output goes.",
)
@make_option
@click.option("--plain", is_flag=True, help="One line a finding, for editors.")
@solving_options
@allow_option
def publish(
    patterns: tuple[str, ...],
    editions: tuple[Edition, ...],
    requests: tuple["Request", ...],
    sizes: tuple[str, ...],
    into: Path,
    make: int,
    plain: bool,
    solve_again: bool,
    no_solving: bool,
    allow: tuple[Allowed, ...],
) -> None:
    """Make the printable editions of a pattern, or of every pattern in content/.

    PATTERN is a folder, or the name of one in content/. Without --edition the inch edition on Letter and the metric
    edition on A4 are made. Nothing is written where an error was found.

    --with pin-on-labels adds labels to cut out and pin on the pieces that are cut by measure.
    --with drafting-page adds pages by which a reader without a printer draws the templates with ruler and compasses.

    --size M prints size M alone, in a file of its own (…-m.pdf); without it all sizes lie on one template.

    Cutting layouts that are not known yet are looked for, two seconds each, and kept in the pattern's folder kept/.
    --solve-again looks for shorter ones, twenty seconds each, and keeps what is better.

    --make 12 tells cloth, counts and notions for twelve, in a file of its own (…-for-12.pdf); templates stay one set.

    \b
    Examples:
      publisher publish sanderling-lined-pouch --edition metric-a4
      publisher publish sanderling-lined-pouch --with pin-on-labels --with drafting-page
    """
    if solve_again and no_solving:
        raise click.UsageError("--solve-again looks for cutting layouts, and --no-solving does not: leave one out")
    folders = [find_pattern(pattern) for pattern in patterns] or all_patterns()
    if not folders:
        raise click.UsageError(
            "there is no pattern in content/; name a pattern's folder, or begin one: publisher new NAME"
        )
    wanted = editions or DEFAULT_EDITIONS
    chosen = [chosen_sizes(folder, sizes) for folder in folders]
    fine = [
        publish_pattern(
            folder, wanted, Asked(requests, own, allow, Solving(solve_again, no_solving), make), into, plain
        )
        for folder, own in zip(folders, chosen, strict=True)
    ]
    sys.exit(0 if all(fine) else 1)


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked for beside the editions: pages to add, sizes to print (none: all), checks to let through, how many."""

    requests: Sequence["Request"]
    sizes: tuple[str, ...]
    allow: tuple[Allowed, ...] = ()
    solving: Solving = field(default_factory=Solving)
    make: int = 1


def publish_pattern(folder: Path, wanted: Sequence[Edition], asked: Asked, into: Path, plain: bool) -> bool:
    """Publishes one pattern and tells its findings; False where errors stopped it."""
    name = output_name(folder)
    proof, findings, texts = prove_folder(folder, name, asked.allow)
    if proof is not None and not errors_in(findings):
        solved = solved_layouts(folder, name, proof, asked.solving)
        if solved:
            proof, findings, texts = prove_folder(folder, name, asked.allow, solved)
        if proof is not None and not asked.solving.never and solver_installed():
            clear_away(folder, proof)
    findings = (*findings, *_language(proof))
    if proof is None or errors_in(findings):
        tell(findings, texts, folder, plain)
        click.echo(f"{name}: {summary(findings)}; nothing was written", err=True)
        return False
    written, more = _write(proof, wanted, asked, into, name)
    tell((*findings, *more), texts, folder, plain)
    for line in written:
        click.echo(line)
    return not errors_in(more)


def _language(proof: Proof | None) -> tuple[Finding, ...]:
    from publisher.edition import languages

    if proof is None or str(proof.source.facts.language) in languages():
        return ()
    language = proof.source.facts.language
    says = f"there are no words for the language '{language}'"
    mend = f"known here: {', '.join(languages())}; another is a file in layouts/words/"
    return (Finding("no-such-language", Severity.ERROR, language.place, says, mend),)


def _write(
    proof: Proof, wanted: Sequence[Edition], asked: Asked, into: Path, name: str
) -> tuple[list[str], tuple[Finding, ...]]:
    """Prints the editions and exchanges the output folder; lines to tell, and findings of the printing."""
    from publisher.edition import (
        EditionRecord,
        ForeignFiles,
        computed_json,
        exchange_output,
        foreign_files,
        print_editions,
    )

    target = into / name
    foreign = foreign_files(target)
    if foreign:
        return [], (_foreign(ForeignFiles(target, foreign)),)
    files: dict[str, bytes] = {}
    records: list[EditionRecord] = []
    lines: list[str] = []
    found: list[Finding] = []
    _progress(f"{name}: {len(wanted)} editions …")
    sized = for_many(only_sizes(proof, asked.sizes), asked.make)
    for printed in print_editions(sized, wanted, asked.requests):
        edition = printed.edition
        record_name = sized_name(edition.name, asked.sizes, list(map(str, proof.source.sizes)), asked.make)
        file = f"{name}-{record_name}.pdf"
        files[file] = printed.pdf
        made = (file, printed.pages, printed.template_pages, printed.made_of, printed.requests)
        records.append(
            EditionRecord(record_name, *made, edition.name, asked.sizes, sized.pages_of(edition), asked.make)
        )
        lines.append(f"{target / file}: {printed.pages} pages, {printed.template_pages} of them templates")
        found.extend(finding for finding in printed.findings if finding not in found)
    _progress("")
    lines += _carry_over(proof, target, files, records)
    files["computed.json"] = computed_json(proof, sorted(records, key=lambda record: record.name))
    exchange_output(into, name, files)
    return lines, tuple(found)


def _carry_over(proof: Proof, target: Path, files: dict[str, bytes], records: list["EditionRecord"]) -> list[str]:
    """Keeps editions that were not asked for, and says when they show an earlier state of the pattern."""
    from publisher.edition import EditionRecord, read_record, requests_named, set_edition

    made = {record.name for record in records}
    lines: list[str] = []
    earlier = read_record(target).get("editions", {})
    by_name = {edition.name: edition for edition in EDITIONS}
    for name, told in earlier.items() if isinstance(earlier, dict) else ():
        edition = by_name.get(str(told.get("edition", name))) if isinstance(told, dict) else None
        if edition is None or name in made or not (target / str(told["file"])).is_file():
            continue
        file, sizes = str(told["file"]), tuple(map(str, told.get("sizes", ())))
        files[file] = (target / file).read_bytes()
        pages, asked = told["template pages"], requests_named(told.get("with", ()))
        make = int(told.get("make", 1))
        known = set(sizes) <= set(map(str, proof.source.sizes))
        sized = for_many(only_sizes(proof, sizes), make) if known else None
        planned = sized.pages_of(edition) if sized is not None else TemplatePages(edition, ())
        kept = (file, int(told["pages"]), len(pages), str(told["made of"]), asked)
        records.append(EditionRecord(name, *kept, edition.name, sizes, planned, make))
        if sized is None or set_edition(sized, edition, asked).made_of != told["made of"]:
            anew = "".join(f" --size '{size}'" if " " in size else f" --size {size}" for size in sizes)
            anew += f" --make {make}" if make > 1 else ""
            lines.append(
                f"{target / file}: kept as it was; it shows an earlier state of the pattern "
                f"(--edition {edition.name}{anew} makes it anew)"
            )
    return lines


def _foreign(reason: Exception) -> Finding:
    mend = "move them elsewhere, or send the output elsewhere with --into DIR"
    return Finding("foreign-files", Severity.ERROR, None, str(reason), mend)


def _progress(text: str) -> None:
    """What is being made, on a terminal; wiped by the next."""
    if sys.stderr.isatty():
        click.echo(f"\r\x1b[K{text}", err=True, nl=False)
