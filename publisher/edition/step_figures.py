"""The figures of all steps as SVG, and the key to them: drawn in the first size, said where another differs."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from publisher.checks import Proof
from publisher.cloth import BIAS_SEAM
from publisher.drafting import Draft
from publisher.edition.step_letters import StepLetters
from publisher.edition.words import Speaker
from publisher.figures import (
    BiasSquare,
    Drawing,
    Panel,
    StepFacts,
    drawing_svg,
    facts_of,
    finished_of,
    key_samples,
    lay_out,
    panels_of,
    quilted_by,
)
from publisher.frozen import dataclass
from publisher.source import WrittenStep
from publisher.template_pages import nested_pieces
from publisher.terms import Dimension, Phrase

# Textures that stand for a kind of material, and that kind.
CALLED = {"figures.key-interfacing": "interfacing", "figures.key-wadding": "wadding"}


@dataclass(frozen=True, slots=True)
class KeyLine:
    """One sample of the key and what it means."""

    svg: str
    words: str


@dataclass(frozen=True, slots=True)
class PlacedWords:
    """A line of a figure's words."""

    text: str
    left: float
    top: float
    bold: bool
    points: float


@dataclass(frozen=True, slots=True)
class FigureView:
    """A figure as SVG and the words that stand on it, mm, each from its upper left corner; a note below."""

    svg: str
    width: float
    height: float
    words: tuple[PlacedWords, ...]
    note: str  # which size it is drawn in, where that matters


@dataclass(frozen=True, slots=True)
class StepFigures:
    """The figure of each step that has one, by the step's id, and the key to them."""

    figures: dict[str, FigureView]
    key: tuple[KeyLine, ...]


def build_step_figures(proof: Proof, drafts: Sequence[Draft], speak: Speaker) -> StepFigures:
    """Every figure of one unit system."""
    letters = StepLetters(speak)
    drawn: dict[str, Drawing] = {}
    figures: dict[str, FigureView] = {}
    for section in proof.source.sections:
        for step in section.steps:
            panels = _panels(proof, drafts[0], step)
            if not panels:
                continue
            drawn[step.id] = lay_out(panels, letters)
            told = " ".join(speak.say(panel.told) for panel in panels)
            words = _amounts(panels)
            # Where nothing is measured no size differs, and the others need not be drawn.
            differs = bool(words) and any(_amounts(_panels(proof, draft, step)) != words for draft in drafts[1:])
            note = speak.say("figures.drawn-in-size", size=drafts[0].variant.size) if differs else ""
            figures[step.id] = _view(drawn[step.id], told, note)
    return StepFigures(figures, tuple(_key(list(drawn.values()), drafts[0], speak)))


def _key(drawings: Sequence[Drawing], draft: Draft, speak: Speaker) -> Iterator[KeyLine]:
    """The samples in words; of a texture that stands for a kind of material, what this pattern calls it."""
    for key, sample in key_samples(drawings):
        named = [material.key for material in draft.materials if material.kind == CALLED.get(key)]
        words = speak.say(key, materials=speak.listed(named))
        yield KeyLine(drawing_svg(sample, words), words)


def finished_drawing(proof: Proof, draft: Draft, speak: Speaker) -> str:
    """The finished thing as the last step leaves it, from its front, without words, as SVG; "" where nothing is known."""
    steps = [step for section in proof.source.sections for step in section.steps]
    panels = finished_of(draft, step_facts(proof, draft, steps[-1])) if steps else ()
    front = next((panel for panel in panels if panel.kind == "finished front"), None)
    if front is None:
        return ""
    bare = replace(front, scene=replace(front.scene, callouts=(), dimensions=()), caption=None)
    return drawing_svg(lay_out([bare], StepLetters(speak)), speak.say(front.told), words=False)


def _view(drawing: Drawing, told: str, note: str) -> FigureView:
    svg = drawing_svg(drawing, told, words=False)
    return FigureView(svg, drawing.width, drawing.height, words_on(drawing), note)


def words_on(drawing: Drawing) -> tuple[PlacedWords, ...]:
    """The lines of text of a drawing, for the page to set."""
    return tuple(
        PlacedWords(text.text, text.box.left, drawing.height - text.box.top, text.bold, text.points)
        for text in drawing.texts
    )


def _panels(proof: Proof, draft: Draft, step: WrittenStep) -> tuple[Panel, ...]:
    return panels_of(draft, step_facts(proof, draft, step))


def step_facts(proof: Proof, draft: Draft, step: WrittenStep) -> StepFacts:
    """What the figure of a step is told, in one variant."""
    assembly = proof.assembly_of(draft.variant)
    here = next(one for one in assembly.steps if one.id == step.id)
    facts = facts_of(assembly, here, quoted_lengths(draft, step))
    facts = replace(facts, squares=tuple(_squares(proof, draft)), quilted=tuple(_quilted(proof, draft, here.number)))
    cuts = any(action.verb == "cut" for action in (*here.actions, *here.shows))
    return replace(facts, nested=nested_pieces(proof.drafts_of(draft.variant.units))) if cuts else facts


def _quilted(proof: Proof, draft: Draft, number: int) -> Iterator[tuple[str, float]]:
    """What was quilted before a step, and how far apart: that stitching stays."""
    written = {one.id: one for section in proof.source.sections for one in section.steps}
    for step in proof.assembly_of(draft.variant).steps:
        if step.number < number:
            yield from quilted_by(step, quoted_lengths(draft, written[step.id]))


def _squares(proof: Proof, draft: Draft) -> Iterator[BiasSquare]:
    """The squares that bias strips come from, of those that come from one on every width of cloth."""
    plans = proof.cloth_of(draft.variant).strips
    for copy in dict.fromkeys(plan.copy for plan in plans):
        own = [plan for plan in plans if plan.copy == copy]
        if all(plan.square for plan in own):
            largest = max(own, key=lambda plan: plan.square)
            yield BiasSquare(
                copy, largest.square, largest.cut_width, float(BIAS_SEAM[draft.variant.units]), largest.count
            )


def quoted_lengths(draft: Draft, step: WrittenStep) -> tuple[tuple[str, float], ...]:
    """The lengths that a step's words quote, mm, by how they are written."""
    values = dict(draft.quoted)
    found: list[tuple[str, float]] = []
    for quote in step.all_quotes:
        told = values.get((quote.place, str(quote)))
        if told is not None and told.quantity is not None and told.quantity.dimension is Dimension.LENGTH:
            found.append((str(quote), float(told.quantity.amount)))
    return tuple(found)


def _amounts(panels: Sequence[Panel]) -> tuple[Phrase, ...]:
    """The lengths that are written in a figure."""
    return tuple(one.says for panel in panels for one in panel.scene.dimensions)
