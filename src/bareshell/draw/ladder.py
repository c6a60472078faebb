"""The ladder of gates, climbed from below.

Gates are a partial order, not a row. They are drawn in an order that never contradicts it; rungs
of the same height are bracketed ("in any order"), and a rung that does not simply stand on the
height beneath it says what it comes after.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from bareshell.draw.measure import shortened, wrapped
from bareshell.draw.svg import Svg, circle, joined, path, picture, rect, text

_WIDTH: Final = 380.0
_LEFT: Final = 84.0  # the two rails
_RIGHT: Final = 186.0
_NAMES: Final = _RIGHT + 16
_SIZE: Final = 14.5  # of the letters
_NAME_STEP: Final = 19.0
_WORD_STEP: Final = 18.0
_ROOM_LEAST: Final = 84.0
_PER_ROW: Final = 6
_STEP: Final = 13.0
_MARK: Final = 10.0
_STATES: Final = ("held", "substituted", "begun", "owed", "spent", "failed", "covered")
_WORDS: Final = {"substituted": "by substitute", "covered": "covered, unproven"}


@dataclass(frozen=True, slots=True)
class Rung:
    """One gate with what stands before it.

    Parameters
    ----------
    name : str
        The gate.
    state : {'passed', 'next', 'later'}
        Where the climber stands to it; several can be next.
    after : tuple of str
        The gates directly beneath it in the order.
    when : str
        A day or month in words, or nothing when it is not known.
    held, substituted, begun, owed, spent, failed, covered : int
        How many of its proofs stand in each state; ``covered`` is covered, unproven.
    temps : int
        Temps that must be gone before it.
    """

    name: str
    state: str = "later"
    after: tuple[str, ...] = ()
    when: str = ""
    held: int = 0
    substituted: int = 0
    begun: int = 0
    owed: int = 0
    spent: int = 0
    failed: int = 0
    covered: int = 0
    temps: int = 0

    @property
    def marks(self) -> tuple[str, ...]:
        """One state for each proof, the good ones first."""
        return tuple(state for state in _STATES for _ in range(getattr(self, state)))

    @property
    def wanting(self) -> str:
        """What is still in the way, in words."""
        counts = [
            f"{getattr(self, state)} {_WORDS.get(state, state)}"
            for state in _STATES
            if state not in ("held", "substituted") and getattr(self, state)
        ]
        return ", ".join(counts)

    @property
    def temp_words(self) -> str:
        """How many temps are left, in words."""
        return f"{self.temps} temp{'s' if self.temps > 1 else ''}" if self.temps else ""


@dataclass(frozen=True, slots=True)
class _Lines:
    """What is written beside a rung, line by line."""

    name: tuple[str, ...]
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Placed:
    """A rung with its height in the order and its place in the drawing."""

    rung: Rung
    level: int
    y: float
    lines: _Lines


def levels(rungs: Iterable[Rung]) -> dict[str, int]:
    """How many gates stand beneath each one, along the longest climb.

    Raises
    ------
    ValueError
        When a gate comes after one that is not there, or, round a circle, after itself.

    Examples
    --------
    >>> levels([Rung("road", after=("cabin", "bay")), Rung("bay"), Rung("cabin", after=("bay",))])
    {'road': 2, 'bay': 0, 'cabin': 1}
    """
    by_name = {rung.name: rung for rung in rungs}
    found: dict[str, int] = {}

    def level(name: str, climbing: tuple[str, ...]) -> int:
        if name in climbing:
            raise ValueError(f"Gates in a circle: {' after '.join((*climbing, name))}.")
        if name not in by_name:
            raise ValueError(f"{climbing[-1]!r} comes after {name!r}, which is no gate here.")
        if name not in found:
            beneath = [level(other, (*climbing, name)) for other in by_name[name].after]
            found[name] = 1 + max(beneath, default=-1)
        return found[name]

    return {name: level(name, ()) for name in by_name}


def ladder(rungs: tuple[Rung, ...]) -> Svg:
    """The ladder, made for a phone; a wide page shows it at the same size.

    Parameters
    ----------
    rungs : tuple of Rung
        Every gate once, in any order.

    Returns
    -------
    drawing : Svg
        Needs the page's `definitions`.
    """
    placed, height = _place(rungs)
    return picture(
        _WIDTH,
        height,
        sentence(rungs),
        _rails(height),
        _brackets(placed),
        *(_rung(place) for place in placed),
        class_="narrow",
    )


def sentence(rungs: tuple[Rung, ...]) -> str:
    """What the ladder shows, for those who cannot see it."""
    passed = [rung.name for rung in rungs if rung.state == "passed"]
    coming = [rung for rung in rungs if rung.state == "next"]
    words = [f"Ladder of {len(rungs)} gates."]
    words.append(f"Passed: {', '.join(passed)}." if passed else "None is passed yet.")
    for rung in coming:
        good = rung.held + rung.substituted
        wanting = ", ".join(part for part in (rung.wanting, rung.temp_words) if part)
        words.append(f"Next: {rung.name}, {good} held, {wanting or 'nothing wanting'}.")
    return " ".join(words)


def _place(rungs: tuple[Rung, ...]) -> tuple[list[_Placed], float]:
    """Stack the rungs from the ground up; those with many proofs take more room."""
    heights = levels(rungs)
    order = {rung.name: index for index, rung in enumerate(rungs)}
    upward = sorted(rungs, key=lambda rung: (heights[rung.name], order[rung.name]))
    lines = [_lines(rung, upward, heights) for rung in upward]
    rooms = [_room(rung, beside) for rung, beside in zip(upward, lines, strict=True)]
    total = sum(rooms) + 62
    y = total - 34
    placed = []
    for rung, beside, room in zip(upward, lines, rooms, strict=True):
        y -= room
        placed.append(_Placed(rung, heights[rung.name], y, beside))
    return placed, total


def _room(rung: Rung, lines: _Lines) -> float:
    """How much height a rung needs for its marks and its words."""
    rows = -(-len(rung.marks) // _PER_ROW)
    words = _NAME_STEP * len(lines.name) + _WORD_STEP * len(lines.words)
    return max(_ROOM_LEAST, 36 + rows * _STEP, 26 + words)


def _lines(rung: Rung, upward: list[Rung], heights: dict[str, int]) -> _Lines:
    """The gate's name and, under it, what is wanting, its temps and what it comes after."""
    beneath = {other.name for other in upward if heights[other.name] == heights[rung.name] - 1}
    after = "" if set(rung.after) == beneath else f"after {' and '.join(rung.after)}"
    words = [words for words in (rung.wanting, rung.temp_words, after) if words]
    if rung.state != "passed" and not (rung.wanting or rung.temp_words):
        words.insert(0, "nothing wanting")
    return _Lines(
        wrapped(rung.name, _WIDTH - _NAMES, 16, slab=True),
        tuple(line for said in words for line in wrapped(said, _WIDTH - _NAMES, _SIZE)),
    )


