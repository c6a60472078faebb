"""A job as a form: laid out to be filled in, and read back into a definition."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from bareshell.app.filled import Filled
from bareshell.app.written import resolve
from bareshell.model import Build
from bareshell.model.job import SYSTEMS, Caution, Job, Recheck, Wait, Way
from bareshell.model.position import BODY_STATES, Place, Wheels, Zone
from bareshell.model.trust import YOURS, ThreePoint

BLANK_WAYS = 1
BLANK_CAUTIONS = 2
BLANK_AFTER = 3
"""Empty rows that a form offers after those that are filled in."""

Laid = dict[str, tuple[str, ...]]
"""A form's fields as they are first shown."""


def lay_job(job: Job, titles: Mapping[str, str]) -> Laid:
    """Lay a job out as the fields of a form.

    Parameters
    ----------
    job : Job
        Its definition.
    titles : mapping of str to str
        The title of every job, by id.
    """
    wait = job.wait
    fields: Laid = {
        "title": (job.title,),
        "system": (job.system,),
        "after": tuple(named(key, titles) for key in job.after),
        "place": (str(job.place),),
        "zones": tuple(str(zone) for zone in sorted(job.zones)),
        "wheels": (str(job.wheels),),
        "level": _ticked(job.level),
        "off": tuple(sorted(job.off)),
        "off_is_necessary": _ticked(job.off_is_necessary),
        "splittable": _ticked(job.splittable),
        "least_piece": (_hours(job.least_piece_hours),),
        "wait": (_hours(wait.hours) if wait else "",),
        "wait_why": (wait.why if wait else "",),
        "wait_stretches": _ticked(bool(wait and wait.stretches_with_cold)),
        "wait_lowest": (_degrees(wait.lowest_temperature_c if wait else None),),
        "lowest": (_degrees(job.lowest_temperature_c),),
        "weather": (job.weather,),
        "tools": ("\n".join(job.tools),),
        "tightens": ("\n".join(job.tightens),),
        "dirty": _ticked(job.dirty),
        "dangerous_alone": _ticked(job.dangerous_alone),
        "helper_alone": _ticked(job.helper_alone),
        "takes_off": tuple(sorted(job.takes_off)),
        "puts_back": tuple(sorted(job.puts_back)),
        "twin": (named(job.twin, titles) if job.twin else "",),
        "gate": (job.gate or "",),
        "note": (job.note,),
        "mark": (job.mark,),
    }
    for number, way in enumerate(job.ways):
        fields |= _lay_way(way, number)
    for number, caution in enumerate(job.cautions):
        fields[f"harm{number}"] = (caution.harm,)
        fields[f"caution{number}"] = (caution.sentence,)
    for number, recheck in enumerate(job.rechecks):
        fields[f"recheck_miles{number}"] = (_figure(recheck.miles),)
        fields[f"recheck_months{number}"] = (_figure(recheck.months),)
    return fields


def _lay_way(way: Way, number: int) -> Laid:
    return {
        f"people{number}": (str(way.people),),
        f"best{number}": (_hours(way.hours.optimistic_hours),),
        f"likely{number}": (_hours(way.hours.likely_hours),),
        f"worst{number}": (_hours(way.hours.pessimistic_hours),),
        f"kit{number}": (way.kit,),
    }


def named(key: str, titles: Mapping[str, str]) -> str:
    """Name a job by its title, or by its id where two share a title.

    Examples
    --------
    >>> named("a", {"a": "Hang door", "b": "Hang door"}), named("c", {"c": "Bleed"})
    ('a', 'Bleed')
    """
    title = titles.get(key, key)
    return title if sum(1 for other in titles.values() if other == title) == 1 else key


