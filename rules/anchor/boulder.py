"""A boulder is heavy enough not to slide under the pull. Tipping and sloping ground are for the eyes."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    End,
    Fault,
    G,
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
    rounded,
    rule,
    sound,
    when,
)

LEAST = Limit(
    name="least_ratio",
    text="1.5",
    dimension=None,
    tighter="higher",
    because="The friction under a boulder is an estimate and may be a third lower.",
    source=Source("own proposal, for every part and every consequence", "own"),
)
GATE, WEST = "spot.anchors.gate", "spot.anchors.west"
# The far end stands 6 m higher, so that the line pulls the boulder up by 1.7 kN; level, 3.1 t would do.
UPHILL = {"spot.ground.profile": [["0 m", "0 m"], ["16 m", "6 m"]]}


def _rock(mass: str) -> dict[str, object]:
    return {"kind": "boulder", "mass": mass, "friction": 0.5}


# Half of the gate's load goes to something else.
SHARED = {
    "part": "legs",
    "share": "fixed",
    "included_angle": "60 deg",
    "legs": [{"to": "gate"}, {"to": "other"}],
}

HEAVIEST = Limit(
    name="heaviest",
    text="1000 t",
    dimension="mass",
    tighter="lower",
    because="A boulder of 1000 t is a cube of 7 m; above it a decimal is lost, or it is no boulder.",
    source=Source("own proposal, from granite at 2.7 t a cubic metre", "own"),
)


@rule(
    title="The boulder may slide",
    each=ends("boulder"),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    worst=Signal.DANGER,
    why="A boulder that starts to slide comes with the line and can roll onto people.",
    formula="μ·(m·g − uplift) ÷ T ≥ required ratio, T the worst pull at that end",
    limits=(LEAST, HEAVIEST),
    sources=(
        Source("statics: Coulomb friction on level ground, a downward part of the pull not credited", "own"),
        Source("a third of what would move it", "practice"),
    ),
    prevents=("boulder_moves",),
    examples=(
        sound("highline"),
        sound("low", {GATE: _rock("3.5 t")}),
        faulty("low", {GATE: _rock("3.4 t")}, at=f"{GATE}.mass", signal=Signal.WARNING),
        faulty("low", {GATE: _rock("2.63 t")}, at=f"{GATE}.mass", signal=Signal.WARNING),
        faulty("low", {GATE: _rock("2.57 t")}, at=f"{GATE}.mass", signal=Signal.DANGER),
        sound("low", {GATE: _rock("5.3 t"), "plan.consequence": "fall"}),
        faulty(
            "low",
            {GATE: _rock("5.1 t"), "plan.consequence": "fall"},
            at=f"{GATE}.mass",
            signal=Signal.WARNING,
        ),
        sound("low", {GATE: _rock("3.3 t"), **UPHILL}),
        faulty("low", {GATE: _rock("3.15 t"), **UPHILL}, at=f"{GATE}.mass"),
        sound("highline", {WEST: _rock("6.25 t")}),
        faulty("highline", {WEST: _rock("6.1 t")}, at=f"{WEST}.mass", signal=Signal.DANGER),
        sound("low", {"chain[2]": SHARED, "spot.anchors.other": _rock("1.94 t")}),
        faulty(
            "low",
            {"chain[2]": SHARED, "spot.anchors.other": _rock("1.89 t")},
            at="spot.anchors.other.mass",
            signal=Signal.WARNING,
        ),
        sound("low", {GATE: _rock("990 t")}),
        faulty("low", {GATE: _rock("1010 t")}, at=f"{GATE}.mass", signal=Signal.CAUTION),
        open_("low", {GATE: {"kind": "boulder", "friction": 0.5}}, at=f"{GATE}.mass"),
        open_("low", {GATE: {"kind": "boulder", "mass": "9 t"}}, at=f"{GATE}.friction"),
        open_("low", {GATE: _rock("9 t"), "plan.users": REMOVE}, at="plan.users"),
    ),
)
def boulder(case: Case, end: End) -> Iterator[Fault]:
    yield from _too_heavy(case, end)
    pull, required = end.pull(), case.required("backup" if end.backup else "boulder")
    resistance = need(end.resistance_n(pull.uplift_n), end.on_structure("mass"))
    if required is None or resistance >= required * pull.tension_n:
        return
    rock, at, ratio = end.structure, end.on_structure("mass"), resistance / pull.tension_n
    friction = need(rock.friction, end.on_structure("friction"))
    # Uplift takes weight off the ground first; only what is left rubs.
    mass_t = (required * pull.tension_n / friction + pull.uplift_n) / G / 1e3 if friction else 0.0
    heavier = (f"use a boulder of at least {rounded(mass_t, 'up')} t",) if friction else ()
    remedies = case.put_right(at, *((lighter_user,) if end.backup else (lower_tension, lighter_user)))
    less = f"bring the pull at '{end.name}' down to {in_kn(resistance / required, 'down')}"
    inputs = [
        Input("friction number", "μ", friction, "1", end.on_structure("friction").reference),
        Input("upward part of the pull", "uplift", pull.uplift_n / 1e3, "kN"),
        Input("pull at this end", "T", pull.tension_n / 1e3, "kN"),
    ]
    if rock.mass is not None:
        inputs.insert(0, case.given("mass", "m", rock.mass, at))
    yield Fault(
        at,
        f"The boulder '{end.name}' slides at {in_kn(resistance, 'down')}. That is "
        f"{rounded(ratio, 'down')} × the pull {when(pull.state)} "
        f"({in_kn(pull.tension_n)}); you need {required:g} ×.",
        either(*heavier, *remedies.or_else(less)),
        value=ratio,
        limit=required,
        unit="1",
        inputs=tuple(inputs),
        state=pull.state,
        signal=Signal.DANGER if ratio < case.limit(LEAST) else None,
        remedies=remedies,
    )


def _too_heavy(case: Case, end: End) -> Iterator[Fault]:
    mass, most = end.structure.mass, case.limit(HEAVIEST)
    if mass is not None and mass.si > most:
        yield Fault(
            end.on_structure("mass"),
            f"The boulder '{end.name}' is entered at {mass.text}; above {most / 1e3:g} t it is no boulder.",
            "Measure it: length, width and height in metres, times 2.5 t, times the share that is really rock.",
            value=mass.si / 1e3,
            limit=most / 1e3,
            unit="t",
            signal=Signal.CAUTION,
            source=HEAVIEST.source,
        )
