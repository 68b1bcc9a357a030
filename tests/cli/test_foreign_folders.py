"""Foreign folders are left out and told of; what git tracks and what somebody names is audited all the same."""

import json
import subprocess
from pathlib import Path

import pytest

from riglint.cli import main
from riglint.read.library import find_documents

OURS = "riglint: rig/1\ntitle: x\n"


def write(path: Path, text: str = OURS) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def git(top: Path, *call: str) -> None:
    subprocess.run(["git", "-C", str(top), *call], check=True, capture_output=True)


@pytest.fixture
def club(tmp_path: Path) -> Path:
    git(tmp_path, "init", "-q")
    write(tmp_path / "rigs/a.yaml")
    git(tmp_path, "add", "rigs")
    return tmp_path


def seen(folder: Path, top: Path | None = None) -> tuple[list[str], dict[str, str]]:
    """Return the files that are audited and the folders that are not looked into."""
    found, base = find_documents([folder]), top or folder
    return (
        [file.relative_to(base).as_posix() for file in found.files],
        {path.relative_to(base).as_posix(): why for path, why in found.folders.items()},
    )


FOREIGN = {
    ".hidden/b.yaml": (".hidden", "it is hidden"),
    "venv/lib/b.yaml": ("venv", "it is a virtual environment"),
    "lib/site-packages/p/b.yaml": ("lib/site-packages", "it holds installed packages"),
    "page/node_modules/b.yaml": ("page/node_modules", "it holds installed packages"),
    "there/riglint/drafts/b.yaml": ("there/riglint", "it is an installation of riglint"),
    "page/build/b.yaml": ("page/build", "a build wrote it"),
    "page/vendor/b.yaml": ("page/vendor", "it holds code of other projects"),
    "scratch/b.yaml": ("scratch", "git ignores it"),
}


def _with_signs(top: Path) -> None:
    write(top / "venv/pyvenv.cfg", "home = /usr/bin\n")
    write(top / "there/riglint-0.1.0.dist-info/METADATA", "Name: riglint\n")
    write(top / "page/pyproject.toml", "")
    write(top / ".gitignore", "scratch/\n")


@pytest.mark.parametrize("file", FOREIGN)
def test_a_foreign_folder_is_left_out_with_its_reason(club: Path, file: str) -> None:
    _with_signs(club)
    write(club / file)
    folder, why = FOREIGN[file]
    files, folders = seen(club)
    assert files == ["rigs/a.yaml"]
    assert folders[folder] == why


@pytest.mark.parametrize("file", [file for file in FOREIGN if not file.startswith(".")])
def test_nothing_that_git_tracks_is_left_out(club: Path, file: str) -> None:
    _with_signs(club)
    write(club / file)
    git(club, "add", "-f", file)
    assert file in seen(club)[0]


@pytest.mark.parametrize("file", FOREIGN)
def test_a_named_file_and_a_named_folder_are_audited(club: Path, file: str) -> None:
    _with_signs(club)
    write(club / file)
    assert find_documents([club / file]).files == [club / file]
    assert seen((club / file).parent, club)[0] == [file]
    assert file in seen(club / FOREIGN[file][0], club)[0]


def test_a_folder_called_build_without_a_recipe_beside_it_is_looked_into(club: Path) -> None:
    write(club / "build/b.yaml")
    assert seen(club) == (["build/b.yaml", "rigs/a.yaml"], {})


def test_a_repository_or_library_in_an_ignored_folder_is_looked_into(club: Path) -> None:
    write(club / ".gitignore", "other/\nmarked/\n")
    git(club, "init", "-q", "other")
    write(club / "other/page/package.json", "{}")
    write(club / "other/page/dist/b.yaml")
    git(club / "other", "add", "page")
    write(club / "marked/rig-library", "")
    write(club / "marked/c.yaml")
    assert seen(club) == (["marked/c.yaml", "other/page/dist/b.yaml", "rigs/a.yaml"], {})


def test_an_odd_name_of_the_named_folder_is_taken_as_it_stands(club: Path) -> None:
    write(club / "a*b[1]/c.yaml")
    write(club / "a*b[1]/scratch/d.yaml")
    write(club / ".gitignore", "scratch/\n")
    assert seen(club / "a*b[1]") == (["c.yaml"], {"scratch": "git ignores it"})


def test_what_one_machine_ignores_is_looked_into(club: Path) -> None:
    write(club / ".git/info/exclude", "mine/\n")
    write(club / "mine/b.yaml")
    assert "mine/b.yaml" in seen(club)[0]


def test_where_git_cannot_be_asked_more_is_looked_at(club: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    _with_signs(club)
    write(club / "scratch/b.yaml")
    write(club / "venv/b.yaml")
    monkeypatch.setenv("PATH", "/nowhere")
    assert seen(club)[0] == ["rigs/a.yaml", "scratch/b.yaml", "venv/b.yaml"]


def test_without_a_repository_the_signs_of_a_folder_are_enough(tmp_path: Path) -> None:
    write(tmp_path / "a.yaml")
    write(tmp_path / "venv/pyvenv.cfg", "")
    write(tmp_path / "venv/b.yaml")
    assert seen(tmp_path) == (["a.yaml"], {"venv": "it is a virtual environment"})


@pytest.mark.parametrize("form", ["text", "html", "markdown", "junit", "sarif"])
def test_every_report_counts_them(
    club: Path, form: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(club)
    _with_signs(club)
    write(club / "scratch/b.yaml")
    main(["audit", ".", "--on", "2026-05-02", "--format", form])
    said = " ".join(capsys.readouterr().out.split())
    assert "1 file seen: 0 audited, 0 left out, 1 refused. 2 folders not looked into." in said
    if form in {"text", "html"}:
        assert "1 folder not looked into, because git ignores it: scratch/." in said


def test_the_json_report_names_them_and_the_ledger_balances(
    club: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(club)
    write(club / ".gitignore", "scratch/\n")
    write(club / "scratch/b.yaml")
    write(club / "notes.yaml", "a: 1\n")
    main(["audit", ".", "--on", "2026-05-02", "--format", "json"])
    told = json.loads(capsys.readouterr().out)["seen"]
    assert told["folders_left_out"] == [{"path": "scratch/", "because": "git ignores it"}]
    assert told["files"] == len(told["audited"]) + len(told["left_out"]) + len(told["refused"]) == 2


def test_where_all_is_foreign_nothing_was_audited(
    club: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(club)
    write(club / "x/.gitignore", "*/\n")
    write(club / "x/scratch/b.yaml")
    assert main(["audit", "x", "--on", "2026-05-02"]) == 2
    assert "x/scratch/" in capsys.readouterr().out
