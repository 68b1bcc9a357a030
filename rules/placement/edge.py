"""Every line is padded at every edge that it runs over, and no metal lies on one."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    At,
    Case,
    Fault,
    Signal,
    Source,
    faulty,
    need_all,
    open_,
    rule,
    sound,
    the_rig,
)

ROCK = {"bolts", "boulder"}
LOW = {"edges": [{"at": "gate", "from_anchor": "1 m", "padded": [], "metal_over": False}]}


@rule(
    title="An edge saws at a line",
    each=the_rig,
    signal=Signal.DANGER,
    why="Webbing that works on bare rock is cut through within an hour, and a second line beside it as well.",
    formula="at each edge: padded ⊇ {main, every backup}; no metal over the edge",
    sources=(
        Source(
            "federations: unpadded contact of webbing with a rock edge counts as failed",
            "published",
            ("isa_webbing_2022",),
        ),
        PRACTICE,
    ),
    prevents=("line_saws_on_an_edge", "metal_on_an_edge", "lip_wears_through"),
    examples=(
        sound("highline"),
        sound("low"),
        sound("highline", {"edges": []}),
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
        open_("highline", {"edges": REMOVE}, at="edges"),
        open_("highline", {"edges[0].padded": REMOVE}, at="edges[0].padded"),
        open_("highline", {"edges[0].metal_over": REMOVE}, at="edges[0].metal_over"),
        faulty("highline", {"edges[0].padded": ["main"], "edges[0].at": REMOVE}, at="edges[0].padded"),
    ),
)
def edge(case: Case, _rig: None) -> Iterator[Fault]:
    if case.rig.edges is None:
        spot = case.spot
        if case.consequence == "life" and spot and any(one.kind in ROCK for one in spot.anchors.values()):
            need_all((None, case.at("edges")))
        return
    missing: list[tuple[object, At]] = []
    for n, one in enumerate(case.rig.edges):
        where = f"the edge at '{one.at}'" if one.at else f"edge {n + 1}"
        missing.append((one.padded, case.at("edges", n, "padded")))
        missing.append((one.metal_over, case.at("edges", n, "metal_over")))
        bare = _lines(case, one.padded) if one.padded is not None else []
        if bare:
            yield Fault(
                case.at("edges", n, "padded"),
                f"At {where} nothing lies between the rock and {' and '.join(bare)}.",
                f"Pad {where} under {' and '.join(bare)}, and tie the pad so that it stays there.",
            )
        if one.metal_over:
            yield Fault(
                case.at("edges", n, "metal_over"),
                f"Metal lies on {where}: a shackle or ring levered over rock bends, and its gate may open.",
                f"Lengthen the sling until the metal hangs clear of {where}.",
                signal=Signal.DANGER if case.consequence == "life" else Signal.WARNING,
                source=PRACTICE,
            )
    need_all(*missing)


def _lines(case: Case, padded: list[str]) -> list[str]:
    """Return the lines that are not padded: the main, and backups by their place or all as `backup`."""
    bare = [] if "main" in padded else ["main"]
    if "backup" not in padded:
        bare += [f"backups[{n}]" for n in range(len(case.rig.backups or [])) if f"backups[{n}]" not in padded]
    return bare
