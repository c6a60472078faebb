"""Understanding a sheet: its header, its kind, its columns, then every row, tried on the build."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, fields, replace
from datetime import datetime
from functools import partial

from bareshell.errors import BareshellError, Problem
from bareshell.io.build_file.trial import Trial, problem_of
from bareshell.io.sheets.alike import alike, free_name, named_exactly
from bareshell.io.sheets.desk import Desk
from bareshell.io.sheets.figures import Written, is_unclear_day, order_of_days
from bareshell.io.sheets.grid import Grid
from bareshell.io.sheets.job_rows import system_called
from bareshell.io.sheets.meanings import (
    Column,
    Confidence,
    Meaning,
    SheetKind,
    columns_of,
    find_header,
    guess_kind,
)
from bareshell.io.sheets.preview import (
    Choices,
    Preview,
    Question,
    RowChoice,
    RowRead,
    RowState,
)
from bareshell.io.sheets.rows import Row, Skipped, rows_of
from bareshell.io.sheets.things import DESKS, Known
from bareshell.model.build import Build
from bareshell.model.changes import Change, JobSet
from bareshell.model.job import Job
from bareshell.model.network import find_cycle, in_order

__all__ = ["preview_sheet", "preview_sheets"]

_LANDING = (SheetKind.JOBS, SheetKind.NEEDS, SheetKind.HOLDINGS, SheetKind.ORDERS)
_LOOKED_FOR = "Part, Item or Job; Qty; Hours; Where or Bin; Supplier; ETA; Price; Notes"


def preview_sheets(
    build: Build,
    grids: Sequence[Grid],
    now: datetime,
    *,
    choices: Mapping[str, Choices] | None = None,
    file_name: str = "",
) -> tuple[Preview, ...]:
    """Understand all sheets of a file, each on what the ones before it would add.

    Jobs come before the parts that they want, whatever the order of the sheets.

    Parameters
    ----------
    build : Build
        The build as it stands.
    grids : sequence of Grid
        The sheets.
    now : datetime
        The time, in the garage's zone.
    choices : mapping of str to Choices, optional
        What the person said, by the name of the sheet.
    file_name : str
        The file's name; it may say what the list is.

    Returns
    -------
    tuple of Preview
        In the order in which they land.
    """
    said = choices or {}
    known = [(grid, said.get(grid.name, Choices())) for grid in grids]
    by_kind = sorted(known, key=lambda pair: _turn(pair[0], pair[1], file_name))
    found = []
    for grid, chosen in by_kind:
        preview = preview_sheet(build, grid, now, choices=chosen, file_name=file_name)
        found.append(preview)
        trial = Trial(build, now)
        for at, change in preview.changes:
            trial.take(change, at)
        build = trial.build
    return tuple(found)


def _turn(grid: Grid, choices: Choices, file_name: str) -> int:
    kind, _, _ = _shape(grid, choices, file_name)
    return _LANDING.index(kind) if kind is not None else len(_LANDING)


def _shape(
    grid: Grid, choices: Choices, file_name: str
) -> tuple[SheetKind | None, int | None, tuple[Column, ...]]:
    """Return what a sheet is a list of, the row of its header, and its columns."""
    header = choices.header_row - 1 if choices.header_row else find_header(grid)
    if header is None or not 0 <= header < len(grid.rows):
        return choices.kind, None, ()
    columns = tuple(_chosen(column, choices) for column in columns_of(grid, header))
    kind = choices.kind or guess_kind(columns, grid.name, file_name)
    return kind, header, columns


def _chosen(column: Column, choices: Choices) -> Column:
    if column.letters in choices.columns:
        meaning = choices.columns[column.letters]
        return replace(column, meaning=meaning, confidence=Confidence.SAID)
    if column.meaning in choices.columns.values() and column.meaning is not Meaning.NOTE:
        return replace(column, meaning=None, confidence=None)  # another column has it now
    return column


def preview_sheet(
    build: Build,
    grid: Grid,
    now: datetime,
    *,
    choices: Choices = Choices(),  # noqa: B008 - frozen
    file_name: str = "",
) -> Preview:
    """Understand one sheet.

    Parameters
    ----------
    build : Build
        The build that it would enter.
    grid : Grid
        The sheet.
    now : datetime
        The time, in the garage's zone.
    choices : Choices
        What the person said.
    file_name : str
        The file's name.

    Examples
    --------
    >>> from datetime import UTC
    >>> grid = Grid("Shelf", (("Part", "Qty", "Bin"), ("pipe nut", "4 off", "B2")))
    >>> seen = preview_sheet(Build(), grid, datetime(2026, 3, 4, tzinfo=UTC))
    >>> seen.kind.value, seen.rows[0].words
    ('parts on the shelf', '4 x pipe nut, in B2')
    """
    kind, header, columns = _shape(grid, choices, file_name)
    if choices.leave_out:
        return Preview(
            grid.name, kind, None if header is None else header + 1, columns, left_out=True
        )
    if header is None:
        return Preview(grid.name, None, None, problems=(_no_header(grid),))
    if kind is None or not any(column.meaning is Meaning.TITLE for column in columns):
        problem = _no_title(grid, columns)
        return Preview(grid.name, kind, header + 1, columns, problems=(problem,))
    return _Reading(build, grid, now, choices, kind, header, columns).read()


def _no_header(grid: Grid) -> Problem:
    seen = [f"'{cell}'" for row in grid.rows[:12] for cell in row if isinstance(cell, str) and cell]
    found = f"the first words in it are {', '.join(seen[:6])}" if seen else "no words are in it"
    return Problem(
        f"sheet '{grid.name}'",
        f"no row of headers was found: looked for columns such as {_LOOKED_FOR}; {found}",
        "say which row the headers are in and what each column means, or leave this sheet out",
    )


def _no_title(grid: Grid, columns: Sequence[Column]) -> Problem:
    found = ", ".join(f"'{column.header}'" for column in columns if column.header)
    return Problem(
        f"sheet '{grid.name}'",
        "no column names the things in it: looked for Part, Item, Description, Job or Task, and "
        f"found {found or 'none with a header'}",
        "say which column does, or leave this sheet out",
    )


@dataclass(slots=True)
class _Reading:
    build: Build
    grid: Grid
    now: datetime
    choices: Choices
    kind: SheetKind
    header: int
    columns: tuple[Column, ...]
    problems: list[Problem] = field(default_factory=list)
    questions: list[Question] = field(default_factory=list)

    def read(self) -> Preview:
        listed = list(rows_of(self.grid, self.header, self.columns, self._is_group))
        rows = [each for each in listed if isinstance(each, Row)]
        desk = Desk(self.build, self._written(rows), self.choices)
        self._say_what_is_left_out([each for each in listed if isinstance(each, Skipped)])
        names = self._names(rows, desk)
        read = [self._row(row, names[row.number], desk) for row in rows]
        read, landing = self._tried(read)
        where = f"sheet '{self.grid.name}'"
        if not rows:
            self.problems.append(Problem(where, "no rows follow its header", "", "note"))
        for words, count in desk.without.items():
            verb, _, rest = words.partition(" ")
            one = f"1 row {'has' if verb == 'have' else f'{verb}s'} {rest}"
            says = one if count == 1 else f"{count} rows {words}"
            self.problems.append(Problem(where, says, "", "note"))
        return Preview(
            self.grid.name,
            self.kind,
            self.header + 1,
            self.columns,
            tuple(read),
            tuple(self.problems),
            tuple(self.questions),
            landing=landing,
        )

    def _is_group(self, words: str) -> bool:
        if self.kind is SheetKind.JOBS:
            return system_called(words) is not None
        titles = {key: record.job.title for key, record in self.build.jobs.items()}
        return self.kind is SheetKind.NEEDS and named_exactly(words, titles) is not None

    # --- the sheet as a whole ----------------------------------------------------------------

    def _written(self, rows: Sequence[Row]) -> Written:
        days = [row.cell(m) for row in rows for m in (Meaning.ORDERED_ON, Meaning.EXPECTED_ON)]
        order = order_of_days(days)
        if self.choices.day_first is not None:
            order = "day first" if self.choices.day_first else "month first"
        unclear = next((str(day) for day in days if is_unclear_day(day)), None)
        if order is None and unclear is not None and self.kind is SheetKind.ORDERS:
            first, second = unclear.replace("-", "/").split("/")[:2]
            self.questions.append(
                Question(
                    "day_first",
                    f"in dates such as {unclear}, is {first} the day or the month",
                    (f"day {first} of month {second}", f"day {second} of month {first}"),
                )
            )
        car = self.build.car
        comma = self.choices.comma
        if comma is None:
            comma = True if self.grid.comma else _comma_of(rows)
        currency = self.choices.currency or (car.currency if car is not None else "GBP")
        return Written(self.now.date(), order, comma, currency)

    def _say_what_is_left_out(self, skipped: Sequence[Skipped]) -> None:
        where = f"sheet '{self.grid.name}'"
        for each in skipped:
            place = f"{where}, row {each.number}"
            self.problems.append(Problem(place, f"left out as {each.words}", "", "note"))
        for column in self.columns:
            if column.meaning is None and column.examples:
                what = f"'{column.header}'" if column.header else "which has no header"
                self.problems.append(
                    Problem(
                        f"{where}, column {column.letters}",
                        f"{what} is left out: {', '.join(column.examples)}",
                        "say what it means, or put it under note to keep it",
                        "note",
                    )
                )

    def _names(self, rows: Sequence[Row], desk: Desk) -> dict[int, tuple[str, Known | None]]:
        """Give each row a short name of its own, and find what is in the build already."""
        held = {each.key: each for each in DESKS[self.kind].known(self.build)}
        desk.job_titles = {key: record.job.title for key, record in self.build.jobs.items()}
        taken = set(held)
        names: dict[int, tuple[str, Known | None]] = {}
        for row in rows:
            title = row.text(Meaning.TITLE) or row.text(Meaning.NUMBER)
            own = row.text(Meaning.ID)
            same = held.get(own) or self._same(row, held)
            adds = self.choices.rows.get(row.number) is RowChoice.ADD
            if same is not None and not adds:
                names[row.number] = (same.key, same)
                continue
            name = own if own and own not in taken else free_name(title, taken)
            taken.add(name)
            names[row.number] = (name, None)
            if self.kind is SheetKind.JOBS:
                desk.job_titles[name] = title
        return names

    def _same(self, row: Row, held: Mapping[str, Known]) -> Known | None:
        """Return what the build has that is the same by title and size."""
        size = (row.text(Meaning.SIZE), row.text(Meaning.NUMBER))
        wanted = (alike(row.text(Meaning.TITLE), *size), alike(row.text(Meaning.TITLE)))
        for each in held.values():
            by_title = not any(size) and alike(each.title) == wanted[1]
            if (by_title or each.alike == wanted[0]) and self._is_for_the_same(row, each):
                return each
        return None

    def _is_for_the_same(self, row: Row, known: Known) -> bool:
        """Whether what else tells two alike things apart agrees: the job, the shelf, the shop."""
        thing = known.thing
        if self.kind is SheetKind.NEEDS and row.text(Meaning.JOB):
            job = self.build.jobs.get(thing.job)
            said = alike(row.text(Meaning.JOB))
            return job is not None and said in (alike(job.job.title), alike(thing.job))
        if self.kind is SheetKind.HOLDINGS and row.text(Meaning.WHERE) and thing.where:
            return alike(row.text(Meaning.WHERE)) == alike(thing.where)
        if self.kind is SheetKind.ORDERS and row.text(Meaning.SUPPLIER) and thing.supplier:
            return alike(row.text(Meaning.SUPPLIER)) == alike(thing.supplier)
        return True

    # --- a row -------------------------------------------------------------------------------

    def _row(self, row: Row, name: tuple[str, Known | None], desk: Desk) -> RowRead:
        kind = DESKS[self.kind]
        key, same = name
        choice = self.choices.rows.get(row.number)
        title = row.text(Meaning.TITLE) or row.text(Meaning.NUMBER)
        if choice is RowChoice.LEAVE_OUT:
            return RowRead(row.number, title or "no title", RowState.LEFT_OUT)
        if not title:
            row.say(Meaning.TITLE, "it has no title", "write what it is, or leave the row out")
        given = {**kind.fields(row, desk), "title": title}
        if row.stops() or any(not given.get(each) for each in kind.must):
            return self._unreadable(row, title)
        try:
            made = (
                partial(kind.make, id=key) if same is None else partial(kind.corrected, same.thing)
            )
            thing = made(**given)
        except ValueError as error:
            row.say(None, str(error), "correct it in the sheet, or leave the row out")
            return self._unreadable(row, title)
        words = kind.words(thing, self.build)
        problems = tuple(row.problems)
        if same is not None and choice is not RowChoice.CORRECT:
            there = f"{title}: there already as '{key}'{_otherwise(same.thing, thing)}"
            return RowRead(row.number, there, RowState.THERE, (), key, problems)
        # What is there already as the row has it is not written down again.
        changes: list[tuple[datetime | None, Change]] = (
            [] if same is not None and thing == same.thing else [(None, kind.change(thing))]
        )
        changes += kind.more(row, desk, thing)
        if row.stops():
            return self._unreadable(row, title)
        if not changes:
            there = f"{title}: there already as '{key}'"
            return RowRead(row.number, there, RowState.THERE, (), key, tuple(row.problems))
        state = RowState.NEW if same is None else RowState.CORRECTED
        return RowRead(
            row.number, words, state, tuple(changes), key if same else "", tuple(row.problems)
        )

    def _unreadable(self, row: Row, title: str) -> RowRead:
        problems = row.problems
        if self.choices.leave_out_unreadable:
            problems = [replace(each, severity="note") for each in problems]
        return RowRead(
            row.number, title or "no title", RowState.UNREADABLE, (), "", tuple(problems)
        )

    # --- all rows together ---------------------------------------------------------------------

    def _tried(self, read: list[RowRead]) -> tuple[list[RowRead], tuple[int, ...]]:
        """Try every row on the build, in an order in which each finds what it names."""
        read = self._without_circles(self._twice_in_the_sheet(read))
        ordered = self._in_order(read)
        trial = Trial(self.build, self.now)
        tried: dict[int, RowRead] = {}
        for row in ordered:
            refused: BareshellError | None = None
            for at, change in row.changes:
                refused = refused or trial.take(change, at)
            if refused is not None:
                what, remedy = problem_of(refused)
                severity = "note" if self.choices.leave_out_unreadable else "stops"
                problem = Problem(f"row {row.number}", what, remedy, severity)  # type: ignore[arg-type]
                row = replace(  # noqa: PLW2901 - the row as it now stands
                    row, state=RowState.UNREADABLE, changes=(), problems=(*row.problems, problem)
                )
            tried[row.number] = row
        return [tried[row.number] for row in read], tuple(row.number for row in ordered)

    def _twice_in_the_sheet(self, read: list[RowRead]) -> list[RowRead]:
        first: dict[str, int] = {}
        found = []
        for row in read:
            if row.state is RowState.NEW and row.words in first:
                what = f"row {first[row.words]} says the same"
                problem = Problem(f"row {row.number}", what, "leave one of them out?", "doubtful")
                found.append(replace(row, problems=(*row.problems, problem)))
            else:
                first[row.words] = row.number
                found.append(row)
        return found

    def _without_circles(self, read: list[RowRead]) -> list[RowRead]:
        """Leave out rows whose jobs would wait for each other, and say which."""
        found = read
        while cycle := find_cycle(_after(found)):
            jobs = _job_rows(found)
            rows = [jobs[key] for key in cycle]
            titles = [job.title for row in (*rows, rows[0]) if (job := _job_of(row)) is not None]
            what = f"these jobs would wait for each other: {' -> '.join(titles)}"
            severity = "note" if self.choices.leave_out_unreadable else "stops"
            wrong = {
                row.number: Problem(
                    f"row {row.number}, after",
                    what,
                    "take one of these steps out",
                    severity,  # type: ignore[arg-type]
                )
                for row in rows
            }
            found = [
                replace(
                    row,
                    state=RowState.UNREADABLE,
                    changes=(),
                    problems=(*row.problems, wrong[row.number]),
                )
                if row.number in wrong
                else row
                for row in found
            ]
        return found

    def _in_order(self, read: list[RowRead]) -> list[RowRead]:
        jobs, after = _job_rows(read), _after(read)
        if not jobs:
            return read
        rest = [row for row in read if not row.changes]
        return [*(jobs[key] for key in in_order(after)), *rest]


def _job_of(row: RowRead) -> Job | None:
    return next((one.job for _, one in row.changes if isinstance(one, JobSet)), None)


def _job_rows(read: list[RowRead]) -> dict[str, RowRead]:
    """Return the rows that describe a job, by its short name."""
    return {job.id: row for row in read if (job := _job_of(row)) is not None}


def _after(read: list[RowRead]) -> dict[str, tuple[str, ...]]:
    """Return what each of a sheet's jobs comes after."""
    return {job.id: job.after for row in read if (job := _job_of(row)) is not None}


def _otherwise(held: object, said: object) -> str:
    """Say in which fields a sheet differs from what is there already."""
    names = [
        each.name.replace("_", " ")
        for each in fields(held)  # type: ignore[arg-type]
        if getattr(held, each.name) != getattr(said, each.name)
    ]
    return f"; the sheet has another {', '.join(names)}" if names else ""


def _comma_of(rows: Sequence[Row]) -> bool | None:
    """Tell from a sheet's prices whether a comma parts the whole from the fraction."""
    import re

    for row in rows:
        text = row.text(Meaning.PRICE) or row.text(Meaning.PRICE_EACH)
        if re.search(r",\d{1,2}(?!\d)", text) and "." not in text:
            return True
        if re.search(r"\.\d{1,2}(?!\d)", text):
            return False
    return None
