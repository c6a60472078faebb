"""Read a thread's designation as it is marked, listed or said."""

from __future__ import annotations

import re
from functools import lru_cache

from bareshell.errors import BadInput
from bareshell.units.figures import tidy
from bareshell.units.thread_tables import BA_LAST, METRIC_PITCHES_MM
from bareshell.units.threads import (
    Thread,
    ThreadSystem,
    british_association,
    coarse_is_understood,
    metric,
    standard_threads,
)

__all__ = ["parse_thread"]

_EXAMPLES = "write it as M10 x 1, 3/8-24 UNF, 1/4 BSP, 1/8-27 NPT, 3/8 BSF or 2 BA"

_SYSTEMS: dict[str, ThreadSystem] = {
    "unc": "UNC",
    "nc": "UNC",
    "unf": "UNF",
    "nf": "UNF",
    "unef": "UNEF",
    "nef": "UNEF",
    "bsw": "BSW",
    "whitworth": "BSW",
    "whit": "BSW",
    "w": "BSW",
    "bsf": "BSF",
    "bsc": "BSC",
    "cei": "BSC",
    "cycle": "BSC",
    "bsb": "BSB",
    "brass": "BSB",
    "bsp": "BSP",
    "bspp": "BSP",
    "bspf": "BSP",
    "g": "BSP",
    "bspt": "BSPT",
    "r": "BSPT",
    "rc": "BSPT",
    "npt": "NPT",
}

_LEFT = re.compile(r"[\s(]*\b(?:lh|left(?:[- ]?hand(?:ed)?)?)\b\)?", re.IGNORECASE)
_CLASS = re.compile(r"(?:\s*-\s*|\s+)(?:[1-3][ab]|\d[egh](?:\d[egh])?)$", re.IGNORECASE)
_METRIC = re.compile(
    r"m\s*(\d+(?:[.,]\d+)?)(?:\s*[x*-]\s*(\d+(?:[.,]\d+)?))?(?:\s*mm)?", re.IGNORECASE
)
_METRIC_UNMARKED = re.compile(
    r"(\d+(?:[.,]\d+)?)\s*(?:mm)?\s*[x*]\s*(\d+(?:[.,]\d+)?)\s*(?:mm)?(?:\s*(?:pitch|metric))?",
    re.IGNORECASE,
)
_BA = re.compile(r"(?:no\.?\s*|#)?(\d{1,2})\s*b\.?a\.?", re.IGNORECASE)
_SIZE = r"(?:no\.?\s*|#)?\d+(?:[ -]\d+/\d+|/\d+)?"
_COUNTED = re.compile(
    rf"""(?P<lead>g|rc?)?\s*(?P<size>{_SIZE})\s*(?:"|in\.?|inch)?"""
    r"""(?:\s*(?:-|x|\*|\s)\s*(?P<tpi>\d+(?:\.5)?)\s*(?:tpi)?)?"""
    r"""\s*-?\s*(?P<system>[a-z.]+)?""",
    re.IGNORECASE,
)


def parse_thread(text: str, field: str) -> Thread:
    """Read a thread's designation.

    A bare ``M10`` is the coarse pitch, as the standard has it [S:iso-261]. A size and count with
    no series, such as ``3/8-24``, is taken when only one series has it; otherwise the tool asks,
    since 1/4-20 is both UNC and Whitworth and their flanks differ. ``BSP`` alone is the parallel
    thread (common practice, no source). A class of fit at the end is read over.

    Parameters
    ----------
    text : str
        Such as ``"M10x1"``, ``"3/8-24 UNF"``, ``"7/16 UNF"``, ``"1/4 BSP"``, ``"2BA"``,
        ``"M14 x 1.5 LH"``.
    field : str
        The field's name, for the error.

    Returns
    -------
    Thread
        With its diameter and pitch.

    Raises
    ------
    BadInput
        When it is no thread, has a pitch that its size does not come in, or could be two.

    Examples
    --------
    >>> str(parse_thread("m10x1", "pipe nut")), str(parse_thread("7/16 UNF", "pipe nut"))
    ('M10 x 1', '7/16-20 UNF')
    >>> parse_thread("1/4-20", "screw")
    Traceback (most recent call last):
    ...
    bareshell.errors.BadInput: screw: '1/4-20' is a thread of more than one series. Write \
1/4-20 UNC or 1/4-20 BSW.
    """
    typed = tidy(text, field)
    without_hand = _LEFT.sub("", typed).strip()
    left = without_hand != typed
    plain = _CLASS.sub("", without_hand).strip()
    if metric_match := _METRIC.fullmatch(plain) or _METRIC_UNMARKED.fullmatch(plain):
        thread = _metric(metric_match[1], metric_match[2], typed, field)
    elif ba_match := _BA.fullmatch(plain):
        thread = _ba(int(ba_match[1]), typed, field)
    elif counted := _COUNTED.fullmatch(plain):
        thread = _counted(counted, typed, field)
    else:
        raise BadInput(field, f"'{typed}' is no thread", _EXAMPLES)
    return thread.opposite_hand() if left else thread


