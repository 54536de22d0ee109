"""`publisher cloth`: what to buy of each material and notion, and whether what is at hand will do."""

import json
import sys
from collections.abc import Iterator
from dataclasses import replace

import click

from publisher.checks import Allowed, Proof
from publisher.cloth import (
    FIRST_SECONDS,
    AtHand,
    Cloth,
    FromStock,
    KeptFiles,
    cut_for_many,
    from_stock,
    plan_cloth,
    solve_all,
    solver_installed,
    unanswered_on,
    written_answer,
)
from publisher.commands.cloth_told import answer_as_json, answer_lines, notion_lines, plain, ways_as_json, ways_lines
from publisher.commands.haves import Have, known_material, read_haves
from publisher.commands.laying import no_solving_option
from publisher.commands.many import make_option
from publisher.commands.patterns import find_pattern, output_name
from publisher.commands.proving import allow_option, prove_folder
from publisher.commands.sizes import chosen_sizes
from publisher.commands.telling import summary, tell
from publisher.drafting import Draft, Material
from publisher.pipeline import errors_in, only_sizes
from publisher.terms import UnitSystem, did_you_mean


def _units(_: click.Context, __: click.Parameter, name: str | None) -> UnitSystem | None:
    known = [units.value for units in UnitSystem]
    if name is not None and name not in known:
        raise click.BadParameter(f"no unit system called '{name}': {did_you_mean(name, known)}")
    return UnitSystem(name) if name is not None else None


@click.command()
@click.argument("pattern", metavar="PATTERN")
@click.option(
    "--have",
    "said",
    multiple=True,
    metavar="CLOTH",
    help="Cloth that is there, as '40 cm of 110 cm', '1/2 yd of 44 in' or '2 fat quarters'; may be given several times.",
)
@click.option("--material", metavar="KEY", help="Of this material alone; the one that --have speaks of.")
@click.option("--units", metavar="[inch|metric]", callback=_units, help="In one unit system alone.")
@click.option("--size", "sizes", metavar="SIZE", multiple=True, help="In this size alone; may be given several times.")
@make_option
@no_solving_option
@click.option("--json", "json_wanted", is_flag=True, help="As JSON on standard output, for other programs; in mm.")
@allow_option
def cloth(
    pattern: str,
    said: tuple[str, ...],
    material: str | None,
    units: UnitSystem | None,
    sizes: tuple[str, ...],
    make: int,
    no_solving: bool,
    json_wanted: bool,
    allow: tuple[Allowed, ...],
) -> None:
    """Tell how much of each material to buy in each width, or whether the cloth that is there will do.

    PATTERN is a folder, or the name of one in content/.

    With --have it says of each material that you name whether all of it can be cut from what you have: yes (it ends
    with 0) and where each piece lies, or no (1), which pieces find no room and how much is missing. Selvages, shrinkage
    and squaring up are taken off what you have. In several sizes, each is answered, and all must fit.

    \b
    Examples:
      publisher cloth sanderling-lined-pouch
      publisher cloth sanderling-lined-pouch --make 12
      publisher cloth sanderling-lined-pouch --have "canvas: 40 cm of 110 cm" --have "cotton: 1 m of 90 cm"
    """
    folder = find_pattern(pattern)
    name = output_name(folder)
    chosen = chosen_sizes(folder, sizes)
    proof, findings, texts = prove_folder(folder, name, allow)
    if proof is None or errors_in(findings):
        tell(findings, texts, folder)
        click.echo(f"{name}: {summary(findings)}; cloth is told when they are mended", err=True)
        sys.exit(1)
    proof = only_sizes(proof, chosen)
    if material is not None:
        known_material(material, proof.drafts[0], "--material")
    haves = read_haves(said, material, proof.drafts[0], units)
    if haves:
        told = list(_answers(proof, haves, units, make, not no_solving))
        fine = all(answer.fits for _, answer in told)
        shown: object = {"pattern": name, "make": make, "fits": fine, "answers": [answer_as_json(*one) for one in told]}
        lines = [line for draft, answer in told for line in answer_lines(draft, answer)]
    else:
        fine, ways = True, list(_ways(proof, material, units, make))
        shown = {"pattern": name, "make": make, "variants": [ways_as_json(*one) for one in ways]}
        lines = [line for way in ways for line in _to_buy(*way, notions=material is None)]
    title = f"{name}, for {make}" if make > 1 else name
    click.echo(json.dumps(shown, indent=2, ensure_ascii=False) if json_wanted else plain((title, *lines)))
    sys.exit(0 if fine else 1)


def _to_buy(draft: Draft, planned: Cloth, keys: list[str], notions: bool) -> Iterator[str]:
    yield from ways_lines(draft, planned, keys)
    if notions:
        yield from notion_lines(draft)


def _answers(
    proof: Proof, haves: tuple[Have, ...], units: UnitSystem | None, make: int, solving: bool
) -> Iterator[tuple[Draft, FromStock]]:
    """For each variant and each material that something is at hand of."""
    wanted = next((have.units for have in haves if have.units is not None), units)
    for draft in _drafts(proof, wanted):
        for material in draft.materials:
            own = [one for have in haves if have.material == material.key for one in have.cloths(draft.variant.units)]
            if own:
                many = cut_for_many(draft, make)
                yield draft, _answer(many, material, own, proof.source.kept, solving)


def _answer(draft: Draft, material: Material, own: list[AtHand], kept: KeptFiles, solving: bool) -> FromStock:
    """The answer by what is known; where it is no, of a single length, by what a solver finds in two seconds."""
    answer = from_stock(draft, material, own, kept)
    if answer.fits or len(own) > 1 or not solving or not solver_installed():
        return answer
    questions = unanswered_on(draft, material, own[0], kept)
    solved = solve_all(questions, FIRST_SECONDS, 0) if questions else ()
    return from_stock(draft, material, own, (*kept, *((one.name, written_answer(found)) for one, found in solved)))


def _ways(
    proof: Proof, material: str | None, units: UnitSystem | None, make: int
) -> Iterator[tuple[Draft, Cloth, list[str]]]:
    """The drafts for so many, their cloth, and the materials to tell of."""
    for draft in _drafts(proof, units):
        materials = tuple(one for one in draft.materials if material in (None, one.key))
        many = cut_for_many(replace(draft, materials=materials), make)
        planned = plan_cloth(many, proof.source.kept)[0] if make > 1 else proof.cloth_of(draft.variant)
        yield many, planned, [one.key for one in materials]


def _drafts(proof: Proof, units: UnitSystem | None) -> Iterator[Draft]:
    """The drafts of one unit system, or of both; on a terminal, which of several is worked at."""
    drafts = [draft for draft in proof.drafts if units in (None, draft.variant.units)]
    for draft in drafts:
        if sys.stderr.isatty():
            click.echo(f"\r\x1b[K{draft.variant} …", err=True, nl=False)
        yield draft
    if sys.stderr.isatty():
        click.echo("\r\x1b[K", err=True, nl=False)
