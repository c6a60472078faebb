"""Making the demo build: the pure story written through the same door as anybody's entries."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, datetime
from itertools import count, groupby
from pathlib import Path

from bareshell.app.door import Clock, Door
from bareshell.app.laying import laid
from bareshell.demo import Told, demo_story
from bareshell.model.changes import Withdrawn


def make_demo(folder: Path | str, today: date, *, clock: Clock | None = None) -> Door:
    """Make the demo build in a folder and return its open door.

    Parameters
    ----------
    folder : Path or str
        A new folder, or one without a build.
    today : date
        The day from which everything is dated back, as the garage's clock has it.
    clock : callable or None
        What the returned door tells the time by; None for this machine's clock.

    Returns
    -------
    Door
        Open; the caller closes it.

    Raises
    ------
    Conflict
        When there is a build in the folder already.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder, make_demo(folder, date(2031, 3, 5)) as door:
    ...     door.build().car.invented
    True
    """
    folder = Path(folder)
    with laid(folder, "name a new folder for the demo") as beside:
        _write(beside, demo_story(today))
    return Door.open(folder, clock=clock)


def _write(folder: Path, story: Sequence[Told]) -> None:
    """Write the story as it was written down: batch by batch, the clock put back to each."""
    moment = story[0].recorded_at
    numbers = count(1)
    landed: dict[str, int] = {}

    def clock() -> datetime:
        return moment

    def new_id() -> str:
        return f"demo-back-{next(numbers)}"

    with Door.open(folder, clock=clock, new_id=new_id, create=True, back_up=False) as door:
        for batch in _batches(story):
            moment = batch[0].recorded_at
            change = batch[0].change
            if isinstance(change, Withdrawn):
                door.take_back(change.entry_id, change.words)
                continue
            known = {t.change.subject: landed[t.knew] for t in batch if t.knew is not None}
            receipt = door.record_dated(
                [(t.happened_at, t.change) for t in batch],
                ids=[t.id for t in batch],
                base_versions=known,
                author=batch[0].author,
            )
            landed.update((entry.id, entry.seq) for entry in receipt.entries)


def _batches(story: Sequence[Told]) -> Iterator[list[Told]]:
    """Cut the story into what one person wrote down in one go."""

    def pen(told: Told) -> tuple[datetime, str, str]:
        alone = told.knew is not None or isinstance(told.change, Withdrawn)
        return told.recorded_at, told.author, told.id if alone else ""

    for _, batch in groupby(story, pen):
        yield list(batch)
