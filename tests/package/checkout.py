"""The checkout that the tests run from, and how they start other programs from it."""

import os
import shutil
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

CHECKOUT = Path(__file__).parents[2]
# What a wheel is built from.
SOURCES = (
    "riglint",
    "rules",
    "schemas",
    "examples",
    "pyproject.toml",
    "README.md",
    "LICENSE",
    ".pre-commit-hooks.yaml",
)


def program(name: str) -> str:
    """Return the path of a program of the environment that the tests run in."""
    return str(Path(sys.executable).with_name(name))


def clean_environment(**more: str) -> dict[str, str]:
    """Return the environment without what a surrounding Git hook or Python setting would leak into a test."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("GIT_", "PYTHONPATH"))}
    return kept | more


def started(call: Sequence[str], where: Path, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run a program to its end and return what it said, standard error after standard output."""
    return subprocess.run(
        call,
        cwd=where,
        env=clean_environment(**environment),
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        check=False,
    )


def copy_sources(to: Path, names: Sequence[str] = SOURCES) -> None:
    """Copy files and folders of the checkout, as they are now, without what Python left behind."""
    to.mkdir(parents=True, exist_ok=True)
    for name in names:
        source = CHECKOUT / name
        if source.is_dir():
            shutil.copytree(source, to / name, ignore=shutil.ignore_patterns("__pycache__"))
        elif source.exists():
            shutil.copy2(source, to / name)
