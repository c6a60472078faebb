"""What a column can mean, and the words by which owners head it."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches
from enum import StrEnum
from functools import lru_cache

from bareshell.io.sheets.grid import Cell, Grid, column_letters

__all__ = [
    "Column",
    "Confidence",
    "Meaning",
    "SheetKind",
    "columns_of",
    "find_header",
    "guess_kind",
    "plain",
]


class SheetKind(StrEnum):
    """What a sheet is a list of."""

    JOBS = "jobs"
    NEEDS = "parts wanted"
    HOLDINGS = "parts on the shelf"
    ORDERS = "orders"


class Meaning(StrEnum):
    """What a column means."""

    TITLE = "title"
    ID = "short name"
    JOB = "job"
    SYSTEM = "system"
    AFTER = "after"
    HOURS = "hours"
    HOURS_DONE = "hours done"
    PEOPLE = "people"
    DONE = "done"
    QUANTITY = "quantity"
    SIZE = "size"
    NUMBER = "part number"
    NEEDED_TO = "needed to"
    WHERE = "where"
    CONDITION = "condition"
    SUPPLIER = "supplier"
    ORDERED_ON = "ordered on"
    EXPECTED_ON = "expected on"
    RECEIVED = "received"
    PRICE = "price"
    PRICE_EACH = "price each"
    NEED = "for the need"
    NOTE = "note"


class Confidence(StrEnum):
    """How sure the meaning of a column is."""

    SAID = "said by you"
    SURE = "sure"
    LIKELY = "likely"


_WORDS: dict[Meaning, str] = {
    Meaning.TITLE: (
        "title|part|parts|part name|item|items|description|desc|name|what|component|piece|article|"
        "thing|job|jobs|task|tasks|job title|task name|work|operation|activity|to do|todo|"
        "what to do|job description|part description|fixing|fastener"
    ),
    Meaning.ID: "id|short name|key|ref id|bareshell id",
    Meaning.JOB: (
        "job|for job|needed for job|used on|used for|for|where used|task|assembly|job name"
    ),
    Meaning.SYSTEM: "system|area|section|category|group|subsystem|part of car|zone of car",
    Meaning.AFTER: (
        "after|depends on|dependency|dependencies|predecessor|predecessors|requires|needs first|"
        "comes after|before this|blocked by"
    ),
    Meaning.HOURS: (
        "hours|hrs|est|estimate|est hours|estimated hours|hours est|time|time est|est time|"
        "duration|hours needed|how long|time needed|planned hours"
    ),
    Meaning.HOURS_DONE: (
        "hours done|actual|actual hours|hours spent|hours worked|time spent|spent|hours so far|"
        "actual time|hours actual"
    ),
    Meaning.PEOPLE: "people|persons|hands|how many people",
    Meaning.DONE: (
        "done|done?|status|state|complete|completed|finished|progress|done y n|% done|% complete|"
        "ticked|check"
    ),
    Meaning.QUANTITY: (
        "qty|quantity|no|no off|nr|number off|number|amount|count|how many|off|pcs|pieces|"
        "qty needed|qty required|required|needed|in stock|stock|on hand|have|x|anzahl|menge|stk"
    ),
    Meaning.SIZE: "size|dimension|dimensions|thread|spec|specification|type|dims|grade size",
    Meaning.NUMBER: (
        "part no|part number|part #|p n|number of part|catalogue no|catalogue number|cat no|sku|"
        "code|ref|reference|order code|stock code|oem|oe no"
    ),
    Meaning.NEEDED_TO: "needed to|needed when|to start or finish",
    Meaning.WHERE: (
        "where|location|bin|box|shelf|stored|storage|drawer|bag|where kept|place|kept in|stored in|"
        "tin|crate|position"
    ),
    Meaning.CONDITION: "condition|quality|cond|new used|shape",
    Meaning.SUPPLIER: (
        "supplier|from|source|vendor|shop|seller|bought from|ordered from|order from|who from|"
        "merchant|dealer"
    ),
    Meaning.ORDERED_ON: (
        "ordered|ordered on|order date|date ordered|date|bought|purchased|purchase date|date bought"
    ),
    Meaning.EXPECTED_ON: (
        "eta|expected|expected on|due|due date|delivery|delivery date|arrives|arrival|"
        "expected date|expected delivery|date due|coming"
    ),
    Meaning.RECEIVED: "received|arrived|here|got|got it|delivered|received?|date received",
    Meaning.PRICE: (
        "price|cost|total|amount paid|paid|total price|total cost|value|price paid|line total"
    ),
    Meaning.PRICE_EACH: "price each|unit price|unit cost|cost each|price ea|each|per item|per unit",
    Meaning.NEED: "for the need|need",
    Meaning.NOTE: "note|notes|comment|comments|remark|remarks|info|more|details|words",
}
"""The words of each column: common practice, no source."""

_BY_WORD: dict[str, list[Meaning]] = {}
for _meaning, _words in _WORDS.items():
    for _word in _words.split("|"):
        _BY_WORD.setdefault(_word.replace("?", "").strip(), []).append(_meaning)

_FOR_EACH = re.compile(r"\b(each|unit|ea|per item)\b", re.IGNORECASE)
"""Says of a price that it is for one, in its words or behind them: "Price (each)"."""

_JOB_WORDS = frozenset(
    "job|jobs|task|tasks|job title|task name|work|operation|activity|to do|todo|what to do|"
    "job description".split("|")
)

_POINTS: dict[Meaning, dict[SheetKind, int]] = {
    Meaning.HOURS: {SheetKind.JOBS: 3},
    Meaning.HOURS_DONE: {SheetKind.JOBS: 2},
    Meaning.SYSTEM: {SheetKind.JOBS: 2},
    Meaning.AFTER: {SheetKind.JOBS: 3},
    Meaning.PEOPLE: {SheetKind.JOBS: 2},
    Meaning.DONE: {SheetKind.JOBS: 1},
    Meaning.QUANTITY: {SheetKind.NEEDS: 1, SheetKind.HOLDINGS: 1, SheetKind.ORDERS: 1},
    Meaning.SIZE: {SheetKind.NEEDS: 1},
    Meaning.JOB: {SheetKind.NEEDS: 3},
    Meaning.NEEDED_TO: {SheetKind.NEEDS: 4},
    Meaning.WHERE: {SheetKind.HOLDINGS: 3},
    Meaning.CONDITION: {SheetKind.HOLDINGS: 3},
    Meaning.SUPPLIER: {SheetKind.ORDERS: 2},
    Meaning.ORDERED_ON: {SheetKind.ORDERS: 3},
    Meaning.EXPECTED_ON: {SheetKind.ORDERS: 3},
    Meaning.RECEIVED: {SheetKind.ORDERS: 2},
    Meaning.PRICE: {SheetKind.ORDERS: 1},
    Meaning.PRICE_EACH: {SheetKind.ORDERS: 1},
}
_NAMES: dict[SheetKind, str] = {
    SheetKind.JOBS: r"\b(jobs?|tasks?|to.?do|work)\b",
    SheetKind.ORDERS: r"\b(orders?|ordered|on order|purchases?|buying)\b",
    SheetKind.HOLDINGS: r"\b(stock|shelf|shelves|bins?|spares?|inventory|have|stores?)\b",
    SheetKind.NEEDS: r"\b(parts?|needed|needs|wanted|to buy|fixings?|shopping)\b",
}


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a sheet and what it is taken to mean.

    Parameters
    ----------
    letters : str
        Its letters in the sheet.
    number : int
        Its number, from 0.
    header : str
        What stands in its header.
    meaning : Meaning or None
        What it means; None when it is left out.
    confidence : Confidence or None
        How sure that is.
    examples : tuple of str
        The first few things that stand in it.
    """

    letters: str
    number: int
    header: str
    meaning: Meaning | None = None
    confidence: Confidence | None = None
    examples: tuple[str, ...] = ()


