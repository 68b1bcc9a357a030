"""Every line is padded at every edge that it runs over, no metal lies on one, and no edge is forgotten.

An edge is asked for at each end where the ground drops away below a line that has just left its anchor, whatever holds
it there, and on rock wherever people hang on the line.
"""

from collections.abc import Iterator
from math import degrees

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    At,
    Case,
    Drop,
    Fault,
    Limit,
    MissingInput,
    Signal,
    Source,
    drops_at,
    faulty,
    need_all,
    open_,
    rule,
    sound,
    the_rig,
    unanswered,
)

ROCK = {"bolts", "boulder"}
STEEP = Limit(
    name="steep",
    text="45 deg",
    dimension="angle",
    tighter="lower",
    because="Where the ground drops away this steeply there is a lip, and a line that sags lies on it.",
    source=PRACTICE,
)
DEEP = Limit(
    name="deep",
    text="3 m",
    dimension="length",
    tighter="lower",
    because="From this height on, a line cut at the lip drops somebody further than a fall may be.",
    source=Source("EN 1176-1: free height of fall at most 3 m", "standard", ("en_1176_1",)),
)
NEAR = Limit(
    name="line_above_the_edge",
    text="3 m",
    dimension="length",
    tighter="higher",
    because="A loaded line sags a metre or two near its ends. The gap below it that you see unloaded is gone.",
    source=PRACTICE,
)
DROP = "spot.ground.profile"
LOW = {"edges": [{"at": "gate", "from_anchor": "1 m", "padded": [], "metal_over": False}]}
SECOND = {"at": "east", "padded": ["main", "backup"], "metal_over": False}
TREES = {f"spot.anchors.{name}": {"kind": "tree"} for name in ("west", "east")}


def _lip(depth: str, out: str = "2 m") -> dict[str, object]:
    """Let the ground of the low line drop near its first end, and say nothing of edges."""
    return {DROP: [["0 m", "0 m"], ["1 m", "0 m"], [out, depth], ["16 m", depth]]}


def _bank(lip: str) -> dict[str, object]:
    """Let it fall gently to a lip first, and rise again to the other tree."""
    return {DROP: [["0 m", "0 m"], ["3 m", lip], ["4 m", "-8 m"], ["6 m", "-8 m"], ["16 m", "0 m"]]}


@rule(
    title="An edge saws at a line",
    each=the_rig,
    signal=Signal.DANGER,
    why="Bare rock cuts through moving webbing within an hour, and through a second line beside it.",
    formula=(
        "at each end where the ground drops below the line, and on rock: an edge on file; at each edge padded ⊇ "
        "{main, every backup}, or clear of every line; no metal over it"
    ),
    sources=(
        Source(
            "federations: unpadded contact of webbing with a rock edge counts as failed",
            "published",
            ("isa_webbing_2022",),
        ),
        PRACTICE,
    ),
    limits=(STEEP, DEEP, NEAR),
    prevents=("line_saws_on_an_edge", "metal_on_an_edge", "lip_wears_through"),
    examples=(
        sound("highline"),
        sound("low"),
        sound("highline", {"edges[0].padded": ["main", "backups[0]"]}),
        faulty(
            "highline",
            {"edges[0].padded": ["main"]},
            at="edges[0].padded",
            signal=Signal.DANGER,
            shows=("line_saws_on_an_edge", "lip_wears_through"),
        ),
        faulty("highline", {"edges[0].padded": ["backup"]}, at="edges[0].padded", signal=Signal.DANGER),
        faulty(
            "highline",
            {"edges[1].metal_over": True},
            at="edges[1].metal_over",
            signal=Signal.DANGER,
            shows="metal_on_an_edge",
        ),
        faulty("low", LOW, at="edges[0].padded", signal=Signal.DANGER),
        faulty(
            "low",
            {"edges": [{"at": "gate", "padded": ["main"], "metal_over": True}]},
            at="edges[0].metal_over",
            signal=Signal.WARNING,
        ),
        # Nothing lies on an edge that every line hangs clear of.
        sound("highline", {"edges": [{"at": "west", "clear": True}, SECOND]}),
        faulty("highline", {"edges": [SECOND, {"at": "west", "clear": False, "metal_over": False}]}),
        # The profile shows edges that the file does not know of, at trees as at bolts, at each end.
        faulty("highline", {"edges": []}, at="edges", signal=Signal.DANGER),
        faulty("highline", TREES | {"edges": []}, at="edges", signal=Signal.DANGER),
        open_("highline", TREES | {"edges": REMOVE}, at="edges"),
        open_("highline", {"edges": [SECOND]}, at="edges"),
        open_("highline", {"edges[1].at": "west"}, at="edges"),
        sound("low", _lip("-2.97 m")),
        open_("low", _lip("-3.03 m"), at="edges"),
        open_("low", _lip("-9 m", "9.9 m"), at="edges"),
        sound("low", _lip("-9 m", "10.2 m")),
        # Behind a slope of 3 m the line runs 1.35 m higher above the lip than the lip lies below the anchor.
        sound("low", _bank("-1.68 m")),
        open_("low", _bank("-1.62 m"), at="edges"),
        open_("highline", {"edges": REMOVE}, at="edges"),
        open_("highline", {"edges": REMOVE, DROP: REMOVE}, at="edges"),
        open_("highline", {"edges[0].padded": REMOVE}, at="edges[0].padded"),
        open_("highline", {"edges[0].metal_over": REMOVE}, at="edges[0].metal_over"),
        open_("highline", {"edges[0].at": REMOVE}, at="edges[0].at"),
    ),
)
def edge(case: Case, _rig: None) -> Iterator[Fault]:
    shown = _shown(case)
    if case.rig.edges is None:
        spot = case.spot
        rock = spot is not None and any(one.kind in ROCK for one in spot.anchors.values())
        if shown or (case.consequence == "life" and rock):
            need_all((None, case.at("edges")))
        return
    if not case.rig.edges:
        yield from (_denied(case, name, drop) for name, drop in list(shown.items())[:1])
        return
    missing: list[At] = [*_forgotten(case, shown)]
    for n, one in enumerate(case.rig.edges):
        if one.clear:
            continue
        missing += _not_said(case, n)
        yield from _judged(case, n)
    if missing:
        raise MissingInput(*missing)


