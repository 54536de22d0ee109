"""What the labels of a template say, as phrases: a name beside each mark, and the block that names the piece."""

from collections.abc import Iterator, Sequence

from publisher.drafting import Copy, Hem, LineMark, Mark, PathMark, Piece, PointMark
from publisher.figures.boxed_corners import BoxedCorner
from publisher.frozen import dataclass
from publisher.template_pages import TemplatePage
from publisher.terms import Phrase, length

TITLE, BODY, SMALL = 15.0, 10.0, 9.0  # type sizes, points
# What is said of several copies that are cut alike.
OF_EACH = {
    "label.cut": "label.cut-each",
    "label.cut-pair": "label.cut-pair-each",
    "label.cut-inner": "label.cut-inner-each",
    "label.cut-trimmed": "label.cut-trimmed-each",
    "label.cut-trimmed-by": "label.cut-trimmed-by-each",
    "label.cut-rough": "label.cut-rough-each",
}


@dataclass(frozen=True, slots=True)
class Words:
    """One line of a label before it is text."""

    phrase: Phrase
    points: float
    bold: bool = False
    tight: bool = False  # set as low as its letters where none of them descends


def mark_words(mark: Mark, piece: Piece) -> tuple[Words, ...]:
    """A mark's name, and the copies that bear it when not all do; which way the template lies on them for it, where that
    is not how it lies when they are cut."""
    if isinstance(mark, PathMark) and mark.kind == "turning gap":
        if mark.copies:
            copies = _listed(mark.copies)
            return (Words(Phrase.of("label.turning-gap-for", name=mark.name, copies=copies), SMALL),)
        return (Words(Phrase.of("label.turning-gap", name=mark.name), SMALL),)
    named = (
        Phrase.of("label.mark-for", name=mark.name, copies=_listed(mark.copies))
        if mark.copies
        else Phrase.of("label.mark", name=mark.name)
    )
    if isinstance(mark, PointMark | LineMark | PathMark) and mark.face == "right side":
        # A line of its own: beside lines that lie close a long name finds no room.
        return (Words(named, SMALL), Words(Phrase.of("label.on-right-side"), SMALL), *_laid_for(mark, piece))
    return (Words(named, SMALL),)


def _laid_for(mark: PointMark | LineMark | PathMark, piece: Piece) -> Iterator[Words]:
    """How the template is laid to bring a mark to the right side of copies that do not lie below it right side up."""
    bearers = [copy for copy in piece.copies if not mark.copies or _short_name(piece, copy) in mark.copies]
    # Where all copies bear a mark, those that are turned over are told once, in the middle of the piece.
    down = [copy for copy in bearers if copy.turned_over and mark.copies]
    up = [copy for copy in bearers if copy.faces_away and not copy.turned_over]
    for key, copies in (("label.this-side-up", up), ("label.this-side-down", down)):
        if copies:
            yield Words(Phrase.of(key, copies=_listed([_short_name(piece, copy) for copy in copies])), SMALL)


def corner_words(corner: BoxedCorner) -> tuple[Words, ...]:
    """What is done at a corner that is boxed: how much is cut out, and the length of the seam across it."""
    cut = Phrase.of("label.boxed-corner")
    if corner.cut_out is not None:
        across, up = corner.cut_out
        cut = Phrase.of("label.boxed-corner-of", across=_told(across), up=_told(up))
    return (Words(cut, SMALL), Words(Phrase.of("label.boxed-across", length=_told(corner.length)), SMALL))


def sizes_words(sizes: Sequence[str], of_all: bool) -> tuple[Words, ...]:
    """Which sizes a line or a mark of a nest is for."""
    return (Words(Phrase.of("label.all-sizes") if of_all else _listed(sizes), SMALL, bold=True, tight=True),)


def top_words() -> tuple[Words, ...]:
    """That an edge is the top of its piece."""
    return (Words(Phrase.of("label.top"), SMALL),)


