"""Known findings: each is kept by itself, as it was and until its day; what is new, worse, gone or over is told."""

import io
import re
from datetime import date, timedelta
from pathlib import Path

import pytest

from riglint.cli import main
from tests.cli.calling import SOUND, write
from tests.cli.test_library_settings import judged, said

MARK = "riglint: library/1\nknown: known.yaml\n"
DAYS = ("--on", "2026-05-02", "--until", "2026-12-31")
# A WARNING of the sound rig: the words of a club put its short tail so high.
POLICY = """riglint: policy/1
title: Strict club
values: {tail/webbing.least_tail: 2 m}
signals:
  - {rule: tail/webbing, consequence: ground, signal: WARNING}
"""


@pytest.fixture
def club(library: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    write(library / "rig-library", f"{MARK}policy: policy.yaml\n")
    write(library / "policy.yaml", POLICY)
    write(library / "known.yaml", "riglint: known/1\nknown: []\n")
    write(library / "rigs/a.yaml", SOUND)
    monkeypatch.chdir(library)
    return library


def take_on(monkeypatch: pytest.MonkeyPatch, *more: str, answer: str = "y") -> tuple[int, str]:
    monkeypatch.setattr("sys.stdin", io.StringIO(f"{answer}\n"))
    call = ("known", ".", "--role", "gear keeper", "--reason", "rigged for years", *DAYS, *more)
    return said(*call)


def told(path: str = "known.yaml", *more: str) -> tuple[int, list[tuple[str, str]]]:
    """Return the status of an audit of all, and word and message of all that it says of one file."""
    status, report = judged(".", *more)
    found = [one for file in report["files"] if file["path"] == path for one in file["findings"]]
    return status, [(one["signal"], one["message"]) for one in found if one["rule"].startswith("file/")]


@pytest.mark.usefixtures("club")
def test_what_is_taken_on_stops_no_more_and_every_report_tells_it(monkeypatch: pytest.MonkeyPatch) -> None:
    assert judged(".")[0] == 1
    status, text = take_on(monkeypatch)
    assert status == 0
    assert "1 to take on, 0 that nobody can keep" in text
    status, report = judged(".")
    assert status == 0
    (kept,) = [one for file in report["files"] for one in file["findings"] if one["known"]]
    assert kept["rule"] == "tail/webbing"
    assert kept["accepted"]["role"] == "gear keeper"
    assert "1 known findings are kept" in report["settings"][0]["sets"][-1]
    for form in ("text", "markdown", "html", "junit"):
        _, text = said("audit", ".", "--on", "2026-05-02", "--format", form)
        flat = re.sub(r"\s+", " ", text)
        assert "nown by gear keeper until 2026-12-31: rigged for years" in flat, form
        assert "1 known findings are kept" in flat
    _, text = said("audit", ".", "--on", "2026-05-02", "--format", "sarif")
    assert '"kind": "external"' in text
    _, text = said("card", "rigs/a.yaml", "--on", "2026-05-02")
    assert "known by gear keeper" in " ".join(text.split())


def test_it_asks_and_writes_nothing_without_a_yes(club: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = (club / "known.yaml").read_bytes()
    status, text = take_on(monkeypatch, answer="n")
    assert status == 0
    assert "Nothing was written" in text
    assert "anew" in text  # the file is there, so the question says that it is written over
    assert (club / "known.yaml").read_bytes() == before
    monkeypatch.setattr("sys.stdin", io.StringIO(""))
    assert main(["known", ".", "--role", "x", "--reason", "x", *DAYS]) == 2
    assert (club / "known.yaml").read_bytes() == before


@pytest.mark.usefixtures("club")
def test_it_keeps_nothing_for_longer_than_a_year_or_without_words(monkeypatch: pytest.MonkeyPatch) -> None:
    assert take_on(monkeypatch, "--until", "2027-12-31")[0] == 2
    assert take_on(monkeypatch, "--until", "2026-05-01")[0] == 2
    assert take_on(monkeypatch, "--role", "..")[0] == 2


def test_lines_put_in_above_and_a_part_put_in_between_change_nothing(
    club: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    take_on(monkeypatch)
    text = "# Two lines\n# of words\n" + SOUND.replace("title:", "note: rigged twice\ntitle:", 1)
    write(club / "rigs/a.yaml", text)
    assert judged(".")[0] == 0


def test_what_is_worse_by_word_or_by_number_stops(club: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    take_on(monkeypatch)
    write(club / "rigs/a.yaml", SOUND.replace("tail: 1 m,", "tail: 0.999 m,"))
    assert judged(".")[0] == 0  # within what reports round
    write(club / "rigs/a.yaml", SOUND.replace("tail: 1 m,", "tail: 1.2 m,"))
    assert judged(".")[0] == 0  # better
    write(club / "rigs/a.yaml", SOUND.replace("tail: 1 m,", "tail: 0.9 m,"))
    status, findings = told()
    assert status == 1
    assert [one for one in findings if one[0] == "WARNING" and "is worse than" in one[1]]
    write(club / "rigs/a.yaml", SOUND)
    write(club / "policy.yaml", POLICY.replace("2 m", "3 m"))  # the limit is tighter: farther beyond it
    assert judged(".")[0] == 1


def test_what_is_new_stops_beside_what_is_known(club: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    take_on(monkeypatch)
    write(club / "rigs/b.yaml", SOUND)
    assert judged("rigs/b.yaml")[0] == 1
    assert judged("rigs/a.yaml")[0] == 0


def test_a_rig_of_another_name_takes_nothing_with_it_and_the_old_entry_is_told(
    club: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    take_on(monkeypatch)
    (club / "rigs/a.yaml").rename(club / "rigs/evening.yaml")
    status, findings = told()
    assert status == 1
    assert [word for word, words in findings if "is gone" in words] == ["NOTICE"]


def test_what_is_gone_is_told_and_what_was_not_looked_at_is_not(
    club: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(club / "rigs/b.yaml", SOUND)
    take_on(monkeypatch)
    write(club / "rigs/a.yaml", SOUND.replace("tail: 1 m,", "tail: 3 m,"))
    _, findings = told()
    assert [words for _, words in findings if "is gone" in words] == [
        "The known finding tail/webbing of " + findings[0][1].partition(" of ")[2]
    ]
    _, report = judged("rigs/b.yaml")
    assert "is gone" not in str(report)


@pytest.mark.parametrize(
    ("dates", "says"),
    [
        (("2026-04-01", "2026-05-01"), "ran out on 2026-05-01"),
        (("2026-05-02", "2028-01-01"), "Nobody can answer for more than a year"),
        (("2026-06-01", "2026-12-31"), "still to come"),
    ],
)
def test_an_entry_that_is_out_of_date_keeps_nothing_and_stops(
    club: Path, monkeypatch: pytest.MonkeyPatch, dates: tuple[str, str], says: str
) -> None:
    take_on(monkeypatch)
    text = (club / "known.yaml").read_text("utf-8")
    text = text.replace("since: 2026-05-02", f"since: {dates[0]}")
    write(club / "known.yaml", text.replace("until: 2026-12-31", f"until: {dates[1]}"))
    status, findings = told()
    assert status == 1
    assert [word for word, words in findings if says in words] == ["WARNING"]


@pytest.mark.usefixtures("club")
def test_a_day_later_than_its_last_it_stops(monkeypatch: pytest.MonkeyPatch) -> None:
    take_on(monkeypatch)
    last = date(2026, 12, 31)
    for day, status in ((last, 0), (last + timedelta(1), 1)):
        assert said("audit", ".", "--on", str(day), "--stop-at", "WARNING", "--quiet")[0] == status


def entry(**changed: str) -> str:
    held = {
        "rule": "tail/webbing",
        "file": "rigs/a.yaml",
        "cause": "x",
        "word": "WARNING",
        "since": "2026-05-02",
        "until": "2026-12-31",
        "role": "gear keeper",
        "reason": "old",
    } | changed
    rows = "\n    ".join(f"{key}: {value}" for key, value in held.items() if value)
    return f"riglint: known/1\nknown:\n  - {rows}\n"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (entry(word="DANGER"), "DANGER"),
        (entry(rule="tail/webing"), "Write `tail/webbing`"),
        (entry(rule="file/readable"), "There is no rule"),
        (entry(until="2026-01-01"), "before it begins"),
        (entry(until=""), "'until' is missing"),
        (entry(role=""), "'role' is missing"),
        (entry(reason="' '"), "Expected words"),
        (entry(kind="open"), "open"),
        (entry(part="[a, b]"), "Expected text"),
        ("riglint: known/1\nknown: all\n", "Expected a list"),
        ("riglint: known/2\nknown: []\n", "version"),
        ("", "empty"),
    ],
)
def test_a_file_that_could_be_abused_or_is_broken_judges_nothing(club: Path, text: str, says: str) -> None:
    write(club / "known.yaml", text)
    status, report = judged("rigs")
    assert status == 2
    assert says in " ".join(f"{one['message']} {one['do']}" for f in report["files"] for one in f["findings"])


def test_no_danger_open_question_or_crash_is_ever_taken_on(
    club: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(club / "rigs/a.yaml", SOUND.replace("standing_tension: 3 kN", "standing_tension: 30 kN"))
    write(club / "rigs/b.yaml", SOUND.replace("  standing_tension: 3 kN\n", ""))
    _, text = take_on(monkeypatch)
    assert "NEVER" in text
    status, report = judged(".")
    assert status == 1
    for file in report["files"]:
        for one in file["findings"]:
            assert not one["known"] or (one["signal"] != "DANGER" and one["kind"] != "open")
    dangers = [one for f in report["files"] for one in f["findings"] if one["signal"] == "DANGER"]
    assert dangers
    # An entry that claims a milder word for one of them keeps nothing either.
    one = next(one for one in dangers if one["kind"] == "fail")
    cause = re.sub(r"\d+(\.\d+)?", "#", one["message"])
    write(club / "known.yaml", entry(rule=one["rule"], file="rigs/a.yaml", cause=f'"{cause}"'))
    assert judged("rigs/a.yaml")[0] == 1
