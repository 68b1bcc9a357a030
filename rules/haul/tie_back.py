"""A tie-back catches the webbing side when the haul lets go."""

from collections.abc import Iterable, Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Limit,
    Placed,
    Signal,
    Source,
    faulty,
    need,
    need_all,
    one_value,
    open_,
    rule,
    sound,
    the_haul_that_stays,
)

SLACK = Limit(
    name="most_slack",
    text="0.3 m",
    dimension="length",
    tighter="lower",
    because=(
        "The line gathers speed over the slack; at 0.3 m a stiff tie-back already catches several times T."
    ),
    source=Source("common practice, no source; T + √(T² + 2·k·T·s) shows how the catch grows", "practice"),
)


@rule(
    title="No tie-back across the haul",
    each=the_haul_that_stays,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.DANGER},
    why=(
        "When a block, the rope or the brake goes, the line whips off with blocks on its end unless "
        "something holds it."
    ),
    formula=(
        "a tie-back from the webbing side of the haul to the haul's anchor, its slack no more than the limit"
    ),
    limits=(SLACK,),
    prevents=("pulley_alone_holds", "tie_back_weak_or_slack"),
    examples=(
        sound("low"),
        sound("long_haul"),
        faulty(
            "low",
            {"chain[8].tie_back": REMOVE},
            at="chain[8].tie_back",
            signal=Signal.CAUTION,
            shows="pulley_alone_holds",
        ),
        faulty("low", {"chain[8].tie_back": None}, at="chain[8].tie_back", signal=Signal.CAUTION),
        faulty("long_haul", {"chain[8].tie_back": REMOVE}, at="chain[8].tie_back", signal=Signal.WARNING),
        faulty("long_haul", {"chain[8].tie_back": REMOVE, "plan.consequence": "life"}, signal=Signal.DANGER),
        sound("long_haul", {"chain[8].tie_back.slack": "0.29 m"}),
        faulty(
            "long_haul",
            {"chain[8].tie_back.slack": "0.31 m"},
            at="chain[8].tie_back.slack",
            shows="tie_back_weak_or_slack",
        ),
        sound("long_haul", {"chain[8].tie_back.from": "chain[6]"}),
        sound("long_haul", {"chain[8].tie_back.from": "SH-2"}),
        sound("long_haul", {"chain[7].id": "west shackle", "chain[8].tie_back.from": "west shackle"}),
        faulty("long_haul", {"chain[8].tie_back.from": "SH-3"}, at="chain[8].tie_back.from"),
        faulty("long_haul", {"chain[8].tie_back.from": "chain[70]"}, at="chain[8].tie_back.from"),
        faulty("long_haul", {"chain[8].tie_back.from": "chain[9]"}, at="chain[8].tie_back.from"),
        faulty("long_haul", {"chain[8].tie_back.from": "chain[3]"}, at="chain[8].tie_back.from"),
        faulty("long_haul", {"chain[8].tie_back.to": "north"}, at="chain[8].tie_back.to"),
        faulty("long_haul", {"chain[8].tie_back.to": "nowhere"}, at="chain[8].tie_back.to"),
        open_("long_haul", {"chain[8].tie_back.slack": REMOVE}, at="chain[8].tie_back.slack"),
        open_("long_haul", {"chain[8].tie_back.from": REMOVE}, at="chain[8].tie_back.from"),
        open_("long_haul", {"chain[8].tie_back.to": REMOVE}, at="chain[8].tie_back.to"),
        open_("long_haul", {"spot": REMOVE}, at="spot"),
    ),
)
def tie_back(case: Case, placed: Placed) -> Iterator[Fault]:
    tie = placed.part.tie_back
    at = case.on_part(placed, "tie_back")
    if tie is None:
        yield Fault(
            at,
            "Nothing catches the line when a part of the haul goes: there is no tie-back.",
            f"Tie {_before(case, placed)} back to a sling of its own at the haul's anchor, with "
            "little slack.",
        )
        return
    if tie.slack is not None and tie.slack.si > case.limit(SLACK):
        slack = case.on_part(placed, "tie_back", "slack")
        ways = case.put_right(
            slack, one_value(slack.key, "take the tie-back in to {} of slack", "down", "m", 0.05)
        )
        yield Fault(
            slack,
            f"The line runs {tie.slack.text} before the tie-back catches it; {case.limit(SLACK):g} "
            "m is the most.",
            f"Take the tie-back in to {case.limit(SLACK):g} m of slack or less once the tension stands.",
            value=tie.slack.si,
            limit=case.limit(SLACK),
            unit="m",
            inputs=(case.given("slack", "s", tie.slack, slack),),
            remedies=ways,
        )
    yield from _wrong_ends(case, placed)
    need_all(
        *(
            (getattr(tie, key), case.on_part(placed, "tie_back", key.strip("_")))
            for key in ("slack", "from_", "to")
        )
    )


def _before(case: Case, placed: Placed) -> str:
    """Return the part next to the haul on its webbing side, in words."""
    n = case.path.parts.index(placed)
    beside = case.path.parts[n + 1 if case.path.side(placed) == "a" else n - 1]
    return f"{beside.words} ({beside.id})"


def _names(case: Case, parts: Iterable[Placed]) -> set[str]:
    """Return what parts may be called: by id, by place, by shelf name."""
    return {name for one in parts for name in (one.id, case.on_part(one).key_text, one.part.gear) if name}


def _wrong_ends(case: Case, placed: Placed) -> Iterator[Fault]:
    tie, path = placed.part.tie_back, case.path
    n, first = path.parts.index(placed), path.side(placed) == "a"
    webbing_side = path.parts[n + 1 :] if first else path.parts[:n]
    near = [one for one in webbing_side if path.side(one) == path.side(placed) or one.part.part == "webbing"]
    if tie is not None and tie.from_ is not None and tie.from_ not in _names(case, near):
        lies = "does not lie between the haul and its end of the webbing"
        # What lies inside a spread of legs or the haul is a part, too.
        known = tie.from_.split(".")[0] in _names(case, path.parts) or tie.from_ in case.items
        yield Fault(
            case.on_part(placed, "tie_back", "from"),
            f"The tie-back holds {tie.from_}, which {lies if known else 'is no part of this chain'}.",
            f"Tie it to {_before(case, placed)}, so that it bypasses the whole haul.",
            value=tie.from_,
        )
    home, far = path.anchors if first else reversed(path.anchors)
    anchors = need(case.spot, case.at("spot")).anchors
    points = (anchors[home.part.at].points or {}) if home.part.at in anchors else {}
    if (
        tie is not None
        and tie.to is not None
        and (tie.to == far.part.at or tie.to not in {*anchors, *points})
    ):
        yield Fault(
            case.on_part(placed, "tie_back", "to"),
            f"The tie-back goes to '{tie.to}', which is no anchor at the haul's end.",
            f"Take it to '{home.part.at}', or to another anchor behind the haul that the spot names.",
            value=tie.to,
            limit=home.part.at,
        )
