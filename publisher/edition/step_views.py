"""The steps as the layouts set them: words with their quotes filled in, hints, cautions, checkpoints."""

from collections.abc import Callable, Sequence

from publisher.checks import Proof
from publisher.drafting import Draft
from publisher.edition.photographs import PhotographView, photographs_of
from publisher.edition.prose import amount_html, name_html, render, render_line
from publisher.edition.qr_codes import link_at, qr_svg
from publisher.edition.step_figures import FigureView, StepFigures
from publisher.edition.times import minutes_of
from publisher.edition.words import Speaker
from publisher.frozen import dataclass
from publisher.source import WrittenAside, WrittenSection, WrittenStep
from publisher.terms import Written, length

ASIDE_HEADS = {"hint": "steps.hint", "caution": "steps.caution"}


@dataclass(frozen=True, slots=True)
class AsideView:
    """A hint or a caution: its kind, the words set before it, and its own as HTML."""

    kind: str
    head: str
    html: str


@dataclass(frozen=True, slots=True)
class StepView:
    """One step: HTML of its words, hints and cautions below them, and what to check behind it."""

    id: str
    number: str
    html: str
    asides: tuple[AsideView, ...]
    video: str
    checkpoints: tuple[str, ...]
    figure: FigureView | None
    photographs: tuple[PhotographView, ...]


@dataclass(frozen=True, slots=True)
class SectionView:
    """A section of the steps."""

    title: str
    intro: str
    asides: tuple[AsideView, ...]
    video: str
    minutes: str
    steps: tuple[StepView, ...]
    link: str  # to the moment of the video; "" for none
    code: str  # the link as a QR code, SVG


def section_view(
    proof: Proof, section: WrittenSection, drafts: Sequence[Draft], speak: Speaker, figures: StepFigures
) -> SectionView:
    """A section of the steps, over all sizes of the drafts."""
    minutes, video = minutes_of(section), proof.source.facts.video
    link = link_at(str(video), str(section.video)) if video and section.video else ""
    return SectionView(
        title=str(section.title),
        intro=prose_html(section.intro, section.quotes, drafts, speak),
        asides=tuple(_aside(aside, drafts, speak) for aside in section.asides),
        video=speak.say("steps.video", time=section.video) if section.video else "",
        minutes=speak.say("time.minutes", count=minutes) if minutes else "",
        link=link,
        code=qr_svg(link, speak.say("steps.code", time=section.video)) if link else "",
        steps=tuple(_step(proof, step, drafts, speak, figures) for step in section.steps),
    )


def _step(proof: Proof, step: WrittenStep, drafts: Sequence[Draft], speak: Speaker, figures: StepFigures) -> StepView:
    return StepView(
        id=step.id,
        number=str(step.number),
        html=prose_html(step.text, step.quotes, drafts, speak),
        asides=tuple(_aside(aside, drafts, speak) for aside in step.asides),
        video=speak.say("steps.video", time=step.video) if step.video else "",
        checkpoints=tuple(_checkpoints(proof, step, drafts, speak)),
        figure=figures.figures.get(step.id),
        photographs=photographs_of(proof, step),
    )


def _checkpoints(proof: Proof, step: WrittenStep, drafts: Sequence[Draft], speak: Speaker) -> list[str]:
    assembled = [
        next(one for one in proof.assembly_of(draft.variant).steps if one.id == step.id).checkpoints for draft in drafts
    ]
    strips = {copy.name for piece in drafts[0].pieces if piece.strip is not None for copy in piece.copies}
    return [
        speak.say(
            "steps.checkpoint-strip" if same[0].copy in strips else "steps.checkpoint",
            copy=same[0].copy,
            width=speak.per_size([speak.length(speak.off_a_tape(length(one.width))) for one in same]),
            height=speak.per_size([speak.length(speak.off_a_tape(length(one.height))) for one in same]),
        )
        for same in zip(*assembled, strict=True)
    ]


def _aside(aside: WrittenAside, drafts: Sequence[Draft], speak: Speaker) -> AsideView:
    html = render_line(aside.text, aside.quotes, _quote_shown(drafts, speak))
    return AsideView(aside.kind, speak.say(ASIDE_HEADS[aside.kind]), html)


def prose_html(text: Written, quotes: tuple[Written, ...], drafts: Sequence[Draft], speak: Speaker) -> str:
    """The maker's Markdown as HTML, its quotes filled in."""
    return render(text, quotes, _quote_shown(drafts, speak)) if text else ""


def _quote_shown(drafts: Sequence[Draft], speak: Speaker) -> Callable[[Written], str]:
    """What a quote is printed as: a name, or an amount, one for each size where sizes differ."""
    quoted = [dict(draft.quoted) for draft in drafts]

    def shown(written: Written) -> str:
        values = [one[(written.place, str(written))] for one in quoted]
        if values[0].name is not None:
            return name_html(values[0].name)
        return amount_html(
            speak.per_size([speak.quantity(value.quantity) for value in values if value.quantity is not None])
        )

    return shown
