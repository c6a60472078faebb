"""The brake file: what is written is read again, and what is wrong is named with its line."""

from __future__ import annotations

import tomllib
from itertools import chain
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings

from bareshell.brakes.starters import STARTERS, starter
from bareshell.errors import BadInput
from bareshell.io.brake_file import (
    read_brake_file,
    shortest_brake_file,
    write_brake_file,
    write_brake_system,
)
from bareshell.io.brake_file.guide import guide
from bareshell.io.brake_file.keys import (
    LINE_KEYS,
    PART_KEYS,
    PORT_KEYS,
    choice_keys,
    figure_keys,
)
from bareshell.io.brake_file.read import TOP_KEYS
from bareshell.model.brake import BrakeSystem, LineKind, PartKind, fields_of
from bareshell.model.trust import Trust
from tests.brakes.systems import any_systems

PAGE = Path(__file__).parents[2] / "docs" / "brake-file.md"

slow = settings(max_examples=40, suppress_health_check=[HealthCheck.too_slow], deadline=None)
slower = settings(slow, max_examples=8, phases=(Phase.explicit, Phase.reuse, Phase.generate))


class TestThereAndBack:
    """Nothing is lost or changed on the way through a file."""

    @slow
    @given(system=any_systems())
    def test_whole(self, system: BrakeSystem) -> None:
        """Any brakes at all, written whole, are read as they were."""
        found = read_brake_file(write_brake_file(system))
        assert not [each for each in found.problems if each.severity == "stops"]
        assert found.system == system

    @slower
    @given(system=any_systems())
    def test_from_the_nearest_starter(self, system: BrakeSystem) -> None:
        """However much was changed, the short form says the same brakes."""
        assert read_brake_file(shortest_brake_file(system)).system == system

    def test_the_text_is_toml_to_the_standard_library(self) -> None:
        """The text holds what the mapping holds, read by a reader that is not ours."""
        system = starter("diagonal tandem", threads="inch")
        held = tomllib.loads(write_brake_file(system))
        assert held == {"format": 1, **write_brake_system(system)}

    def test_from_a_starter_only_what_differs_is_written(self) -> None:
        """Somebody who changes both front calipers writes one table."""
        text = (
            'start = "front-rear tandem"\n\n[[part]]\nid = "caliper-front"\n'
            'a_bore = "54 mm measured"\n'
        )
        system = read_brake_file(text).system
        assert system is not None
        for side in ("left", "right"):
            bore = system.part(f"caliper-front-{side}").figures["a_bore_m"]
            assert (bore.value, bore.trust) == (0.054, Trust.MEASURED)
        written = write_brake_file(system, start="front-rear tandem")
        assert written.count("[[part]]") == 1
        assert 'id = "caliper-front"\na_bore = "54 mm measured"\n' in written

    def test_a_starter_stretches_to_the_car_that_the_file_gives(self) -> None:
        """A longer wheelbase moves the rear, as it does for a starter drawn for that car."""
        text = 'start = "single line"\n[[part]]\nid = "car"\nwheelbase = "3 m measured"\n'
        system = read_brake_file(text).system
        assert system is not None
        drawn = starter("single line", wheelbase_m=3.0)
        assert system.part("drum-rear-left").at_m == drawn.part("drum-rear-left").at_m
        assert read_brake_file(shortest_brake_file(system)).system == system


