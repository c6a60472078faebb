"""Saying that the planner is being compiled, the one time that takes seconds."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import click


def cache_folder() -> Path:
    """Return the folder in which the compiled planner is kept, and tell the compiler of it."""
    from platformdirs import user_cache_path

    folder = Path(os.environ.setdefault("NUMBA_CACHE_DIR", str(user_cache_path("bareshell"))))
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def first_run_said() -> None:
    """Say once that the first run compiles, before it does; say it where nothing can compile."""
    folder = cache_folder()
    if _is_there("numba") and not any(folder.rglob("*.nbi")):
        click.echo("First run: the planner is being compiled; some ten seconds.", err=True)
    elif sys.stderr.isatty():
        click.echo("Planning ...", err=True)
    from bareshell.plan.engine import PLAIN_SAMPLES, warm_up

    if warm_up() == "plain":
        click.echo(
            f"No compiler to be had here: answered from at most {PLAIN_SAMPLES} futures, slower "
            "and less sure. Installing numba brings it back.",
            err=True,
        )


def _is_there(module: str) -> bool:
    """Whether a module can be looked for and is found; nothing of it is run."""
    from importlib.util import find_spec

    try:
        return find_spec(module) is not None
    except (ImportError, ValueError):
        return False
