"""The standard limits as one policy document, for people to read: nothing reads it to judge by.

Every value stands at its default, so as a policy it changes nothing. `riglint rulebook --format policy` prints it.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from riglint.model.values.defaults import DEFAULTS, Default
from riglint.model.values.ratios import NEVER, PEAK
from riglint.reports.rules.rule_words import (
    AT_STAKE,
    CONSEQUENCES,
    PART_CLASSES,
    families,
    scale,
    sourced,
    tighter,
    words_at,
)
from riglint.rulebook import Rulebook
from riglint.rulekit import Limit, Rule, first_up

WIDTH = 100
HEAD = (
    "All limits of the rules and all model values, to read and to copy from. "
    "Every value below is the standard one, so as a policy it changes nothing.\n"
    "For a policy of your own, start a file with the two lines `riglint: policy/1` and `title: …`, and copy "
    "only the values that you change. Write a tighter value as it is. A looser one needs a reason, and every "
    "report prints it, such as `model.bounce_height: {value: 0.4 m, because: beginners walk here only}`.\n"
    "A limit is a sum of experience, not a promise. A rig that keeps all of them can still fail."
)


def default_policy(book: Rulebook) -> str:
    """Return the text of the default policy."""
    lines = ["riglint: policy/1", "title: standard limits", ""]
    for paragraph in HEAD.split("\n"):
        lines += [*_comment(paragraph), "#"]
    lines += [*_stakes(), "", "values:"]
    for family, rules in families(book).items():
        if any(rule.limits for rule in rules.values()):
            lines += ["", f"  # ---- {family} ----"]
            lines += [line for rule_id, rule in rules.items() for line in _rule(rule_id, rule)]
    lines += ["", "  # ---- model: the values we calculate with if the rig file gives none ----"]
    lines += [line for name, value in DEFAULTS.items() for line in _value(f"model.{name}", value)]
    lines += ["", *_required(), "", *_signals(book)]
    return "\n".join(lines) + "\n"


def _comment(text: str, indent: str = "") -> list[str]:
    """Return a text as comment lines; units stay with their numbers as far as the width allows."""
    return textwrap.wrap(
        text,
        WIDTH,
        initial_indent=f"{indent}# ",
        subsequent_indent=f"{indent}# ",
        break_long_words=False,
        break_on_hyphens=False,
    )


def _stakes() -> Iterator[str]:
    yield "# The consequence class, found from spot and plan: the harm that a failure would do."
    for word, meaning in AT_STAKE.items():
        yield f"#   {word:<8}{meaning}"
    yield "# Signal words:"
    for name, meaning in scale():
        yield f"#   {name:<8}{meaning}"


def _rule(rule_id: str, rule: Rule) -> Iterator[str]:
    for limit in rule.limits:
        yield ""
        yield from _comment(f"{rule.title}. {limit.because} {_trail(limit)}", "  ")
        yield f"  {rule_id}.{limit.name}: {limit.text}"


def _value(name: str, value: Default) -> Iterator[str]:
    yield ""
    yield from _comment(f"{first_up(value.about)}. {_trail(value)}", "  ")
    yield f"  {name}: {value.text}"


def _trail(value: Limit | Default) -> str:
    unit = "A plain number, " if value.dimension is None else ""
    which = tighter(value.tighter)
    return f"{unit or ''}{which if unit else first_up(which)}. Source: {sourced(value.source)}."


def _required() -> Iterator[str]:
    yield from _comment(
        "Required ratios: strength in place over the force in the worst peak (bounce, surf, jump, leash fall, "
        "crowd). Higher is tighter. The other ratios (standing, rated load, hauling) are limits of their rules, above."
    )
    yield "required:"
    for name, row in PEAK.items():
        yield ""
        yield from _comment(f"{PART_CLASSES.get(name, name)}. Source: {sourced(row.source)}.", "  ")
        for consequence in CONSEQUENCES:
            ratio = row.at(consequence)
            if ratio is None or ratio == NEVER:
                words = "none is asked" if ratio is None else "never allowed"
                yield f"  # {name} at {consequence}: {words}"
            else:
                yield f"  - {{state: peak, part: {name}, consequence: {consequence}, ratio: {ratio:g}}}"


def _signals(book: Rulebook) -> Iterator[str]:
    yield from _comment(
        "Signal words of every rule. Some rules grade their findings and go above or below the word here. To "
        "change one: `signals: [{rule: tail/webbing, consequence: ground, signal: WARNING}]`. To lower one, give "
        "`because`. To switch a rule off: `off: [{rule: …, because: …}]`. Gear that nobody may use: "
        "`recalled: [SH-7]`."
    )
    yield "#"
    yield f"# {'rule':<32}{''.join(f'{one:<10}' for one in CONSEQUENCES)}what is wrong"
    for rule_id, rule in book.rules.items():
        words = "".join(f"{word.name:<10}" for word in words_at(rule).values())
        yield f"# {rule_id:<32}{words}{rule.title}"
