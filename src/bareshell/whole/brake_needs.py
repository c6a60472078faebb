"""What the brakes want of the parts desk: pipe, nuts, hoses, washers, clips, fluid, job by job.

What the starter network asks for in general (*pipe nuts for the bay*) is settled to what this car
takes; what nobody asked for yet is added. What its owner wrote himself stays as he wrote it. A
thing that nobody recorded is *not known*, never missing: look for it before you order. A job that
is done wants nothing more.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields, replace
from typing import Final, Literal

from bareshell.brakes.bleed_plan import bleed_plan
from bareshell.brakes.cut_list import CutList, Fastening, cut_list
from bareshell.brakes.fittings import FLARE_ON_SEAT
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.brake import BrakeSystem, Line, LineKind, PartKind
from bareshell.model.part import Need, NeededTo, NeedState
from bareshell.model.spec import BoltSpec, GoodsSpec, HoseSpec, PipeSpec, PlainSpec, Spec, UnionSpec
from bareshell.model.standing import need_standings
from bareshell.model.trust import COMMON_PRACTICE, YOURS
from bareshell.parts.matching import match_all
from bareshell.whole.brake_jobs import BrakeJobs

__all__ = ["BrakeNeeds", "WantedNeed", "brake_needs"]

MARK: Final = f"from the brakes' cut list; {COMMON_PRACTICE}"
"""The mark of a need that was worked out of the circuit."""

Comes = Literal["new", "settled", "as it stands", "kept as written"]


@dataclass(frozen=True, slots=True)
class WantedNeed:
    """One thing that the brakes want.

    Parameters
    ----------
    need : Need
        As it would stand on the parts desk.
    comes : {"new", "settled", "as it stands", "kept as written"}
        Whether it is new there, makes a general need definite, stands there so already, or
        differs from what the owner wrote, which is kept.
    state : str
        How it stands: *here*, *coming*, *not known* and so on.
    here, free : int
        How many are put aside for it, and how many more on the shelf fit it and are not.
    short : int
        How many are still to be found or ordered.
    words : str
        What to know about it.
    """

    need: Need
    comes: Comes
    state: str
    here: int
    free: int
    short: int
    words: str = ""


@dataclass(frozen=True, slots=True)
class BrakeNeeds:
    """Everything that the brakes want.

    Parameters
    ----------
    wanted : tuple of WantedNeed
        Job by job.
    without_job : tuple of str
        What is wanted by no job that the build has.
    """

    wanted: tuple[WantedNeed, ...]
    without_job: tuple[str, ...] = ()

    @property
    def changes(self) -> tuple[c.NeedSet, ...]:
        """Return what brings the parts desk up to the circuit."""
        return tuple(c.NeedSet(each.need) for each in self.wanted if each.comes in _WRITTEN)

    @property
    def short(self) -> tuple[WantedNeed, ...]:
        """Return what is still to be found or ordered."""
        return tuple(each for each in self.wanted if each.short)


_WRITTEN: Final = ("new", "settled")


@dataclass(frozen=True, slots=True)
class _Want:
    """One thing wanted by one job, before it is held against the parts desk.

    ``wherever`` says that another brake job may have asked for it already.
    """

    job: str | None
    title: str
    quantity: int
    spec: Spec
    words: tuple[str, ...]
    fixing: bool = False
    note: str = ""
    wherever: bool = False


def brake_needs(system: BrakeSystem, build: Build) -> BrakeNeeds:
    """Work out what the brakes want, against what a build's parts desk has.

    Parameters
    ----------
    system : BrakeSystem
        The brakes as built.
    build : Build
        Its jobs, needs and shelf.

    Examples
    --------
    >>> from bareshell.brakes.starters import starter
    >>> found = brake_needs(starter("single line"), Build())
    >>> found.wanted, found.without_job[0]
    ((), 'Brake pipe')
    """
    jobs = BrakeJobs(build)
    cuts = cut_list(system)
    wants = [*_pipes(system, cuts, jobs), *_small(system, cuts, jobs), *_hoses(system, cuts, jobs)]
    wants += _fluid(system, jobs)
    placed = [want for want in wants if want.job is not None]
    without = dict.fromkeys(want.title for want in wants if want.job is None)
    return BrakeNeeds(tuple(_against(build, placed)), tuple(without))


# --- what is wanted ----------------------------------------------------------------------------


def _job_of(system: BrakeSystem, jobs: BrakeJobs, thing: str) -> str | None:
    for line in system.lines:
        if line.id == thing:
            return jobs.of_line(system, line)
    return jobs.of_part(system, system.part(thing))


def _pipes(system: BrakeSystem, cuts: CutList, jobs: BrakeJobs) -> Iterator[_Want]:
    groups: dict[tuple[str | None, float | None, float | None, str], float] = {}
    not_measured: set[str | None] = set()
    for pipe in cuts.pipes:
        job = _job_of(system, jobs, pipe.line)
        key = (job, pipe.outside_diameter_m, pipe.wall_m, pipe.material)
        groups.setdefault(key, 0.0)
        if pipe.cut_m is None:
            not_measured.add(job)
        else:
            groups[key] += pipe.cut_m
    for (job, size, wall, material), length in groups.items():
        bought = math.ceil(length * (1 + cuts.allowances.waste_share) * 2 - 1e-9) / 2
        spec = PipeSpec(
            outside_diameter_m=size,
            wall_m=wall,
            length_m=bought or None,
            material=material or None,
        )
        note = "some of its pipes are not measured yet" if job in not_measured else ""
        yield _Want(job, "Brake pipe", 1, spec, ("pipe",), note=note)


def _small(system: BrakeSystem, cuts: CutList, jobs: BrakeJobs) -> Iterator[_Want]:
    """Nuts, clips, washers, lock nuts, bleed screws, blanks and tees, each with its job."""
    yield from _nuts(system, cuts, jobs)
    clips: dict[str | None, int] = {}
    for pipe in cuts.pipes:
        job = _job_of(system, jobs, pipe.line)
        clips[job] = clips.get(job, 0) + (pipe.clips or 0)
    for job, count in clips.items():
        if count:
            spec = PlainSpec(words="pipe clips, at most 300 mm apart")
            yield _Want(job, "Pipe clips", count, spec, ("clip",), fixing=True)
    yield from _counted(system, cuts.of("sealing washer"), jobs, "Sealing washers", ("washer",))
    yield from _counted(
        system, cuts.of("hose lock nut"), jobs, "Hose clips or lock nuts", ("clip", "lock")
    )
    yield from _counted(system, cuts.of("bleed screw"), jobs, "Bleed screws", ("bleed screw",))
    yield from _counted(system, cuts.of("blank"), jobs, "Blanks", ("blank", "plug"))
    yield from _tees(system, jobs)


def _nuts(system: BrakeSystem, cuts: CutList, jobs: BrakeJobs) -> Iterator[_Want]:
    groups: dict[tuple[str | None, UnionSpec], int] = {}
    for pipe in cuts.pipes:
        job = _job_of(system, jobs, pipe.line)
        for end in pipe.ends:
            spec = UnionSpec(
                thread=end.thread or None,
                sex=end.sex or None,
                seat=FLARE_ON_SEAT.get(end.flare),
                flare=end.flare or None,
                pipe_diameter_m=pipe.outside_diameter_m,
            )
            groups[job, spec] = groups.get((job, spec), 0) + 1
    for (job, nut), count in groups.items():
        yield _Want(job, "Pipe nuts", count, nut, ("nut",), fixing=True)


def _counted(
    system: BrakeSystem,
    pieces: Sequence[Fastening],
    jobs: BrakeJobs,
    title: str,
    words: tuple[str, ...],
) -> Iterator[_Want]:
    for piece in pieces:
        share = piece.count / len(piece.lines)
        by_job: dict[str | None, float] = {}
        for thing in piece.lines:
            job = _job_of(system, jobs, thing)
            by_job[job] = by_job.get(job, 0.0) + share
        for job, count in by_job.items():
            yield _Want(
                job,
                title,
                math.ceil(count - 1e-9),
                _plain(piece),
                words,
                fixing=True,
                wherever=piece.what == "bleed screw",
            )


def _plain(piece: Fastening) -> Spec:
    if piece.what == "bleed screw":
        return BoltSpec(thread=piece.thread or None, head="bleed screw")
    if piece.what == "blank":
        return UnionSpec(thread=piece.thread or None, sex="male", lead=None)
    return PlainSpec(words=f"{piece.what}, {piece.words}")


def _tees(system: BrakeSystem, jobs: BrakeJobs) -> Iterator[_Want]:
    groups: dict[tuple[str | None, str, str], int] = {}
    for part in system.of_kind(PartKind.TEE):
        form = part.choices.get("form", "three-way")
        if form == "hose bracket":
            continue
        threads = sorted({port.fitting.thread for port in part.ports if port.fitting.thread})
        key = (jobs.of_part(system, part), form, " and ".join(threads) or "thread not known")
        groups[key] = groups.get(key, 0) + 1
    for (job, form, thread), count in groups.items():
        title = "In-line unions" if form == "in-line union" else "Three-way pieces"
        words = ("union",) if form == "in-line union" else ("tee", "three-way", "junction")
        yield _Want(job, title, count, PlainSpec(words=f"{title.lower()}, {thread}"), words)


def _hoses(system: BrakeSystem, cuts: CutList, jobs: BrakeJobs) -> Iterator[_Want]:
    groups: dict[tuple[str | None, HoseSpec], int] = {}
    lines = {line.id: line for line in system.lines if line.kind is LineKind.HOSE}
    for hose in cuts.hoses:
        job = jobs.of_line(system, lines[hose.line])
        spec = _hose_spec(lines[hose.line], hose.length_m, hose.bore_m, hose.bracket)
        groups[job, spec] = groups.get((job, spec), 0) + 1
    for (job, wanted), count in groups.items():
        yield _Want(job, "Brake hoses", count, wanted, ("hose",))


def _hose_spec(line: Line, length_m: float | None, bore_m: float | None, bracket: str) -> HoseSpec:
    one, other = (end.fitting for end in line.ends)
    return HoseSpec(
        end_a=one.sex or None,
        end_b=other.sex or None,
        free_length_m=length_m,
        bore_m=bore_m,
        bracket=bracket or None,
        carries="brake fluid",
        thread_a=one.thread or None,
        seat_a=one.seat or None,
        thread_b=other.thread or None,
        seat_b=other.seat or None,
    )


def _fluid(system: BrakeSystem, jobs: BrakeJobs) -> Iterator[_Want]:
    fluid = bleed_plan(system).fluid
    named = f"brake fluid, {fluid.grade}" if fluid.grade else "brake fluid, grade not chosen"
    for role, volume_m3, title in (
        ("bench bleed", fluid.bench_m3, "Brake fluid for the bench"),
        ("fill", fluid.reservoir_m3, "Brake fluid for the first fill"),
        ("first bleed", fluid.first_bleed_m3 + fluid.spill_m3, "Brake fluid for the first bleed"),
        ("second bleed", fluid.second_bleed_m3, "Brake fluid for the second bleed"),
    ):
        millilitres = math.ceil(volume_m3 * 1e6 / 50 - 1e-9) * 50
        if not millilitres:
            continue
        spec = GoodsSpec(
            what=named, amount=f"{millilitres} ml, sealed bottle", shelf_life_months=12
        )
        note = f"{fluid.buy_m3 * 1000:g} l in all, in bottles that stay sealed until they are used"
        yield _Want(jobs.find(role), title, 1, spec, ("fluid",), note=note)  # type: ignore[arg-type]


# --- against the parts desk --------------------------------------------------------------------


def _against(build: Build, wants: Sequence[_Want]) -> Iterator[WantedNeed]:
    taken: set[str] = set()
    names: set[str] = set()
    needs: list[tuple[Need, Comes]] = []
    for want in wants:
        existing = _existing(build, want, taken)
        if existing is not None:
            taken.add(existing.id)
            over = build.jobs[existing.job].state.is_done
            needs.append((existing, "as it stands") if over else _settled(want, existing))
        elif want.job is not None and not build.jobs[want.job].state.is_done:
            new_id = _new_id(want, names, taken)
            names.add(new_id)
            needs.append((_new(want, want.job, new_id), "new"))
    standings = need_standings(build)
    free = _free(build, [need.spec for need, _ in needs])
    for (need, comes), spare in zip(needs, free, strict=True):
        standing = standings.get(need.id)
        here = standing.here if standing else 0
        coming = standing.coming if standing else 0
        used = standing is not None and standing.state is NeedState.USED
        short = 0 if used else max(0, need.quantity - here - coming - spare)
        yield WantedNeed(
            need,
            comes,
            str(standing.state) if standing else str(NeedState.NOT_KNOWN),
            here,
            spare,
            short,
            "as you wrote it; the circuit says otherwise" if comes == "kept as written" else "",
        )


def _existing(build: Build, want: _Want, taken: set[str]) -> Need | None:
    """Return the need of the same job that this want makes definite, if there is one."""
    spoken = [
        need
        for need in build.needs.values()
        if need.id not in taken
        and need.spec.kind == want.spec.kind
        and _speaks_of(need, want)
        and (need.job == want.job or (want.wherever and _is_brakes(build, need.job)))
    ]
    # Its own job before another one's, and what is settled already before what is general.
    spoken.sort(key=lambda need: (need.job != want.job, need.spec != want.spec))
    return spoken[0] if spoken else None


def _is_brakes(build: Build, job: str) -> bool:
    return job in build.jobs and build.jobs[job].job.system == "brakes"


def _speaks_of(need: Need, want: _Want) -> bool:
    title = need.title.casefold()
    return any(re.search(rf"\b{re.escape(word)}", title) for word in want.words)


def _new(want: _Want, job: str, new_id: str) -> Need:
    return Need(
        new_id,
        want.title,
        job,
        want.quantity,
        NeededTo.START,
        want.spec,
        fixing=want.fixing,
        mark=MARK,
        note=want.note,
    )


def _settled(want: _Want, existing: Need) -> tuple[Need, Comes]:
    settled = replace(
        existing,
        quantity=want.quantity,
        spec=_filled_in(existing.spec, want.spec),
        mark=MARK,
        note=want.note or existing.note,
    )
    if (settled.spec, settled.quantity) == (existing.spec, existing.quantity):
        return existing, "as it stands"
    if existing.mark == YOURS:
        return existing, "kept as written"
    return settled, "settled"


def _filled_in(old: Spec, new: Spec) -> Spec:
    """Keep what an old specification knows that the circuit does not speak of."""
    known = {
        each.name: getattr(new, each.name)
        for each in fields(new)
        if each.name != "kind" and getattr(new, each.name) not in (None, "")
    }
    return replace(old, **known) if type(old) is type(new) else new


def _new_id(want: _Want, names: set[str], taken: set[str]) -> str:
    slug = re.sub(r"[^a-z0-9]+", "-", want.title.lower()).strip("-")
    stem = f"{want.job}.brakes-{slug}"
    found, number = stem, 1
    while found in names or found in taken:
        number += 1
        found = f"{stem}-{number}"
    return found


def _free(build: Build, specs: Sequence[Spec]) -> list[int]:
    """Count what lies on the shelf, put aside for nothing, and fits; each piece counts once."""
    holdings = [
        holding
        for holding in build.holdings.values()
        if holding.need is None and holding.quantity and not holding.away
    ]
    if not holdings or not specs:
        return [0] * len(specs)
    left = [holding.quantity for holding in holdings]
    matches = match_all(specs, [holding.spec for holding in holdings])
    found = []
    for fitting in matches.fits:
        found.append(sum(left[number] for number in fitting))
        for number in fitting:
            left[number] = 0
    return found
