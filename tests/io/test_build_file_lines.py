"""Where things stand in a TOML text, checked against what two other readers make of it."""

from __future__ import annotations

import tomllib
from typing import Any

import tomlkit
from hypothesis import given
from hypothesis import strategies as st

from bareshell.io.build_file.lines import Lines, find_lines

TRICKY = '''\
# a comment with [brackets] and key = value
format = 1
"quoted key" = 'it # is'
a.b . c = """
three "quotes"
# no comment
x = 1
"""
empty = ""
more = """ends in quotes"""""
literal = \'\'\'
y = 2 # still words
\'\'\'
list = [ # of things
  "one", # first
  { id = "two", deep = [ { x = 1 }, { x = 2 } ] },
  [ 3, 4 ],

]

[table] # headed
key = 2026-03-04T19:30:00Z # said
[[job]]
id = "a"
[job.wait]
hours = 12
[[job.ways]]
people = 1
[[job.ways]]
people = 2
[[job]]
id = "b"
ways = [{ people = 1 },
        { people = 2 }]
'''


def test_every_value_is_where_it_says() -> None:
    lines = find_lines(TRICKY)
    for path, line in {
        ("format",): 2,
        ("quoted key",): 3,
        ("a", "b", "c"): 4,
        ("empty",): 9,
        ("list",): 14,
        ("list", 1): 16,
        ("list", 1, "deep", 1, "x"): 16,
        ("table", "key"): 22,
        ("job", 0, "wait", "hours"): 26,
        ("job", 0, "ways", 1, "people"): 30,
        ("job", 1, "id"): 32,
        ("job", 1, "ways", 1, "people"): 34,
        ("job", 1, "no such key"): 31,
    }.items():
        assert lines.line_of(path) == line, path


def _values_agree(lines: Lines, found: dict[str, Any]) -> None:
    """Cut each value out by its span and read it alone: it must be the value of the whole."""
    for path, key in lines.keys.items():
        value: Any = found
        for part in path:
            value = value[part]
        alone = tomllib.loads("x = " + lines.text[key.value_start : key.value_end])["x"]
        assert alone == value


def test_spans_of_values_hold_exactly_the_values() -> None:
    lines = find_lines(TRICKY)
    assert len(lines.keys) == 14
    _values_agree(lines, tomllib.loads(TRICKY))


_KEY = st.text(min_size=1, max_size=6)
_LEAF = st.one_of(
    st.text(max_size=20),
    st.booleans(),
    st.integers(-(2**60), 2**60),
    st.floats(allow_nan=False, allow_infinity=False),
    st.dates(),
)
_VALUE = st.recursive(
    _LEAF,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(_KEY, inner, max_size=3),
    max_leaves=8,
)


@given(st.dictionaries(_KEY, _VALUE, max_size=5))
def test_whatever_another_writer_writes_is_found(document: dict[str, Any]) -> None:
    # tomlkit, a library made for writing TOML, lays the text out in its own way.
    text = tomlkit.dumps(document)
    try:
        found = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return  # the writer's own slip; only good TOML is promised
    _values_agree(find_lines(text), found)
