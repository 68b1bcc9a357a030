"""What the tests of the command line start from: an empty library, and a rulebook of one rule."""

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


@pytest.fixture(scope="module")
def one_rule() -> Rulebook:
    return Rulebook({"tail/webbing": load_rulebook().rules["tail/webbing"]})


@pytest.fixture
def by_one_rule(monkeypatch: pytest.MonkeyPatch, one_rule: Rulebook) -> None:
    """Judge by one rule in this process: loading the others takes most of the time of a run."""
    monkeypatch.setattr(rulebook, "load_rulebook", lambda: one_rule)