def _rails(height: float) -> Svg:
    d = f"M{_LEFT:g} {height - 8:g}V8M{_RIGHT:g} {height - 8:g}V8"
    ground = path(f"M36 {height - 6:g}H350", "l-thick")
    return joined(path(d, "rail"), path(d, "rail-in"), ground)


def _brackets(placed: list[_Placed]) -> Svg:
    """Bracket rungs of one height: any of them may come first."""
    drawn = []
    for level in sorted({place.level for place in placed}):
        same = [place for place in placed if place.level == level]
        if len(same) < 2:
            continue
        low, high, x = same[0].y, same[-1].y, _LEFT - 11
        drawn.append(path(f"M{x + 6:g} {high:g}H{x:g}V{low:g}H{x + 6:g}", "l"))
        label = (same[-2].y + high) / 2 + 9
        drawn.append(text(x - 5, label, "any order", "t-soft", "end"))
    return joined(*drawn)


def _rung(place: _Placed) -> Svg:
    rung, y = place.rung, place.y
    inner = _RIGHT - _LEFT - 12
    if rung.state == "next":
        bar = rect(_LEFT + 6, y - 9, inner, 18, "rung-next")
    elif rung.state == "passed":
        bar = rect(_LEFT + 6, y - 5, inner, 10, "f-ink")
    else:
        bar = rect(_LEFT + 6, y - 6, inner, 12, "rung-later")
    return joined(bar, _when(rung, y), _names(place), _proof_marks(rung, y), _tag(rung, y))


