"""What a forecast is told by, as plain frozen data: paces, scores, levers, their grounds."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

MEASURED, ASSUMED, RECKONED = "measured", "assumed", "reckoned"
"""How a number is trusted: from the record, said beforehand, or worked out from others."""


@dataclass(frozen=True, slots=True)
class Grounds:
    """A number with what it rests on, opened as deep as anybody wants to look.

    Parameters
    ----------
    name : str
        What it is.
    value : float or str or date or None
        The number, a word or a day; None when it is not known.
    unit : str
        Its unit; empty for none.
    rests_on : str
        Where it comes from, in words.
    trust : str
        ``measured`` (from the record), ``assumed`` (said beforehand, nothing measured yet) or
        ``reckoned`` (worked out from what is beneath).
    beneath : tuple of Grounds
        What it was worked out from.
    key : str
        What an address calls it, where a page points at it; empty for the others.
    """

    name: str
    value: float | str | date | None
    unit: str
    rests_on: str
    trust: str
    beneath: tuple[Grounds, ...] = ()
    key: str = ""


@dataclass(frozen=True, slots=True)
class PaceLine:
    """How the owner's hours run against the estimates, in one system or in all (empty)."""

    system: str
    factor: float
    low: float
    high: float
    jobs: int
    words: str


@dataclass(frozen=True, slots=True)
class IssuedLine:
    """A forecast that was kept, and what came of the two weeks planned with it.

    Parameters
    ----------
    day : date
        When it was said.
    p50, p80, p95 : date
        What it said: the Mondays of the weeks by which half, eight in ten and 19 in 20 futures
        are on the road.
    hours_left : float
        Likely work that was left. [h]
    planned, done : int
        Jobs planned for the two weeks after it, and how many of them were done in these.
    over : bool
        Whether these two weeks are over.
    """

    day: date
    p50: date
    p80: date
    p95: date
    hours_left: float
    planned: int
    done: int
    over: bool


@dataclass(frozen=True, slots=True)
class ScoreLine:
    """How a kind of forecast has done against what came.

    Parameters
    ----------
    what, unit : str
        What was foretold, and the unit of its scores.
    cases : int
        How many were held against what came.
    under_p80, expected, give_or_take : float
        How many kept under what was said for eight in ten, how many were to, and two standard
        deviations of that count.
    word : str
        ``as often as said``, ``too hopeful``, ``too cautious`` or ``too few to tell``.
    pinball_p50, pinball_p80, pinball_p95 : float
        Mean pinball losses. [unit]
    crps, plain_crps : float
        Mean continuous ranked probability score, and what it would be had nothing been learned;
        None where there is nothing to compare with. [unit]
    words : str
        The same in a sentence.
    """

    what: str
    unit: str
    cases: int
    under_p80: int
    expected: float
    give_or_take: float
    word: str
    pinball_p50: float
    pinball_p80: float
    pinball_p95: float
    crps: float
    plain_crps: float | None
    words: str


@dataclass(frozen=True, slots=True)
class LeverLine:
    """One thing that could be different, and what it does to the date.

    Parameters
    ----------
    kind : str
        What it is about: part, helper, session, warmth, lent, left out, habit.
    about : str
        The key of the part or job; empty for none.
    title : str
        What would be different.
    gain_days, standard_error_days : float
        How much sooner the road is reached on average, and how far that may be off. [days]
    p80_gain_days : float
        How much sooner in eight of ten futures; rougher. [days]
    word : str
        ``nearer``, ``farther`` or ``no clear effect``.
    words : str
        The same in a sentence.
    before_days, after_days : float
        How far off the road is on average without it and with it: the gain is their difference,
        future by future. [days]
    trial : str
        The same as a change to try on a copy; empty for what no change brings about.
    """

    kind: str
    about: str
    title: str
    gain_days: float
    standard_error_days: float
    p80_gain_days: float
    word: str
    words: str
    before_days: float = 0.0
    after_days: float = 0.0
    trial: str = ""


@dataclass(frozen=True, slots=True)
class BindLine:
    """Something that held the date up: in what share of futures, and for how long on average."""

    kind: str
    about: str
    title: str
    share: float
    days: float


@dataclass(frozen=True, slots=True)
class IndexLine:
    """The published indices of one job.

    ``cruciality`` is taken after the owner's paces and says nothing unless ``clear``.
    """

    job: str
    title: str
    criticality: float
    cruciality: float
    clear: bool
    significance: float
    sensitivity: float


@dataclass(frozen=True, slots=True)
class HelperDayLine:
    """A day for which to ask the helper, for how long, and for what."""

    starts_at: datetime
    hours: float
    jobs: tuple[str, ...]
    titles: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class HelperAsk:
    """For which days to ask the helper: the fewest that cost nothing clear.

    Parameters
    ----------
    ask : tuple of HelperDayLine
        These.
    spared : tuple of date
        Other days on which the helper would come and need not.
    hours_left : float
        Two-person work left in all. [h]
    until : date
        How far ahead was looked.
    words : str
        The same in a sentence or two.
    """

    ask: tuple[HelperDayLine, ...]
    spared: tuple[date, ...]
    hours_left: float
    until: date
    words: str


@dataclass(frozen=True, slots=True)
class LeversOverview:
    """What would move the date, what holds it up, and the published indices of the jobs.

    Parameters
    ----------
    levers : tuple of LeverLine
        The one that gains most first.
    binds : tuple of BindLine
        What was on the chain that bound the date: causes, then parts, then jobs.
    mean_days, work_days : float
        How far off the road is on average, and how much of that is work and the ordinary days
        between sessions rather than any of the causes. [days]
    indices : tuple of IndexLine
        The jobs most often on that chain.
    index_words : tuple of (str, str)
        Each index with its published definition and source.
    lever_samples, samples : int
        On how many futures the levers and the rest were measured.
    helper : HelperAsk or None
        For which days to ask the helper; None when no work is left for two.
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    levers: tuple[LeverLine, ...] = ()
    binds: tuple[BindLine, ...] = ()
    mean_days: float = 0.0
    work_days: float = 0.0
    indices: tuple[IndexLine, ...] = ()
    index_words: tuple[tuple[str, str], ...] = ()
    lever_samples: int = 0
    samples: int = 0
    engine: str = ""
    seed: int = 0
    helper: HelperAsk | None = None


@dataclass(frozen=True, slots=True)
class GroundsOverview:
    """Every number of the forecast with what it rests on."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    grounds: tuple[Grounds, ...] = ()
    assumptions: tuple[str, ...] = ()
