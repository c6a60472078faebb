"""Writing into a person's own file: what they wrote stays, and what comes back is the same."""

from __future__ import annotations

import tomllib

import tomlkit
from hypothesis import given, settings
from hypothesis import strategies as st

from bareshell.errors import BadInput
from bareshell.io.build_file import compare, read_build_file, write_build_file
from bareshell.io.build_file.sections import SECTIONS, Section
from bareshell.io.build_file.shape import Record
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.job import Job, Wait
from bareshell.model.part import Need
from tests.io.builds import NOW, land, some_build

OWN = """\
# My build. The shed is cold.
format = 1

# --- the car ---
[car]
name    = "Old faithful"   # never mind
units = "imperial" # inches please

[[need]]   # fixings first
id = "nuts"
title = "pipe nuts"
job = "pipe"
spec = { kind = "bolt", diameter = "3/8 in" } # from the old ones
quantity = 4

# the rear of the car
[[job]]
id = "pipe"
title = 'Rear "long" pipe'
system = "brakes"
ways = [ { people = 1, hours = [1,
    2, 4], kit = "bender" } ] # two coffees

[job.wait]
# overnight
hours = "1 day"

[[job]]
id = "hose"
system = "brakes" # same
title = "Rear hose"
after = [ "pipe", ] # of course
# end of the jobs
"""


def own_build() -> Build:
    found = compare(Build(), read_build_file(OWN), NOW)
    assert not found.problems
    build = Build()
    for each in found.differences:
        build = land(build, each.change, NOW)
    return build


def test_writing_what_is_there_already_touches_nothing() -> None:
    assert write_build_file(own_build(), OWN) == OWN


def test_only_the_changed_values_are_touched() -> None:
    build = own_build()
    need = build.needs["nuts"]
    build = land(build, c.NeedSet(Need(need.id, "pipe nuts", "pipe", 6, spec=need.spec)), NOW)
    hose = Job("hose", "Rear hose, new", "brakes", after=("pipe",), dirty=True)
    build = land(build, c.JobSet(hose), NOW)
    build = land(build, c.JobFinished("pipe", 2.5), NOW)
    expected = (
        OWN.replace("quantity = 4", "quantity = 6")
        .replace('title = "Rear hose"', 'title = "Rear hose, new"')
        .replace("# of course\n", "# of course\ndirty = true\n")
        .replace(
            "# two coffees\n",
            '# two coffees\nstatus = "done"\nsince = 2026-03-04T18:00:00Z\nhours_done = 2.5\n',
        )
    )
    assert write_build_file(build, OWN) == expected


def test_what_is_no_longer_there_loses_its_line_and_keeps_its_comment() -> None:
    build = own_build()
    job = build.jobs["pipe"].job
    build = land(build, c.JobSet(Job(job.id, job.title, "brakes", ways=job.ways)), NOW)
    written = write_build_file(build, OWN)
    assert "# overnight" in written
    assert "wait" not in written
    assert not compare(build, read_build_file(written), NOW).differences
    new = Job(job.id, job.title, "brakes", ways=job.ways, wait=Wait(12))
    again = write_build_file(land(build, c.JobSet(new), NOW), written)
    assert "# overnight" in again
    assert "wait = { hours = 12 }" in again


def test_new_things_go_after_their_like() -> None:
    build = land(own_build(), c.JobSet(Job("bleed", "Bleed", "brakes", after=("hose",))), NOW)
    written = write_build_file(build, OWN)
    assert written.endswith(
        'after = [ "pipe", ] # of course\n\n[[job]]\nid = "bleed"\ntitle = "Bleed"\n'
        'system = "brakes"\nafter = ["hose"]\n# end of the jobs\n'
    )


def test_what_the_build_does_not_have_becomes_a_comment_once() -> None:
    build = own_build()
    mine = OWN + '\n[[job]]\nid = "typed"\ntitle = "Typed and not brought in"\nsystem = "fuel"\n'
    written = write_build_file(build, mine)
    assert written.endswith(
        "# end of the jobs\n\n"
        "# Not in the build when this file was written, and so not read:\n"
        '# [[job]]\n# id = "typed"\n# title = "Typed and not brought in"\n# system = "fuel"\n'
    )
    assert write_build_file(build, written) == written
    assert not compare(build, read_build_file(written), NOW).differences


