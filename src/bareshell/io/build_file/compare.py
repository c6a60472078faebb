"""What importing a build file would change: first in words, then as changes for the door."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from bareshell.errors import BareshellError, Problem, Severity
from bareshell.io.build_file import wishes as w
from bareshell.io.build_file.kinds import Plain, Setting, nearest
from bareshell.io.build_file.read import Item, Parsed
from bareshell.io.build_file.sections import BY_NAME, SECTIONS, Section
from bareshell.io.build_file.trial import Trial, problem_of
from bareshell.io.build_file.wishes import Wish, Wishes
from bareshell.io.build_file.wording import changed_words
from bareshell.io.build_file.write import zone_of
from bareshell.model import changes as c
from bareshell.model.build import Build
from bareshell.model.job import JobStatus
from bareshell.model.network import find_cycle, in_order
from bareshell.model.part import Exchange
from bareshell.model.proof import ProofStanding
from bareshell.model.standing import standing_of_proof, temp_is_open

__all__ = ["Comparison", "Difference", "compare"]

_AHEAD = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing that importing would change.

    Parameters
    ----------
    sentence : str
        In people's words.
    change : Change
        What lands through the door.
    happened_at : datetime or None
        When it happened, where the file says; None for now.
    line : int
        The line of the file that asks for it; 0 when it is what the file does not have.
    """

    sentence: str
    change: c.Change
    happened_at: datetime | None = None
    line: int = 0


@dataclass(frozen=True, slots=True)
class Comparison:
    """A build file held against a build.

    Parameters
    ----------
    differences : tuple of Difference
        In the order in which they land.
    problems : tuple of Problem
        What is wrong with the file, and what in it cannot be taken.
    """

    differences: tuple[Difference, ...]
    problems: tuple[Problem, ...]

    @property
    def stops(self) -> bool:
        """Whether a problem keeps all of it from landing."""
        return any(problem.severity == "stops" for problem in self.problems)


def compare(build: Build, parsed: Parsed, now: datetime) -> Comparison:
    r"""Say what importing a build file would change.

    What the build has and the file has not stays, unless the file says ``complete``.

    Parameters
    ----------
    build : Build
        The build as it stands.
    parsed : Parsed
        The file as it was read.
    now : datetime
        The time, with its zone.

    Examples
    --------
    >>> from datetime import UTC
    >>> from bareshell.io.build_file.read import read_build_file
    >>> parsed = read_build_file('[car]\nname = "Kit car"\n')
    >>> found = compare(Build(), parsed, datetime(2026, 3, 4, tzinfo=UTC))
    >>> [each.sentence for each in found.differences]
    ['The car is described.']
    """
    not_taken: dict[tuple[str, str], str] = {}
    attempt = _Attempt(build, parsed, now, frozenset())
    attempt.run()
    # A wish that comes to nothing (a hold written down for a thing that lay hidden) must not
    # land as if it had: it is left out, and said.
    for _ in range(3):
        idle = attempt.without_effect()
        if not idle.keys() - not_taken.keys():
            break
        not_taken |= idle
        attempt = _Attempt(build, parsed, now, frozenset(not_taken))
        attempt.run()
    problems = [*parsed.problems, *attempt.problems]
    for (section, key), what in not_taken.items():
        item = parsed.of(section)[key]
        remedy = "write down on its page what was done"
        problems.append(Problem(item.where, what, remedy, "doubtful"))
    return Comparison(tuple(attempt.differences), tuple(dict.fromkeys(problems)))


