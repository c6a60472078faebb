"""What every change has: a wire name, a version, and the subject it is about."""

from __future__ import annotations

from typing import ClassVar, TypeVar


class Change:
    """One small typed fact. Subclasses are frozen dataclasses listed in ``CHANGES``.

    ``KIND`` and ``VERSION`` name it in the journal for ever; ``subject`` is the one thing
    whose version decides whether two people changed the same thing at once.
    """

    __slots__ = ()
    KIND: ClassVar[str]
    VERSION: ClassVar[int] = 1

    @property
    def subject(self) -> str:
        """The one thing this change is about, as ``kind:id``."""
        raise TypeError(f"{type(self).__name__} does not say what it is about")


C = TypeVar("C", bound=Change)

CHANGES: dict[str, type[Change]] = {}
"""Every kind of change by its wire name; filled where each is defined."""


def register(cls: type[C]) -> type[C]:
    """Put a kind of change into ``CHANGES``; a wire name is used once and for ever."""
    if cls.KIND in CHANGES:
        raise TypeError(f"two changes are called {cls.KIND}")
    CHANGES[cls.KIND] = cls
    return cls
