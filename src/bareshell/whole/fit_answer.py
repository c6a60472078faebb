"""What on the shelf fits what is wanted: for one need line by line, for all of them at once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from bareshell.model import Build
from bareshell.model.part import Holding, Need, NeedState
from bareshell.model.spec import BoltSpec, PinSpec, PlainSpec
from bareshell.model.standing import NeedStanding, need_standings
from bareshell.model.trust import Trust
from bareshell.parts import Fit, FitLine, FitWord, Question, check_fit, match_all
from bareshell.parts.stand_in import StandInWord
from bareshell.parts.stand_in_kinds import relied_on
from bareshell.parts.stand_in_parts import Enough, fixing_of
from bareshell.whole.need_words import before_ordering
from bareshell.whole.spec_words import spec_words
from bareshell.whole.stand_in_answer import StandInView, stand_in_view

__all__ = [
    "Candidate",
    "NeedFits",
    "ShelfMatch",
    "ShelfMatches",
    "WantedBy",
    "candidate",
    "need_fits",
    "shelf_matches",
    "wanted_by",
]

MOST = 12
"""How many of each sort are shown: more is not read at the bench."""

OPEN = (Enough.FOR_NOW, Enough.NOT_KNOWN)

WANTING = (NeedState.NOT_KNOWN, NeedState.NOT_HERE, NeedState.SOME_HERE, NeedState.COMING,
           NeedState.WRONG)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Candidate:
    """Something on the shelf held against what is wanted.

    Parameters
    ----------
    holding, title, size, where : str
        What it is and where it lies.
    quantity : int
        How many lie there.
    word : str
        ``fits``, ``will not do`` or ``not known``.
    says : str
        Why, in a sentence.
    near_misses : tuple of str
        What would be found out too late.
    lines : tuple of FitLine
        Field by field.
    stand_in : StandInView or None
        Whether it may stand in, where it does not fit.
    set_aside_for : str
        The need that it lies there for, if another.
    doubt : str
        What is said against trusting its sizes.
    """

    holding: str
    title: str
    size: str
    where: str
    quantity: int
    word: str
    says: str
    near_misses: tuple[str, ...] = ()
    lines: tuple[FitLine, ...] = ()
    stand_in: StandInView | None = None
    set_aside_for: str = ""
    doubt: str = ""


@dataclass(frozen=True, slots=True)
class NeedFits:
    """One need against the whole shelf."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    need: str
    title: str
    size: str
    quantity: int
    missing: int
    relied_on: str
    questions: tuple[Question, ...]
    fit: tuple[Candidate, ...]
    may_stand_in: tuple[Candidate, ...]
    to_measure: tuple[Candidate, ...]
    near_misses: tuple[Candidate, ...]
    will_not_do: tuple[Candidate, ...] = ()
    by_words: bool = False


@dataclass(frozen=True, slots=True)
class ShelfMatch:
    """A need that is not met, and the holdings that fit or may."""

    need: str
    title: str
    job_title: str
    state: str
    missing: int
    fits: tuple[Candidate, ...]
    may_fit: int


@dataclass(frozen=True, slots=True)
class WantedBy:
    """A need that something on the shelf fits, or may fit once more of it is known."""

    need: str
    title: str
    job_title: str
    missing: int
    word: str


