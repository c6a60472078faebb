"""Counting out and counting back: plating, blasting, machining, and what is lost on the way."""

from __future__ import annotations

from bareshell.app.door import Door
from bareshell.app.filled import Fields, Filled
from bareshell.app.shelving import sent_before
from bareshell.app.written import Pen, Written, filled, slug, write_down
from bareshell.errors import NotFound
from bareshell.whole.away import AwayLot, AwayPage, Back, away_page, count_back, count_out
from bareshell.whole.garage_time import zone_of


def away(door: Door) -> AwayPage:
    """Read everything that is away for work, and what came back."""
    build, now = door.build(), door.now()
    return away_page(build, now, now.astimezone(zone_of(build)).date())


def lot(door: Door, batch: str) -> AwayLot:
    """Open one lot.

    Raises
    ------
    NotFound
        When there is no such lot.
    """
    found = next((one for one in away(door).lots if one.batch == batch), None)
    if found is None:
        raise NotFound(f"there is no lot '{batch}'", "look for it among what is away")
    return found


def send_away(door: Door, fields: Fields, pen: Pen) -> Written:
    """Count things out for work. The count of each is in ``out-`` and the holding's id.

    Raises
    ------
    BadInput
        When nobody is named, nothing is counted, or more than lie there.
    """
    if before := sent_before(door, pen, "lot:"):
        return before
    form, build = filled(door, fields), door.build()
    to = form.text("to", "who does it")
    work = form.text("work")
    expected = form.day("expected_on", "expected back on")
    counts = tuple(_counts(form, fields, "out-"))
    form.check()
    batch = _batch(door, f"out {form.today} {to}")
    changes = count_out(
        build,
        counts,
        batch=batch,
        to=to,
        work=work,
        sent_on=form.today,
        expected_on=expected,
    )
    pieces = sum(count for _, count in counts)
    said = f"{pieces} pieces counted out to {to}: photograph them on the bench before they go."
    written = write_down(door, changes, pen, said)
    return Written(written.words, f"lot:{batch}", written.to_settle, written.repeated)


def _batch(door: Door, title: str) -> str:
    """Name a lot as none was named before."""
    name, number = slug(title), 1
    taken = {record.line.batch for record in door.build().orders.values()}
    while (key := name if number == 1 else f"{name}-{number}") in taken:
        number += 1
    return key


def _counts(form: Filled, fields: Fields, prefix: str) -> list[tuple[str, int]]:
    found = []
    for name in fields:
        if name.startswith(prefix):
            count = form.whole(name, f"how many of {name.removeprefix(prefix)}")
            if count:
                found.append((name.removeprefix(prefix), count))
    return found


def take_back(door: Door, batch: str, fields: Fields, pen: Pen) -> Written:
    """Count a lot back: ``back-`` and an order's id for what is right, ``spoilt-`` for the rest.

    Raises
    ------
    BadInput
        When nothing is counted, or more than went out.
    """
    if before := sent_before(door, pen, f"lot:{batch}"):
        return before
    form, build = filled(door, fields), door.build()
    right = dict(_counts(form, fields, "back-"))
    spoilt = dict(_counts(form, fields, "spoilt-"))
    form.check()
    backs = [Back(key, right.get(key, 0), spoilt.get(key, 0)) for key in {**right, **spoilt}]
    changes = count_back(
        build,
        batch,
        backs,
        where=form.text("where"),
        words=form.text("words"),
        lost=form.tick("lost"),
    )

    def said() -> tuple[str, ...]:
        now = lot(door, batch)
        came = f"{sum(right.values())} came back right"
        if spoilt:
            came += f", {sum(spoilt.values())} spoilt"
        if now.open:
            return (f"{came}; {now.missing} still out.",)
        return (f"{came}. {now.back} of {now.out} came back in all.",)

    written = write_down(door, changes, pen, said)
    return Written(written.words, f"lot:{batch}", written.to_settle, written.repeated)
