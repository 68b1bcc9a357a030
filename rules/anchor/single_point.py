"""At the height of a life, an end hangs on two independent points or on something a person has judged.

A backup may hang on one sling round a tree, a boulder or a structure, since it is the second of two itself; on one
bolt or one ground anchor it may not.
"""

from collections.abc import Iterator
from math import pi

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    End,
    Fault,
    Limit,
    Signal,
    Source,
    ends,
    faulty,
    need_all,
    open_,
    review,
    rounded,
    rule,
    sound,
)

LEAST_DIAMETER = Limit(
    name="least_diameter",
    text="0.40 m",
    dimension="length",
    tighter="higher",
    because="A sound tree this thick counts as one highline anchor once a person has judged it.",
    source=PRACTICE,
)
WEST = "spot.anchors.west"
TREE: dict[str, object] = {
    "kind": "tree",
    "species": "oak",
    "girth": "1.30 m",
    "bark": "rough",
    "health": "sound",
    "fork": "none",
}
BOULDER: dict[str, object] = {"kind": "boulder", "mass": "30 t", "friction": 0.5}
SLINGS = (
    {"part": "sling", "gear": "RS-1", "hitch": "basket"},
    {"part": "sling", "gear": "RS-2", "hitch": "basket"},
)
BACKUP = "backups[0].chain[1]"
TWO = [{"to": "west", "chain": [dict(one)]} for one in SLINGS]


def _on(structure: dict[str, object], *slings: dict[str, str]) -> dict[str, object]:
    """Hang the west end on another structure, with a leg for each sling."""
    return {
        WEST: structure,
        "chain[1].legs": [{"to": "west", "chain": [dict(one)]} for one in slings or SLINGS],
    }


@rule(
    title="One point alone holds an end of a highline",
    each=ends(),
    signal=Signal.DANGER,
    why="If one bolt or sling holds an end, one hidden crack or cut drops the main line at once.",
    formula="at least 2 independent points at each end, or two slings on a sound tree, a boulder or a structure",
    limits=(LEAST_DIAMETER,),
    sources=(
        Source(
            "Swiss federation, ten points for highlines: every safety part doubled",
            "published",
            ("swiss_ten_points",),
        ),
    ),
    prevents=("end_on_one_point",),
    examples=(
        sound("highline"),
        sound("low"),
        sound("low", {"spot.anchors.gate": {"kind": "bolts"}}),
        faulty("low", {"plan.consequence": "life"}, at="chain[0].at", signal=Signal.DANGER),
        faulty("highline", {"chain[1].legs[2]": REMOVE, "chain[1].legs[1]": REMOVE}, at="chain[0].at"),
        faulty("highline", {"chain[1].legs[2]": REMOVE, "chain[1].legs[1].to": "w1"}, at="chain[0].at"),
        sound("highline", {"chain[1].legs[2]": REMOVE}),
        review("highline", _on(TREE), at=WEST, signal=Signal.NOTICE),
        review("highline", _on(TREE | {"girth": "1.27 m"}), at=WEST, signal=Signal.NOTICE),
        faulty("highline", _on(TREE | {"girth": "1.24 m"}), at=WEST, signal=Signal.DANGER),
        faulty("highline", _on(TREE | {"health": "doubtful"}), at=WEST),
        faulty("highline", _on(TREE, SLINGS[0]), at="chain[0].at"),
        faulty("highline", _on(TREE, SLINGS[0], SLINGS[0]), at="chain[0].at"),
        review("highline", _on(BOULDER), at=WEST),
        review("highline", _on({"kind": "structure"}), at=WEST),
        faulty("highline", _on({"kind": "ground"}), at=WEST),
        faulty("highline", {f"{BACKUP}.legs[1]": REMOVE}, at="backups[0].chain[0].at", signal=Signal.WARNING),
        faulty(
            "highline", {f"{BACKUP}.legs[1].to": "w4"}, at="backups[0].chain[0].at", signal=Signal.WARNING
        ),
        review("highline", {WEST: TREE, "chain[1].legs": TWO, BACKUP: {"part": "sling", "gear": "RS-7"}}),
        open_("highline", _on({"kind": "tree", "girth": "1.3 m"}), at=f"{WEST}.health"),
        open_("highline", _on({"kind": "tree", "health": "sound"}), at=f"{WEST}.girth"),
        open_("highline", {"chain[1]": REMOVE}, at="chain[0].legs"),
        open_("highline", {"chain[1].legs[0].to": REMOVE}, at="chain[1].legs[0].to"),
        # A leg to each of two trees.
        sound("highline", {**_on(TREE), "spot.anchors.crag": TREE, "chain[1].legs[1].to": "crag"}),
    ),
)
def single_point(case: Case, end: End) -> Iterator[Fault]:
    if case.consequence != "life":
        return
    structure, holds, name = end.structure, end.holds(), end.name
    if end.backup is not None:
        if structure.kind in {"bolts", "ground"} and len(holds) < 2:  # noqa: PLR2004 - one and one more
            yield _backup_on_one(case, end, holds)
        return
    if len(holds) < 2:  # noqa: PLR2004 - one and one more
        yield Fault(
            case.on_part(end.anchor, "at"),
            f"The end '{name}' hangs on one point alone: {holds[0] if holds else 'nothing'}.",
            f"Spread the end '{name}' over 2 independent points: {_second_point(structure.kind)}.",
            value=len(holds),
            limit=2,
            unit="points",
        )
    # Two bolts, or points on two structures: when one goes, the other doesn't go with it.
    elif structure.kind == "bolts" or end.structures() > 1:
        return
    elif structure.kind == "ground":
        yield Fault(
            end.on_structure(),
            f"Both legs of the end '{name}' go to one ground anchor. That is a single point.",
            f"Spread the end '{name}' over at least 2 ground anchors.",
            value=1,
            limit=2,
            unit="points",
        )
    else:
        yield from _one_structure(case, end)


