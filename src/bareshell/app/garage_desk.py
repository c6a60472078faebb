"""The car's own data, the garage, how the car stands, and when there is time."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time, timedelta
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from bareshell.app.door import Door
from bareshell.app.filled import Fields, Filled
from bareshell.app.written import Pen, Written, filled, new_key, said_before, write_down
from bareshell.errors import NotFound
from bareshell.model import changes as c
from bareshell.model.car import OPTIONAL_SYSTEMS, Car, Layout
from bareshell.model.fold import withdrawn_ids
from bareshell.model.job import SYSTEMS
from bareshell.model.position import (
    BODY_STATES,
    Placement,
    Support,
    SupportKind,
    SupportMove,
    Wheels,
    Zone,
)
from bareshell.model.session import Garage, HelperWork, SessionException, SessionPattern
from bareshell.model.temp import Departure
from bareshell.whole.garage_time import sessions_between
from bareshell.whole.rule_words import DAYS, Weekly, weekly

Laid = dict[str, tuple[str, ...]]


# --- the car and the garage ------------------------------------------------------------------


def lay_car(car: Car | None) -> Laid:
    """Lay the car's own data out as the fields of a form."""
    car = car or Car("unnamed")
    return {
        "name": ("" if car.name == "unnamed" else car.name,),
        "layout": (str(car.layout),),
        "systems": tuple(sorted(car.systems)),
        "units": (car.units,),
        "zone": (car.zone,),
        "currency": (car.currency,),
        "words": (car.words,),
    }


def describe_car(door: Door, fields: Fields, pen: Pen) -> Written:
    """Correct the car's own data."""
    form, old = filled(door, fields), door.build().car
    name = form.text("name", "what you call it")
    zone = form.text("zone") or "UTC"
    try:
        ZoneInfo(zone)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        form.wrong("time zone", f"'{zone}' is none", "write it as Europe/London")
    currency = form.text("currency").upper() or "GBP"
    if len(currency) != 3 or not currency.isalpha():
        form.wrong("currency", f"'{currency}' is none", "write its three letters, such as GBP")
    car = form.make(
        "car",
        lambda: Car(
            name=name,
            layout=form.choice("layout", "driven wheels", Layout, Layout.REAR),
            systems=frozenset(s for s in form.every("systems") if s in OPTIONAL_SYSTEMS),
            options=old.options if old else frozenset(),
            invented=old.invented if old else False,
            zone=zone,
            currency=currency,
            units=form.text("units") or "metric",
            words=form.text("words"),
            budget=old.budget if old else None,
        ),
    )
    form.check()
    return write_down(door, c.CarDescribed(car), pen, "The car's data are written down.")


def lay_garage(garage: Garage) -> Laid:
    """Lay what is known of the garage out as the fields of a form."""
    return {
        "heated": ("" if garage.heated_to_c is None else f"{garage.heated_to_c:g}",),
        "heated_nights": ("yes",) if garage.heated_nights else (),
        "set_up": (str(garage.set_up_minutes),),
        "clear_up": (str(garage.clear_up_minutes),),
        "helper": (str(garage.helper),),
        **{f"month{n}": (f"{degrees:g}",) for n, degrees in enumerate(garage.monthly_c)},
    }


def describe_garage(door: Door, fields: Fields, pen: Pen) -> Written:
    """Correct how warm the bay is and what each session loses at both ends."""
    form, old = filled(door, fields), door.build().garage
    months = [form.temperature_c(f"month{n}", f"month {n + 1}") for n in range(12)]
    set_up = form.whole("set_up", "setting up", 0, 240)
    clear_up = form.whole("clear_up", "clearing up", 0, 240)
    heated = form.temperature_c("heated", "heated to")
    form.check()
    garage = replace(
        old,
        heated_to_c=heated,
        heated_nights=form.tick("heated_nights"),
        monthly_c=tuple(
            known if said is None else said
            for said, known in zip(months, old.monthly_c, strict=True)
        ),
        set_up_minutes=old.set_up_minutes if set_up is None else set_up,
        clear_up_minutes=old.clear_up_minutes if clear_up is None else clear_up,
        helper=form.choice("helper", "what a helper does alone", HelperWork, old.helper),
    )
    return write_down(door, c.GarageDescribed(garage), pen, "The garage is written down.")


# --- how the car stands ----------------------------------------------------------------------


def place_car(door: Door, fields: Fields, pen: Pen) -> Written:
    """Write down how the car stands now and what is off it."""
    form, build = filled(door, fields), door.build()
    support = form.text("support")
    if support not in build.supports:
        form.wrong("how it stands", "nothing known is named", "choose one from the list")
    when = form.moment("when", "when")
    form.check()
    off = frozenset(state for state in form.every("off") if state in BODY_STATES)
    title = build.supports[support].title
    said = f"The car stands on {title}{', ' + ', '.join(sorted(off)) if off else ''}."
    change = c.CarPlaced(Placement(support, off), form.text("words"))
    return write_down(door, change, pen, said, happened_at=when)


