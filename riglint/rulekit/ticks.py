"""What can only be seen on site, and what a ratio rests on."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date, timedelta

from riglint.loads import PartLoad
from riglint.loads.inputs import At, MissingInput, unanswered
from riglint.model.vocabulary import kinds
from riglint.read.problems import key_text
from riglint.read.spelling import nearest
from riglint.rulekit.case import Case
from riglint.rulekit.verdicts import Fault, Input, Signal

HAND_TIGHT = "hand_tight_recheck"  # the check made before the tension comes on
DUE = "On site: "  # how the sentence of a check begins that somebody ticks when it is done
HAUL_TICKS = (
    "brake.locked",
    "brake.threading_checked",
    "tail.stopper",
    "tail.tied_off",
    "multiplier.left_on",
)
KEY = re.compile(r"(?=.*[.\[])(?=.{1,60}$)[a-z_]+(?:\[\d+\])*(?:\.[a-z_]+(?:\[\d+\])*)*")
CHECK = (
    "Look at each again on site, and enter it under checks: what (the name used here), by, "
    "date, after_tension."
)


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
    elif not case.before_use():
        _need_a_check(case, at)


def due(case: Case, at: At, do: str) -> Iterator[Fault]:
    """Say of something that can only be seen on site, and is not filled in, that it is due there.

    Raises:
        MissingInput: the rig stands already.
    """
    if not case.before_use():
        raise MissingInput(at)
    yield Fault(at, f"{DUE}{do[:1].lower()}{do[1:]}", do, kind="review", signal=Signal.NOTICE)


def in_time(case: Case, day: date | None) -> bool:
    """Return whether a check or reading of a day can be of this rig as it stands; one without a day can.

    It cannot be dated after the day judged by, nor long before the line stood. A first day that is still to come does
    not say when the line was built, so today's entries count all the same.
    """
    return day is None or not (after_today(case, day) or _before_it_stood(case, day))


def after_today(case: Case, day: date | None) -> bool:
    """Return whether an entry is dated after the day that the rig is judged by."""
    return day is not None and day > case.on


def built_ahead(case: Case) -> timedelta:
    """Return how long before its first day a line may be built and looked over."""
    return timedelta(days=case.loads.values["built_ahead"])


def _before_it_stood(case: Case, day: date) -> bool:
    first = case.plan.first_day if case.plan else None
    return first is not None and min(first, case.on) - day > built_ahead(case)


def _need_a_check(case: Case, at: At) -> None:
    """Ask for a check that names this tick, is of this rig as it stands, and was made at its tension or above.

    Raises:
        MissingInput: there is none; says whether its day, its tension or the check itself is missing.
    """
    standing = case.plan.standing_tension if case.plan else None
    own = key_text(at.own_key)
    names = {str(at.key[-1]), at.key_text, own, f"{at.part}.{at.key[-1]}"}
    missing: list[At] = []
    for n, check in enumerate(case.rig.checks):
        tension = check.after_tension
        if check.what not in names or (tension and standing and tension.si < standing.si):
            continue
        on_day, at_tension = (case.at("checks", n, key, part=at.part) for key in ("date", "after_tension"))
        asked = [on_day] if check.date is None else []
        asked += [at_tension] if standing and tension is None else []
        if check.date is not None and not in_time(case, check.date):
            after = after_today(case, check.date)
            asked = [unanswered(on_day, _not_of_now(case, after=after), CHECK, own)]
        if not asked:
            return
        missing += asked
    lacking = unanswered(case.at("checks", part=at.part), "holds no check at this tension of", CHECK, own)
    raise MissingInput(*(missing or [lacking]))


def confirmed(case: Case, at: At) -> bool:
    """Return whether a check names this tick, is of this rig as it stands, and was made at its tension or above."""
    try:
        _need_a_check(case, at)
    except MissingInput:
        return False
    return True


def _not_of_now(case: Case, *, after: bool) -> str:
    """Say of the day of a check why it does not count, for the middle of a sentence."""
    first = case.plan.first_day if case.plan else None
    when = f"after this audit ({case.on})" if after else f"long before the first day ({first})"
    return f"lies {when} in the check of"


def confirming_nothing(case: Case) -> Iterator[tuple[int, str, str | None]]:
    """Yield each check that names a key which no rule asks to have looked at, and the nearest that one does.

    What a check says in words of its own is never meant.
    """
    known = ticks(case)
    keys = sorted(key_text(at.own_key) for at in known)
    asked = {*keys, *(name for at in known for name in (at.key_text, f"{at.part}.{at.key[-1]}"))}
    for n, check in enumerate(case.rig.checks):
        first = re.split(r"[.\[]", check.what)[0]
        if KEY.fullmatch(check.what) and first in type(case.rig).model_fields and check.what not in asked:
            yield n, check.what, nearest(check.what, keys)


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
