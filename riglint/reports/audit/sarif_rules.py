"""The rules in SARIF: a descriptor for each, and what a policy changed of them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from riglint.findings import Finding
from riglint.findings.library.unreadable import WHY_READ
from riglint.policy import InForce
from riglint.reports.rules.rule_words import checks, limit_words, sourced, sources, words_at
from riglint.reports.sheet.markdown import escaped
from riglint.rulebook import Rulebook
from riglint.rulekit import Rule, Signal

# SARIF knows three levels of a fail (3.27.10); the signal word itself stands in the properties.
LEVELS = {
    Signal.DANGER: "error",
    Signal.WARNING: "error",
    Signal.CAUTION: "warning",
    Signal.NOTICE: "note",
}
RANKS = {Signal.DANGER: 100.0, Signal.WARNING: 75.0, Signal.CAUTION: 50.0, Signal.NOTICE: 25.0}  # 3.27.25
# What is said of files before any rule looks at them.
FILE_RULES = {
    "file/accepted": ("An accepted finding marks nothing.", Signal.CAUTION),
    "file/duplicate": ("One name stands for two things.", Signal.WARNING),
    "file/key": ("A key is unknown, missing, or does not belong there.", Signal.WARNING),
    "file/kind": ("The file does not say which kind of file it is.", Signal.WARNING),
    "file/known": ("A known finding is gone, has run out, or keeps nothing.", Signal.WARNING),
    "file/library": ("What a library sets is new, changed, or keeps rigs from being judged.", Signal.WARNING),
    "file/readable": ("The file cannot be read or computed.", Signal.WARNING),
    "file/reference": ("What the file refers to is not there.", Signal.WARNING),
    "file/uncertainty": ("Too many values have a ± to weigh them all.", Signal.NOTICE),
    "file/unit": ("A quantity has no unit, or a wrong one.", Signal.WARNING),
    "file/value": ("A value cannot stand there.", Signal.WARNING),
    "file/yaml": ("The file is no YAML that means one thing only.", Signal.WARNING),
}


class Descriptors:
    """Every rule as a reporting descriptor, and the place of each in the list."""

    def __init__(self, book: Rulebook, findings: Iterable[Finding]) -> None:
        self.rules = [_rule(name, rule) for name, rule in book.rules.items()]
        self.rules += [_file_rule(name, *texts) for name, texts in FILE_RULES.items()]
        known = {descriptor["id"] for descriptor in self.rules}
        unknown = sorted({finding.rule for finding in findings} - known)
        self.rules += [{"id": name} for name in unknown]
        self.index = {descriptor["id"]: n for n, descriptor in enumerate(self.rules)}


def level(signal: Signal) -> dict[str, Any]:
    """Return level and rank of a signal word."""
    return {"level": LEVELS[signal], "rank": RANKS[signal]}


def _rule(rule_id: str, rule: Rule) -> dict[str, Any]:
    """Return one rule (3.49). Its level is that of its own word, where a stumble is at stake."""
    signals = {consequence: word.name for consequence, word in words_at(rule).items()}
    limits = {f"{limit.name}": limit.text for limit in rule.limits}
    return {
        "id": rule_id,
        "name": _name(rule_id),
        "shortDescription": {"text": rule.title},
        "fullDescription": {"text": checks(rule) or rule.title},
        "help": {"text": _help_text(rule), "markdown": _help_markdown(rule)},
        "defaultConfiguration": level(rule.signal) | {"parameters": {"riglint/limits": limits}},
        "properties": {
            "riglint/signals": signals,
            "riglint/worst": rule.worst.name,
            "riglint/formula": rule.formula,
            "riglint/sources": [sourced(source) for source in sources(rule)],
        },
    }


def _file_rule(name: str, title: str, signal: Signal) -> dict[str, Any]:
    return {
        "id": name,
        "name": _name(name),
        "shortDescription": {"text": title},
        "fullDescription": {"text": title},
        "help": {"text": WHY_READ, "markdown": escaped(WHY_READ)},
        "defaultConfiguration": level(signal),
    }


def _name(rule_id: str) -> str:
    """Return an id as one readable word: `tail/webbing` is `TailWebbing`."""
    return "".join(word.capitalize() for word in rule_id.replace("/", "_").split("_"))


def _help_text(rule: Rule) -> str:
    lines = [rule.why, f"Compared: {rule.formula}."]
    lines += [f"Limit {limit.name}: {limit_words(limit)}" for limit in rule.limits]
    lines += [f"Source: {sourced(source)}." for source in sources(rule)]
    return "\n".join(lines)


def _help_markdown(rule: Rule) -> str:
    lines = [escaped(rule.why), "", f"**Compared:** {escaped(rule.formula)}"]
    limits = [f"- `{limit.name}`: {escaped(limit_words(limit))}" for limit in rule.limits]
    lines += ["", "**Limits:**", "", *limits] if limits else []
    cited = [f"- {escaped(sourced(source))}" for source in sources(rule)]
    return "\n".join([*lines, *(["", "**Sources:**", "", *cited] if cited else [])])


def overrides(force: InForce, descriptors: Descriptors) -> list[dict[str, Any]]:
    """Return what a policy changed of single rules (3.20.5, 3.50); all its changes stand in the run's properties."""
    found = []
    for rule_id, index in descriptors.index.items():
        configuration: dict[str, Any] = {}
        if rule_id in force.off:
            configuration["enabled"] = False
        words = {at: word for (name, at), word in force.words.items() if name == rule_id}
        if "ground" in words:
            configuration |= level(words["ground"])
        changed = {one.name: one.new for one in force.changes if one.name.startswith(f"{rule_id}.")}
        parameters: dict[str, Any] = {"riglint/limits": changed} if changed else {}
        if words:
            parameters["riglint/signals"] = {at: word.name for at, word in sorted(words.items())}
        if parameters:
            configuration["parameters"] = parameters
        if configuration:
            found.append({"descriptor": {"id": rule_id, "index": index}, "configuration": configuration})
    return found
