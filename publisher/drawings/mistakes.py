"""Mistakes in a drawing as errors at their place, raised here and caught at the stage's own door."""

from publisher.terms import Finding, Place, Severity, Unusable

HUNDREDTH = 0.01  # mm; ends nearer than this are one point


def error(name: str, place: Place, says: str, mend: str) -> Unusable:
    """What to raise where a drawing, or one element of it, cannot be used."""
    return Unusable(Finding(name, Severity.ERROR, place, says, mend))


def warning(name: str, place: Place, says: str, mend: str) -> Finding:
    """What is read, but perhaps not as it was meant."""
    return Finding(name, Severity.WARNING, place, says, mend)


def shown(text: str, most: int = 40) -> str:
    """A text of the drawing for a message: printable, on one line, not too long."""
    plain = "".join(sign if sign.isprintable() else " " for sign in text[: most + 1]).strip()
    return f"{plain[:most]}…" if len(text) > most else plain
