"""computed.json: all that was computed of a pattern, both unit systems and every size, for machines."""

import json
import platform
from collections.abc import Sequence
from fractions import Fraction
from importlib.metadata import PackageNotFoundError, version

import publisher
from publisher.checks import Proof
from publisher.cloth import ClothLayout, Laid, StripPlan
from publisher.drafting import Draft, Piece
from publisher.edition.layouts import layouts_folder
from publisher.edition.printed import speaker_of
from publisher.edition.requests import Request
from publisher.edition.words import Speaker
from publisher.frozen import dataclass
from publisher.tables import NotionRow
from publisher.template_pages import Edition, Paper, TemplatePages
from publisher.terms import Dimension, Finding, Quantity, content_hash, length

# What the output depends on beside the source.
OUTLINE_SEEN = 0.1  # mm, how near the points of an outline on the cloth keep to it
LIBRARIES = (
    "fonttools",
    "jinja2",
    "lark",
    "markdown",
    "pydantic",
    "pydyf",
    "pyyaml",
    "shapely",
    "svgwrite",
    "weasyprint",
)

Json = dict[str, object]


@dataclass(frozen=True, slots=True)
class EditionRecord:
    """What computed.json says of one PDF; `made_of` hashes all that it was made of, `requests` are pages asked for.

    One for some `sizes` only has a name of its own, and the template pages of those sizes as `planned`.
    """

    name: str
    file: str
    pages: int
    template_pages: int
    made_of: str
    requests: tuple[Request, ...] = ()
    edition: str = ""  # where it is not the name: that of the edition for all sizes
    sizes: tuple[str, ...] = ()
    planned: TemplatePages | None = None
    make: int = 1  # cloth, chart and notions are for so many


def computed_json(proof: Proof, editions: Sequence[EditionRecord]) -> bytes:
    """The record, its keys sorted: the same proof gives the same bytes. Lengths in mm, to a thousandth."""
    record: Json = {
        "pattern": proof.source.name,
        "title": str(proof.source.facts.title),
        "revision": str(proof.source.facts.revision),
        "files": sorted(edition.file for edition in editions),
        "editions": {edition.name: _edition(proof, edition) for edition in editions},
        "variants": [_variant(proof, draft) for draft in proof.drafts],
        "findings": [_finding(finding) for finding in proof.findings],
        "hashes": _hashes(proof),
        "versions": versions(),
    }
    return (json.dumps(record, ensure_ascii=False, indent=1, sort_keys=True) + "\n").encode("utf-8")


def versions() -> dict[str, str]:
    """Product, Python and every library that the output depends on."""
    told = {"publisher": publisher.__version__, "python": platform.python_version()}
    for library in LIBRARIES:
        try:
            told[library] = version(library)
        except PackageNotFoundError:
            told[library] = "?"
    return told


def layouts_hash() -> str:
    """Of every layout, words file and font."""
    root = layouts_folder()
    files = sorted(path for path in root.rglob("*") if path.is_file())
    return content_hash([(path.relative_to(root).as_posix(), path.read_bytes()) for path in files])


def _hashes(proof: Proof) -> Json:
    return {
        "source": content_hash(proof.source),
        "layouts": layouts_hash(),
        "drafts": {str(draft.variant): content_hash(draft) for draft in proof.drafts},
        "cloths": {str(cloth.variant): content_hash(cloth) for cloth in proof.cloths},
        "template pages": {pages.edition.name: content_hash(pages) for pages in proof.template_pages},
    }


def _edition(proof: Proof, record: EditionRecord) -> Json:
    pages = record.planned or next(pages for pages in proof.template_pages if pages.edition.name == record.name)
    return {
        "file": record.file,
        "pages": record.pages,
        "template pages": [
            {
                "page": page.number,
                "pieces": [
                    placed.piece if placed.size is None else f"{placed.piece} {placed.size}" for placed in page.placed
                ],
                "row": page.row,
                "column": page.column,
                "rows": page.rows,
                "columns": page.columns,
            }
            for page in pages.pages
        ],
        "made of": record.made_of,
        "with": [request.value for request in record.requests],
        "edition": record.edition or record.name,
        "sizes": list(record.sizes),
        "make": record.make,
    }


def _mm(value: float) -> float:
    return round(value, 3) + 0.0


