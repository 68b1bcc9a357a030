"""How the rulebook, its page and the default policy speak of rules: the same words in each."""

from __future__ import annotations

from collections.abc import Iterable
from inspect import getdoc, getmodule
from typing import Any, get_args

from riglint.hazards import HAZARDS, Hazard, Where
from riglint.model.values.sources import MARKS, Source
from riglint.model.vocabulary.words import Consequence
from riglint.rulebook import Rulebook
from riglint.rulekit import Example, Limit, Rule, Signal
from riglint.rulekit.examples import Inserted, Removed
from riglint.rulekit.verdicts import MEANINGS

CONSEQUENCES: tuple[Consequence, ...] = get_args(Consequence)
# Shortened from riglint/loads/states/consequence.py, which decides.
AT_STAKE: dict[Consequence, str] = {
    "ground": "a stumble: feet low, little energy in the line",
    "fall": "a fall that can injure: feet above 1.5 m, a hard line, jumps, water, the public",
    "life": "a life: highline, leash, or feet above 3 m",
}
HEADS: dict[Where, str] = {
    "tightened": "With a pulley system or a tensioner",
    "haul": "With a pulley system",
    "plate": "With a plate",
    "grip": "With a multiplier",
    "highline": "On a highline",
    "waterline": "Above water",
    "slackrope": "On a rodeo line",
    "long": "On a long line",
    "tree": "At trees",
    "bolts": "At bolts",
    "boulder": "At boulders",
    "ground": "At ground anchors",
    "structure": "At structures",
    "legs": "At spread anchors",
    "edge": "At edges",
}
BASELINE_WORDS = {"low": "the low line", "long_haul": "the long line", "highline": "the highline"}
PART_CLASSES = {
    "webbing": "webbing with its ends and joins",
    "textile": "textile slings and soft shackles",
    "metal": "shackles, links, rings, plates, pulleys, webbing anchors, steel connectors",
    "aluminium": "aluminium connectors that carry more than half the line",
    "rope": "a rope strand with its knots",
    "brake": "the rope brake, on the lead strand",
    "backup": "a backup line in its catch",
    "anchor_point": "anchor points, with all of them holding",
    "anchor_point_one_lost": "anchor points, with any one lost",
    "boulder": "a boulder's resistance",
    "ground_anchor": "a tested ground anchor",
}


def families(book: Rulebook) -> dict[str, dict[str, Rule]]:
    """Return the rules by family, in the order of their ids."""
    found: dict[str, dict[str, Rule]] = {}
    for rule_id, rule in book.rules.items():
        found.setdefault(rule_id.rpartition("/")[0], {})[rule_id] = rule
    return found


def checks(rule: Rule) -> str:
    """Return what must hold, as the rule's file begins."""
    module = getmodule(rule.check)
    return " ".join((getdoc(module) or "").split()) if module else ""


def words_at(rule: Rule) -> dict[Consequence, Signal]:
    """Return the signal word of a rule at each consequence class."""
    return {consequence: rule.at(consequence) for consequence in CONSEQUENCES}


def graded(rule: Rule) -> str:
    """Say which graver word a rule may give than its own; empty where it gives none."""
    least = min(words_at(rule).values())
    return f"up to {rule.worst.name} in any class, if it is far off" if rule.worst > least else ""


def tighter(limit_tighter: str) -> str:
    """Say which way a policy may move a value without a reason."""
    return f"{limit_tighter} is tighter"


def sourced(source: Source) -> str:
    """Return a source and how far it may be trusted, without saying the same twice."""
    mark = MARKS[source.mark]
    return source.text if source.text.startswith(mark) else f"{source.text} ({mark})"


def sources(rule: Rule) -> list[Source]:
    """Return the sources of a rule beside those of its limits, each once."""
    held = {limit.source for limit in rule.limits}
    return [source for source in dict.fromkeys(rule.sources) if source not in held]


def limit_words(limit: Limit) -> str:
    """Return a limit in one paragraph: value, which way is tighter, reason, source."""
    return f"{limit.text}; {tighter(limit.tighter)}. {limit.because} Source: {sourced(limit.source)}."


def example_words(example: Example) -> str:
    """Return an example as the change of a sound rig that it is."""
    rig = BASELINE_WORDS.get(example.baseline, example.baseline)
    phrases = [_edit(key, value) for key, value in example.edits]
    phrases += [f"{', '.join(example.recalled)} recalled"] if example.recalled else []
    phrases += [f"as of {example.on}"] if example.on != "2026-05-02" else []
    word = f" → {example.signal.name}" if example.signal else ""
    return f"{rig} {'as it is' if not phrases else 'with ' + ', '.join(phrases)}{word}"


def examples_of(rule: Rule, verdict: str) -> list[Example]:
    """Return the examples with one verdict."""
    return [example for example in rule.examples if example.verdict == verdict]


def open_without(rule: Rule) -> list[str]:
    """Return the keys without which a rule stays open, each once."""
    keys = [example.at or next(iter(dict(example.edits)), "") for example in examples_of(rule, "open")]
    return list(dict.fromkeys(key for key in keys if key))


def _edit(key: str, value: Any) -> str:
    if isinstance(value, Removed):
        return f"no {key}"
    if isinstance(value, Inserted):
        return f"{', '.join(flow(entry) for entry in value.entries)} before {key}"
    return f"{key}: {flow(value)}"


def shown(rule: Rule, hazard: str) -> Example | None:
    """Return the example that stands for a hazard: the one that names it, else the rule's first that is not sound."""
    found = [one for verdict in ("faulty", "review", "open") for one in examples_of(rule, verdict)]
    return next((one for one in found if hazard in one.shows), found[0] if found else None)


def eyes_words(hazard: Hazard) -> str:
    """Return a line for the eyes on site, headed by the rigs that it is for, where that is not any."""
    return f"{HEADS[hazard.where]}: {hazard.eyes}" if hazard.where in HEADS else hazard.eyes


def prevented(rule: Rule) -> list[Hazard]:
    """Return the hazards that a rule catches, or part of them."""
    return [HAZARDS[one] for one in rule.prevents]


def in_markdown(text: str) -> str:
    """Return text in which markdown sees no markup of its own."""
    return text.replace("|", "\\|").replace("*", "\\*").replace("<", "&lt;")


def flow(value: Any) -> str:
    """Return a value as it would stand in a file, on one line."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {flow(one)}" for key, one in value.items()) + "}"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(flow(one) for one in value) + "]"
    if value is None:
        return "null"
    return str(value).lower() if isinstance(value, bool) else str(value)


def scale(signals: Iterable[Signal] = tuple(sorted(Signal, reverse=True))) -> list[tuple[str, str]]:
    """Return signal words with their meanings, worst first."""
    return [(signal.name, MEANINGS[signal]) for signal in signals]
