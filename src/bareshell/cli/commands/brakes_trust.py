"""``bareshell brakes trust``: how far the answers can be trusted, and what to measure first."""

from __future__ import annotations

from pathlib import Path

import click

from bareshell.cli.brakes_asked import answered, file_argument, road_option, system_option
from bareshell.cli.common import build_option, json_option, show


@click.command("trust")
@file_argument
@build_option
@system_option
@click.option(
    "--samples",
    type=int,
    default=10_000,
    show_default=True,
    help="Combinations to draw, 200 to 50000.",
)
@click.option("--seed", type=int, default=1, show_default=True, help="The same draws the same.")
@click.option(
    "--yardstick",
    "yardsticks",
    multiple=True,
    metavar="ID",
    help="Hold against this one instead of those that were picked; repeat it.",
)
@road_option
@json_option
def trust(
    file: Path | None,
    folder: Path | None,
    system_id: str,
    samples: int,
    seed: int,
    yardsticks: tuple[str, ...],
    road: float,
    *,
    as_json: bool,
) -> None:
    """Say in how many combinations of what is not known the answers hold; what to measure first.

    Every figure with a range is drawn evenly from it, all together, thousands of times. A share of
    combinations is no chance: nobody knows how likely each of them is.
    """
    from bareshell.app import brakes_trust
    from bareshell.cli.brakes_trust_text import trust_text
    from bareshell.whole.brake_trust import TrustAsked

    asked = TrustAsked(samples, seed, road)
    found = answered(
        folder,
        file,
        lambda path, now: brakes_trust.trust_of_file(path, now, asked, yardsticks),
        lambda door: brakes_trust.trust(door, system_id, asked, yardsticks),
    )
    show(found, as_json=as_json, text=lambda: trust_text(found))
