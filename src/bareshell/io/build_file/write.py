"""Writing a build file, new or into a person's own.

Into an existing file only what has changed is written: comments, order and spelling stay as the
person has them. What the file has and the build has not is kept as a comment, never thrown away.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import UTC, tzinfo
from typing import Any

from bareshell.errors import BadInput
from bareshell.io.build_file.kinds import Mismatch, Plain, Setting, Spot
from bareshell.io.build_file.layout import key_text, table_text, value_text
from bareshell.io.build_file.lines import Header, Key, Lines, Path, find_lines
from bareshell.io.build_file.read import FORMAT, load
from bareshell.io.build_file.sections import SECTIONS, Section
from bareshell.io.build_file.shape import Field, Record
from bareshell.model.build import Build

__all__ = ["tables_of", "write_build_file", "zone_of"]

_OPENING = f"""\
# A bareshell build file: the state of one build, to read, edit and bring back in.
# Every key is explained in docs/build-file.md. A key that is not written has its default.
# Jobs, parts and proofs that are not in this file stay in the build as they are; with
# complete = true they are left out of it.
format = {FORMAT}
"""


_OPENING_WORDS = re.compile(r"(?:#[^\n]*\n)+(?=\r?\n)")


def zone_of(build: Build) -> tzinfo:
    """Return the zone that a build's clock shows; UTC when it has none that is known."""
    from zoneinfo import ZoneInfo

    try:
        return ZoneInfo(build.car.zone) if build.car is not None else UTC
    except (ValueError, OSError, KeyError):
        return UTC


def tables_of(section: Section, build: Build, setting: Setting) -> dict[str, dict[str, Plain]]:
    """Return what a section of a build holds, by id, in its canonical form."""
    found = {}
    for key, value in section.held(build).items():
        found[key] = section.record.write(value, setting)
        if section.facts is not None and section.facts_of is not None:
            found[key] |= section.facts.write(section.facts_of(build, key), setting)
    return found


def write_build_file(build: Build, existing_text: str | None = None) -> str:
    """Write a build as a build file.

    Parameters
    ----------
    build : Build
        What is written.
    existing_text : str or None
        A person's own build file. Its comments, order and spelling are kept; only values that
        have changed are written, new things are put after their like, and what the build does
        not have becomes a comment.

    Returns
    -------
    str
        The text of the file.

    Raises
    ------
    BadInput
        When the existing text is not TOML.

    Examples
    --------
    >>> from bareshell.model.build import Build
    >>> print(write_build_file(Build()).splitlines()[-1])
    format = 1
    """
    setting = Setting(zone_of(build))
    wanted = {section.name: tables_of(section, build, setting) for section in SECTIONS}
    if existing_text is None or not existing_text.strip():
        return _OPENING + "".join(
            _item_text(section, table)
            for section in SECTIONS
            for table in wanted[section.name].values()
            if table
        )
    mark = "\ufeff" if existing_text.startswith("\ufeff") else ""
    text = existing_text.removeprefix("\ufeff")
    breaks = "\r\n" if "\r\n" in text else "\n"
    if not text.endswith("\n"):
        text += breaks
    written = _Editing(text, load(text), setting).edit(wanted)
    if breaks == "\r\n":
        written = written.replace("\r\n", "\n").replace("\n", "\r\n")
    return mark + written


def _item_text(section: Section, table: Mapping[str, Plain]) -> str:
    header = f"[{section.name}]" if section.single else f"[[{section.name}]]"
    return f"\n{header}\n{table_text(table)}"


