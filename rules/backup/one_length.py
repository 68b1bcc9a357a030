"""The file gives a backup one length, or several that agree: `cut`, the cut or length of its webbing, and `extra`."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    At,
    BackupLine,
    Case,
    Fault,
    Input,
    Limit,
    Quantity,
    Signal,
    each_backup,
    faulty,
    open_,
    rounded,
    rule,
    sound,
)

MOST = Limit(
    name="most_apart",
    text="0.5 %",
    dimension="strain_or_ratio",
    tighter="lower",
    because=(
        "A tape measure and a rounded figure differ by less. Half a per cent is half a "
        "planning step of `extra`."
    ),
    source=PRACTICE,
)
ENTRY, WEBBING, EXTRA = "backups[0].cut", "backups[0].chain[4].cut", "backups[0].extra"


@rule(
    title="Two different lengths for one backup",
    each=each_backup,
    signal=Signal.WARNING,
    why=(
        "Fall, catch and room above the ground depend on one length of the backup. The other may "
        "be the true one."
    ),
    formula="longest ÷ shortest of its lengths on file, unstressed between its end fittings − 1 ≤ most apart",
    limits=(MOST,),
    prevents=("backup_too_long", "backup_too_short"),
    examples=(
        sound("low"),
        sound("highline"),
        sound("highline", {EXTRA: REMOVE, WEBBING: "200 m"}),
        # 4 % are 51.79 m between its end fittings and 4 m of tails and webbing anchors.
        sound("highline", {WEBBING: "56.04 m"}),
        faulty("highline", {WEBBING: "56.06 m"}, at=EXTRA, signal=Signal.WARNING, shows="backup_too_long"),
        faulty("highline", {ENTRY: "55.5 m"}, at=EXTRA, shows="backup_too_short"),
        sound("highline", {EXTRA: REMOVE, ENTRY: "55.7 m", WEBBING: "55.9 m"}),
        faulty("highline", {EXTRA: REMOVE, ENTRY: "55.7 m", WEBBING: "200 m"}, at=WEBBING),
        faulty("highline", {"backups[0].chain[4].length": "60 m"}, at=EXTRA),
        open_("highline", {WEBBING: "55.9 m", "spot.span": REMOVE}, at="spot.span"),
    ),
)
def one_length(case: Case, backup: BackupLine) -> Iterator[Fault]:
    if not backup.lengths:
        return
    first, *others = ((at, given, backup.unstressed_by_m(at, given)) for at, given in backup.lengths)
    for at, given, by_m in others:
        longest, shortest = max(by_m, first[2]), min(by_m, first[2])
        if longest - shortest <= case.limit(MOST) * shortest:
            continue
        # Rounded away from each other, so that two lengths that differ never print alike.
        other, own = (
            (rounded(by_m, "down"), rounded(first[2], "up"))
            if by_m < first[2]
            else (rounded(by_m, "up"), rounded(first[2], "down"))
        )
        yield Fault(
            at,
            f"{_said(at, given)} makes {backup.id} {other} m long between its end fittings. "
            f"{_said(*first[:2])} makes it {own} m, and we calculate with that.",
            "Measure it, and keep only the true length in the file.",
            value=by_m,
            limit=first[2],
            unit="m",
            inputs=(
                case.given("length that is computed with", "ℓ₁", first[1], first[0]),
                case.given("other length", "ℓ₂", given, at),
                Input("between its end fittings, by the first", "L", first[2], "m"),
            ),
        )


def _said(at: At, given: Quantity) -> str:
    return f"{at.key_text} of {given.text}"
