"""Pictures as files of their own, and the style sheet that both the page and the file go by."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from bareshell.draw.brake_balance import adhesion_used, distribution
from bareshell.draw.brake_file import FilePlate, inlined, svg_file, tokens
from bareshell.draw.brake_key import circuit_key
from bareshell.draw.brake_pedal import pedal_curve
from bareshell.draw.brake_pipes import pipe_sheet
from bareshell.draw.brake_places import plan_of
from bareshell.draw.brake_plan import circuit_plan
from bareshell.draw.brake_rungs import failure_ladder
from bareshell.draw.brake_slope import parking_slope
from bareshell.draw.brake_travel import pedal_travel
from bareshell.draw.brake_trust import sensitivity_bars, share_strips
from bareshell.draw.brake_warmth import boiling_curve, temperature_history
from bareshell.draw.svg import Svg
from tests.draw import brake_samples as samples
from tests.draw.brake_boxes import classes, outside, overlapping, read

STATIC = Path(__file__).parents[2] / "src" / "bareshell" / "web" / "static"
SHEETS = tuple((STATIC / name).read_text("utf-8") for name in ("look.css", "brakes.css"))
LIGHTS = ("day", "garage", "print")


def every_picture() -> dict[str, Svg]:
    plan = samples.plan()

    def href(name: str) -> str:
        return f"#{name}"

    return {
        "plan": circuit_plan(plan, failure=samples.REAR_HOSE, flow=True),
        "plan with links": circuit_plan(plan, href=href, bleeds=samples.BLEEDS),
        "plan by habit": circuit_plan(
            plan_of(samples.without_places("diagonal tandem"), standard=samples.system(), gone={})
        ),
        "adhesion": adhesion_used(samples.adhesion()),
        "distribution": distribution(samples.distribution()),
        "pedal": pedal_curve(samples.pedal()),
        "travel": pedal_travel(samples.travel()),
        "ladder": failure_ladder(samples.ladder(), href=href),
        "history": temperature_history(samples.history()),
        "boiling": boiling_curve(samples.boiling()),
        "sensitivity": sensitivity_bars(samples.sensitivity()),
        "shares": share_strips(samples.shares()),
        "slope": parking_slope(samples.slope()),
        "pipes": pipe_sheet(samples.pipes()),
    }


PICTURES = every_picture()


def document(light: str = "day") -> str:
    plan = samples.plan()
    key = circuit_key(plan, samples.REAR_HOSE)
    first = FilePlate("Both circuits in place", PICTURES["plan"], "Rear hose burst.", key)
    rest = [FilePlate(name, PICTURES[name]) for name in ("ladder", "boiling", "adhesion")]
    return svg_file([first, *rest], SHEETS, light=light)  # type: ignore[arg-type]


def styled() -> set[str]:
    """Every class that the two style sheets speak of."""
    plain = re.sub(r"/\*.*?\*/", "", "".join(SHEETS), flags=re.DOTALL)
    return set(re.findall(r"\.(-?[a-z][\w-]*)", plain))


@pytest.mark.parametrize("name", PICTURES)
def test_every_class_of_a_picture_is_in_the_style_sheets(name: str) -> None:
    assert classes(PICTURES[name]) - styled() == {"bk"} & classes(PICTURES[name]) - styled()


def test_the_brakes_style_sheet_has_no_class_that_no_picture_uses() -> None:
    own = set(re.findall(r"\.(bk-[\w-]*)", SHEETS[1]))
    keys = "".join(
        swatch
        for name in ("front-rear tandem", "single line")
        for swatch, _ in circuit_key(samples.plan(name), samples.REAR_HOSE, flow=True)
    )
    source = Path(__file__).parents[2] / "src" / "bareshell" / "draw"
    written = "".join(path.read_text("utf-8") for path in source.glob("brake_*.py"))
    used = {name for name in own if name in written or name in keys}
    made = {name for name in own if re.match(r"bk-(c|key)-", name)}  # put together from parts
    assert own - used - made == set()


def test_no_picture_sets_a_colour_of_its_own() -> None:
    """State is told by line, shape and word; colours come from the tokens alone."""
    for name, drawing in PICTURES.items():
        for node in read(drawing).iter():
            assert node.get("stroke") is None, name
            fill = node.get("fill")
            assert fill is None or fill.startswith("url(#h-"), name


@pytest.mark.parametrize("light", LIGHTS)
def test_a_file_needs_nothing_beside_it(light: str) -> None:
    text = document(light)
    assert text.startswith("<?xml")
    assert "var(" not in text
    assert 'href="#m-' not in text or 'id="m-' in text
    root = read(text.partition("?>")[2].strip())
    ids = {node.get("id") for node in root.iter() if node.get("id")}
    for node in root.iter():
        fill = node.get("fill", "")
        if fill.startswith("url(#"):
            assert fill[5:-1] in ids
    for used in re.findall(r'href="#([\w-]+)"', text):
        if used.startswith(("m-", "h-")):
            assert used in ids
    assert "http" not in text.replace("http://www.w3.org/2000/svg", "")


@pytest.mark.parametrize("light", LIGHTS)
def test_a_file_styles_every_class_that_it_uses(light: str) -> None:
    text = document(light)
    style = text.partition("<style>")[2].partition("</style>")[0]
    ruled = set(re.findall(r"\.([\w-]+)", style))
    body = text.partition("</style>")[2]
    used = {n for names in re.findall(r'class="([^"]*)"', body) for n in names.split()}
    wanted = {name for name in used if name in styled()} - {"bk-wide", "narrow", "mark"}
    assert {name for name in wanted if not name.startswith("bk-key")} <= ruled


def test_a_file_takes_the_colours_of_its_light() -> None:
    for light, ink, ground in (
        ("day", "#211b13", "#fcf8ee"),
        ("garage", "#e6a443", "#1a1208"),
        ("print", "#000", "#fff"),
    ):
        style = document(light).partition("<style>")[2].partition("</style>")[0]
        assert f".f-ink {{ fill: {ink};" in style
        assert f".f-sheet {{ fill: {ground};" in style


def test_a_file_leaves_the_rules_of_the_page_out() -> None:
    style = inlined("\n".join(SHEETS), PICTURES["plan"])
    for rule in ("ticket", "nav", "hover", "focus", "@media", "bk-wide", "margin"):
        assert rule not in style


def test_tokens_on_paper_are_black_on_white() -> None:
    found = tokens(SHEETS[0], "print")
    assert (found["--ink"], found["--oxide"], found["--sheet"]) == ("#000", "#000", "#fff")


def test_words_above_the_pictures_find_room() -> None:
    body = document().partition("?>")[2].strip()
    head = re.sub(r"<svg x=.*?</svg>", "", body, flags=re.DOTALL)  # captions and legends alone
    assert overlapping(head) == []
    assert outside(head) == []


def test_a_file_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one picture"):
        svg_file([], SHEETS)
