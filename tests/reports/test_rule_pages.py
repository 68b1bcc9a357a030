"""The page of each rule, made on demand, shows what an audit says; the head beside the rules is fresh."""

import re
import sys
from pathlib import Path
from typing import Any

import pytest
import yaml

from riglint.reports.layout.yaml_snippet import snippet
from riglint.reports.rules.pages import head_page
from riglint.reports.rules.rule_page import rule_page
from riglint.rulebook import Rulebook, load_rulebook
from riglint.rulekit.examples import Inserted, Removed
from riglint.testing import edited, edited_data
from tests.package.checkout import CHECKOUT, started

RULES = CHECKOUT / "rules"
AGAIN = "run python -m riglint.reports.rules.pages"


@pytest.fixture(scope="module")
def book() -> Rulebook:
    return load_rulebook()


@pytest.fixture(scope="module")
def written(book: Rulebook) -> dict[str, str]:
    return {rule_id: rule_page(rule_id, rule, book) for rule_id, rule in book.rules.items()}


def block(page: str, language: str, heading: str) -> str:
    """Return the first block of a language below a heading."""
    found = re.search(rf"^## {heading}.*?^```{language}\n(.*?)\n```$", page, re.MULTILINE | re.DOTALL)
    assert found, f"no {language} below {heading}"
    return found[1]


def test_the_page_beside_the_rules_is_not_stale(book: Rulebook) -> None:
    assert (RULES / "README.md").read_text(encoding="utf-8") == head_page(book), AGAIN


def test_the_head_leads_to_every_family(book: Rulebook) -> None:
    links = re.findall(r"^\| \[(\w+)\]\(\1\) \| [A-Z].+ \|$", head_page(book), re.MULTILINE)
    assert links == sorted({name.partition("/")[0] for name in book.rules})


def test_every_page_names_all_that_a_rule_says_of_itself(book: Rulebook, written: dict[str, str]) -> None:
    for name, rule in book.rules.items():
        page = written[name]
        assert page.startswith(f"# {name}\n")
        for limit in rule.limits:
            assert f"### `{name}.{limit.name}`: {limit.text}\n" in page
            assert f"{limit.tighter} is tighter" in page
        assert [one for one in rule.prevents if f"(`{one}`)" not in page] == [], name


def values(data: Any) -> list[Any]:
    """Return all single values of a document, as text."""
    if isinstance(data, dict):
        return [one for value in data.values() for one in values(value)]
    return [one for value in data for one in values(value)] if isinstance(data, list) else [str(data)]


def test_every_faulty_snippet_is_yaml_that_holds_the_edits(book: Rulebook, written: dict[str, str]) -> None:
    tried = 0
    for name, rule in book.rules.items():
        example = next((one for one in rule.examples if one.verdict == "faulty"), None)
        if example is None or not example.edits:
            continue
        shown = values(yaml.safe_load(block(written[name], "yaml", "A faulty example")))
        whole = edited_data(example.baseline, example.edits)
        for key, value in example.edits:
            others = [one for one in example.edits if one[0] != key]
            # What an edit sets as it was before differs from nothing and is not shown.
            if isinstance(value, Removed) or edited_data(example.baseline, others) == whole:
                continue
            new = list(value.entries) if isinstance(value, Inserted) else value
            missing = [one for one in values(yaml.safe_load(yaml.safe_dump(new))) if one not in shown]
            assert missing == [], (name, missing)
            tried += 1
    assert tried > 100


@pytest.mark.parametrize(
    "name", ["tail/webbing", "haul/brake", "ratio/peak", "ground/clearance", "leash/rings"]
)
def test_the_finding_is_what_an_audit_prints(
    book: Rulebook, written: dict[str, str], name: str, tmp_path: Path
) -> None:
    example = next(one for one in book.rules[name].examples if one.verdict == "faulty")
    (tmp_path / "rig.yaml").write_text(edited(example), encoding="utf-8")
    call = [sys.executable, "-m", "riglint", "audit", "rig.yaml", "--on", example.on]
    said = started(call, tmp_path, COLUMNS="100").stdout
    said = re.sub(r"^    where .*\n(?: {15}.*\n)*", "", said, flags=re.MULTILINE)
    assert block(written[name], "text", "A faulty example") in said


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ({"a": 1, "b": {"c": 2}}, {"a": 1, "b": {"c": 3}}, "b:\n  c: 3"),
        ({"a": 1, "b": 2}, {"a": 1}, "# no b"),
        ({"a": 1}, {"a": 1, "b": [1, 2]}, "b: [1, 2]"),
        (
            {"chain": [{"part": "anchor"}, {"part": "sling", "gear": "RS-1", "hitch": "basket"}]},
            {"chain": [{"part": "anchor"}, {"part": "sling", "gear": "RS-1", "hitch": "choke"}]},
            "chain:\n  - part: sling  # chain[1]\n    gear: RS-1\n    hitch: choke",
        ),
        (
            {"chain": [{"part": "anchor"}, {"part": "sling"}]},
            {"chain": [{"part": "anchor"}]},
            "chain:\n  # no {part: sling}",
        ),
        (
            {"chain": [{"part": "anchor"}]},
            {"chain": [{"part": "protector", "gear": "TP-1"}, {"part": "anchor"}]},
            "chain:\n  - part: protector  # chain[0]\n    gear: TP-1",
        ),
    ],
)
def test_a_snippet_holds_what_differs_and_the_names_above_it(old: Any, new: Any, said: str) -> None:
    assert snippet(old, new) == said
