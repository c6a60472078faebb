"""How far the brakes' answers can be trusted: shares of combinations, and what to measure first."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Final

from bareshell.brakes.across import Outcome, Span, outcomes, spans
from bareshell.brakes.against import FOOT_N, held_against
from bareshell.brakes.failures import DRY_ROAD
from bareshell.brakes.figures import Gathered, gather
from bareshell.brakes.heat_figures import gather_heat
from bareshell.brakes.prepared import Prepared
from bareshell.brakes.sensitivity import MEASURE, Settles
from bareshell.brakes.trust import (
    COUNT,
    Combinations,
    First,
    Trusted,
    TrustedOutcome,
    TrustedVerdict,
    draw,
    trusted,
)
from bareshell.brakes.unknowns import Unknown
from bareshell.brakes.verdict import Verdict
from bareshell.brakes.yardstick import Subject, Yardstick
from bareshell.brakes.yardsticks import CAUTIONS
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem, Line, Part
from bareshell.units.show import METRIC, Preference
from bareshell.units.show_quantity import show_quantity
from bareshell.whole.brake_check import NOT_PROVED, Head, check_road
from bareshell.whole.brake_others import others_of
from bareshell.whole.brake_parts import (
    MissingFigure,
    Settling,
    SystemName,
    TrustCount,
    VerdictView,
)
from bareshell.whole.brake_said import count_trust, missing_figures, quantity_at, things_of

FEWEST: Final = 200
MOST: Final = 50_000
SPANS_OF: Final = 2000
"""So many of the combinations tell how far a figure goes."""

NO_CHANCE: Final = (
    "a share counts combinations of the stated ranges; nobody knows how likely each of them is",
    "a range that was stated too narrow makes a share too sure",
    *NOT_PROVED,
)
"""What no share proves."""

MEASURING: Final = (
    "Measuring can hurt too: chock the wheels, put stands under what is lifted before anybody "
    "reaches beneath, and keep fingers out from between pads, shoes and pistons."
)
"""What stands beside advice to measure."""


@dataclass(frozen=True, slots=True)
class TrustAsked:
    """What was asked: how many combinations, drawn from which seed, on what road."""

    count: int = COUNT
    seed: int = 1
    friction_of_road: float = DRY_ROAD

    def __post_init__(self) -> None:
        """Refuse what cannot be drawn.

        Raises
        ------
        BadInput
            Naming what was asked and what may be.
        """
        if not FEWEST <= self.count <= MOST:
            raise BadInput(
                "number of combinations",
                f"{self.count} is too {'few' if self.count < FEWEST else 'many'}",
                f"ask for {FEWEST} to {MOST}; {COUNT} tell a hundredth apart",
            )
        if not 0 <= self.seed < 2**32:
            raise BadInput("seed", f"{self.seed} is none", "give a whole number such as 1")
        check_road(self.friction_of_road)


@dataclass(frozen=True, slots=True)
class InputAt:
    """What one input is in a combination."""

    path: str
    words: str
    value: float
    said: str


@dataclass(frozen=True, slots=True)
class TrustedAnswer:
    """One answer over all combinations.

    Parameters
    ----------
    kind : str
        ``yardstick``, or ``question`` for one of our own.
    state : str
        ``in all``, ``in none``, ``open`` or ``not worked out``.
    share : float or None
        Of the combinations, those in which it holds.
    worst : str
        The smallest margin in words.
    worst_inputs : tuple of InputAt
        Every input of that combination, those that matter most first.
    settles : tuple of Settling
        What to measure, the one that settles most first.
    """

    id: str
    kind: str
    title: str
    asks: str
    state: str
    share: float | None
    share_words: str
    worst: str
    worst_margin: float | None
    unit: str
    worst_inputs: tuple[InputAt, ...]
    settles: tuple[Settling, ...]
    because: str
    cite: str = ""
    mark: str = ""


@dataclass(frozen=True, slots=True)
class SpanView:
    """How far a figure goes: what 5, 50 and 95 of 100 combinations stay below. [SI]."""

    id: str
    words: str
    quantity: str
    low: float
    middle: float
    high: float
    said: str


@dataclass(frozen=True, slots=True)
class TrustView:
    """How far the answers can be trusted.

    Parameters
    ----------
    unknowns : int
        How many inputs have a range.
    answers : tuple of TrustedAnswer
        The yardsticks that were picked, then our own questions.
    measure_first : tuple of Settling
        What to measure first, over all answers that are open.
    inputs : tuple of Settling
        Every input that was drawn, with its range; the advice is how to measure it.
    because : str
        Why nothing could be drawn; empty when it could.
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    system: str
    title: str
    role: str
    systems: tuple[SystemName, ...]
    count: int
    seed: int
    friction_of_road: float
    pedal_force_n: float
    unknowns: int
    answers: tuple[TrustedAnswer, ...]
    measure_first: tuple[Settling, ...]
    spans: tuple[SpanView, ...]
    spans_of: int
    inputs: tuple[Settling, ...]
    yardsticks_chosen: bool
    trust: TrustCount
    missing: tuple[MissingFigure, ...]
    because: str
    measure: str = MEASURE
    drawn: str = "Latin hypercube (McKay and others, 1979), evenly over each range"
    cautions: tuple[str, ...] = (MEASURING, *CAUTIONS)
    not_proved: tuple[str, ...] = NO_CHANCE


