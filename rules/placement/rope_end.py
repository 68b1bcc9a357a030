"""Every rope is made fast at its ends by something that holds: sewn, spliced, or a knot that neither slips nor rolls.

Ends of the leash are judged by `leash/build`, knots in the main webbing by `placement/termination`.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    HOLDING,
    KNOTS,
    REMOVE,
    UNKNOTTED,
    Case,
    Fault,
    MissingInput,
    RopeEnd,
    Signal,
    Source,
    each_rope_end,
    faulty,
    is_slick,
    need,
    open_,
    review,
    rule,
    sound,
    unanswered,
)

SLICK = Source("test digest of knots in UHMWPE tape: they slip or break low", "unnamed")
WEBBING = Source(
    "a federation's test story: knots in webbing keep roughly a quarter to a half; taboo",
    "published",
    ("austrian_ropes",),
)
TIE = "Tie a figure-eight or figure-nine there, dressed and set, with a tail of ten rope diameters"
BACKUP = "backups[0].chain"
ENDS = "chain[8].rope.dead_end.ends"
TIED = "chain[8].tie_back.ends"
ROPE = {
    "kind": "rope",
    "type": "low_stretch",
    "material": "polyester",
    "diameter": "11 mm",
    "mbs": "34 kN",
    "made": "2024-03",
    "inspected": "2026-04-02",
}

TAPE = {"shelf[0].items.TB-1": {"kind": "webbing", "material": "polyester", "width": "25 mm", "mbs": "30 kN"}}


def _backup(knot: str | None, **rope: str) -> dict[str, object]:
    """Back the highline up with a rope, knotted so at its first end."""
    end = {"part": "rope_knot", "tail": "0.2 m"}
    return {
        "shelf[0].items.RP-9": ROPE | rope,
        f"{BACKUP}[3]": end | ({"knot": knot} if knot else {}),
        f"{BACKUP}[4]": {"part": "rope", "gear": "RP-9"},
        f"{BACKUP}[5]": {"part": "rope_knot", "knot": "figure_nine", "tail": "0.2 m"},
    }


KNOTTED = {f"{BACKUP}[3]": {"part": "webbing_knot", "knot": "figure_eight", "tail": "0.2 m"}}


@rule(
    title="A rope end doesn't hold",
    each=each_rope_end,
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    worst=Signal.DANGER,
    why="A rope end takes load only in the catch. If it slips, rolls or was never tied, it lets go then.",
    formula="each end sewn, spliced, or tied with a knot that holds in that fibre",
    sources=(HOLDING, SLICK, WEBBING),
    prevents=("rope_end_lets_go", "knot_in_webbing"),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        *(sound("highline", _backup(knot)) for knot in ("figure_eight", "figure_nine", "barrel")),
        faulty(
            "highline",
            _backup("none"),
            at=f"{BACKUP}[3].knot",
            signal=Signal.DANGER,
            shows="rope_end_lets_go",
        ),
        *(
            faulty("highline", _backup(knot), at=f"{BACKUP}[3].knot", signal=Signal.DANGER)
            for knot in ("clove_hitch", "water_knot", "overhand")
        ),
        review("highline", _backup("bowline"), at=f"{BACKUP}[3].knot", signal=Signal.NOTICE),
        open_("highline", _backup("other"), at=f"{BACKUP}[3].knot"),
        open_("highline", _backup(None), at=f"{BACKUP}[3].knot"),
        # No knot holds in a slick fibre.
        faulty(
            "highline",
            _backup("figure_eight", material="uhmwpe"),
            at=f"{BACKUP}[3].knot",
            signal=Signal.DANGER,
        ),
        faulty("highline", _backup("figure_eight", type="hmpe"), at=f"{BACKUP}[5].knot"),
        faulty("highline", KNOTTED, at=f"{BACKUP}[3].knot", signal=Signal.DANGER, shows="knot_in_webbing"),
        faulty(
            "low",
            {"chain[4]": {"part": "webbing_knot", "knot": "none"}},
            at="chain[4].knot",
            signal=Signal.DANGER,
        ),
        # The rope of the pulley system.
        sound("low", {ENDS: "figure_eight"}),
        sound("low", {ENDS: "bowline"}),  # it is under load as long as the line stands
        faulty("low", {ENDS: "none"}, at=ENDS, signal=Signal.DANGER),
        faulty("low", {ENDS: "clove_hitch"}, at=ENDS, signal=Signal.WARNING),
        faulty("low", {ENDS: "overhand"}, at=ENDS, signal=Signal.WARNING),
        sound("low", {"shelf[0].items.RP-1.type": "hmpe"}),  # sewn
        faulty(
            "low", {"shelf[0].items.RP-1.type": "hmpe", ENDS: "figure_eight"}, at=ENDS, signal=Signal.WARNING
        ),
        open_("low", {ENDS: REMOVE}, at=ENDS),
        open_("low", {ENDS: "other"}, at=ENDS),
        # The tie-back.
        sound("low", {TIED: "figure_eight"}),
        faulty("low", {TIED: "none"}, at=TIED, signal=Signal.DANGER),
        faulty("low", {TIED: "clove_hitch"}, at=TIED, signal=Signal.WARNING),
        review("low", {TIED: "bowline"}, at=TIED, signal=Signal.NOTICE),
        review("low", at=TIED, signal=Signal.NOTICE),
        review("low", TAPE, at=TIED, signal=Signal.NOTICE),
        sound("low", TAPE | {TIED: "water_knot"}),
        faulty("low", TAPE | {TIED: "overhand"}, at=TIED, signal=Signal.WARNING),
        faulty("low", TAPE | {TIED: "none"}, at=TIED, signal=Signal.DANGER),
        open_("low", {"shelf[0].items.TB-1.type": "hmpe"}, at=TIED),  # a knot would slip in it
        sound("low", {"shelf[0].items.TB-1.type": "hmpe", TIED: "spliced"}),
        faulty("low", {"shelf[0].items.TB-1.type": "hmpe", TIED: "figure_eight"}, at=TIED),
    ),
)
def rope_end(_case: Case, end: RopeEnd) -> Iterator[Fault]:
    if end.made is None and not end.asked:
        yield _to_look_at(end)
        return
    made = need(end.made, end.at)
    holds = KNOTS[made].at_end
    if holds == "nothing":
        yield _nothing(end)
    elif end.webbing:
        yield _knotted_webbing(end, made)
    elif made not in UNKNOTTED and end.gear is not None and is_slick(end.gear):
        yield _knot_in_slick(end, made)
    else:
        yield from _tied(end, made)


def _nothing(end: RopeEnd) -> Fault:
    return Fault(
        end.at,
        f"Nothing is tied at {end.words}, so nothing holds it.",
        f"{TIE}.",
        value="none",
        limit="figure_eight",
        signal=Signal.DANGER,
        source=HOLDING,
    )


def _tied(end: RopeEnd, made: str) -> Iterator[Fault]:
    """Judge a knot by what it does in an ordinary rope.

    Raises:
        MissingInput: the file names no knot that is known.
    """
    holds = KNOTS[made].at_end
    if holds == "not known":
        do = (
            "Name the knot, or tie a figure-eight. If the knot is in no list, a competent person "
            "must judge it on site."
        )
        raise MissingInput(unanswered(end.at, "doesn't say which knot holds", do, end.words))
    if holds == "shakes loose":
        yield from _shakes_loose(end, made)
    # Knots for tape creep in round rope; in flat tape they are the right ones.
    elif holds != "holds" and not (holds == "creeps" and end.tape):
        yield _lets_go(end, made, holds)


def _lets_go(end: RopeEnd, made: str, holds: str) -> Fault:
    knot = made.replace("_", " ")
    how = {
        "slips": "it slips in rope",
        "creeps": "it is made for flat tape and creeps in rope",
        "rolls": "it can roll off the end",
    }[holds]
    return Fault(
        end.at,
        f"A {knot} holds {end.words}: {how}.",
        f"{TIE}, or use a sewn loop.",
        value=made,
        limit="figure_eight",
        source=HOLDING,
    )


def _knotted_webbing(end: RopeEnd, made: str) -> Fault:
    return Fault(
        end.at,
        f"The webbing is knotted ({made.replace('_', ' ')}) at {end.words}. It keeps a quarter to "
        "a half of its strength.",
        "Hold it in a webbing anchor, which keeps about 90 %, or by a sewn loop.",
        value=made,
        source=WEBBING,
    )


def _knot_in_slick(end: RopeEnd, made: str) -> Fault:
    return Fault(
        end.at,
        f"A {made.replace('_', ' ')} holds {end.words}, which is UHMWPE. Knots slip in it, or break it low.",
        "Use a rope with spliced or sewn loops, or a rope of polyester or polyamide.",
        value=made,
        limit="spliced",
        source=SLICK,
    )


def _shakes_loose(end: RopeEnd, made: str) -> Iterator[Fault]:
    if end.hangs_slack:
        yield Fault(
            end.at,
            f"A {made.replace('_', ' ')} holds {end.words}, which hangs slack. Without load it can shake loose.",
            "Lock its tail with a second knot, or tie a figure-eight.",
            value=made,
            kind="review",
            signal=Signal.NOTICE,
            source=HOLDING,
        )


def _to_look_at(end: RopeEnd) -> Fault:
    counted = "water knot" if end.tape else "figure-eight"
    return Fault(
        end.at,
        f"The file doesn't say how {end.words} is tied off. We assume a {counted} in both ends.",
        f"Look at both ends. Is each sewn, spliced, or a good {counted}? Enter which.",
        kind="review",
        signal=Signal.NOTICE,
        source=HOLDING,
    )
