"""Pieces that pages share, as frozen data: what the macros of the look are filled with.

A page's context holds these, so its JSON twin says the same as its tickets and rows do.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from bareshell.whole.proofs_overview import ProofView


@dataclass(frozen=True, slots=True)
class Figure:
    """One of the large answers at the head of a page.

    Parameters
    ----------
    figure : str
        The figure or the day, as it is read.
    words : str
        One sentence that says what it is, with its range when it is uncertain.
    unit : str
        Beside the figure.
    opens : str
        The address that opens the figure down to what it rests on; empty where there is none.
    """

    figure: str
    words: str
    unit: str = ""
    opens: str = ""


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution: the harm first, then what keeps it away.

    Parameters
    ----------
    harm : str
        ``Eyes``, ``Crush``, ``Pressure``, ``Skin and paint``, ``Hands and lives``.
    words : str
        What to do.
    """

    harm: str
    words: str


@dataclass(frozen=True, slots=True)
class Torque:
    """What to tighten, and to what."""

    what: str
    torque: str


@dataclass(frozen=True, slots=True)
class State:
    """A state word with what belongs to it.

    Parameters
    ----------
    state : str
        The word; it has a mark.
    words : str
        What is in that state, or why.
    name : str
        A name in bold before the words.
    """

    state: str
    words: str = ""
    name: str = ""


@dataclass(frozen=True, slots=True)
class Ticket:
    """A bench ticket: always Fetch, Tighten, Mind, Prove, which is the order of use.

    Parameters
    ----------
    number : str
        Its number in the evening.
    name : str
        The job.
    system : str
        The system of the trade; decides the hatch of the edge.
    starts, ends : str
        Times of day.
    minutes : int
        How long it takes. [min]
    zones : tuple of str
        Where on the car.
    fetch : tuple of str
        What to have at hand before beginning.
    tighten : tuple of Torque
        What is tightened.
    mind : tuple of Caution
        The cautions, where the hands are.
    prove : tuple of State
        What proves it, or what temp it raises.
    field : str
        Name of the tick in the form, such as ``done-fit-axle-pipes``; empty shows no tick.
    ticked : bool
        Whether it is done.
    pencil : tuple of str
        What can be filled in on paper; ends in a size when not the usual: ``marks read|long``.
    """

    number: str
    name: str
    system: str
    starts: str
    ends: str
    minutes: int
    zones: tuple[str, ...] = ()
    fetch: tuple[str, ...] = ()
    tighten: tuple[Torque, ...] = ()
    mind: tuple[Caution, ...] = ()
    prove: tuple[State, ...] = ()
    field: str = ""
    ticked: bool = False
    pencil: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WhyNot:
    """Why a job cannot be done now: links from the wish to the root.

    Parameters
    ----------
    job : str
        The job asked about.
    links : tuple of str
        What each needs; the last but not least comes in `root`.
    root : str
        The rule or the thing at the bottom, and what frees it when.
    """

    job: str
    links: tuple[str, ...]
    root: str


FEWEST_ALIKE = 3
"""So many proofs of one title and state stand together; fewer stand each for itself."""


def alike(views: Iterable[ProofView]) -> list[list[ProofView]]:
    """Put proofs together that differ only in what they are about, such as a circuit's joints.

    Parameters
    ----------
    views : iterable of ProofView
        In the order in which they are to stand.

    Returns
    -------
    list of list of ProofView
        In the order of the first of each; most have one only.
    """
    groups: dict[tuple[str, str], list[ProofView]] = {}
    for view in views:
        groups.setdefault((view.title, view.state), []).append(view)
    found: list[list[ProofView]] = []
    for group in groups.values():
        found += [group] if len(group) >= FEWEST_ALIKE else [[view] for view in group]
    return found
