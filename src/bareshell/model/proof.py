"""Proofs: evidence that something is right, and how each one stands."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime
from enum import StrEnum


class ProofKind(StrEnum):
    """How a thing is proved."""

    MEASURED = "measured figure against a limit"
    HELD_PRESSURE = "held pressure over time"
    TORQUE = "torque and mark"
    SEEN = "seen and photographed"
    TWO_PERSON = "two-person audit"
    ROAD = "road"


class AboutKind(StrEnum):
    """What kind of thing a proof is about."""

    JOINT = "joint"
    FIXING = "fixing"
    CIRCUIT = "circuit"
    WIRE = "wire"
    SEAM = "seam"
    ASSEMBLY = "assembly"
    PAPER = "paper"


class ProofState(StrEnum):
    """How a proof stands. Only HELD and SUBSTITUTED count at a gate."""

    OWED = "owed"
    BEGUN = "begun"
    HELD = "held"
    FAILED = "failed"
    SPENT = "spent"
    COVERED = "covered, unproven"
    SUBSTITUTED = "substitute proof"

    @property
    def is_good(self) -> bool:
        """Whether what covers the thing may go on."""
        return self in (ProofState.HELD, ProofState.SUBSTITUTED)


@dataclass(frozen=True, slots=True)
class Limit:
    """The bounds a measured figure is held against, in the unit it is written in."""

    quantity: str
    unit: str
    low: float | None = None
    high: float | None = None
    mark: str = ""

    def admits(self, figure: float) -> bool:
        """Whether a figure in ``unit`` lies within the bounds."""
        above = self.low is None or figure >= self.low
        return above and (self.high is None or figure <= self.high)


@dataclass(frozen=True, slots=True)
class Reading:
    """A figure that was read while proving, with its unit and what it was read on."""

    quantity: str
    value: float
    unit: str
    instrument: str = ""


@dataclass(frozen=True, slots=True)
class Proof:
    """What must be shown, about what, by which job, and which jobs would hide it.

    Parameters
    ----------
    id, title : str
        Short name, and the sentence that says what must be seen or measured.
    kind : ProofKind
        How it is proved.
    about_kind, about : AboutKind, str
        What it is about: a joint, a circuit, a wire.
    made_by : tuple of str
        Jobs that make the thing; taking one off again spends the proof.
    proven_by : str or None
        The job in which it is proved; None when it is proved in the job that makes it.
    covered_by : tuple of str
        Jobs that would hide it.
    gates : tuple of str
        Gates that ask for it.
    limits : tuple of Limit
        What the figures must meet.
    hold_hours : float or None
        How long a hold must last. [h]
    valid_days : int or None
        How long it stays good; None for as long as nothing disturbs it.
    mark : str
        Where its limits come from.
    spent_by : tuple of str
        Jobs whose work spends it: bleeding lets into a circuit what a test had found gone.
    fixings : tuple of str
        Needs whose bolts it vouches for; none named: every bolt of the jobs that make it.
    nipped_until : str or None
        The job that gives the final torque, where this one rightly only nips (a rubber-bushed
        pivot waits for ride height); None where it is tightened at once.
    """

    id: str
    title: str
    kind: ProofKind = ProofKind.SEEN
    about_kind: AboutKind = AboutKind.ASSEMBLY
    about: str = ""
    made_by: tuple[str, ...] = ()
    proven_by: str | None = None
    covered_by: tuple[str, ...] = ()
    gates: tuple[str, ...] = ()
    limits: tuple[Limit, ...] = ()
    hold_hours: float | None = None
    valid_days: int | None = None
    mark: str = ""
    spent_by: tuple[str, ...] = ()
    fixings: tuple[str, ...] = ()
    nipped_until: str | None = None

    @property
    def called(self) -> str:
        """What it is about before what must be shown: many joints are proved in the same words."""
        return f"{self.about}: {self.title}" if self.about else self.title

    def __post_init__(self) -> None:
        """A proof cannot lie beneath the job that makes or proves it."""
        if not self.id:
            raise ValueError("a proof needs an id")
        own = {*self.made_by, self.proven_by}
        for job in self.covered_by:
            if job in own:
                raise ValueError(
                    f"proof {self.id} would be covered by {job}, the very job that makes or "
                    "proves it; name the later job that hides it"
                )


class ProofEventKind(StrEnum):
    """What happened to a proof, or to what lies over it."""

    BEGUN = "begun"
    HELD = "held"
    FAILED = "failed"
    SPENT = "spent"
    COVERED = "covered"
    UNCOVERED = "uncovered"
    SUBSTITUTED = "substitute proof"


@dataclass(frozen=True, slots=True)
class ProofEvent:
    """One thing that happened to a proof; sorts by when it happened."""

    at: datetime
    seq: int
    kind: ProofEventKind
    by: str = ""
    readings: tuple[Reading, ...] = ()
    words: str = ""

    def __lt__(self, other: ProofEvent) -> bool:
        """Earlier in time; at the same moment, earlier in the journal."""
        return (self.at, self.seq) < (other.at, other.seq)


@dataclass(frozen=True, slots=True)
class ProofRecord:
    """A proof with everything that happened to it by itself (covers come from jobs)."""

    proof: Proof
    events: tuple[ProofEvent, ...] = ()

    def with_event(self, event: ProofEvent) -> ProofRecord:
        """Return the record with one more event, put where it happened in time."""
        return replace(self, events=tuple(sorted((*self.events, event))))


@dataclass(frozen=True, slots=True)
class ProofStanding:
    """How a proof stands, since when, and whether it lies hidden."""

    state: ProofState
    since: datetime | None = None
    hidden: bool = False
    words: str = ""
    readings: tuple[Reading, ...] = ()


def proof_standing(events: tuple[ProofEvent, ...]) -> ProofStanding:
    """Work out how a proof stands from all its events, sorted by when they happened.

    A hold written down for a moment at which the thing lay hidden proves nothing: a joint
    that cannot be seen cannot be seen to be dry. It stays *covered, unproven* until it is
    uncovered or given a named substitute proof.

    Examples
    --------
    >>> from datetime import datetime, UTC
    >>> t = datetime(2026, 1, 1, tzinfo=UTC)
    >>> covered = ProofEvent(t, 1, ProofEventKind.COVERED)
    >>> held = ProofEvent(t, 2, ProofEventKind.HELD)
    >>> proof_standing((covered, held)).state.value
    'covered, unproven'
    """
    standing = ProofStanding(ProofState.OWED)
    for event in events:
        standing = _after_event(standing, event)
    return standing


def _after_event(old: ProofStanding, event: ProofEvent) -> ProofStanding:
    match event.kind:
        case ProofEventKind.COVERED:
            state = old.state if old.state.is_good else ProofState.COVERED
            since = old.since if old.state.is_good else event.at
            return replace(old, hidden=True, state=state, since=since)
        case ProofEventKind.UNCOVERED:
            buried = old.state in (ProofState.COVERED, ProofState.SUBSTITUTED)
            state = ProofState.OWED if buried else old.state
            return replace(old, hidden=False, state=state, since=event.at)
        case ProofEventKind.SUBSTITUTED:
            if old.hidden and old.state is ProofState.COVERED:
                return ProofStanding(
                    ProofState.SUBSTITUTED, event.at, True, event.words, event.readings
                )
            return old
        case ProofEventKind.SPENT:
            if old.hidden:
                return replace(old, state=ProofState.COVERED, since=event.at, words=event.words)
            if old.state in (ProofState.HELD, ProofState.BEGUN):
                return ProofStanding(ProofState.SPENT, event.at, False, event.words)
            return old
        case ProofEventKind.FAILED:
            return ProofStanding(
                ProofState.FAILED, event.at, old.hidden, event.words, event.readings
            )
        case _:
            return _after_proving(old, event)


def _after_proving(old: ProofStanding, event: ProofEvent) -> ProofStanding:
    if old.hidden:
        if old.state.is_good:
            return old
        return replace(old, state=ProofState.COVERED, since=event.at)
    state = ProofState.HELD if event.kind is ProofEventKind.HELD else ProofState.BEGUN
    return ProofStanding(state, event.at, False, event.words, event.readings)
