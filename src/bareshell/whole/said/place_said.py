"""What a clause says of how the car was left standing."""

from __future__ import annotations

from typing import Final

from bareshell.model.changes import CarPlaced
from bareshell.model.position import Placement, Wheels
from bareshell.whole.said.clauses import Clause
from bareshell.whole.said.cue_words import Cue
from bareshell.whole.said.desk import Desk, Piece, asked, heard, plain
from bareshell.whole.said.names import Kind
from bareshell.whole.said.results import Choice
from bareshell.whole.said.trade_words import FILLERS
from bareshell.whole.said.words import stem_of

_CAR: Final = frozenset({"car", "she", "shell", "it", "she's", "body", "her", "him", "motor"})
_GROUND: Final = frozenset({"floor", "ground", "deck", "wheel", "wheels", "feet"})
_DOWN: Final = frozenset({"down", "lowered", "dropped"})
_ABOUT: Final = frozenset({"axle", "car", "its", "her", "four", "two", "all", "own", "jack", "up"})


def read_place(clause: Clause, desk: Desk) -> list[Piece] | None:
    """Read a clause as one about where the car stands, or return None when it is not."""
    standing = [h for h in clause.hits if h.cue is Cue.STANDING]
    on_car = bool(_CAR & set(clause.texts))
    begins = clause.texts[:1] == ("on",) and clause.joint in (";", ",")
    if not standing and not begins and not (on_car and "on" in clause.texts):
        return None
    start = standing[-1].after if standing else clause.texts.index("on") + 1
    ends = next((at for at in range(start + 1, len(clause.texts)) if clause.gaps[at]), None)
    rest = [t for t in clause.texts[start:ends] if t not in FILLERS or t in _GROUND]
    supports = _supports(rest, desk)
    if not supports and on_car and not rest and _DOWN & set(clause.texts):
        supports = _loaded(desk)
    if not supports or not _only_a_place(rest, desk, supports):
        return None
    if len(supports) > 1:
        choices = [_choice(desk, key, clause) for key in supports]
        return [asked("How was the car left standing?", choices, clause, title="The car")]
    choice = _choice(desk, supports[0], clause)
    title = desk.build.supports[supports[0]].title
    return [heard("car", "The car", f"left standing: {title}", choice.changes, clause)]


def _choice(desk: Desk, support: str, clause: Clause) -> Choice:
    now = desk.build.placement
    placement = Placement(support, now.off if now is not None else frozenset())
    title = desk.build.supports[support].title
    return Choice(f"The car: left standing: {title}", (CarPlaced(placement, plain(clause.text)),))


def _supports(rest: list[str], desk: Desk) -> list[str]:
    """Return the supports that some words name best."""
    stems = {stem_of(t) for t in rest}
    found: dict[str, float] = {}
    for subject in desk.subjects.all:
        if subject.kind is not Kind.SUPPORT:
            continue
        weight = sum(
            max(0.0, *(subject.words.get(m, 0.0) for m, _ in desk.subjects.meanings(s)))
            for s in stems
            if desk.subjects.meanings(s)
        )
        if weight:
            found[subject.id] = weight
    if not found and stems & {stem_of(g) for g in _GROUND}:
        return _loaded(desk)
    best = max(found.values(), default=0.0)
    return [key for key, weight in found.items() if weight >= best - 1e-9]


def _loaded(desk: Desk) -> list[str]:
    """Return the supports on which the wheels carry the car and a garage leaves it."""
    kept = [
        key
        for key, s in desk.build.supports.items()
        if s.wheels is Wheels.LOADED and str(s.kind) in ("wheels", "level floor")
    ]
    wheels = [key for key in kept if str(desk.build.supports[key].kind) == "wheels"]
    return wheels or kept


def _only_a_place(rest: list[str], desk: Desk, supports: list[str]) -> bool:
    """Whether nothing but the place is named: 'back on its wheels', not 'wheels back on'."""
    words = set().union(*(desk.subjects.by_key[f"support:{key}"].words for key in supports))
    for text in rest:
        stem = stem_of(text)
        near = {m for m, _ in desk.subjects.meanings(stem)}
        if not (near & words or text in _GROUND or text in _ABOUT):
            return not desk.subjects.knows(stem)
    return True
