"""One long bias strip from a square: cut across, sewn into a slanting block and then into a tube. The draft's mm."""

import math

from publisher.figures.steps.cloth import Bench, texture_of
from publisher.figures.steps.facts import BiasSquare
from publisher.figures.steps.lines import box_path, chain, line
from publisher.figures.steps.values import Callout, Dimension, Look, Panel, Scene, Shape, Texture
from publisher.figures.steps.wording import face_words, length_words
from publisher.geometry import Point
from publisher.terms import Phrase


def square_panels(bench: Bench, square: BiasSquare) -> list[Panel]:
    """The square and where it is cut, the block that its halves make, and the lines along which the tube is cut round."""
    return [_cut_across(bench, square), _sewn_into_a_block(bench, square), _ruled(square)]


def _cut_across(bench: Bench, square: BiasSquare) -> Panel:
    side = square.side
    shapes = (
        Shape(box_path(0.0, 0.0, side, side), Look.RAW, texture_of(bench, square.copy, wrong_up=False), closed=True),
        Shape(line(Point(0.0, 0.0), Point(side, side)), Look.CUT),
    )
    callouts = (
        Callout(face_words(square.copy, wrong_up=False), Point(side * 0.3, side * 0.7), bench.number(square.copy)),
        Callout(Phrase.of("figures.cut-across"), Point(side * 0.62, side * 0.62)),
    )
    measure = Dimension(Point(0.0, 0.0), Point(side, 0.0), length_words(side), away=-6.0)
    told = Phrase.of("figures.told-square", copy=square.copy, side=length_words(side))
    return Panel("bias square", Scene(shapes, callouts, (measure,)), told, None, (square.copy,))


def _sewn_into_a_block(bench: Bench, square: BiasSquare) -> Panel:
    """The upper half moved down, its upper edge sewn to the lower edge of the other: seen opened, wrong side up."""
    side, seam = square.side, square.seam
    wrong = texture_of(bench, square.copy, wrong_up=True)
    halves = [
        [Point(0.0, 0.0), Point(side, 0.0), Point(side, side)],
        [Point(0.0, 0.0), Point(0.0, -side), Point(side, 0.0)],
    ]
    shapes = (
        *(Shape(chain(half, closed=True), Look.RAW, wrong, closed=True) for half in halves),
        Shape(line(Point(0.0, 0.0), Point(side, 0.0)), Look.STITCHING),
    )
    callouts = (
        Callout(Phrase.of("figures.wrong-side-short"), Point(side * 0.75, side * 0.5)),
        Callout(Phrase.of("figures.first-edges-joined", seam=length_words(seam)), Point(side * 0.3, 0.0)),
    )
    told = Phrase.of("figures.told-block", copy=square.copy, seam=length_words(seam))
    return Panel("bias block", Scene(shapes, callouts), told, None, (square.copy,))


def _ruled(square: BiasSquare) -> Panel:
    """The block with its lines, and the spots of its two upright edges that meet when it is sewn into a tube."""
    side, apart = square.side, square.strip * math.sqrt(2)
    block = [Point(0.0, 0.0), Point(0.0, -side), Point(side, 0.0), Point(side, side)]
    rises = [apart * at for at in range(1, square.rounds)]
    shapes = (
        # No texture: its slanting strokes would be taken for the lines.
        Shape(chain(block, closed=True), Look.RAW, Texture.PLAIN, closed=True),
        Shape(line(Point(0.0, 0.0), Point(side, 0.0)), Look.STITCHED),
        *(Shape(line(Point(0.0, rise - side), Point(side, rise)), Look.MARK) for rise in rises),
    )
    middle, square_to_it = Point(side / 2, rises[-1] - side / 2), Point(apart / 2, -apart / 2)
    callouts = (
        Callout(Phrase.of("figures.meets"), Point(0.0, apart - side), side="left"),
        Callout(Phrase.of("figures.meets"), Point(side, 0.0), side="right"),
    )
    measure = Dimension(middle, middle + square_to_it, length_words(square.strip))
    strip = length_words(square.strip)
    told = Phrase.of("figures.told-ruled", copy=square.copy, strip=strip)
    return Panel(
        "bias block ruled", Scene(shapes, callouts, (measure,)), told, Phrase.of("figures.tube-sewn"), (square.copy,)
    )
