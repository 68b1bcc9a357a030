"""One rule as a markdown page, with a faulty and a sound rig and the finding as an audit prints it."""

from __future__ import annotations

from datetime import date

from riglint.findings import Finding, judge
from riglint.findings.library.across_rigs import judge_library
from riglint.model.values.sources import MARKS
from riglint.policy import InForce
from riglint.reports.audit.finding_text import finding_lines
from riglint.reports.layout.spans import WIDEST, characters
from riglint.reports.layout.yaml_snippet import snippet
from riglint.reports.rules.rule_words import (
    BASELINE_WORDS,
    checks,
    example_words,
    examples_of,
    eyes_words,
    graded,
    in_markdown,
    open_without,
    prevented,
    sourced,
    sources,
    tighter,
    words_at,
)
from riglint.rulebook import Rulebook
from riglint.rulekit import Example, Limit, Rule, first_up
from riglint.testing import edited, edited_data, library_of, rig_of
from riglint.views.audit.words import CAUTION_TEXT

USUAL_DAY = "2026-05-02"  # of examples that name none
KIND = {"faulty": "fail", "review": "review", "open": "open"}
TITLES = {
    "faulty": "A faulty example",
    "review": "An example to look at on site",
    "open": "An example that leaves a question open",
}


def rule_page(rule_id: str, rule: Rule, book: Rulebook) -> str:
    """Return the page of one rule; its example is judged by all rules, as an audit would."""
    words = " · ".join(f"{one} **{word.name}**" for one, word in words_at(rule).items())
    lines = [f"# {rule_id}", "", f"**{rule.title}.** {checks(rule)}", ""]
    lines += [f"Signal word: {'; '.join(filter(None, (words, graded(rule))))}.", ""]
    lines += [f"Looks at: {rule.each.words}.", ""]
    lines += ["## Why", "", in_markdown(rule.why), "", *_hazards(rule)]
    lines += ["## What is compared", "", in_markdown(rule.formula), ""]
    lines += [line for limit in rule.limits for line in _limit(rule_id, limit)]
    lines += ["## Sources", ""] if sources(rule) else []
    lines += [f"- {in_markdown(sourced(source))}" for source in sources(rule)]
    lines += [""] if sources(rule) else []
    lines += [*_shown(rule_id, rule, book), *_all(rule), *_left(rule), CAUTION_TEXT]
    return "\n".join(lines) + "\n"


def _hazards(rule: Rule) -> list[str]:
    if not rule.prevents:
        return []
    return ["It prevents:", "", *(f"- {one.what} (`{one.id}`)" for one in prevented(rule)), ""]


def _limit(rule_id: str, limit: Limit) -> list[str]:
    return [
        f"### `{rule_id}.{limit.name}`: {limit.text}",
        "",
        f"{in_markdown(limit.because)} In a policy it has this name; {tighter(limit.tighter)}.",
        "",
        f"Source: {in_markdown(limit.source.text)}. Mark: {MARKS[limit.source.mark]}.",
        "",
    ]


def _shown(rule_id: str, rule: Rule, book: Rulebook) -> list[str]:
    """Return a faulty example with its finding, and a sound one."""
    verdict = next(one for one in TITLES if examples_of(rule, one))
    bad = examples_of(rule, verdict)[0]
    good = _sound_beside(rule, bad)
    # A sound rig as it is shows the keys that the faulty one has otherwise.
    than = bad if good.baseline == bad.baseline else None
    return [
        f"## {TITLES[verdict]}",
        "",
        *_rig(bad),
        "What the audit says:",
        "",
        *_code("text", _found(rule_id, rule, book, bad)),
        "## A sound example",
        "",
        *_rig(good, None if good.edits else than),
    ]


def _rig(one: Example, than: Example | None = None) -> list[str]:
    """Return an example as the part of a file that differs from the rig it starts from, or from another example."""
    rig = BASELINE_WORDS.get(one.baseline, one.baseline)
    name = first_up(rig)
    day = f", judged on {one.on}" if one.on != USUAL_DAY else ""
    base = edited_data(one.baseline, ())
    other = edited_data(than.baseline, than.edits) if than else base
    words = snippet(other, edited_data(one.baseline, one.edits))
    how = "with" if one.edits else "as it is"
    lines = [f"{name} {how}{day}:", "", *_code("yaml", words)] if words else [f"{name} as it is{day}.", ""]
    for number, edits in enumerate(one.beside, 2):
        beside = snippet(base, edited_data(one.baseline, edits))
        lines += [f"And rig {number} of the library:", "", *_code("yaml", beside or "# the same")]
    if one.recalled:
        lines += [f"The club's policy recalls {', '.join(one.recalled)}.", ""]
    return lines


def _code(language: str, text: str) -> list[str]:
    return [f"```{language}", text, "```", ""]


def _sound_beside(rule: Rule, bad: Example) -> Example:
    """Return the sound example that is most like a faulty one: the same rig, the same keys."""
    keys = dict(bad.edits).keys()

    def likeness(one: Example) -> tuple[bool, int]:
        own = dict(one.edits).keys()
        return one.baseline == bad.baseline, len(own & keys) - len(own ^ keys)

    return max(examples_of(rule, "sound"), key=likeness)


def _found(rule_id: str, rule: Rule, book: Rulebook, example: Example) -> str:
    """Return what an audit prints of the rule's finding, without the line of a file that nobody has."""
    force, day = InForce(recalled=frozenset(example.recalled)), date.fromisoformat(example.on)
    if rule.each.library:
        findings = judge_library(library_of(example, force), book, force)
    else:
        findings = judge(rig_of(edited(example)), book, day, force, weighed=True).findings
    own = [one for one in findings if rule_id in {one.rule, *one.rules} and one.kind == KIND[example.verdict]]
    meant = [one for one in own if _is_meant(one, example)] or own
    return characters(finding_lines(meant[0], WIDEST, where=False)).rstrip()


def _is_meant(finding: Finding, example: Example) -> bool:
    placed = example.at is None or example.at in {finding.at.key, finding.at.part}
    return placed and example.signal in {None, finding.signal}


def _all(rule: Rule) -> list[str]:
    """Return the examples that the rule's file holds, each as the change that it is."""
    lines = ["## All examples", "", "Each runs as a test.", ""]
    for verdict in ("sound", "faulty", "review"):
        lines += [f"- {verdict}: {in_markdown(example_words(one))}" for one in examples_of(rule, verdict)]
    return [*lines, ""]


def _left(rule: Rule) -> list[str]:
    """Return what the rule cannot judge: without which keys, and what only eyes see of its hazards."""
    keys, eyes = open_without(rule), [one for one in prevented(rule) if one.eyes]
    if not keys and not eyes:
        return []
    lines = ["## What it leaves open", ""]
    lines += ["Without these keys it asks an open question instead of giving a verdict:", ""] if keys else []
    lines += [*(f"- `{key}`" for key in keys), ""] if keys else []
    lines += ["Of the hazards above, look at these on site:", ""] if eyes else []
    return [*lines, *(f"- [ ] {eyes_words(one)} (`{one.id}`)" for one in eyes), *([""] if eyes else [])]