@dataclass(slots=True)
class _Attempt:
    """One walk through the file, everything tried on a build as it goes."""

    build: Build
    parsed: Parsed
    now: datetime
    left: frozenset[tuple[str, str]]
    differences: list[Difference] = field(default_factory=list)
    refused: set[tuple[str, str]] = field(default_factory=set)
    wishes: Wishes = field(default_factory=Wishes)
    trial: Trial = field(init=False)
    setting: Setting = field(init=False)

    def __post_init__(self) -> None:
        self.trial = Trial(self.build, self.now)
        self.setting = Setting(zone_of(self.build))

    @property
    def problems(self) -> list[Problem]:
        return self.wishes.problems

    def run(self) -> None:
        self._check_names()
        if self._check_circles():
            return
        for section in SECTIONS:
            for item in self._items(section):
                if item.place not in self.refused:
                    self._definition(item)
            if section.name == "order":
                self._grant_all(self._there("order"), w.goods_in)
                self._grant_all(self._there("order"), w.order_cancelled)
            elif section.name == "need":
                self._grant_all(self._there("need"), w.need_looked_for)
        self._what_happened()
        self._what_is_not_there()

    def _items(self, section: Section) -> list[Item]:
        """Return the items of a section so that what is named comes before what names it."""
        found = self.parsed.of(section.name)
        if section.name not in ("job", "gate"):
            return list(found.values())
        return [found[key] for key in in_order(_after(found))]

    # --- definitions -------------------------------------------------------------------------

    def _definition(self, item: Item) -> None:
        section = item.section
        held = section.held(self.trial.build).get(item.key)
        new = section.record.write(item.value, self.setting)
        old = None if held is None else section.record.write(held, self.setting)
        at = section.happened_at(item.value)
        if section.name == "placement":
            at = item.facts.at
        elif section.name == "holding":
            at = item.facts.seen
            if old == new:
                self._seen_again(item)
        if old == new:
            return
        change = section.change(item.value)
        if old is not None and section.name == "order":
            change = _order_change(old, new, item)
        sentence = _sentence(section, item, old, new)
        self._take(Wish(item, change, sentence, at), "stops")

    def _seen_again(self, item: Item) -> None:
        seen, known = item.facts.seen, self.trial.build.holding_times.get(item.key)
        if seen is None or known is None or w.same_second(seen, known):
            return
        if seen > known:
            sentence = f"{item.section.title(item.value)} was seen again"
            self._take(Wish(item, c.HoldingSet(item.value), sentence, seen), "stops")
        else:
            self.wishes.doubt(item, "seen", "it was seen again later")

    def _check_names(self) -> None:
        """Find names of things that neither the file nor the build has."""
        known = {
            section.name: {*section.held(self.build), *self.parsed.of(section.name)}
            for section in SECTIONS
        }
        for item in self.parsed.items:
            for each in item.section.record.fields:
                named = getattr(item.value, each.attr)
                if not each.kind.of or named is None:
                    continue
                for name in (named,) if isinstance(named, str) else named:
                    if name not in known[each.kind.of]:
                        hint = nearest(name, known[each.kind.of])
                        remedy = hint or f"name one that is there, or add it under {each.kind.of}"
                        what = f"there is no {BY_NAME[each.kind.of].what} '{name}'"
                        severity: Severity = "stops" if each.kind.must else "doubtful"
                        self.problems.append(
                            Problem(f"{item.where}, {each.key}", what, remedy, severity)
                        )
                        if severity == "stops":
                            self.refused.add(item.place)

    def _check_circles(self) -> bool:
        """Find things of the file that would wait for each other; nothing else is tried then."""
        closed = False
        for name in ("job", "gate"):
            found = self.parsed.of(name)
            cycle = find_cycle(_after(found))
            if cycle:
                closed = True
                titles = [found[key].value.title for key in (*cycle, cycle[0])]
                what = f"these {name}s would wait for each other: {' -> '.join(titles)}"
                where = f"{found[cycle[0]].where}, after"
                self.problems.append(Problem(where, what, "take one of these steps out"))
        return closed

    # --- what happened -----------------------------------------------------------------------

    def _what_happened(self) -> None:
        jobs, proofs, temps, gates = (
            self._there(each) for each in ("job", "proof", "temp", "gate")
        )
        stated = [item for item in proofs if item.facts.state is not None]
        # Asked twice: taking a job in again shows how it stood before it was left out.
        self._grant_all((*jobs, *jobs), w.job_undone)
        self._grant_all(self._there("proof"), w.proof_uncovered)
        later = self._later(jobs, stated)
        for item in stated:
            wished = w.proof_before_jobs(item, self.trial.build, later[item.key], self.wishes)
            self._put(item, wished)
        self._grant_all(jobs, w.job_done)
        for item in stated:
            self._put(item, w.proof_after_jobs(item, later[item.key]))
        self._grant_all(temps, w.temp_on_car)
        self._grant_all(gates, w.gate_passed)
        self._grant_all(jobs, w.job_begun)

    def _there(self, name: str) -> list[Item]:
        """Return the items of a section whose definitions are in the build by now."""
        held = BY_NAME[name].held(self.trial.build)
        return [item for item in self._items(BY_NAME[name]) if item.key in held]

    def _later(self, jobs: list[Item], proofs: list[Item]) -> dict[str, ProofStanding]:
        """Return how each proof would stand with the jobs done and nothing said of itself."""
        ahead = Trial(self.trial.build, self.now)
        for item in jobs:
            if item.place not in self.left:
                for wish in w.job_done(item, ahead.build, Wishes()):
                    ahead.take(wish.change, wish.at)
        records = ahead.build.proofs
        return {each.key: standing_of_proof(ahead.build, records[each.key]) for each in proofs}

    def _grant_all(
        self, items: Iterable[Item], wanted: Callable[[Item, Build, Wishes], Iterator[Wish]]
    ) -> None:
        for item in items:
            self._put(item, wanted(item, self.trial.build, self.wishes))

    def _put(self, item: Item, wished: Iterable[Wish]) -> None:
        if item.place in self.left:
            return
        for wish in tuple(wished):
            if not self._take(wish, "doubtful"):
                return

    def _take(self, wish: Wish, severity: Severity) -> bool:
        """Try a wish; what is refused becomes a problem."""
        where = wish.item.where
        if wish.at is not None and wish.at > self.now + _AHEAD:
            what = f"{wish.at:%Y-%m-%d %H:%M} is still to come"
            self.problems.append(Problem(where, what, "write when it did happen", "stops"))
            self.refused.add(wish.item.place)
            return False
        refused = self.trial.take(wish.change, wish.at)
        if refused is not None:
            self.refused.add(wish.item.place)
            self._refused(where, wish.sentence, refused, severity)
            return False
        sentence = f"{wish.sentence[0].upper()}{wish.sentence[1:]}."
        self.differences.append(Difference(sentence, wish.change, wish.at, wish.item.line))
        return True

    def _refused(
        self, where: str, sentence: str, refused: BareshellError, severity: Severity
    ) -> None:
        what, remedy = problem_of(refused)
        if severity == "doubtful":
            what = f"not taken ({sentence}): {what}"
        self.problems.append(Problem(where, what, remedy, severity))

    def without_effect(self) -> dict[tuple[str, str], str]:
        """Return the items that stand otherwise than they say, though nothing was refused."""
        found: dict[tuple[str, str], str] = {}
        build = self.trial.build
        for item in self.parsed.items:
            says = _says_otherwise(item, build)
            if says and item.place not in self.left | self.refused:
                found[item.place] = says
        return found

    # --- what the file does not have ---------------------------------------------------------

    def _what_is_not_there(self) -> None:
        for section in reversed(SECTIONS):
            if section.name not in self.parsed.complete or section.single:
                continue
            here = self.parsed.of(section.name)
            for key, value in section.held(self.build).items():
                if key not in here:
                    self._left_out(section, key, section.title(value))

    def _left_out(self, section: Section, key: str, title: str) -> None:
        where = "complete"
        if section.left_out is None:
            what = f"{title} is not in the file and stays in the build"
            remedy = "what becomes of it is written down on its page"
            self.problems.append(Problem(where, what, remedy, "note"))
            return
        try:
            found = section.left_out(self.trial.build, key)
        except BareshellError as error:
            self._refused(where, title, error, "doubtful")
            return
        if found is None or key not in section.held(self.trial.build):
            return
        sentence, change = found
        refused = self.trial.take(change)
        if refused is not None:
            self._refused(where, title, refused, "doubtful")
            return
        words = f"{sentence[0].upper()}{sentence[1:]}: it is not in the file, which is complete."
        self.differences.append(Difference(words, change))