def read_job(form: Filled, build: Build, key: str, old: Job | None = None) -> Job:
    """Read a job back from its form.

    Parameters
    ----------
    form : Filled
        As it was filled in.
    build : Build
        The build, whose jobs may be named.
    key : str
        The job's id.
    old : Job or None
        The definition it corrects; its mark stands while its figures do.

    Raises
    ------
    BadInput
        With everything that is wrong with the form.
    """
    titles = {k: r.job.title for k, r in build.jobs.items() if k != key}
    title = form.text("title", "what it is called")
    system = form.text("system")
    if system not in SYSTEMS:
        form.wrong("system", f"'{system}' is none of them", "choose one from the list")
    after = _jobs(form, "after", "comes after", titles)
    ways = tuple(_ways(form))
    if not ways:
        form.wrong("hours", "no way of doing it has hours", "give the likely hours of one way")
    twin = _jobs(form, "twin", "same job on the other side", titles)
    gate = form.text("gate") or None
    if gate is not None and gate not in build.gates:
        form.wrong("gate", f"there is no gate '{gate}'", "choose one from the list, or none")
    least = form.hours("least_piece", "shortest useful piece")
    cautions = tuple(_cautions(form))
    wait = _wait(form)
    lowest = form.temperature_c("lowest", "not below")
    rechecks = tuple(_rechecks(form))

    def build_it() -> Job:
        return Job(
            id=key,
            title=title,
            system=system,
            after=after,
            ways=ways,
            place=form.choice("place", "where it is done", Place, Place.CAR),
            zones=form.among("zones", "places on the car", Zone),
            wheels=form.choice("wheels", "wheels", Wheels, Wheels.EITHER),
            level=form.tick("level"),
            off=_states(form, "off"),
            off_is_necessary=form.tick("off_is_necessary"),
            splittable=form.tick("splittable"),
            least_piece_hours=0.5 if least is None else least,
            wait=wait,
            lowest_temperature_c=lowest,
            weather=form.text("weather"),
            tools=form.lines("tools"),
            tightens=form.lines("tightens"),
            cautions=cautions,
            dirty=form.tick("dirty"),
            dangerous_alone=form.tick("dangerous_alone"),
            helper_alone=form.tick("helper_alone"),
            takes_off=_states(form, "takes_off"),
            puts_back=_states(form, "puts_back"),
            rechecks=rechecks,
            gate=gate,
            twin=twin[0] if twin else None,
            mark=old.mark if old else YOURS,
            note=form.text("note"),
        )

    job = form.make("job", build_it)
    form.check()
    return _marked(job, old)


def _states(form: Filled, name: str) -> frozenset[str]:
    return frozenset(state for state in form.every(name) if state in BODY_STATES)


def _marked(job: Job, old: Job | None) -> Job:
    """The mark of the trade stays only on figures that are still the trade's."""
    if old is None or (job.ways, job.wait, job.lowest_temperature_c) == (
        old.ways,
        old.wait,
        old.lowest_temperature_c,
    ):
        return job
    return replace(job, mark=YOURS)


def _jobs(form: Filled, name: str, what: str, titles: Mapping[str, str]) -> tuple[str, ...]:
    found = (resolve(form, said, what, titles, "job") for said in form.every(name))
    return tuple(dict.fromkeys(key for key in found if key is not None))


def _rows(form: Filled, *names: str) -> Iterator[int]:
    """Number the rows of which anything is filled in."""
    number = empty = 0
    while empty <= BLANK_CAUTIONS + 1:
        if any(form.has(f"{name}{number}") for name in names):
            empty = 0
            yield number
        else:
            empty += 1
        number += 1


def _ways(form: Filled) -> Iterator[Way]:
    for number in _rows(form, "best", "likely", "worst", "kit"):
        place = f"way {number + 1}"
        likely = form.hours(f"likely{number}", f"{place}, likely hours")
        best = form.hours(f"best{number}", f"{place}, hours if all goes well")
        worst = form.hours(f"worst{number}", f"{place}, hours if it goes badly")
        people = form.whole(f"people{number}", f"{place}, people", 1, 2) or 1
        if likely is None:
            form.wrong(f"{place}, likely hours", "they are missing", "give hours such as 1.5")
            continue
        best = likely if best is None else best
        worst = likely if worst is None else worst
        if not best <= likely <= worst:
            form.wrong(
                f"{place}, hours",
                f"{best:g}, {likely:g}, {worst:g} do not rise",
                "put the shortest first, the likely between, the longest last",
            )
            continue
        yield Way(people, ThreePoint(best, likely, worst), form.text(f"kit{number}"))


def _cautions(form: Filled) -> Iterator[Caution]:
    for number in _rows(form, "caution"):
        harm = form.text(f"harm{number}")
        if not harm:
            form.wrong(f"caution {number + 1}", "it names no harm", "choose what can be hurt")
        yield Caution(harm, form.text(f"caution{number}"))


def _rechecks(form: Filled) -> Iterator[Recheck]:
    for number in _rows(form, "recheck_miles", "recheck_months"):
        yield Recheck(
            form.whole(f"recheck_miles{number}", "look again after miles", 1),
            form.whole(f"recheck_months{number}", "look again after months", 1, 600),
        )


def _wait(form: Filled) -> Wait | None:
    hours = form.hours("wait", "wait after it", clock=True)
    why, lowest = form.text("wait_why"), form.temperature_c("wait_lowest", "not below, in the wait")
    if hours is None:
        if why:
            form.wrong("wait after it", "it has a reason and no hours", "give hours such as 12")
        return None
    if not hours:
        return None
    return Wait(hours, form.tick("wait_stretches"), lowest, why)


def _ticked(yes: bool) -> tuple[str, ...]:  # noqa: FBT001  a box is ticked or not
    return ("yes",) if yes else ()


def _hours(hours: float) -> str:
    return f"{hours:g}"


def _degrees(temperature_c: float | None) -> str:
    return "" if temperature_c is None else f"{temperature_c:g}"


def _figure(number: int | None) -> str:
    return "" if number is None else str(number)
