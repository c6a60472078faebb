"""CSV files as they are really saved: with semicolons, in an old encoding, with a mark in front."""

from __future__ import annotations

import csv
import io

from bareshell.errors import BadInput

__all__ = ["decoded", "is_like_a_formula", "read_csv"]

_FORMULA_STARTS = ("=", "+", "-", "@", "\uff1d", "\uff0b", "\uff0d", "\uff20", "\t", "\r")
"""What a spreadsheet may take for the beginning of a formula; the wide forms too."""

_DELIMITERS = ",;\t|"
_SAMPLE_LINES = 50


def decoded(data: bytes, name: str) -> str:
    r"""Return the text of a file, whichever of the usual encodings it was saved in.

    Raises
    ------
    BadInput
        When it is no text.

    Examples
    --------
    >>> decoded(b"caf\xe9", "x.csv"), decoded("café".encode("utf-8-sig"), "x.csv")
    ('café', 'café')
    """
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        encodings = ("utf-16",)
    else:
        encodings = ("utf-8-sig", "cp1252", "latin-1")  # type: ignore[assignment]
    for encoding in encodings:
        try:
            text = data.decode(encoding)
        except UnicodeDecodeError:
            continue
        odd = sum(1 for each in text[:4000] if ord(each) < 32 and each not in "\t\r\n\f")
        if not odd:
            return text
    raise BadInput(
        f"'{name}'",
        "it is neither a spreadsheet nor text",
        "bring in an .xlsx, .ods or .csv file, or a build file",
    )


def is_like_a_formula(words: str) -> bool:
    """Whether a spreadsheet might take words for a formula.

    Examples
    --------
    >>> is_like_a_formula("=1+1"), is_like_a_formula(" -box"), is_like_a_formula("M10x1")
    (True, True, False)
    """
    return words.startswith(_FORMULA_STARTS) or words.strip().startswith(_FORMULA_STARTS[:8])


def _unquoted(cell: str) -> str | None:
    """Return a cell as it was before a leading apostrophe kept it from being a formula."""
    words = cell.strip()
    if words.startswith("'") and is_like_a_formula(words[1:]):
        words = words[1:].strip()
    return words or None


def read_csv(data: bytes, name: str) -> tuple[tuple[tuple[str | None, ...], ...], bool]:
    r"""Read a CSV file.

    Returns
    -------
    tuple of rows, bool
        The rows, and whether it was written where a comma parts the whole from the fraction.

    Examples
    --------
    >>> read_csv(b'"a;b";2,5\nc;1\n', "x.csv")
    ((('a;b', '2,5'), ('c', '1')), True)
    """
    text = decoded(data, name)
    first = text.split("\n", 1)[0].strip()
    if first.lower().startswith("sep=") and len(first) == 5:
        delimiter, text = first[-1], text.split("\n", 1)[-1]
    else:
        delimiter = _delimiter(text)
    try:
        csv.field_size_limit(200_000)
        read = list(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter))
    except csv.Error as error:
        raise BadInput(
            f"'{name}'", f"it cannot be read as CSV ({error})", "save it again as CSV"
        ) from error
    rows = tuple(tuple(_unquoted(cell) for cell in row) for row in read)
    return rows, delimiter == ";"


def _delimiter(text: str) -> str:
    """Find what parts the cells: what parts the first lines into equally many, and the most."""
    sample = "\n".join(text.splitlines()[:_SAMPLE_LINES])

    def score(delimiter: str) -> tuple[int, int]:
        reader = csv.reader(io.StringIO(sample, newline=""), delimiter=delimiter)
        try:
            counts = [len(row) for row in reader if any(cell.strip() for cell in row)]
        except csv.Error:
            return (0, 0)
        wide = [count for count in counts if count > 1]
        if not wide:
            return (0, 0)
        usual = max(set(wide), key=wide.count)
        return (wide.count(usual), usual)

    return max(_DELIMITERS, key=score)
