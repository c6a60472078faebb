"""The open job that a person named."""

from __future__ import annotations

from bareshell.errors import BadInput, NotFound
from bareshell.model import Build

_NEAR = 0.6
_NAMED = 6


def open_job(build: Build, said: str, field: str = "job") -> str:
    """Find an open job by its id, its title or a part of its title.

    Parameters
    ----------
    build : Build
        With its jobs.
    said : str
        What a person typed.
    field : str
        What the field is called.

    Returns
    -------
    str
        The id of the job.

    Raises
    ------
    NotFound
        When no job is called so.
    BadInput
        When several open ones are, or it is open no longer.

    Examples
    --------
    >>> open_job(Build(), "exhaust")
    Traceback (most recent call last):
    bareshell.errors.NotFound: there is no job 'exhaust'. Choose a job from the list.
    """
    plain = said.strip().casefold()
    titles = {key: record.job.title for key, record in build.jobs.items()}
    exact = [key for key, title in titles.items() if plain in (title.casefold(), key.casefold())]
    found = exact or [key for key, title in titles.items() if plain and plain in title.casefold()]
    still_open = [key for key in found if build.jobs[key].state.is_open]
    if len(still_open) == 1 or (still_open and exact):
        return still_open[0]
    if still_open:
        named = "; ".join(titles[key] for key in still_open[:_NAMED])
        problem = f"{len(still_open)} open jobs are called '{said.strip()}'"
        raise BadInput(field, problem, f"say which: {named}")
    if found:
        state = build.jobs[found[0]].state.status
        raise BadInput(field, f"'{titles[found[0]]}' is {state}", "name an open job")
    import difflib

    near = difflib.get_close_matches(said, titles.values(), n=2, cutoff=_NEAR)
    remedy = f"did you mean {' or '.join(near)}?" if near else "choose a job from the list"
    raise NotFound(f"there is no job '{said.strip()}'", remedy)