@dataclass(frozen=True, slots=True)
class ShelfMatches:
    """What lies on the shelf for what is not met, though nobody put it aside."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    needs: int
    holdings: int
    matches: tuple[ShelfMatch, ...]


def need_fits(build: Build, need_id: str, now: datetime, today: date) -> NeedFits:
    """Hold one need against everything on the shelf.

    Parameters
    ----------
    build : Build
        The build, which has the need.
    need_id : str
        What is wanted.
    now : datetime
        Aware.
    today : date
        The owner's day, for goods that grow old.
    """
    need = build.needs[need_id]
    candidates = [
        candidate(build, need, holding, today)
        for holding in build.holdings.values()
        if holding.quantity and not holding.away and _is_like(need, holding)
    ]
    candidates.sort(key=_nearness)

    def some(sort: str) -> tuple[Candidate, ...]:
        return tuple(one for one in candidates if _sort_of(one) == sort)[:MOST]

    standing = need_standings(build)[need_id]
    return NeedFits(
        *_head(build, now),
        need=need_id,
        title=need.title,
        size=spec_words(need.spec),
        quantity=need.quantity,
        missing=max(0, need.quantity - standing.here),
        relied_on=_relied_on(need),
        questions=before_ordering(need),
        fit=some("fit"),
        may_stand_in=some("may stand in"),
        to_measure=some("to measure"),
        near_misses=some("near miss"),
        will_not_do=some("will not do"),
        by_words=isinstance(need.spec, PlainSpec),
    )


def _sort_of(one: Candidate) -> str:
    """Say among which it is shown; another kind that will not do, nowhere."""
    if one.word == FitWord.FITS:
        return "fit"
    if one.stand_in and one.stand_in.word in (StandInWord.TEMP, StandInWord.FITS):
        return "may stand in"
    asks = one.stand_in is not None and one.stand_in.word == StandInWord.NOT_KNOWN
    if one.word == FitWord.NOT_KNOWN or (asks and not one.near_misses):
        return "to measure"
    if _looks_right(one):
        return "near miss"
    return "" if one.lines and one.lines[0].field == "kind" else "will not do"


def candidate(build: Build, need: Need, holding: Holding, today: date) -> Candidate:
    """Hold one thing on the shelf against one need, with everything behind the verdict."""
    fit = check_fit(need.spec, holding.spec, today=today)
    judged = fit.word is not FitWord.FITS and not isinstance(need.spec, PlainSpec)
    stand_in = stand_in_view(build, need, holding.spec, today=today) if judged else None
    other = build.needs.get(holding.need or "")
    return Candidate(
        holding.id,
        holding.title,
        spec_words(holding.spec),
        holding.where,
        holding.quantity,
        fit.word.value,
        fit.says,
        tuple(f"{one.label}: {one.words}" for one in fit.near_misses),
        fit.lines,
        stand_in,
        other.title if other and other.id != need.id else "",
        _doubt(holding, fit),
    )


def _looks_right(one: Candidate) -> bool:
    """Whether it is wrong only in what is found out too late."""
    differing = [line for line in one.lines if line.state == "differs"]
    return bool(differing) and all(line.near_miss for line in differing)


def _doubt(holding: Holding, fit: Fit) -> str:
    if holding.trust is Trust.ASSUMED and fit.word is FitWord.FITS:
        return "its sizes are assumed: measure it before you rely on it"
    return ""


def _is_like(need: Need, holding: Holding) -> bool:
    """Whether a comparison says anything: of one kind, two fixings, or words of one name."""
    mine, its = need.spec, holding.spec
    if isinstance(mine, BoltSpec | PinSpec) and isinstance(its, BoltSpec | PinSpec):
        # A bolt for a pin is worth a look once anybody knows how thick it is.
        return mine.kind == its.kind or _thickness(its) is not None
    if mine.kind == its.kind and not isinstance(mine, PlainSpec):
        return True
    if holding.need == need.id:
        return True
    words = {word for word in need.title.casefold().split() if len(word) > 3}
    others = set(holding.title.casefold().split())
    return bool(words) and len(words & others) * 2 >= len(words)


def _thickness(spec: BoltSpec | PinSpec) -> float | None:
    fixing = fixing_of(spec)
    return fixing.diameter_m if fixing else None


def _nearness(one: Candidate) -> tuple[bool, bool, int, int]:
    known = sum(1 for each in one.lines if each.state == "agrees")
    minds = 0
    if one.stand_in is not None:
        minds = sum(1 for each in one.stand_in.lines if each.state in OPEN)
    return bool(one.set_aside_for), one.quantity < 1, minds, -known


def _relied_on(need: Need) -> str:
    duty = relied_on(need.spec, need.duty)
    return duty.load_path.value if duty and duty.load_path else ""


def _still_wanted(build: Build, standings: Mapping[str, NeedStanding]) -> list[Need]:
    """List what open jobs want and do not have."""
    return [
        need
        for key, need in build.needs.items()
        if standings[key].state in WANTING
        and need.job in build.jobs
        and build.jobs[need.job].state.is_open
    ]


def shelf_matches(build: Build, now: datetime, today: date) -> ShelfMatches:
    """Find what lies on the shelf, free, and fits what some job still wants.

    Parameters
    ----------
    build : Build
        The build.
    now : datetime
        Aware.
    today : date
        The owner's day, for goods that grow old.
    """
    standings = need_standings(build)
    needs = _still_wanted(build, standings)
    free = [
        holding
        for holding in build.holdings.values()
        if holding.quantity and not holding.away and _is_free(build, holding)
    ]
    found = match_all([n.spec for n in needs], [h.spec for h in free], today=today)
    matches = []
    for at, need in enumerate(needs):
        if not found.fits[at] and not found.may_fit[at]:
            continue
        shown = [candidate(build, need, free[h], today) for h in found.fits[at][:3]]
        matches.append(
            ShelfMatch(
                need.id,
                need.title,
                build.jobs[need.job].job.title,
                standings[need.id].state.value,
                need.quantity - standings[need.id].here,
                tuple(shown),
                len(found.may_fit[at]),
            )
        )
    matches.sort(key=lambda one: (not one.fits, one.title))
    return ShelfMatches(*_head(build, now), len(needs), len(free), tuple(matches))


def wanted_by(build: Build, holding: Holding, today: date) -> tuple[WantedBy, ...]:
    """Say which open jobs still want what lies here: what fits first, then what may.

    Parameters
    ----------
    build : Build
        The build.
    holding : Holding
        What lies here.
    today : date
        The owner's day, for goods that grow old.
    """
    standings = need_standings(build)
    needs = [need for need in _still_wanted(build, standings) if need.id != holding.need]
    found = match_all([need.spec for need in needs], [holding.spec], today=today)
    words = {1: FitWord.FITS.value, 0: FitWord.NOT_KNOWN.value}
    wanted = [
        WantedBy(
            need.id,
            need.title,
            build.jobs[need.job].job.title,
            need.quantity - standings[need.id].here,
            words[len(fits)],
        )
        for need, fits, may in zip(needs, found.fits, found.may_fit, strict=True)
        if fits or may
    ]
    wanted.sort(key=lambda one: (one.word != FitWord.FITS, one.title))
    return tuple(wanted[:MOST])


def _is_free(build: Build, holding: Holding) -> bool:
    need = build.needs.get(holding.need or "")
    if need is None:
        return True
    job = build.jobs.get(need.job)
    return job is None or not job.state.is_open


def _head(build: Build, now: datetime) -> tuple[datetime, int, str, bool]:
    car = build.car
    return now, build.seq, car.name if car else "", bool(car and car.invented)
