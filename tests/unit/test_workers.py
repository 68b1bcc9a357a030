"""Files examined by several workers: the same report whoever does it, and no worker's end hides anything."""

import os
import signal
import threading
from collections.abc import Generator, Iterator
from concurrent.futures import Executor, ProcessPoolExecutor, ThreadPoolExecutor
from contextlib import contextmanager
from datetime import date
from multiprocessing import get_context
from pathlib import Path
from typing import Any, cast

import pytest

import riglint
from riglint import findings
from riglint.findings import Audit
from riglint.findings.crashing import StoppedError
from riglint.findings.library import workers
from riglint.findings.library.again import nothing
from riglint.findings.library.examined import Parcel, Terms
from riglint.findings.library.opened import Libraries
from riglint.findings.library.workers import Processes, tasks_for
from riglint.policy import DEFAULT
from riglint.reports.audit.json_report import audit_json
from riglint.rulebook import Rulebook, RuleSet, load_rulebook
from riglint.rulekit import Signal
from tests.benchmarks.libraries import write_library

ON = date(2026, 5, 2)
RIGS = 9
HEAD = '''"""A rule."""
import os, time
from riglint.rulekit import Case, Fault, Signal, rule, the_rig, review
@rule(title="T", each=the_rig, signal=Signal.NOTICE, why="W.", formula="f", examples=(review("low"),))
def evil(case, _):
'''


