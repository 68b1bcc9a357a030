"""When any one part goes, what catches holds, and where a failure costs a life something does catch.

At a life whatever catches must hold the ratio asked of a backup; where less is at stake the legs of an anchor must not
part one after the other, since webbing and metal fly then. Where a failure means a fall and nothing catches the main
line, as on most long lines and jump lines, people are kept out of the way of what flies: a look, no fault. A backup's
own legs and bolts bear only once the main line has gone too; when one of them goes besides, the others must not part.

Rows that rules of their own tell better are left to them: a backup in its catch `backup/strength`, a highline without
one `backup/presence`, what main line and backup share `backup/independence`, bolts `anchor/bolts`, a tie-back that
breaks or is missing `haul/tie_back_catch` and `haul/tie_back`, weak or single rings `leash/rings`. What is too weak
already with nothing gone is told by `ratio/peak`.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    MayGo,
    OnCard,
    Removal,
    Signal,
    Source,
    each_removal,
    faulty,
    in_kn,
    open_,
    review,
    rounded,
    rule,
    sound,
)

LINK, LEGS = "shelf[0].items.QL-1.mbs", "chain[1]"
SPARE, BACK_SPARE = "shelf[0].items.QL-2.mbs", "shelf[0].items.QL-8.mbs"
BACK_LEGS = "backups[0].chain[1]"
TIE = "shelf[0].items.TB-1.mbs"
BOLT_ALONG, BOLT_ACROSS = "spot.anchors.east.points.e4.axial", "spot.anchors.west.points.w5.radial"
# Two legs: each bears 5.59 kN of 10.1 kN, and all of it once the other has gone.
TWO: dict[str, object] = {f"{LEGS}.legs[2]": REMOVE}
LIFE: dict[str, object] = {"plan.consequence": "life"}
RINGS_TOLD_N = 22e3  # leash/rings tells of one that is labelled with less
CAUGHT = frozenset({"haul", "ring", "tie-back", "backup"})  # asked for where a failure costs a life
PARTS = 1.0  # the ratio below which what catches goes too
ADVICE = {
    "haul": "use a tie-back that holds so much more, or take its slack out",
    "ring": "use stronger forged rings",
    "leg": "use gear there that holds so much more, or add a leg",
}


@rule(
    title="What is left when one part goes is too weak",
    each=each_removal,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.DANGER},
    worst=Signal.DANGER,
    why="When one part goes, the other bears the whole line. It counts for what it holds then.",
    formula="S · r ÷ F with one part gone ≥ ratio asked of a backup (life), of the other bolts (legs), else 1",
    sources=(
        Source("the ratio asked of a backup in its catch, from the table of required ratios", "own"),
        Source("statics: two legs bear T ÷ (2·cos(θ/2)) each, one leg bears T", "own"),
    ),
    prevents=("legs_share_badly", "low_line_kit_up_high"),
    on_card=OnCard(phase="walk", advice=True, do_alone=True),
    examples=(
        sound("highline"),
        sound("low"),
        review("long_haul", at="chain[5]", signal=Signal.NOTICE),
        review("low", {"plan.moves": ["walk", "jump"]}, at="chain[5]", signal=Signal.NOTICE),
        sound("highline", TWO),
        sound("highline", TWO | {LINK: "20.3 kN"}),
        faulty(
            "highline",
            TWO | {LINK: "20.2 kN"},
            at="chain[1].legs[0].chain[0]",
            signal=Signal.DANGER,
            shows="legs_share_badly",
        ),
        # A third leg takes over what the first bore; too weak from the start it is another rule's.
        sound("highline", {LINK: "17 kN"}),
        sound("highline", TWO | {LINK: "16 kN"}),
        # A spare bears nothing until the first leg goes, then all of it; behind a backup it must not part.
        sound("highline", TWO | {f"{LEGS}.share": "slack_spare", SPARE: "20.3 kN"}),
        faulty(
            "highline",
            TWO | {f"{LEGS}.share": "slack_spare", SPARE: "20.2 kN"},
            at="chain[1].legs[1].chain[0]",
            signal=Signal.DANGER,
        ),
        sound("highline", {f"{BACK_LEGS}.share": "slack_spare", BACK_SPARE: "9.7 kN"}),
        faulty(
            "highline",
            {f"{BACK_LEGS}.share": "slack_spare", BACK_SPARE: "9.4 kN"},
            at="backups[0].chain[1].legs[1].chain[0]",
            signal=Signal.DANGER,
        ),
        faulty("long_haul", LIFE | {TIE: "14 kN"}, at="chain[8].tie_back.gear", signal=Signal.DANGER),
        # A line that nobody is tied to, over something that makes any fall deadly.
        faulty("low", LIFE, at="chain[5]", signal=Signal.DANGER, shows="low_line_kit_up_high"),
        # peak/discipline tells it
        sound("low", {"chain[0].height": "3.42 m", "chain[12].height": "3.42 m"}),
        sound("highline", {"backups": [], "leash.rings_on": ["main"]}),  # backup/presence tells it
        open_("highline", TWO | {f"{LEGS}.share": REMOVE}, at=f"{LEGS}.share"),
        open_("highline", TWO | {f"{LEGS}.included_angle": REMOVE}, at=f"{LEGS}.included_angle"),
        open_("highline", TWO | {LINK: REMOVE}, at=LINK),
        open_("highline", {BOLT_ALONG: REMOVE}, at=BOLT_ALONG),
        open_("highline", {BOLT_ACROSS: REMOVE}, at=BOLT_ACROSS),
    ),
)
def one_part_gone(case: Case, may_go: MayGo) -> Iterator[Fault]:
    life, what = case.consequence == "life", may_go.what
    if what == "series":
        if life and not case.highline and case.rig.leash is None and not case.feet_too_high:
            yield from _nothing_catches(case, may_go)
        elif case.consequence == "fall":
            yield from _keep_clear(case, may_go)
    elif what in {"leg", "backup leg", "backup bolt"} or (life and what in CAUGHT):
        for gone in may_go.rows():
            yield from _what_catches(case, gone)


def _nothing_catches(case: Case, may_go: MayGo) -> Iterator[Fault]:
    """Say that nothing catches where nobody is tied to the line, and a failure costs a life all the same.

    Of a leash on a low line or over water `leash/presence` tells, of one too high to jump off `peak/discipline`.
    """
    if any(one.backs_main for one in case.loads.backups):
        return
    for gone in may_go.rows():
        fall = f"from {gone.fall_m:.1f} m up" if gone.fall_m is not None else "from the line"
        yield Fault(
            gone.at,
            f"If {gone.gone} goes, nothing catches, and people fall {fall}. Webbing and metal fly toward both anchors.",
            "Rig a second line on points of its own and tie everybody to both, or rig so low that a fall is a stumble.",
            signal=Signal.DANGER,
        )


def _keep_clear(case: Case, may_go: MayGo) -> Iterator[Fault]:
    """Ask to keep people out of the way of what flies, where nothing catches the main line."""
    if any(one.backs_main for one in case.loads.backups):
        return
    for gone in may_go.rows():
        fall = f" People fall from {gone.fall_m:.1f} m up." if gone.fall_m else ""
        yield Fault(
            gone.at,
            f"If {gone.gone} goes, nothing catches. Webbing and metal fly toward both anchors.{fall}",
            "Let nobody stand or sit in line with the tension, behind either anchor.",
            kind="review",
            signal=Signal.NOTICE,
            source=PRACTICE,
        )


def _what_catches(case: Case, gone: Removal) -> Iterator[Fault]:
    left, asked = gone.left, _asked(case, gone)
    if left is None or asked is None or left.ratio >= asked or _told_elsewhere(case, gone):
        return
    then = f"{gone.after} must catch" if gone.after else "nothing is left"
    yield Fault(
        left.at,
        f"If {gone.gone} goes, {gone.caught_by} must hold {in_kn(left.force_n)}: {left.words} holds "
        f"{rounded(left.ratio, 'down')} times that. {asked:g} is required."
        + (f" It parts too, and then {then}." if left.ratio < PARTS else ""),
        f"It takes {rounded(asked / left.ratio, 'up')} times the strength: {ADVICE.get(gone.what, ADVICE['leg'])}.",
        value=left.ratio,
        limit=asked,
        unit="1",
        inputs=(
            Input("force with one part gone", "F", left.force_n / 1e3, "kN"),
            Input("what is left holds", "S·r", left.force_n * left.ratio / 1e3, "kN"),
        ),
        state="one part gone",
    )


def _asked(case: Case, gone: Removal) -> float | None:
    """Return the ratio asked of what catches: legs as the bolts behind them, all else at a life as a backup."""
    if gone.what.startswith("backup "):
        return PARTS
    if gone.what == "leg":
        return case.required("anchor_point_one_lost") or PARTS
    return case.required("backup")


def _told_elsewhere(case: Case, gone: Removal) -> bool:
    """Whether a rule of its own tells that this is too weak, with or without a part gone."""
    left = gone.left
    if left is None:
        return True
    if left.load is not None and left.before is not None:
        before = left.load.required_at(case.consequence)
        return before is not None and left.before < before
    if gone.what == "ring":
        return left.ratio * left.force_n < RINGS_TOLD_N
    return gone.what == "haul" and left.ratio < PARTS
