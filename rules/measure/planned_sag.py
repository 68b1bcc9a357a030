"""A plan that gives a standing tension means the same line as its sag target and the lengths of the webbing."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    Placed,
    Quantity,
    Signal,
    Source,
    faulty,
    in_kn,
    need,
    open_,
    rule,
    set_to,
    sound,
    the_rig,
)

APART = Limit(
    name="apart",
    text="15 %",
    dimension="strain_or_ratio",
    tighter="lower",
    because="You can read a sag to a hand's breadth. Beyond that the two numbers mean two different lines.",
    source=PRACTICE,
)
LENGTH = "chain[4].length"
SAG = Source("the exact line model, solved for the length that sags so", "own")


def _target(depth: str, under: str = "80 kg") -> dict[str, object]:
    return {"plan.sag_target": {"depth": depth, "under": under, "at": 0.5}}


@rule(
    title="Planned tension and planned sag or length don't match",
    each=the_rig,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.WARNING},
    why="The crew stops at the number it looks at. If the two mean different lines, one overloads the rig.",
    formula="tension of the line that sags by the target, or has the stated lengths ÷ planned standing tension − 1",
    limits=(APART,),
    sources=(SAG,),
    prevents=("tension_guessed",),
    examples=(
        sound("low"),
        sound("highline", _target("2.52 m", "85 kg")),
        sound("highline", _target("2.815 m", "85 kg")),
        faulty("highline", _target("2.825 m", "85 kg"), at="plan.sag_target", signal=Signal.WARNING),
        sound("highline", _target("2.47 m", "85 kg")),
        faulty("highline", _target("2.46 m", "85 kg"), at="plan.sag_target", signal=Signal.WARNING),
        faulty("low", _target("1.5 m"), at="plan.sag_target", signal=Signal.CAUTION),
        # Where every webbing has its length, the plan's tension decides nothing.
        sound("highline", {LENGTH: "48.95 m"}),
        faulty("highline", {LENGTH: "48.93 m"}, at=LENGTH, signal=Signal.WARNING),
        sound("highline", {LENGTH: "49.12 m"}),
        faulty("highline", {LENGTH: "49.14 m"}, at=LENGTH, signal=Signal.WARNING),
        sound("low", {"chain[5].length": "11 m"}),  # the haul takes in what is left
        open_("highline", {**_target("2.52 m"), "spot.span": REMOVE}, at="spot.span"),
        open_(
            "highline",
            {**_target("2.52 m"), "shelf[0].items.W-1.stretch": REMOVE},
            at="shelf[0].items.W-1.stretch",
        ),
    ),
)
def planned_sag(case: Case, _rig: None) -> Iterator[Fault]:
    plan = case.plan
    if plan is None or plan.standing_tension is None:
        return
    if plan.sag_target is not None:
        yield from _by_sag(case, plan.standing_tension)
    stays = case.path.haul is not None and case.path.haul.part.stays
    webbings = case.path.webbings
    # Blocks that stay in the line take up what the webbing leaves, so its length fixes no tension.
    if webbings and not stays and all(one.part.length is not None for one in webbings):
        yield from _by_length(case, webbings[0], plan.standing_tension)


def _by_sag(case: Case, planned: Quantity) -> Iterator[Fault]:
    at = case.at("plan", "sag_target")
    meant = need(case.loads.sag_target_tension_n(), at)
    if abs(meant / planned.si - 1.0) <= case.limit(APART):
        return
    target, kn = need(case.plan.sag_target if case.plan else None, at), meant / 1000.0
    key = ("plan", "standing_tension")
    remedies = case.put_right(at, set_to(key, "put {} into the plan", "kN", meant))
    yield Fault(
        at,
        f"A sag of {target.depth.text} under {target.under.text} means {kn:.3g} kN. The plan says "
        f"{planned.text}.",
        f"Put {kn:.3g} kN into the plan, or the sag that {planned.text} gives. Then audit again.",
        value=kn,
        limit=planned.si / 1e3,
        unit="kN",
        inputs=(
            case.given("planned tension", "T0", planned, case.at("plan", "standing_tension")),
            Input("tension by the sag", "T", kn, "kN", at.reference),
        ),
        remedies=remedies,
    )


def _by_length(case: Case, webbing: Placed, planned: Quantity) -> Iterator[Fault]:
    """Judge lengths that leave nothing open: they decide the tension, whatever the plan says."""
    computed, at = case.loads.standing.tension_n, case.on_part(webbing, "length")
    if abs(computed / planned.si - 1.0) <= case.limit(APART):
        return
    key = ("plan", "standing_tension")
    remedies = case.put_right(at, set_to(key, "put {} into the plan", "kN", computed))
    yield Fault(
        at,
        f"Webbing of the given length stands at {in_kn(computed)}. The plan says {planned.text}. "
        "We calculate every force here from the length.",
        "Take the length out if the tension decides, or put the tension that the length gives into the plan.",
        value=computed / 1e3,
        limit=planned.si / 1e3,
        unit="kN",
        inputs=(
            case.given("planned tension", "T0", planned, case.at("plan", "standing_tension")),
            Input("tension by the length", "T", computed / 1e3, "kN", at.reference),
        ),
        remedies=remedies,
    )
