"""Names and phrases of a formula, looked up in the pattern: measures, sizes of notions, edges, points, marks, seams."""

from publisher.drafting.bench import Asker, Bench, head_and_tail, unknown, unusable
from publisher.drafting.seam_values import Laying
from publisher.frozen import dataclass
from publisher.measures import Asked, Formula, Literal, Name, Solved, evaluate
from publisher.source import Native, WrittenMark, WrittenNotion, WrittenPiece
from publisher.terms import Dimension, Quantity, Written, did_you_mean, did_you_mean_or_gone


@dataclass(frozen=True, slots=True)
class BenchLookup:
    """Answers a formula's names and questions from the bench."""

    bench: Bench

    def named(self, name: Name) -> Quantity:
        """The quantity of a measure or of a notion's size."""
        return named_quantity(self.bench, name)

    def asked(self, asked: Asked) -> Quantity:
        """What geometry answers: a length, width, height or distance."""
        return self.bench.answer(self.bench, asked)

    def solved(self, solved: Solved) -> Quantity:
        """The length that makes both sides equal; only a measure can be solved for."""
        return self.bench.solve(self.bench, solved)

    def literal(self, literal: Literal) -> Quantity:
        """A literal in the variant's own units."""
        return self.bench.literal(literal)


def work_out_formula(bench: Bench, formula: Formula) -> Quantity:
    """The exact quantity of a formula in this variant. Raises Unusable."""
    return evaluate(formula, BenchLookup(bench))


def work_out(bench: Bench, native: Native) -> Quantity:
    """The exact quantity of what was written for this variant's units."""
    return work_out_formula(bench, bench.formula(native))


def work_out_length(bench: Bench, native: Native, what: str) -> float:
    """A length in mm. Raises Unusable when the formula yields something else."""
    quantity = work_out(bench, native)
    return as_length(bench, quantity, native, what)


def as_length(bench: Bench, quantity: Quantity, native: Native, what: str) -> float:
    """The quantity in mm; a plain nought counts as a length of nought."""
    if quantity.dimension is Dimension.LENGTH:
        return float(quantity.amount)
    if quantity.dimension is Dimension.NUMBER and quantity.amount == 0:
        return 0.0
    written = bench.native(native)
    raise unusable(
        "not-a-length",
        written.place,
        f"{what} is '{written}', which is {_kind(quantity)}, not a length",
        "write it with a unit: 3/8 in | 1 cm",
    )


def _kind(quantity: Quantity) -> str:
    kinds = {Dimension.NUMBER: "a number", Dimension.AREA: "an area", Dimension.ANGLE: "an angle"}
    return kinds.get(quantity.dimension, "a length")


def named_quantity(bench: Bench, name: Name) -> Quantity:
    """The measure of that name, or `notion.size`. Raises Unusable with the nearest name."""
    measure = bench.measures_by_name.get(name.text)
    if measure is not None:
        return measure_quantity(bench, name.text)
    head, tail = head_and_tail(name)
    notion = next((notion for notion in bench.source.notions if notion.key == head), None)
    if notion is not None and tail:
        return _notion_size(bench, notion, name, tail)
    if tail:
        raise _dotted(bench, name, head, tail)
    known = [str(name) for name in bench.measures_by_name]
    raise unknown(
        bench,
        name.text,
        name.place,
        f"no measure called '{name.text}'",
        did_you_mean(name.text, known) or "add it to measures:",
    )


def measure_quantity(bench: Bench, name: str) -> Quantity:
    """A measure that exists, in this variant."""
    if name in bench.fixed:
        bench.rest_on_trial()
        return bench.fixed[name]
    measure = bench.measures_by_name[name]
    by_size = dict(measure.by_size)
    native = by_size.get(bench.variant.size, by_size.get(None))
    if native is None:
        raise unusable(
            "size-missing",
            measure.name.place,
            f"'{name}' has no value for size {bench.variant.size}",
            f"add a line '{bench.variant.size}: …' below it",
        )
    return bench.work_out(Asker("measure", name, measure.name.place), lambda: work_out(bench, native))


def _notion_size(bench: Bench, notion: WrittenNotion, name: Name, tail: str) -> Quantity:
    native = next((native for size, native in notion.sizes if size == tail), None)
    if native is not None:
        return bench.work_out(Asker("measure", name.text, notion.key.place), lambda: work_out(bench, native))
    known = [f"{notion.key}.{size}" for size, _ in notion.sizes]
    raise unusable(
        "no-such-name",
        name.place,
        f"the notion '{notion.key}' has no size called '{tail}'",
        did_you_mean(name.text, known),
    )


