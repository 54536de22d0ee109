"""All template pages of an edition: small pieces whole, several to a page; large ones tiled; the check block first."""

from collections.abc import Sequence
from dataclasses import replace
from functools import reduce

from publisher.drafting import Draft, Piece
from publisher.frozen import dataclass
from publisher.geometry import Box, Movement, Path, Point
from publisher.template_pages.frames import check_block_of, frame_of
from publisher.template_pages.nests import Template, nested, templates_of
from publisher.template_pages.sharing import GAP, Item, Lying, share_pages
from publisher.template_pages.tiling import MOST_TILES, Sheet, best_sheet, tile_pages
from publisher.template_pages.values import Edition, Frame, PlacedPiece, TemplatePage, TemplatePages
from publisher.terms import Finding, Severity

# A whole piece keeps so far from the frame on every side that its line prints in its full width (0.5 mm).
LINE_ROOM = 0.3


@dataclass(frozen=True, slots=True)
class _Printed:
    """What lies on paper as one: a template, or the templates of several sizes on one another."""

    templates: tuple[Template, ...]

    @property
    def piece(self) -> Piece:
        return self.templates[0].piece

    @property
    def pieces(self) -> tuple[Piece, ...]:
        return tuple(one.piece for one in self.templates)

    @property
    def outlines(self) -> tuple[Path, ...]:
        return tuple(piece.cut_line for piece in self.pieces)

    @property
    def box(self) -> Box:
        return reduce(Box.joined, (outline.box for outline in self.outlines))

    def on_page(self, movement: Movement, shift: Point, clip: Frame) -> tuple[PlacedPiece, ...]:
        return tuple(PlacedPiece(one.piece.name, one.size, movement, shift, clip) for one in self.templates)


def plan_pages(drafts: Sequence[Draft], edition: Edition) -> tuple[TemplatePages, tuple[Finding, ...]]:
    """The template pages of an edition, and a finding for each piece that no reasonable number of pages holds."""
    frame = frame_of(edition.paper)
    printed = [_Printed(together) for together in nested(templates_of(drafts))]
    if not printed:
        return TemplatePages(edition, ()), ()
    small = [at for at, one in enumerate(printed) if _fits(one, frame)]
    pages = _shared_pages(printed, small, frame)
    found: list[Finding] = []
    for at, one in enumerate(printed):
        if at in small:
            continue
        sheet = best_sheet(one.pieces, frame)
        if sheet.pages > MOST_TILES:
            found.append(_too_large(one, sheet, edition))
            continue
        pages += tile_pages(
            one.pieces, lambda *where, one=one: one.on_page(*where), sheet, frame, len(pages) + 1, pages[-1].sheet + 1
        )
    variants = tuple(draft.variant for draft in drafts)
    return TemplatePages(edition, tuple(pages)), tuple(replace(finding, variants=variants) for finding in found)


def _fits(printed: _Printed, frame: Frame) -> bool:
    inner, box = _inside(frame), printed.box
    sides = ((box.width, box.height), (box.height, box.width))
    return any(width <= inner.width and height <= inner.height for width, height in sides)


def _inside(frame: Frame) -> Frame:
    """Where cut lines of whole pieces may lie."""
    return Frame(
        frame.left + LINE_ROOM, frame.top + LINE_ROOM, frame.width - 2 * LINE_ROOM, frame.height - 2 * LINE_ROOM
    )


def _shared_pages(printed: Sequence[_Printed], small: list[int], frame: Frame) -> list[TemplatePage]:
    block = check_block_of(frame)
    items = [Item(at, printed[at].box.width, printed[at].box.height) for at in small]
    inner = _inside(frame)
    shared = share_pages(items, inner.width, inner.height, block.height + GAP)
    return [
        TemplatePage(
            number=number,
            sheet=number,
            row=1,
            column=1,
            rows=1,
            columns=1,
            frame=frame,
            placed=tuple(
                placed
                for lying in sorted(page, key=lambda one: one.key)
                for placed in _placed(printed[lying.key], lying, frame, inner)
            ),
            joining_marks=(),
            neighbours=(),
            check_block=block if number == 1 else None,
        )
        for number, page in enumerate(shared, start=1)
    ]


def _placed(printed: _Printed, lying: Lying, frame: Frame, inner: Frame) -> tuple[PlacedPiece, ...]:
    """The piece moved so that its box lies where it was put; the sheet is the frame, its origin the lower left corner."""
    turned = Movement(1 if lying.turned else 0, Point(0.0, 0.0))
    box = reduce(Box.joined, (outline.moved(turned).box for outline in printed.outlines))
    left = inner.left - frame.left + lying.left
    bottom = frame.top + frame.height - (inner.top + lying.top + lying.height)
    movement = replace(turned, shift=Point(left - box.left, bottom - box.bottom))
    return printed.on_page(movement, Point(frame.left, frame.top + frame.height), frame)


def _too_large(printed: _Printed, sheet: Sheet, edition: Edition) -> Finding:
    piece, box = printed.piece, printed.box
    together = f" in all its {len(printed.templates)} sizes" if len(printed.templates) > 1 else ""
    return Finding(
        "piece-too-large",
        Severity.ERROR,
        piece.place,
        f"'{piece.name}'{together} is {box.width:.0f} × {box.height:.0f} mm and would take {sheet.pages} pages "
        f"of {edition.paper.value.upper() if edition.paper.value == 'a4' else 'Letter'}, more than {MOST_TILES}",
        "look at its measures; a plain rectangle can be cut with a ruler (rectangle: without outline:)",
    )
