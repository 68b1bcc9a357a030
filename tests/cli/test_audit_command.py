"""`riglint audit` as it is called: real processes, real pipes and terminals, and files that resist reading.

What is asserted is the promise of the command (exit status, one report, nothing hidden, nothing uncaught).
The width of a terminal and closed pipes follow POSIX (COLUMNS, EPIPE), colour the NO_COLOR convention.
JSON is read by Python's own reader.
"""

import json
import os
import pty
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from riglint.reports.layout.spans import WIDEST
from tests.cli.calling import (
    BROKEN,
    DAY,
    ESCAPE,
    QUIET,
    SHORT_TAIL,
    SOUND,
    by_path,
    command,
    environment,
    run,
    write,
)

# Exit status


def test_a_sound_rig_gives_0_and_the_caution_stands_above_the_last_sentence(library: Path) -> None:
    write(library / "low.yaml", SOUND)
    status, out, err = run(library, "audit", ".", *QUIET)
    assert (status, err) == (0, "")
    caution, last = " ".join(out.split()).split("does not mean that a rig may be used. ")
    assert "A calculation is no inspection." in caution
    assert last.endswith(".")


def test_a_finding_at_the_stop_word_gives_1_and_below_it_0(library: Path) -> None:
    write(library / "low.yaml", SHORT_TAIL)
    status, out, _ = run(library, "audit", "low.yaml", *DAY, "--stop-at", "CAUTION")
    assert status == 1
    assert "Only 0.1 m of webbing is left behind" in " ".join(out.split())
    assert run(library, "audit", "low.yaml", *QUIET)[0] == 0


def test_an_unread_file_gives_2_and_outranks_findings(library: Path) -> None:
    write(library / "a.yaml", BROKEN)
    write(library / "b.yaml", SHORT_TAIL)
    status, out, _ = run(library, "audit", ".", *DAY, "--stop-at", "CAUTION")
    assert status == 2
    assert "'hich' is not a key of a sling" in out
    assert "Only 0.1 m of webbing is left behind" in " ".join(out.split())


def test_no_path_is_a_wrong_call(library: Path) -> None:
    status, out, err = run(library, "audit")
    assert (status, out) == (2, "")
    assert err == "Name the rig files or folders to audit, such as: riglint audit rigs/\n"


def test_nothing_of_ours_gives_2_and_with_if_any_0(library: Path) -> None:
    write(library / "foreign.yaml", "name: x\n")
    status, out, _ = run(library, "audit", ".", *DAY)
    assert status == 2
    assert "Nothing to audit" in out
    assert run(library, "audit", "--if-any", ".", *DAY) == (0, "", "")
    assert run(library, "audit", "--if-any", "foreign.yaml", *DAY) == (0, "", "")
    assert run(library, "audit", "--if-any", *DAY) == (0, "", "")


def test_if_any_still_audits_what_is_ours(library: Path) -> None:
    write(library / "foreign.yaml", "name: x\n")
    write(library / "low.yaml", BROKEN)
    assert run(library, "audit", "--if-any", "foreign.yaml", "low.yaml", *DAY)[0] == 2


# Text, pipes and terminals


@pytest.mark.parametrize("columns", [40, 60, 160])
def test_no_line_is_wider_than_the_terminal(library: Path, columns: int) -> None:
    write(library / "a_rig_whose_file_name_is_longer_than_the_narrowest_terminal.yaml", SHORT_TAIL)
    write(library / "broken.yaml", BROKEN)
    _, out, _ = run(library, "audit", ".", *DAY, COLUMNS=str(columns))
    widest = max(map(len, out.splitlines()))
    assert widest <= min(columns, WIDEST)
    assert widest > 0.8 * min(columns, WIDEST)  # and the width is made use of


def on_a_terminal(where: Path, *arguments: str, **more: str) -> str:
    """Run the command with a pseudo-terminal as its output and return what it printed there."""
    ours, its = pty.openpty()
    with subprocess.Popen(
        command(*arguments),
        cwd=where,
        env=environment(TERM="xterm-256color", **more),
        stdin=subprocess.DEVNULL,
        stdout=its,
        stderr=subprocess.PIPE,  # on a terminal it may say how far a long audit has come
    ) as running:
        os.close(its)
        said = b"".join(read_all(ours))
        assert running.stderr is not None
        assert running.stderr.read() == b""
    os.close(ours)
    return said.decode().replace("\r\n", "\n")