def _not_said(case: Case, n: int) -> Iterator[At]:
    """Yield what an edge does not say."""
    one = (case.rig.edges or [])[n]
    for key, value in (("at", one.at), ("padded", one.padded), ("metal_over", one.metal_over)):
        if value is None and not (key == "padded" and one.clear is False):
            yield case.at("edges", n, key)


def _judged(case: Case, n: int) -> Iterator[Fault]:
    one = (case.rig.edges or [])[n]
    where = f"the edge at '{one.at}'" if one.at else f"edge {n + 1}"
    padded = one.padded if one.padded is not None or one.clear is None else []
    bare = _lines(case, padded) if padded is not None else []
    if bare:
        yield Fault(
            case.at("edges", n, "padded"),
            f"At {where} there is nothing between the rock and {' and '.join(bare)}.",
            f"Pad {where} under {' and '.join(bare)}, and tie the pad so that it stays there.",
        )
    if one.metal_over:
        yield Fault(
            case.at("edges", n, "metal_over"),
            f"Metal lies on {where}. A shackle or ring levered over rock bends, and its gate can open.",
            f"Lengthen the sling until the metal hangs clear of {where}.",
            signal=Signal.DANGER if case.consequence == "life" else Signal.WARNING,
            source=PRACTICE,
        )


def _shown(case: Case) -> dict[str, Drop]:
    """Return the first edge that the profile shows at each end, by the name of its anchor: of main line and backups."""
    found: dict[str, Drop] = {}
    for path in (case.path, *(backup.path for backup in case.loads.backups if backup.is_line)):
        if not path.whole:
            continue
        for end, anchor in enumerate(path.anchors):
            for drop in drops_at(case.loads.geometry, end, case.limit(STEEP)):
                if drop.depth_m > case.limit(DEEP) and drop.line_above_m < case.limit(NEAR):
                    found.setdefault(anchor.part.at or anchor.id, drop)
    return found


def _denied(case: Case, name: str, drop: Drop) -> Fault:
    return Fault(
        case.at("edges"),
        f"The file says that no line runs over an edge. By the profile, {drop.from_anchor_m:.3g} "
        f"m from '{name}' the ground drops {drop.depth_m:.3g} m at more than "
        f"{degrees(case.limit(STEEP)):.0f}°.",
        f"Look at the edge at '{name}' and enter it. Pad it under every line, or write `clear: "
        "true` if every line hangs clear of it under load.",
        value=drop.depth_m,
        limit=case.limit(DEEP),
        unit="m",
        signal=Signal.DANGER if case.consequence == "life" else Signal.WARNING,
        source=DEEP.source,
    )


def _forgotten(case: Case, shown: dict[str, Drop]) -> Iterator[At]:
    """Ask for the edges that the profile shows at an anchor for which the file lists none."""
    listed = {one.at for one in case.rig.edges or []}
    for name, drop in shown.items():
        if name not in listed and None not in listed:
            do = "Look at each edge there, and enter the padded lines, or `clear: true`."
            where = f"'{name}' (by the profile the ground drops {drop.depth_m:.3g} m there)"
            yield unanswered(case.at("edges"), "names no edge at", do, where)


def _lines(case: Case, padded: list[str]) -> list[str]:
    """Return the lines that are not padded: the main, and backups by their place or all as `backup`."""
    bare = [] if "main" in padded else ["main"]
    if "backup" not in padded:
        bare += [f"backups[{n}]" for n in range(len(case.rig.backups or [])) if f"backups[{n}]" not in padded]
    return bare
