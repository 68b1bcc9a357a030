"""Lines between different anchors have a span and a ground of their own."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Fault,
    LibraryCase,
    Signal,
    TwoLines,
    each_two_lines,
    faulty,
    names_of,
    rule,
    sound,
)

ASH = {"kind": "tree", "girth": "150 cm", "bark": "rough", "health": "sound", "fork": "none"}
THREE: dict[str, object] = {"spot.anchors.ash": ASH}
TO_ASH: dict[str, object] = {"chain[12].at": "ash", "title": "Second line", "chain[8].tie_back.to": "ash"}


def _ground(end: str = "gate") -> dict[str, object]:
    """Return level ground, written out anew wherever it stands."""
    return {"profile_from": end, "profile": [["0 m", "0 m"], ["16 m", "0 m"]]}


BARE = THREE | {"spot.spans": [{"between": ["gate", "ash"], "span": "15.5 m"}]}
# From places in plan each line has its span, though both end at one tree, whose place tells both.
PLANNED = {
    f"spot.anchors.{name}": ASH | {"plan": place}
    for name, place in (("gate", ["0 m", "0 m"]), ("barn", ["16.43 m", "0 m"]), ("ash", ["0 m", "15.5 m"]))
} | {
    "spot.span": REMOVE,
    "spot.spans": [
        {"between": ["ash", "barn"], "ground": _ground("ash")},
        {"between": ["gate", "barn"], "ground": _ground()},
    ],
}
OWN = THREE | {"spot.spans": [{"between": ["gate", "ash"], "span": "15.5 m", "ground": _ground()}]}


@rule(
    title="One span or one ground for two different lines",
    each=each_two_lines,
    signal=Signal.WARNING,
    why="We calculated one of the two with a wrong span. Its sag, tension and webbing length are wrong.",
    formula="two lines between different anchors take span and profile from different places of the spot",
    sources=(PRACTICE,),
    prevents=("span_wrong",),
    examples=(
        sound("low", THREE, beside=(THREE | {"title": "Second line"},)),
        faulty("low", THREE, beside=(THREE | TO_ASH,), at="span", signal=Signal.WARNING),
        faulty("low", BARE, beside=(BARE | TO_ASH,), at="ground.profile"),
        sound("low", OWN, beside=(OWN | TO_ASH,)),
        sound("low", PLANNED, beside=(PLANNED | {"chain[0].at": "ash", "title": "Second line"},)),
    ),
)
def one_span(_library: LibraryCase, two: TwoLines) -> Iterator[Fault]:
    one, other = two.one, two.other
    if set(names_of(one.loads)) == set(names_of(other.loads)):
        return
    pair = " and ".join(f"'{name}'" for name in names_of(other.loads))
    for key, what in ((("span",), "span"), (("ground", "profile"), "ground")):
        at, theirs = one.on_spot(*key), other.on_spot(*key)
        told = other.spot is not None and (
            other.spot.span is not None
            if key == ("span",)
            else other.spot.ground is not None and other.spot.ground.profile is not None
        )
        if told and at.key[-1] != "plan" and (at.path, at.key) == (theirs.path, theirs.key):
            yield Fault(
                theirs,
                f"'{one.rig.title}' and '{other.rig.title}' run between different anchors and take the same {what}.",
                f"Enter the {what} between {pair} in the spot's `spans`.",
                rigs=two.paths,
            )
