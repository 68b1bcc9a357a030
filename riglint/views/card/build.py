"""Builds the card of a rig from its loads and its audit."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from riglint.findings import Audit, Finding
from riglint.findings.ticking import boxes
from riglint.loads import Loads
from riglint.loads.assumed import at_each_end, worst_consequence
from riglint.loads.path.used import fingerprint
from riglint.model.documents.rig import Plan
from riglint.model.documents.spot import Spot
from riglint.policy import InForce
from riglint.rulebook import Rulebook
from riglint.rulekit import Case, Signal
from riglint.views.assumed import AssumedRow, assumed_rows, ranges
from riglint.views.audit.settings_words import settings_in_words
from riglint.views.audit.verdict import Verdict, verdict_of_all, verdicts
from riglint.views.audit.words import CAUTION_TEXT, count, policy_in_words, sealed, unfit
from riglint.views.card.chain import chain_rows
from riglint.views.card.content import Card, CheckBox, Fact
from riglint.views.card.numbers import figures, haul_facts, line_facts, reading_facts, stop_lines
from riglint.views.card.pack import packing
from riglint.views.card.work import work
from riglint.views.drawing.curves import profile_of
from riglint.views.drawing.haul import haul_of
from riglint.views.sheet.build import missing_for

BLANK = "________________"
NO_FILE = "none, what if"  # no file holds these values, so no check may name them
# Written by hand on paper only: no name and no phone number comes from a file.
BLANK_SIGNED = f"{BLANK} at ______ h"
SIGNS = ("rigged by", "second check", "owner of the land")


def build_card(loads: Loads, audit: Audit, book: Rulebook) -> Card:
    """Return everything that the card of one rig says; `audit` is of that rig alone."""
    rig, each = loads.path.rig, at_each_end(loads)
    consequence, numbers = worst_consequence(each), figures(each)
    counted = [one for one in audit.findings if one.counts]
    faults = [one for one in counted if one.kind == "fail" and one.signal >= Signal.WARNING]
    open_ = [one for one in counted if one.kind == "open"]
    quiet = [one for one in counted if one.is_quiet]
    others = [one for one in counted if one not in faults and one not in open_ and one not in quiet]
    not_judged = unfit(audit) + [
        f"{count(one.rules, 'rule')}, because {one.because}"
        for file in audit.files
        for one in file.not_judged
    ]
    return Card(
        rig.rig.title,
        rig.document.path,
        audit.on.isoformat(),
        f"{_limits(audit.force)}, {sealed(audit.seal)}",
        NO_FILE if audit.what_if else fingerprint(loads),
        _spot(rig.spot, rig.rig.plan),
        f"{consequence.word}: {'; '.join(consequence.reasons)}",
        _answer(rig.document.path, audit),
        tuple(sorted(faults, key=lambda one: -one.signal)),
        tuple(sorted(open_, key=lambda one: -one.signal)),
        tuple(sorted(others, key=lambda one: -one.signal)),
        tuple(one for one in audit.findings if not one.counts),
        tuple(not_judged),
        tuple(chain_rows(loads)),
        tuple(line_facts(each, numbers)),
        tuple(reading_facts(loads, numbers)),
        tuple(haul_facts(loads)),
        tuple(stop_lines(loads, reading_apart(book, audit.force))),
        tuple(work(loads, [*_gravest_first(others), *quiet], book)),
        tuple(_emergency(rig.spot, rig.rig.plan)),
        tuple(packing(loads)),
        tuple(Fact(role, BLANK_SIGNED) for role in SIGNS),
        tuple(missing_for(loads)),
        tuple(_policy(audit)),
        CAUTION_TEXT,
        numbers,
        profile_of(loads),
        haul_of(loads),
        _assumed(each, audit),
        audit.what_if,
        () if audit.what_if else tuple(_boxes(loads, audit)),
        _standing(rig.rig.plan),
        tuple(settings_in_words(audit.force)),
    )


def _assumed(each: Sequence[Loads], audit: Audit) -> tuple[AssumedRow, ...]:
    """Return what was taken where the files do not say, and between what the figures lie because of it."""
    rows = [row for file in audit.files for row in assumed_rows(file.assumed)]
    spread = ranges(each) if rows else None
    return (*rows, *((spread,) if spread else ()))


def _boxes(loads: Loads, audit: Audit) -> Iterator[CheckBox]:
    """Yield what the rig file still waits for, as `riglint tick` asks for it."""
    force = audit.force
    for box in boxes(Case(loads, audit.on, force.limits, force.recalled)):
        yield CheckBox(box.words, box.names, box.second, box.tight)


def _standing(plan: Plan | None) -> str:
    return plan.standing_tension.text if plan and plan.standing_tension else ""


def _answer(path: str, audit: Audit) -> Verdict:
    """Return the audit's own answer for the rig; files that it shares speak through it."""
    return verdict_of_all(audit, [one for one in verdicts(audit) if one[0].path == path])


def reading_apart(book: Rulebook, force: InForce) -> float:
    """Return the share by which a reading may be off the plan before the rule on it speaks."""
    rule_id, rule = next((name, one) for name, one in book.rules.items() if one.judges_reading)
    (limit,) = rule.limits
    return force.limits.get(f"{rule_id}.{limit.name}", limit.si)


def _gravest_first(findings: list[Finding]) -> list[Finding]:
    return [one for one in sorted(findings, key=lambda one: -one.signal) if one.kind == "review"]


def _spot(spot: Spot | None, plan: Plan | None) -> str:
    phrases = [spot.title] if spot and spot.title else []
    phrases += [f"span {spot.span.text}"] if spot and spot.span else []
    phrases += [f"first day {plan.first_day}"] if plan and plan.first_day else []
    return ", ".join(phrases)


def _limits(force: InForce) -> str:
    return f"policy: {force.title}" if force.path else force.title


def _policy(audit: Audit) -> list[str]:
    """Say what a policy changed; whatever it loosens stands there with its reason."""
    force = audit.force
    if force.path is None:
        return []
    sentences = [f"The policy {force.title} ({force.path}) {policy_in_words(force)}."]
    for one in force.changes:
        if one.loosens:
            because = f", because {one.because}" if one.because else ""
            sentences.append(f"Loosened: {one.name} from {one.old} to {one.new}{because}.")
    return sentences


def _emergency(spot: Spot | None, plan: Plan | None) -> list[Fact]:
    """Return how help gets here; blank lines for what no file says."""
    access = spot.access if spot else None
    signal = {True: "a phone has signal here", False: "no signal here: know where there is"}
    found = [
        Fact("emergency phone", BLANK),
        Fact("owner's phone", BLANK),
        Fact("meet at", access.meeting_point if access and access.meeting_point else BLANK),
    ]
    if access and access.signal is not None:
        found.append(Fact("phone", signal[access.signal]))
    if plan and plan.rescue is not None:
        crew = (
            "the crew can fetch somebody off the leash"
            if plan.rescue
            else "nobody here can fetch anybody off"
        )
        found.append(Fact("rescue", crew))
    if plan and plan.standby is not None:
        found.append(
            Fact("water", "boat, swimmer or throw line stands by" if plan.standby else "nobody stands by")
        )
    return found