def plain(text: str) -> str:
    """Bring a header to the one spelling that the words are searched by.

    Examples
    --------
    >>> plain("Qty."), plain("Price (£)"), plain("No. off"), plain("Done?"), plain("EST_HOURS")
    ('qty', 'price', 'no off', 'done', 'est hours')
    """
    folded = unicodedata.normalize("NFKC", text).casefold()
    folded = re.sub(r"\([^)]*\)|\[[^\]]*\]", " ", folded)
    return " ".join(re.sub(r"[^\w%#]+|_", " ", folded).split())


@lru_cache(maxsize=4096)
def _meanings(header: str) -> tuple[tuple[Meaning, ...], Confidence] | None:
    """Return what a header may mean, the likeliest first."""
    wanted = plain(header)
    if not wanted or len(wanted) > 40:
        return None
    if wanted in _BY_WORD:
        return tuple(_BY_WORD[wanted]), Confidence.SURE
    near = get_close_matches(wanted, _BY_WORD, n=1, cutoff=0.84)
    # A column's name within the header counts too, the longest first: "hours (my guess)".
    spelt = f" {wanted} "
    within = [word for word in _BY_WORD if len(word) > 3 and f" {word} " in spelt]
    best = near[0] if near else max(within, key=len, default="")
    return (tuple(_BY_WORD[best]), Confidence.LIKELY) if best else None


def find_header(grid: Grid) -> int | None:
    """Return the row of the headers: the one with most columns whose words are known."""
    best: tuple[int, int] | None = None
    for number, row in enumerate(grid.rows[:60]):
        texts = [cell for cell in row if isinstance(cell, str)]
        filled = sum(cell is not None for cell in row)
        if not any(plain(text) in _BY_WORD for text in texts):
            continue  # no header is all slips of the pen
        known = [found for text in texts if (found := _meanings(text)) is not None]
        distinct = {meanings[0] for meanings, _ in known}
        enough = len(distinct) >= 2 and len(known) * 2 >= filled and len(texts) * 3 >= filled * 2
        if enough and (best is None or len(distinct) > best[0]):
            best = (len(distinct), number)
    return None if best is None else best[1]