def _when(rung: Rung, y: float) -> Svg:
    """Write next, passed or the day in the margin, clear of a bracket."""
    x = _LEFT - 17
    day = shortened(rung.when, x, _SIZE)
    if rung.state == "next":
        arrow = path(f"M4 {y - 13:g}H52L65 {y:g}L52 {y + 13:g}H4Z", "f-ink")
        word = text(30, y + 5, "next", "t-name t-on-ink", "middle")
        return joined(arrow, word, text(x, y + 30, day, "t-soft", "end"))
    if rung.state == "passed":
        return joined(
            text(x, y + 4, "passed", "t-name", "end"), text(x, y + 21, day, "t-soft", "end")
        )
    return text(x, y + 5, day, "t-soft", "end")


def _names(place: _Placed) -> Svg:
    drawn = []
    y = place.y + 4
    for line in place.lines.name:
        drawn.append(text(_NAMES, y, line, "t-rung"))
        y += _NAME_STEP
    for line in place.lines.words:
        drawn.append(text(_NAMES, y, line, "t-soft"))
        y += _WORD_STEP
    return joined(*drawn)


def _proof_marks(rung: Rung, y: float) -> Svg:
    """Hang a mark for each proof beneath the rung."""
    top = y + (14 if rung.state == "next" else 11)
    return joined(
        *(
            _proof_mark(
                state,
                _LEFT + 9 + (index % _PER_ROW) * _STEP,
                top + (index // _PER_ROW) * _STEP,
            )
            for index, state in enumerate(rung.marks)
        )
    )


def _proof_mark(state: str, x: float, y: float) -> Svg:
    """A proof at a glance, ten pixels wide: the same shapes as the marks before the words."""
    s = _MARK
    outline = rect(x + 0.7, y + 0.7, s - 1.4, s - 1.4, "l")
    if state == "held":
        return rect(x, y, s, s, "f-ink")
    if state == "substituted":
        return joined(outline, rect(x + 3, y + 3, s - 6, s - 6, "f-ink"))
    if state == "begun":
        return joined(outline, rect(x, y + s / 2, s, s / 2, "f-ink"))
    if state == "spent":
        return joined(outline, path(f"M{x - 1:g} {y + s + 1:g}L{x + s + 1:g} {y - 1:g}", "l-2 l"))
    if state == "failed":
        cross = f"M{x + 2:g} {y + 2:g}L{x + s - 2:g} {y + s - 2:g}"
        cross += f"M{x + s - 2:g} {y + 2:g}L{x + 2:g} {y + s - 2:g}"
        return joined(
            circle(x + s / 2, y + s / 2, s / 2 + 0.5, "f-ox"), path(cross, "mk-sheet-thin")
        )
    if state == "covered":
        lid = path(f"M{x - 1.5:g} {y + 1.5:g}H{x + s + 1.5:g}", "l-thick")
        return joined(path(f"M{x + 0.7:g} {y + 2:g}V{y + s:g}H{x + s - 0.7:g}V{y + 2:g}", "l"), lid)
    return outline


def _tag(rung: Rung, y: float) -> Svg:
    """A tag on the rail with the number of temps to clear."""
    if not rung.temps:
        return Svg()
    top = y + 9
    x = _RIGHT
    return joined(
        path(f"M{x:g} {top - 3:g}V{top + 3:g}", "l"),
        path(
            f"M{x:g} {top + 2:g}L{x + 10:g} {top + 10:g}V{top + 31:g}H{x - 10:g}V{top + 10:g}Z",
            "box",
        ),
        text(x, top + 26, str(rung.temps), "t-name", "middle"),
    )
