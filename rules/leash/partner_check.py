"""A partner checks the leash before each walk."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Leash,
    OnCard,
    Signal,
    faulty,
    open_,
    review,
    rule,
    sound,
    the_leash,
    tick,
)

CHECKED: dict[str, str | None] = {
    "what": "partner_check",
    "by": "partner",
    "date": "2026-05-01",
    "after_tension": "3 kN",
}


def _built(**check: str | None) -> dict[str, object]:
    """Say that the line stands, with one check of the leash."""
    return {"stage": "built", "checks": [CHECKED | check]}


FIRST_DAY = "plan.first_day"


@rule(
    title="Nobody checks the leash before each walk",
    each=the_leash,
    signal=Signal.DANGER,
    why="A half-tied knot or an open buckle looks right to the person who tied it. A second person sees it.",
    formula="partner_check is true, on site confirmed by a check at this tension, not dated after today",
    sources=(PRACTICE,),
    prevents=("leash_knot_not_checked",),
    on_card=OnCard(second_person=True),
    examples=(
        sound("highline"),
        sound("highline", _built()),
        faulty("highline", {"leash.partner_check": False}, at="leash.partner_check", signal=Signal.DANGER),
        review("highline", {"leash.partner_check": REMOVE}, at="leash.partner_check", signal=Signal.NOTICE),
        open_("highline", {"leash.partner_check": REMOVE, "stage": "built"}, at="leash.partner_check"),
        open_("highline", {"stage": "built"}, at="checks"),
        open_("highline", _built(after_tension="2 kN"), at="checks"),
        sound("highline", _built(date="2026-05-02")),
        open_("highline", _built(date="2026-05-03"), at="checks[0].date"),
        # Built on the evening before its first day, or the one before that; not a year ago.
        sound("highline", _built(date="2026-04-30") | {FIRST_DAY: "2026-05-02"}),
        open_("highline", _built(date="2026-04-29") | {FIRST_DAY: "2026-05-02"}, at="checks[0].date"),
        open_("highline", _built(date="2025-05-02") | {FIRST_DAY: "2026-05-02"}, at="checks[0].date"),
        # A first day that is still to come takes nothing from what was looked over today.
        sound("highline", _built(date="2026-05-02") | {FIRST_DAY: "2026-05-30"}),
        open_("highline", _built(date=None), at="checks[0].date"),
        open_("highline", _built(after_tension=None), at="checks[0].after_tension"),
        sound("highline", {"stage": "built", "checks": [CHECKED | {"date": "2026-05-03"}, CHECKED]}),
    ),
)
def partner_check(case: Case, leash: Leash) -> Iterator[Fault]:
    do = "Have a partner check both knots, the rings on both lines and every harness buckle before each walk."
    at = case.at("leash", "partner_check", part="leash")
    yield from tick(case, leash.partner_check, at, "No partner checks the leash before each walk", do)