def _second_point(kind: str) -> str:
    """Return what a second point is at such an anchor."""
    if kind in {"bolts", "ground"}:  # a second sling on the same one would still be one point
        return f"legs to a second {'bolt' if kind == 'bolts' else 'ground anchor'}"
    return f"a second sling round the {kind}, or legs to another {kind}"


def _backup_on_one(case: Case, end: End, holds: list[str]) -> Fault:
    what = "bolt" if end.structure.kind == "bolts" else "ground anchor"
    return Fault(
        case.on_part(end.anchor, "at"),
        f"{end.backup} hangs on one {what} alone at '{end.name}': {holds[0] if holds else 'none'}.",
        f"Give {end.backup} 2 {what}s of its own at '{end.name}'.",
        value=len(holds),
        limit=2,
        unit="points",
        signal=Signal.WARNING,
    )


def _one_structure(case: Case, end: End) -> Iterator[Fault]:
    """Judge two slings that share one tree, boulder or structure."""
    structure, least = end.structure, case.limit(LEAST_DIAMETER)
    if structure.kind == "tree":
        need_all(*((getattr(structure, key), end.on_structure(key)) for key in ("girth", "health")))
        thick = structure.girth.si / pi if structure.girth else 0.0
        if thick < least or structure.health != "sound":
            yield Fault(
                end.on_structure(),
                f"The whole end '{end.name}' hangs on one {structure.health} tree, {thick:.2f} m thick.",
                f"Use a sound tree at least {least:.2f} m thick ({rounded(pi * least, 'up')} m "
                f"girth) for '{end.name}', or tie in to a second tree.",
                value=thick,
                limit=least,
                unit="m",
            )
            return
    yield Fault(
        end.on_structure(),
        f"The whole end '{end.name}' hangs on one {structure.kind}. Only people on site can judge "
        "that it stays put.",
        f"Have two people look at the {structure.kind} '{end.name}': how it stands, its ground and its cracks.",
        kind="review",
        signal=Signal.NOTICE,
    )
