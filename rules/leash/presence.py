"""Whoever is on a highline wears a leash; nobody does on a low line or above water."""

from collections.abc import Iterator

from riglint.rulekit import (
    NO_LEASH,
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Signal,
    faulty,
    open_,
    rule,
    sound,
    the_rig,
)

WORN = {"shelf[0].items.LE-1": {"kind": "leash"}, "leash": {"gear": "LE-1", "hang": "2.2 m"}}
TRAPS = {
    "waterline": "if a walker falls in, it can hold them by the neck or a limb under the line",
    "lowline": "it reaches the ground before it catches, and trips anyone who steps off",
}


@rule(
    title="A leash is missing, or worn where it traps",
    each=the_rig,
    signal=Signal.DANGER,
    why="Without a leash a fall from a highline ends on the ground. Over water a leash holds the walker under.",
    formula="highline, or fall_on_leash among the moves: a leash; waterline, lowline: none",
    sources=(PRACTICE,),
    prevents=("low_line_kit_up_high", "water_shallow_or_trapping"),
    tells=(NO_LEASH,),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {"use": "waterline"}),
        sound("highline", {"use": "midline"}),
        faulty("highline", {"leash": REMOVE}, at="leash", signal=Signal.DANGER),
        faulty(
            "highline",
            {"leash": REMOVE, "plan.moves": ["walk"]},
            at="leash",
            signal=Signal.DANGER,
            shows="low_line_kit_up_high",
        ),
        faulty("low", {"plan.moves": ["walk", "fall_on_leash"]}, at="leash", signal=Signal.DANGER),
        faulty(
            "low",
            {**WORN, "use": "waterline"},
            at="leash",
            signal=Signal.DANGER,
            shows="water_shallow_or_trapping",
        ),
        faulty("low", WORN, at="leash", signal=Signal.DANGER),
        open_("highline", {"leash": REMOVE, "use": REMOVE, "plan.moves": ["walk"]}, at="use"),
    ),
)
def presence(case: Case, _rig: None) -> Iterator[Fault]:
    at, moves = case.at("leash", part="leash"), case.plan.moves if case.plan else []
    trap = TRAPS.get(case.rig.use or "")
    if case.rig.leash is not None:
        if trap is not None:
            yield Fault(
                at,
                f"The walker wears a leash on a {case.rig.use}: {trap}.",
                "Say what else the line is used for. Keep the leash on until the line hangs lower."
                if case.feet_too_high
                else "Take the leash off and out of the file, or say what else the line is used for.",
            )
    elif "fall_on_leash" in moves:
        yield Fault(
            at,
            "The plan has falls on the leash, but the file names no leash.",
            "Enter the leash with its rings, knots and hang (at least 2 m)"
            + (
                ". Nobody walks without one."
                if case.feet_too_high or case.highline
                else ", or plan no such falls."
            ),
        )
    elif case.highline:
        yield Fault(
            at,
            "This is a highline and nobody wears a leash.",
            "Tie every walker in with a doubled leash that hangs at least 2 m, on forged rings of 22 kN.",
        )
