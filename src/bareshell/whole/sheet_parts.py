"""What a session's sheet is made of, as plain frozen data: pages, JSON and paper show these."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from bareshell.model.job import Caution
from bareshell.model.session import HelperWork


@dataclass(frozen=True, slots=True)
class SessionAsked:
    """What a person sets about a session; None leaves it as the record has it.

    Parameters
    ----------
    minutes, people : int or None
        How long, and how many hands. [min]
    support : str or None
        The id of the support on which the car stands.
    temperature_c : float or None
        In the garage. [degC]
    starts_at : datetime or None
        Another start than the next one, with its zone.
    mood : frozenset of str
        Of ``MOODS``: what is not wanted this evening.
    helper : HelperWork or None
        What whoever helps may do alone, where it is not as the garage has it.
    exactly : bool
        Whether a solver packs the session as full as it can be.
    """

    minutes: int | None = None
    people: int | None = None
    support: str | None = None
    temperature_c: float | None = None
    starts_at: datetime | None = None
    mood: frozenset[str] = frozenset()
    helper: HelperWork | None = None
    exactly: bool = False


MOODS = ("nothing dirty", "nothing dangerous alone")
"""What a person may not want of an evening."""


@dataclass(frozen=True, slots=True)
class SessionFacts:
    """The session as it is taken to be; what was assumed is said, not hidden.

    ``number`` counts the sessions of the record; ``overridden`` names what the person set;
    ``helper`` says what whoever helps may do alone, empty when nobody does.
    """

    number: int
    starts_at: datetime
    ends_at: datetime
    minutes: int
    people: int
    support: str
    support_title: str
    temperature_c: float | None
    kind: str = ""
    overridden: tuple[str, ...] = ()
    helper: str = ""


@dataclass(frozen=True, slots=True)
class Fetch:
    """Something to have on the bench first; ``state`` is a word of the parts desk or "tool"."""

    title: str
    quantity: int
    state: str
    where: str = ""
    bag: str = ""
    need: str = ""
    job: str = ""


@dataclass(frozen=True, slots=True)
class ProofLine:
    """A proof as a ticket shows it."""

    id: str
    title: str
    state: str
    limit: str = ""
    hold_hours: float | None = None


@dataclass(frozen=True, slots=True)
class SupportLine:
    """Moving the car in this session."""

    starts_at: datetime
    ends_at: datetime
    minutes: int
    from_title: str
    to_title: str
    to_support: str
    cautions: tuple[Caution, ...] = ()


@dataclass(frozen=True, slots=True)
class Ticket:
    """One job of the session: when, what to fetch, what to tighten, what hurts, what to prove.

    Parameters
    ----------
    id, title, system : str
        The job.
    starts_at, ends_at, minutes : datetime, datetime, int
        Its place in the session. [min]
    finishes : bool
        Whether it is expected to be done at the end, or only a piece of it.
    people, kit : int, str
        The way that was chosen.
    by_helper : bool
        Whether the helper does it alone, while the owner is at something else.
    fetch, tools, tightens, cautions : tuple
        In the order of use.
    proves, hides : tuple of ProofLine
        Proofs it owes; things it would hide that stand *covered, unproven*.
    raises, clears : tuple of str
        Temps by title.
    lessons : tuple of str
        What was learned in it or on the other side.
    zones, place, easier : tuple, str, str
        Where on the car, and what would make it easier.
    then_wait : str
        What must pass after it.
    note, mark : str
        Free words, and where its hours come from.
    """

    id: str
    title: str
    system: str
    starts_at: datetime
    ends_at: datetime
    minutes: int
    finishes: bool
    people: int
    kit: str = ""
    hours_done: float = 0.0
    fetch: tuple[Fetch, ...] = ()
    tools: tuple[str, ...] = ()
    tightens: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    proves: tuple[ProofLine, ...] = ()
    hides: tuple[ProofLine, ...] = ()
    raises: tuple[str, ...] = ()
    clears: tuple[str, ...] = ()
    lessons: tuple[str, ...] = ()
    zones: tuple[str, ...] = ()
    place: str = ""
    easier: str = ""
    then_wait: str = ""
    note: str = ""
    mark: str = ""
    version: int | None = None
    by_helper: bool = False


@dataclass(frozen=True, slots=True)
class FirstMove:
    """A job the session could begin with, and what beginning there costs the road date.

    ``samples`` is on how many futures it was compared, and ``planned`` when the plan comes to it
    where it is not what the session begins with; None when the plan does not say.
    """

    id: str
    title: str
    system: str
    days: float
    standard_error_days: float
    as_good: bool
    words: str
    samples: int = 0
    planned: datetime | None = None

    @property
    def no_odds(self) -> bool:
        """Whether every future came out to the same day, so that there is nothing to draw."""
        return self.as_good and abs(self.days) < 0.005 and self.standard_error_days < 0.005


@dataclass(frozen=True, slots=True)
class WhyNotLink:
    """One link from the wish to the root."""

    sentence: str
    rule: str = ""
    frees: str = ""
    frees_at: datetime | None = None
    job: str = ""


@dataclass(frozen=True, slots=True)
class WhyNot:
    """Why a job is not tonight: the rule, what frees it, and the chain down to the root.

    ``also`` names other jobs that hang on the same root.
    """

    job: str
    title: str
    rule: str
    frees: str
    frees_at: datetime | None = None
    links: tuple[WhyNotLink, ...] = ()
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LeaveLine:
    """One thing to see to before the light goes out; ``lead`` is said first."""

    lead: str
    sentence: str = ""


@dataclass(frozen=True, slots=True)
class Packed:
    """What came of packing the session exactly.

    ``status`` is ``proven`` (nothing fills it better), ``best found``, ``nothing fits``, or
    ``not to be had`` when the solver is not installed: the list is then the plan's own.
    """

    status: str
    worked_minutes: int
    words: str


@dataclass(frozen=True, slots=True)
class TonightSheet:
    """Tonight, complete: what the page shows, the JSON carries and the paper repeats.

    ``changed`` and ``because`` say what changed in the next two weeks since the plan was last
    given out, and why; empty when none is so recent, or when the session is not as expected.
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    session: SessionFacts
    jobs: tuple[Ticket, ...] = ()
    moves: tuple[SupportLine, ...] = ()
    begin_with: tuple[FirstMove, ...] = ()
    fetch: tuple[Fetch, ...] = ()
    cautions: tuple[Caution, ...] = ()
    leave: tuple[LeaveLine, ...] = ()
    why_not: tuple[WhyNot, ...] = ()
    stranded: tuple[str, ...] = ()
    assumptions: tuple[str, ...] = ()
    to_settle: int = 0
    spare_minutes: int = 0
    promise: str = ""
    engine: str = ""
    samples: int = 0
    packed: Packed | None = None
    changed: str = ""
    because: str = ""
