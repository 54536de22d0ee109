"""The proof: everything that was computed of a pattern, which checks and editions read."""

import dataclasses
from collections.abc import Callable, Iterator
from functools import cached_property

from publisher.assembly import Action, Assembly, AssemblyStep, WorkState, after_action
from publisher.cloth import Cloth
from publisher.drafting import Draft
from publisher.frozen import dataclass
from publisher.measures import Measures
from publisher.source import Source
from publisher.tables import Tables
from publisher.template_pages import Edition, TemplatePages
from publisher.terms import Finding, UnitSystem, Variant


@dataclass(frozen=True, slots=True)
class Deed:
    """One action with its step, and the state of the work before it."""

    draft: Draft
    step: AssemblyStep
    action: Action
    before: WorkState


@dataclasses.dataclass(frozen=True)
class Proof:
    """All stages of one pattern. Drafts, assemblies, cloths and tables stand in the same order, inch first.

    Of a proof for some of the pattern's sizes, `only` names them, and the source lists no others. Cloths and tables are
    for `make` of the pattern.
    """

    source: Source
    measures: Measures
    drafts: tuple[Draft, ...]
    assemblies: tuple[Assembly, ...]
    cloths: tuple[Cloth, ...]
    tables: tuple[Tables, ...]
    template_pages: tuple[TemplatePages, ...]
    findings: tuple[Finding, ...] = ()
    only: tuple[str, ...] = ()
    make: int = 1

    @property
    def variants(self) -> tuple[Variant, ...]:
        """Every variant, for what holds in all of them."""
        return tuple(draft.variant for draft in self.drafts)

    @cached_property
    def deeds(self) -> tuple[tuple[Deed, ...], ...]:
        """All actions in order, of each variant; most checks ask for them."""
        return tuple(
            tuple(_deeds(draft, assembly)) for draft, assembly in zip(self.drafts, self.assemblies, strict=True)
        )

    def drafts_of(self, units: UnitSystem) -> tuple[Draft, ...]:
        """The drafts of one unit system, a draft a size."""
        return tuple(draft for draft in self.drafts if draft.variant.units is units)

    def pages_of(self, edition: Edition) -> TemplatePages:
        """The template pages of an edition. Raises KeyError."""
        for pages in self.template_pages:
            if pages.edition == edition:
                return pages
        raise KeyError(edition.name)

    def _at(self, variant: Variant) -> int:
        return [draft.variant for draft in self.drafts].index(variant)

    def assembly_of(self, variant: Variant) -> Assembly:
        """The assembly of one variant."""
        return self.assemblies[self._at(variant)]

    def cloth_of(self, variant: Variant) -> Cloth:
        """The cloth of one variant."""
        return self.cloths[self._at(variant)]

    def tables_of(self, variant: Variant) -> Tables:
        """The tables of one variant."""
        return self.tables[self._at(variant)]


Check = Callable[[Proof], Iterator[Finding]]


def _deeds(draft: Draft, assembly: Assembly) -> Iterator[Deed]:
    for step in assembly.steps:
        state = step.before
        for action in step.actions:
            yield Deed(draft, step, action, state)
            state = after_action(state, action, draft)
