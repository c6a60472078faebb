"""What nothing leads to as it stands, in few sentences: the same hindrance is told once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from bareshell.plan.validate import Snag

__all__ = ["stranded_lines"]

NAMED = 3
"""So many jobs are named of those that meet the same hindrance."""


def stranded_lines(snags: Iterable[Snag], titles: Mapping[str, str]) -> tuple[str, ...]:
    """Tell what stands in the way of planning, each hindrance once.

    Parameters
    ----------
    snags : iterable of Snag
        As the plan found them.
    titles : mapping of str to str
        What jobs are called, by id.

    Examples
    --------
    >>> def alone(job):
    ...     return Snag("helper", f"'{job}' takes two people.", "Ask somebody.", job_ids=(job,))
    >>> stranded_lines([alone("Bonnet"), alone("Screen")], {"Bonnet": "Bonnet", "Screen": "Screen"})
    ("'Bonnet' and 'Screen': each takes two people. Ask somebody.",)
    """
    alike: dict[tuple[str, str], list[Snag]] = {}
    for snag in snags:
        if snag.effect == "note":
            continue
        alike.setdefault((_without_title(snag, titles), snag.remedy), []).append(snag)
    return tuple(
        f"{_told(words, same, titles)} {remedy}".strip() for (words, remedy), same in alike.items()
    )


def _without_title(snag: Snag, titles: Mapping[str, str]) -> str:
    """The sentence without the job it begins with; whole where it does not begin with one."""
    if len(snag.job_ids) != 1:
        return snag.sentence
    return snag.sentence.removeprefix(f"'{titles.get(snag.job_ids[0], '')}'")


def _told(words: str, same: list[Snag], titles: Mapping[str, str]) -> str:
    named = dict.fromkeys(job for snag in same for job in snag.job_ids)
    held = {job for snag in same for job in snag.held_up_ids} - named.keys()
    after = f" {len(held)} jobs come after {'it' if len(named) == 1 else 'them'}." if held else ""
    if len(same) == 1:
        return f"{same[0].sentence}{after}"
    shown = [f"'{titles[job]}'" for job in named][:NAMED]
    more = len(named) - len(shown)
    if more:
        listed = f"{', '.join(shown)} and {more} more"
    else:
        listed = f"{', '.join(shown[:-1])} and {shown[-1]}"
    return f"{listed}: each{words}{after}"