def _after(found: Mapping[str, Item]) -> dict[str, tuple[str, ...]]:
    """Return what each item of a file comes after."""
    return {key: item.value.after for key, item in found.items()}


def _says_otherwise(item: Item, build: Build) -> str:
    """Say how an item would still stand when that is not what the file says."""
    if item.key not in item.section.held(build):
        return ""
    match item.section.name:
        case "placement":
            stands = build.placement
            if stands is not None and stands != item.value and item.facts.at is not None:
                return "the record has the car standing otherwise since a later time"
        case "job":
            state, wanted = build.jobs[item.key].state, item.facts.status
            as_done = wanted is JobStatus.DONE_BEFORE and state.status is JobStatus.DONE
            if wanted is not None and wanted is not state.status and not as_done:
                return f"its status would still be '{state.status}', not '{wanted}'"
        case "proof":
            standing, wanted = standing_of_proof(build, build.proofs[item.key]), item.facts.state
            if wanted is not None and wanted is not standing.state:
                return (
                    f"it would still be '{standing.state}', not '{wanted}': how a proof stands "
                    "follows from what was done, when, and what hides it"
                )
        case "temp":
            wanted = item.facts.on_car
            if wanted is not None and wanted != temp_is_open(build, build.temps[item.key]):
                return "whether it is on the car follows from its jobs, and they say otherwise"
    return ""


def _order_change(old: Mapping[str, Plain], new: Mapping[str, Plain], item: Item) -> c.Change:
    """Return the smallest change that says what became of an order."""
    moved = {key for key in (*old, *new) if old.get(key) != new.get(key)}
    if moved == {"expected_on"}:
        return c.OrderExpected(item.key, item.value.expected_on, w.FROM_FILE)
    exchange: Exchange | None = item.value.exchange
    if moved == {"exchange"} and exchange is not None and exchange.returned_on is not None:
        before, after = dict(_table(old)), dict(_table(new))
        if before.pop("returned_on", None) != after.pop("returned_on") and before == after:
            return c.ExchangeReturned(item.key, exchange.returned_on)
    return c.OrderSet(item.value)


def _table(order: Mapping[str, Plain]) -> Mapping[str, Plain]:
    found = order.get("exchange", {})
    return found if isinstance(found, dict) else {}


def _sentence(
    section: Section, item: Item, old: Mapping[str, Plain] | None, new: Mapping[str, Plain]
) -> str:
    title = section.title(item.value)
    if old is None:
        return f"{title} is described" if section.single else f"new: {title}"
    return f"{title}: {changed_words(section.record, old, new)}"
