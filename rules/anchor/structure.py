"""A wall, a frame or a post holds what somebody designed or tested it for, and its owner agrees to it."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    End,
    Fault,
    Input,
    Limit,
    Signal,
    Source,
    either,
    ends,
    faulty,
    in_kn,
    lighter_user,
    lower_tension,
    need,
    open_,
    review,
    rounded,
    rule,
    sound,
    when,
)

LEAST = Limit(
    name="least_ratio",
    text="1.0",
    dimension=None,
    tighter="higher",
    because="Nobody vouches for a structure beyond its design load or test load.",
    source=Source("own proposal: a pull above design or test is unknown ground", "own"),
)
GATE, WEST = "spot.anchors.gate", "spot.anchors.west"


def _wall(force: str, **more: object) -> dict[str, object]:
    return {"kind": "structure", "owner_agrees": True, "design_force": force} | more


TESTED = {"kind": "structure", "owner_agrees": True, "tested_force": "16 kN"}


# Half of the gate's load goes to something else.
SHARED = {
    "part": "legs",
    "share": "fixed",
    "included_angle": "60 deg",
    "legs": [{"to": "gate"}, {"to": "other"}],
}


@rule(
    title="Nobody knows whether the structure holds this pull",
    each=ends("structure"),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    worst=Signal.DANGER,
    why="Posts, walls and railings are built for wind and leaning people. A line pulls them over.",
    formula="design or tested force ÷ T ≥ required ratio, T the worst pull at that end; the owner agrees",
    limits=(LEAST,),
    sources=(
        Source("1.5, 2 or 3 by what a failure means", "practice"),
        Source(
            "Portuguese federation rules: no lamp posts, volleyball posts, signs, handrails",
            "published",
            ("portuguese_rules",),
        ),
    ),
    prevents=("post_or_car_as_anchor",),
    examples=(
        sound("highline"),
        review("low", {GATE: _wall("12.9 kN")}, at=GATE, signal=Signal.NOTICE),
        faulty("low", {GATE: _wall("12.5 kN")}, at=f"{GATE}.design_force", signal=Signal.WARNING),
        faulty("low", {GATE: _wall("8.6 kN")}, at=f"{GATE}.design_force", signal=Signal.WARNING),
        faulty("low", {GATE: _wall("8.3 kN")}, at=f"{GATE}.design_force", signal=Signal.DANGER),
        sound("low", {GATE: TESTED}),
        faulty(
            "low",
            {GATE: TESTED, "plan.consequence": "fall"},
            at=f"{GATE}.tested_force",
            signal=Signal.WARNING,
        ),
        sound("low", {GATE: _wall("17.2 kN"), "plan.consequence": "fall"}),
        faulty("low", {GATE: _wall("16.8 kN"), "plan.consequence": "fall"}, signal=Signal.WARNING),
        sound("highline", {WEST: _wall("30.6 kN")}),
        faulty("highline", {WEST: _wall("30 kN")}, at=f"{WEST}.design_force", signal=Signal.DANGER),
        faulty(
            "low", {GATE: _wall("40 kN", owner_agrees=False)}, at=f"{GATE}.owner_agrees", signal=Signal.DANGER
        ),
        review("low", {"chain[2]": SHARED, "spot.anchors.other": _wall("7.1 kN")}),
        faulty(
            "low",
            {"chain[2]": SHARED, "spot.anchors.other": _wall("6.9 kN")},
            at="spot.anchors.other.design_force",
            signal=Signal.WARNING,
        ),
        open_("low", {GATE: {"kind": "structure", "design_force": "40 kN"}}, at=f"{GATE}.owner_agrees"),
        open_("low", {GATE: {"kind": "structure", "owner_agrees": True}}, at=f"{GATE}.tested_force"),
        open_("low", {GATE: _wall("40 kN"), "plan.users": REMOVE}, at="plan.users"),
    ),
)
def structure(case: Case, end: End) -> Iterator[Fault]:
    yield Fault(
        end.on_structure(),
        f"We don't calculate the material or the foundations of '{end.name}'.",
        f"Look at '{end.name}' with its owner. Never use a lamp post, sports post, sign, handrail or chimney.",
        kind="review",
        signal=Signal.NOTICE,
        source=PRACTICE,
    )
    at = end.on_structure("owner_agrees")
    if end.structure.owner_agrees is False:
        yield Fault(
            at,
            f"The owner of '{end.name}' hasn't agreed to a line on it. The owner knows best what it can take.",
            f"Ask the owner of '{end.name}' for permission and for the load it can take, or use another anchor.",
            signal=Signal.DANGER,
            source=PRACTICE,
        )
    yield from _force(case, end)
    need(end.structure.owner_agrees, at)


def _force(case: Case, end: End) -> Iterator[Fault]:
    # A design load is meant to be used again and again; a test shows that one pull went well.
    key = "design_force" if end.structure.design_force is not None else "tested_force"
    at = end.on_structure(key)
    held = need(end.structure.design_force or end.structure.tested_force, at)
    pull, required = end.pull(), case.required("backup" if end.backup else "ground_anchor")
    ratio = held.si / pull.tension_n
    if required is None or ratio >= required:
        return
    remedies = case.put_right(at, *((lighter_user,) if end.backup else (lower_tension, lighter_user)))
    word = "designed for" if key == "design_force" else "tested to"
    yield Fault(
        at,
        f"The structure '{end.name}' was {word} {held.text}. That is {rounded(ratio, 'down')} × "
        f"the pull {when(pull.state)} ({in_kn(pull.tension_n)}); you need {required:g} ×.",
        either(
            f"have a competent person vouch for {in_kn(required * pull.tension_n, 'up')} at '{end.name}'",
            *remedies.or_else(f"bring the pull down to {in_kn(held.si / required, 'down')}"),
        ),
        value=ratio,
        limit=required,
        unit="1",
        inputs=(
            case.given(word, "F", held, at),
            Input("pull at this end", "T", pull.tension_n / 1e3, "kN"),
        ),
        state=pull.state,
        signal=Signal.DANGER if ratio < case.limit(LEAST) else None,
        remedies=remedies,
    )