def lay_support(support: Support) -> Laid:
    """Lay a way the car can stand out as the fields of a form."""
    return {
        "title": (support.title,),
        "kind": (str(support.kind),),
        "opens": tuple(str(zone) for zone in sorted(support.opens)),
        "wheels": (str(support.wheels),),
        "level": ("yes",) if support.level else (),
        "rollable": ("yes",) if support.rollable else (),
    }


def set_support(door: Door, support_id: str | None, fields: Fields, pen: Pen) -> Written:
    """Add a way the car can stand in this garage, or correct what it opens."""
    form, build = filled(door, fields), door.build()
    if support_id is not None:
        support_of(door, support_id)
    title = form.text("title", "what you call it")
    key = support_id or new_key(door, "support", title, build.supports, pen.entry_id)
    support = Support(
        id=key,
        title=title,
        kind=form.choice("kind", "kind of support", SupportKind, SupportKind.STANDS),
        opens=form.among("opens", "places it opens", Zone),
        wheels=form.choice("wheels", "wheels", Wheels, Wheels.EITHER),
        level=form.tick("level"),
        rollable=form.tick("rollable"),
    )
    form.check()
    return write_down(door, c.SupportSet(support), pen, f"The car can stand on '{title}'.")


def drop_support(door: Door, support_id: str, pen: Pen) -> Written:
    """Write down that the car can stand so no longer."""
    if before := said_before(door, f"support:{support_id}", pen):
        return before
    title = support_of(door, support_id).title
    said = f"The car can stand on '{title}' no longer."
    return write_down(door, c.SupportDropped(support_id), pen, said)


def support_of(door: Door, support_id: str) -> Support:
    """Return a way the car can stand, or say that there is none."""
    supports = door.build().supports
    if support_id not in supports:
        raise NotFound(f"there is no support '{support_id}'", "look for it on the Car page")
    return supports[support_id]


def set_move(door: Door, fields: Fields, pen: Pen) -> Written:
    """Write down what it takes to bring the car from one support to another."""
    form, build = filled(door, fields), door.build()
    start, end = form.text("from"), form.text("to")
    for name, said in (("from", start), ("to", end)):
        if said not in build.supports:
            form.wrong(name, "nothing known is named", "choose one from the list")
    if start == end:
        form.wrong("to", "it is where the car stands already", "choose another")
    minutes = form.whole("minutes", "minutes", 0, 2880)
    if minutes is None and not form.has("minutes"):
        form.wrong("minutes", "they are missing", "say how long it takes, such as 40")
    people = form.whole("people", "people", 1, 2) or 1
    form.check()
    off, not_off = (
        frozenset(state for state in form.every(name) if state in BODY_STATES)
        for name in ("off", "not_off")
    )
    for state in sorted(off & not_off):
        form.wrong("must not be off", f"'{state}' is wanted both ways", "tick one of the two")
    form.check()
    move = SupportMove(start, end, minutes or 0, people, off, not_off)
    titles = build.supports[start].title, build.supports[end].title
    said = f"From {titles[0]} to {titles[1]}: {move.minutes} min."
    return write_down(door, c.SupportMoveSet(move), pen, said)


# --- garage time -----------------------------------------------------------------------------


def lay_pattern(pattern: SessionPattern) -> Laid:
    """Lay a repeating stretch of garage time out as the fields of a form."""
    known = weekly(pattern.rule)
    return {
        "title": (pattern.title,),
        "days": known.days if known else (),
        "every": (str(known.every) if known else "1",),
        "rule": ("" if known else pattern.rule,),
        "starts": (f"{pattern.starts:%H:%M}",),
        "minutes": (str(pattern.minutes),),
        "people": (str(pattern.people),),
        "first_day": (pattern.first_day.isoformat(),),
    }


def set_pattern(door: Door, pattern_id: str | None, fields: Fields, pen: Pen) -> Written:
    """Add a repeating stretch of garage time, or correct one."""
    form, build = filled(door, fields), door.build()
    if pattern_id is not None:
        pattern_of(door, pattern_id)
    title = form.text("title", "what you call it")
    key = pattern_id or new_key(door, "pattern", title, build.patterns, pen.entry_id)
    rule = _rule(form)
    starts = form.clock("starts", "starts at")
    if starts is None and not form.has("starts"):
        form.wrong("starts at", "it is empty", "write it as 19:00")
    minutes = form.whole("minutes", "minutes", 1, 1440)
    if minutes is None and not form.has("minutes"):
        form.wrong("minutes", "they are missing", "say how long it lasts, such as 150")
    people = form.whole("people", "people", 1, 2) or 1
    first = form.day("first_day", "counted from") or form.today
    pattern = form.make(
        "session",
        lambda: SessionPattern(key, title, rule, starts or time(), minutes or 0, people, first),
    )
    change = c.PatternSet(pattern)
    # The rule is read by whoever writes sessions out; one that cannot be read is refused here.
    sessions_between(door.try_out(change), door.now(), door.now() + timedelta(days=1))
    return write_down(door, change, pen, f"'{title}' is written down.")


