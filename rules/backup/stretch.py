"""The main line can give under a walker without pulling the backup taut.

A backup taped along a soft main line must follow it down: the main grows with its tension, the backup has
only its extra length to spend.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    BackupLine,
    Case,
    Fault,
    Input,
    Signal,
    backup_length,
    each_backup,
    either,
    faulty,
    open_,
    rounded,
    rule,
    sound,
)

STRETCH = "shelf[0].items.W-1.stretch"
# Soft polyamide at low tension: a walker lengthens it by 1.26 %, the baseline's polyester by 0.515 %.
SOFT = {STRETCH: {"10 kN": "18 %"}, "plan.standing_tension": "2 kN"}


@rule(
    title="The backup goes tight while somebody walks",
    each=each_backup,
    signal=Signal.CAUTION,
    raised={"life": Signal.WARNING},
    why="A backup that carries load with the main line wears and ages with it.",
    formula="extra of the backup > (length of the main webbing under the walker ÷ its standing length) − 1",
    sources=(PRACTICE,),
    prevents=("backup_stretches_otherwise", "backup_too_short"),
    examples=(
        sound("low"),
        sound("highline"),
        sound("highline", {"backups[0].extra": "0.54 %"}),
        faulty(
            "highline",
            {"backups[0].extra": "0.53 %"},
            at="backups[0].extra",
            signal=Signal.WARNING,
            shows="backup_too_short",
        ),
        sound("highline", SOFT),
        faulty(
            "highline",
            {**SOFT, "backups[0].extra": "1.2 %"},
            at="backups[0].extra",
            shows="backup_stretches_otherwise",
        ),
        open_("highline", {"backups[0].extra": REMOVE}, at="backups[0].extra"),
        open_("highline", {STRETCH: REMOVE}, at=STRETCH),
        open_("highline", {"plan.standing_tension": REMOVE}, at="plan.standing_tension"),
        open_("highline", {"plan.users[0].mass": REMOVE}, at="plan.users[0].mass"),
    ),
)
def stretch(case: Case, backup: BackupLine) -> Iterator[Fault]:
    extra = backup.extra
    state = max(case.loads.cleared("line"), key=case.loads.growth)
    growth = case.loads.growth(state)
    if extra > growth:
        return
    at = backup.length_at
    remedies = case.put_right(at, backup_length(backup, "up"))
    yield Fault(
        at,
        f"{state.kind.plain.capitalize()} the main line grows by {rounded(growth * 100, 'up')} %. "
        f"{backup.id} has only {rounded(max(extra, 0.0) * 100, 'down')} % to spare, so it goes "
        "tight.",
        either(
            *remedies,
            f"better leave it at least {rounded(growth * 100 + 1.0, 'up')} % longer than its span",
        ),
        value=extra * 100.0,
        limit=growth * 100.0,
        unit="%",
        inputs=(
            Input("standing tension", "T0", case.loads.standing.tension_n / 1e3, "kN"),
            Input("tension then", "T", state.tension_n / 1e3, "kN"),
        ),
        state=state.name,
        remedies=remedies,
    )
