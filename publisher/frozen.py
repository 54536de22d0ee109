"""Frozen values that are made quickly: `dataclass(frozen=True, slots=True)` as the standard library has it, for less time.

The standard decorator compiles six methods for each class, and fills a frozen value through a call for each field. A
command makes more than two hundred classes before it reads its first line, and values by the hundred thousand after it.
Here one method of a class is compiled and the others are shared; equality, hash and text are the standard ones. What
reads fields (`replace`, `fields`, `match`, pickle) sees a standard dataclass.

That nothing is set once it was made is held by mypy alone, which sees the standard decorator.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from dataclasses import dataclass
else:
    import dataclasses
    from operator import attrgetter

    def dataclass(*, frozen: bool, slots: bool):
        """A decorator for a class of frozen values; both must be true, as mypy is to be told."""
        if not (frozen and slots):
            raise ValueError("for values that are frozen and slotted")
        return _made

    def _made(cls):
        own = {name for name in ("__eq__", "__hash__", "__repr__") if name in cls.__dict__}
        made = dataclasses.dataclass(slots=True, eq=False, repr=False)(cls)
        shared = _compared(tuple(field.name for field in dataclasses.fields(made) if field.compare))
        for method in (*shared, _repr):
            if method.__name__ not in own:
                setattr(made, method.__name__, method)
        return made

    def _compared(names):
        """`__eq__` and `__hash__` by the fields of these names."""
        if len(names) > 1:
            of = attrgetter(*names)
        else:

            def of(value):
                return tuple(getattr(value, name) for name in names)

        def __eq__(self, other):
            return of(self) == of(other) if other.__class__ is self.__class__ else NotImplemented

        def __hash__(self):
            return hash(of(self))

        return __eq__, __hash__

    def _repr(self):
        parts = (f"{field.name}={getattr(self, field.name)!r}" for field in dataclasses.fields(self) if field.repr)
        return f"{self.__class__.__qualname__}({', '.join(parts)})"

    _repr.__name__ = "__repr__"


__all__ = ["dataclass"]
