"""The wire form of changes: what is written is read back the same, for ever."""

from __future__ import annotations

import json
import math
from dataclasses import fields
from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bareshell.errors import BadInput, Damaged
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.store import wire
from bareshell.store.packing import pack, unpack
from tests.store.any_change import FROM, PLAIN, TO, made
from tests.store.every_change import EVERY, OF_THE_RECORD


@pytest.mark.parametrize("kind", sorted(c.CHANGES))
def test_any_change_is_read_back_as_it_was_written(kind: str) -> None:
    cls = c.CHANGES[kind]

    @settings(max_examples=15)
    @given(made(cls))
    def holds(change: c.Change) -> None:
        body = wire.encode(change)
        back = wire.decode(kind, cls.VERSION, change.subject, body)
        assert back == change
        assert back.subject == change.subject
        assert wire.encode(back) == body, "the same change always makes the same bytes"
        assert json.loads(body).keys() == {spec.name for spec in fields(cls)}  # type: ignore[arg-type]
        assert unpack(cls, json.loads(json.dumps(pack(change)))) == change

    holds()


@pytest.mark.parametrize("change", [*EVERY, *OF_THE_RECORD], ids=lambda change: change.KIND)
def test_the_samples_are_read_back_as_they_were_written(change: c.Change) -> None:
    body, kept = wire.as_kept(change)
    assert kept == change
    assert wire.decode(change.KIND, change.VERSION, change.subject, body) == change


def test_the_hash_order_of_sets_does_not_reach_the_bytes() -> None:
    """Sets of words are ordered anew in every process; the record is not."""
    body = wire.encode(EVERY[5])
    assert '"off":["engine out","seats out"]' in body
    assert '"zones":["rear wheel ends","underneath"]' in body


# --- what is refused -----------------------------------------------------------------------------


@pytest.mark.parametrize("figure", [math.nan, math.inf, -math.inf])
def test_a_figure_that_is_none_is_refused(figure: float) -> None:
    with pytest.raises(BadInput, match="not a number"):
        wire.as_kept(c.JobWorked("bleed", hours=figure))


def test_a_value_of_the_wrong_type_is_refused_by_its_name() -> None:
    with pytest.raises(BadInput, match="hours"):
        wire.as_kept(c.JobWorked("bleed", hours="two"))  # type: ignore[arg-type]
    with pytest.raises(BadInput, match="hours"):
        wire.as_kept(c.JobWorked("bleed", hours="2"))  # type: ignore[arg-type]


def test_half_a_letter_is_refused() -> None:
    """A lone surrogate is no character and could not be written to a file (from memory)."""
    with pytest.raises(BadInput, match="job worked"):
        wire.as_kept(c.JobWorked("bleed", words="\ud800"))


def test_what_is_no_change_of_ours_is_refused() -> None:
    with pytest.raises(BadInput, match="unread"):
        wire.as_kept(c.Unread("new-thing", 1, "job:x", "{}"))


@pytest.mark.parametrize(
    "body",
    ["", "{", "[]", "{}", '{"job_id":7}', '{"job_id":null}', "\x00", '{"job_id":"a"'],
)
def test_a_spoilt_body_is_told_and_not_guessed(body: str) -> None:
    with pytest.raises(Damaged, match="job started"):
        wire.decode("job-started", 1, "job:a", body)


def test_a_rule_of_the_model_holds_for_what_is_read_too() -> None:
    with pytest.raises(Damaged, match="quantity"):
        wire.decode(
            "need-set",
            1,
            "need:x",
            wire.encode(EVERY[10]).replace('"quantity":2', '"quantity":0'),
        )


# --- what another bareshell wrote ------------------------------------------------------------


def test_a_kind_or_version_from_a_newer_bareshell_is_kept_as_it_is() -> None:
    body = '{"job_id":"a","with_what":"a blessing"}'
    assert wire.decode("job-blessed", 1, "job:a", body) == c.Unread("job-blessed", 1, "job:a", body)
    assert wire.decode("job-started", 2, "job:a", body) == c.Unread("job-started", 2, "job:a", body)


def test_an_old_body_is_lifted_version_by_version(monkeypatch: pytest.MonkeyPatch) -> None:
    """As if the form of "job started" had changed twice since the entry was written."""
    monkeypatch.setattr(c.JobStarted, "VERSION", 3)
    monkeypatch.setattr(wire, "UP_CASTERS", {})

    @wire.up_casts("job-started", 1)
    def first(body: wire.Body) -> wire.Body:
        return {"name": body["job"]}

    @wire.up_casts("job-started", 2)
    def second(body: wire.Body) -> wire.Body:
        return {"job_id": body["name"].lower()}

    for version, body in (
        (1, '{"job":"BLEED"}'),
        (2, '{"name":"Bleed"}'),
        (3, '{"job_id":"bleed"}'),
    ):
        assert wire.decode("job-started", version, "job:bleed", body) == c.JobStarted("bleed")


def test_a_version_that_nothing_reads_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(c.JobStarted, "VERSION", 3)
    with pytest.raises(Damaged, match="version 1 of job started"):
        wire.decode("job-started", 1, "job:bleed", "{}")


# --- times ---------------------------------------------------------------------------------------


@given(st.datetimes(FROM, TO, timezones=st.timezones()))
def test_a_moment_is_written_in_utc_and_read_back(moment: datetime) -> None:
    assert wire.moment(wire.written(moment)) == moment.astimezone(UTC)
    assert len(wire.written(moment)) == 27


@given(st.lists(PLAIN[datetime], min_size=2, max_size=2))
def test_the_order_of_the_text_is_the_order_of_time(moments: list[datetime]) -> None:
    assert sorted(moments) == sorted(moments, key=wire.written)


def test_the_hour_that_comes_twice_in_autumn_stays_two_hours() -> None:
    """25 October 2026, clocks go back at 02:00 summer time (EU directive 2000/84/EC, article 3)."""
    summer = datetime(2026, 10, 25, 1, 30, tzinfo=timezone(timedelta(hours=1)))
    winter = datetime(2026, 10, 25, 1, 30, tzinfo=timezone(timedelta(0)))
    first, second = wire.written(summer), wire.written(winter)
    assert wire.moment(second) - wire.moment(first) == timedelta(hours=1)


@pytest.mark.parametrize("text", ["", "yesterday", "2026-03-04", "2026-03-04T18:00:00"])
def test_a_time_without_a_zone_or_sense_is_told(text: str) -> None:
    with pytest.raises(Damaged, match="time"):
        wire.moment(text)


def test_an_empty_build_packs_too() -> None:
    assert unpack(Build, json.loads(json.dumps(pack(Build())))) == Build()
