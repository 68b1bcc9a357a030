"""Prints how many seeded faults are found, by phase of the work and with which word: `python -m tests.detection`.

The faults are those of `tests/faults/`, seeded from the table of failure modes; each names the word that it deserves,
which is common practice and no source unless its hazard has one. Hazards that no rule claims are left to the eyes on
site, and count as not found. Who wrote the faults knows the rules: this does not measure how many of others are found.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from riglint.hazards import HAZARDS, PHASES
from riglint.rulekit import Signal
from tests.faults.matrix import false_alarms, outcome, sound_rigs
from tests.faults.seeded import ABSENT, Seeded, said_of, seeded

WORDS = (Signal.DANGER, Signal.WARNING, Signal.CAUTION, Signal.NOTICE)


def table() -> Iterator[str]:
    """Yield the table, a line each."""
    yield "| phase of the work | hazards | faults | found | DANGER | WARNING | CAUTION | NOTICE | missed |"
    yield "|---|---|---|---|---|---|---|---|---|"
    for phase, words in PHASES.items():
        mine = [one for one in seeded() if HAZARDS[one.hazards[0]].phase == phase]
        eyes = sum(outcome(one) == "eyes on site" for one in HAZARDS.values() if one.phase == phase)
        yield _row(words, sum(one.phase == phase for one in HAZARDS.values()), mine, eyes)
    yield _row("**all**", len(HAZARDS), list(seeded()), _left_to_the_eyes())


def figure() -> str:
    """Return the sentence that the README carries."""
    faults, eyes = len(seeded()) + _left_to_the_eyes(), _left_to_the_eyes()
    found = sum(map(found_with_its_word, seeded()))
    rigs, stopped = len(sound_rigs()), len({rig for rig, _, _ in false_alarms()})
    return (
        f"riglint finds {found} of {faults} seeded faults with the right signal word or a louder one, "
        f"{100 * found / faults:.1f} %. Only people on site can see {eyes} of the others. "
        f"Of {rigs} sound rigs, {rigs - stopped} get no WARNING and no DANGER."
    )


def word_of(fault: Seeded) -> Signal | None:
    """Return the loudest word that a rule or question which is there for a fault says of it; None if none does."""
    there = {one.rule for one in fault.expect}
    said = [one.signal for one in said_of(fault.name) if {one.rule, *one.rules} & there]
    return max(said, default=None)


def found_with_its_word(fault: Seeded) -> bool:
    """Return whether a fault is told of at the word that it deserves, or louder."""
    word = word_of(fault)
    return word is not None and word >= max(Signal[one.signal] for one in fault.expect)


def _left_to_the_eyes() -> int:
    """Count the hazards that no rule claims; each is a fault that is not found."""
    return sum(outcome(one) == "eyes on site" for one in HAZARDS.values())


def _row(name: str, hazards: int, faults: list[Seeded], eyes: int) -> str:
    words = Counter(word_of(one) for one in faults)
    found = sum(map(found_with_its_word, faults))
    counts = [
        hazards,
        len(faults) + eyes,
        found,
        *(words[word] for word in WORDS),
        len(faults) + eyes - found,
    ]
    return f"| {name} | {' | '.join(map(str, counts))} |"


def main() -> None:
    """Print the table and the figure."""
    print(*table(), "", figure(), sep="\n")  # noqa: T201
    missed = [one.name for one in seeded() if not found_with_its_word(one)]
    print(*(f"missed: {name}" for name in missed), *map(str, false_alarms()), sep="\n")  # noqa: T201
    print(f"Of the faults {sum(one.phase == ABSENT for one in seeded())} are values that are missing.")  # noqa: T201


if __name__ == "__main__":
    main()
