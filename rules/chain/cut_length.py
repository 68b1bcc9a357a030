"""The webbing is long enough for the span, its webbing anchors and the tails that the file states.

Judged for a line of one webbing whose length is on file, in the chain or on its shelf; without it this rule says
nothing. A puller whose length nobody wrote down may be as long as the longest. How much longer the webbing is does not
matter: the rest lies rolled up.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    Placed,
    Signal,
    faulty,
    first_up,
    open_,
    rounded,
    rule,
    sound,
    the_rig,
)

SHORT = Limit(
    name="most_short",
    text="0.5 m",
    dimension="length",
    tighter="lower",
    because=(
        "We know what a webbing anchor takes in to about half a metre. If more is missing, "
        "something else is wrong."
    ),
    source=PRACTICE,
)
LONGEST = Limit(
    name="longest_puller",
    text="4 m",
    dimension="length",
    tighter="lower",
    because=(
        "A webbing tackle or a ratchet with its strap is 0.5 m to 3 m long. We ask when the "
        "file gives no reach."
    ),
    source=PRACTICE,
)
LONGEST_RATCHET = Limit(
    name="longest_ratchet",
    text="1 m",
    dimension="length",
    tighter="lower",
    because="A ratchet is 0.2 m to 0.4 m long, with its own strap up to 1 m. We ask when the file gives no reach.",
    source=PRACTICE,
)
PULLER = "shelf[0].items.PU-1"
TACKLE = {"kind": "puller", "form": "webbing_tackle", "mbs": "30 kN", "inspected": "2026-04-02"}
RATCHET = {"chain[8]": {"part": "puller", "gear": "PU-1"}, PULLER: TACKLE | {"form": "ratchet"}}
CUT, LENGTH = "chain[5].cut", "shelf[0].items.W-1.length"


@rule(
    title="Webbing too short for this span",
    each=the_rig,
    signal=Signal.CAUTION,
    raised={"life": Signal.WARNING},
    worst=Signal.WARNING,
    why="A span that was only paced shows when the webbing ends in its anchor, with no tail left.",
    formula="length of the webbing ≥ unstressed between its ends + tails + what the webbing anchors take − most short",
    limits=(SHORT, LONGEST, LONGEST_RATCHET),
    prevents=("span_wrong", "webbing_tail_short"),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {CUT: REMOVE}),
        sound("low", {CUT: "13.27 m"}),
        faulty("low", {CUT: "13.24 m"}, at=CUT, signal=Signal.CAUTION, shows="span_wrong"),
        # Not even without tails: the span, and all that is calculated from it, is wrong.
        faulty("low", {"spot.span": "17.5 m"}, at=CUT, signal=Signal.WARNING),
        faulty("low", {"spot.span": "17 m"}, at=CUT, signal=Signal.CAUTION),
        faulty("low", {"chain[4].tail": "2.5 m"}, at=CUT, shows="webbing_tail_short"),
        sound("low", {CUT: REMOVE, LENGTH: "25 m"}),
        faulty("low", {CUT: REMOVE, LENGTH: "13.24 m"}, at=LENGTH),
        sound("highline", {"chain[4].cut": "52.6 m"}),
        faulty("highline", {"chain[4].cut": "52.5 m"}, at="chain[4].cut", signal=Signal.WARNING),
        # 16.03 m with a puller of 0.3 m; one that is not on file may be 4 m long.
        sound("low", {"chain[8]": {"part": "puller", "gear": "PU-1"}, PULLER: TACKLE, CUT: "11.9 m"}),
        faulty(
            "low", {"chain[8]": {"part": "puller", "gear": "PU-1"}, PULLER: TACKLE, CUT: "11.7 m"}, at=CUT
        ),
        faulty(
            "low",
            {"chain[8]": {"part": "puller", "gear": "PU-1", "reach": "2 m"}, PULLER: TACKLE, CUT: "10 m"},
        ),
        # A ratchet is shorter: 1 m with its strap.
        sound("low", RATCHET | {CUT: "14.87 m"}),
        faulty("low", RATCHET | {CUT: "14.82 m"}, at=CUT),
        open_("low", {"spot.span": REMOVE}, at="spot.span"),
    ),
)
def cut_length(case: Case, _rig: None) -> Iterator[Fault]:
    webbings = [one for one in case.path.webbings if one.part.part == "webbing"]
    if len(webbings) != 1 or not case.path.whole:
        return
    (webbing,) = webbings
    item = webbing.item
    length, at = webbing.part.cut, case.on_part(webbing, "cut")
    if length is None and item is not None:
        length, at = item.gear.length, case.on_item(item, "length", part=webbing.id)
    if length is None:
        return
    needed = case.loads.cut_needed_m()
    more = [one for one in case.path.parts if _of_unknown_length(one)]
    short, spare = needed - length.si, sum(_may_be_longer_m(case, one) for one in more)
    if short <= case.limit(SHORT) + spare:
        return
    needed -= spare
    tails = sum(one.part.webbing_tail.si for one in case.path.parts if one.part.webbing_tail)
    with_puller = f", with a tensioner of {case.limit(_longest(more[0])):g} m," if more else ""
    yield Fault(
        at,
        f"{first_up(webbing.words)} is {length.text} long. This span, the tails on file and the "
        f"webbing anchors{with_puller} take {rounded(needed, 'up')} m.",
        f"Measure the span again. If it is right, use at least {rounded(needed, 'up')} m of "
        f"webbing{', or enter the length of the tensioner (reach)' if more else ''}.",
        value=length.si,
        limit=needed,
        unit="m",
        signal=Signal.WARNING if length.si < needed - tails else None,
        inputs=(
            case.given("length of the webbing", "ℓ", length, at),
            Input("unstressed between its ends", "L", case.loads.standing.line.unstressed_m, "m"),
            Input("span", "D", case.loads.geometry.span_m, "m", case.on_spot("span").reference),
        ),
    )


def _may_be_longer_m(case: Case, puller: Placed) -> float:
    """Return how much longer a puller of unknown length may be than the one that the loads are computed with."""
    return case.limit(_longest(puller)) - case.loads.geometry.reach_m(puller)


def _longest(puller: Placed) -> Limit:
    ratchet = puller.item is not None and puller.item.gear.form == "ratchet"
    return LONGEST_RATCHET if ratchet else LONGEST


def _of_unknown_length(placed: Placed) -> bool:
    """Return whether it is a puller whose length is not on file; a webbing tackle may be 0.5 m or 3 m long."""
    stated = placed.part.reach or (placed.item.gear.reach if placed.item else None)
    return placed.part.part == "puller" and stated is None