def _metric(diameter: str, pitch: str | None, typed: str, field: str) -> Thread:
    diameter_mm = float(diameter.replace(",", "."))
    pitches = METRIC_PITCHES_MM.get(diameter_mm)
    if pitches is None:
        near = sorted(METRIC_PITCHES_MM, key=lambda size: abs(size - diameter_mm))[:2]
        raise BadInput(
            field,
            f"there is no standard metric thread of {diameter_mm:g} mm",
            f"measure over the threads again: the nearest are {_metric_sizes(near)}",
        )
    offered = ", ".join(f"M{diameter_mm:g} x {each:g}" for each in pitches)
    if pitch is None:
        if not coarse_is_understood(diameter_mm):
            raise BadInput(field, f"'{typed}' has no pitch that is understood", f"write {offered}")
        return metric(diameter_mm, pitches[0])
    pitch_mm = float(pitch.replace(",", "."))
    if pitch_mm not in pitches:
        what = (
            f"{pitch_mm:g} mm is a length, not a pitch"
            if pitch_mm > max(pitches)
            else f"M{diameter_mm:g} does not come in a pitch of {pitch_mm:g} mm"
        )
        raise BadInput(field, f"in '{typed}', {what}", f"write {offered}")
    return metric(diameter_mm, pitch_mm)


def _metric_sizes(sizes: list[float]) -> str:
    return " and ".join(f"M{size:g}" for size in sorted(sizes))


def _ba(number: int, typed: str, field: str) -> Thread:
    if number > BA_LAST:
        raise BadInput(
            field, f"'{typed}' is finer than any thread on a car", f"write 0 BA to {BA_LAST} BA"
        )
    return british_association(number)


def _counted(match: re.Match[str], typed: str, field: str) -> Thread:
    size = _size(match["size"])
    name = (match["lead"] or match["system"] or "").replace(".", "").casefold()
    system = _SYSTEMS.get(name)
    if name and system is None:
        raise BadInput(
            field, f"'{match['system']}' in '{typed}' is no thread series held here", _EXAMPLES
        )
    of_size = [
        thread
        for thread in standard_threads()
        if thread.size == size
        and thread.system not in {"metric", "BA"}
        and system in {None, thread.system}
    ]
    if not of_size:
        series = f" {system}" if system else ""
        raise BadInput(field, f"there is no standard{series} thread of size {size}", _EXAMPLES)
    tpi = match["tpi"]
    matching = [each for each in of_size if tpi is None or each.tpi == float(tpi)]
    if system is None:
        # A pipe thread is never meant by its size and count alone.
        matching = [each for each in matching if each.system not in {"BSP", "BSPT", "NPT"}]
    if len(matching) == 1:
        return matching[0]
    if not matching:
        raise BadInput(
            field,
            f"no standard thread of size {size} has {tpi} threads to the inch",
            f"count again with a gauge, then write {_choices(of_size)}",
        )
    raise BadInput(
        field, f"'{typed}' is a thread of more than one series", f"write {_choices(matching)}"
    )


def _choices(threads: list[Thread]) -> str:
    names = [str(thread) for thread in threads]
    return names[0] if len(names) == 1 else " or ".join((", ".join(names[:-1]), names[-1]))


def _size(written: str) -> str:
    """Bring a size to the spelling of the tables.

    >>> _size("#10"), _size("no. 8"), _size("1-1/8"), _size("10")
    ('No 10', 'No 8', '1 1/8', 'No 10')
    """
    bare = re.sub(r"^(?:no\.?\s*|#)", "", written, flags=re.IGNORECASE).strip()
    if "/" in bare:
        return bare.replace("-", " ")
    return "1" if bare == "1" and bare == written.strip() else f"No {bare}"


@lru_cache(maxsize=4096)
def known_thread(text: str) -> Thread | None:
    """Read a screw thread; None when nothing is said, or it is none that is known.

    Examples
    --------
    >>> str(known_thread("m10x1")), known_thread("odd"), known_thread("")
    ('M10 x 1', None, None)
    """
    try:
        return parse_thread(text, "thread")
    except BadInput:
        return None