def test_windows_line_ends_and_a_byte_order_mark_stay() -> None:
    own = "\ufeff" + OWN.replace("\n", "\r\n")
    build = land(own_build(), c.JobFinished("hose"), NOW)
    written = write_build_file(build, own)
    assert written.startswith("\ufeff#")
    assert "\n" not in written.replace("\r\n", "")
    assert 'status = "done"\r\n' in written


def test_jobs_written_as_one_value_are_written_anew_only_when_they_changed() -> None:
    own = 'job = [ { id = "a", title = "A", system = "fuel" } ] # short\nformat = 1\n'
    build = Build()
    for each in compare(build, read_build_file(own), NOW).differences:
        build = land(build, each.change, NOW)
    assert write_build_file(build, own) == own
    build = land(build, c.JobSet(Job("b", "B", "fuel", after=("a",))), NOW)
    written = write_build_file(build, own)
    assert "# short" in written
    assert not compare(build, read_build_file(written), NOW).differences


def test_keys_written_with_dots_are_added_to_with_dots() -> None:
    own = 'car.name = "Kit" # mine\nformat = 1\n'
    build = Build()
    for each in compare(build, read_build_file(own), NOW).differences:
        build = land(build, each.change, NOW)
    car = build.car
    assert car is not None
    build = land(build, c.CarDescribed(type(car)("Kit", words="green")), NOW)
    written = write_build_file(build, own)
    assert written == 'car.name = "Kit" # mine\ncar.words = "green"\nformat = 1\n'


# --- whatever the build ---------------------------------------------------------------------------

NUMBERS = st.integers(0, 100_000)


@given(NUMBERS)
@settings(max_examples=50)
def test_a_written_build_differs_in_nothing(number: int) -> None:
    build = some_build(number)
    text = write_build_file(build)
    # The same to another reader of TOML.
    assert tomlkit.parse(text).unwrap() == tomllib.loads(text)
    parsed = read_build_file(text)
    assert not parsed.stops
    found = compare(build, parsed, NOW)
    assert not found.differences
    assert found.problems == parsed.problems
    assert write_build_file(build, text) == text


def _definitions(build: Build, section: Section) -> dict[str, object]:
    from bareshell.io.build_file.kinds import Setting

    record: Record = section.record
    return {key: record.write(each, Setting()) for key, each in section.held(build).items()}


@given(NUMBERS)
@settings(max_examples=40)
def test_a_build_brought_into_an_empty_one_is_the_same_or_it_is_said(number: int) -> None:
    build = some_build(number)
    text = write_build_file(build)
    found = compare(Build(), read_build_file(text), NOW)
    assert not found.stops
    copy = Build()
    for each in found.differences:
        copy = land(copy, each.change, each.happened_at or NOW)
    for section in SECTIONS:
        assert _definitions(copy, section) == _definitions(build, section), section.name
    doubted = " ".join(problem.where for problem in found.problems)
    for key, record in build.jobs.items():
        same = copy.jobs[key].state.status is record.state.status
        assert same or f"job '{record.job.title}'" in doubted
    for name, order in build.orders.items():
        assert copy.orders[name].outstanding == order.outstanding
    assert copy.not_here.keys() == build.not_here.keys()
    # And what was brought in comes out again as it went in.
    again = write_build_file(copy)
    once_more = compare(copy, read_build_file(again), NOW)
    assert not once_more.differences


@given(NUMBERS, NUMBERS)
@settings(max_examples=40)
def test_any_build_can_be_written_into_the_file_of_any_other(one: int, other: int) -> None:
    text = write_build_file(some_build(one))
    build = some_build(other)
    written = write_build_file(build, text)
    parsed = read_build_file(written)
    assert not parsed.stops
    assert not compare(build, parsed, NOW).differences
    assert write_build_file(build, written) == written


def _said_of(text: str) -> str:
    """Bring a text in, and say the first problem, whatever it is."""
    try:
        found = compare(Build(), read_build_file(text), NOW)
    except BadInput as error:
        return error.describe()
    return found.problems[0].describe() if found.problems else "line 1"


@given(NUMBERS, st.integers(0, 400), st.sampled_from("\"[]{}=#\n'\\,.x "))
@settings(max_examples=50)
def test_a_damaged_file_is_read_or_refused_in_words(number: int, place: int, put: str) -> None:
    text = write_build_file(some_build(number))
    spoilt = text[: place * 7] + put + text[place * 7 + 1 :]
    assert "line " in _said_of(spoilt)