class TestLaidOver:
    """What is written of a part goes over what its starter has."""

    def test_one_word_about_a_bleed_screw_leaves_the_rest_of_its_caliper(self) -> None:
        """Ports are laid over one by one."""
        text = (
            'start = "front-rear tandem"\n[[part]]\nid = "caliper-front-left"\n'
            'ports = [{ name = "bleed", at_top = true }]\n'
        )
        system = read_brake_file(text).system
        assert system is not None
        caliper = system.part("caliper-front-left")
        assert caliper.port("bleed").at_top is True
        assert caliper.port("bleed").bleeds
        assert caliper.port("in").chamber == "a"

    def test_one_end_of_a_pipe_can_be_moved(self) -> None:
        """The other end and the fittings stay."""
        text = (
            'start = "front-rear tandem"\nthreads = "inch"\nwithout = ["valve-rear", "pipe-rear"]\n'
            '[[line]]\nid = "pipe-to-rear-valve"\ntitle = "long pipe"\nto = "bracket-rear.pipe"\n'
        )
        found = read_brake_file(text)
        assert found.system is not None
        line = found.system.line("pipe-to-rear-valve")
        assert (line.ends[1].part, line.ends[1].port) == ("bracket-rear", "pipe")
        assert line.ends[1].fitting.thread == "3/8-24 UNF"
        assert "valve-rear" not in [part.id for part in found.system.parts]
        assert found.lines == {"pipe-to-rear-valve": 4}

    def test_a_figure_of_the_starter_can_be_unknown(self) -> None:
        """Nobody has counted the pistons: then nothing is taken for granted."""
        text = (
            'start = "two lines into one caliper"\n[[part]]\nid = "caliper-front-left"\n'
            'a_pistons = "unknown"\n'
        )
        system = read_brake_file(text).system
        assert system is not None
        assert "a_pistons" not in system.part("caliper-front-left").figures

    def test_how_a_figure_was_typed_is_kept(self) -> None:
        """A question about its unit needs the figure as it was typed."""
        text = 'start = "single line"\n[[part]]\nid = "master"\nbore = "3/4 in"\n'
        typed = read_brake_file(text).typed["master.bore_m"]
        assert (typed.figure, typed.mark, typed.typed) == (0.75, "in", "3/4 in")


BASE = 'start = "single line"\n'
MASTER = f'{BASE}[[part]]\nid = "master"\n'


class TestWhatIsWrong:
    """Every problem names the line, the key, what was wrong and what would be right."""

    @pytest.mark.parametrize(
        ("text", "says"),
        [
            (f'{MASTER}boar = "19 mm"\n', "line 4, part 'master', boar: a master cylinder has"),
            (f'{MASTER}boar = "19 mm"\n', "Did you mean 'bore'?"),
            (f'{MASTER}bore = "wide"\n', "bore: 'wide' is not a length. Write a figure"),
            (f"{MASTER}bore = 19.05\n", "bore: 19.05 has no unit. Write it in quotation marks"),
            (f'{MASTER}bore = "54 m"\n', "was 54 mm meant?"),
            (f'{MASTER}form = "tandom"\n', "form cannot be 'tandom'. Did you mean 'tandem'?"),
            (
                f'{MASTER}at = "here"\n',
                "at: 'here' is no place. Write it in metres behind the front axle",
            ),
            (f'{MASTER}wheel = "front lef"\n', "Did you mean 'front left'?"),
            (f"{MASTER}bore = true\n", "is no figure"),
            (f"{MASTER}ports = [{{ name = 3 }}]\n", "ports, port 2, name: 3 is not words"),
            (f'{MASTER}ports = [{{ nam = "x" }}]\n', "Did you mean 'name'?"),
            (f'{MASTER}ports = [{{ name = "out", at_top = 1 }}]\n', "port 'out', at_top: 1 is nei"),
            (f'{BASE}[[part]]\nid = "mastr"\n', "no part 'mastr' to begin from. Did you mean 'mas"),
            (f'{BASE}[[part]]\nid = "x"\nkind = "calliper"\n', "Did you mean 'caliper'?"),
            (f"{BASE}[[part]]\nbore = 3\n", 'part 1: it has no id. Write id = "master".'),
            (f'{BASE}[part]\nid = "x"\n', "Write each header as [[part]], in two brackets."),
            (f'{BASE}without = ["valv"]\n', "the starter has no part or line 'valv'"),
            (f'{BASE}[[line]]\nid = "hose-rear"\nto = 7\n', "to: 7 is no end"),
            (f'{BASE}[[line]]\nid = "hose-rear"\nto = {{ att = "x" }}\n', "Did you mean 'at'?"),
            ('start = "singel line"\n', "line 1, start: 'singel line' is none of its words. Did"),
            (f"{BASE}stat = 1\n", "line 2, stat: there is no such key in a brake file. Did you"),
            ("format = 9\n", "9 is a newer format than this bareshell reads"),
            ('format = "x"\n', "is no format of a brake file. Write format = 1."),
            ("", "there is nothing in it. Name a starter: single line"),
            (f'{BASE}role = "standart"\n', "role: 'standart' is none of its words. Did you mean"),
            (f"{BASE}title = 3\n", "title: 3 is not words"),
            (
                f'{MASTER}[[part]]\nid = "pipe-rear"\ntitle = "x"\nkind = "tee"\n',
                "two parts or lines are called pipe-rear",
            ),
        ],
    )
    def test_is_said(self, text: str, says: str) -> None:
        """The file is not taken, and the sentence is there."""
        found = read_brake_file(text)
        assert found.stops
        assert found.system is None or "without" in text
        assert says in " | ".join(each.describe() for each in found.problems)

    def test_a_thread_that_no_table_knows_is_kept_as_a_doubt(self) -> None:
        """Old cars are odd; the file is taken and the doubt is said."""
        text = f'{BASE}[[line]]\nid = "hose-rear"\nto = {{ thread = "17/32 x 21" }}\n'
        found = read_brake_file(text)
        assert found.system is not None
        assert [each.severity for each in found.problems] == ["doubtful"]
        assert found.system.line("hose-rear").ends[1].fitting.thread == "17/32 x 21"

    def test_a_text_that_is_no_toml_names_the_line(self) -> None:
        """A missing quotation mark is the usual slip."""
        with pytest.raises(BadInput, match="brake file, line 2: it cannot be read from here on"):
            read_brake_file('start = "single line"\ntitle = "no end\n')