def trust_view(
    system: BrakeSystem,
    head: Head,
    asked: TrustAsked = TrustAsked(),
    yardsticks: Iterable[Yardstick] | None = None,
) -> TrustView:
    """Work everything out for thousands of combinations of what is not known exactly.

    Parameters
    ----------
    system : BrakeSystem
        As described; it may be half finished.
    head : Head
        Whose they are.
    asked : TrustAsked
        How many combinations, the seed, the road.
    yardsticks : iterable of Yardstick or None
        Those that were picked; None when nobody picked any.

    Examples
    --------
    >>> from datetime import UTC
    >>> from bareshell.brakes.examples import small_car
    >>> made = Head(datetime(2026, 3, 4, tzinfo=UTC))
    >>> view = trust_view(small_car(), made, TrustAsked(count=400))
    >>> [(one.id, one.share_words) for one in view.answers][1]
    ('front-first-laden', 'in all combinations')
    """
    gathered = gather(system)
    picked = tuple(yardsticks or ())
    tell = _Tell(system, gathered, head.preference)
    combinations, found, gone, because = _worked_out(system, gathered, picked, asked)
    answers = () if found is None else tell.answers(combinations, found)
    return TrustView(
        made_at=head.made_at,
        seq=head.seq,
        car=head.car,
        invented=head.invented,
        system=system.id,
        title=system.title,
        role=system.role.value,
        systems=head.systems,
        count=asked.count,
        seed=asked.seed,
        friction_of_road=asked.friction_of_road,
        pedal_force_n=FOOT_N,
        unknowns=len(combinations.unknowns),
        answers=answers,
        measure_first=() if found is None else tuple(map(tell.first, found.measure_first)),
        spans=tuple(map(tell.span, gone)),
        spans_of=min(SPANS_OF, asked.count),
        inputs=tuple(map(tell.input, combinations.unknowns)),
        yardsticks_chosen=yardsticks is not None,
        trust=count_trust(system, gathered),
        missing=missing_figures(gathered),
        because=because,
    )


def _worked_out(
    system: BrakeSystem, gathered: Gathered, picked: tuple[Yardstick, ...], asked: TrustAsked
) -> tuple[Combinations, Trusted | None, tuple[Span, ...], str]:
    hot = gather_heat(system) if any(one.subject is Subject.HOT for one in picked) else None
    combinations = draw(system, gathered, hot=hot, count=asked.count, seed=asked.seed)
    road = asked.friction_of_road

    def hold(ready: Prepared) -> tuple[Verdict, ...]:
        return held_against(ready, picked, friction_of_road=road, others=others_of(system, ready))

    def ask(ready: Prepared) -> tuple[Outcome, ...]:
        return outcomes(ready, FOOT_N, friction_of_road=road)

    try:
        found = trusted(combinations, hold, ask)
        some = combinations.some(SPANS_OF)
        gone = spans(Prepared(system, some.figures), FOOT_N, friction_of_road=road)
    except BadInput as error:
        return combinations, None, (), " ".join(one.describe() for one in error.problems[:2])
    return combinations, found, gone, ""


def with_shares(verdicts: Iterable[VerdictView], view: TrustView) -> tuple[VerdictView, ...]:
    """Write beside each verdict its share of combinations, the worst, and what would settle it.

    Parameters
    ----------
    verdicts : iterable of VerdictView
        As they were worked out from the values alone.
    view : TrustView
        The same yardsticks over all combinations.
    """
    found = {one.id: one for one in view.answers if one.share is not None}
    return tuple(_with_share(one, found.get(one.id)) for one in verdicts)


def _with_share(verdict: VerdictView, found: TrustedAnswer | None) -> VerdictView:
    if found is None or verdict.margin is None:
        return verdict
    return replace(
        verdict,
        share=found.share,
        share_words=found.share_words,
        worst=found.worst,
        settles=settling_words(found.settles[0]) if found.settles else "",
    )


def settling_words(one: Settling) -> str:
    """Say which figure to measure, how, and what that would settle.

    Examples
    --------
    >>> settling_words(Settling("a.b", "ratio of the pedal", "measure it: it settles all", 1.0))
    'ratio of the pedal; measure it: it settles all'
    """
    return f"{one.words}; {one.advice}"


