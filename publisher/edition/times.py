"""How long the work takes, as text: a section, and all of them together."""

from collections.abc import Sequence

from publisher.edition.words import Speaker
from publisher.source import WrittenSection


def minutes_of(section: WrittenSection) -> int:
    """What the maker says a section takes, its own minutes and those of its steps."""
    return int(section.minutes or 0) + sum(int(step.minutes or 0) for step in section.steps)


def told_time(minutes: int, speak: Speaker) -> str:
    """Under an hour and a half to the minute, longer in half hours, for nobody sews to the minute."""
    if minutes < 90:
        return speak.say("time.minutes", count=minutes)
    halves = round(minutes / 30)
    return speak.say("time.hours-and-half" if halves % 2 else "time.hours", count=halves // 2)


def sum_of(sections: Sequence[WrittenSection], speak: Speaker) -> str:
    """How many sections there are and how long they take together, where the maker says how long."""
    minutes = sum(map(minutes_of, sections))
    count = sum(bool(section.steps) for section in sections)
    return speak.say("steps.sum", count=count, time=told_time(minutes, speak)) if minutes else ""
