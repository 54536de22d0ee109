"""Findings told on standard error: place, what is wrong, the line with a caret, how to mend it."""

import os
from collections.abc import Sequence
from pathlib import Path

import click

from publisher.source import excerpt
from publisher.terms import Finding, Severity, UnitSystem, Variant


def tell(findings: Sequence[Finding], texts: tuple[tuple[str, str], ...], folder: Path, plain: bool = False) -> None:
    """Each finding as `file:line:column: severity: what is wrong [name]`, and below it the line and the mend."""
    for finding in findings:
        where = f"{_shown(folder, finding)}: " if finding.place else ""
        severity = finding.severity.value if finding.allowed is None else "allowed"
        click.echo(f"{where}{severity}: {finding.says}{_holds_in(finding)} [{finding.name}]", err=True)
        if plain:
            continue
        shown = excerpt(texts, finding.place) if finding.place else None
        for line in shown or ():
            click.echo(f"    {line}", err=True)
        if finding.allowed is not None:
            click.echo(f"    let through: {finding.allowed}", err=True)
        elif finding.mend:
            click.echo(f"    mend: {finding.mend}", err=True)
        click.echo("", err=True)


def _shown(folder: Path, finding: Finding) -> str:
    """The place, its file as it is reached from where she stands."""
    place = finding.place
    assert place is not None
    path = folder / place.file
    try:
        shown = os.path.relpath(path)
    except ValueError:  # another drive
        shown = str(path)
    return f"{shown if not shown.startswith('..') else path}:{place.line}:{place.column}"


def _holds_in(finding: Finding) -> str:
    """ " (inch only)" where it does not hold in every variant."""
    variants: tuple[Variant, ...] = finding.variants
    units = {variant.units for variant in variants}
    if len(units) == 1:
        (only,) = units
        told = f"{only.value} only"
        sizes = [variant.size for variant in variants if variant.size is not None]
        return f" ({told}{', size ' + ', '.join(sizes) if sizes else ''})"
    sizes = list(dict.fromkeys(variant.size for variant in variants if variant.size is not None))
    return f" (size {', '.join(sizes)})" if sizes and len(units) == len(UnitSystem) else ""


def as_json(findings: Sequence[Finding]) -> list[dict[str, object]]:
    """The findings for other programs; lines and columns from 1."""
    return [
        {
            "check": finding.name,
            "severity": finding.severity.value,
            "file": finding.place.file if finding.place else None,
            "line": finding.place.line if finding.place else None,
            "column": finding.place.column if finding.place else None,
            "endLine": finding.place.end_line if finding.place else None,
            "endColumn": finding.place.end_column if finding.place else None,
            "says": finding.says,
            "mend": finding.mend,
            "variants": [str(variant) for variant in finding.variants],
            "allowed": finding.allowed,
        }
        for finding in findings
    ]


def summary(findings: Sequence[Finding]) -> str:
    """`2 errors, 1 warning`, or that there is nothing to mend."""
    stop = [finding for finding in findings if finding.allowed is None]
    counts = {severity: sum(finding.severity is severity for finding in stop) for severity in Severity}
    words = {
        Severity.ERROR: ("error", "errors"),
        Severity.WARNING: ("warning", "warnings"),
        Severity.ADVICE: ("advice", "pieces of advice"),
    }
    told = [f"{count} {words[severity][count > 1]}" for severity, count in counts.items() if count]
    if len(stop) < len(findings):
        told.append(f"{len(findings) - len(stop)} let through")
    return ", ".join(told) or "nothing to mend"