class _Tell:
    """Puts combinations into words, in one owner's units."""

    def __init__(self, system: BrakeSystem, gathered: Gathered, preference: Preference) -> None:
        self._things: dict[str, Part | Line] = things_of(system)
        self._usual = {one.path for one in gathered.assumed}
        self._preference = preference

    def answers(self, drawn: Combinations, found: Trusted) -> tuple[TrustedAnswer, ...]:
        """Every answer."""
        verdicts = (self._verdict(drawn, one) for one in found.verdicts)
        return (*verdicts, *(self._outcome(drawn, one) for one in found.outcomes))

    def _verdict(self, drawn: Combinations, found: TrustedVerdict) -> TrustedAnswer:
        one, verdict = found.verdict.yardstick, found.verdict
        worst = _margin_words(found.worst_margin, verdict.unit)
        return self._answer(
            drawn,
            found,
            TrustedAnswer(
                one.id,
                "yardstick",
                f"{one.family}, {one.subject}",
                one.words,
                _state(found.share),
                found.share,
                found.share_said,
                worst,
                found.worst_margin,
                verdict.unit,
                (),
                (),
                verdict.because,
                one.cite(),
                one.mark,
            ),
        )

    def _outcome(self, drawn: Combinations, found: TrustedOutcome) -> TrustedAnswer:
        one = found.outcome
        return self._answer(
            drawn,
            found,
            TrustedAnswer(
                one.id,
                "question",
                one.words,
                one.words,
                _state(found.share),
                found.share,
                found.share_said,
                _margin_words(found.worst_margin, one.unit),
                found.worst_margin,
                one.unit,
                (),
                (),
                one.because,
            ),
        )

    def _answer(
        self, drawn: Combinations, found: TrustedVerdict | TrustedOutcome, made: TrustedAnswer
    ) -> TrustedAnswer:
        return replace(
            made,
            worst_inputs=self._worst(drawn, found),
            settles=tuple(self._settling(one, one.share, one.advice) for one in found.settles),
        )

    def _worst(
        self, drawn: Combinations, found: TrustedVerdict | TrustedOutcome
    ) -> tuple[InputAt, ...]:
        if found.worst_number is None:
            return ()
        row = drawn.drawn[found.worst_number]
        order = {unknown.path: place for place, (unknown, _) in enumerate(found.worst)}
        pairs = zip(drawn.unknowns, row, strict=True)
        listed = sorted(pairs, key=lambda pair: order.get(pair[0].path, len(order)))
        return tuple(
            InputAt(one.path, one.words, float(value), self._figure(one.path, float(value)))
            for one, value in listed
        )

    def first(self, one: First) -> Settling:
        """An input to measure first."""
        return self._settling(one.settles, one.share, one.advice)

    def _settling(self, one: Settles, share: float, advice: str) -> Settling:
        return Settling(
            one.unknown.path, one.unknown.words, advice, share, self._range(one.unknown)
        )

    def input(self, one: Unknown) -> Settling:
        """An input with its range, and how to measure it."""
        return Settling(one.path, one.words, one.how, 0.0, self._range(one))

    def _range(self, one: Unknown) -> str:
        known = "taken as usual" if one.path in self._usual else one.trust.value
        low, high = (self._figure(one.path, each) for each in (one.low, one.high))
        return f"{known}, {low} to {high}"

    def _figure(self, path: str, value: float) -> str:
        return show_quantity(quantity_at(self._things, path), value, self._preference)

    def span(self, one: Span) -> SpanView:
        """How far a figure goes."""
        low, middle, high = (
            _span_words(each, one.quantity, self._preference)
            for each in (one.low, one.middle, one.high)
        )
        said = f"{low} to {high}, half of them below {middle}"
        return SpanView(one.id, one.words, one.quantity, one.low, one.middle, one.high, said)


def _state(share: float | None) -> str:
    if share is None:
        return "not worked out"
    return {0.0: "in none", 1.0: "in all"}.get(share, "open")


def _span_words(value: float, quantity: str, preference: Preference = METRIC) -> str:
    if quantity == "m/s2":
        return f"{value:.1f} m/s2"
    if quantity == "slope":
        return f"{100 * value:.0f} %"
    return show_quantity(quantity, round(value, 3), preference)


def _margin_words(margin: float | None, unit: str) -> str:
    """Say a margin: how much is to spare, or how much it is short.

    Examples
    --------
    >>> _margin_words(-0.0184, "m"), _margin_words(0.4, "m/s2"), _margin_words(None, "N")
    ('18 mm short', '0.4 m/s2 to spare', '')
    """
    if margin is None:
        return ""
    size = abs(margin)
    figures = {
        "m": f"{1000 * size:.0f} mm",
        "m/s2": f"{size:.1f} m/s2",
        "N": f"{size:.0f} N",
        "share": f"{100 * size:.0f} %",
        "slope": f"{100 * size:.0f} %",
        "m3": f"{1e6 * size:.0f} ml",
        "adhesion": f"{size:.2f} of adhesion",
    }
    said = figures.get(unit, f"{size:.2f} {unit}".rstrip())
    return f"{said} {'short' if margin < 0.0 else 'to spare'}"
