"""How a comparison is told, whatever its form."""

from __future__ import annotations

from riglint.findings.variation.comparing import Comparison, Fate, FindingChange, Moved, RigChange
from riglint.findings.variation.moved_references import MovedReference
from riglint.records import dataclass
from riglint.reports.comparison.swaps import Swap, renamed, swaps
from riglint.views.figures import number

STATUS = {
    "changed": "changed",
    "same": "same as before",
    "added": "new rig",
    "removed": "rig taken out",
    "unread": "not compared: a side could not be read in full",
}
MOST_RATIOS = 6  # in words; the JSON form has all
FATES: dict[Fate, str] = {"new": "new", "worse": "worse", "better": "better", "gone": "gone"}


def from_to(moved: Moved) -> str:
    """Return a value as it was and as it is, with the share by which a number moved."""
    old, new = (_value(one, moved.unit) for one in (moved.old, moved.new))
    if moved.old is None:
        return f"{new} (new)"
    if moved.new is None:
        return f"removed (was {old})"
    share = ""
    if isinstance(moved.old, float) and isinstance(moved.new, float) and moved.old:
        share = f" ({(moved.new / moved.old - 1.0) * 100.0:+.1f} %)"
    return f"{old} → {new}{share}"


def name_in_words(moved: Moved) -> str:
    """Return a state or a piece in words; a key as it stands in the file."""
    if moved.unit:
        return moved.name.replace("_", " ")
    part, _, piece = moved.name.rpartition(".")
    return f"{piece.replace('_', ' ')} of the {part}" if " " in part else moved.name


def _value(value: float | str | None, unit: str) -> str:
    if isinstance(value, float):
        return f"{number(value)} {unit}".rstrip()
    return "" if value is None else value


def word(changed: FindingChange) -> str:
    """Return the signal word of a finding, both where it changed."""
    if changed.old is not None and changed.new is not None and changed.old != changed.new:
        return f"{changed.old.name} → {changed.new.name}"
    return changed.finding.signal.name


@dataclass(frozen=True, slots=True)
class ToldChange:
    """One finding that came, went or changed, and the rigs that it is about."""

    change: FindingChange
    rigs: tuple[str, ...]

    @property
    def where(self) -> str:
        """Name the rigs; of many the first."""
        first, *more = self.rigs
        return f"{first} and {len(more)} more" if more else first


def grouped(comparison: Comparison) -> dict[Fate, list[ToldChange]]:
    """Return the changed findings by what became of them, the gravest first; one of a shared file once."""
    found: dict[Fate, dict[tuple[object, ...], ToldChange]] = {fate: {} for fate in FATES}
    for rig in comparison.rigs:
        for one in rig.findings:
            at = one.finding.at
            # Of a rig that was moved or copied, each has its own.
            name = (
                one.finding.rule,
                one.finding.kind,
                at.path,
                at.key,
                at.part,
                one.finding.message,
                one.old,
            )
            told = found[one.fate].get(name)
            found[one.fate][name] = ToldChange(one, (*(told.rigs if told else ()), rig.path))
    return {
        fate: sorted(rows.values(), key=lambda told: (-told.change.finding.signal, told.rigs))
        for fate, rows in found.items()
    }


def closing(comparison: Comparison) -> str:
    """Return the sentence that says how the change left the rigs."""
    if not comparison.rigs:
        return "No rig on either side."
    counts = {fate: len(rows) for fate, rows in grouped(comparison).items()}
    touched = sum(rig.status != "same" for rig in comparison.rigs)
    rigs = f"{touched} of {len(comparison.rigs)} {'rigs' if len(comparison.rigs) > 1 else 'rig'} changed"
    words = ", ".join(f"{count} {FATES[fate]}" for fate, count in counts.items() if count)
    settings = " Settings of a library changed." if comparison.settings else ""
    return f"{rigs}; findings: {words or 'the same as before'}.{settings}"


def to_tell(comparison: Comparison) -> list[RigChange]:
    """Return the rigs that there is something to say of."""
    return [rig for rig in comparison.rigs if rig.status != "same"]


def reference_in_words(one: MovedReference) -> str:
    """Return a sentence on a reference by number that means another part now."""
    now = f"Now it means {one.now}." if one.now else "Now there is no such part."
    do = f"Write {one.write}, or give the part an `id`." if one.write else "That part is gone: take it out."
    return f"{one.at} in line {one.line} still says {one.says}. It meant {one.was}. {now} {do}"


def ratios_shown(rig: RigChange) -> tuple[list[Moved], str]:
    """Return the ratios worth a line, least first with the weakest link, and how many there are beside them."""
    ratios = sorted(
        renamed(rig.ratios, swaps(rig)[0]),
        key=lambda one: one.new if isinstance(one.new, float) else float("inf"),
    )
    left = len(ratios) - MOST_RATIOS
    more = f"and {left} more, all above {number(ratios[MOST_RATIOS - 1].new)}" if left > 0 else ""
    return [*([rig.weakest] if rig.weakest else []), *ratios[:MOST_RATIOS]], more


def swap_in_words(swap: Swap) -> str:
    """Return one line for a piece that came, went, or took the place of another."""
    differs = "; ".join(f"{one.name} {from_to(one)}" for one in swap.differs)
    return f"{swap.in_words}{f': {differs}' if differs else ''}"
