"""`publisher explain`: what each check finds, why it matters, how to mend it."""

from collections.abc import Sequence

import click

from publisher.checks import CHECKS, Page, page_of, stage_pages
from publisher.terms import did_you_mean

SUBJECTS = {
    "fit": "What is sewn together fits",
    "meeting": "What is pinned together meets",
    "notches_alone": "Notches that meet nothing",
    "turned_round": "Which way round",
    "caught": "What a seam catches",
    "curves": "Seams on a curve",
    "zips": "Zips",
    "bindings": "Hems and bindings",
    "bindings_told": "Bindings in words",
    "edges": "What an edge allows",
    "strips": "Strips, loops and handles",
    "stitched_through": "What a hem is stitched through",
    "holding": "Pockets, casings, linings",
    "pockets": "Pockets",
    "flaps": "Flaps",
    "closures": "Closures",
    "tied": "Cords and ties",
    "layers": "Layers and heat",
    "materials": "Materials",
    "cut_from": "What is cut from what",
    "finished_sizes": "Finished sizes",
    "allowances": "Allowances counted twice",
    "backings": "What is fused",
    "kinds": "Kinds of notions",
    "counts": "Counts",
    "marks": "Marks and copies",
    "unmarked": "Marks never made",
    "measured_from": "Marks that are measured",
    "work": "The steps",
    "left_out": "What was left out",
    "order": "The order of work",
    "not_yet_sewn": "What needs a seam",
    "tools": "Tools",
    "trims": "Allowances trimmed and snipped",
    "taken_for_done": "What the words take for done",
    "turning": "Turning the work",
    "inside_out": "What is turned",
    "facings": "Facings",
    "after_turning": "What is sewn when it is turned",
    "sequence": "What prepares what",
    "in_turn": "Work in its turn",
    "ends": "Ends of what is sewn on",
    "lines_sewn": "Lines to stitch along",
    "crowded": "Marks in one another's way",
    "sayings": "Words against the data",
    "other_pieces": "Another piece than meant",
    "lists_told": "Lists in words",
    "copies_told": "Which copy the words tell",
    "fellow_edges": "Copies worked alike",
    "edges_told": "Which edge the words tell",
    "seams_told": "Which seam the words tell",
    "edges_described": "Edges described",
    "sides": "Sides and faces in words",
    "said_of_work": "How the words do it",
    "pleats_told": "Pleats in words",
    "rows_told": "Rows in words",
    "words_at_edges": "Words about edges and seams",
    "told_otherwise": "Words against what is done",
    "cutting": "Cutting",
    "sizes": "Sizes",
    "units": "Inches and metric",
    "fellows": "Measures reckoned alike",
    "reading": "How a step reads",
    "words": "Words",
    "pictures": "Photographs",
    "promises": "What the cover promises",
    "times_told": "How long it takes",
    "cautions": "Cautions",
}
STAGES = {
    "reading": "What cannot be read",
    "steps": "Steps that cannot be understood",
    "formulas": "Formulas and names",
    "drawings": "Outlines drawn elsewhere",
    "drafting": "What cannot be drafted",
    "pages": "Cloth, paper and pages",
}


@click.command()
@click.argument("check", required=False)
def explain(check: str | None) -> None:
    """Explain a CHECK by the name in square brackets behind a finding; without one, list all.

    \b
    Example:
      publisher explain seam-lengths-differ
    """
    pages = [*map(page_of, CHECKS), *stage_pages()]
    if check is None:
        _list(pages)
        return
    page = next((page for page in pages if page.name == check), None)
    if page is None:
        near = did_you_mean(check, [page.name for page in pages])
        raise click.BadParameter(f"no check called '{check}': {near or 'publisher explain lists all'}")
    _print(page)


def _list(pages: Sequence[Page]) -> None:
    width = max(len(page.name) for page in pages)
    for subject, title in (SUBJECTS | STAGES).items():
        click.echo(f"{title}\n")
        for page in (page for page in pages if page.subject == subject):
            click.echo(f"  {page.name:{width}}  {page.finds}")
        click.echo("")


def _print(page: Page) -> None:
    click.echo(f"{page.name}\n\n{page.finds}\n\nWhy: {page.why}\n\nMend: {page.fix}\n")
    for title, lines in (("Found in:", page.fails), ("Not in:", page.passes)):
        if lines:
            click.echo(title)
            click.echo("".join(f"    {line}\n" for line in lines))
