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
    """Say once that the first run compiles, before it does."""
    folder = cache_folder()
    if not any(folder.rglob("*.nbi")):
        click.echo("First run: the planner is being compiled; some ten seconds.", err=True)
    elif sys.stderr.isatty():
        click.echo("Planning ...", err=True)
