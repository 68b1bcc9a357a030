"""Which hazards the seeded faults show, by which rules they are found, and what else is said: as one page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from riglint.hazards import HAZARDS, PHASES, Hazard
from riglint.rulekit import Signal
from riglint.testing import baseline_names
from tests.faults.pairs import declared, pairs
from tests.faults.seeded import (
    ABSENT,
    BOOK,
    EXAMPLES,
    HERE,
    Expected,
    Seeded,
    missed,
    own_rigs,
    said_of,
    seeded,
    text_of,
    told,
    unrelated,
)

PAGE = HERE / "MATRIX.md"
SOUND = ("rigs", "built", "ordinary/rigs")  # folders of sound examples
# What the sound rig itself accepts for a while, and a plain judgement does not know of.
ACCEPTED = {("ordinary/rigs/22-highline-long", "site/aircraft")}
HEAD = """# What the seeded faults show

Written by `python -m tests.faults`; a test compares it with what the rulebook says today.

"""


def page() -> str:
    """The whole page."""
    lines = [*_totals(), "", *_table(), "", *_companions()]
    return HEAD + "\n".join(lines) + "\n"


def sound_rigs() -> list[str]:
    """All sound rigs: baselines, examples, and those that only the faults use."""
    files = [
        f"{folder}/{path.stem}" for folder in SOUND for path in sorted((EXAMPLES / folder).glob("*.yaml"))
    ]
    return [*baseline_names(), *files, *own_rigs()]


def false_alarms() -> list[tuple[str, str, str]]:
    """What is said of sound rigs that would stop somebody: WARNING or worse."""
    return [
        (rig, one.rule, one.signal.name)
        for rig in sound_rigs()
        for one in told(text_of(rig)).findings
        if one.signal >= Signal.WARNING and (rig, one.rule) not in ACCEPTED
    ]


def cautions() -> list[tuple[str, str, str]]:
    """What is said of sound rigs as CAUTION."""
    return [
        (rig, one.rule, one.kind)
        for rig in sound_rigs()
        for one in told(text_of(rig)).findings
        if one.signal == Signal.CAUTION
    ]


def outcome(hazard: Hazard) -> str:
    """How a hazard comes out: found by a rule, asked for by an open field alone, or left to the eyes on site."""
    faults = [one for one in seeded() if hazard.id in one.hazards]
    if any(one.phase != ABSENT for one in faults):
        return "rule"
    return "open field" if faults else "eyes on site"


def _totals() -> Iterator[str]:
    faults = [one for one in seeded() if one.phase != ABSENT]
    absent = [one for one in seeded() if one.phase == ABSENT]
    outcomes = [outcome(one) for one in HAZARDS.values()]
    rule, field, eyes = (outcomes.count(word) for word in ("rule", "open field", "eyes on site"))
    asked = len({hazard for one in absent for hazard in one.hazards})
    beside, loud = (sum(map(bool, found)) for found in ([one.also for one in seeded()], map(_loud, seeded())))
    alarms, milder = len(false_alarms()), len(cautions())
    yield f"- {len(HAZARDS)} hazards: {rule} are found by a rule, {field} by an open field alone,"
    yield f"  {eyes} are for the eyes on site. Of those found by a rule, {asked} leave a question open too"
    yield "  where a value is missing."
    yield (
        f"- {_found(faults)} of {len(faults)} seeded faults and {_found(absent)} of "
        f"{len(absent)} missing values are found,"
    )
    yield "  at their place and with their word. Who wrote them knows the rules, so this is no measure of"
    yield "  how many faults of real rigs are found."
    yield (
        f"- With {beside} of them more is said that comes with the fault (below); with {loud} "
        f"something unrelated."
    )
    yield (
        f"- {len(pairs())} pairs of faults in one rig; {len(declared())} times one takes the "
        f"other away, with its reason."
    )
    yield (
        f"- {alarms} false alarms of WARNING or DANGER over {len(sound_rigs())} sound rigs; "
        f"{milder} findings of CAUTION."
    )


def _found(faults: Iterable[Seeded]) -> int:
    return sum(not missed(one) for one in faults)


def _loud(fault: Seeded) -> bool:
    return bool(unrelated(fault))


def _table() -> Iterator[str]:
    yield "| hazard | faults | found | missing values | asked for | found by | unrelated |"
    yield "|---|---|---|---|---|---|---|"
    phase = None
    for hazard in HAZARDS.values():
        if hazard.phase != phase:
            phase = hazard.phase
            yield f"| **{PHASES[phase]}** | | | | | | |"
        yield _row(hazard)


def _row(hazard: Hazard) -> str:
    mine = [one for one in seeded() if hazard.id in one.hazards]
    faults, absent = ([one for one in mine if (one.phase == ABSENT) is wanted] for wanted in (False, True))
    rules = sorted({rule for one in faults for rule in _speaking(one, hazard)})
    by = ", ".join(f"`{rule}`" for rule in rules) or "eyes on site"
    counts = (len(faults), _found(faults), len(absent), _found(absent))
    cells = (f"`{hazard.id}`", *map(str, counts), by, str(sum(map(_loud, mine))))
    return f"| {' | '.join(cells)} |"


def _speaking(fault: Seeded, hazard: Hazard) -> Iterator[str]:
    """The rules that find a fault and are there for its hazard."""
    for one in fault.expect:
        if hazard.id in BOOK.rules[one.rule].prevents and any(map(one.is_told_by, said_of(fault.name))):
            yield one.rule


def _companions() -> Iterator[str]:
    yield "What is said beside a fault, since it comes with it:"
    yield ""
    yield "| fault | also | because |"
    yield "|---|---|---|"
    for fault in seeded():
        for because, entries in _by_reason(fault).items():
            told_too = ", ".join(sorted({f"`{one.rule}` {one.signal}" for one in entries}))
            yield f"| {fault.name} | {told_too} | {because} |"


def _by_reason(fault: Seeded) -> dict[str, list[Expected]]:
    found: dict[str, list[Expected]] = {}
    for one in fault.also:
        found.setdefault(one.because, []).append(one)
    return found
