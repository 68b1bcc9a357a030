"""The backup is taped to the main line in short, uneven loops."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    BackupLine,
    Case,
    Fault,
    Limit,
    Signal,
    Source,
    each_backup,
    faulty,
    need,
    open_,
    rule,
    sound,
)

MOST = Limit(
    name="longest_gap",
    text="3 m",
    dimension="length",
    tighter="lower",
    because="Longer loops hang low and chafe at the edge. If the main line breaks, the fall is longer.",
    source=Source("Austrian highline school: taped every 1.5 m to 3 m", "unnamed"),
)


@rule(
    title="The backup hangs in long loops, or in even ones",
    each=each_backup,
    signal=Signal.CAUTION,
    why="A long loop catches the walker's foot or an edge. Loops of one length swing together in the wind.",
    formula="longest gap between tapes ≤ 3 m; shortest gap < longest gap",
    limits=(MOST,),
    sources=(
        Source("maker's rigging advice: irregular spacing, so that loops do not swing together", "unnamed"),
    ),
    prevents=("taping_wide_or_even",),
    examples=(
        sound("low"),
        sound("highline"),
        sound("highline", {"backups[0].taped_every": ["1.5 m", "3 m"]}),
        faulty("highline", {"backups[0].taped_every": ["1.5 m", "3.05 m"]}, signal=Signal.CAUTION),
        faulty("highline", {"backups[0].taped_every": ["2 m", "2 m"]}, signal=Signal.CAUTION),
        faulty("highline", {"backups[0].taped_every": ["0 m", "0 m"]}, signal=Signal.CAUTION),
        sound("highline", {"backups[0].taped_every": ["0 m", "3 m"]}),
        open_("highline", {"backups[0].taped_every": REMOVE}, at="backups[0].taped_every"),
    ),
)
def taping(case: Case, backup: BackupLine) -> Iterator[Fault]:
    if not case.highline:
        return
    at = backup.on("taped_every")
    shortest, longest = sorted(need(backup.entry.taped_every, at), key=lambda gap: gap.si)
    most = case.limit(MOST)
    if longest.si > most:
        yield Fault(
            at,
            f"{backup.id} hangs in loops of up to {longest.text}. At most {most:g} m.",
            f"Add tapes until no gap is longer than {most:g} m. Keep the gaps next to the anchors at 1.5 m.",
            value=longest.si,
            limit=most,
            unit="m",
        )
    if not longest.si:
        yield Fault(
            at,
            f"The file says that {backup.id} is taped every {longest.text}. A loop has to have a length.",
            "Write the shortest and the longest gap between two tapes, such as [1.5 m, 3 m].",
            value=longest.si,
            unit="m",
        )
    elif shortest.si == longest.si:
        yield Fault(
            at,
            f"All loops of {backup.id} are {longest.text} long, so they can swing together.",
            "Move every second tape by about 0.3 m. Uneven loops don't swing in time.",
            value=shortest.si,
            unit="m",
        )
