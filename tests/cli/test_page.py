"""`riglint page`: what it refuses before it brings anything; what it builds is tested in `tests/browser/page`."""

import json
import re
import zipfile
from pathlib import Path

import pytest

from riglint.cli import main
from riglint.page import build, materials
from riglint.page.content_policy import content_policy
from riglint.page.materials import SOURCES
from riglint.page.packing import digest, packed_folder
from riglint.page.serving import HERE, server_of
from riglint.page.shared_library import library_data
from riglint.page.unpacking import unpacked

EXAMPLES = Path(__file__).parents[2] / "examples"


def test_without_npm_it_says_what_is_missing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    assert main(["page", str(tmp_path / "page")]) == 3
    assert "there is no `npm` here" in capsys.readouterr().err
    assert not (tmp_path / "page").exists()


def test_nothing_of_anybody_else_is_written_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "thesis.txt").write_text("years of work", encoding="utf-8")
    assert main(["page", str(tmp_path)]) == 3
    assert "holds thesis.txt, which is not of a page that riglint built" in capsys.readouterr().err
    assert (tmp_path / "thesis.txt").read_text(encoding="utf-8") == "years of work"


def test_a_changed_file_of_a_page_is_not_written_over(tmp_path: Path) -> None:
    (tmp_path / "page.css").write_text("mine", encoding="utf-8")
    (tmp_path / "page.json").write_text(
        json.dumps({"files": {"page.css": digest(b"theirs")}}), encoding="utf-8"
    )
    with pytest.raises(materials.MissingPartError, match=r"page\.css"):
        build.refuse_other_files(tmp_path)
    (tmp_path / "page.css").write_text("theirs", encoding="utf-8")
    build.refuse_other_files(tmp_path)


def test_a_file_in_place_of_the_folder_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "page").write_text("x", encoding="utf-8")
    assert main(["page", str(tmp_path / "page")]) == 3
    assert "is a file" in capsys.readouterr().err


@pytest.mark.parametrize("port", ["-1", "70000", "http", "１"])
def test_a_port_is_a_port(port: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["page", "x", f"--port={port}"]) == 2
    assert "is not a port" in capsys.readouterr().err


def test_it_serves_on_this_machine_alone(tmp_path: Path) -> None:
    with server_of(tmp_path) as server:
        assert server.server_address[0] == HERE == "127.0.0.1"


def test_a_shared_library_is_data_only() -> None:
    files = library_data(EXAMPLES)["files"]
    assert {"rigs/low-line.yaml", "shelf/club.yaml", "spots/orchard.yaml"} <= files.keys()
    assert not [name for name in files if name.endswith(".py")]
    assert files["rigs/low-line.yaml"] == (EXAMPLES / "rigs/low-line.yaml").read_text(encoding="utf-8")


def test_every_part_is_pinned_with_its_hash() -> None:
    wheels = [row for row in (SOURCES / "wheels.txt").read_text(encoding="utf-8").splitlines() if "==" in row]
    assert len(wheels) == 6
    assert all(" --hash=sha256:" in row for row in wheels)
    named = json.loads((SOURCES / "package.json").read_text(encoding="utf-8"))
    assert all(
        version[0].isdigit()
        for kind in ("dependencies", "devDependencies")
        for version in named[kind].values()
    )
    locked = json.loads((SOURCES / "package-lock.json").read_text(encoding="utf-8"))["packages"]
    assert all("integrity" in one for name, one in locked.items() if name)
    assert "resolved" not in str(locked)  # no registry's address


def test_the_same_files_give_the_same_zip(tmp_path: Path) -> None:
    for name in ("one", "two"):
        (tmp_path / name / "b").mkdir(parents=True)
        for file in ("b/c.txt", "a.txt") if name == "one" else ("a.txt", "b/c.txt"):
            (tmp_path / name / file).write_text(file, encoding="utf-8")
        packed_folder(tmp_path / name, tmp_path / f"{name}.zip")
    assert (tmp_path / "one.zip").read_bytes() == (tmp_path / "two.zip").read_bytes()


def test_a_zip_gives_its_documents_and_nothing_outside(tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "a.zip", "w") as archive:
        for name in (
            "rigs/low.yaml",
            "../out.yaml",
            "/etc/x.yaml",
            "rules/x.py",
            "picture.png",
            "rig-library",
        ):
            archive.writestr(name, "riglint: rig/1\n")
    held = unpacked(tmp_path / "a.zip")
    assert set(held["files"]) == {"rigs/low.yaml", "rig-library"}
    assert held["rules"] == 1


def test_a_zip_that_swells_is_refused(tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "a.zip", "w", zipfile.ZIP_DEFLATED) as archive:
        for n in range(12):
            archive.writestr(f"{n}.yaml", "x" * 3_000_000)
    assert "more than 20 MB" in unpacked(tmp_path / "a.zip")["wrong"]


@pytest.mark.parametrize(
    "rig", ["rigs/low-line.yaml", "rigs/highline-rope-backup.yaml", "faulty/waterline.yaml"]
)
@pytest.mark.parametrize("command", ["card", "sheet"])
def test_card_and_sheet_may_look_in_the_page_as_they_do_alone(
    command: str, rig: str, capsys: pytest.CaptureFixture[str]
) -> None:
    main([command, str(EXAMPLES / rig), "--on", "2026-05-02", "--format", "html"])
    (style,) = re.findall(r"style-src ('sha256-[^']+')", capsys.readouterr().out)
    assert style in content_policy()
