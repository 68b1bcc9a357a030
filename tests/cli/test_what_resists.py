"""What resists an audit: rules that crash, files that cannot be read, references that lead astray.

None of it may hide what was found elsewhere, and nothing may pass for checked that was not.
"""

import dataclasses
import json
import os
import re
import time
from pathlib import Path
from typing import Any

import pytest

from riglint import rulebook
from riglint.cli import main
from riglint.findings import judge
from riglint.findings.library import examined
from riglint.model.library import Library
from riglint.rulebook import Rulebook
from riglint.rulekit import Case, Fault, sound
from riglint.testing import edited
from tests.cli.calling import BROKEN, DAY, QUIET, SHORT_TAIL, SOUND, by_path, problems, run, run_here, write

# When riglint itself fails


def crash(_case: Case, _subject: object) -> list[Fault]:
    raise RuntimeError("no such luck")


def test_a_rule_that_crashes_is_a_danger_and_hides_nothing(
    library: Path, one_rule: Rulebook, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    rule = one_rule.rules["tail/webbing"]
    book = Rulebook({"tail/crash": dataclasses.replace(rule, check=crash), "tail/webbing": rule})
    monkeypatch.setattr(rulebook, "load_rulebook", lambda: book)
    write(library / "low.yaml", SHORT_TAIL)
    write(library / "other.yaml", BROKEN)
    status, report = run_here(capsys, library)
    assert status == 3
    low = by_path(report)["low.yaml"]["findings"]
    crashed = next(one for one in low if one["crashed"])
    assert (crashed["rule"], crashed["signal"], crashed["kind"]) == ("tail/crash", "DANGER", "fail")
    assert (crashed["at"]["path"], crashed["at"]["line"]) == ("low.yaml", 1)
    assert "RuntimeError: no such luck" in crashed["message"]
    assert [one["at"]["key"] for one in low if one["rule"] == "tail/webbing"] == ["chain[4].tail"]
    assert problems(by_path(report)["other.yaml"])
    assert report["count"]["DANGER"] == 1


@pytest.mark.usefixtures("by_one_rule")
def test_a_rig_that_riglint_stumbles_over_hides_no_other(
    library: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    whole = judge

    def stumble(rig: Any, *more: Any, **named: Any) -> Any:
        if rig.rig.title == "Stone":
            raise ZeroDivisionError("float division by zero")
        return whole(rig, *more, **named)

    monkeypatch.setattr(examined, "judge", stumble)
    write(library / "low.yaml", SHORT_TAIL)
    write(library / "stone.yaml", re.sub(r"(?m)^title: .*$", "title: Stone", SOUND))
    status, report = run_here(capsys, library)
    files = by_path(report)
    assert status == 3
    assert not files["stone.yaml"]["judged"]
    assert [(one["signal"], one["crashed"]) for one in files["stone.yaml"]["findings"]] == [("DANGER", True)]
    assert "tail/webbing" in {one["rule"] for one in files["low.yaml"]["findings"]}


@pytest.mark.usefixtures("by_one_rule")
def test_a_file_that_riglint_stumbles_over_while_reading_hides_no_other(
    library: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    whole = Library.load

    def stumble(self: Library, path: Path) -> Any:
        if path.name == "stone.yaml":
            raise AttributeError("'str' object has no attribute 'pop'")
        return whole(self, path)

    monkeypatch.setattr(Library, "load", stumble)
    write(library / "low.yaml", SHORT_TAIL)
    write(library / "stone.yaml", SOUND)
    status, report = run_here(capsys, library)
    files = by_path(report)
    assert status == 3
    assert [(one["signal"], one["crashed"]) for one in files["stone.yaml"]["findings"]] == [("DANGER", True)]
    assert "'str' object has no attribute 'pop'" in files["stone.yaml"]["findings"][0]["message"]
    assert "tail/webbing" in {one["rule"] for one in files["low.yaml"]["findings"]}
    capsys.readouterr()
    assert main(["sheet", str(library / "stone.yaml"), *DAY]) == 3
    assert "stone.yaml" in capsys.readouterr().err


@pytest.mark.usefixtures("by_one_rule")
@pytest.mark.parametrize("key", ["leash.ring_knot", "leash.harness_knot", "chain[8].rope.dead_end.ends"])
def test_a_misspelt_knot_is_one_problem_of_one_file(
    library: Path, capsys: pytest.CaptureFixture[str], key: str
) -> None:
    baseline = "highline" if key.startswith("leash") else "long_haul"
    write(library / "knot.yaml", edited(sound(baseline, {key: "figure_8"})))
    write(library / "low.yaml", SHORT_TAIL)
    status, report = run_here(capsys, library)
    files = by_path(report)
    (said,) = problems(files["knot.yaml"])
    assert status == 2
    assert said.startswith(
        f"'{key.rpartition('.')[2]}' does not take the word 'figure_8'. Write figure_eight."
    )
    assert files["knot.yaml"]["findings"][0]["at"]["key"] == key
    assert "tail/webbing" in {one["rule"] for one in files["low.yaml"]["findings"]}


def a_rule(more: str) -> str:
    """Return the source of a rule with one thing otherwise than it must be."""
    return (
        "from riglint.rulekit import Signal, rule, the_rig\n"
        "named = dict(title='t', each=the_rig, signal=Signal.CAUTION, why='w', formula='f', examples=())\n"
        f"@rule(**named | dict({more}))\ndef own(case, _): return []\n"
    )


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("def webbing(:\n", "does not load: SyntaxError"),
        ("import riglint.no_such_room\n", "does not load: ModuleNotFoundError"),
        ("LEAST = 0.5\n", "holds 0 rules"),
        ("raise GeneratorExit\n", "does not load: GeneratorExit"),
        (a_rule("signal='LOUD'"), "holds no whole rule: a signal word is none of the four"),
        (a_rule("raised={'life': 9}"), "holds no whole rule: a signal word is none of the four"),
        (a_rule("raised={'death': Signal.DANGER}"), "for a consequence class that there is not"),
        (a_rule("why=''"), "title, why or formula says nothing"),
        (a_rule("each=None"), "there is nothing to run"),
        (a_rule("limits=(0.5,)"), "a limit is none"),
    ],
)
def test_a_rule_set_that_does_not_load_whole_gives_3(
    library: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    text: str,
    says: str,
) -> None:
    rules = write(library / "rules" / "tail" / "webbing.py", text).parents[1]
    write(rules / rulebook.MANIFEST, rulebook.manifest(rulebook.hashes(rulebook.rule_files(rules))))
    monkeypatch.setattr(rulebook, "shipped", lambda _name: rules)
    write(library / "low.yaml", SOUND)
    assert main(["audit", str(library / "low.yaml"), *DAY]) == 3
    said = capsys.readouterr()
    assert said.out == ""
    assert says in said.err
    assert "tail/webbing.py" in said.err


# Files that resist


def test_a_file_of_10_mb_is_refused_and_the_rest_is_judged(library: Path) -> None:
    (library / "big.yaml").write_bytes(b"riglint: rig/1\n" + b"# nothing\n" * 1_000_000)
    write(library / "low.yaml", SOUND)
    status, out, _ = run(library, "audit", ".", *QUIET, "--format", "json")
    files = by_path(json.loads(out))
    assert status == 2
    assert "larger than 2 MB" in problems(files["big.yaml"])[0]
    assert files["low.yaml"]["judged"]


def test_a_folder_that_is_named_like_a_file(library: Path) -> None:
    (library / "x.yaml").mkdir()
    assert run(library, "audit", "x.yaml", *DAY)[0] == 2
    write(library / "x.yaml" / "low.yaml", SOUND)
    status, out, _ = run(library, "audit", ".", *QUIET, "--format", "json")
    assert (status, list(by_path(json.loads(out)))) == (0, ["x.yaml/low.yaml"])


def test_files_that_cannot_be_reached(library: Path) -> None:
    (library / "circle.yaml").symlink_to("circle.yaml")
    (library / "gone.yaml").symlink_to("nowhere.yaml")
    write(library / "low.yaml", SOUND)
    long = "n" * 300 + ".yaml"
    status, out, _ = run(library, "audit", ".", "absent.yaml", long, *QUIET, "--format", "json")
    files = by_path(json.loads(out))
    assert status == 2
    assert files["low.yaml"]["judged"]
    assert problems(files["circle.yaml"])[0].startswith("The file cannot be read: Too many levels of")
    assert problems(files["nowhere.yaml"])[0].startswith("There is no such file.")
    assert problems(files["absent.yaml"])[0].startswith("There is no such file.")
    assert problems(files[long])[0].startswith("The file cannot be read: File name too long.")


@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may read everything")
def test_a_file_and_a_folder_without_leave_to_read_them(library: Path) -> None:
    write(library / "low.yaml", SOUND)
    write(library / "closed.yaml", SOUND).chmod(0)
    hidden = write(library / "shut" / "low.yaml", SOUND).parent
    hidden.chmod(0)
    status, out, _ = run(library, "audit", ".", *QUIET, "--format", "json")
    hidden.chmod(0o700)
    files = by_path(json.loads(out))
    assert status == 2
    assert files["low.yaml"]["judged"]
    assert problems(files["closed.yaml"])[0].startswith("The file cannot be read: Permission denied.")
    assert problems(files["shut"])[0].startswith("The folder cannot be looked into: Permission denied.")


@pytest.mark.usefixtures("by_one_rule")
def test_a_folder_that_cannot_be_looked_into_is_no_empty_folder(
    library: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    write(library / "low.yaml", SOUND)
    shut = write(library / "shut" / "low.yaml", SOUND).parent
    whole = os.scandir

    def refuse(path: str) -> Any:
        if Path(path) == shut:
            raise PermissionError(13, "Permission denied", str(path))
        return whole(path)

    monkeypatch.setattr(os, "scandir", refuse)
    status, report = run_here(capsys, library)
    assert status == 2
    assert problems(by_path(report)["shut"])[0].startswith(
        "The folder cannot be looked into: Permission denied."
    )
    assert by_path(report)["low.yaml"]["judged"]


@pytest.mark.usefixtures("by_one_rule")
def test_a_name_with_a_nul(library: Path, capsys: pytest.CaptureFixture[str]) -> None:
    low = write(library / "low.yaml", SOUND)
    status, report = run_here(capsys, library / "a\0b.yaml", low)
    assert status == 2
    assert by_path(report)["low.yaml"]["judged"]
    unread = next(file for file in report["files"] if not file["judged"])
    assert problems(unread)[0].startswith("The file cannot be read")


def with_spot(written: str) -> str:
    """Return the sound rig with a spot of another file."""
    return re.sub(r"(?ms)^spot:\n(?:  .*?\n)+", lambda _: f"spot: {written}\n", SOUND, count=1)


@pytest.mark.usefixtures("by_one_rule")
@pytest.mark.parametrize(
    ("written", "says"),
    [
        ('"a\\0b.yaml"', "The text 'a\\u0000b.yaml' contains an invisible character"),
        ("a\0b.yaml", "After 'spot: a' stands a character that cannot be seen"),
        ("n" * 300 + ".yaml", "There is no file"),
        ("link.yaml", "'link.yaml' is outside the library"),
        ("../outside.yaml", "'../outside.yaml' is outside the library"),
        ("circle.yaml", "is outside the library"),
        (".", "'.' is a folder"),
        ("low.yaml", "'low.yaml' begins with `riglint: rig`. Expected a spot"),
    ],
)
def test_references_that_lead_astray(
    library: Path, capsys: pytest.CaptureFixture[str], written: str, says: str
) -> None:
    outside = write(library.parent / "outside.yaml", "riglint: spot/1\nanchors: {}\n")
    (library / "link.yaml").symlink_to(outside)
    (library / "circle.yaml").symlink_to("circle.yaml")
    rig = write(library / "low.yaml", with_spot(written))
    status, report = run_here(capsys, rig)
    assert status == 2
    said = problems(by_path(report)["low.yaml"])
    assert len(said) == 1
    assert says in said[0]


@pytest.mark.usefixtures("by_one_rule")
def test_a_hostile_file_is_told_of_in_seconds(library: Path, capsys: pytest.CaptureFixture[str]) -> None:
    keys = "".join(f"standing_tensio{n}: 6 kN\n" for n in range(20_000))
    parts = "".join(f"  - {{part: shackle, gear: SH-{n}}}\n" for n in range(10, 10_000))
    write(library / "keys.yaml", SOUND + keys)
    write(library / "parts.yaml", SOUND.replace("chain:\n", f"chain:\n{parts}"))
    start = time.monotonic()
    status, report = run_here(capsys, library)
    assert time.monotonic() - start < 20  # a second or two here; minutes, if it grew with each key
    files = by_path(report)
    assert status == 2
    assert len(problems(files["keys.yaml"])) == 101
    assert problems(files["keys.yaml"])[-1].startswith("This file has more than 100 problems")
    assert 100 <= len(problems(files["parts.yaml"])) <= 101


# Several files


def test_a_fault_of_a_shelf_is_printed_once_and_names_its_rigs(library: Path) -> None:
    found = re.search(r"(?ms)^shelf:\n  - items:\n(.*?)(?=^\S)", SOUND)
    assert found is not None
    rows = re.sub(r"(?m)^    ", "", found[1])
    shelf = f"riglint: shelf/1\ntitle: Shelf\nitems:\n{rows}".replace("mbs: 42 kN", "mbs: 42")
    write(library / "shelf.yaml", shelf)
    for name in ("east", "west"):
        write(library / f"{name}.yaml", SOUND.replace(found[0], "shelf: [shelf.yaml]\n"))
    write(library / "low.yaml", SOUND)
    status, out, _ = run(library, "audit", ".", *QUIET)
    assert status == 2
    assert out.count("  WARNING    '42' has no unit") == 1
    assert "rigs       east.yaml, west.yaml\n" in out
    assert len(re.findall(r"not judged: \d+ rules, because shelf.yaml", " ".join(out.split()))) == 2
    assert " ".join(out.split()).endswith(
        "three files not judged. 4 files seen: 1 audited, 0 left out, 3 refused."
    )
    report = json.loads(run(library, "audit", ".", *QUIET, "--format", "json")[1])
    judged = {path: file["judged"] for path, file in by_path(report).items()}
    assert judged == {"east.yaml": False, "low.yaml": True, "shelf.yaml": False, "west.yaml": False}


def test_files_of_one_name_in_two_libraries_do_not_hide_each_other(library: Path) -> None:
    other = library.parent / "other"
    write(other / "rig-library", "")
    write(library / "low.yaml", BROKEN)
    write(other / "low.yaml", BROKEN.replace("hich", "hitsch"))
    status, out, _ = run(library.parent, "audit", "library", "other", *DAY)
    assert status == 2
    assert "'hich'" in out
    assert "'hitsch'" in out


def test_the_line_that_tells_editors_the_schema_may_stand_first(library: Path) -> None:
    write(library / "low.yaml", f"$schema: ../schemas/rig.json\n{SOUND}")
    assert run(library, "audit", ".", *QUIET)[0] == 0


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="there are no pipes in folders here")
@pytest.mark.usefixtures("by_one_rule")
def test_a_pipe_is_not_waited_for(library: Path, capsys: pytest.CaptureFixture[str]) -> None:
    os.mkfifo(library / "pipe.yaml")
    status, report = run_here(capsys, library / "pipe.yaml")
    assert status == 2
    (said,) = problems(by_path(report)["pipe.yaml"])
    assert "This is not an ordinary file" in said


@pytest.mark.usefixtures("by_one_rule")
@pytest.mark.parametrize("key", ["at_once: 1", "haulers: 2", "days_up: 1", "sheaves: 2", "strands: 5"])
@pytest.mark.parametrize("number", ["100001", "999999999999", "9" * 400])
def test_a_number_that_nobody_can_count_to_is_a_problem_and_costs_no_time(
    library: Path, capsys: pytest.CaptureFixture[str], key: str, number: str
) -> None:
    """Whatever is computed one by one, such as walkers, would not end in anybody's time."""
    assert key in SOUND
    write(library / "low.yaml", SOUND.replace(key, f"{key.partition(':')[0]}: {number}", 1))
    status, report = run_here(capsys, library)
    assert status == 2
    (said,) = problems(by_path(report)["low.yaml"])
    assert "cannot be" in said or "too long" in said or "expected" in said


@pytest.mark.usefixtures("by_one_rule")
def test_as_many_on_the_line_as_can_be_computed_are(
    library: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for number, status in (("50", 0), ("51", 2)):
        write(library / "low.yaml", SOUND.replace("at_once: 1", f"at_once: {number}"))
        assert run_here(capsys, library, "--stop-at", "DANGER")[0] == status
