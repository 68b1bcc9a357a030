"""How each hazard is caught, as one table in `hazards/README.md`, between two marks.

`python -m riglint.reports.rules.hazard_table` writes it; a test compares it with the rules.
"""

from __future__ import annotations

import re
from pathlib import Path

from riglint.hazards import HAZARDS, PHASES, Hazard
from riglint.reports.rules.rule_words import example_words, examples_of, in_markdown, shown, sourced
from riglint.rulebook import PACKAGE, Rulebook, load_rulebook
from riglint.rulekit import Rule

PAGE = PACKAGE / "hazards" / "README.md"
BEGIN = "<!-- hazards: written by python -m riglint.reports.rules.hazard_table; do not edit below -->"
END = "<!-- hazards: end -->"
VERDICTS = ("faulty", "review", "open")


def hazard_table(book: Rulebook) -> str:
    """Return how many hazards are caught in which way, and a row for each."""
    rows, phase = [], None
    for hazard in HAZARDS.values():
        if hazard.phase != phase:
            phase = hazard.phase
            rows.append(f"| **{PHASES[phase]}** | | | |")
        rows.append(_row(hazard, _caught_by(book, hazard)))
    head = ["| hazard | caught by | example | source |", "|---|---|---|---|"]
    return "\n".join([_counts(book), "", *head, *rows])


def page_with(text: str, table: str) -> str:
    """Return the page with the table between its marks.

    Raises:
        ValueError: the page lacks the marks.
    """
    if text.count(BEGIN) != 1 or text.count(END) != 1:
        raise ValueError(f"The page must hold the lines '{BEGIN}' and '{END}' once each.")
    before, _, rest = text.partition(BEGIN)
    return f"{before}{BEGIN}\n\n{table}\n\n{END}{rest.partition(END)[2]}"


def _caught_by(book: Rulebook, hazard: Hazard) -> dict[str, Rule]:
    return {rule_id: rule for rule_id, rule in book.rules.items() if hazard.id in rule.prevents}


def _row(hazard: Hazard, rules: dict[str, Rule]) -> str:
    caught = [f"`{rule_id}`" for rule_id in rules]
    caught += [f"open: `{key}`" for key in _open_keys(hazard, rules)]
    caught += ["eyes on site"] if hazard.eyes else []
    cells = (
        f"`{hazard.id}`: {in_markdown(hazard.what)}",
        ", ".join(caught),
        in_markdown(_example(hazard, rules)),
        in_markdown(sourced(hazard.source)),
    )
    return f"| {' | '.join(cells)} |"


def _open_keys(hazard: Hazard, rules: dict[str, Rule]) -> list[str]:
    """Return the first key that each rule stays open without, or those that its examples name for this hazard."""
    found: list[str] = []
    for rule in rules.values():
        examples = examples_of(rule, "open")
        chosen = [one for one in examples if hazard.id in one.shows] or examples[:1]
        found += [_general(one.at or one.edits[0][0]) for one in chosen]
    return list(dict.fromkeys(found))


def _general(key: str) -> str:
    """Return a key without the names and places of one rig: `items.*.mbs`."""
    key = re.sub(r"\[\d+\]", "[]", key)
    key = re.sub(r"^shelf\[\]\.items\.[^.]+", "items.*", key)
    return re.sub(r"\.(anchors|points)\.[^.]+", r".\1.*", key)


def _example(hazard: Hazard, rules: dict[str, Rule]) -> str:
    """Return the example that shows the hazard best: what is found before what stays open."""
    found = [(rule_id, one) for rule_id, rule in rules.items() if (one := shown(rule, hazard.id)) is not None]
    found.sort(key=lambda each: VERDICTS.index(each[1].verdict))
    return f"{found[0][1].verdict}: {example_words(found[0][1])} ({found[0][0]})" if found else "–"


def _counts(book: Rulebook) -> str:
    rules = {one.id: _caught_by(book, one) for one in HAZARDS.values()}
    by_rule = sum(bool(found) for found in rules.values())
    openly = sum(bool(_open_keys(one, rules[one.id])) for one in HAZARDS.values())
    eyes = [one for one in HAZARDS.values() if one.eyes]
    alone = sum(not rules[one.id] for one in eyes)
    return (
        f"{len(HAZARDS)} hazards. Rules catch {by_rule} of them, or part of them; "
        f"{openly} leave a rule open if their value is missing. {len(eyes)} have "
        f"a line to look at on site, and {alone} of them nothing else."
    )


def main() -> None:
    """Write the table into the page."""
    page: Path = PAGE
    text = page_with(page.read_text(encoding="utf-8"), hazard_table(load_rulebook()))
    page.write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
