"""A line that people hang on has a second line that holds when the first one goes.

The tail of the main webbing counts as one only on a short line at low tension. Low lines and long lines that
nobody is tied to need none.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    Signal,
    Source,
    faulty,
    in_kn,
    insert_before,
    need,
    open_,
    rounded,
    rule,
    sound,
    the_rig,
)

TESTS = Source(
    "federation notice on safe slackline backups, 2020, after 58 backup tests",
    "published",
    ("isa_backups_2020",),
)
SPAN = Limit(
    name="span_on_tail",
    text="50 m",
    dimension="length",
    tighter="lower",
    because="In the federation's tests, longer webbing stored more energy than its own tail could hold.",
    source=TESTS,
)
TENSION = Limit(
    name="tension_on_tail",
    text="5 kN",
    dimension="force",
    tighter="lower",
    because="In the federation's tests, tighter webbing stored more energy than its own tail could hold.",
    source=TESTS,
)
ON_TAIL = {"backups": [{"kind": "tail", "holds": "main"}]}
SHORT = {**ON_TAIL, "spot.span": "49.9 m"}


@rule(
    title="Nothing catches the walker when the main line fails",
    each=the_rig,
    signal=Signal.DANGER,
    why="One cut, slip or broken ring in the main line drops everyone on it to the ground.",
    formula="a line or rope of its own from anchor to anchor; the main's tail only for L < 50 m and T < 5 kN",
    limits=(SPAN, TENSION),
    prevents=("low_line_kit_up_high",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("highline", {"backups[0].holds": REMOVE}),
        sound("highline", SHORT),
        sound("highline", {**SHORT, "plan.standing_tension": "4.99 kN"}),
        sound(
            "low", {"shelf[0].items.LE-1": {"kind": "leash"}, "leash": {"gear": "LE-1"}}
        ),  # the leash is wrong
        faulty("highline", {"backups": []}, at="backups", signal=Signal.DANGER),
        faulty("highline", {"backups[0].holds": "chain[3]"}, at="backups", signal=Signal.DANGER),
        faulty("highline", {"backups[0].kind": "spare"}, at="backups[0].kind", signal=Signal.DANGER),
        faulty("highline", {**ON_TAIL, "spot.span": "50.1 m"}, at="backups[0].kind", signal=Signal.DANGER),
        faulty("highline", {**SHORT, "plan.standing_tension": "5.01 kN"}, at="backups[0].kind"),
        faulty("highline", {"use": "longline", "backups": []}, at="backups", signal=Signal.DANGER),
        open_("highline", {"backups": REMOVE}, at="backups"),
        open_("highline", {"backups[0].kind": REMOVE}, at="backups[0].kind"),
        open_("highline", {**ON_TAIL, "spot.span": REMOVE}, at="spot.span"),
        open_("highline", {**SHORT, "plan.standing_tension": REMOVE}, at="plan.standing_tension"),
        open_("highline", {"use": REMOVE, "leash": REMOVE}, at="use"),
        faulty(
            "highline",
            {
                "backups[0].holds": "chain[3]",
                "backups[0]": insert_before({"kind": "rope", "holds": "chain[3]"}),
            },
            at="backups",
        ),
    ),
)
def presence(case: Case, _rig: None) -> Iterator[Fault]:
    if not case.highline:
        return
    entries = need(case.rig.backups, case.at("backups"))
    kinds = [need(one.kind, case.at("backups", n, "kind")) for n, one in enumerate(entries)]
    for n, kind in enumerate(kinds):
        if kind not in {"line", "rope", "tail"}:
            yield Fault(
                case.at("backups", n, "kind", part=f"backups[{n}]"),
                f"backups[{n}] is called '{kind}'. We can't judge that kind of backup.",
                "Call it `line` (webbing), `rope`, or `tail` (the main webbing's own), as it is rigged.",
                signal=Signal.DANGER,
            )
    if any(one.backs_main for one in case.loads.backups):
        return
    if "tail" in kinds:
        yield from _on_its_tail(case, kinds.index("tail"))
    elif set(kinds) <= {"line", "rope"}:
        yield Fault(
            case.at("backups"),
            "People hang on this line. The file names nothing that catches them when the main line fails.",
            "Rig a second line on points of its own, webbing of at least 22 kN or rope of at "
            "least 20 kN, and enter it.",
            signal=Signal.DANGER,
        )


def _on_its_tail(case: Case, n: int) -> Iterator[Fault]:
    """Judge the main webbing's own tail as the only backup."""
    at = case.at("backups", n, "kind", part=f"backups[{n}]")
    span, tension = case.loads.geometry.span_m, case.loads.standing_tension_n
    long, tight = span >= case.limit(SPAN), tension >= case.limit(TENSION)
    if not long and not tight:
        return
    value, limit, unit = (
        (span, case.limit(SPAN), "m") if long else (tension / 1e3, case.limit(TENSION) / 1e3, "kN")
    )
    yield Fault(
        at,
        f"Only the main webbing's own tail backs up {rounded(span)} m at {in_kn(tension)}. Trust "
        f"a tail only below {rounded(case.limit(SPAN))} m and below {in_kn(case.limit(TENSION))}.",
        "Rig a second line on points of its own, 2 % to 5 % longer than its span.",
        value=value,
        limit=limit,
        unit=unit,
        inputs=(Input("span", "L", span, "m"), Input("standing tension", "T0", tension / 1e3, "kN")),
    )