class TestKeys:
    """The keys are the model's own names, the unit taken off."""

    @pytest.mark.parametrize("kind", [*PartKind, *LineKind])
    def test_every_figure_and_choice_has_a_key_of_its_own(self, kind: PartKind | LineKind) -> None:
        """No two figures, choices or fixed keys share a key."""
        fixed = PART_KEYS if isinstance(kind, PartKind) else LINE_KEYS
        keys = [*figure_keys(kind), *choice_keys(kind), *fixed]
        assert len(set(keys)) == len(keys)
        assert len(figure_keys(kind)) == len(fields_of(kind))


class TestTheGuide:
    """The page says every key, and its examples are true."""

    def test_its_tables_are_those_of_the_model(self) -> None:
        """A figure that is added to the model is missed here at once."""
        page = PAGE.read_text(encoding="utf-8")
        for line in guide().splitlines():
            assert line in page, f"run scripts/brake-file-guide: {line}"
        for key in chain(TOP_KEYS, PART_KEYS, LINE_KEYS, PORT_KEYS):
            assert f"| `{key}` |" in page, key
        for name in STARTERS:
            assert f"| `{name}` |" in page

    def test_its_examples_can_be_read(self) -> None:
        """Each example is read without a doubt, and the first says what the page says of it."""
        page = PAGE.read_text(encoding="utf-8")
        examples = [each.split("```", maxsplit=1)[0] for each in page.split("```toml\n")[1:]]
        assert len(examples) >= 2
        found = [read_brake_file(example) for example in examples]
        for each in found:
            assert not each.problems
            assert each.system is not None
        first = found[0].system
        assert first is not None
        assert first.part("master").figures["bore_m"].trust is Trust.MARKED
        assert first.part("caliper-front-right").figures["pad_friction"].high == 0.42
        assert first.part("fluid").choices["grade"] == "DOT 4"
