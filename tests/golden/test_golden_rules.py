"""What every rule says of each of its faulty examples, to be read through like a proof; UPDATE_GOLDEN=1 rewrites it."""

import os
from pathlib import Path

import pytest

from riglint.rulebook import load_rulebook
from tests.golden.rule_messages import said

BOOK = load_rulebook()
SAID = Path(__file__).parent / "rules"


@pytest.mark.parametrize("rule_id", BOOK.rules)
def test_the_rule_says_what_was_last_read(rule_id: str) -> None:
    golden = SAID / f"{rule_id.replace('/', '.')}.txt"
    found = said(rule_id, BOOK.rules[rule_id])
    if os.environ.get("UPDATE_GOLDEN") == "1":
        golden.parent.mkdir(exist_ok=True)
        golden.write_text(found, encoding="utf-8", newline="\n")
    assert golden.is_file(), "Nothing was read yet: run with UPDATE_GOLDEN=1, then read it."
    assert found == golden.read_text(encoding="utf-8")


def test_no_rule_that_is_gone_keeps_its_page() -> None:
    names = {f"{rule_id.replace('/', '.')}.txt" for rule_id in BOOK.rules}
    assert {file.name for file in SAID.iterdir()} == names
