"""What the rules could not judge, as findings: a key that is not filled in, a number that nobody could compute."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from riglint.findings.finding import Finding, Where
from riglint.findings.rule_runs import RulebookRun
from riglint.findings.telling import where
from riglint.model.values.sources import OWN
from riglint.rulebook import Rulebook
from riglint.rulekit import Signal


def missing_inputs(run: RulebookRun, book: Rulebook) -> list[Finding]:
    """Return one finding for each missing field, with all rules that wait for it."""
    found = []
    for waiting in run.waiting:
        rules = sorted(waiting.rules, key=lambda name: (-waiting.rules[name], name))
        first = book.rules[rules[0]]
        shared = waiting.at.path != run.rig.document.path
        message = f"{waiting.lacking}, so {cannot_be_judged(rules)}."
        found.append(
            Finding(
                rules[0],
                max(waiting.rules.values()),
                "open",
                message,
                first.why,
                waiting.do,
                where(waiting.at),
                first.source,
                first.formula,
                rules=tuple(rules),
                rigs=(run.rig.document.path,) if shared else (),
                part_words=run.in_words(waiting.at.part),
                asks=waiting.asks,
            )
        )
    return found


def not_computable(run: RulebookRun, book: Rulebook) -> list[Finding]:
    """Return an open finding for each reason why nothing could be computed that no other finding tells."""
    failed = {finding.rule for finding in run.findings if finding.kind == "fail"}
    if failed & book.explaining:
        return []
    explained = {reason for name in failed if name in book.rules for reason in book.rules[name].tells}
    at = Where(run.rig.document.path, 1, 1, "")
    found = []
    for because, waiting in run.unable.items():
        if because in explained:
            continue
        words = {name: run.worst(name, book.rules[name]) for name in waiting}
        rules = sorted(words, key=lambda name: (-words[name], name))
        message = f"{cannot_be_judged(rules)}: {because}."
        do = "Look at the values that this depends on. If they are right, a person must judge it."
        first = book.rules[rules[0]]
        worst = max(words.values())
        found.append(
            Finding(
                rules[0],
                worst,
                "open",
                message,
                first.why,
                do,
                at,
                OWN,
                first.formula,
                rules=tuple(rules),
            )
        )
    return found


def cannot_be_judged(rules: Sequence[str]) -> str:
    """Return which rules cannot be judged, the first by name."""
    more = f" and {len(rules) - 1} more" if len(rules) > 1 else ""
    return f"{rules[0]}{more} cannot be judged"


def with_rules(asked: Finding, rules: Iterable[str], signal: Signal) -> Finding:
    """Return an open question for which more rules wait, with their number in its sentence."""
    waiting = (*asked.rules, *(one for one in rules if one not in asked.rules))
    message = asked.message.replace(cannot_be_judged(asked.rules), cannot_be_judged(waiting))
    return replace(asked, rules=waiting, message=message, signal=max(asked.signal, signal))
