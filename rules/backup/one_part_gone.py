"""When one leg of an anchor goes, each of the others holds.

The other catches have rules of their own: a backup in its catch `backup/strength`, nothing to catch
`backup/presence`, what main line and backup share `backup/independence`, the tie-back `haul/tie_back_catch`, bolts
`anchor/bolts`, rings `leash/rings`. What is too weak already with all legs holding is told by `ratio/peak`.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Input,
    Removal,
    Signal,
    Source,
    each_removal,
    faulty,
    in_kn,
    open_,
    rounded,
    rule,
    sound,
)

LINK, LEGS = "shelf[0].items.QL-1.mbs", "chain[1]"
# Two legs: each bears 5.59 kN of 10.1 kN, and all of it once the other has gone.
TWO: dict[str, object] = {f"{LEGS}.legs[2]": REMOVE}


@rule(
    title="What is left when one part goes is too weak",
    each=each_removal,
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    worst=Signal.DANGER,
    why="A second leg counts for what it holds once the first has gone; then it bears the whole line.",
    formula="S · r ÷ F with one leg gone ≥ ratio asked of a backup; asked where a failure costs a life",
    sources=(
        Source("the ratio asked of a backup in its catch, from the table of required ratios", "own"),
        Source("statics: two legs bear T ÷ (2·cos(θ/2)) each, one leg bears T", "own"),
    ),
    prevents=("legs_share_badly",),
    examples=(
        sound("highline"),
        sound("low"),
        sound("long_haul"),
        sound("highline", TWO),
        sound("highline", TWO | {LINK: "20.3 kN"}),
        faulty("highline", TWO | {LINK: "20.2 kN"}, at="chain[1].legs[0].chain[0]", signal=Signal.DANGER),
        # A third leg takes over what the first bore; too weak from the start it is another rule's.
        sound("highline", {LINK: "17 kN"}),
        sound("highline", TWO | {LINK: "16 kN"}),
        open_("highline", TWO | {f"{LEGS}.share": REMOVE}, at=f"{LEGS}.share"),
        open_("highline", TWO | {f"{LEGS}.included_angle": REMOVE}, at=f"{LEGS}.included_angle"),
        open_("highline", TWO | {LINK: REMOVE}, at=LINK),
    ),
)
def one_part_gone(case: Case, gone: Removal) -> Iterator[Fault]:
    # Where nobody hangs on the line the ratio asked of a leg keeps it from parting, so that nothing flies.
    asked = case.required("backup") if case.consequence == "life" else None
    left = gone.left
    if asked is None or left is None or left.ratio >= asked:
        return
    if left.load is not None:
        peak, before = left.load.worst(case.loads.peaks()), left.load.required_at(case.consequence)
        if peak is not None and before is not None and peak.ratio < before:
            return
    yield Fault(
        left.at,
        f"If {gone.gone} goes, {gone.caught_by} must hold {in_kn(left.force_n)}: {left.words} holds "
        f"{rounded(left.ratio, 'down')} times that. {asked:g} is required.",
        f"Take gear there that is {rounded(asked / left.ratio, 'up')} times as strong, or add a leg.",
        value=left.ratio,
        limit=asked,
        unit="1",
        inputs=(
            Input("force with one part gone", "F", left.force_n / 1e3, "kN"),
            Input("what is left holds", "S·r", left.force_n * left.ratio / 1e3, "kN"),
        ),
        state="one part gone",
    )