def read_all(descriptor: int) -> Iterator[bytes]:
    while True:
        try:
            piece = os.read(descriptor, 65_536)
        except OSError:  # Linux says so when the other side of a terminal is gone
            return
        if not piece:
            return
        yield piece


def test_a_terminal_shows_the_same_characters_in_colour(library: Path) -> None:
    write(library / "broken.yaml", BROKEN)
    write(library / "low.yaml", SHORT_TAIL)
    call = ("audit", ".", *DAY)
    piped = run(library, *call, COLUMNS="72")[1]
    shown = on_a_terminal(library, *call, COLUMNS="72")
    assert "\x1b" not in piped
    assert ESCAPE.search(shown)
    assert ESCAPE.sub("", shown) == piped
    assert on_a_terminal(library, *call, COLUMNS="72", NO_COLOR="1") == piped


@pytest.mark.parametrize("form", ["text", "json"])
def test_two_runs_give_the_same_bytes(library: Path, form: str) -> None:
    many = "".join(f"key_{n}: x\n" for n in range(300))  # more problems than are shown
    write(library / "broken.yaml", BROKEN + many)
    write(library / "low.yaml", SHORT_TAIL)
    call = ("audit", ".", *DAY, "--format", form)
    first = run(library, *call, PYTHONHASHSEED="1")
    assert first == run(library, *call, PYTHONHASHSEED="2") == run(library, *call, PYTHONHASHSEED="3")
    assert first[1].index("more than 100 problems") > first[1].rindex("is not a key of a rig")


def test_a_letter_that_the_terminal_does_not_know_costs_no_report(library: Path) -> None:
    write(library / "low.yaml", SOUND.replace("title: Low line", "title: Läng line"))
    status, out, err = run(library, "audit", ".", *QUIET, PYTHONIOENCODING="ascii")
    assert (status, err) == (0, "")
    assert "L\\xe4ng line" in out


def test_a_file_name_cannot_steer_the_terminal(library: Path) -> None:
    write(library / "red\x1b[31m.yaml", SOUND)
    out = run(library, "audit", ".", *DAY)[1]
    assert "\x1b" not in out
    assert "red\\u001b[31m.yaml" in out


@pytest.mark.skipif(sys.platform != "linux", reason="other systems take only names that are text")
@pytest.mark.parametrize("form", ["text", "json"])
def test_a_file_name_that_is_no_text(library: Path, form: str) -> None:
    file = os.fsencode(library) + b"/\xff.yaml"
    with open(file, "wb") as stream:  # noqa: PTH123 - a name in bytes
        stream.write(SOUND.encode())
    status, out, err = run(library, "audit", ".", *QUIET, "--format", form)
    assert (status, err) == (0, "")
    assert "\\udcff.yaml" in out


@pytest.mark.parametrize("files", ["a", "abcd"])
def test_a_closed_pipe_gives_3(library: Path, files: str) -> None:
    """The reader is gone before anything is written; a long report meets that sooner than a short one."""
    wrong = "\n".join(f"  key_{n}: x" for n in range(90))
    for name in files:
        write(library / f"{name}.yaml", SOUND.replace("plan:\n", f"plan:\n{wrong}\n"))
    reading, writing = os.pipe()
    os.close(reading)
    with open(writing, "wb") as closed:  # noqa: PTH123 - a descriptor
        done = subprocess.run(
            command("audit", ".", *DAY),
            cwd=library,
            env=environment(),
            stdout=closed,
            stderr=subprocess.PIPE,
            check=False,
        )
    assert done.stderr == b"The report was cut off: the reader closed it.\n"
    assert done.returncode == 3  # it did not get out, whatever was found


