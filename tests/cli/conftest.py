"""What the tests of the command line start from: an empty library, and a rulebook of one rule."""

import signal
from pathlib import Path

import pytest

from riglint import rulebook
from riglint.rulebook import Rulebook, load_rulebook


@pytest.fixture
def library(tmp_path: Path) -> Path:
    """An empty library, in a folder that no other library holds."""
    folder = tmp_path / "library"
    folder.mkdir()
    (folder / "rig-library").touch()
    return folder


@pytest.fixture(scope="session", autouse=True)
def ctrl_c_is_heard() -> None:
    """Let what the tests start hear Ctrl-C: a shell makes whatever it runs in the background deaf to it."""
    if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
        signal.signal(signal.SIGINT, signal.default_int_handler)


@pytest.fixture(scope="module")
def one_rule() -> Rulebook:
    return Rulebook({"tail/webbing": load_rulebook().rules["tail/webbing"]})


@pytest.fixture
def by_one_rule(monkeypatch: pytest.MonkeyPatch, one_rule: Rulebook) -> None:
    """Judge by one rule in this process: loading the others takes most of the time of a run."""
    monkeypatch.setattr(rulebook, "load_rulebook", lambda: one_rule)
