"""Nobody leaves a line alone that strangers, or those who trust it tomorrow, can come to.

A line that comes down the same day is taken as attended where the file says nothing.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    MissingInput,
    Signal,
    Source,
    faulty,
    need,
    open_,
    review,
    rule,
    sound,
    the_rig,
)

ALONE = "plan.unattended"


@rule(
    title="The line is left alone",
    each=the_rig,
    signal=Signal.WARNING,
    why=(
        "Other people walk, cut, loosen or tighten a line that is left alone. The next walker doesn't know."
    ),
    formula="not left alone where strangers can come near, nor on a highline",
    sources=(
        Source(
            "UK code and the rules of four US cities: not without the owner's leave and protection",
            "published",
            ("uk_code",),
        ),
    ),
    prevents=("line_left_alone",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {ALONE: REMOVE}),
        review("low", {ALONE: True}, at=ALONE, signal=Signal.CAUTION),
        review("long_haul", {ALONE: True, "plan.public": False}, at=ALONE, signal=Signal.CAUTION),
        faulty("low", {ALONE: True, "plan.public": True}, at=ALONE, signal=Signal.WARNING),
        faulty("long_haul", {ALONE: True}, at=ALONE, signal=Signal.WARNING),
        faulty("highline", {ALONE: True}, at=ALONE, signal=Signal.WARNING),
        open_("low", {ALONE: True, "plan.public": REMOVE}, at="plan.public"),
        open_("low", {ALONE: REMOVE, "plan.days_up": 2}, at=ALONE),
        open_("highline", {ALONE: REMOVE}, at=ALONE),
        open_("low", {ALONE: REMOVE, "plan.days_up": REMOVE}, at="plan.days_up"),
        open_("low", {"plan": REMOVE}, at="plan.days_up"),
        open_("long_haul", {ALONE: True, "use": REMOVE, "plan.public": False}, at="use"),
    ),
)
def unattended(case: Case, _rig: None) -> Iterator[Fault]:
    plan, at = case.plan, case.at("plan", "unattended")
    alone, public = (plan.unattended, plan.public) if plan else (None, None)
    if alone is None and need(plan.days_up if plan else None, case.at("plan", "days_up")) > 1:
        raise MissingInput(at)
    if not alone:
        return
    if not case.highline and not need(public, case.at("plan", "public")):
        yield Fault(
            at,
            "This line is left alone at times, where no strangers are expected.",
            "Let off the tension when everybody leaves, and check every part before the next walk.",
            kind="review",
            signal=Signal.CAUTION,
        )
        return
    where = "This highline" if case.highline else "This line, which the public can reach,"
    yield Fault(
        at,
        f"{where} is left alone at times.",
        "Take it down, or leave 1 person with it. If it must stand alone, let the tension off, "
        "close both ends and put up a sign. Check every part before the next walk.",
        value="left alone",
        limit="1 person stays",
    )
