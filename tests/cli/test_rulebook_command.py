"""`riglint rulebook`: every rule and every limit is told, in each form, on narrow and wide screens."""

import json
from pathlib import Path
from typing import Any

import pytest

from riglint.cli import main
from riglint.model.values.ratios import PEAK
from riglint.reports.layout.spans import WIDEST
from riglint.reports.rules.pages import rulebook_page
from riglint.reports.rules.rule_words import PART_CLASSES, checks
from riglint.rulebook import Rulebook, load_rulebook
from riglint.rulekit.verdicts import MEANINGS

LARGEST = ("ratio/peak", "tail/webbing", "site/fall_zone")


@pytest.fixture(scope="module")
def book() -> Rulebook:
    return load_rulebook()


@pytest.fixture
def said(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Any:
    """Return how to call the command at a width."""

    def call(*arguments: str, columns: int = 80) -> str:
        monkeypatch.setenv("COLUMNS", str(columns))
        assert main(["rulebook", *arguments]) == 0
        done = capsys.readouterr()
        assert done.err == ""
        return str(done.out)

    return call


def test_the_list_names_every_rule_word_and_ratio(said: Any, book: Rulebook) -> None:
    lines = {line.strip() for line in said().splitlines()}
    assert set(book.rules) <= lines
    text = " ".join(said().split())
    for rule in book.rules.values():
        assert f"{rule.title}." in text
    for signal, meaning in MEANINGS.items():
        assert f"{signal.name} {meaning}" in text
    assert set(PEAK) == set(PART_CLASSES)
    for name, words in PART_CLASSES.items():
        assert f"{name} ({words})" in text
    assert "ground 4, fall 5, life never" in text  # aluminium
    assert "A calculation is no inspection." in text


@pytest.mark.parametrize("name", LARGEST)
def test_one_rule_is_told_in_full(said: Any, book: Rulebook, name: str) -> None:
    text, rule = " ".join(said(name).split()), book.rules[name]
    for wanted in (rule.title, checks(rule), rule.why, " ".join(rule.formula.split())):
        assert wanted in text
    for limit in rule.limits:
        assert f"{name}.{limit.name} limit {limit.text}; {limit.tighter} is tighter. {limit.because}" in text
        assert limit.source.text in text
    assert text.count(" passes ") == sum(one.verdict == "sound" for one in rule.examples)
    assert text.count(" found ") >= sum(one.verdict == "faulty" for one in rule.examples)


@pytest.mark.parametrize("columns", [60, 160])
@pytest.mark.parametrize("name", [None, *LARGEST])
def test_it_fits_the_screen(said: Any, columns: int, name: str | None) -> None:
    lines = said(*([name] if name else []), columns=columns).splitlines()
    assert 0.8 * min(columns, WIDEST) < max(map(len, lines)) <= min(columns, WIDEST)


def test_every_rule_says_what_it_checks(book: Rulebook) -> None:
    assert [name for name, rule in book.rules.items() if not checks(rule).endswith(".")] == []


def test_json_holds_every_rule_and_one_alone(said: Any, book: Rulebook) -> None:
    whole = json.loads(said("--format", "json"))
    assert next(iter(whole)) == "riglint"
    assert whole["riglint"] == "rulebook/1"
    assert [one["rule"] for one in whole["rules"]] == list(book.rules)
    assert {row["part"]: row["life"] for row in whole["required"]}["aluminium"] == "never"
    (one,) = json.loads(said("tail/webbing", "--format", "json"))["rules"]
    assert one["signals"] == {"ground": "CAUTION", "fall": "CAUTION", "life": "WARNING"}
    assert [(limit["name"], limit["value"], limit["tighter"]) for limit in one["limits"]] == [
        ("tail/webbing.least_tail", "0.5 m", "higher"),
        ("tail/webbing.as_good_as_none", "0.1 m", "higher"),
    ]


def test_markdown_is_one_page_with_every_rule(said: Any, book: Rulebook) -> None:
    assert said("--format", "markdown") == rulebook_page(book)
    assert [name for name in book.rules if f"\n### {name}\n" not in rulebook_page(book)] == []


def test_one_rule_as_markdown_goes_to_a_file(said: Any, tmp_path: Path) -> None:
    file = tmp_path / "rule.md"
    assert not said("tail/webbing", "--format", "markdown", "--output", str(file))
    assert file.read_text(encoding="utf-8").startswith("# tail/webbing\n\n**Too little webbing")


@pytest.mark.parametrize(
    ("name", "answer"), [("tail/webing", "Nearest to it: tail/webbing."), ("x", "lists them all.")]
)
def test_an_unknown_rule_gives_2_and_the_nearest(
    capsys: pytest.CaptureFixture[str], name: str, answer: str
) -> None:
    assert main(["rulebook", name]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.startswith(f"'{name}' is not a rule.")
    assert answer in told.err