def _dotted(bench: Bench, name: Name, head: str, tail: str) -> Exception:
    if find_piece(bench, head) is not None:
        return unusable(
            "asks-nothing",
            name.place,
            f"'{name.text}' is a part of a piece, not a length",
            f"ask for its length: length of {name.text}",
        )
    known = [*(str(notion.key) for notion in bench.source.notions), *copy_names(bench), *bench.pieces_by_name]
    return unknown(bench, head, name.place, f"no piece or notion called '{head}'", did_you_mean(head, known))


def copy_name(piece: WrittenPiece, short: str) -> str:
    """The whole name of a copy: `body front`; an only copy bears its piece's name, as it was written."""
    name = piece.as_written.name
    return str(name) if short == "only" else f"{name} {short}"


def copy_names(bench: Bench) -> list[str]:
    """The whole names of all copies, in order."""
    return [copy_name(piece, str(copy.name)) for piece in bench.source.pieces for copy in piece.copies]


def piece_of_copy(bench: Bench, name: str) -> WrittenPiece | None:
    """The piece whose copy bears this whole name."""
    for piece in bench.source.pieces:
        if any(copy_name(piece, str(copy.name)) == name for copy in piece.copies):
            return piece
    return None


def find_piece(bench: Bench, name: str) -> WrittenPiece | None:
    """The piece of that name, or the piece of the copy of that name."""
    return bench.pieces_by_name.get(name) or piece_of_copy(bench, name)


def the_piece(bench: Bench, name: str, asked: Name) -> WrittenPiece:
    """As find_piece. Raises Unusable with the nearest name."""
    piece = find_piece(bench, name)
    if piece is None:
        known = [*bench.pieces_by_name, *copy_names(bench)]
        raise unknown(bench, name, asked.place, f"no piece called '{name}'", did_you_mean(name, known))
    return piece


def the_copys_piece(bench: Bench, copy: Written | Name) -> WrittenPiece:
    """The piece of a copy. What is sewn is a copy, so a piece's own name will not do where it has several."""
    name = copy.text if isinstance(copy, Name) else str(copy)
    head, _ = head_and_tail(Name(name, copy.place))
    piece = piece_of_copy(bench, head)
    if piece is not None:
        return piece
    if head in bench.pieces_by_name:
        listed = ", ".join(f"'{one}'" for one in copy_names(bench) if one.startswith(f"{head} "))
        raise unusable("which-copy", copy.place, f"'{head}' is cut several times", f"say which: {listed}")
    raise unknown(bench, head, copy.place, f"no copy called '{head}'", did_you_mean_or_gone(head, copy_names(bench)))


def placed_here(bench: Bench, piece: WrittenPiece, copy: str, placement: Name) -> tuple[WrittenPiece, Laying]:
    """The piece of a copy, and how a placement lays it on `piece`. Raises Unusable where it does not."""
    written = next((one for one in bench.source.placements if one.name == placement.text), None)
    if written is None:
        known = [str(one.name) for one in bench.source.placements]
        raise unusable(
            "no-such-name",
            placement.place,
            f"no placement called '{placement.text}'",
            did_you_mean(placement.text, known),
        )
    on_it = the_copys_piece(bench, written.on).as_written is piece.as_written
    if str(written.place_copy) != copy or not on_it:
        raise unusable(
            "wrong-placement",
            placement.place,
            f"'{placement.text}' lays '{written.place_copy}' on '{written.on}', not '{copy}' on '{piece.name}'",
            "name the placement that lays it here",
        )
    return the_copys_piece(bench, written.place_copy), bench.lay(bench, written)


def placed_by(
    bench: Bench, piece: WrittenPiece, mark: Name, placement: Name
) -> tuple[WrittenPiece, WrittenMark, Laying]:
    """The piece and the mark that a derived mark comes from, and how the placement lays it on `piece`."""
    head, tail = head_and_tail(mark)
    the_copys_piece(bench, mark)
    source, laying = placed_here(bench, piece, head, placement)
    found = next((one for one in source.marks if one.name == tail), None)
    if found is None:
        known = [str(one.name) for one in source.marks]
        raise unusable("no-such-mark", mark.place, f"'{head}' has no mark called '{tail}'", did_you_mean(tail, known))
    return source, found, laying
