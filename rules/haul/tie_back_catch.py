"""The tie-back stands its catch: line and blocks run through its slack before it holds them."""

from collections.abc import Iterator

from riglint.rulekit import (
    OWN,
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    Signal,
    either,
    faulty,
    in_kn,
    lower_tension,
    one_value,
    open_,
    review,
    rounded,
    rule,
    sound,
    the_rig,
)

LEAST = Limit(
    name="least_ratio",
    text="1",
    dimension=None,
    tighter="higher",
    because="We calculate the lowest force: the tie-back as listed, with the line giving. Below 1 it breaks.",
    source=OWN,
)
ADVISED = Limit(
    name="advised_ratio",
    text="1",
    dimension=None,
    tighter="higher",
    because="The upper bound takes the tie-back as stiff as it is in use, and the line's tension as constant.",
    source=OWN,
)
AT_LEAST = 2.0  # times the standing tension; haul/tie_back_strength tells of one that is weaker
TIE = "chain[8].tie_back"
SLING = {
    "kind": "round_sling",
    "material": "polyester",
    "wll": "2 t",
    "length": "5.5 m",
    "inspected": "2026-04-02",
}


def _stiff(slack: str, mbs: str = "20 kN", **more: object) -> dict[str, object]:
    """Tie the long line back with spliced UHMWPE rope, whose curve nobody gives: 55 to 109 kN/m; 18 kN are left."""
    rope = {"kind": "rope", "type": "hmpe", "material": "uhmwpe", "mbs": mbs, "length": "5.6 m"}
    return {"shelf[0].items.TB-1": rope, f"{TIE}.ends": "spliced", f"{TIE}.slack": slack, **more}


@rule(
    title="The tie-back breaks in its catch",
    each=the_rig,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.DANGER},
    why="If a tie-back breaks as it catches, line and blocks fly on as if there were none.",
    formula="S · r ÷ F ≥ 1; T·(s + δ) − ½·k_L·(s + δ)² = ½·k·δ², F = k·δ; at most T + √(T² + 2·k·T·s)",
    limits=(LEAST, ADVISED),
    prevents=("tie_back_weak_or_slack",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("long_haul", {TIE: REMOVE}),
        sound("long_haul", {f"{TIE}.slack": "0.3 m"}),
        sound("long_haul", _stiff("0.05 m")),
        review("long_haul", _stiff("0.1 m"), at=f"{TIE}.slack", signal=Signal.CAUTION),
        review("long_haul", _stiff("0.26 m"), at=f"{TIE}.slack", signal=Signal.CAUTION),
        faulty("long_haul", _stiff("0.3 m"), at=f"{TIE}.slack", signal=Signal.WARNING),
        faulty("long_haul", _stiff("0.3 m", **{"plan.consequence": "life"}), signal=Signal.DANGER),
        faulty("low", _stiff("0.3 m", "1.3 kN"), at=f"{TIE}.slack", signal=Signal.CAUTION),
        # A round sling has no curve on the shelf: its fibre's stiffness is taken.
        sound("long_haul", {"shelf[0].items.TB-1": SLING}),
        review("long_haul", {"shelf[0].items.TB-1": {**SLING, "wll": "0.4 t"}, f"{TIE}.slack": "0.25 m"}),
        open_("long_haul", {f"{TIE}.slack": REMOVE}, at=f"{TIE}.slack"),
        open_("long_haul", {"shelf[0].items.TB-1.length": REMOVE}, at="shelf[0].items.TB-1.length"),
        open_("long_haul", {"shelf[0].items.TB-1.mbs": REMOVE}, at="shelf[0].items.TB-1.mbs"),
        open_("long_haul", {"plan.standing_tension": REMOVE}, at="plan.standing_tension"),
        open_("long_haul", {f"{TIE}.gear": REMOVE}, at=f"{TIE}.gear"),
    ),
)
def tie_back_catch(case: Case, _rig: None) -> Iterator[Fault]:
    tie = case.loads.tie_back
    if tie is None:
        return
    standing_n = case.loads.standing_tension_n
    hardest = max(case.loads.judged_by("tie_back", whole=True), key=lambda state: state.tension_n)
    caught_n, bound_n = hardest.tension_n, tie.bound_n(standing_n)
    strength = case.loads.strengths.of_tie_back(tie.item, tie.placed)
    at, holds_n = tie.on("slack"), strength.strength_n
    told = f"{tie.item.id} holds {in_kn(holds_n, 'down')} as it is tied"
    inputs = (
        Input("standing tension", "T", standing_n / 1e3, "kN"),
        Input("slack", "s", tie.slack_m, "m", at.reference),
        Input("what the tie-back holds", "S·r", holds_n / 1e3, "kN", strength.at.reference),
    )
    least, advised = case.limit(LEAST), case.limit(ADVISED)
    if holds_n < least * caught_n:
        less = one_value(at.key, "take the tie-back in to {} of slack", "down", "m", 0.05)
        remedies = case.put_right(at, less, lower_tension)
        yield Fault(
            at,
            f"When the pulley system lets go, the tie-back catches at least {in_kn(caught_n)} "
            f"after {tie.slack_m:g} m of slack. {told}.",
            either(
                *remedies.or_else("take the slack out"),
                f"use one that holds at least {in_kn(least * caught_n, 'up')}",
            ),
            value=holds_n / caught_n,
            limit=least,
            unit="1",
            inputs=inputs,
            state=hardest.name,
            remedies=remedies,
        )
    # The bound counts no give but the tie-back's own, so missing it calls for a look and is no fault.
    elif holds_n < advised * bound_n and holds_n >= AT_LEAST * standing_n:
        yield Fault(
            at,
            f"The tie-back would catch between {in_kn(caught_n)} and {in_kn(bound_n)}. "
            f"{told}, {rounded(holds_n / bound_n, 'down')} × the most.",
            "Take the slack out once the line is tensioned, or double the tie-back.",
            value=holds_n / bound_n,
            limit=advised,
            unit="1",
            inputs=inputs,
            state=hardest.name,
            kind="review",
            signal=Signal.CAUTION,
        )
