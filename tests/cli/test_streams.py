"""Streams that are closed, full or gone, and whatever a rule throws: a sentence and status 3, never 0 or 1.

Closed and full descriptors are those of POSIX: `>&-` of the shell, EPIPE, ENOSPC of /dev/full.
"""

import os
import re
import shlex
import signal
import subprocess
import sys
import time
import weakref
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any, NoReturn

import pytest

from riglint import rulebook
from riglint.findings.bounding import MOST_FINDINGS
from riglint.findings.crashing import StoppedError, stoppable
from riglint.loads.inputs import MissingInput
from riglint.rulebook import Rulebook
from riglint.rulekit import Case, Fault, Signal
from tests.cli.calling import DAY, SHORT_TAIL, SOUND, by_path, command, environment, run_here, write

CUT_OFF = "The report was cut off: the reader closed it.\n"
FULL = "The report could not be printed: No space left on device.\n"
CLOSED = "The report cannot be printed: standard output is closed.\n"
LOUD = (*DAY, "--stop-at", "CAUTION")


def in_shell(where: Path, streams: str, *arguments: str) -> tuple[int, str]:
    """Run the command with its streams as a shell would put them; return its status and what it complained of."""
    errors = where.parent / "errors.txt"
    call = f"{shlex.join(command(*arguments))} {streams}"
    told = call if "2>" in streams else f"{call} 2>{shlex.quote(str(errors))}"
    errors.write_text("", encoding="utf-8")
    done = subprocess.run(["sh", "-c", told], cwd=where, env=environment(), capture_output=True, check=False)
    return done.returncode, errors.read_text("utf-8")


CALLS = (
    ("audit", "low.yaml", *LOUD),
    ("audit", "low.yaml", *DAY, "--format", "json"),
    ("sheet", "low.yaml", *DAY),
    ("card", "low.yaml", *DAY),
    ("compare", "low.yaml", "low.yaml", *DAY),
    ("rulebook",),
    ("draft", "lowline"),
)


@pytest.fixture
def low(library: Path) -> Path:
    write(library / "low.yaml", SHORT_TAIL)
    return library


@pytest.mark.parametrize("call", CALLS, ids=" ".join)
@pytest.mark.parametrize(("streams", "says"), [(">/dev/full", FULL), (">&-", CLOSED)])
def test_a_full_or_closed_output_gives_3(low: Path, call: tuple[str, ...], streams: str, says: str) -> None:
    assert in_shell(low, streams, *call) == (3, says)


@pytest.mark.parametrize("streams", [">&- 2>&-", ">/dev/full 2>/dev/full", "<&- >&- 2>&-"])
def test_with_no_stream_left_the_status_still_tells(low: Path, streams: str) -> None:
    assert in_shell(low, streams, *CALLS[0])[0] == 3


@pytest.mark.parametrize("streams", [">/dev/null 2>&-", ">/dev/null 2>/dev/full", "<&- >/dev/null"])
def test_a_report_that_got_out_keeps_its_status(low: Path, streams: str) -> None:
    assert in_shell(low, streams, *CALLS[0])[0] == 1
    assert in_shell(low, streams, "audit")[0] == 2


def test_a_file_is_written_where_there_is_no_output(low: Path) -> None:
    assert in_shell(low, ">&-", *CALLS[0], "--output", "r.txt") == (1, "")
    assert (low / "r.txt").read_text("utf-8").startswith("Audit of 1 rig")


@pytest.mark.parametrize("call", CALLS, ids=" ".join)
def test_a_reader_that_is_gone_gives_3(low: Path, call: tuple[str, ...]) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    with open(writing, "wb") as closed:  # noqa: PTH123 - a descriptor
        done = subprocess.run(
            command(*call), cwd=low, env=environment(), stdout=closed, stderr=subprocess.PIPE, check=False
        )
    assert (done.returncode, done.stderr.decode()) == (3, CUT_OFF)


def cpu_s(process: int) -> float:
    """Return how long a process has worked, s; proc(5), fields 14 and 15."""
    fields = Path(f"/proc/{process}/stat").read_text("utf-8").rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


