"""What a figure is told of its step: what it does, what was done before it, the lengths that its words quote. mm."""

from collections.abc import Iterable, Iterator, Sequence

from publisher.assembly import Action, Assembly, AssemblyStep
from publisher.frozen import dataclass

APART = "quilt"  # what the name of a measure begins with that says how far apart lines of quilting run


@dataclass(frozen=True, slots=True)
class BiasSquare:
    """The square of cloth that a bias strip comes from, sewn into a tube: its side, the strip's width, the seam, mm."""

    copy: str
    side: float
    strip: float
    seam: float
    rounds: int  # of the strip


@dataclass(frozen=True, slots=True)
class StepFacts:
    """A step, what was fused before it, and the lengths that its words quote, by the names of their measures."""

    step: AssemblyStep
    fused: tuple[tuple[str, str], ...]
    zip_ends: frozenset[str] = frozenset()  # copies that a step before sewed to an end of a zip
    zipped: tuple[tuple[str, str], ...] = ()  # zips, and the edges that a step before sewed them to
    threaded: tuple[tuple[str, tuple[str, ...]], ...] = ()  # what was drawn through which casings, this step's included
    last: bool = False  # of several
    begun: frozenset[str] = frozenset()  # bindings of which a step before has shown the beginning
    quoted: tuple[tuple[str, float], ...] = ()
    squares: tuple[BiasSquare, ...] = ()  # that strips come from, whatever cloth is bought
    quilted: tuple[tuple[str, float], ...] = ()  # copies that were quilted to what lies below, how far apart, mm
    nested: frozenset[str] = frozenset()  # pieces whose template holds several sizes, and so no inner line

    def length(self, begins: str) -> float | None:
        """The first quoted length whose measure's name begins so, mm."""
        return next((amount for name, amount in self.quoted if name.startswith(begins)), None)

    def length_of(self, word: str) -> float | None:
        """The first quoted length whose measure's name holds a word, mm."""
        return next((amount for name, amount in self.quoted if word in name), None)


def facts_of(assembly: Assembly, step: AssemblyStep, quoted: Sequence[tuple[str, float]] = ()) -> StepFacts:
    """A step of an assembly with what was done before it."""
    before = [one for one in assembly.steps if one.number < step.number]
    fused = [pair for one in before for pair in fused_by(one.actions)]
    begun = frozenset(
        action.target for one in before for action in (*one.actions, *one.shows) if action.verb == "begin"
    )
    ends = [action.other for one in before for action in one.actions if action.verb == "attach" and action.other]
    held = [(one.target, one.other) for step in before for one in step.actions if one.verb == "attach" and one.other]
    zipped = tuple((notion, other) for notion, other in held if "." in other)
    covered = frozenset(copy for copy in ends if "." not in copy)
    ways: dict[str, list[str]] = {}
    for action in (action for one in (*before, step) for action in one.actions if action.verb == "thread"):
        ways.setdefault(action.target, []).append(action.other or "")
    threaded = tuple((thread, tuple(through)) for thread, through in ways.items())
    last = step.number > 1 and step.number == max(one.number for one in assembly.steps)
    return StepFacts(step, tuple(fused), covered, zipped, threaded, last, begun, tuple(quoted))


def quilted_by(step: AssemblyStep, quoted: Sequence[tuple[str, float]]) -> Iterator[tuple[str, float]]:
    """What a step sews through all over, in lines as far apart as its words say: the copy, and that length in mm."""
    apart = next((amount for name, amount in quoted if name.startswith(APART)), None)
    if apart is not None:
        sewn = (action.target for action in step.actions if action.verb == "topstitch" and "." not in action.target)
        yield from ((copy, apart) for copy in sewn)


def fused_by(actions: Iterable[Action]) -> list[tuple[str, str]]:
    """What is fused, and to what."""
    return [(action.target, action.other) for action in actions if action.verb == "fuse" and action.other]
