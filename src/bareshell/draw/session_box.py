"""One session as a box: jobs inside in the hatch of their system, the car's stance beneath."""

from __future__ import annotations

from typing import Final

from bareshell.draw.measure import shortened, text_width
from bareshell.draw.road import SessionBox
from bareshell.draw.supports import ribbon_fill
from bareshell.draw.svg import Svg, decoration, joined, path, rect, text
from bareshell.draw.systems import fill_of

_LANE: Final = 300.0


def session_lane(session: SessionBox, full_hours: float) -> Svg:
    """One session as a lane for a narrow page: the box, and how the car stands beneath.

    Parameters
    ----------
    session : SessionBox
        The session.
    full_hours : float
        The hours that fill the lane; give the same for all lanes of a page. [h]
    """
    scale = (_LANE - 8) / max(full_hours, session.hours)
    return decoration(
        _LANE,
        52,
        box(session, 4, 5, 34, scale, dashed=False, named=False),
        outline(session, 4, 5, 34, scale, out=3),
        ribbon(session, 4, 43, scale),
        class_="lane-drawing",
    )


def box(
    session: SessionBox,
    x: float,
    y: float,
    height: float,
    scale: float,
    *,
    dashed: bool,
    named: bool,
) -> Svg:
    """The box of a session with its jobs inside, each as wide as its hours."""
    width = session.hours * scale
    pieces = [rect(x, y, width, height, "f-sheet")]
    at = x
    for job in session.jobs:
        wide = min(job.hours * scale, x + width - at)
        if wide <= 0:
            break
        pieces.append(
            rect(at, y, wide, height, "pale" if dashed else None, fill=fill_of(job.system))
        )
        if at > x:
            pieces.append(path(f"M{at:.1f} {y:g}V{y + height:g}", "l"))
        if named:
            pieces.append(_job_name(job.name, at, y, wide, height))
        at += wide
    if session.jobs and at < x + width - 0.5:
        pieces.append(path(f"M{at:.1f} {y:g}V{y + height:g}", "l"))
    pieces.append(rect(x, y, width, height, "l l-dash" if dashed else "l"))
    return joined(*pieces)


def outline(
    session: SessionBox, x: float, y: float, height: float, scale: float, *, out: float
) -> Svg:
    """A second outline means two people."""
    if session.people < 2:
        return Svg()
    width = session.hours * scale
    return rect(x - out, y - out, width + 2 * out, height + 2 * out, "l")


def ribbon(session: SessionBox, x: float, y: float, scale: float) -> Svg:
    """How the car stands, as far as is known."""
    pieces = []
    at, end = x, x + session.hours * scale
    for part in session.stances:
        wide = min(part.hours * scale, end - at)
        if wide > 0:
            pieces.append(_ribbon_piece(at, y, wide, part.support))
        at += wide
    return joined(*pieces)


def _job_name(name: str, x: float, y: float, width: float, height: float) -> Svg:
    """The name of a job on a clear patch, when there is room for enough of it."""
    words = shortened(name, width - 12)
    if not words:
        return Svg()
    patch = min(text_width(words) + 8, width - 3)
    middle = x + width / 2
    return joined(
        rect(middle - patch / 2, y + height / 2 - 10, patch, 20, "f-sheet"),
        text(middle, y + height / 2 + 5, words, None, "middle"),
    )


def _ribbon_piece(x: float, y: float, width: float, support: str) -> Svg:
    """A stretch of ribbon; its own little drawing, so that the pattern starts with it."""
    return Svg(
        f'<svg x="{x:.1f}" y="{y:g}" width="{width:.1f}" height="8">'
        f'<rect width="100%" height="8" fill="{ribbon_fill(support)}"/></svg>'
    )
