"""What the tests of policies start from: the rulebook, loaded once."""

import pytest

from riglint import rulebook
from riglint.rulebook import Rulebook, load_rulebook

FEW = ("gear/inspection", "gear/recalled", "placement/pins", "ratio/peak", "tail/webbing")


@pytest.fixture(scope="session")
def book() -> Rulebook:
    return load_rulebook()


@pytest.fixture
def by_few_rules(monkeypatch: pytest.MonkeyPatch, book: Rulebook) -> None:
    """Judge by a few rules in this process: the others take most of the time of a run."""
    few = Rulebook({name: book.rules[name] for name in FEW})
    monkeypatch.setattr(rulebook, "load_rulebook", lambda: few)
