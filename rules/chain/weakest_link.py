"""What goes first in a peak is textile rather than metal. Compares with no limit: `ratio/peak` does that."""

from collections.abc import Iterator
from math import isclose

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    PartLoad,
    Signal,
    faulty,
    first_up,
    in_kn,
    insert_before,
    open_,
    rounded,
    rule,
    sound,
    strength_inputs,
    the_rig,
    when,
)

HELD_BY = "shelf[0].items.WA-1.mbs"


def _puller(form: str) -> dict[str, object]:
    """Put a weak puller between webbing anchor and shackle."""
    gear = {"kind": "puller", "form": form, "mbs": "22 kN"}
    return {"shelf[0].items.PU-1": gear, "chain[4]": insert_before({"part": "puller", "gear": "PU-1"})}


ASKED = (
    "chain[2].hitch",
    "chain[7].gear",
    "chain[8].fixed_block",
    "chain[8].moving_block",
    "chain[8].open",
    "chain[8].strands",
    "plan.standing_tension",
    "plan.users",
    "plan.users[0].mass",
    "shelf[0].items.DB-1.bearing",
    "shelf[0].items.RS-1.length",
    "shelf[0].items.W-1.mass_per_metre",
    "shelf[0].items.W-1.stretch",
    "shelf[0].items.WA-1.mbs",
    "spot",
    "spot.anchors.gate.girth",
    "spot.span",
)


@rule(
    title="Metal breaks before textile",
    each=the_rig,
    signal=Signal.CAUTION,
    why="A shackle or webbing anchor that breaks flies off with the energy of the whole line behind it.",
    formula="least S · r ÷ F over all parts that carry the whole line: is it metal?",
    sources=(PRACTICE,),
    prevents=("metal_goes_first",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {HELD_BY: "32.4 kN"}),
        faulty("low", {HELD_BY: "31.7 kN"}, at=HELD_BY, signal=Signal.CAUTION),
        faulty("long_haul", {"shelf[0].items.PL-1.mbs": "30 kN"}, at="chain[8].plate"),
        sound("long_haul", {"shelf[0].items.CN-2.mbs": "5 kN"}),  # carries one strand, not the line
        faulty("low", _puller("ratchet"), at="shelf[0].items.PU-1.mbs"),
        sound("low", _puller("webbing_tackle")),  # webbing runs over its rings and breaks there
        *(open_("low", {key: REMOVE}, at=key) for key in ASKED),
    ),
)
def weakest_link(case: Case, _rig: None) -> Iterator[Fault]:
    peaks = case.loads.peaks()
    # A part that nobody rates has no ratio; `ratio/peak` tells it.
    whole = [load for load in case.loads.parts if _whole_line(load) and not load.strength.no_rating]
    judged = [(worst, load) for load in whole if (worst := load.worst(peaks)) is not None]
    textile = [one for one in judged if not one[1].metal]
    if not judged or not textile:
        return
    worst, first = min(judged, key=lambda one: one[0].order)
    if not first.metal:
        return
    after, soft = min(textile, key=lambda one: one[0].order)
    kept = first.strength.strength_n / first.strength.breaking_n
    enough = after.ratio * worst.force_n / kept
    yield Fault(
        first.strength.at,
        f"{first_up(when(worst.state))}, {first.named} is the weakest part: it holds "
        f"{rounded(worst.ratio, 'down')} × its load of {in_kn(worst.force_n)}. The next textile "
        f"part, {soft.named}, holds {rounded(after.ratio, 'down')} ×.",
        f"Use one that breaks above {in_kn(enough, 'up')}, so that textile is the weakest part.",
        value=worst.ratio,
        limit=after.ratio,
        unit="1",
        inputs=(
            *strength_inputs(first, worst.force_n),
            Input(f"ratio of {soft.words}", "q", after.ratio, "1"),
        ),
        state=worst.state,
    )


def _whole_line(load: PartLoad) -> bool:
    """Return whether the whole line runs through a part, also while people walk."""
    return load.only_in is None and isclose(load.force_of(1.0), 1.0, rel_tol=1e-6)