def _variant(proof: Proof, draft: Draft) -> Json:
    speak = speaker_of(proof, Edition(draft.variant.units, Paper.A4))
    cloth, tables = proof.cloth_of(draft.variant), proof.tables_of(draft.variant)
    return {
        "units": draft.variant.units.value,
        "size": draft.variant.size,
        "measures": {name: _quantity(quantity, speak) for name, quantity in draft.measures},
        "finished size": {name: _quantity(quantity, speak) for name, quantity in draft.finished_size},
        "pieces": [_piece(piece, speak) for piece in draft.pieces],
        "seams": {
            seam.name: {
                "first": _mm(sum(edge.length for edge in seam.first)),
                "second": _mm(seam.length),
                "ease": _mm(seam.ease),
            }
            for seam in draft.seams
        },
        "chart": [
            {
                "piece": row.piece_number,
                "copy": row.copy,
                "material": row.material,
                "count": row.count,
                "size": [speak.length(side) for side in row.size] if row.size else None,
            }
            for row in tables.chart
        ],
        "materials": [
            {
                "material": row.key,
                "buy": [{"width": speak.length(width), "length": speak.cloth(bought)} for width, bought in row.buy],
                "precuts": dict(row.precuts),
            }
            for row in tables.materials
        ],
        "layouts": [
            {
                "material": layout.material,
                "width": _mm(layout.width),
                "arranged by": layout.arranged_by,
                "folded": layout.folded,
                "buy folded": _mm(layout.folded_buy_length) if layout.folded_buy_length else None,
                "used": _mm(layout.used_length),
                "needed": _mm(layout.needed_length),
                "buy": _mm(layout.buy_length),
                "buy if strips are pieced further": _pieced(layout),
                "precuts": layout.precut_count,
                "laid": [_laid(one) for one in layout.laid],
            }
            for layout in cloth.layouts
        ],
        "strips": [_strip(plan) for plan in cloth.strips],
        "notions": [
            {
                "notion": row.key,
                "count": row.count,
                "buy": _bought(row, speak),
                "sizes": {name: speak.quantity(size) for name, size in row.sizes},
            }
            for row in tables.notions
        ],
    }


def _pieced(layout: ClothLayout) -> Json | None:
    if layout.pieced is None:
        return None
    strips = [{"copy": plan.copy, "lengths": [_mm(one) for one in plan.lengths]} for plan in layout.pieced.strips]
    return {"buy": _mm(layout.pieced.buy_length), "strips": strips}


def _laid(one: Laid) -> Json:
    """One cut on the cloth, from the left edge of the usable width and the cut end, mm and degrees."""
    return {
        "copy": one.copy,
        "of its count": one.nth,
        "precut": one.sheet,
        "turn": one.turn,
        "turned over": one.turned_over,
        "opened out": one.opened_out,
        "outline": [[_mm(spot.x), _mm(spot.y)] for spot in one.outline.flattened(OUTLINE_SEEN)],
    }


def _strip(plan: StripPlan) -> Json:
    """How a strip is got on one width of cloth, mm."""
    return {
        "copy": plan.copy,
        "width": _mm(plan.sold_width),
        "count": plan.count,
        "joins": plan.joins,
        "lengths": [_mm(one) for one in plan.lengths],
        "nearest join": _mm(plan.apart) if plan.lengths else None,
        "square": _mm(plan.square) if plan.square else None,
        "block": [_mm(side) for side in plan.block] if plan.block is not None else None,
        "left over": plan.left_over,
    }


def _bought(row: NotionRow, speak: Speaker) -> str | None:
    """How much of it, where it is cut from a length."""
    return speak.cloth(row.buy) if row.buy is not None else None


def _quantity(quantity: Quantity, speak: Speaker) -> Json:
    told: Json = {
        "exact": str(Fraction(quantity.amount)),
        "unit": {Dimension.LENGTH: "mm", Dimension.ANGLE: "deg", Dimension.AREA: "mm²"}.get(quantity.dimension, ""),
    }
    if quantity.dimension is not Dimension.AREA:
        told["printed"] = speak.quantity(quantity)
    return told


def _piece(piece: Piece, speak: Speaker) -> Json:
    cut = piece.as_cut
    return {
        "number": piece.number,
        "name": piece.name,
        "kind": piece.kind.value,
        "cut width": _mm(cut.cut_width),
        "cut height": _mm(cut.cut_height),
        "cut size": [speak.length(length(cut.cut_width)), speak.length(length(cut.cut_height))],
        "edges": {edge.name: {"length": _mm(edge.length), "allowance": _mm(edge.allowance)} for edge in piece.edges},
        "copies": [copy.name for copy in piece.copies],
        "marks": [mark.name for mark in cut.marks],
    }


def _finding(finding: Finding) -> Json:
    return {
        "name": finding.name,
        "severity": finding.severity.value,
        "place": str(finding.place) if finding.place else None,
        "says": finding.says,
        "mend": finding.mend,
        "variants": [str(variant) for variant in finding.variants],
        "allowed": finding.allowed,
    }
