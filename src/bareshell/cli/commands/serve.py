"""``bareshell serve``: the pages, on this computer or for the phones of the home network."""

from __future__ import annotations

from pathlib import Path

import click

from bareshell.cli.common import build_option, find_build
from bareshell.errors import NotFound

DEFAULT_PORT = 8642


@click.command("serve")
@build_option
@click.option(
    "--home", is_flag=True, help="Let paired phones on the home network in, by plain http."
)
@click.option(
    "--port",
    type=click.IntRange(0, 65535),
    default=DEFAULT_PORT,
    show_default=True,
    help="0 takes any free one.",
)
def serve_command(folder: Path | None, *, home: bool, port: int) -> None:
    """Open the pages in the browser, here or on the home network.

    In a folder that does not exist yet, or is empty, the first page asks at most twelve
    questions and begins the build there.
    """
    from bareshell.app.clock_on_the_wall import machine_zone
    from bareshell.web.bench import Bench
    from bareshell.web.site import serve_site

    bench = Bench(_folder(folder), machine_zone())
    serve_site(bench, home=home, port=port, say=_say)


def _say(line: str) -> None:
    click.echo(line)


def _folder(folder: Path | None) -> Path:
    """Find the build to serve, or the empty place in which one is to be begun."""
    if folder is not None:
        if folder.exists() and not folder.is_dir():
            raise NotFound(f"{folder} is no folder", "name the build's folder with --build DIR")
        return folder
    try:
        return find_build(None)
    except NotFound:
        here = Path.cwd()
        if any(here.iterdir()):
            raise NotFound(
                "there is no build in the folder you stand in, and it is not empty",
                "name a new folder to begin one in: bareshell serve --build DIR; or try "
                "'bareshell demo DIR'",
            ) from None
        return here
