"""What a check may confirm is known: every tick that a rule asks for, so that a misspelt one can be told."""

from collections.abc import Iterator
from datetime import date

import pytest

from riglint.findings import judge
from riglint.loadpath import build
from riglint.loads import Loads
from riglint.policy import DEFAULT
from riglint.rulebook import load_rulebook
from riglint.rulekit import At, Case, Fault, confirming_nothing
from riglint.rulekit import ticks as module
from riglint.rulekit.ticks import ticks
from riglint.testing import as_text, edited_data, rig_of

ON = date(2026, 5, 2)


def case_of(baseline: str, checks: list[dict[str, str]]) -> Case:
    """Return a sound rig that stands already, with some checks entered."""
    rig = rig_of(as_text(edited_data(baseline, [("stage", "built"), ("checks", checks)])))
    return Case(Loads(build(rig), DEFAULT.values, ON), ON, DEFAULT.limits, DEFAULT.recalled)


@pytest.mark.parametrize("baseline", ["low", "highline", "long_haul"])
def test_every_tick_that_a_rule_asks_for_is_known(baseline: str, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: set[str] = set()

    def checked(_case: Case, at: At) -> None:
        asked.add(at.key_text)

    def due(_case: Case, at: At, _do: str) -> Iterator[Fault]:
        asked.add(at.key_text)
        return iter(())

    monkeypatch.setattr(module, "_need_a_check", checked)
    monkeypatch.setattr(module, "due", due)
    case = case_of(baseline, [])
    judge(case.file, load_rulebook(), ON, with_remedies=False)
    assert len(asked) > 4
    assert asked <= {at.key_text for at in ticks(case)}


def test_only_what_looks_like_a_key_and_is_none_confirms_nothing() -> None:
    words = [
        "closing",
        "hand_tight_recheck",
        "pins",
        "locked",
        "All well.",
        "chain looked at",
        "sling 3.5 m",
        "ok...",
    ]
    keys = ["chain[8].brake.locked", "chain[8].locked", "chain[3].pins"]
    wrong = {
        "chain[8].brake.lokced": "chain[8].brake.locked",
        "chain[8]": None,
        "leash.partner_check": None,  # there is no leash
    }
    case = case_of("low", [{"what": what} for what in [*words, *keys, *wrong]])
    found = {what: near for _, what, near in confirming_nothing(case)}
    assert sorted(found) == sorted(wrong)
    assert found["chain[8].brake.lokced"] == "chain[8].brake.locked"