def block_words(piece: Piece, size: str | None, page: TemplatePage, sizes: Sequence[str] = ()) -> tuple[Words, ...]:
    """Number and name, what to cut, the allowances, and on a tile its row and column; of a nest its `sizes`."""
    lines = [_title(piece, None if sizes else size)]
    if sizes:
        lines.append(Words(Phrase.of("label.sizes", sizes=_listed(sizes)), BODY))
    lines += [Words(phrase, BODY) for phrase in _cut_phrases(piece, nested=bool(sizes))]
    turned = [_short_name(piece, copy) for copy in piece.copies if copy.turned_over]
    if turned:
        lines.append(Words(Phrase.of("label.turned-over", copies=_listed(turned)), BODY))
    lines += [Words(phrase, BODY) for phrase in _allowance_phrases(piece)]
    if piece.fold_edge is not None:
        lines.append(Words(Phrase.of("label.on-the-fold", edge=piece.fold_edge), BODY))
    if page.rows * page.columns > 1:
        tile = {"row": page.row, "column": page.column, "rows": page.rows, "columns": page.columns}
        lines.append(Words(Phrase.of("label.tile", **{name: str(value) for name, value in tile.items()}), BODY))
    return tuple(lines)


def _title(piece: Piece, size: str | None) -> Words:
    title = {"number": str(piece.number), "name": piece.name}
    if size is None:
        return Words(Phrase.of("label.title", **title), TITLE, bold=True)
    return Words(Phrase.of("label.title-size", **title, size=size), TITLE, bold=True)


def _cut_phrases(piece: Piece, nested: bool) -> Iterator[Phrase]:
    """What to cut; copies that are cut alike, as right and left, are told together, so that none is forgotten."""
    alike: dict[tuple[object, ...], list[Copy]] = {}
    for copy in piece.copies:
        cut = (copy.material, copy.count, copy.rough, copy.to_finished_line, copy.mirrored)
        alike.setdefault(cut, []).append(copy)
    return (_cut_phrase(piece, copies, nested) for copies in alike.values())


def _cut_phrase(piece: Piece, copies: Sequence[Copy], nested: bool) -> Phrase:
    copy, key = copies[0], _cut_key(piece, copies[0], nested)
    names = [_short_name(piece, one) for one in copies]
    told: dict[str, str | Phrase] = {"copy": names[0], "count": str(copy.count), "material": copy.material}
    if key == "label.cut-pair":
        told["count"] = str(copy.count // 2)
    if key == "label.cut-trimmed-by" and piece.one_allowance is not None:
        told["amount"] = _told(piece.one_allowance)
    if len(copies) == 1:
        return Phrase.of(key, **told)
    return Phrase.of(OF_EACH[key], **told | {"copy": _listed(names)})


def _cut_key(piece: Piece, copy: Copy, nested: bool) -> str:
    if copy.rough:
        return "label.cut-rough"
    if copy.to_finished_line and not nested:
        return "label.cut-inner"
    if copy.to_finished_line:
        return "label.cut-trimmed" if piece.one_allowance is None else "label.cut-trimmed-by"
    return "label.cut-pair" if copy.mirrored and copy.count % 2 == 0 else "label.cut"


def _short_name(piece: Piece, copy: Copy) -> str:
    return copy.name.removeprefix(f"{piece.name} ")


def _allowance_phrases(piece: Piece) -> Iterator[Phrase]:
    """One allowance for the whole piece, or each with the edges that have it."""
    amounts: dict[float, list[str]] = {}
    hems = {hem.edge: hem for hem in piece.hems}
    for edge in piece.edges:
        if edge.name not in hems and edge.name != piece.fold_edge:
            amounts.setdefault(round(edge.allowance, 3), []).append(edge.name)
    for hem in piece.hems:
        yield _hem_phrase(hem)
    for amount, edges in amounts.items():
        told = _told(amount)
        if len(amounts) == 1:
            yield Phrase.of("label.allowance", amount=told) if amount else Phrase.of("label.no-allowance")
        else:
            yield Phrase.of("label.edges-allowance", amount=told, edges=_listed(edges))


def _hem_phrase(hem: Hem) -> Phrase:
    kind = "casing" if hem.casing else "hem"
    if not hem.under:
        return Phrase.of(f"label.{kind}", edge=hem.edge, depth=_told(hem.depth))
    return Phrase.of(f"label.{kind}-under", edge=hem.edge, depth=_told(hem.depth), under=_told(hem.under))


def _told(amount: float) -> Phrase:
    return Phrase.of("length", mm=str(length(amount).amount))


def _listed(names: Sequence[str]) -> Phrase:
    return Phrase("list", tuple((str(at), name) for at, name in enumerate(names)))
