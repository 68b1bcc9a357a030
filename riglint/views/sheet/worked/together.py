"""The sheet's anchors that hold other lines too: all of them together, with the formulas."""

from __future__ import annotations

from collections.abc import Sequence

from riglint.loads.day.shared_anchor import SharedAnchor, Together
from riglint.loads.inputs import MissingInput, NotComputable, known
from riglint.rulekit.together import AnchorOfDay
from riglint.views.blocks import STATICS, Block, Note, Section, Worked, WorkedInput
from riglint.views.figures import kn, number


def together_section(days: Sequence[AnchorOfDay], unread: Sequence[str] = ()) -> Section | None:
    """Return the sums at each anchor that other lines or guys pull at too; None where none do.

    Args:
        days: those anchors, each with its day.
        unread: the paths of rigs at this spot that cannot be read.
    """
    blocks = [block for day in days for block in _anchor(day)]
    blocks += [
        Note(path, "not added up: riglint cannot read this rig of the same spot. Audit it first.")
        for path in unread
    ]
    return Section("Anchors that other lines share", tuple(blocks)) if blocks else None


def _anchor(day: AnchorOfDay) -> list[Block]:
    anchor = day.anchor
    try:
        return [*_forces(day), *_moment(anchor), *_bolts(anchor)]
    except MissingInput as missing:
        return [
            Note(anchor.name, f"not added up: {', '.join(at.key_text for at in missing.fields)} is missing")
        ]
    except NotComputable as unable:
        return [Note(anchor.name, f"not added up: {unable.because}")]


def _forces(day: AnchorOfDay) -> list[Block]:
    anchor, worst = day.anchor, day.anchor.force()
    sizes = [one.tension_n for one in worst.members]
    all_n, pulls = anchor.all_at_once_n(), [one.tension_n for one in anchor.pulls]
    how = "" if anchor.directed else "; by size, since the spot gives no plan of these lines"
    blocks: list[Block] = [
        Note(anchor.name, f"{', '.join(one.name for one in anchor.pulls)}{day.when}{how}"),
        _sum(anchor, "greatest pull of any of the lines", "F", sizes, worst.size, vectors=worst.as_vectors),
        _sum(anchor, "all lines at their worst at once", "F_all", pulls, all_n, vectors=anchor.directed),
    ]
    blocks += [
        _sum(
            anchor,
            f"{one.name} at its worst, the others at rest",
            "F_1",
            [other.tension_n if other is one else other.standing_n for other in anchor.pulls],
            size,
            vectors=anchor.directed,
        )
        for one, size in anchor.one_at_its_worst()
    ]
    return blocks


def _sum(
    anchor: SharedAnchor, words: str, symbol: str, sizes: list[float], total_n: float, *, vectors: bool
) -> Worked:
    parts = " + ".join(kn(one) for one in sizes)
    formula, working = ("|Σ T·e|", f"|{parts}|, e along each line in plan") if vectors else ("Σ T", parts)
    return Worked(anchor.name, words, symbol, formula, working, total_n / 1e3, "kN", STATICS)


def _moment(anchor: SharedAnchor) -> list[Block]:
    """Return the moment about the ground, of a tree its stem too; nothing of bolts."""
    if anchor.structure.kind == "bolts":
        return []
    moment: Together = anchor.moment()
    parts = " + ".join(f"{kn(one.tension_n)}·{number(one.height_m or 0.0, 3)}" for one in moment.members)
    formula, working = ("|Σ T·h·e|", f"|{parts}|") if moment.as_vectors else ("Σ T·h", parts)
    words = "moment about the ground, of stem or roots"
    blocks: list[Block] = [
        Worked(anchor.name, words, "M", formula, working, moment.size / 1e3, "kNm", STATICS)
    ]
    stem = known(anchor.stem) if anchor.structure.kind == "tree" else None
    if stem is not None:
        inputs = (WorkedInput("d", stem.diameter_m, "m"), WorkedInput("σ_a", stem.allowable_pa / 1e6, "MPa"))
        blocks.append(
            Worked(
                anchor.name,
                "stem under all of them; roots are for a person to look at",
                "ratio",
                "σ_a·π·d³/(32·M)",
                "",
                stem.ratio,
                "",
                STATICS,
                inputs,
            )
        )
    return blocks


def _bolts(anchor: SharedAnchor) -> list[Block]:
    if anchor.structure.kind != "bolts":
        return []
    return [
        Worked(
            f"{anchor.name} {one.name}",
            f"bolt in {len(one.uses)} lines",
            "ratio",
            "1/Σ(1/ratio of each line)",
            f"1/({' + '.join(f'1/{number(point.ratio)}' for _, point in one.uses)})",
            one.ratio,
            "",
            STATICS,
        )
        for one in anchor.bolts()
    ]
