"""The words of an invoice's lines: what tells a count, a price, carriage, tax, a discount apart.

Invoices come in several languages of trade; the words here are those of bills as shops write them
(common practice, no source).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import Final, Literal

__all__ = [
    "Piece",
    "Sort",
    "amount_of",
    "currency_of",
    "is_head",
    "is_table_head",
    "names_tax",
    "read_piece",
]

Sort = Literal["item", "carriage", "tax", "total", "discount", "credit", "not understood"]

_SIGN: Final = "GBP|EUR|USD|[€£$]"
# No price: the pitch in M8 x 1.25, and 19.05 mm; a rate such as 17.5 %.
_PRICES: Final = re.compile(
    rf"(?<![\w.,/])(?<![xX\u00d7] )([-\u2212(]?(?:(?:{_SIGN})\s*)?[-\u2212]?"
    rf"\d{{1,3}}(?:[.,]?\d{{3}})*[.,]\d{{2}}(?:\s*(?:{_SIGN}))?\)?)"
    rf"(?![\d.,]|\s*(?:mm|ml|cm|in|bar|[lmvaw])\b|\s*[\"%\u00b0])"
    rf"|((?:GBP|EUR|USD|[€£$])\s?\d{{1,6}}(?![\d.,])|(?<![\w.,/-])\d{{1,6}}\s?(?:EUR|GBP|USD|[€£$]))",
    re.IGNORECASE,
)
_UNIT: Final = (
    r"x|\u00d7|off|pcs?|pieces?|no\.?|pkts?|packs?|packets?|ea|each|st(?:k|\u00fcck|uck)?\.?"
    r"|m|mtrs?|met(?:er|re)s?|prs?|pairs?|paar|paire?s?"
)
_COUNT_FIRST: Final = re.compile(
    rf"^\s*x?\s*(\d{{1,4}})\s*(?:({_UNIT})(?=[\s.]))?(?=\s)\s*", re.IGNORECASE
)
_COUNT_LATER: Final = re.compile(
    r"(?:qty|quantity|menge)\s*[:.]?\s*(\d{1,4})\b(?!/)|(?<![/\d.])\b(\d{1,4})\s*(?:off|pcs?|stk)\b|"
    r"(?<=\s)(?:x|\u00d7)\s*(\d{1,4})\s*@?\s*$|\((?:x|\u00d7)\s*(\d{1,4})\)",
    re.IGNORECASE,
)
_PAIR: Final = re.compile(r"prs?|pairs?|paar|paire?s?", re.IGNORECASE)
_NUMBER: Final = re.compile(r"\b(?=[A-Z0-9/-]*\d)[A-Z0-9][A-Z0-9/-]{3,19}\b")
_NO_NUMBER: Final = re.compile(r"M\d+(?:[X/-]\d+)?|\d+/\d+(?:-\d+)?|\d{1,3}")
_RATE: Final = re.compile(r"(?<![\w.,])(\d{1,2}(?:[.,]\d{1,2})?)\s*%")
_LABELS: Final = re.compile(
    r"\b(?:qty|quantity|menge|unit price|price each|price|each|line total|total|amount|net|preis)\b"
    r"\s*:",
    re.IGNORECASE,
)
_LABELLED: Final = re.compile(r"^\W*(?:qty|quantity|menge)\b", re.IGNORECASE)

_CARRIAGE: Final = re.compile(
    r"^(?:add|plus|uk|standard|tracked|royal|next day|your)?\s*"
    r"(?:carriage|postage|p\s*&\s*p|shipping|delivery|freight|courier|packing|versand\w*|porto"
    r"|frais de port|livraison|verzend\w*|spedizione)\b"
    r"(?!\s+(?:pipe|hose|valve|union|tube|line|pump))",
    re.IGNORECASE,
)
_TAX_WORD: Final = (
    r"(?:vat|tax|taxes|mwst|ust|tva|iva|btw|moms|gst|duty|duties|customs|zoll|douane)\b"
)
_TAX: Final = re.compile(
    r"^[\W\d]*(?:(?:plus|add|import|sales|total|uk|incl\w*|inkl|zzgl|of which|thereof|darin|dont)"
    rf"[\W\d]+){{0,3}}{_TAX_WORD}",
    re.IGNORECASE,
)
_INCLUDED: Final = re.compile(
    r"\b(?:incl\w*|inkl\w*|of which|thereof|darin|enthalten|dont)\b", re.IGNORECASE
)
_TOTAL: Final = re.compile(
    r"\b(?:sub-?\s*total|total|totaal|totale|amount due|to pay|balance|paid|payment|summe"
    r"|net(?:to)?|brutto|gesamt\w*|zwischensumme|rechnungsbetrag|montant|goods value)\b",
    re.IGNORECASE,
)
_DISCOUNT: Final = re.compile(
    r"\b(?:discount|rebate|rabatt|skonto|korting|remise|sconto|voucher|coupon)\b|^less\s+\d",
    re.IGNORECASE,
)
_HEAD: Final = re.compile(
    r"^\W*(?:invoice|order|date|page|account|a/c|cust\w+|qty|quantity|code|part|description|item"
    r"|unit|price|thank|bill|ship|tel|phone|www|http|e-?mail|vat\b|company|reg\b|iban|bic|sort code"
    r"|rechnung|datum|kunde|seite|payment|terms|your ref|our ref|po\b)",
    re.IGNORECASE,
)
_TABLE_WORDS: Final = re.compile(
    r"\b(?:qty|quantity|menge|code|part(?: no)?|item|description|bezeichnung|artikel|unit|price"
    r"|preis|einzelpreis|net|amount|betrag|total|vat|disc)\b",
    re.IGNORECASE,
)
MOST_WORDS_OF_A_SUM: Final = 8


@dataclass(frozen=True, slots=True)
class Piece:
    """One line of the text, taken apart.

    Parameters
    ----------
    typed : str
        As it stood.
    indent : int
        How far it is set in. [letters]
    sort : str
        What its words say it is.
    count : int or None
        How many, when that is written.
    pairs : bool
        Whether it is counted in pairs; ``count`` is in pieces all the same.
    number, title : str
        The supplier's part number, and the words.
    prices : tuple of Decimal
        In the order of the line.
    rate : Decimal or None
        A rate that is written on it. [percent]
    labelled : bool
        Whether it only labels the count and prices of what stands above it.
    included : bool
        Whether it says that it is within the total.
    """

    typed: str
    indent: int
    sort: Sort
    count: int | None
    pairs: bool
    number: str
    title: str
    prices: tuple[Decimal, ...]
    rate: Decimal | None
    labelled: bool = False
    included: bool = False


def read_piece(typed: str) -> Piece:
    """Take one line apart.

    Examples
    --------
    >>> one = read_piece("5    CSP-01     Check strap pins        0.45     2.25    20%")
    >>> one.count, one.number, one.title, [str(price) for price in one.prices], one.rate
    (5, 'CSP-01', 'Check strap pins', ['0.45', '2.25'], Decimal('20'))
    >>> read_piece("Less 10% discount  -1.37").sort, read_piece("2 Delivery pipe 4.00").sort
    ('discount', 'item')
    """
    laid = typed.expandtabs(4)
    indent = len(laid) - len(laid.lstrip())
    # Columns are told apart by two spaces as well as by hundreds.
    line = re.sub(r"^[-*\u2022\u00b7]\s+", "", re.sub(r"\s{3,}", "  ", laid.strip()))
    labelled = bool(_LABELLED.match(line))
    prices = tuple(one for one in map(_of_match, _PRICES.finditer(line)) if one is not None)
    words = _PRICES.sub("  ", line)
    rate = _RATE.search(words)
    count, pairs, rest = _count(words)
    rest = _LABELS.sub(" ", _RATE.sub(" ", rest)) if labelled else _RATE.sub(" ", rest)
    number, title = _number(rest)
    sort = _sort(" ".join(_PRICES.sub(" ", line).split()), title, count, prices)
    if labelled:
        sort = "item"
    elif sort == "item" and not title:
        sort = "not understood"
    return Piece(
        typed,
        indent,
        sort,
        count,
        pairs,
        number,
        title,
        prices,
        Decimal(rate[1].replace(",", ".")) if rate else None,
        labelled,
        bool(_INCLUDED.search(line)),
    )


def _sort(words: str, title: str, count: int | None, prices: tuple[Decimal, ...]) -> Sort:
    """Tell what a line is by its words; a line with a count of its own is a thing first."""
    is_short = len(title.split()) <= MOST_WORDS_OF_A_SUM
    if _DISCOUNT.search(words) and (count is None or _DISCOUNT.match(title)):
        return "discount"
    if count is None or count == 1:
        if _TAX.match(title or words) and prices and is_short:
            return "tax"
        if _CARRIAGE.match(title) and is_short:
            return "carriage"
    if count is None and _TOTAL.search(words) and is_short:
        return "total"
    if prices and prices[-1] < 0:
        return "credit"
    return "item"


def _count(words: str) -> tuple[int | None, bool, str]:
    if match := _COUNT_FIRST.match(words):
        pairs = bool(match[2] and _PAIR.fullmatch(match[2]))
        return int(match[1]) * (2 if pairs else 1), pairs, words[match.end() :]
    if match := _COUNT_LATER.search(words):
        said = next(group for group in match.groups() if group)
        return int(said), False, f"{words[: match.start()]} {words[match.end() :]}"
    return None, False, words


def _number(words: str) -> tuple[str, str]:
    tidy = re.sub(r"[\t|;]+", " ", words).strip(" -@\u00b7")
    number = ""
    for match in _NUMBER.finditer(tidy):
        if not _NO_NUMBER.fullmatch(match[0]):
            number = match[0]
            tidy = f"{tidy[: match.start()]} {tidy[match.end() :]}"
            break
    return number, " ".join(tidy.split()).strip(" -@,:.")


def _of_match(match: re.Match[str]) -> Decimal | None:
    return amount_of(match[0])


def amount_of(written: str) -> Decimal | None:
    """Read an amount as shops write it, with its sign.

    Examples
    --------
    >>> [str(amount_of(one)) for one in ("£1,234.50", "1.234,50 EUR", "-£5.00", "(1.37)", "£12")]
    ['1234.50', '1234.50', '-5.00', '-1.37', '12']
    """
    bare = re.sub(r"[^\d.,]", "", written)
    minus = "-" if re.search(r"[-\u2212]|\(.*\)", written) else ""
    whole, sign, cents = bare.rpartition("," if bare.rfind(",") > bare.rfind(".") else ".")
    if not sign:
        whole, cents = cents, ""
    try:
        return Decimal(f"{minus}{re.sub('[.,]', '', whole)}{'.' if cents else ''}{cents}")
    except InvalidOperation:
        return None


def currency_of(text: str) -> str:
    """The currency that is written on an invoice; empty when none is."""
    signs = (("GBP", "£"), ("EUR", "€"), ("USD", "$"))
    return next((name for name, sign in signs if sign in text or name in text.upper()), "")


def is_head(piece: Piece) -> bool:
    """Whether a line that is no thing is only an invoice's head or foot."""
    return bool(_HEAD.match(piece.typed))


def names_tax(typed: str) -> bool:
    """Whether a line speaks of tax anywhere in it.

    Examples
    --------
    >>> names_tax("Order total: 53.05 (including 8.84 VAT)"), names_tax("Total 4.30")
    (True, False)
    """
    return bool(re.search(rf"\b{_TAX_WORD}", typed, re.IGNORECASE))


def is_table_head(typed: str) -> bool:
    """Whether a line names the columns under it.

    Examples
    --------
    >>> is_table_head("Qty  Code  Description  Unit"), is_table_head("Total 4.30")
    (True, False)
    """
    return len(_TABLE_WORDS.findall(typed)) >= 2 and not re.search(r"\d", typed)