def columns_of(grid: Grid, header: int) -> tuple[Column, ...]:
    """Return the columns below a header row, each with the meaning its words give it."""
    row = grid.rows[header]
    below = grid.rows[header + 1 :]
    width = max(len(each) for each in grid.rows[header:])
    columns = []
    for number in range(width):
        cells = [each[number] for each in below if number < len(each) and each[number] is not None]
        text = "" if number >= len(row) or row[number] is None else str(row[number])
        if text or cells:
            examples = tuple(_short(cell) for cell in cells if cell != text)[:3]
            columns.append(Column(column_letters(number), number, text, examples=examples))
    return _settled(columns, below)


def _short(cell: Cell) -> str:
    words = " ".join(str(cell).split())
    return words if len(words) <= 30 else f"{words[:27]}..."


def _settled(columns: Sequence[Column], below: Sequence[Sequence[Cell]]) -> tuple[Column, ...]:
    """Give each column a meaning of its own; two that claim the same share notes only."""
    found = {column.number: _meanings(column.header) for column in columns}
    claims: dict[int, tuple[tuple[Meaning, ...], Confidence]] = {
        number: claim for number, claim in found.items() if claim is not None
    }
    for column in columns:
        meanings, sure = claims.get(column.number, ((), Confidence.SURE))
        if Meaning.PRICE in meanings and _FOR_EACH.search(column.header):
            claims[column.number] = ((Meaning.PRICE_EACH,), sure)
    words = {column.number: plain(column.header) for column in columns}
    titles = [n for n, (meanings, _) in claims.items() if Meaning.TITLE in meanings]
    title = _title(titles, words, below)
    taken: dict[Meaning, int] = {} if title is None else {Meaning.TITLE: title}
    settled = {} if title is None else {title: Meaning.TITLE}
    for sure in (Confidence.SURE, Confidence.LIKELY):
        for number, (meanings, confidence) in claims.items():
            if confidence is not sure or number in settled:
                continue
            others: list[Meaning] = [m for m in meanings if m is not Meaning.TITLE]
            if number in titles:
                others += _instead_of_a_title(number, words, below)
            for meaning in others:
                if meaning not in taken or meaning is Meaning.NOTE:
                    taken[meaning], settled[number] = number, meaning
                    break
    return tuple(
        replace(column, meaning=settled[column.number], confidence=claims[column.number][1])
        if column.number in settled
        else column
        for column in columns
    )


def _title(
    titles: Sequence[int], words: dict[int, str], below: Sequence[Sequence[Cell]]
) -> int | None:
    """Choose the column that names things: of "Part" and "Description", the one in words."""
    if not titles:
        return None
    things = [number for number in titles if words[number] not in _JOB_WORDS]
    wordy = [number for number in (things or titles) if not _looks_like_codes(number, below)]
    return (wordy or things or list(titles))[0]


def _instead_of_a_title(
    number: int, words: dict[int, str], below: Sequence[Sequence[Cell]]
) -> list[Meaning]:
    """Say what a column is that might have named things, when another one does."""
    if words[number] in _JOB_WORDS:
        return [Meaning.JOB]
    codes = _looks_like_codes(number, below)
    return [Meaning.NUMBER, Meaning.NOTE] if codes else [Meaning.NOTE]


def _looks_like_codes(number: int, below: Sequence[Sequence[Cell]]) -> bool:
    cells = [row[number] for row in below if number < len(row) and row[number] is not None]
    codes = [
        cell
        for cell in cells
        if not isinstance(cell, str) or (" " not in cell and any(each.isdigit() for each in cell))
    ]
    return bool(cells) and len(codes) * 2 > len(cells)


def guess_kind(columns: Sequence[Column], *names: str) -> SheetKind | None:
    """Return what a sheet is most likely a list of; None when nothing names its things."""
    meanings = {column.meaning for column in columns}
    title = next((each for each in columns if each.meaning is Meaning.TITLE), None)
    if title is None:
        return None
    points = dict.fromkeys(SheetKind, 0)
    for meaning in meanings:
        for kind, more in _POINTS.get(meaning, {}).items() if meaning else ():
            points[kind] += more
    points[SheetKind.JOBS] += 4 if plain(title.header) in _JOB_WORDS else -2
    for name in names:
        for kind, pattern in _NAMES.items():
            points[kind] += 2 if re.search(pattern, name.casefold()) else 0
    likeliest = (SheetKind.NEEDS, SheetKind.HOLDINGS, SheetKind.ORDERS, SheetKind.JOBS)
    return max(likeliest, key=lambda kind: points[kind])