@pytest.mark.skipif(sys.platform != "linux", reason="/proc is there on Linux only")
def test_ctrl_c_stops_the_run_and_is_no_crash_of_a_rule(low: Path) -> None:
    for n in range(300):
        write(low / f"rig-{n}.yaml", SOUND)
    with subprocess.Popen(
        command("audit", ".", *DAY),
        cwd=low,
        env=environment(),
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as running:
        while cpu_s(running.pid) < 1.5:  # on a busy machine the clock says little
            time.sleep(0.05)
        running.send_signal(signal.SIGINT)
        out, err = running.communicate(timeout=60)
    report, told = out.decode(), err.decode()
    assert running.returncode == 3
    assert re.fullmatch(r"Stopped before it was done: \d+ of 30\d files were not looked at\.\n", told)
    missing = int(told.split(": ")[1].split(" ")[0])
    assert f"{missing} not judged" in report
    assert "crashed" not in report


class Thing:
    pass


def test_ctrl_c_is_not_lost_where_nothing_can_catch_it(capsys: pytest.CaptureFixture[str]) -> None:
    one = Thing()
    with stoppable() as go_on:
        gone = weakref.ref(one, lambda _: signal.raise_signal(signal.SIGINT))
        del one
        assert gone() is None
        with pytest.raises(StoppedError):
            go_on()
    assert not capsys.readouterr().err


# What a rule may do


class OwnError(BaseException):
    pass


class Nameless(MissingInput):
    def __init__(self) -> None:
        Exception.__init__(self)
        self.fields = (object(),)  # type: ignore[assignment]


class MuteError(Exception):
    def __str__(self) -> NoReturn:
        raise ValueError("no words")


def thrown(error: BaseException) -> Any:
    def check(_case: Case, _subject: Any) -> Iterator[Fault]:
        yield from ()
        raise error

    return check


def returned(value: Any) -> Any:
    return lambda _case, _subject: value


def endless(case: Case, _subject: Any) -> Iterator[Fault]:
    while True:
        yield Fault(case.at("title"), "Nothing is wrong here.", "Do nothing.")


def saying(**odd: Any) -> Any:
    def check(case: Case, _subject: Any) -> Iterator[Any]:
        said: dict[str, Any] = {
            "at": case.at("title"),
            "message": "Something is wrong.",
            "do": "Put it right.",
        } | odd
        yield Fault(**said)

    return check


MISBEHAVIOUR: dict[str, tuple[Any, str]] = {
    "BaseException": (thrown(OwnError("own")), "OwnError: own"),
    "GeneratorExit": (thrown(GeneratorExit()), "GeneratorExit"),
    "KeyboardInterrupt": (thrown(KeyboardInterrupt()), "KeyboardInterrupt"),
    "SystemExit 0": (thrown(SystemExit(0)), "SystemExit: 0"),
    "StopIteration": (thrown(StopIteration()), "RuntimeError: generator raised StopIteration"),
    "RecursionError": (thrown(RecursionError("deep")), "RecursionError: deep"),
    "MemoryError": (thrown(MemoryError()), "MemoryError"),
    "an error without words": (thrown(MuteError()), "MuteError"),
    "an error of a megabyte": (thrown(ValueError("x" * 1_000_000)), "ValueError: xxx"),
    "an input without a name": (thrown(MissingInput()), "it waits for something without a name"),
    "an input that is none": (thrown(Nameless()), "AttributeError"),
    "None": (returned(None), "TypeError: 'NoneType' object is not iterable"),
    "a number": (returned(7), "TypeError: 'int' object is not iterable"),
    "a text": (returned("wrong"), "it says a str where a fault is expected"),
    "a list of None": (returned([None]), "it says a NoneType where a fault is expected"),
    "no end": (endless, "it names more than 10000 faults in one place"),
    "a word that is none": (saying(signal="LOUD"), "its fault has a str as signal"),
    "a number as word": (saying(signal=9), "its fault has a int as signal"),
    "a kind that is none": (saying(kind="sound"), "its fault is of no known kind"),
    "no message": (saying(message=""), "its fault says nothing"),
    "a message that is none": (saying(message=None), "its fault says nothing"),
    "no advice": (saying(do="  "), "its fault says nothing"),
    "no place": (saying(at=None), "its fault has a NoneType as at"),
    "a value that is none": (saying(value=object()), "its fault has a object as value"),
    "inputs that are none": (saying(inputs=(1,)), "its fault has inputs that are none"),
}


@pytest.mark.parametrize("name", MISBEHAVIOUR)
def test_whatever_a_rule_does_is_a_danger_and_hides_nothing(
    low: Path,
    one_rule: Rulebook,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    name: str,
) -> None:
    check, says = MISBEHAVIOUR[name]
    rule = one_rule.rules["tail/webbing"]
    book = Rulebook({"tail/odd": replace(rule, check=check), "tail/webbing": rule})
    monkeypatch.setattr(rulebook, "load_rulebook", lambda: book)
    write(low / "other.yaml", SOUND)
    status, report = run_here(capsys, low)
    assert status == 3
    for file in by_path(report).values():
        (crashed,) = (one for one in file["findings"] if one["crashed"])
        assert (crashed["rule"], crashed["signal"], crashed["kind"]) == ("tail/odd", "DANGER", "fail")
        assert says in crashed["message"]
        assert len(crashed["message"]) < 400
        assert file["rules"]["crashed"] == ["tail/odd"]
    assert "tail/webbing" in {one["rule"] for one in by_path(report)["low.yaml"]["findings"]}


@pytest.mark.parametrize("name", ["KeyboardInterrupt", "GeneratorExit", "a text", "an input without a name"])
def test_the_same_for_rules_that_look_at_a_library(
    low: Path,
    one_rule: Rulebook,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    name: str,
) -> None:
    check, says = MISBEHAVIOUR[name]
    twice = rulebook.load_rulebook().rules["library/spot_twice"]
    book = Rulebook({"library/odd": replace(twice, check=check), **one_rule.rules})
    monkeypatch.setattr(rulebook, "load_rulebook", lambda: book)
    status, report = run_here(capsys, low)
    (crashed,) = (one for file in report["files"] for one in file["findings"] if one["crashed"])
    assert status == 3
    assert says in crashed["message"]


AT_LOADING = {
    "import atexit, os; atexit.register(os._exit, 0)": (1, ""),
    "import atexit, sys; atexit.register(sys.stdout.close)": (1, ""),
    "import sys; sys.exit = print": (1, ""),
    "import sys; sys.stderr = None": (1, ""),
    "import sys; sys.stdout.close()": (3, CLOSED.rstrip()),
    "import sys; sys.stdout = None": (3, CLOSED.rstrip()),
    "import os; os.close(1)": (3, "The report could not be printed: Bad file descriptor"),
    "import sys; sys.exit(0)": (3, ""),
    "import os, signal; os.kill(os.getpid(), signal.SIGINT)": (3, "Stopped before it was done."),
    "raise KeyboardInterrupt": (3, "Stopped before it was done."),
}


@pytest.mark.parametrize("what", AT_LOADING)
def test_what_a_house_rule_does_when_it_is_loaded_gives_no_status_of_its_own(low: Path, what: str) -> None:
    """It runs with the rights of whoever named it; only ending the process there and then is beyond us."""
    rule = (
        "from riglint.rulekit import Signal, rule, the_rig\n"
        "@rule(title='t', each=the_rig, signal=Signal.CAUTION, why='w', formula='f', examples=())\n"
        "def own(case, _): return []\n"
    )
    write(low / "club/own/odd.py", f"{what}\n{rule}")
    status, says = AT_LOADING[what]
    errors = low.parent / "errors.txt"
    call = shlex.join(command("audit", "low.yaml", *LOUD, "--house-rules", "club"))
    done = subprocess.run(
        ["sh", "-c", f"{call} 2>{shlex.quote(str(errors))}"],
        cwd=low,
        env=environment(),
        capture_output=True,
        check=False,
    )
    assert done.returncode == status
    assert errors.read_text("utf-8").startswith(says)
    assert ("tail/webbing" in done.stdout.decode()) == (status == 1 or "sys.exit(0)" in what)


def test_findings_of_a_rig_are_bounded_and_the_gravest_stay(
    low: Path, one_rule: Rulebook, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def many(case: Case, _subject: Any) -> Iterator[Fault]:
        for n in range(3 * MOST_FINDINGS):
            word = Signal.DANGER if n == 2000 else Signal.NOTICE
            yield Fault(case.at("title"), f"Thing {n} is wrong.", "Put it right.", signal=word)

    rule = one_rule.rules["tail/webbing"]
    book = Rulebook({"tail/many": replace(rule, check=many), "tail/webbing": rule})
    monkeypatch.setattr(rulebook, "load_rulebook", lambda: book)
    status, report = run_here(capsys, low)
    found = by_path(report)["low.yaml"]["findings"]
    assert status == 1
    assert len(found) == MOST_FINDINGS + 1
    assert "Thing 2000 is wrong." in {one["message"] for one in found}
    (rest,) = (one for one in found if one["rule"] == "file/findings")
    left = 3 * MOST_FINDINGS + 1 - MOST_FINDINGS  # of one webbing anchor, and its short tail
    assert rest["message"].startswith(f"The report leaves out {left} more findings of this rig")
    assert rest["kind"] == "open"


@pytest.mark.skipif(sys.platform != "linux", reason="/dev/full is there on Linux only")
def test_the_devices_of_these_tests_are_there() -> None:
    assert Path("/dev/full").is_char_device()
