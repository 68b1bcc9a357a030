"""A partner checks the leash before each walk."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Leash,
    Signal,
    faulty,
    open_,
    review,
    rule,
    sound,
    the_leash,
    tick,
)

CHECKED = [{"what": "partner_check", "by": "partner", "date": "2026-05-01", "after_tension": "3 kN"}]
STALE = [{"what": "partner_check", "by": "partner", "date": "2026-05-01", "after_tension": "2 kN"}]


@rule(
    title="Nobody checks the leash before each walk",
    each=the_leash,
    signal=Signal.DANGER,
    why="A half-tied knot or an open buckle looks right to whoever tied it; a second pair of eyes sees it.",
    formula="partner_check is true, on site confirmed by a check",
    sources=(PRACTICE,),
    prevents=("leash_knot_not_checked",),
    examples=(
        sound("highline"),
        sound("highline", {"stage": "built", "checks": CHECKED}),
        faulty("highline", {"leash.partner_check": False}, at="leash.partner_check", signal=Signal.DANGER),
        review("highline", {"leash.partner_check": REMOVE}, at="leash.partner_check", signal=Signal.NOTICE),
        open_("highline", {"leash.partner_check": REMOVE, "stage": "built"}, at="leash.partner_check"),
        open_("highline", {"stage": "built"}, at="checks"),
        open_("highline", {"stage": "built", "checks": STALE}, at="checks"),
    ),
)
def partner_check(case: Case, leash: Leash) -> Iterator[Fault]:
    do = "Have a partner check both knots, the rings on both lines and every harness buckle before each walk."
    at = case.at("leash", "partner_check", part="leash")
    yield from tick(case, leash.partner_check, at, "No partner checks the leash before each walk", do)