def test_a_reader_that_takes_one_line_is_served(library: Path) -> None:
    write(library / "low.yaml", BROKEN)
    with subprocess.Popen(
        command("audit", ".", *DAY),
        cwd=library,
        env=environment(),
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as running:
        first = subprocess.run(["head", "-1"], stdin=running.stdout, capture_output=True, check=True)
        assert running.stdout is not None
        assert running.stderr is not None
        running.stdout.close()
        assert first.stdout.startswith(b"Audit of 1 rig as of 2026-05-02")
        assert running.stderr.read() in {b"", b"The report was cut off: the reader closed it.\n"}


# Output to a file


def test_output_is_written_whole_in_place_of_what_was_there(library: Path) -> None:
    write(library / "low.yaml", SHORT_TAIL)
    call = ("audit", "low.yaml", *QUIET)
    printed = run(library, *call, COLUMNS="80")[1]
    report = write(library / "report.txt", "old\n" * 10_000)
    assert run(library, *call, "--output", "report.txt", COLUMNS="160") == (0, "", "")
    assert report.read_text(encoding="utf-8") == printed
    assert sorted(path.name for path in library.iterdir()) == ["low.yaml", "report.txt", "rig-library"]


def test_output_that_cannot_be_written_gives_3(library: Path) -> None:
    write(library / "low.yaml", SOUND)
    status, out, err = run(library, "audit", "low.yaml", *QUIET, "--output", "nowhere/report.txt")
    assert (status, out) == (3, "")
    assert err == "The report cannot be written to nowhere/report.txt: No such file or directory.\n"


# JSON

KEYS = {
    "audit": {"riglint", "on", "policy", "files", "count"},
    "policy": {"title", "path", "sha256", "changed"},
    "file": {"path", "kind", "title", "not_judged", "findings"},
    "finding": {
        *(
            "rule",
            "signal",
            "kind",
            "message",
            "why",
            "do",
            "at",
            "state",
            "value",
            "limit",
            "unit",
            "formula",
        ),
        *("inputs", "source", "rules", "accepted"),
    },
    "at": {"path", "line", "column", "key", "part"},
    "source": {"text", "mark"},
    "input": {"name", "symbol", "value", "unit", "from"},
    "count": {"DANGER", "WARNING", "CAUTION", "NOTICE", "open", "review", "accepted"},
}


def test_json_has_the_keys_that_were_promised(library: Path) -> None:
    write(library / "a.yaml", BROKEN)
    write(library / "b.yaml", SHORT_TAIL)
    report = json.loads(run(library, "audit", ".", *DAY, "--format", "json")[1])
    assert report.keys() >= KEYS["audit"]
    assert (report["riglint"], report["on"]) == ("audit/1", "2026-05-02")
    assert report["policy"].keys() >= KEYS["policy"]
    assert report["count"].keys() >= KEYS["count"]
    for file in report["files"]:
        assert file.keys() >= KEYS["file"]
        assert all(one.keys() >= {"because", "rules"} for one in file["not_judged"])
        for one in file["findings"]:
            assert one.keys() >= KEYS["finding"]
            assert one["at"].keys() >= KEYS["at"]
            assert one["source"].keys() >= KEYS["source"]
            assert all(given.keys() >= KEYS["input"] for given in one["inputs"])
    short = next(one for one in by_path(report)["b.yaml"]["findings"] if one["rule"] == "tail/webbing")
    assert (short["value"], short["limit"], short["unit"]) == (0.1, 0.5, "m")
    assert (short["at"]["key"], short["at"]["part"]) == ("chain[4].tail", "chain[4]")
    assert short["source"]["mark"] in {"published", "standard", "practice", "memory", "own"}


def test_json_numbers_have_six_significant_digits_at_most(library: Path) -> None:
    write(library / "low.yaml", SHORT_TAIL)
    out = run(library, "audit", ".", *DAY, "--format", "json")[1]
    seen: list[str] = []

    def note(text: str) -> float:
        seen.append(text)
        return float(text)

    json.loads(out, parse_float=note, parse_constant=pytest.fail)
    assert seen
    digits = [text.split("e")[0].lstrip("-0.").replace(".", "").rstrip("0") for text in seen]
    assert [text for text in digits if len(text) > 6] == []