@pytest.fixture(scope="module")
def library(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("library")
    write_library(folder, RIGS)
    return folder


@pytest.fixture(scope="module")
def serial(library: Path) -> str:
    """The report of an audit that holds all."""
    return audit_json(findings.audit([library], load_rulebook(), ON))


@contextmanager
def cluster() -> Iterator[Executor]:
    distributed = pytest.importorskip("distributed")
    settings = {"n_workers": 2, "threads_per_worker": 1, "dashboard_address": None}
    with distributed.LocalCluster(**settings) as local, distributed.Client(local) as client:
        yield client.get_executor()


def spawned() -> Executor:
    return ProcessPoolExecutor(2, mp_context=get_context("spawn"))


@pytest.mark.parametrize("make", [lambda: ThreadPoolExecutor(2), spawned], ids=["threads", "processes"])
def test_the_report_is_the_same_whoever_examines(library: Path, serial: str, make: object) -> None:
    with make() as executor:  # type: ignore[operator]
        assert audit_json(riglint.audit_paths(library, executor, on=ON)) == serial


@pytest.mark.filterwarnings("default")  # the engine's own
def test_the_report_of_a_cluster_is_the_same(library: Path, serial: str) -> None:
    with cluster() as executor:
        assert audit_json(riglint.audit_paths(library, executor, on=ON)) == serial


@pytest.mark.parametrize("jobs", [None, 1, 3])
def test_rigs_that_are_let_go_say_the_same(library: Path, serial: str, jobs: int | None) -> None:
    many = Processes(jobs) if jobs else None
    assert audit_json(findings.audit([library], load_rulebook(), ON, keep=nothing, workers=many)) == serial


def house(folder: Path, body: str) -> Rulebook:
    (folder / "odd").mkdir(parents=True)
    (folder / "odd" / "evil.py").write_text(HEAD + body, "utf-8")
    return load_rulebook(RuleSet(folder.name, folder))


ONLY_THERE = '    if case.rig.title.endswith("line 3"):\n        '
EVILS = {
    "ends the process": "os._exit(0)",
    "does not end": "while True: pass",
    "does not end and holds on": (
        "while True:\n            try: time.sleep(0.01)\n            except BaseException: pass"
    ),
    "says very much": 'for n in range(1_000_000): yield Fault(case.at("title"), f"M{n}.", "Do it.")',
    "asks for all memory": "held = [bytes(1 << 30) for _ in range(1 << 10)]",
}


@pytest.mark.parametrize("evil", EVILS)
def test_what_a_rule_does_in_a_worker_hides_nothing(
    library: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, evil: str
) -> None:
    monkeypatch.setattr(workers, "ENOUGH_S", 8.0)
    monkeypatch.setattr(workers, "LAST_S", 12.0)
    body = f"{ONLY_THERE}{EVILS[evil]}\n    return\n    yield\n"
    without = findings.audit([library], load_rulebook(), ON, keep=nothing)
    book = house(tmp_path / "meadow", body)
    found = findings.audit([library], book, ON, keep=nothing, workers=Processes(2))
    assert found.status(Signal.DANGER) == 3
    assert [file.path for file in found.files] == [file.path for file in without.files]
    (hit,) = [file for file in found.files if any(one.crashed for one in file.findings)]
    assert hit.title is None or hit.title.endswith("line 3")
    assert max(one.signal for one in hit.findings) is Signal.DANGER
    others = [_said(audit, hit.path) for audit in (without, found)]
    assert others[0] == others[1]


def _said(audit: Audit, but: str) -> list[tuple[str, str, str]]:
    """Return what is said of all rigs but one; spots and gear lists that only it refers to are judged by themselves."""
    return [
        (file.path, one.rule, one.message)
        for file in audit.files
        for one in file.findings
        if file.kind == "rig" and file.path != but and but not in one.rigs
    ]


@pytest.fixture(autouse=True)
def listens_to_ctrl_c() -> Iterator[None]:
    """Whoever starts the tests in the background may have had Ctrl-C ignored for all of them."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


@pytest.mark.parametrize("jobs", [None, 2])
def test_ctrl_c_keeps_what_is_done_and_says_what_is_missing(library: Path, jobs: int | None) -> None:
    def stop(done: int, _files: int, _findings: int) -> None:
        if done == 9:
            os.kill(os.getpid(), signal.SIGINT)

    many = Processes(jobs) if jobs else None
    found = findings.audit(
        [library], load_rulebook(), ON, keep=nothing, workers=many, progress=stop, keep_what_is_done=True
    )
    whole = findings.audit([library], load_rulebook(), ON, keep=nothing)
    assert found.not_looked_at
    assert found.status(Signal.DANGER) == 3
    assert [file.path for file in found.files] == [file.path for file in whole.files]
    missing = [file for file in found.files if any("stopped" in one.message for one in file.findings)]
    assert 0 < len(missing) == found.not_looked_at < len(found.files)
    assert not any(file.judged for file in missing)


def test_ctrl_c_throws_all_away_unless_it_is_asked_to_keep_it(library: Path) -> None:
    def stop(_done: int, _files: int, _findings: int) -> None:
        os.kill(os.getpid(), signal.SIGINT)

    with pytest.raises(KeyboardInterrupt):
        findings.audit([library], load_rulebook(), ON, keep=nothing, progress=stop)


def test_a_rulebook_made_by_hand_is_judged_by_here(library: Path) -> None:
    few = Rulebook({"tail/webbing": load_rulebook().rules["tail/webbing"]})
    with ThreadPoolExecutor(2) as executor:
        found = riglint.audit_paths(library, executor, few, ON)
    assert found.rules == 1


def test_a_worker_with_other_rules_judges_nothing(library: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(workers, "_books", {})
    monkeypatch.setattr(workers, "load_rulebook", lambda *_sets: Rulebook({}))
    real = workers.tasks_for

    def elsewhere(*given: Any) -> list[workers.Task]:
        tasks = real(*given)
        workers._books.clear()
        return tasks

    monkeypatch.setattr(workers, "tasks_for", elsewhere)
    with ThreadPoolExecutor(2) as executor:
        found = riglint.audit_paths(library, executor, on=ON)
    assert found.status(Signal.DANGER) == 3
    assert not any(file.judged for file in found.files)


def test_an_end_between_two_files_leaves_no_thread_with_an_error(
    library: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The pool's own thread stumbles over a future that somebody else has cancelled once its workers end."""
    stumbled: list[object] = []
    monkeypatch.setattr(threading, "excepthook", stumbled.append)
    book, libraries = load_rulebook(), Libraries([library], None, {}, (), 0)
    files = sorted(library.rglob("shelf/*.yaml")) * 40
    tasks = tasks_for(files, Terms(book, ON, DEFAULT, nothing), libraries)
    for _ in range(4):
        parcels = cast("Generator[Parcel, None, None]", Processes(2).parcels(tasks))
        next(parcels)
        with pytest.raises(StoppedError):
            parcels.throw(StoppedError())
        for one in set(threading.enumerate()) - {threading.main_thread()}:
            one.join(10.0)
    assert stumbled == []
