"""Builds the page: a folder of static files, the same bytes whenever the same version is built."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from tempfile import TemporaryDirectory

from riglint import __version__
from riglint.page.content_policy import content_policy
from riglint.page.materials import SOURCES, MissingPartError, bring_packages, bring_scripts, run
from riglint.page.packing import digest, files_of, packed_file, packed_folder
from riglint.page.shared_library import library_data
from riglint.records import dataclass
from riglint.rulebook import shipped

LIST = "page.json"  # every file of the page with its hash; a folder that holds it is a page of ours
RUNTIME = ("pyodide.mjs", "pyodide.asm.mjs", "python_stdlib.zip")
PACKED = "pyodide.asm.wasm"  # goes out as gzip: not every web space packs it on the way
PLAIN = ("page.css", "icon.svg", "page.webmanifest")
SCRIPTS = ("page.js", "worker.js")
LEFT_OUT = ("__pycache__", "sources", "examples", "schemas")
NOT_IN_THE_PAGE = (
    "riglint/editor/server.py",
    "riglint/editor/answers.py",
)  # they speak to an editor's protocol


@dataclass(frozen=True, slots=True)
class Built:
    """What a build made."""

    files: int
    size_bytes: int  # as it goes over the wire to somebody who opens the page for the first time
    shared: int  # files of the library that the page carries


def build_page(target: Path, library: Path | None = None) -> Built:
    """Build the page into a folder that is new, empty, or holds a page that riglint built before.

    Raises:
        MissingPartError: a part is not to be had, or the folder holds something else.
    """
    refuse_other_files(target)
    with TemporaryDirectory(prefix="riglint-page-") as name:
        work = Path(name)
        made, scripts = work / "made", work / "scripts"
        for folder in (made, scripts):
            folder.mkdir()
        modules = bring_scripts(scripts)
        _engine(work, modules, made)
        data = library_data(library)
        (made / "library.json").write_text(
            json.dumps(data, ensure_ascii=False, sort_keys=True), encoding="utf-8"
        )
        _front(modules, made)
        _seal(made)
        _lay_down(made, target)
    files = list(files_of(target))
    return Built(len(files), sum(file.stat().st_size for file in files), len(data["files"]))


def refuse_other_files(target: Path) -> None:
    """Make sure that nothing of anybody else is written over.

    Raises:
        MissingPartError: the folder holds what no build of ours left there.
    """
    if not target.exists():
        return
    if not target.is_dir():
        raise MissingPartError(f"{target} is a file. Name a folder for the page.")
    others = sorted(file.relative_to(target).as_posix() for file in files_of(target))
    try:
        ours = json.loads((target / LIST).read_text(encoding="utf-8"))["files"] if others else {}
    except (OSError, ValueError, KeyError, TypeError):
        ours = {}
    strange = [
        name for name in others if name != LIST and digest((target / name).read_bytes()) != ours.get(name)
    ]
    if strange:
        raise MissingPartError(
            f"{target} holds {strange[0]}, which is not of a page that riglint built. Name a new or empty folder."
        )


def _engine(work: Path, modules: Path, made: Path) -> None:
    """Lay down the runtime, and Python's packages with riglint among them, compiled."""
    site, wheels = work / "site", work / "wheels"
    for folder in (site, wheels):
        folder.mkdir()
    bring_packages(wheels, site)
    package = Path(__file__).parents[1]
    shutil.copytree(package, site / "riglint", ignore=shutil.ignore_patterns(*LEFT_OUT))
    if not (site / "riglint/rules").exists():
        shutil.copytree(shipped("rules"), site / "riglint/rules", ignore=shutil.ignore_patterns(*LEFT_OUT))
    for name in NOT_IN_THE_PAGE:
        (site / name).unlink()
    runtime = modules / "pyodide"
    run(["node", str(SOURCES / "compile.mjs"), str(runtime), str(site)], work, "The page's Python")
    packed_folder(site, made / "packages.zip")
    for name in RUNTIME:
        shutil.copyfile(runtime / name, made / name)
    (made / f"{PACKED}.gz").write_bytes(packed_file((runtime / PACKED).read_bytes()))


def _front(modules: Path, made: Path) -> None:
    """Bundle the scripts, and lay down what is looked at."""
    for name in PLAIN:
        shutil.copyfile(SOURCES / name, made / name)
    bundled = modules.parent / "front"
    shutil.copytree(SOURCES, bundled)
    call = ["node", str(modules / "esbuild/bin/esbuild"), *(str(bundled / name) for name in SCRIPTS)]
    call += [
        "--bundle",
        "--minify",
        "--format=esm",
        "--target=es2022",
        "--charset=utf8",
        "--legal-comments=eof",
    ]
    call += ["--external:./pyodide.mjs", f'--define:VERSION="{__version__}"', f"--outdir={made}"]
    run(call, modules.parent, "The bundler")
    html = (SOURCES / "index.html").read_text(encoding="utf-8")
    (made / "index.html").write_text(html.replace("{policy}", content_policy()), encoding="utf-8")


def _seal(made: Path) -> None:
    """Write the list of all files, and the service worker that keeps exactly these."""
    files = {file.relative_to(made).as_posix(): digest(file.read_bytes()) for file in files_of(made)}
    build = digest(json.dumps(files, sort_keys=True).encode())[:12]
    worker = (SOURCES / "offline.js").read_text(encoding="utf-8")
    head = f"const BUILD = {json.dumps(build)};\nconst FILES = {json.dumps(sorted(files))};\n"
    head += f"const POLICY = {json.dumps(content_policy())};\n"
    (made / "offline.js").write_text(head + worker, encoding="utf-8")
    files["offline.js"] = digest((made / "offline.js").read_bytes())
    told = {"riglint": "page/1", "version": __version__, "build": build, "files": files}
    (made / LIST).write_text(json.dumps(told, indent=1, sort_keys=True) + "\n", encoding="utf-8")


def _lay_down(made: Path, target: Path) -> None:
    target.mkdir(parents=True, exist_ok=True)
    for old in list(files_of(target)):
        old.unlink()
    for file in files_of(made):
        shutil.copyfile(file, target / file.relative_to(made))
