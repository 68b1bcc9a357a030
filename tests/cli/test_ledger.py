"""Nothing that was seen is lost: every file is audited, left out with its reason, or refused; so with the rules."""

import json
from pathlib import Path
from time import process_time
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from riglint import rulebook
from riglint.cli import main
from riglint.findings import auditing
from riglint.read.library import find_documents
from riglint.read.looks import is_ours
from riglint.rulebook import Rulebook
from riglint.testing import BASELINES
from tests.cli.calling import BROKEN, DAY, QUIET, SHORT_TAIL, SOUND, by_path, problems, run, run_here, write

FOREIGN = "jobs:\n  - on: push\n"
HOOK = "repos:\n  - hooks:\n      - id: riglint\n      - {name: riglint/1, rig: rig/1}\n"


def ledger(report: dict[str, Any]) -> tuple[list[str], list[str], list[str]]:
    seen = report["seen"]
    parts = seen["audited"], [one["path"] for one in seen["left_out"]], seen["refused"]
    assert seen["files"] == sum(map(len, parts))
    assert report["left_out"] == len(parts[1])
    return parts


# Links


@pytest.mark.usefixtures("by_one_rule")
def test_a_linked_folder_in_the_library_is_read_once(
    library: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    write(library / "store/low.yaml", SHORT_TAIL)
    (library / "rigs").symlink_to("store")
    (library / "again").symlink_to("store")
    (library / "store/up").symlink_to("..")
    (library / "low.yaml").symlink_to("store/low.yaml")
    _, report = run_here(capsys, library)
    assert ledger(report) == (["store/low.yaml"], [], [])
    _, report = run_here(capsys, library / "rigs")
    assert ledger(report) == (["store/low.yaml"], [], [])


@pytest.mark.usefixtures("by_one_rule")
@pytest.mark.parametrize("more", [(), ("--if-any",)])
def test_links_out_of_the_library_are_refused_aloud(
    library: Path, capsys: pytest.CaptureFixture[str], more: tuple[str, ...]
) -> None:
    outside = write(library.parent / "outside/low.yaml", SOUND)
    write(library.parent / "outside/foreign.yaml", FOREIGN)
    write(library / "own.yaml", SOUND)
    (library / "rigs").symlink_to(outside.parent)
    (library / "low.yaml").symlink_to(outside)
    (library / "foreign.yaml").symlink_to(outside.parent / "foreign.yaml")
    (library / "nowhere").symlink_to("gone")
    status, report = run_here(capsys, library, *more)
    assert status == 2
    assert ledger(report) == (["own.yaml"], ["foreign.yaml", "nowhere"], ["low.yaml", "rigs"])
    for name in ("low.yaml", "rigs"):
        (said,) = problems(by_path(report)[name])
        assert said.startswith(f"The link '{name}' leads outside the library, so nothing behind it is read.")
    reasons = {one["path"]: one["because"] for one in report["seen"]["left_out"]}
    assert reasons["nowhere"] == "it is a link that leads nowhere"


@pytest.mark.usefixtures("by_one_rule")
def test_a_linked_folder_that_is_named_is_taken(library: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(library / "low.yaml", SOUND)
    link = library.parent / "link"
    link.symlink_to(library)
    _, report = run_here(capsys, link)
    assert ledger(report) == (["low.yaml"], [], [])


# What looks like a rig and is not read

TITLE, REST = SOUND.partition("\n")[2].split("\n", 1)
PASSED_OVER = {
    "indented": "\n".join(f"  {line}" if line else "" for line in SOUND.split("\n")).encode(),
    "utf-16 without a mark": SOUND.encode("utf-16-le"),
    "utf-16, the other way round": SOUND.encode("utf-16-be"),
    "utf-32 without a mark": SOUND.encode("utf-32-le"),
    "below 70 kB of comments": b"# nothing\n" * 7000 + SOUND.encode(),
    "json with another key first": b'{"title": "x", "riglint": "rig/1", "chain": []}',
    "json over several lines": b'{\n "title": "x",\n "riglint": "rig/1"\n}\n',
    "a list": b"- riglint: rig/1\n  title: x\n",
    "a second document": b"name: x\n---\n" + SOUND.encode(),
    "no space behind the colon": b"riglint:rig/1\n",
    "a group": b"rig:\n  riglint: rig/1\n  chain: []\n",
    "no yaml before it": b"title: [x\nriglint: rig/1\n",
    "a template": b"{% if club %}\nriglint: rig/1\n{% endif %}\n",
    "misspelt below a group": b"rigs:\n  riglnt: rig/1\n",
    "below other keys": f"{TITLE}\nriglint: rig/1\n{REST}".encode(),
    "without its first key": f"{TITLE}\n{REST}".encode(),
    "control characters": b"\x01\nriglint: rig/1\ntitle: x\n",
}


@pytest.mark.usefixtures("by_one_rule")
@pytest.mark.parametrize("raw", PASSED_OVER.values(), ids=list(PASSED_OVER))
@pytest.mark.parametrize("named", [".", "low.yaml"])
def test_what_looks_like_a_rig_is_never_passed_over(
    library: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, raw: bytes, named: str
) -> None:
    (library / "low.yaml").write_bytes(raw)
    monkeypatch.chdir(library)
    status, report = run_here(capsys, named, "--if-any")
    if raw.startswith((b"  riglint", b"# nothing")):  # these are rigs like any other
        assert ledger(report)[0] == ["low.yaml"]
        return
    assert status == 2
    assert ledger(report) == ([], [], ["low.yaml"])
    assert problems(by_path(report)["low.yaml"])


@pytest.mark.parametrize(
    "text",
    [
        FOREIGN,
        HOOK,
        "",
        "# riglint: rig/1\nname: x\n",
        "note: |\n  riglint: rig/1\n  chain: []\n",
        "riglint_version: 1\n",
        "tools:\n  riglint:\n    version: 0.1\n",
        "{{ if .Values.x }}\nkey: chain\n{{ end }}\n",
        "a: &x 1\nb: *x\n",
    ],
)
def test_what_is_somebody_elses_is_left_out(text: str) -> None:
    assert is_ours(text.encode()) == "no"


def test_a_foreign_file_of_2_mb_costs_no_more_than_a_moment() -> None:
    raw = b"packages:\n" + b"  - {name: chain, version: 1, after: riglint}\n" * 40_000
    start = process_time()
    assert is_ours(raw) == "no"
    assert process_time() - start < 10  # half a second here; minutes, if it grew with each key


# The ledger

CONTENTS = st.sampled_from(
    [SOUND, BROKEN, FOREIGN, "", "riglnt: rig/1\n", "chain: []\n", "riglint: spot/1\n"]
)
NAMES = st.sampled_from(["a.yaml", "b.yml", "c.YAML", "d/e.yaml", "d/f.yaml", ".h/i.yaml", "notes.txt"])
LINKS = st.dictionaries(
    st.sampled_from(["l.yaml", "m", "d/n.yaml"]), st.sampled_from(["a.yaml", "d", "..", "../../x", "gone"])
)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(files=st.dictionaries(NAMES, CONTENTS, max_size=6), links=LINKS, data=st.data())
def test_every_file_has_one_fate(
    tmp_path_factory: pytest.TempPathFactory,
    files: dict[str, str],
    links: dict[str, str],
    data: st.DataObject,
) -> None:
    top = tmp_path_factory.mktemp("seen") / "library"
    write(top / "rig-library", "")
    write(top.parent / "x/far.yaml", SOUND)
    for name, text in files.items():
        write(top / name, text)
    for name, target in links.items():
        (top / name).parent.mkdir(exist_ok=True)
        (top / name).symlink_to(target)
    there = {
        path.resolve()
        for path in top.rglob("*")
        if path.suffix.lower() in {".yaml", ".yml"}
        and path.is_file()
        and not any(part.startswith(".") for part in path.relative_to(top).parts)
    }
    sift = data.draw(st.booleans())
    found = find_documents([top], sift_named=sift)
    fates = [*found.files, *found.left_out, *found.refused]
    assert len(fates) == len(set(fates))
    assert there <= {path.resolve() for path in fates}
    assert found.lost({path.resolve() for path in [*found.files, *found.refused]}) == []


@pytest.mark.usefixtures("by_one_rule")
def test_the_last_line_and_the_json_tell_the_fate_of_every_file(
    library: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    write(library / "a.yaml", SOUND)
    write(library / "b.yaml", BROKEN)
    write(library / "c.yaml", FOREIGN)
    write(library / "d.yaml", "")
    write(library / "e.yaml", "riglnt: rig/1\n")
    _, report = run_here(capsys, library)
    assert ledger(report) == (["a.yaml"], ["c.yaml", "d.yaml"], ["b.yaml", "e.yaml"])
    for form in ("text", "markdown", "html", "junit", "sarif"):
        main(["audit", str(library), *DAY, "--format", form])
        said = " ".join(capsys.readouterr().out.split())
        assert "5 files seen: 1 audited, 2 left out, 2 refused." in said, form
    main(["audit", str(library), *DAY])
    assert capsys.readouterr().out.rstrip().endswith("2 refused.")


@pytest.mark.usefixtures("by_one_rule")
def test_a_file_that_gets_lost_ends_in_3(
    library: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def lose(*named: Any, **more: Any) -> Any:
        found = find_documents(*named, **more)
        found.files.pop()
        return found

    monkeypatch.setattr(auditing, "find_documents", lose)
    write(library / "a.yaml", SOUND)
    write(library / "b.yaml", SOUND)
    status, report = run_here(capsys, library)
    assert status == 3
    assert ledger(report) == (["a.yaml"], [], ["b.yaml"])
    assert "_LostError" in by_path(report)["b.yaml"]["findings"][0]["message"]


def test_a_file_that_was_asked_for_is_written_where_there_is_nothing_to_audit(library: Path) -> None:
    write(library / "report.json", '{"riglint": "audit/1", "files": ["of yesterday"]}')
    write(library / "c.yaml", FOREIGN)
    call = ("audit", "--if-any", ".", *DAY, "--write", "json=report.json")
    assert run(library, *call) == (0, "", "")
    report = json.loads((library / "report.json").read_text("utf-8"))
    assert ledger(report) == ([], ["c.yaml"], [])


# Rules


def test_every_rule_has_one_outcome_for_each_rig(library: Path) -> None:
    for name in ("low", "long_haul", "highline"):
        write(library / f"{name}.yaml", (BASELINES / f"{name}.yaml").read_text("utf-8"))
    write(library / "blank.yaml", "riglint: rig/1\ntitle: x\nchain: []\n")
    write(library / "broken.yaml", BROKEN)
    report = json.loads(run(library, "audit", ".", *QUIET, "--format", "json")[1])
    rules = set(rulebook.load_rulebook().rules)
    for path, file in by_path(report).items():
        count = file["rules"]
        parts = [count[part] for part in ("judged", "open", "not_applicable", "crashed")]
        assert sorted(name for part in parts for name in part) == sorted(rules), path
        assert count["all"] == len(rules)
    assert set(by_path(report)["broken.yaml"]["rules"]["open"]) == rules
    assert "tail/webbing" in by_path(report)["low.yaml"]["rules"]["judged"]
    assert "leash/presence" in by_path(report)["highline.yaml"]["rules"]["judged"]


def test_no_rules_in_force_is_3(
    library: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(rulebook, "load_rulebook", lambda: Rulebook({}))
    write(library / "low.yaml", SOUND)
    assert run_here(capsys, library)[0] == 3
