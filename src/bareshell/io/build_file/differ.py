"""How two states of one build differ in what was described, in the words of the build file."""

from __future__ import annotations

from collections.abc import Iterator

from bareshell.io.build_file.kinds import Setting
from bareshell.io.build_file.sections import SECTIONS, Section
from bareshell.io.build_file.wording import changed_words
from bareshell.io.build_file.write import zone_of
from bareshell.model.build import Build

__all__ = ["differences"]


def differences(before: Build, after: Build) -> tuple[str, ...]:
    """Say what is described otherwise in one state of a build than in another.

    What happened (a job finished, a proof held) is not told here, only what was described.

    Parameters
    ----------
    before, after : Build
        Two states of one build.

    Examples
    --------
    >>> from bareshell.model.entry import Entry
    >>> from bareshell.model.fold import fold
    >>> from bareshell.model.changes import JobSet
    >>> from bareshell.model.job import Job
    >>> from datetime import UTC, datetime
    >>> at = datetime(2026, 3, 4, tzinfo=UTC)
    >>> job = JobSet(Job("bleed", "Bleed the brakes", "brakes"))
    >>> differences(Build(), fold([Entry(1, "a", at, at, "owner", job)]))
    ("new: job 'Bleed the brakes'",)
    """
    setting = Setting(zone_of(after))
    return tuple(
        sentence for section in SECTIONS for sentence in _of(section, before, after, setting)
    )


def _of(section: Section, before: Build, after: Build, setting: Setting) -> Iterator[str]:
    was, becomes = section.held(before), section.held(after)
    for key, value in becomes.items():
        old = was.get(key)
        if old == value:
            continue
        title = section.title(value)
        if old is None:
            yield f"{title} is described" if section.single else f"new: {title}"
            continue
        plain = (section.record.write(one, setting) for one in (old, value))
        if words := changed_words(section.record, *plain):
            yield f"{title}: {words}"
    for key, old in was.items():
        if key not in becomes:
            yield f"{section.title(old)} is gone"
