"""The bibliography as markdown: each work, how it was seen, and what rests on it; then what stands in no named work."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.hazards import HAZARDS
from riglint.model.values.bibliography import works
from riglint.model.values.defaults import DEFAULTS
from riglint.model.values.ratios import PEAK
from riglint.model.values.sources import MARKS, Mark, Source
from riglint.reports.rules.rule_words import in_markdown
from riglint.rulebook import Rulebook

HEAD = (
    "Every work behind a limit, a rule or a model value: how we saw it, and what we took from "
    "it. The data are in `riglint/model/values/bibliography.toml`. If a figure is from memory, "
    "read the work again before you rely on it."
)
ORDER: tuple[Mark, ...] = ("unnamed", "memory", "practice", "own")
UNNAMED = {
    "unnamed": "Read, but on a page without a title on record. If you know it, enter it.",
    "memory": "Recalled, not read again.",
    "practice": "Common practice. No source was found.",
    "own": "Worked out or chosen here.",
}


def uses(book: Rulebook) -> Iterator[tuple[Source, str]]:
    """Yield every source with what rests on it: rules and their limits, model values, required ratios, hazards."""
    for rule_id, rule in book.rules.items():
        for limit in rule.limits:
            yield limit.source, f"{rule_id}.{limit.name}"
        for source in rule.sources:
            yield source, rule_id
    for name, value in DEFAULTS.items():
        yield value.source, f"model.{name}"
    for name, row in PEAK.items():
        yield row.source, f"required ratio of {name}"
    for hazard in HAZARDS.values():
        yield hazard.source, f"hazard {hazard.id}"


def bibliography_page(book: Rulebook) -> str:
    """Return the page."""
    on_work: dict[str, dict[str, None]] = {name: {} for name in works()}
    unnamed: dict[Mark, dict[str, dict[str, None]]] = {mark: {} for mark in ORDER}
    for source, user in uses(book):
        for work in source.works:
            on_work[work][user] = None
        if not source.works and source.mark in unnamed:
            unnamed[source.mark].setdefault(source.text, {})[user] = None
    lines = [
        "# Sources",
        "",
        HEAD,
        "",
    ]
    lines += ["| id | work | rests on it |", "|---|---|---|"]
    for name, users in on_work.items():
        lines.append(f"| `{name}` | {in_markdown(works()[name].words)} | {_listed(users)} |")
    for mark in ORDER:
        lines += ["", f"## {MARKS[mark].capitalize()}", "", UNNAMED[mark], ""]
        lines += [f"- {in_markdown(text)}: {_listed(users)}" for text, users in sorted(unnamed[mark].items())]
    return "\n".join(lines) + "\n"


def _listed(users: dict[str, None]) -> str:
    return ", ".join(f"`{user}`" for user in users) or "–"