def _rule(form: Filled) -> str:
    if form.has("rule"):
        return form.text("rule")
    days = tuple(day for day in form.every("days") if day in DAYS)
    if not days:
        form.wrong("days", "none is ticked", "tick at least one day of the week")
    return Weekly(days, form.whole("every", "every so many weeks", 1, 12) or 1).rule


def drop_pattern(door: Door, pattern_id: str, pen: Pen) -> Written:
    """Write down that a repeating stretch of garage time is over."""
    if before := said_before(door, f"pattern:{pattern_id}", pen):
        return before
    title = pattern_of(door, pattern_id).title
    return write_down(door, c.PatternDropped(pattern_id), pen, f"'{title}' is over.")


def pattern_of(door: Door, pattern_id: str) -> SessionPattern:
    """Return a repeating session, or say that there is none."""
    patterns = door.build().patterns
    if pattern_id not in patterns:
        raise NotFound(f"there is no session '{pattern_id}'", "look for it on the Car page")
    return patterns[pattern_id]


def set_day(door: Door, fields: Fields, pen: Pen) -> Written:
    """Write down a day that is not as the pattern says: no session, a longer one, one more."""
    form = filled(door, fields)
    day = form.day("day", "day")
    if day is None and not form.has("day"):
        form.wrong("day", "it is empty", "choose the day")
    minutes = form.whole("minutes", "minutes", 0, 1440)
    people = form.whole("people", "people", 1, 2)
    starts = form.clock("starts", "starts at")
    form.check()
    exception = SessionException(
        day or form.today,
        minutes or 0,
        people,
        starts,
        form.text("words"),
    )
    on = f"{exception.day:%A} {exception.day.day} {exception.day:%B}"
    said = f"{on}: {f'{minutes} minutes' if minutes else 'no session'}."
    return write_down(door, c.ExceptionSet(exception), pen, said)


def drop_day(door: Door, day: date, pen: Pen) -> Written:
    """Take back what was said of one day, so that it is as the pattern says again."""
    entries = door.entries(subject=f"day:{day.isoformat()}", newest_first=True)
    gone = withdrawn_ids(door.entries())
    standing = [entry for entry in entries if entry.id not in gone]
    for number, entry in enumerate(standing):
        as_id = f"{pen.entry_id}.{number}" if pen.entry_id else None
        door.take_back(entry.id, "as the pattern says after all", as_id=as_id, author=pen.author)
    said = f"{day:%A} {day.day} {day:%B} is as the pattern says again."
    return Written((said,), f"day:{day.isoformat()}")


# --- departures ------------------------------------------------------------------------------


def lay_departure(departure: Departure) -> Laid:
    """Lay a departure from standard out as the fields of a form."""
    return {
        "title": (departure.title,),
        "system": (departure.system,),
        "what_was": (departure.what_was,),
        "what_is": (departure.what_is,),
        "where_original": (departure.where_original,),
        "to_return": (departure.to_return,),
    }


def set_departure(door: Door, departure_id: str | None, fields: Fields, pen: Pen) -> Written:
    """Write down a way in which the car is no longer standard, or correct one."""
    form, build = filled(door, fields), door.build()
    old = departure_of(door, departure_id) if departure_id is not None else None
    title = form.text("title", "what it is about")
    system = form.text("system")
    if system not in SYSTEMS:
        form.wrong("system", f"'{system}' is none of them", "choose one from the list")
    what_was = form.text("what_was", "what it was")
    what_is = form.text("what_is", "what it is now")
    form.check()
    departure = Departure(
        id=departure_id or new_key(door, "departure", title, build.departures, pen.entry_id),
        title=title,
        system=system,
        what_was=what_was,
        what_is=what_is,
        where_original=form.text("where_original") or "not known",
        to_return=form.text("to_return"),
        jobs=old.jobs if old else (),
    )
    said = f"'{title}' is written down as a departure from standard."
    return write_down(door, c.DepartureSet(departure), pen, said)


def return_departure(door: Door, departure_id: str, fields: Fields, pen: Pen) -> Written:
    """Write down that the car was put back to standard there."""
    if before := said_before(door, f"departure:{departure_id}", pen):
        return before
    title = departure_of(door, departure_id).title
    words = filled(door, fields).text("words")
    said = f"'{title}' is back to standard."
    return write_down(door, c.DepartureReturned(departure_id, words), pen, said)


def departure_of(door: Door, departure_id: str) -> Departure:
    """Return a departure, or say that there is none."""
    departures = door.build().departures
    if departure_id not in departures:
        raise NotFound(f"there is no departure '{departure_id}'", "look for it on the Car page")
    return departures[departure_id]
