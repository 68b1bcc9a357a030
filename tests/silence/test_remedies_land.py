"""What a finding asks to be filled in may be filled in there: its kind of part, gear or anchor takes that key.

That a number which a finding advises ends it is tested in `tests/rules/test_remedies.py`; that a value
which is filled in ends its question, in `test_deleted.py`: the sound rig is the rig with the value.
"""

import re
from typing import Any

import pytest

from riglint.rulekit import Example
from riglint.testing import as_text, edit_value, edited, rig_of, run_example
from tests.faults.seeded import BOOK, read_text

OPEN = [
    (rule_id, n)
    for rule_id, rule in BOOK.rules.items()
    if not rule.each.library
    for n, example in enumerate(rule.examples)
    if example.verdict == "open"
]
FOREIGN = re.compile(r"is not a key of|unknown key|no such key")
ASKED = re.compile(r"Fill in ([\w.\[\]-]+)")


def asked_for(rule_id: str, example: Example) -> set[str]:
    """Return the keys that the findings of an example ask for."""
    found = run_example(rule_id, BOOK.rules[rule_id], example).findings
    return {
        key if key == one.at.key or "." in key else f"{one.at.key.rpartition('.')[0]}.{key}".lstrip(".")
        for one in found
        if one.kind == "open"
        for key in ASKED.findall(one.do)
    }


def refused(text: str, key: str) -> str:
    """Return why a key may not stand in a rig; empty where only its value is refused, or nothing."""
    data = read_text(text)
    try:
        _write(data, key.rstrip("."))
        rig_of(as_text(data))
    except ValueError as error:
        wrong = [each for each in str(error).split("; ") if each.startswith(f"{key}:")]
        return "; ".join(each for each in wrong if FOREIGN.search(each))
    return ""


def _write(data: Any, key: str) -> None:
    try:
        edit_value(data, key, "?")
    except (KeyError, IndexError, TypeError):  # it stands in a group that is not there either
        _write(data, key.rpartition(".")[0])


@pytest.mark.parametrize("rule_id", sorted({rule_id for rule_id, _ in OPEN}))
def test_what_is_asked_for_may_stand_there(rule_id: str) -> None:
    for one, n in OPEN:
        if one == rule_id:
            example = BOOK.rules[rule_id].examples[n]
            text = edited(example)
            wrong = {key: why for key in asked_for(rule_id, example) if (why := refused(text, key))}
            assert wrong == {}, example.edits


def test_a_foreign_key_is_refused() -> None:
    assert refused(edited(BOOK.rules["tail/webbing"].examples[0]), "chain[0].legs")
