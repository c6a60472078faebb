"""The ``bareshell`` command: finds the command asked for, and says errors as sentences."""

from __future__ import annotations

import sys
import traceback
from importlib import import_module
from pathlib import Path

import click

from bareshell import __version__
from bareshell.errors import BareshellError

COMMANDS: dict[str, tuple[str, str]] = {
    "demo": ("begin", "Make the invented demo build in DIR."),
    "new": ("begin", "Begin a build of your own car: at most twelve questions."),
    "serve": ("serve", "Open the pages in the browser, here or on the home network."),
    "tonight": ("tonight", "What to do in this session, and why not something else."),
    "say": ("say", "End a session in one line: what was done, what was missing."),
    "road": ("road", "Every session to the road, and when it may be reached."),
    "trial": ("trial", "Change anything in a copy; two roads side by side, kept or left."),
    "jobs": ("jobs", "The jobs and how they stand; start, finish, leave out."),
    "shelf": ("shelf", "Parts and fixings: what jobs want, what is here, what is coming."),
    "proofs": ("proofs", "Proofs owed and held, temps on the car, the ladder of gates."),
    "brakes": ("brakes", "The brakes: push, failures, heat, parking, pipes, bleeding, trust."),
    "car": ("car", "The car, how it stands, the garage and its sessions."),
    "log": ("log", "The record in people's words, newest first."),
    "undo": ("log", "Take an entry of the record back."),
    "settle": ("log", "Keep or set aside an entry that met another change."),
    "import": ("exchange", "Bring in a build file, a spreadsheet or an archive."),
    "export": ("exchange", "Write the build file, a spreadsheet or the whole archive."),
    "backup": ("keep", "Keep a copy of the journal, or bring one back."),
    "doctor": ("keep", "Look the build over: damage, disk, folder, clock."),
}
"""Each command, the module that has it, and its line of help; in the order of use."""


def _build_named(args: list[str]) -> tuple[list[str], list[str]]:
    """Part ``--build DIR`` from the other words.

    Examples
    --------
    >>> _build_named(["proofs", "way", "road", "--build", "car"])
    (['--build', 'car'], ['proofs', 'way', 'road'])
    """
    end = args.index("--") if "--" in args else len(args)
    for n, word in enumerate(args[:end]):
        if word.startswith("--build="):
            return [word], [*args[:n], *args[n + 1 :]]
        if word == "--build" and n + 1 < end:
            return args[n : n + 2], [*args[:n], *args[n + 2 :]]
    return [], args


def _takes_build(command: click.Command) -> bool:
    return any("--build" in param.opts for param in command.params)


class LazyGroup(click.Group):
    """A group that loads a command only when it is called or asked for its own help."""

    def list_commands(self, _ctx: click.Context) -> list[str]:
        """List the commands in the order of use."""
        return list(COMMANDS)

    def get_command(self, _ctx: click.Context, name: str) -> click.Command | None:
        """Load one command."""
        if name not in COMMANDS:
            return None
        module = import_module(f"bareshell.cli.commands.{COMMANDS[name][0]}")
        command = getattr(module, f"{name}_command")
        if not isinstance(command, click.Command):
            raise TypeError(f"{name}_command is no command")
        return command

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Take ``--build DIR`` wherever it stands, and hand it to the command that knows it."""
        return super().parse_args(ctx, self._build_in_place(ctx, args))

    def _build_in_place(self, ctx: click.Context, args: list[str]) -> list[str]:
        named, rest = _build_named(args)
        at = next((n for n, word in enumerate(rest) if not word.startswith("-")), None)
        command = self.get_command(ctx, rest[at]) if at is not None and named else None
        if at is None or command is None:
            return args
        if isinstance(command, click.Group) and not _takes_build(command):
            below = next((n for n in range(at + 1, len(rest)) if not rest[n].startswith("-")), None)
            found = command.get_command(ctx, rest[below]) if below is not None else None
            if below is None or found is None:
                return args
            at, command = below, found
        return [*rest[: at + 1], *named, *rest[at + 1 :]] if _takes_build(command) else args

    def format_commands(self, _ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the list of commands without loading any of them."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, words) for name, (_, words) in COMMANDS.items()])


@click.group(cls=LazyGroup, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="bareshell")
def bareshell() -> None:
    """Put an older car back together from a painted bare shell.

    What to do tonight, the right part on the bench first, nothing buried unproven, and a
    record for the next owner. Works in the folder you stand in, in --build DIR, or in the
    folder that BARESHELL_BUILD names.

    Planning help only: it does not see the car. The vehicle's own manual, local law and
    licensed practice outrank it.
    """


def main() -> None:
    """Run the command line; an error is a sentence and an exit code, never a traceback."""
    try:
        bareshell.main(prog_name="bareshell", standalone_mode=False)
    except BareshellError as error:
        click.echo(error.describe(), err=True)
        sys.exit(error.exit_code)
    except click.ClickException as error:
        error.show()
        sys.exit(error.exit_code)
    except (click.Abort, KeyboardInterrupt):
        click.echo("Stopped; nothing more was written.", err=True)
        sys.exit(130)
    except BrokenPipeError:
        # The reader (head, less) has seen enough.
        sys.stderr.close()
        sys.exit(0)
    except OSError as error:
        said = error.strerror or str(error)
        where = f" about '{error.filename}'" if error.filename else ""
        click.echo(f"The disk answered '{said}'{where}. Look at who may read and write.", err=True)
        sys.exit(BareshellError.exit_code)
    except Exception as error:  # noqa: BLE001 - the last one out: a sentence, never a traceback
        click.echo(_unforeseen(error), err=True)
        sys.exit(BareshellError.exit_code)


def _unforeseen(error: Exception) -> str:
    """Say what nobody foresaw, with the one line that helps to mend it."""
    frames = traceback.extract_tb(error.__traceback__)
    at = f" ({Path(frames[-1].filename).name}, line {frames[-1].lineno})" if frames else ""
    return (
        f"bareshell stumbled over something nobody foresaw: {type(error).__name__}: {error}{at}. "
        "Nothing of this was half-saved; 'bareshell log' shows what is written down. Please "
        "report this line with what you asked for."
    )
