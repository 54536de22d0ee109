"""The name that was probably meant."""

import difflib
from collections.abc import Iterable

SHORTEST_BEGINNING = 3  # signs; fewer begin too many names


def nearest_name(word: str, known: Iterable[str]) -> str | None:
    """The known name that begins with `word`, else the one most like it, or None when none is."""
    by_folded = {name.casefold(): name for name in known}
    folded = word.casefold()
    begun = [name for name in by_folded if name.startswith(folded)] if len(word) >= SHORTEST_BEGINNING else []
    close = difflib.get_close_matches(folded, begun or by_folded, n=1, cutoff=0.0 if begun else 0.6)
    return by_folded[close[0]] if close else None


def did_you_mean_or_gone(word: str, known: Iterable[str]) -> str:
    """The hint for a name of something that may have been taken out since: then what speaks of it must go, too."""
    names = list(known)
    hint, close = did_you_mean(word, names), nearest_name(word, names)
    return (
        hint
        if close is not None and _misspelt(word, close)
        else f"if '{word}' was taken out, take this out too; {hint}"
    )


def _misspelt(word: str, close: str) -> bool:
    """False where a name is near only by what it shares: `loop` and `loop drop`, `loop.left end` and `front.left edge`."""
    (head, _, _), (other, _, _) = word.partition("."), close.partition(".")
    return not set(word.split()) < set(close.split()) and (head == other or nearest_name(head, [other]) is not None)


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A hint for a mend: "did you mean 'pocket depth'?", else the known names, else ""."""
    names = list(known)
    close = nearest_name(word, names)
    if close is not None:
        return f"did you mean '{close}'?"
    if not names:
        return ""
    listed = ", ".join(f"'{name}'" for name in names[:12])
    return f"known here: {listed}{', …' if len(names) > 12 else ''}"
