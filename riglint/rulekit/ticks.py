"""What can only be seen on site, and what a ratio rests on."""

from __future__ import annotations

import re
from collections.abc import Iterator

from riglint.loads import PartLoad
from riglint.loads.inputs import At, MissingInput, unanswered
from riglint.model import kinds
from riglint.read.spelling import nearest
from riglint.rulekit.case import Case
from riglint.rulekit.saying import Fault, Input, Signal

HAUL_TICKS = (
    "brake.locked",
    "brake.threading_checked",
    "tail.stopper",
    "tail.tied_off",
    "multiplier.left_on",
)
KEY = re.compile(r"(?=.*[.\[])(?=.{1,60}$)[a-z_]+(?:\[\d+\])*(?:\.[a-z_]+(?:\[\d+\])*)*")
CHECK = "Look at each again on site, and enter it under checks: what (as it is called here), by, date, after_tension."


def strength_inputs(load: PartLoad, force_n: float) -> tuple[Input, ...]:
    """Return what a ratio of strength to force (N) rests on: the label, what the place takes off it, the force."""
    strength = load.strength
    name = "breaking strength"
    if strength.breaking_from != "label":
        name += f": {strength.breaking_from}"
    return (
        Input(name, "S", strength.breaking_n / 1000.0, "kN", strength.at.reference),
        *(Input(one.why, "r", one.factor, "1") for one in strength.reductions),
        Input("force on it", "F", force_n / 1000.0, "kN"),
    )


def tick(case: Case, done: bool | None, at: At, what: str, do: str, *, right: bool = True) -> Iterator[Fault]:
    """Judge something that can only be seen on site: done, not done, due, or not said.

    Args:
        case: the rig.
        done: what the file says.
        at: where it says so, or should.
        what: the sentence if it is not done, such as "The brake is not locked".
        do: what to do.
        right: the answer that is wanted.

    Raises:
        MissingInput: the rig stands already and the file does not say, or no fresh check confirms it.
    """
    if done is not None and done is not right:
        yield Fault(at, f"{what}.", do)
    elif done is None:
        yield from due(case, at, do)
    elif not case.before_use() and not _confirmed(case, at):
        at_checks = case.at("checks", part=at.part)
        raise MissingInput(unanswered(at_checks, "holds no check at this tension of", CHECK, at.key_text))


def due(case: Case, at: At, do: str) -> Iterator[Fault]:
    """Say of something that can only be seen on site, and is not filled in, that it is due there.

    Raises:
        MissingInput: the rig stands already.
    """
    if not case.before_use():
        raise MissingInput(at)
    yield Fault(at, f"Due on site: {do[:1].lower()}{do[1:]}", do, kind="review", signal=Signal.NOTICE)


def confirming_nothing(case: Case) -> Iterator[tuple[int, str, str | None]]:
    """Yield each check that names a key which no rule asks to have looked at, and the nearest that one does.

    What a check says in words of its own is never meant.
    """
    asked = {f"{at.part}.{at.key[-1]}" for at in ticks(case)} | {at.key_text for at in ticks(case)}
    for n, check in enumerate(case.rig.checks):
        first = re.split(r"[.\[]", check.what)[0]
        if KEY.fullmatch(check.what) and first in type(case.rig).model_fields and check.what not in asked:
            yield n, check.what, nearest(check.what, sorted(at.key_text for at in ticks(case)))


def ticks(case: Case) -> list[At]:
    """Return every place of a rig that can only be seen on site and that a check may confirm."""
    found = [case.at("leash", "partner_check", part="leash")] if case.rig.leash is not None else []
    placed = {one.key: one for run in case.loads.runs for one in run}
    for one in [*placed.values(), *case.path.parts]:
        takes = kinds.PART[one.part.part].takes
        found += [case.on_part(one, key) for key in ("pins", "tail_tied") if key in takes]
        if one.part.part == "haul":
            found += [case.on_part(one, *key.split(".")) for key in HAUL_TICKS]
    return found


def _confirmed(case: Case, at: At) -> bool:
    """Return whether a check names this tick and was made at the present tension or above."""
    tension = case.plan.standing_tension if case.plan else None
    names = {str(at.key[-1]), at.key_text, f"{at.part}.{at.key[-1]}"}
    for check in case.rig.checks:
        if check.what not in names:
            continue
        if check.after_tension is None or tension is None or check.after_tension.si >= tension.si:
            return True
    return False
