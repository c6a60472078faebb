"""The bibliography is complete, and every citation in the house points into it."""

from __future__ import annotations

import re
from pathlib import Path
from typing import get_args

import pytest

from bareshell.errors import NotFound
from bareshell.sources import SOURCES, Mark, Source, cited_in, source
from bareshell.sources.brakes import BRAKES
from bareshell.sources.measures import MEASURES
from bareshell.sources.mechanics import MECHANICS
from bareshell.sources.planning import PLANNING
from bareshell.sources.trade import TRADE

PACKAGE = Path(__file__).parents[2] / "src" / "bareshell"


def test_every_citation_names_a_source_that_is_there() -> None:
    unknown = {
        f"{path.relative_to(PACKAGE)}: {source_id}"
        for path in PACKAGE.rglob("*")
        if path.suffix in {".py", ".md", ".html"}
        for source_id, _ in cited_in(path.read_text("utf-8"))
        if source_id not in SOURCES and source_id != "id"
    }
    assert unknown == set()


def test_no_citation_is_written_so_that_it_is_missed() -> None:
    """A citation with a capital, a space or an underscore in its id would go unchecked."""
    odd = [
        f"{path.relative_to(PACKAGE)}: {mark}"
        for path in PACKAGE.rglob("*.py")
        for mark in re.findall(r"\[S:[^\]]*\]?", path.read_text("utf-8"))
        if not cited_in(mark) and "re.compile" not in mark and "([a-z0-9" not in mark
    ]
    assert odd == []


def test_no_two_sources_share_an_id() -> None:
    everything = [entry.id for entry in MEASURES + MECHANICS + BRAKES + TRADE + PLANNING]
    assert len(everything) == len(set(everything)) == len(SOURCES)


@pytest.mark.parametrize("entry", list(SOURCES.values()), ids=list(SOURCES))
def test_an_entry_can_be_found_and_says_how_it_is_known(entry: Source) -> None:
    found = source(entry.id)
    assert found.title
    assert found.mark in get_args(Mark)
    assert found.mark in found.cite()
    # A publication has a publisher; a practice, or a class of manuals, has none.
    if found.mark == "from memory":
        assert found.publisher


def test_common_practice_is_marked_as_what_it_is() -> None:
    assert source("trade-practice").mark == "common practice, no source"


def test_an_unknown_id_is_said_to_be_unknown() -> None:
    with pytest.raises(NotFound, match="no source 'hearsay'"):
        source("hearsay")


def test_a_citation_may_name_its_clause() -> None:
    text = "Held as the regulation has it [S:un-r13-h, Annex 5\n    3.1] and as found [S:limpert]."
    assert cited_in(text) == (("un-r13-h", "Annex 5 3.1"), ("limpert", ""))
    assert source("un-r13-h").cite("Annex 5 3.1").startswith("UN Regulation No. 13-H")
    assert "Annex 5 3.1" in source("un-r13-h").cite("Annex 5 3.1")
