"""What the page is made of beside riglint: brought from the package registries, each part pinned with its hash."""

from __future__ import annotations

import shutil
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path
from zipfile import ZipFile

SOURCES = Path(__file__).parent / "sources"
PATIENCE_S = 600
# What a browser's Python takes, and the Linux wheel whose pure half stands in where there is none for browsers.
PLATFORMS = ("pyemscripten_2026_0_wasm32", "manylinux2014_x86_64", "manylinux_2_17_x86_64")
PYTHON, ABI = "3.14", "cp314"  # of the runtime that package.json pins
NOT_IN_A_BROWSER = (".so", ".pyi", ".pyx", ".pxd")  # but for parts compiled for one
UNUSED = ("pydantic/v1/", "pydantic/mypy.py", "pydantic/_hypothesis_plugin.py")  # nothing here imports them


class MissingPartError(Exception):
    """A part of the page cannot be had; the sentence says which, and what to do."""


def bring_scripts(work: Path) -> Path:
    """Bring the runtime, the text editor and the bundler into a folder; return where they lie.

    Raises:
        MissingPartError: npm is not there, or a part is not to be had as pinned.
    """
    npm = shutil.which("npm")
    if npm is None or shutil.which("node") is None:
        raise MissingPartError(
            "The page's runtime comes from the npm registry, and there is no `npm` here. Install Node.js 20 or newer, "
            "which brings it, and build again."
        )
    for name in ("package.json", "package-lock.json"):
        shutil.copyfile(SOURCES / name, work / name)
    run([npm, "ci", "--ignore-scripts", "--no-audit", "--no-fund"], work, "The npm registry")
    return work / "node_modules"


def bring_packages(work: Path, site: Path) -> None:
    """Bring the Python packages of `wheels.txt` and unpack them as a browser's Python imports them.

    Raises:
        MissingPartError: a package is not to be had as pinned.
    """
    call = [sys.executable, "-m", "pip", "download", "--quiet", "--disable-pip-version-check", "--no-deps"]
    call += ["--only-binary=:all:", "--require-hashes", "--requirement", str(SOURCES / "wheels.txt")]
    call += ["--implementation", "cp", "--python-version", PYTHON, "--abi", ABI, "--abi", "none"]
    for platform in PLATFORMS:
        call += ["--platform", platform]
    run([*call, "--dest", str(work)], work, "The package index")
    for wheel in sorted(work.glob("*.whl")):
        _unpack(wheel, site)


def _unpack(wheel: Path, site: Path) -> None:
    with ZipFile(wheel) as archive:
        for name in archive.namelist():
            if _wanted(name, for_browsers="wasm32" in wheel.name):
                archive.extract(name, site)


def _wanted(name: str, *, for_browsers: bool) -> bool:
    if ".dist-info/" in name or name.startswith(UNUSED):
        return False
    return not name.endswith(NOT_IN_A_BROWSER) or (for_browsers and name.endswith(".so"))


def run(call: Sequence[str], folder: Path, where: str) -> None:
    """Run a program of the build.

    Raises:
        MissingPartError: it failed; its last words are in the sentence.
    """
    try:
        done = subprocess.run(  # noqa: S603 - programs of the build with arguments of ours
            call, cwd=folder, capture_output=True, text=True, timeout=PATIENCE_S, check=False
        )
    except (OSError, subprocess.TimeoutExpired) as error:
        raise MissingPartError(f"{where} did not deliver: {error}.") from error
    if done.returncode:
        said = [row for row in (done.stderr or done.stdout).splitlines() if row.strip()]
        last = " ".join(said[-3:])
        raise MissingPartError(f"{where} did not deliver what the page's lock files name: {last}")
