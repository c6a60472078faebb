"""What the project's files may not say, and what its front page must."""

from __future__ import annotations

import re
import subprocess
import tomllib
from functools import cache
from itertools import chain
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@cache
def project_files() -> tuple[Path, ...]:
    """Every text file of the project, whether committed yet or not."""
    listed = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT,
        check=True,
        capture_output=True,
        text=True,
    ).stdout
    binary = {".png", ".jpg", ".jpeg", ".heic", ".woff2", ".xlsx", ".ico", ".gz", ".zip", ".pdf"}
    paths = (ROOT / name for name in listed.split("\0") if name)
    return tuple(path for path in paths if path.is_file() and path.suffix not in binary)


def words(*parts: tuple[str, str]) -> str:
    """Put words together from halves, so that this file does not say them itself."""
    return "|".join(first + second for first, second in parts)


LEFT = words(("TO", "DO"), ("FIX", "ME"), ("XX", "X"), ("HA", "CK"))
HOSTS = words(("py", "pi"), ("python", "hosted"), ("npm", "js"))
PLACES = words(("wo", "rk"), ("ro", "ot"), ("ho", "me"))
ASIDE = words(("sk", "ip"), ("xf", "ail"))

FORBIDDEN = {
    "a package registry's address": rf"(?:{HOSTS})\.(?:org|io|com)\b",
    "an index to install from": words(("index", "-url"), ("find", "-links"), ("trusted", "-host")),
    "a path on somebody's machine": rf"(?<![\w.])/(?:{PLACES})/",
    "work left behind": rf"\b(?:{LEFT})\b",
    "an unwritten function": words(("NotImpl", "ementedError")),
    "a test put aside": rf"pytest\.mark\.(?:{ASIDE})|pytest\.(?:{ASIDE})\(",
}
# The command that writes the lock has to name the options that keep addresses out of it.
EXCEPT = {("scripts/lock", "an index to install from")}


@pytest.mark.parametrize("what", sorted(FORBIDDEN))
def test_no_file_holds(what: str) -> None:
    pattern = re.compile(FORBIDDEN[what])
    found = [
        f"{name}:{number}"
        for path in project_files()
        if ((name := path.relative_to(ROOT).as_posix()), what) not in EXCEPT
        for number, line in enumerate(path.read_text("utf-8", "replace").splitlines(), 1)
        if pattern.search(line)
    ]
    assert found == []


def test_a_forbidden_word_would_be_found() -> None:
    """The patterns above are put together from parts; this shows that the parts make words."""
    samples = {
        "a package registry's address": "files." + "python" + "hosted.org",
        "an index to install from": "--extra-" + "index" + "-url",
        "a path on somebody's machine": "see /" + "ho" + "me/someone",
        "work left behind": "# TO" + "DO: later",
        "an unwritten function": "raise NotImpl" + "ementedError",
        "a test put aside": "@pytest.mark." + "sk" + "ip",
    }
    assert samples.keys() == FORBIDDEN.keys()
    for what, sample in samples.items():
        assert re.search(FORBIDDEN[what], sample), what


def test_the_front_page_names_the_two_commands() -> None:
    front = (ROOT / "README.md").read_text("utf-8")
    assert "make run" in front
    assert "make test" in front
    assert front.index("make run") < 3000, "the commands come near the top"


def test_every_command_named_on_the_front_page_exists() -> None:
    from bareshell.cli.main import COMMANDS

    texts = ((ROOT / name).read_text("utf-8") for name in ("README.md", "Makefile"))
    named = {
        command
        for text in texts
        for command in re.findall(r"(?:^    |/)bareshell ([a-z]+)", text, re.MULTILINE)
    }
    assert {"demo", "serve"} <= named
    assert named <= set(COMMANDS)


def test_every_documented_make_target_exists_and_is_documented() -> None:
    makefile = (ROOT / "Makefile").read_text("utf-8")
    head = set(re.findall(r"^# make (\w+)", makefile, re.MULTILINE))
    rules = set(re.findall(r"^(\w+):(?!=)", makefile, re.MULTILINE))
    assert head <= rules
    assert rules - head <= {"help", "browser", "clean"}


def test_continuous_checks_run_what_a_contributor_runs() -> None:
    assert "make test" in (ROOT / ".ci" / "run").read_text("utf-8")


def test_the_change_log_has_a_place_for_what_comes_next() -> None:
    assert "## [Unreleased]" in (ROOT / "CHANGELOG.md").read_text("utf-8")


def test_every_room_is_on_the_plan_of_the_house() -> None:
    plan = (ROOT / "ARCHITECTURE.md").read_text("utf-8")
    rooms = [path.name for path in (ROOT / "src" / "bareshell").iterdir() if path.is_dir()]
    assert [room for room in rooms if room != "__pycache__" and f"`{room}`" not in plan] == []


IMPORT_NAME = {
    "axe-playwright-python": "axe_playwright_python",
    "import-linter": "importlinter",
    "pi-heif": "pi_heif",
    "pillow": "PIL",
    "python-calamine": "python_calamine",
    "python-dateutil": "dateutil",
}
# Used without an import of ours: a plug-in, a tool, data or types for another library.
NEVER_IMPORTED = {
    "bareshell",
    "httpx2",
    "mypy",
    "pytest-xdist",
    "python-multipart",
    "ruff",
    "scipy-stubs",
    "types-networkx",
    "types-openpyxl",
    "types-python-dateutil",
    "tzdata",
}


def test_every_dependency_is_used() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    wanted = [
        *project["dependencies"],
        *chain.from_iterable(project["optional-dependencies"].values()),
    ]
    names = {re.split(r"[\[<>=!;~ ]", requirement)[0] for requirement in wanted}
    code = "\n".join(path.read_text("utf-8") for path in project_files() if path.suffix == ".py")
    unused = [
        name
        for name in sorted(names - NEVER_IMPORTED)
        if not re.search(
            rf"^\s*(?:from|import) {re.escape(IMPORT_NAME.get(name, name))}\b", code, re.MULTILINE
        )
    ]
    assert unused == []


def test_the_lock_is_hashed_and_names_no_host() -> None:
    for name in ("base", "dev"):
        lock = (ROOT / "requirements" / f"{name}.txt").read_text("utf-8")
        pins = re.findall(r"^([A-Za-z0-9._-]+)==", lock, re.MULTILINE)
        assert len(pins) > 30
        assert lock.count("--hash=sha256:") >= len(pins)
        assert "://" not in lock


def test_every_dependency_is_locked() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    base = (ROOT / "requirements" / "base.txt").read_text("utf-8").lower()
    missing = [
        name
        for requirement in project["dependencies"]
        if f"\n{(name := re.split(r'[<>=!;~ ]', requirement)[0].lower())}==" not in base
    ]
    assert missing == []
