"""What each step does, and the state of the work before and after it."""

from dataclasses import field

from publisher.frozen import dataclass
from publisher.terms import Place


@dataclass(frozen=True, slots=True)
class Action:
    """One thing a step does. `target` is a seam, placement, copy, `copy.edge`, `piece.mark` or notion, by name."""

    verb: str
    target: str
    preposition: str | None
    other: str | None
    place: Place = field(compare=False)
    wrong_sides: bool = False  # together, of a seam
    stops_short: bool = False  # of a seam: from seam line to seam line, so that what is sewn across it can open
    basted: bool = False  # of a seam: within its allowance, until another seam goes through it
    still_folded: bool = False  # of a mark: through both layers of what was cut on the fold


@dataclass(frozen=True, slots=True)
class Checkpoint:
    """What a copy should measure after a step, laid flat: sewn edges have lost their allowance. mm."""

    copy: str
    width: float
    height: float
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class WorkState:
    """What has been done so far, by name."""

    cut: frozenset[str] = frozenset()  # copies
    marked: frozenset[str] = frozenset()  # copy.mark or piece.mark
    fused: frozenset[str] = frozenset()  # interfacing copies
    fused_to: frozenset[tuple[str, str]] = frozenset()  # (interfacing copy, copy)
    placed: frozenset[str] = frozenset()  # placements
    sewn: tuple[str, ...] = ()  # seams, in order
    wrong_sides: frozenset[str] = frozenset()  # … of these, those sewn wrong sides together
    closed_edges: frozenset[tuple[str, str]] = frozenset()  # (copy, edge) already stitched or hemmed
    attached: frozenset[str] = frozenset()  # notions
    attached_to: frozenset[tuple[str, str]] = frozenset()  # (notion, copy.mark, copy.edge or copy)
    held_folds: frozenset[str] = frozenset()  # copy.mark of fold lines that are folded round a notion
    folded: frozenset[str] = frozenset()  # copies of strips
    pleated: frozenset[str] = frozenset()  # copies whose pleats or darts are closed
    trimmed: frozenset[str] = frozenset()  # copies that were cut roughly, trimmed to the template
    gaps_closed: frozenset[str] = frozenset()  # seams whose gap has been closed
    turned: tuple[str, ...] = ()  # what was turned right side out, in order
    hemmed: tuple[str, ...] = ()  # copy.edge, in order
    topstitched: tuple[str, ...] = ()  # seams, copies or copy.edge, in order


@dataclass(frozen=True, slots=True)
class AssemblyStep:
    """One step, by its lasting id."""

    id: str
    number: int
    actions: tuple[Action, ...]
    before: WorkState
    after: WorkState
    checkpoints: tuple[Checkpoint, ...]
    place: Place = field(compare=False)
    shows: tuple[Action, ...] = ()  # what its figure shows in place of what it does
    bare: bool = False  # it is to have no figure


@dataclass(frozen=True, slots=True)
class Assembly:
    """All steps in order, of one variant."""

    steps: tuple[AssemblyStep, ...]
