"""The view: everything an edition of one unit system says, as text and HTML, ready for the layouts to set."""

import re
from collections.abc import Iterator, Sequence

from publisher.checks import Proof
from publisher.drafting import Draft
from publisher.edition.cautions import cautions_of
from publisher.edition.chart_lines import ChartLine, chart_intro, chart_lines, halves_laid
from publisher.edition.cover_facts import Fact, cover_facts
from publisher.edition.cutting_layouts import LayoutsView, build_layouts
from publisher.edition.legend import LegendLine, legend_intro, legend_lines
from publisher.edition.prose import unwrapped
from publisher.edition.scale_lines import ScaleLine, scale_lines
from publisher.edition.size_guide import SizeGuideView, size_guide_of
from publisher.edition.step_figures import KeyLine, build_step_figures, finished_drawing
from publisher.edition.step_views import SectionView, prose_html, section_view
from publisher.edition.supplies_view import SuppliesView, by_length, supplies_view
from publisher.edition.times import sum_of
from publisher.edition.vocabulary import Term, readable, used_terms
from publisher.edition.words import Speaker
from publisher.figures import cover_figure, figure_svg
from publisher.frozen import dataclass
from publisher.source import quotes_of
from publisher.tables import NotionRow, Tables, large_square
from publisher.terms import Phrase, UnitSystem, Written


@dataclass(frozen=True, slots=True)
class BuyLine:
    """One way to buy a material: how much, or how much for which sizes."""

    how: str
    amounts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class MaterialView:
    """One material to buy, and how less of it would do."""

    name: str
    key: str
    lines: tuple[BuyLine, ...]
    notes: tuple[str, ...]
    pieced: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class View:
    """All pages but the templates, for one unit system in one language."""

    language: str
    units: str
    edition: str
    title: str
    maker: str
    about: str
    drawing: str
    revision: str
    date: str
    facts: tuple[Fact, ...]
    video: str
    tested: str
    allowed: tuple[str, ...]
    large_square: str
    scales: tuple[ScaleLine, ...]
    size_guide: SizeGuideView | None
    materials: tuple[MaterialView, ...]
    bought_by_size: bool  # some of them in lengths that differ by size
    for_many: str  # "for 12", where materials and chart are for many
    notions: tuple[str, ...]
    supplies: SuppliesView
    tools: tuple[str, ...]
    cautions: tuple[str, ...]
    chart: tuple[ChartLine, ...]
    sized: bool  # the chart tells how large some copies are in each size
    chart_intro: tuple[str, ...]  # what holds for all rows, sentence by sentence
    layouts: LayoutsView
    legend: tuple[LegendLine, ...]
    legend_intro: str  # how marks are brought to the cloth; "" where there are none but notches
    vocabulary: tuple[Term, ...]
    sections: tuple[SectionView, ...]
    figure_key: tuple[KeyLine, ...]  # how to read the figures of the steps
    sum: str
    finishing: str
    care: str
    terms: str
    changes: tuple[str, ...]


def build_view(proof: Proof, units: UnitSystem, speak: Speaker, tiled: bool) -> View:
    """The view of a unit system, over all its sizes; `tiled` when some template takes several pages."""
    facts = proof.source.facts
    drafts = proof.drafts_of(units)
    tables = [proof.tables_of(draft.variant) for draft in drafts]
    materials = tuple(_materials(tables, speak))
    chart = chart_lines(tables, drafts, speak)
    listed = tuple(map(str, facts.tools))
    supplies = supplies_view(tables, speak, tiled, listed)
    legend = tuple(legend_lines(drafts, halves_laid(tables), speak, tiled))
    figures = build_step_figures(proof, drafts, speak)
    sections = tuple(section_view(proof, section, drafts, speak, figures) for section in proof.source.sections)
    return View(
        language=speak.language,
        units=speak.say(f"units.{units.value}"),
        edition=_edition(proof, units, speak),
        title=str(facts.title),
        maker=str(facts.maker or ""),
        about=_fact(facts.about, drafts, speak),
        drawing=finished_drawing(proof, drafts[0], speak) or _drawing(drafts[0], speak),
        revision=str(facts.revision),
        date=str(facts.date or ""),
        facts=tuple(cover_facts(proof, tables, speak)),
        video=str(facts.video or ""),
        tested=speak.say("cover.tested", tested=facts.tested) if facts.tested else speak.say("cover.untested"),
        allowed=tuple(_allowed(proof, units, speak)),
        large_square=speak.length(large_square(units)),
        scales=scale_lines(units, speak),
        size_guide=size_guide_of(proof, drafts, speak),
        materials=materials,
        bought_by_size=any(len(line.amounts) > 1 for material in materials for line in material.lines),
        for_many=speak.say("materials.for-many", make=proof.make) if proof.make > 1 else "",
        notions=tuple(_notion(rows, speak) for rows in zip(*(table.notions for table in tables), strict=True)),
        supplies=supplies,
        tools=(*listed, *supplies.tools),
        cautions=cautions_of(proof, units, speak),
        chart=chart,
        sized=any(len(row.size) > 1 or len(row.cut) > 1 for row in chart),
        chart_intro=chart_intro(tables, drafts, speak),
        layouts=build_layouts(proof, units, speak),
        legend=legend,
        legend_intro=legend_intro(drafts, speak),
        vocabulary=used_terms(_texts(sections, chart, legend, drafts), speak),
        sections=sections,
        figure_key=figures.key,
        sum=sum_of(proof.source.sections, speak),
        finishing=_fact(facts.finishing, drafts, speak),
        care=_fact(facts.care, drafts, speak),
        terms=_fact(facts.terms, drafts, speak),
        changes=tuple(unwrapped(_fact(change, drafts, speak)) for change in facts.changes),
    )


