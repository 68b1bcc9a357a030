"""Help can be called and finds the place.

Asked for on a highline; a phone without signal is told of everywhere.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    OnCard,
    Signal,
    faulty,
    open_,
    review,
    rule,
    sound,
    the_rig,
)

ACCESS = "spot.access"


@rule(
    title="You can't call help, or help doesn't find the place",
    each=the_rig,
    signal=Signal.CAUTION,
    why="After a bad fall, or with a walker hanging, helpers lose most of the time on the way.",
    formula="a meeting point on file, and a phone with signal",
    sources=(PRACTICE,),
    prevents=("help_cannot_come",),
    on_card=OnCard(advice=True),
    examples=(
        sound("low"),
        sound("highline"),
        faulty("low", {ACCESS: {"signal": False}}, at=f"{ACCESS}.signal", signal=Signal.CAUTION),
        faulty("highline", {f"{ACCESS}.signal": False}, at=f"{ACCESS}.signal", signal=Signal.CAUTION),
        review("highline", {ACCESS: REMOVE}, at=f"{ACCESS}.meeting_point"),
        review("highline", {f"{ACCESS}.meeting_point": REMOVE}, at=f"{ACCESS}.meeting_point"),
        open_("long_haul", {"use": REMOVE}, at="use"),
        review("highline", {f"{ACCESS}.signal": REMOVE}, at=f"{ACCESS}.signal"),
    ),
)
def access(case: Case, _rig: None) -> Iterator[Fault]:
    if case.spot is None:
        return
    way = case.spot.access
    if way is not None and way.signal is False:
        yield Fault(
            case.on_spot("access", "signal"),
            "A phone has no signal at this spot.",
            "Find the nearest place with signal, tell everyone, and name 1 person who would go there.",
            value="no signal",
            limit="signal",
        )
    if not case.highline:
        return
    missing = {
        "meeting_point": "Write down where helpers come to, as you would say it on the phone.",
        "signal": "Check at the spot whether a phone has signal, and enter it.",
    }
    for key, do in missing.items():
        if way is None or getattr(way, key) is None:
            yield Fault(
                case.on_spot("access", key),
                "The spot doesn't say "
                f"{'where helpers come to' if key == 'meeting_point' else 'if a phone works'}.",
                do,
                kind="review",
                signal=Signal.NOTICE,
            )