@dataclass(slots=True)
class _Editing:
    """One pass over a person's file: what to put where, then all of it at once."""

    text: str
    tables: Mapping[str, Any]
    setting: Setting
    lines: Lines = field(init=False)
    edits: list[tuple[int, int, str]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.lines = find_lines(self.text)

    def edit(self, wanted: Mapping[str, Mapping[str, dict[str, Plain]]]) -> str:
        end = self._after_opening()
        for section in SECTIONS:
            end = max(self._section(section, wanted[section.name], end), end)
        pieces = []
        done = 0
        # What was put down first comes first where two things go to the same place.
        for start, stop, put in sorted(self.edits, key=lambda each: each[0]):
            pieces += [self.text[done:start], put]
            done = max(done, stop)
        return "".join((*pieces, self.text[done:]))

    # --- a section ---------------------------------------------------------------------------

    def _section(self, section: Section, wanted: Mapping[str, dict[str, Plain]], after: int) -> int:
        """Edit a section; return where the next one's new things may be put."""
        found = self.tables.get(section.name)
        whole = self.lines.keys.get((section.name,))
        if whole is not None:
            self._in_one_value(section, wanted, found, whole)
            return whole.end
        seen: set[str] = set()
        for path, table in self._items(section, found):
            key = self._key_of(section, table, path)
            if key is None:
                continue
            if key in wanted and key not in seen:
                self._item(section, path, table, wanted[key])
            else:
                self._put_aside(path)
            seen.add(key)
        spans = [header for header in self.lines.headers if header.path[0] == section.name]
        place = max((self._body_end(header) for header in spans), default=after)
        new = [table for key, table in wanted.items() if key not in seen and table]
        if new:
            self._put(place, "".join(_item_text(section, table) for table in new))
        return place

    def _items(self, section: Section, found: object) -> list[tuple[Path, dict[str, Any]]]:
        if isinstance(found, dict):
            return [((section.name,), found)]
        listed = found if isinstance(found, list) else []
        return [
            ((section.name, number), each)
            for number, each in enumerate(listed)
            if isinstance(each, dict)
        ]

    def _key_of(self, section: Section, table: Mapping[str, object], path: Path) -> str | None:
        """Return the id of an item as the file has it; None when it cannot be told."""
        if section.single:
            return section.name
        parts = []
        for name in ("from", "to") if section.name == "move" else (section.record.keys[0],):
            value = self._read(_field(section.record, name), table.get(name), path)
            if value is None:
                return None
            parts.append(str(value))
        return ">".join(parts)

    def _in_one_value(
        self, section: Section, wanted: Mapping[str, dict[str, Plain]], found: object, whole: Key
    ) -> None:
        """Write a section anew that a person wrote as one value: ``job = [{ ... }, { ... }]``."""
        listed = found if isinstance(found, list) else [found]
        same = len(listed) == len(wanted) and all(
            isinstance(own, dict) and self._is_same(section, own, table)
            for own, table in zip(listed, wanted.values(), strict=True)
        )
        if not same:
            tables = list(wanted.values())
            value: Plain = (tables[0] if tables else {}) if section.single else tables
            self.edits.append((whole.value_start, whole.value_end, value_text(value)))

    def _is_same(
        self, section: Section, own: Mapping[str, object], table: Mapping[str, Plain]
    ) -> bool:
        known = all(key in section.keys for key in own)
        return known and not self._changed(section, (), own, table)

    # --- an item -----------------------------------------------------------------------------

    def _item(
        self, section: Section, path: Path, own: Mapping[str, object], table: Mapping[str, Plain]
    ) -> None:
        new: dict[str, Plain] = {}
        for key, value in self._changed(section, path, own, table).items():
            if key not in own and value is not None:
                new[key] = value
            else:
                self._change((*path, key), value, new)
        if new:
            self._add_keys(path, new)

    def _changed(
        self, section: Section, path: Path, own: Mapping[str, object], table: Mapping[str, Plain]
    ) -> dict[str, Plain | None]:
        """Return the keys whose value in the file is not the build's, with what it must be."""
        found: dict[str, Plain | None] = {}
        for record in (section.record, *((section.facts,) if section.facts else ())):
            for each in record.fields:
                wants = table.get(each.key, record.default(each, self.setting))
                if each.key not in own:
                    if each.key in table:
                        found[each.key] = wants
                    continue
                has = self._canonical(each, own[each.key], (*path, each.key))
                if has is None or has != wants:
                    found[each.key] = wants
        return found

    def _change(self, path: Path, value: Plain | None, new: dict[str, Plain]) -> None:
        """Put another value in the place of one, or take its line out when there is none."""
        key = self.lines.keys.get(path)
        if key is not None and value is not None:
            before = key.value_start - key.start
            self.edits.append((key.value_start, key.value_end, value_text(value, before)))
            return
        inside = [each for each in self.lines.keys.values() if each.path[: len(path)] == path]
        for each in inside:
            comment = self.text[each.value_end : each.end].strip()
            self.edits.append((each.start, each.end, f"{comment}\n" if comment else ""))
        for header in self.lines.headers:
            if header.path[: len(path)] == path:
                self.edits.append((header.start, header.end, ""))
        if value is not None:
            new[str(path[-1])] = value

    def _add_keys(self, path: Path, new: Mapping[str, Plain]) -> None:
        header = self._header(path)
        if header is None:
            # Written as "car.name = ..." at the top: go on in the same way.
            dotted = [each for each in self.lines.keys.values() if each.path[: len(path)] == path]
            name = ".".join(key_text(str(part)) for part in path)
            self._put(
                max(each.end for each in dotted),
                "".join(f"{name}.{line}\n" for line in _key_lines(new)),
            )
            return
        own = [each.end for each in self._keys_under(header)]
        self._put(max(own, default=header.end), table_text(new))

    def _put_aside(self, path: Path) -> None:
        """Turn an item that the build does not have into a comment."""
        note = "# Not in the build when this file was written, and so not read:\n"
        headers = [each for each in self.lines.headers if each.path[: len(path)] == path]
        under = {each.index for each in headers}
        spans = [(each.start, self._body_end(each)) for each in headers]
        spans += [
            (each.start, each.end)
            for each in self.lines.keys.values()
            if each.path[: len(path)] == path and each.header not in under
        ]
        for start, end in spans:
            kept = self.text[start:end].removesuffix("\n").split("\n")
            put = "".join(f"# {line}\n" if line.strip() else "#\n" for line in kept)
            self.edits.append((start, end, note + put))
            note = ""

    # --- places ------------------------------------------------------------------------------

    def _put(self, place: int, put: str) -> None:
        self.edits.append((place, place, put))

    def _after_opening(self) -> int:
        """Return the first place where a section may go: behind the keys at the top."""
        top = [each.end for each in self.lines.keys.values() if each.header < 0]
        if top:
            return max(top)
        if not self.lines.headers:
            return len(self.text)
        opening = _OPENING_WORDS.match(self.text)
        return opening.end() if opening is not None else 0

    def _header(self, path: Path) -> Header | None:
        return next((each for each in self.lines.headers if each.path == path), None)

    def _keys_under(self, header: Header) -> list[Key]:
        return [each for each in self.lines.keys.values() if each.header == header.index]

    def _body_end(self, header: Header) -> int:
        return max((each.end for each in self._keys_under(header)), default=header.end)

    # --- values ------------------------------------------------------------------------------

    def _canonical(self, each: Field, value: object, path: Path) -> Plain | None:
        found = self._read(each, value, path)
        return None if found is None else each.kind.write(found, self.setting)

    def _read(self, each: Field, value: object, path: Path) -> object | None:
        """Read one value of the file; None when it is not there or cannot be read."""
        if value is None:
            return None
        try:
            return each.kind.read(value, Spot(self.lines, path, "", self.setting, []))  # type: ignore[no-any-return]
        except (Mismatch, BadInput):
            return None


def _field(record: Record, key: str) -> Field:
    return next(each for each in record.fields if each.key == key)


def _key_lines(new: Mapping[str, Plain]) -> list[str]:
    return [f"{key_text(key)} = {value_text(value)}" for key, value in new.items()]
