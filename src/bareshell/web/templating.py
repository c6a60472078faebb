"""Templates: one environment that escapes everything and stumbles over every missing name."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta, tzinfo
from types import SimpleNamespace
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from starlette.requests import Request

from bareshell.draw import (
    car,
    definitions,
    fan,
    forecast,
    ladder,
    marks,
    road_ahead,
    rule,
    session_box,
    spans,
    supports,
    systems,
    two_roads,
)
from bareshell.draw.days import full_day, short_day, weekday
from bareshell.web.assets import Assets
from bareshell.web.cookies import word_left
from bareshell.web.light import light_of
from bareshell.web.links import asked, page_of, path_of
from bareshell.web.pieces import alike
from bareshell.web.settings import Masthead, WebSettings

_DRAW = SimpleNamespace(
    HATCHES=systems.HATCHES,
    STANCES=supports.STANCES,
    arrival_mark=spans.arrival_mark,
    binds_bar=spans.binds_bar,
    car_plan=car.car_plan,
    definitions=definitions.definitions,
    edge=systems.edge,
    fan=fan.fan,
    forecast_dots=forecast.forecast_dots,
    hatch_of=systems.hatch_of,
    in_legend_order=systems.in_legend_order,
    ladder=ladder.ladder,
    lever_mark=spans.lever_mark,
    mark=marks.mark,
    regret_mark=spans.regret_mark,
    ribbon_swatch=supports.ribbon_swatch,
    road_ahead=road_ahead.road_ahead,
    session_lane=session_box.session_lane,
    session_rule=rule.session_rule,
    share_bar=spans.share_bar,
    silhouette=supports.silhouette,
    stance_of=supports.stance_of,
    swatch=systems.swatch,
    two_roads=two_roads.two_roads,
)
"""The pictures, as templates call them: ``draw.ladder(page.rungs)``."""


@dataclass(frozen=True, slots=True)
class NavWord:
    """One of the words at the head of every page, and what else belongs to it."""

    word: str
    path: str
    also: tuple[str, ...] = ()


NAV = (
    NavWord("Tonight", "/tonight"),
    NavWord("Road ahead", "/road-ahead"),
    NavWord(
        "Shelf",
        "/shelf",
        ("/needs", "/holdings", "/orders", "/add/need", "/add/holding", "/add/order"),
    ),
    NavWord("Brakes", "/brakes", ("/add/brake-part", "/add/brake-line")),
    NavWord(
        "Proofs",
        "/proofs",
        (
            "/gates",
            "/temps",
            "/torque",
            "/rehearsal",
            "/again",
            "/add/proof",
            "/add/gate",
            "/add/temp",
        ),
    ),
    NavWord("Record", "/record", ("/bring-in", "/write-out", "/photos", "/look-over")),
    NavWord(
        "Car",
        "/car",
        (
            "/jobs",
            "/departures",
            "/way-back",
            "/left",
            "/add/job",
            "/add/departure",
            "/add/support",
            "/add/session",
        ),
    ),
)


@dataclass(frozen=True, slots=True)
class Shell:
    """What the frame around a page needs to know.

    Parameters
    ----------
    light : str
        ``day`` or ``garage``.
    nav : tuple of NavWord
        The words at the head.
    here : str
        The path of the word this page belongs to.
    back : str
        This page's own address, to come back to after changing the light.
    twin : str
        Where the same page is had as JSON.
    masthead : Masthead
        The build's name and whether it is invented.
    said : str
        A sentence left by the page before, shown once.
    """

    light: str
    nav: tuple[NavWord, ...]
    here: str
    back: str
    twin: str
    masthead: Masthead
    said: str


class Views:
    """Renders templates with the frame's context.

    Parameters
    ----------
    settings : WebSettings
        How the pages are served.
    assets : Assets
        The files pages load.
    """

    def __init__(self, settings: WebSettings, assets: Assets) -> None:
        self.settings = settings
        self.environment = Environment(
            loader=PackageLoader("bareshell.web", "templates"),
            autoescape=True,  # for every name and ending: a drawing is markup too
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
        )
        self.environment.globals |= {
            "draw": _DRAW,
            "asset": assets.url,
            "path_of": path_of,
            "page_of": page_of,
            "asked": asked,
        }
        self.environment.filters |= {
            "short_day": short_day,
            "full_day": full_day,
            "weekday": weekday,
            "figure": figure,
            "sentence": sentence,
            "sentence_start": sentence_start,
            "moment": moment,
            "later": later,
            "alike": alike,
        }

    def shell(self, request: Request, masthead: Masthead) -> Shell:
        """The frame for one request."""
        path = request.url.path.removesuffix(".json")
        here = next((word.path for word in NAV if _belongs(path, word)), "")
        query = f"?{request.url.query}" if request.url.query else ""
        shown = request.method in ("GET", "HEAD")  # what a form was answered with has no twin
        back = request.url.path + query if shown else here or "/"
        twin = "/index.json" if path == "/" else f"{path}.json"
        return Shell(
            light=light_of(request),
            nav=NAV,
            here=here,
            back=back,
            twin=twin + query if shown else "",
            masthead=masthead,
            said=word_left(request),
        )

    def render(
        self,
        request: Request,
        template: str,
        *,
        masthead: Masthead | None = None,
        block: str | None = None,
        **names: Any,  # noqa: ANN401  templates take whatever a page hands them
    ) -> str:
        """Fill a template.

        Parameters
        ----------
        request : Request
            What is answered.
        template : str
            The template's name, ``proofs/ladder.html``.
        masthead : Masthead, optional
            Given by pages that may say nothing about the build; else asked for.
        block : str, optional
            Only this block of it, for a part of a page.
        **names
            What the template may use, besides ``shell``, ``draw`` and ``asset``.
        """
        head = self.settings.masthead() if masthead is None else masthead
        found = self.environment.get_template(template)
        context: dict[str, Any] = {"shell": self.shell(request, head), **names}
        if block is None:
            return found.render(context)
        return "".join(found.blocks[block](found.new_context(context)))


def views_of(request: Request) -> Views:
    """The renderer of the application that got this request."""
    views = request.app.state.views
    if not isinstance(views, Views):
        raise TypeError("This application was not made by create_app.")
    return views


def figure(value: float) -> str:
    """A figure as one reads it: no idle zeros, a true minus sign.

    Examples
    --------
    >>> figure(2.50), figure(-3.0), figure(1200)
    ('2.5', '−3', '1,200')
    """
    return f"{value:,.2f}".rstrip("0").rstrip(".").replace("-", "\N{MINUS SIGN}")


def moment(at: datetime, zone: tzinfo | None = None) -> str:
    """A day and a time as the owner's clock shows them.

    Examples
    --------
    >>> from datetime import UTC
    >>> moment(datetime(2026, 11, 25, 19, 5, tzinfo=UTC))
    '25 Nov 2026, 19:05'
    """
    here = at.astimezone(zone) if zone else at
    return f"{short_day(here)} {here.year}, {here:%H:%M}"


def later(at: datetime, hours: float) -> datetime:
    """So many hours by the clock after a moment.

    Examples
    --------
    >>> from datetime import UTC
    >>> later(datetime(2026, 11, 25, 21, 20, tzinfo=UTC), 12).isoformat()
    '2026-11-26T09:20:00+00:00'
    """
    return at + timedelta(hours=hours)


def sentence_start(words: str) -> str:
    """Words with a capital at their beginning.

    Examples
    --------
    >>> sentence_start("bore of the cylinder")
    'Bore of the cylinder'
    """
    return words[:1].upper() + words[1:]


def sentence(words: str) -> str:
    """Words as a whole sentence: a capital before, a stop behind.

    Examples
    --------
    >>> sentence("'wide' is no length")
    "'wide' is no length."
    """
    said = sentence_start(words.strip())
    return said if said.endswith((".", "?", "!")) or not said else f"{said}."


def _belongs(path: str, word: NavWord) -> bool:
    return any(path == one or path.startswith(one + "/") for one in (word.path, *word.also))
