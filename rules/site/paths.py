"""No line runs over a path, a road or a way for boats."""

from collections.abc import Iterator

from riglint.rulekit import REMOVE, Case, Fault, Signal, Source, faulty, need, open_, rule, sound, the_rig

CROSSES = "spot.surroundings.path_crosses"


@rule(
    title="A path crosses under the line",
    each=the_rig,
    signal=Signal.DANGER,
    why=("A cyclist can't see 25 mm of webbing at neck height. A line that lets go falls on passers-by."),
    formula="no path crosses",
    sources=(
        Source("club rules and the Portuguese rules: never over paths", "published", ("portuguese_rules",)),
    ),
    prevents=("line_across_a_way", "line_falls_on_people"),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        faulty(
            "low",
            {CROSSES: True},
            at=CROSSES,
            signal=Signal.DANGER,
            shows=("line_across_a_way", "line_falls_on_people"),
        ),
        faulty("highline", {CROSSES: True}, at=CROSSES, signal=Signal.DANGER),
        open_("low", {CROSSES: REMOVE}, at=CROSSES),
        open_("low", {"spot.surroundings": REMOVE}, at=CROSSES),
        open_("low", {"spot": REMOVE}, at="spot"),
    ),
)
def paths(case: Case, _rig: None) -> Iterator[Fault]:
    around = need(case.spot, case.at("spot")).surroundings
    at = case.on_spot("surroundings", "path_crosses")
    if need(around.path_crosses if around else None, at):
        yield Fault(
            at,
            "A path crosses under the line.",
            "Choose two anchors with no path between them. Or have the owner of the path close "
            "it, with a barrier and a watcher on both sides.",
            value="path crosses",
            limit="none",
        )
