"""Whatever is typed, a reader either understands it or says politely why not."""

from __future__ import annotations

from collections.abc import Callable

from bareshell.errors import BadInput


def refusal(read: Callable[[], object]) -> BadInput | None:
    """Run a reader and hand back its refusal, or nothing; any other error breaks the test."""
    try:
        read()
    except BadInput as refused:
        return refused
    return None


def is_polite(refused: BadInput | None, field: str) -> bool:
    """Whether a refusal names its field and says what would be right."""
    return refused is None or (refused.field == field and bool(refused.remedy))
