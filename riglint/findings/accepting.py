"""What somebody answers for: takes findings out of the exit status, and tells where an entry does no such thing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta

from riglint.findings.finding import Finding, Where
from riglint.loadpath import gear_named
from riglint.loads import Loads
from riglint.loads.inputs import At
from riglint.model.documents.rig import Accepted
from riglint.model.values.sources import OWN
from riglint.read.problems import key_text
from riglint.read.spelling import nearest
from riglint.rulebook import Rulebook
from riglint.rulekit import Signal

# Gear is looked over once a year; an acceptance that outlives the next look answers for what nobody has seen.
LONGEST = timedelta(days=366)
WHY = (
    "An acceptance that is out of date, or for something else, would hide a finding that nobody answers for."
)


def accept(findings: list[Finding], loads: Loads, book: Rulebook, on: date) -> list[Finding]:
    """Mark what somebody answers for, and add a finding for each entry that marks nothing.

    A DANGER, an open question and a crash stay in the exit status whatever an entry says.
    """
    result = list(findings)
    names = _Names(loads)
    of_rule: dict[str, list[int]] = {}
    for m, one in enumerate(findings):
        of_rule.setdefault(one.rule, []).append(m)
    for n, entry in enumerate(loads.path.rig.rig.accepted):
        covered = [m for m in of_rule.get(entry.rule, ()) if names.match(entry, result[m])]
        bearable = [m for m in covered if is_bearable(result[m])]
        problem = _problem(entry, book, on, bool(covered), bool(bearable))
        if problem is None:
            for m in bearable:
                result[m] = replace(result[m], accepted=entry)
            continue
        message, do, *instead = problem
        at = At(loads.path.rig.document, ("accepted", n, "rule") if instead else ("accepted", n))
        place = Where(at.path, at.line, at.column, at.key_text, row=at.row)
        result.append(
            Finding(
                "file/accepted", Signal.CAUTION, "fail", message, WHY, do, place, OWN, instead=tuple(instead)
            )
        )
    return result


def is_bearable(finding: Finding) -> bool:
    """Return whether anybody can answer for a finding; a crashed rule is a DANGER."""
    return finding.kind != "open" and finding.signal < Signal.DANGER


def _problem(
    entry: Accepted, book: Rulebook, on: date, covers: bool, bearable: bool
) -> tuple[str, ...] | None:
    """Say why an entry takes nothing out of the exit status, what to do, and the rule that was meant, if plain."""
    if entry.rule not in book.rules:
        suggestion = nearest(entry.rule, book.rules)
        do = (
            f"Write `{suggestion}` if you mean that." if suggestion else "`riglint rulebook` lists all rules."
        )
        message = f"There is no rule '{entry.rule}' to accept a finding of."
        return (message, do, suggestion) if suggestion else (message, do)
    what = f"The accepted finding {entry.rule}"
    if entry.part is not None:
        what += f" of {entry.part}"
    if entry.until - on > LONGEST:
        do = f"Write {on + LONGEST} at the latest under `until`, and look again then."
        return f"{what} holds until {entry.until}. Nobody can answer for more than a year.", do
    if on > entry.until:
        return f"{what} ran out on {entry.until}.", "Correct the fault, take the entry out, or renew it."
    if not covers:
        return f"{what} matches no finding of this rig.", "Take the entry out, or correct its rule and part."
    if not bearable:
        return (
            f"{what} only meets findings that nobody can accept: a DANGER, an open question or a crash.",
            "Correct it or fill it in, and take the entry out.",
        )
    return None


class _Names:
    """What the parts and the gear of one rig may be called in an entry: by id, by place, by shelf name."""

    def __init__(self, loads: Loads) -> None:
        self.loads = loads
        chains = [loads.path, *(backup.path for backup in loads.backups)]
        self.placed = [placed for chain in chains for placed in chain.parts]

    def match(self, entry: Accepted, finding: Finding) -> bool:
        """Return whether an entry concerns a finding: one of any part, or of the part that it names."""
        return entry.part is None or entry.part in set(self._of(finding))

    def _of(self, finding: Finding) -> Iterator[str]:
        if finding.at.part is not None:
            yield finding.at.part
            yield from self._by_place(finding.at.part)
        for item in self.loads.path.rig.items.values():
            key = key_text(item.key)
            if finding.at.path == item.document.path and _below(finding.at.key, key):
                yield item.id
                yield from self._with_gear(item.id)

    def _by_place(self, part: str) -> Iterator[str]:
        """Yield the place of a part that reports call by its id, or of something inside it."""
        for placed in self.placed:
            if _below(part, placed.id):
                yield key_text(placed.key) + part.removeprefix(placed.id)

    def _with_gear(self, name: str) -> Iterator[str]:
        """Yield id and place of every part that a piece of gear serves as."""
        for placed in self.placed:
            for key, gear in gear_named((placed,)):
                if gear == name:
                    inside = key_text(key).removeprefix(key_text(placed.key)).removesuffix(".gear")
                    yield from (f"{placed.id}{inside}", f"{key_text(placed.key)}{inside}")
        leash = self.loads.path.rig.rig.leash
        if leash is not None and name in {leash.gear, *(leash.rings or [])}:
            yield "leash"


def _below(key: str, above: str) -> bool:
    return key == above or key.startswith((f"{above}.", f"{above}["))
