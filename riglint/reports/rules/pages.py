"""The rulebook as markdown: all of it as one page, and the head of it that stands beside the rules.

`python -m riglint.reports.rules.pages` writes `rules/README.md` and the manifest of the rule files.
A page of each rule is made when somebody asks for it: `riglint rulebook RULE --format markdown`.
"""

from __future__ import annotations

import ast

from riglint.hazards import PHASES, for_the_eyes
from riglint.model.values.ratios import PEAK
from riglint.reports.rules.rule_words import (
    AT_STAKE,
    CONSEQUENCES,
    PART_CLASSES,
    checks,
    examples_of,
    eyes_words,
    families,
    graded,
    in_markdown,
    limit_words,
    open_without,
    prevented,
    scale,
    sourced,
    sources,
    words_at,
)
from riglint.rulebook import MANIFEST, Rulebook, hashes, load_rulebook, manifest, rule_files, shipped
from riglint.rulekit import Rule
from riglint.views.audit.words import CAUTION_TEXT
from riglint.views.figures import number

ASKED = "`riglint rulebook` lists the rules, `riglint rulebook RULE` prints one in full, with a faulty and a sound rig."
GENERATED = "<!-- Generated from the rule files; do not edit. -->"
HEAD = (
    "One file, one rule; its path is its id. A club's policy can change every limit; `riglint rulebook --format "
    "policy` prints all of them, with the model values. `--format sources` prints their sources."
)

EYES = (
    "No file knows these, so look at them yourself, in the order of the work. Each line ends with its hazard."
)


def rulebook_page(book: Rulebook) -> str:
    """Return all as one page: scales, required ratios, what only eyes can see, and every rule by family."""
    lines = _head(HEAD)
    for family, rules in families(book).items():
        lines += ["", f"## {family}"]
        for rule_id, rule in rules.items():
            lines += ["", f"### {rule_id}", "", *_rule(rule_id, rule)]
    return "\n".join(lines) + "\n"


def head_page(book: Rulebook) -> str:
    """Return the page beside the rules: the same head, and what each family holds."""
    lines = [*_head(f"{HEAD}\n\n{ASKED}"), "", "## Families", "", "| family | holds |", "|---|---|"]
    lines += [f"| [{family}]({family}) | {_held(family)} |" for family in families(book)]
    return "\n".join(lines) + "\n"


def _held(family: str) -> str:
    """Return the sentence at the top of a family's folder."""
    return (
        ast.get_docstring(ast.parse((shipped("rules") / family / "__init__.py").read_text(encoding="utf-8")))
        or ""
    )


def _head(text: str) -> list[str]:
    lines = ["# The rulebook", "", GENERATED, "", text, "", CAUTION_TEXT, ""]
    lines += [
        "| signal word | means |",
        "|---|---|",
        *(f"| {name} | {meaning} |" for name, meaning in scale()),
    ]
    lines += ["", "| consequence | what a failure would mean |", "|---|---|"]
    lines += [f"| {word} | {meaning} |" for word, meaning in AT_STAKE.items()]
    return [*lines, "", *_ratios(), "", *_eyes()]


def _rule(rule_id: str, rule: Rule) -> list[str]:
    words = ", ".join(f"{one} {word.name}" for one, word in words_at(rule).items())
    lines = [f"**{rule.title}.** {checks(rule)}", ""]
    lines += [f"- Signal word: {'; '.join(filter(None, (words, graded(rule))))}"]
    lines += [
        f"- Looks at: {rule.each.words}",
        f"- Why: {rule.why}",
        f"- Formula: {in_markdown(rule.formula)}",
    ]
    lines += ["- Prevents: " + ", ".join(f"`{one.id}`" for one in prevented(rule))] if rule.prevents else []
    lines += [f"- `{rule_id}.{limit.name}`: {limit_words(limit)}" for limit in rule.limits]
    lines += [f"- Source: {sourced(source)}" for source in sources(rule)]
    counted = {verdict: len(examples_of(rule, verdict)) for verdict in ("sound", "faulty", "review")}
    lines += ["- Examples: " + ", ".join(f"{n} {verdict}" for verdict, n in counted.items() if n)]
    if open_without(rule):
        lines += ["- Open without: " + ", ".join(f"`{key}`" for key in open_without(rule))]
    return lines


def _eyes() -> list[str]:
    lines = ["## Look at these on site", "", EYES]
    for phase, hazards in for_the_eyes().items():
        lines += ["", f"{PHASES[phase]}:", ""]
        lines += [f"- [ ] {eyes_words(one)} `{one.id}`" for one in hazards]
    return lines


def _ratios() -> list[str]:
    heading = "Required ratios: strength in place over the force in the worst peak."
    head = f"| {' | '.join(('class', 'parts', *CONSEQUENCES, 'source'))} |"
    lines = [heading, "", head, "|---" * (3 + len(CONSEQUENCES)) + "|"]
    for name, row in PEAK.items():
        ratios = ["–" if row.at(one) is None else number(row.at(one)) for one in CONSEQUENCES]
        lines += [f"| {' | '.join((name, PART_CLASSES.get(name, name), *ratios, sourced(row.source)))} |"]
    return lines


def main() -> None:
    """Write the manifest and the page beside the rules."""
    folder = shipped("rules")
    written = {MANIFEST: manifest(hashes(rule_files(folder)))} | {"README.md": head_page(load_rulebook())}
    for name, text in written.items():
        (folder / name).write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
