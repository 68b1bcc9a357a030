"""Every pin and gate is closed and checked; a screw pin that stays up overnight is tied as well.

On paper it speaks once for the whole rig, so that one line on the card stands for all of them.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    FIBRES,
    PRACTICE,
    REMOVE,
    At,
    Case,
    Fault,
    Limit,
    MissingInput,
    OnCard,
    Placed,
    Signal,
    Source,
    faulty,
    need,
    need_all,
    open_,
    review,
    rule,
    sound,
    the_rig,
    tick,
    unanswered,
)

PINNED = {"shackle", "connector", "quick_link", "webbing_anchor", "webbing_join"}
MOST_DAYS = Limit(
    name="most_days",
    text="1",
    dimension=None,
    tighter="lower",
    because="One night of wind can turn a screw pin out.",
    source=Source(
        "WAC 296-155-33905 (2): a screw pin is secured from turning in long-term use",
        "standard",
        ("wac_296_155_33905",),
    ),
)
SHACKLES = [f"shelf[0].items.SH-{n}.pin" for n in (1, 2, 3)]
CLOSED = {f"chain[{n}].pins": True for n in (3, 4, 7, 9)}
BUILT = {"stage": "built", "checks": [{"what": "pins", "date": "2026-05-02", "after_tension": "3 kN"}]}


@rule(
    title="A pin or gate is open, or can turn open",
    each=the_rig,
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    why="A pin that works loose drops the whole line. An open gate holds a third of its load.",
    formula="pins = true at each shackle, link and webbing anchor; a screw pin up more than 1 day is moused",
    limits=(MOST_DAYS,),
    sources=(Source("rigging checklist: every screw gate, pin and nut closed", "unnamed"), PRACTICE),
    prevents=("pin_works_loose", "anchor_pin_open"),
    on_card=OnCard(phase="connect", second_person=True, advice=True),
    examples=(
        sound("highline"),
        review("low", {"chain[4].pins": True}, at="chain[3].pins", signal=Signal.NOTICE),
        sound("low", CLOSED | BUILT),
        faulty("low", {"chain[3].pins": False}, at="chain[3].pins", signal=Signal.WARNING),
        faulty("low", {"chain[4].pins": False}, at="chain[4].pins", shows="anchor_pin_open"),
        faulty("highline", {"chain[3].pins": False}, at="chain[3].pins", signal=Signal.DANGER),
        faulty("highline", {"backups[0].chain[2].pins": False}, at="backups[0].chain[2].pins"),
        sound("low", dict.fromkeys(SHACKLES, "screw_moused") | {"plan.days_up": 2}),
        sound("low", dict.fromkeys(SHACKLES, "bolt_nut_cotter") | {"plan.days_up": 30}),
        faulty("low", {"plan.days_up": 2}, at="plan.days_up", signal=Signal.CAUTION, shows="pin_works_loose"),
        open_("low", {"plan.days_up": REMOVE}, at="plan.days_up"),
        open_("low", {"plan.days_up": 2, SHACKLES[0]: REMOVE} | dict.fromkeys(SHACKLES[1:], "screw_moused")),
        open_("low", BUILT | {f"chain[{n}].pins": True for n in (4, 7, 9)}, at="chain[3].pins"),
        # One cause, one question, however many pins there are.
        open_("low", BUILT, at="chain[3].pins"),
        open_("highline", {"stage": "walking"}, at="chain[1].legs[0].chain[0].pins", signal=Signal.DANGER),
        open_("low", CLOSED | {"stage": "built"}, at="checks"),
    ),
)
def pins(case: Case, _rig: None) -> Iterator[Fault]:
    every = {one.key: one for run in case.loads.runs for one in run if one.part.part in PINNED and one.item}
    missing: list[At] = []
    for judged in (_ticks, _left_up):
        try:
            yield from judged(case, list(every.values()))
        except MissingInput as untold:
            missing += untold.fields
    if missing:
        raise MissingInput(*missing)


def _ticks(case: Case, pinned: list[Placed]) -> Iterator[Fault]:
    untold = [one for one in pinned if one.part.pins is None]
    if untold and case.before_use():
        names = [one.part.gear or one.id for one in untold] + (
            ["those of the pulley system"] if case.path.haul else []
        )
        yield Fault(
            case.on_part(untold[0], "pins"),
            f"Close every pin and gate and have a second person check: {', '.join(names)}.",
            f"Write `pins: true` at {', '.join(one.id for one in untold)} once someone has checked them.",
            kind="review",
            signal=Signal.NOTICE,
        )
    missing: list[At] = [] if case.before_use() or not untold else [_all_of(case, untold)]
    for one in pinned:
        if one.part.pins is None:
            continue
        what = f"The pin or gate of {one.words} is not closed and checked"
        at = case.on_part(one, "pins")
        try:
            yield from tick(case, one.part.pins, at, what, f"Close and check {one.words}.")
        except MissingInput as due_there:
            missing += due_there.fields
    if missing:
        raise MissingInput(*missing)


def _all_of(case: Case, untold: list[Placed]) -> At:
    """Return the pins that nobody has looked at as one question, whose place is the first of them."""
    first = case.on_part(untold[0], "pins")
    if len(untold) == 1:
        return first
    places = ", ".join(one.part.gear or one.id for one in untold)
    do = f"Look at each, and write `pins: true` at: {', '.join(one.id for one in untold)}."
    return unanswered(
        first, f"is not filled in, here and at {len(untold) - 1} more of {len(untold)}: {places}", do
    )


def _left_up(case: Case, pinned: list[Placed]) -> Iterator[Fault]:
    """Judge screw pins of a rig that stays up."""
    at = case.at("plan", "days_up")
    shackles = [one.item for one in pinned if one.item is not None and one.item.gear.kind == "shackle"]
    items = [item for item in shackles if item.gear.material not in FIBRES]  # a soft shackle has no pin
    if all(item.gear.pin in {"screw_moused", "bolt_nut_cotter"} for item in items):
        return
    days, most = need(case.plan.days_up if case.plan else None, at), case.limit(MOST_DAYS)
    if days <= most:
        return
    screws = ", ".join(item.id for item in items if item.gear.pin == "screw")
    if screws:
        yield Fault(
            at,
            f"The rig stays up for {days} days with screw pins that are not tied: {screws}.",
            f"Mouse the pins of {screws} with wire or a cable tie, or use bolt, nut and cotter pin.",
            value=days,
            limit=most,
            unit="days",
            signal=Signal.CAUTION,
        )
    need_all(*((item.gear.pin, case.on_item(item, "pin")) for item in items))