def _allowed(proof: Proof, units: UnitSystem, speak: Speaker) -> Iterator[str]:
    """What the maker lets through in this unit system, each check once."""
    reasons = {
        finding.name: finding.allowed
        for finding in proof.findings
        if finding.allowed is not None and any(variant.units is units for variant in finding.variants)
    }
    for check, reason in reasons.items():
        yield speak.say("cover.allowed", check=check.replace("-", " "), reason=reason)


def _edition(proof: Proof, units: UnitSystem, speak: Speaker) -> str:
    edition = speak.say(f"units.edition.{units.value}")
    if proof.only:
        sizes = speak.listed(list(proof.only))
        edition = speak.say("units.edition-sizes", edition=edition, count=len(proof.only), sizes=sizes)
    return speak.say("units.edition-many", edition=edition, make=proof.make) if proof.make > 1 else edition


def _drawing(draft: Draft, speak: Speaker) -> str:
    """The cover's drawing as SVG; of several sizes, the first."""
    figure = cover_figure(draft)
    return figure_svg(figure, speak.say("cover.drawing", copy=draft.cover), y_up=True) if figure is not None else ""


def _fact(text: Written | None, drafts: Sequence[Draft], speak: Speaker) -> str:
    return prose_html(text, quotes_of(text), drafts, speak) if text is not None else ""


def _materials(tables: Sequence[Tables], speak: Speaker) -> list[MaterialView]:
    views: list[MaterialView] = []
    for rows in zip(*(table.materials for table in tables), strict=True):
        first = rows[0]
        lines = [
            BuyLine(
                speak.say("materials.wide", width=speak.length(width)),
                _amounts([speak.cloth(row.buy[at][1]) for row in rows], tables, speak),
            )
            for at, (width, _) in enumerate(first.buy)
        ]
        lines += [
            BuyLine(
                speak.say("materials.precut", name=name),
                _amounts([speak.say("materials.precuts", count=row.precuts[at][1]) for row in rows], tables, speak),
            )
            for at, (name, _) in enumerate(first.precuts)
        ]
        notes = [first.note] if first.note else []
        pieced = [
            text for told in zip(*(row.pieced for row in rows), strict=True) for text in _pieced(told, tables, speak)
        ]
        if first.shrinkage:
            notes.append(speak.say("materials.shrinks", percent=f"{first.shrinkage * 100:g}"))
        if first.repeat:
            key = "materials.repeats-both" if len(first.repeat) > 1 else "materials.repeats"
            sides = [speak.length(side) for side in first.repeat]
            notes.append(speak.say(key, along=sides[0], across=sides[-1]))
        views.append(MaterialView(first.name, first.key, tuple(lines), tuple(notes), tuple(pieced)))
    return views


def _pieced(told: Sequence[Phrase | None], tables: Sequence[Tables], speak: Speaker) -> Iterator[str]:
    """What less of a width would do, size by size where that differs."""
    texts = [speak.say(phrase) if phrase is not None else "" for phrase in told]
    for sizes, text in speak.by_size(texts, [table.variant.size for table in tables]):
        if text:
            yield speak.say("materials.pieced-for-sizes", sizes=sizes, text=text) if sizes else text


def _amounts(texts: Sequence[str], tables: Sequence[Tables], speak: Speaker) -> tuple[str, ...]:
    return tuple(
        speak.say("materials.for-sizes", amount=text, sizes=sizes) if sizes else text
        for sizes, text in speak.by_size(texts, [table.variant.size for table in tables])
    )


def _notion(rows: Sequence[NotionRow], speak: Speaker) -> str:
    first = rows[0]
    text = speak.say("materials.notion-count", count=first.count, name=first.name) if first.count else first.name
    sizes = [
        speak.say(
            "materials.size", size=name, amount=speak.per_size([speak.quantity(dict(row.sizes)[name]) for row in rows])
        )
        for name, _ in first.sizes
    ]
    more = [words for words in (by_length(rows, speak), first.note) if words]
    return speak.say("numbers.list-separator").join([text, *sizes, *more])


def _texts(
    sections: Sequence[SectionView], chart: Sequence[ChartLine], legend: Sequence[LegendLine], drafts: Sequence[Draft]
) -> Iterator[str]:
    """What steps, chart and marks say to the reader; of a mark its name, not how it is explained."""
    for section in sections:
        yield section.title
        yield readable(section.intro)
        yield from (readable(aside.html) for aside in section.asides)
        for step in section.steps:
            yield readable(step.html)
            yield from (readable(aside.html) for aside in step.asides)
            yield from step.checkpoints
    for row in chart:
        yield from (row.copy, row.material, *(text for _, text in row.cut), row.grain, *row.notes)
    yield from (re.split(r"[:.]", line.words)[0] for line in legend)
    for draft in drafts:
        yield from (mark.name for piece in draft.pieces for mark in piece.as_cut.marks)
