"""What would move the date, laid out: rows on one scale, each with its mark and its page."""

from __future__ import annotations

from dataclasses import dataclass

from bareshell.draw.spans import Span, whole_scale
from bareshell.web.links import path_of, trial_path
from bareshell.whole.forecast_parts import BindLine, LeverLine, LeversOverview


@dataclass(frozen=True, slots=True)
class LeverRow:
    """A lever as a row: what it is, what it does, and the mark to its scale."""

    title: str
    path: str
    days: str
    give_or_take: str
    word: str
    span: Span
    before_days: float
    after_days: float
    trial: str = ""


@dataclass(frozen=True, slots=True)
class BindRow:
    """What holds the date up, as a row."""

    title: str
    path: str
    days: str
    share: float


@dataclass(frozen=True, slots=True)
class LeversView:
    """What the page draws."""

    rows: tuple[LeverRow, ...]
    scale_days: float
    causes: tuple[BindRow, ...]
    parts: tuple[BindRow, ...]
    jobs: tuple[BindRow, ...]
    samples: int


def levers_view(found: LeversOverview) -> LeversView:
    """Lay out what would move the date.

    Parameters
    ----------
    found : LeversOverview
        What was measured.
    """
    rows = tuple(_row(one) for one in found.levers)
    causes, parts, jobs = (
        tuple(_bind(one) for one in found.binds if one.kind == kind)
        for kind in ("cause", "part", "job")
    )
    scale = whole_scale(tuple(row.span for row in rows))
    return LeversView(rows, scale, causes, parts, jobs, found.lever_samples)


def _row(one: LeverLine) -> LeverRow:
    reach = 2 * one.standard_error_days
    span = Span(one.gain_days - reach, one.gain_days, one.gain_days + reach)
    clear = one.word != "no clear effect"
    kind = "need" if one.kind == "part" else "job"
    return LeverRow(
        one.title[:1].upper() + one.title[1:],
        path_of(kind, one.about) if one.about else "",
        _days(abs(one.gain_days)) if clear else "",
        _days(reach) if clear else "",
        one.word,
        span,
        one.before_days,
        one.after_days,
        trial_path([one.trial]) if one.trial else "",
    )


def _bind(one: BindLine) -> BindRow:
    kinds = {"part": "need", "job": "job"}
    path = path_of(kinds[one.kind], one.about) if one.kind in kinds and one.about else ""
    return BindRow(one.title, path, _days(one.days) if one.days >= 0.05 else "", one.share)


def _days(value: float) -> str:
    return f"{value:.1f}" if value < 10 else f"{value:.0f}"
