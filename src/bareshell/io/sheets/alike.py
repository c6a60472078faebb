"""Whether two titles name the same thing, and finding the thing that a cell names."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Container, Iterable, Mapping
from difflib import get_close_matches
from functools import lru_cache

__all__ = ["alike", "find_named", "free_name", "named_exactly", "nearest_titles"]

_TOKENS = re.compile(r"[a-z]+|\d+(?:[./]\d+)*")
_FILLERS = frozenset(("the", "a", "an", "of", "for", "to", "and", "new"))


@lru_cache(maxsize=65_536)
def alike(*texts: str) -> tuple[str, ...]:
    """Bring a title and a size to one spelling: the same for what is the same thing.

    Examples
    --------
    >>> alike("Pipe nuts", "M10 x 1") == alike("Nut, pipe M10×1")
    True
    >>> alike("Pipe nut M10x1") == alike("Pipe nut M10x1.25")
    False
    """
    folded = unicodedata.normalize("NFKD", " ".join(texts).replace("×", "x")).casefold()
    folded = re.sub(r"(?<=\d),(?=\d)", ".", folded)
    plain = "".join(each for each in folded if not unicodedata.combining(each))
    tokens = _TOKENS.findall(plain)
    return tuple(sorted(_singular(each) for each in tokens if each not in _FILLERS))


def _singular(word: str) -> str:
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word


def find_named(typed: str, titles: Mapping[str, str]) -> tuple[str | None, bool]:
    """Find which of the known things a cell names, by id or by title.

    Parameters
    ----------
    typed : str
        What stands in the cell.
    titles : mapping of str to str
        The titles of the known things by id.

    Returns
    -------
    str or None, bool
        The id, and whether that is sure; an unsure one is the only one that is near.

    Examples
    --------
    >>> find_named("Rear pipes", {"j1": "Rear pipe", "j2": "Front pipe"})
    ('j1', True)
    >>> find_named("Rear brake pipe", {"j1": "Rear brake pipes, make up", "j2": "Front"})
    ('j1', False)
    """
    exact = named_exactly(typed, titles)
    if exact is not None:
        return exact, True
    wanted = set(alike(typed))
    within = [key for key, title in titles.items() if wanted and wanted <= set(alike(title))]
    if len(within) == 1:
        return within[0], False
    by_title = {title.casefold(): key for key, title in titles.items()}
    near = get_close_matches(typed.casefold(), by_title, n=2, cutoff=0.85)
    return (by_title[near[0]], False) if len(near) == 1 else (None, False)


def named_exactly(typed: str, titles: Mapping[str, str]) -> str | None:
    """Return the id of the one thing that is named just so, by id or by title.

    Examples
    --------
    >>> named_exactly("REAR PIPES", {"j1": "Rear pipe"}), named_exactly("pipe", {"j1": "Rear pipe"})
    ('j1', None)
    """
    if typed in titles:
        return typed
    wanted = alike(typed)
    same = [key for key, title in titles.items() if alike(title) == wanted]
    return same[0] if len(same) == 1 else None


def nearest_titles(typed: str, titles: Iterable[str], most: int = 3) -> list[str]:
    """Return the titles that are most like what was typed.

    Examples
    --------
    >>> nearest_titles("rear pip", ["Front hub", "Rear pipe"])
    ['Rear pipe']
    """
    by_folded = {title.casefold(): title for title in titles}
    found = get_close_matches(typed.casefold(), by_folded, n=most, cutoff=0.5)
    return [by_folded[each] for each in found]


def free_name(title: str, taken: Container[str]) -> str:
    """Make a short name out of a title that nothing has yet.

    Examples
    --------
    >>> free_name("Pipe nut M10x1", {"pipe-nut-m10x1"})
    'pipe-nut-m10x1-2'
    """
    folded = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode().lower()
    name = re.sub(r"[^a-z0-9]+", "-", folded).strip("-")[:40].strip("-") or "unnamed"
    number, free = 1, name
    while free in taken:
        number += 1
        free = f"{name}-{number}"
    return free
