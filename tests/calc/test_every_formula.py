"""What holds for every formula: its glossary, its sources, its units, and how it refuses."""

from __future__ import annotations

import re
from typing import Any

import numpy as np
import pytest
from pint import UnitRegistry

from bareshell.calc.glossary import TERMS
from bareshell.errors import BadInput
from bareshell.sources import SOURCES, cited_in
from tests.calc.examples import FORMULAS, FUNCTIONS, GOOD, arguments, numbers_of

UNIT_OF_SUFFIX = {
    "_m": "m",
    "_m2": "m2",
    "_m3": "m3",
    "_n": "N",
    "_n_m": "N/m",
    "_nm": "N.m",
    "_pa": "Pa",
    "_per_pa": "1/Pa",
    "_per_k": "1/K",
    "_m3_pa": "m3/Pa",
    "_s": "s",
    "_m_s": "m/s",
    "_m_s2": "m/s2",
    "_m2_s": "m2/s",
    "_rad_s": "rad/s",
    "_rad": "rad",
    "_kg": "kg",
    "_kg_m3": "kg/m3",
    "_j": "J",
    "_j_k": "J/K",
    "_j_kg_k": "J/(kg.K)",
    "_w": "W",
    "_w_k": "W/K",
    "_w_m2": "W/m2",
    "_w_m_k": "W/(m.K)",
    "_w_m2_k": "W/(m2.K)",
    "_c": "degC",
    "_k": "K",
    "_years": "year",
    "_g": "-",
}


def section(docstring: str, title: str) -> str:
    """One section of a docstring, without its underline."""
    found = re.search(
        rf"^    {title}\n    -+\n(.*?)(?=^    \w+\n    -+$|\Z)", docstring, re.MULTILINE | re.DOTALL
    )
    return found[1] if found else ""


def bracketed(docstring: str, title: str) -> dict[str, str]:
    """What stands in brackets at the end of each entry of a section."""
    entries = re.findall(
        r"^    (\w+)(?: : [^\n]*)?\n((?:        [^\n]*\n)+)",
        section(docstring, title),
        re.MULTILINE,
    )
    units = {name: re.search(r"\[([^\]]*)\]\s*$", text) for name, text in entries}
    return {name: found[1] if found else "none" for name, found in units.items()}


def doc(name: str) -> str:
    return FUNCTIONS[name].__doc__ or ""


@pytest.mark.parametrize("name", FUNCTIONS)
def test_every_argument_has_the_glossary_s_unit_in_its_brackets(name: str) -> None:
    said = bracketed(doc(name), "Parameters")
    assert said == {each: TERMS[each].unit for each in arguments(FUNCTIONS[name])}


@pytest.mark.parametrize("name", FUNCTIONS)
def test_what_comes_back_has_its_unit(name: str) -> None:
    returned = bracketed(doc(name), "Returns")
    assert returned
    assert "none" not in returned.values()


@pytest.mark.parametrize("name", FUNCTIONS)
def test_a_formula_says_where_it_is_from_and_what_it_was_checked_against(name: str) -> None:
    text = doc(name)
    cited = [source_id for source_id, _ in cited_in(text)]
    assert cited
    assert set(cited) <= set(SOURCES)
    assert "Checked against:" in section(text, "Notes")
    assert ">>> " in section(text, "Examples")


def test_the_glossary_holds_no_word_that_nothing_uses() -> None:
    used = {each for function in FUNCTIONS.values() for each in arguments(function)}
    assert used == set(TERMS)
    assert used == set(GOOD)


@pytest.mark.parametrize("name", [n for n in TERMS if not TERMS[n].rule.words])
def test_a_name_carries_its_unit(name: str) -> None:
    endings = [ending for ending in UNIT_OF_SUFFIX if name.endswith(ending)]
    if endings:
        assert UNIT_OF_SUFFIX[max(endings, key=len)] == TERMS[name].unit
    else:
        assert TERMS[name].unit in {"-", "W.s0.5/(m2.K)"}


# ------------------------------------------------------------------------ one and many


def flat(result: Any) -> list[Any]:
    return list(result) if isinstance(result, tuple) else [result]


def good(name: str) -> dict[str, Any]:
    return {each: GOOD[each] for each in arguments(FORMULAS[name])}


@pytest.mark.parametrize("name", FORMULAS)
def test_floats_give_floats_and_arrays_give_the_same_numbers(name: str) -> None:
    formula, given = FORMULAS[name], good(name)
    alone = flat(formula(**given))
    assert [type(part) for part in alone] == [float] * len(alone)
    assert np.isfinite(alone).all()
    many = flat(formula(**{each: as_array(value) for each, value in given.items()}))
    for one, array in zip(alone, many, strict=True):
        assert isinstance(array, np.ndarray)
        assert array.dtype == np.float64
        np.testing.assert_allclose(array, np.full(3, one), rtol=1e-12)


@pytest.mark.parametrize("name", FORMULAS)
def test_one_array_among_floats_is_enough_for_an_array(name: str) -> None:
    formula, given = FORMULAS[name], good(name)
    alone = flat(formula(**given))
    for each in numbers_of(name):
        mixed = flat(formula(**{**given, each: as_array(given[each])}))
        for one, array in zip(alone, mixed, strict=True):
            np.testing.assert_allclose(array, np.full(3, one), rtol=1e-12)


def as_array(value: Any) -> Any:
    if isinstance(value, str):
        return value
    if isinstance(value, tuple):
        return tuple(np.full(3, part) for part in value)
    return np.full(3, value)


# ------------------------------------------------------------------------ what is refused


