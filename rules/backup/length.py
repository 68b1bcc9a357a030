"""The backup is a little longer than the distance it spans: enough to be idle, little enough to take soon."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    BackupLine,
    Case,
    Fault,
    Input,
    Limit,
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

MOST = Limit(
    name="most_extra",
    text="5 %",
    dimension="strain_or_ratio",
    tighter="lower",
    because="On a longer backup the walker falls metres further, and its loops chafe at the edge.",
    source=PRACTICE,
)
LEAST = Limit(
    name="least_extra",
    text="1 %",
    dimension="strain_or_ratio",
    tighter="higher",
    because="A shorter backup goes tight together with the main line, and the same load wears both.",
    source=PRACTICE,
)
WEBBING = "backups[0].chain[4].cut"
AIM = (0.02, 0.05)  # what riggers leave between tapes


@rule(
    title="The backup is too long or too short",
    each=each_backup,
    signal=Signal.WARNING,
    why="A long backup lets the walker fall far and catches hard. A short one wears out with the main line.",
    formula="1 % ≤ unstressed length ÷ distance between its ends − 1 ≤ 5 %",
    limits=(MOST, LEAST),
    prevents=("backup_too_long", "backup_too_short"),
    examples=(
        sound("low"),
        sound("highline"),
        sound("highline", {"backups[0].extra": "5 %"}),
        faulty(
            "highline",
            {"backups[0].extra": "5.1 %"},
            at="backups[0].extra",
            signal=Signal.WARNING,
            shows="backup_too_long",
        ),
        sound("highline", {"backups[0].extra": "1 %"}),
        faulty(
            "highline",
            {"backups[0].extra": "0.96 %"},
            at="backups[0].extra",
            signal=Signal.CAUTION,
            shows="backup_too_short",
        ),
        # Tails of 1.5 m and 0.5 m in each webbing anchor: 49.7 m between its ends and 4 m in them.
        sound("highline", {"backups[0].cut": "56.2 m"}),
        faulty("highline", {"backups[0].cut": "56.3 m"}, at="backups[0].cut", signal=Signal.WARNING),
        sound("highline", {"backups[0].cut": "54.4 m"}),
        faulty("highline", {"backups[0].cut": "54.2 m"}, at="backups[0].cut", signal=Signal.CAUTION),
        # The same on the webbing in its chain; its `length` is without tails and webbing anchors.
        sound("highline", {WEBBING: "56.2 m"}),
        faulty("highline", {WEBBING: "56.3 m"}, at=WEBBING, signal=Signal.WARNING),
        faulty(
            "highline", {WEBBING: "200 m", "backups[0].extra": REMOVE}, at=WEBBING, shows="backup_too_long"
        ),
        faulty("highline", {WEBBING: "54.2 m"}, at=WEBBING, signal=Signal.CAUTION),
        sound("highline", {"backups[0].chain[4].length": "52.2 m"}),
        faulty("highline", {"backups[0].chain[4].length": "52.3 m"}, at="backups[0].chain[4].length"),
        open_("highline", {"backups[0].extra": REMOVE}, at="backups[0].extra"),
        open_("highline", {"backups[0].cut": "56 m", "spot.span": REMOVE}, at="spot.span"),
        faulty("highline", {"backups[0].extra": "0 %"}, at="backups[0].extra", shows="backup_too_short"),
    ),
)
def length(case: Case, backup: BackupLine) -> Iterator[Fault]:
    extra = backup.extra
    long, short = extra > case.limit(MOST), extra < case.limit(LEAST)
    if not (long or short):
        return
    limit = case.limit(MOST if long else LEAST)
    how = f"{rounded(abs(extra) * 100)} % {'longer' if extra >= 0.0 else 'shorter'}"
    at = backup.length_at
    remedies = case.put_right(at, backup_length(backup, "down" if long else "up"))
    yield Fault(
        at,
        f"{backup.id} is {how} than its span. At {'most' if long else 'least'} {rounded(limit * 100)} % longer.",
        either(
            *remedies,
            f"cut it between {rounded(backup.cut_for_m(AIM[0]), 'up')} m and "
            f"{rounded(backup.cut_for_m(AIM[1]), 'down')} m for 2 % to 5 %. That includes tails "
            "and webbing anchors; add the rope for knots",
        ),
        value=extra * 100.0,
        limit=limit * 100.0,
        unit="%",
        inputs=(Input("distance between its ends", "D", backup.between_ends_m, "m"),),
        signal=Signal.WARNING if long else Signal.CAUTION,
        remedies=remedies,
    )
