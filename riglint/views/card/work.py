"""The card's order of work: what the audit leaves to do, what only eyes see, and the steps that never change."""

from __future__ import annotations

import re
from collections.abc import Sequence

from riglint.findings import Finding
from riglint.hazards import HAZARDS, PHASES, Hazard, Phase, for_the_eyes, places
from riglint.loads import Loads
from riglint.loads.inputs import known
from riglint.rulebook import Rulebook
from riglint.rulekit import OnCard, first_up
from riglint.rulekit.ticks import DUE
from riglint.views.card.content import Step, Tick
from riglint.views.figures import number

SECOND_EYES = frozenset({"chain_out_of_order", "stopper_slips_through", "leash_knot_not_checked"})
BUILDING: Phase = "pulley"
USUAL = OnCard()  # of a finding that no rule of the book made
AND = "\x00"
INTO_THE_FILE = re.compile(r" ?\bWrite `.*?\.(?= |$)")  # nobody edits a file at the tree


def work(loads: Loads, findings: Sequence[Finding], book: Rulebook) -> list[Step]:
    """Return the steps in order; `findings` are the rig's reviews."""
    due: dict[Phase, list[Tick]] = {phase: [] for phase in PHASES}
    covered = {"tension_guessed"}  # the line to write the reading on asks for it
    for finding in findings:
        rule = book.rules.get(finding.rule)
        prevents = rule.prevents if rule else ()
        on_card = rule.on_card if rule else USUAL
        phase = on_card.phase or (HAZARDS[prevents[0]].phase if prevents else "plan")
        covered |= set(prevents[:1])  # that finding says it more closely than the line for the eyes
        due[phase].append(Tick(_short(finding, on_card), on_card.second_person))
    eyes = for_the_eyes(*places(loads.path.rig))
    first, last = _standing_ticks(loads, _closing(loads, findings, book))
    steps = []
    for phase, title in PHASES.items():
        seen = [
            Tick(_eyes(loads, one), one.id in SECOND_EYES)
            for one in eyes.get(phase, [])
            if one.id not in covered
        ]
        ticks = [*first.get(phase, []), *due[phase], *seen, *last.get(phase, [])]
        if ticks:
            steps.append(Step(title, tuple(_merged(ticks)), builds=phase == BUILDING))
    return steps


def _eyes(loads: Loads, hazard: Hazard) -> str:
    """Return what the eyes look for; where a hand takes the rope, with the turns that the plan puts before it."""
    plan = loads.path.rig.rig.plan
    if hazard.id != "brake_opened_without_hand" or plan is None or not plan.tail_wraps:
        return hazard.eyes
    turns = f"{number(plan.tail_wraps)} turn{'' if plan.tail_wraps == 1 else 's'}"
    return f"The rope goes {turns} round the trunk. {hazard.eyes}"


def _short(finding: Finding, on_card: OnCard) -> str:
    """Return what to look at and to do; of some the doing says it all."""
    if finding.message.startswith(DUE):
        sentence = finding.message.removeprefix(DUE)
        return f"{first_up(sentence)}"
    do = INTO_THE_FILE.sub("", finding.do)
    return do if on_card.do_alone else f"{finding.message} {do}".rstrip()


def _merged(ticks: Sequence[Tick]) -> list[Tick]:
    """Return ticks each once; those that differ in one name only become one: `At 'north' and 'south', look ...`."""
    found: list[Tick] = []
    for tick in dict.fromkeys(ticks):
        for n, other in enumerate(found):
            both = _joined(other.words, tick.words)
            if both is not None and other.second == tick.second:
                found[n] = Tick(both, tick.second)
                break
        else:
            found.append(tick)
    return [Tick(one.words.replace(AND, " and "), one.second) for one in found]


def _joined(first: str, second: str) -> str | None:
    """Return two sentences as one, where one word tells them apart."""
    old, new = first.split(" "), second.split(" ")
    apart = [n for n, (one, other) in enumerate(zip(old, new, strict=False)) if one != other]
    if len(old) != len(new) or len(apart) != 1:
        return None
    (n,) = apart
    end = new[n][len(new[n].rstrip(",.:")) :]
    old[n] = f"{old[n].removesuffix(end)}{AND}{new[n]}"
    return " ".join(old)


Ticks = dict[Phase, list[Tick]]


def _standing_ticks(loads: Loads, closing: list[Tick]) -> tuple[Ticks, Ticks]:
    """Return the ticks of every rig, those that open a step and those that close it."""
    standing = known(lambda: loads.standing_tension_n)
    meant = f" (planned {number(standing / 1000.0)} kN)" if standing is not None else ""
    first: Ticks = {
        "tension": [
            Tick("Hand-tight: stop. Look at everything again from anchor to anchor, then go on.", second=True)
        ],
        "walk": closing,
    }
    last: Ticks = {
        "tension": [Tick(f"Tension read: ________ kN{meant}, by ________ at ________ h.")],
        "walk": [
            Tick(
                "Full tension: everything looked at once more, marks set; no pull goes on after this.",
                second=True,
            )
        ],
    }
    return first, last


def _closing(loads: Loads, findings: Sequence[Finding], book: Rulebook) -> list[Tick]:
    """Return what is looked at again on every line whose pulley system stays on, unless a finding asks for it."""
    haul = loads.path.haul
    if haul is None or not haul.part.stays:
        return []
    parts = {"brake": haul.part.brake, "multiplier": haul.part.multiplier}
    due = {one.rule for one in findings}
    cards = [rule.on_card for name, rule in book.rules.items() if name not in due]
    return [Tick(one.closing) for one in cards if one.closing and parts[one.closing_with] is not None]