def broken_values(each: str) -> list[float]:
    rule = TERMS[each].rule
    wrong = [float("nan"), float("-inf")]
    wrong += [] if rule.endless else [float("inf")]
    wrong += [] if rule.lowest < -1e300 else [rule.lowest if rule.above else rule.lowest - 1e-3]
    wrong += [] if rule.highest > 1e300 else [rule.highest * 1.001]
    return wrong


def among_good(value: Any, wrong: float) -> Any:
    """The wrong value as the last of many."""
    if isinstance(value, tuple):
        return (*value[:-1], np.array([value[-1], value[-1], wrong]))
    return np.array([value, value, wrong])


def instead(value: Any, wrong: Any) -> Any:
    return (*value[:-1], wrong) if isinstance(value, tuple) else wrong


@pytest.mark.parametrize("name", FORMULAS)
def test_what_breaks_a_rule_is_refused_by_its_name_alone_or_among_many(name: str) -> None:
    formula, given = FORMULAS[name], good(name)
    for each in numbers_of(name):
        for wrong in broken_values(each):
            with pytest.raises(BadInput) as alone:
                formula(**{**given, each: instead(given[each], wrong)})
            with pytest.raises(BadInput) as many:
                formula(**{**given, each: among_good(given[each], wrong)})
            for refused in (alone.value, many.value):
                assert refused.field == TERMS[each].words
                assert refused.remedy
            assert "value 3 of 3" in many.value.problem


@pytest.mark.parametrize("name", FORMULAS)
def test_what_is_not_known_or_no_number_is_refused(name: str) -> None:
    formula, given = FORMULAS[name], good(name)
    for each in numbers_of(name):
        for wrong in (None, "wide", ["wide"]):
            with pytest.raises(BadInput) as refused:
                formula(**{**given, each: instead(given[each], wrong)})
            assert refused.value.field == TERMS[each].words


def test_a_refusal_reads_as_a_sentence() -> None:
    with pytest.raises(BadInput) as refused:
        FORMULAS["master.bore_area"](-0.01905)
    assert str(refused.value) == (
        "bore: -0.01905 m is not more than zero. Give it as measured, above zero."
    )


def test_a_forgotten_argument_is_python_s_to_name() -> None:
    with pytest.raises(TypeError, match="bore_m"):
        FORMULAS["master.stroke_volume"](0.02)
    with pytest.raises(TypeError, match="bore_cm"):
        FORMULAS["master.stroke_volume"](0.02, bore_cm=1.9)


def at_the_edge(each: str) -> list[float]:
    """The ends of what a rule allows, or far out where it has no end."""
    rule = TERMS[each].rule
    low = -1e6 if rule.lowest < -1e300 else rule.lowest + (1e-12 if rule.above else 0.0)
    high = 1e12 if rule.highest > 1e300 else rule.highest
    return [low, high, float("inf")] if rule.endless else [low, high]


@pytest.mark.parametrize("name", FORMULAS)
def test_at_the_edges_there_is_an_answer_or_a_refusal(name: str) -> None:
    """Never a division by zero, a warning or a number that is none; alone as among many."""
    formula, given = FORMULAS[name], good(name)
    for each in numbers_of(name):
        for edge in at_the_edge(each):
            refused = []
            for value in (edge, np.array([edge])):
                try:
                    result = flat(formula(**{**given, each: instead(given[each], value)}))
                except BadInput as refusal:
                    refused.append(refusal.field)
                else:
                    refused.append("")
                    assert not np.isnan(result).any(), (each, edge)
            assert refused[0] == refused[1], (each, edge)


# ------------------------------------------------------------------------ units

# These hold a figure with a unit of its own: g, a delay, air, a table read at fixed points.
NOT_HOMOGENEOUS = {
    "cooling.air_conductivity",
    "cooling.air_kinematic_viscosity",
    "cooling.radiation_coefficient",
    "cooling.vane_cooling_coefficient",
    "fluid.boiling_point",
    "fluid.boiling_point_span",
    "fluid.bulk_modulus_span",
    "fluid.water_share_span",
    "hose.hose_expansion_volume",
    "stopping.deceleration_from_share",
    "stopping.prescribed_stopping_distance",
    "stopping.share_of_g",
}
SCALE = {"[length]": 1.1, "[mass]": 1.3, "[time]": 0.9, "[temperature]": 1.2}
PINT: UnitRegistry[Any] = UnitRegistry()


def scale_of(unit: str) -> float:
    """How a number of this unit grows when the base units shrink as above, by pint's reckoning."""
    written = re.sub(r"(?<=[A-Za-z])(\d+(?:\.\d+)?)", r"**\1", unit.replace("degC", "K"))
    written = re.sub(r"\.(?=[A-Za-z(])", "*", written)
    if written in {"-", "rad"}:
        return 1.0
    scale = 1.0
    for dimension, power in PINT.Unit(written).dimensionality.items():
        scale *= SCALE[str(dimension)] ** float(str(power))
    return scale


@pytest.mark.parametrize("name", [each for each in FORMULAS if each not in NOT_HOMOGENEOUS])
def test_a_formula_holds_in_any_units(name: str) -> None:
    """Each bracketed unit is read by pint; another set of base units must change nothing."""
    formula, given = FORMULAS[name], good(name)
    scaled: dict[str, Any] = {}
    for each, value in given.items():
        if isinstance(value, str):
            scaled[each] = value
            continue
        scale = scale_of(TERMS[each].unit)
        scaled[each] = (
            tuple(part * scale for part in value) if isinstance(value, tuple) else value * scale
        )
    here, there = flat(formula(**given)), flat(formula(**scaled))
    units = list(bracketed(doc(name), "Returns").values())
    if len(units) < len(here):  # a tuple of as many as were given
        units = units * len(here)
    for one, other, unit in zip(here, there, units, strict=True):
        assert other == pytest.approx(one * scale_of(unit), rel=1e-9)
