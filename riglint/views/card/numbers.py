"""The card's figures: the line, how to read its tension on site, haul and letting down, when to stop."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

from riglint.loads import Loads
from riglint.loads.haul.working import HaulSheet
from riglint.loads.inputs import known
from riglint.loads.measure.expected import ExpectedSag, expected_pulse, expected_sags, lead_strand_n
from riglint.views.audit.words import first_to_go
from riglint.views.card.content import Fact, Figures, SagToRead
from riglint.views.figures import fixed, number
from riglint.views.sheet.worked.webbing import keep_out

TAUT = 0.02  # of the span; a line that sags more by itself is no taut string
RETURNS = 10
T = TypeVar("T")
QUICK_S = 0.25  # a hand counts no faster
APART = 0.05  # share by which what is assumed may move a reading before the card says so


def kn(value_n: float) -> str:
    """Return a force with its unit: kN, or N where that is the easier figure."""
    return f"{number(value_n / 1000.0)} kN" if value_n >= 1000.0 else f"{number(value_n, 2)} N"  # noqa: PLR2004


def line_facts(each: Sequence[Loads], numbers: Figures) -> list[Fact]:
    """Return the standing tension, the peaks, the weakest part and how far to keep away.

    Args:
        each: the rig at each end of what is assumed; first where it pulls hardest.
        numbers: the card's own.
    """
    loads, found = each[0], list[Fact]()
    standing, states = known(lambda: loads.standing_state), known(loads.people) or []
    if standing is not None:
        end = _named(loads, 0 if loads.standing.at == "a" else -1)
        read = loads.tension_reading
        why = f", from the {read.words}" if read else ""
        found.append(Fact("standing", f"{kn(loads.standing.tension_n)} at {end}{why}"))
    if states:
        peaks = [f"{one.kind.words} {kn(one.tension_n)}" for one in states]
        found.append(Fact("people", ", ".join(peaks)))
        heights = _everywhere(each, _clear_m)
        found += [Fact("clear", f"{fixed(min(heights))} m at least under the walker")] if heights else []
    weakest = known(lambda: first_to_go(loads)) if states else None
    found += [Fact("first", weakest)] if weakest else []
    if numbers.keep_out_m is not None:
        away = number(numbers.keep_out_m)
        found.append(Fact("keep off", f"the line's axis, {away} m from either anchor on both sides of it"))
    return found


def _clear_m(loads: Loads) -> float | None:
    heights = [one.least_clearance_m for one in loads.cleared("line") if one.least_clearance_m is not None]
    return min(heights, default=None)


def _everywhere(each: Sequence[Loads], of: Callable[[Loads], T | None]) -> list[T]:
    """Return a figure at each end of what is assumed; none where it is not known at one of them."""
    found = [known(lambda one=one: of(one)) for one in each]  # type: ignore[misc]
    return [one for one in found if one is not None] if None not in found else []


def reading_facts(loads: Loads, numbers: Figures) -> list[Fact]:
    """Return what stopwatch, folding rule and gauge must show at the standing tension."""
    found = _pulse(loads, numbers)
    for one in numbers.sags:
        where = f"{number(one.from_a_m)} m from {_named(loads, 0)}"
        sure = one.most_m <= one.least_m * (1.0 + APART)
        depth = f"{one.below_bare_m:.2f} m" if sure else f"{one.least_m:.2f} to {one.most_m:.2f} m"
        more = "" if sure else "; what is assumed decides where between"
        found.append(
            Fact("sag", f"{depth} below the bare line under {number(one.under_kg)} kg, {where}{more}")
        )
    if numbers.lead_least_n is not None and numbers.lead_most_n is not None:
        least, most = fixed(numbers.lead_least_n / 1000.0), fixed(numbers.lead_most_n / 1000.0)
        found.append(Fact("lead", f"{least} to {most} kN in the lead strand"))
    return found + _again(loads)


def _pulse(loads: Loads, numbers: Figures) -> list[Fact]:
    """Return how long a tap takes; nothing of a line that sags too much to be a string."""
    time_s, over_m = numbers.pulse_time_s, numbers.pulse_over_m
    least_s, most_s = numbers.pulse_least_s, numbers.pulse_most_s
    taut = known(lambda: loads.standing.equilibrium.sag_m < TAUT * loads.standing.line.span_m)
    if time_s is None or over_m is None or least_s is None or most_s is None or not taut:
        return []
    over = f"over {number(over_m)} m of webbing"
    if most_s > least_s * (1.0 + APART):
        why = "what is assumed decides where between, so read the tension another way"
        return [
            Fact("pulse", f"{RETURNS} returns of a tap take {least_s:.1f} to {most_s:.1f} s {over}; {why}")
        ]
    quick = time_s < RETURNS * QUICK_S
    more = "too quick to count by hand, read the sag" if quick else "less time means more tension"
    return [Fact("pulse", f"{RETURNS} returns of a tap take {time_s:.1f} s {over}; {more}")]


def _again(loads: Loads) -> list[Fact]:
    """Return when to read again and what the webbing may have lost by then."""
    standing = known(lambda: loads.standing_tension_n)
    if standing is None:
        return []
    _, share = loads.geometry.relaxed()
    left = kn(standing * (1.0 - share))
    return [
        Fact(
            "again",
            f"Read it again after an hour: the webbing may have lost {share * 100.0:.0f} % and be at {left}.",
        )
    ]


def _named(loads: Loads, end: int) -> str:
    return loads.path.parts[end].part.at or ("the last anchor" if end else "the first anchor")


def haul_facts(loads: Loads) -> list[Fact]:
    """Return how the line is hauled and let down."""
    sheet, haul = known(lambda: loads.haul_sheet), loads.path.haul
    if sheet is None or haul is None:
        return []
    found = [*_pull(loads, sheet)]
    if sheet.overshoot_n is not None:
        found.append(Fact("heave", f"the crew could reach {kn(sheet.overshoot_n)}: one person says stop"))
    found += _blocks(loads, sheet)
    if sheet.behind_brake_m is not None and sheet.let_down_m is not None:
        behind, used = number(sheet.behind_brake_m), number(sheet.let_down_m)
        found.append(Fact("rope", f"{behind} m behind the brake; letting down uses {used} m"))
    return found + _lowering(loads, sheet.hold_force_n)


def _pull(loads: Loads, sheet: HaulSheet) -> list[Fact]:
    """Return what each of the crew must pull, as usual and with poor sheaves."""
    if sheet.ideal_ratio is None or sheet.actual_ratio is None or sheet.hand_force_n is None:
        return []
    plan, haul = loads.path.rig.rig.plan, loads.haul
    crew = plan.crew if plan else None
    count = crew.haulers if crew and crew.haulers else 1
    each = f"{count} × {kn(sheet.hand_force_n / count)}" if count > 1 else kn(sheet.hand_force_n)
    worst = known(lambda: haul.to_reach_at_worst(loads.standing_tension_n).hand_n if haul else None)
    poor = f", with poor sheaves {kn(worst / count)} each" if worst is not None else ""
    ratio = f"{sheet.ideal_ratio}:1, {number(sheet.actual_ratio)} with friction"
    return [Fact("pull", f"{each}{poor} ({ratio})")]


def _blocks(loads: Loads, sheet: HaulSheet) -> list[Fact]:
    """Return how far the blocks stand apart, and how far they run."""
    loose = known(lambda: loads.standing.hand_tight_blocks_m)
    if loose is None or sheet.blocks_m is None or sheet.travel_needed_m is None:
        return []
    apart = f"{number(loose)} m apart hand-tight, {number(sheet.blocks_m)} m at standing tension"
    room = f" of {number(sheet.travel_available_m)} m" if sheet.travel_available_m is not None else ""
    return [Fact("blocks", f"{apart}: travel {number(sheet.travel_needed_m)} m{room}")]


def _lowering(loads: Loads, hold_n: float | None) -> list[Fact]:
    plan = loads.path.rig.rig.plan
    if plan is None or plan.lowering is None:
        return []
    steps = [plan.lowering.replace("_", " ")]
    if plan.tail_wraps is not None:
        steps.append(f"{number(plan.tail_wraps)} turn{'' if plan.tail_wraps == 1 else 's'} round the trunk")
    if hold_n is not None:
        steps.append(f"the hand then holds {kn(hold_n)}")
    if loads.path.haul is not None and plan.lowering in {"brake", "haul_back"}:
        first = "haul" if plan.lowering == "haul_back" else "turns" if plan.tail_wraps else "hand on the rope"
        steps.append(f"first {first}, then untie the stopper, then let it run")
    return [Fact("let down", ", ".join(steps))]


def stop_lines(loads: Loads, apart: float) -> list[str]:
    """Return when to stop, with this rig's figures; `apart` is the share by which a reading may be off the plan."""
    plan, found = loads.path.rig.rig.plan, []
    found.append("Any crack, crackle or fluff; anything that slips, or a mark that moves.")
    tails = [one.part.webbing_tail.text for one in loads.path.parts if one.part.webbing_tail]
    if tails:
        found.append(f"A webbing tail gets shorter than it was laid ({' and '.join(dict.fromkeys(tails))}).")
    if plan and plan.wind:
        found.append(f"Wind above {plan.wind.text}, or the line starts to swing.")
    found.append("Thunder or lightning: off the line and away from it.")
    if _on_trees(loads):
        found.append("A root plate lifts, the ground cracks, a trunk creaks.")
    standing = known(lambda: loads.standing_tension_n)
    if standing is not None:
        low, high = kn(standing * (1.0 - apart)), kn(standing * (1.0 + apart))
        found.append(f"The tension reads above {high} or below {low}, or changes while nobody touches it.")
    if plan and plan.users:
        heaviest = max((one.mass.si for one in plan.users if one.mass), default=None)
        weight = f" or anybody above {number(heaviest)} kg" if heaviest else ""
        more = f"more than {plan.at_once}" if plan.at_once > 1 else "a second person"
        found.append(f"On the line: {more}{weight}.")
    found.append("Somebody stands in the line's axis, or a stranger comes under it.")
    return found


def _on_trees(loads: Loads) -> bool:
    spot = loads.path.rig.spot
    return spot is not None and any(one.kind == "tree" for one in spot.anchors.values())


def figures(each: Sequence[Loads]) -> Figures:
    """Return the card's own numbers of a rig at each end of what is assumed; first where it pulls hardest."""
    loads = each[0]
    pulses = _everywhere(each, lambda one: expected_pulse(one, RETURNS))
    times = [one.time_s for one in pulses]
    least_n, most_n = known(lambda: lead_strand_n(loads)) or (None, None)
    return Figures(
        known(lambda: loads.standing.tension_n),
        RETURNS if pulses else None,
        times[0] if times else None,
        min(times, default=None),
        max(times, default=None),
        pulses[0].over_m if pulses else None,
        least_n,
        most_n,
        max(_everywhere(each, lambda one: keep_out(one).value), default=None),
        tuple(_sag_to_read(one) for one in zip(*_everywhere(each, expected_sags), strict=True)),
    )


def _sag_to_read(each: Sequence[ExpectedSag]) -> SagToRead:
    first, depths = each[0], [one.below_bare_m for one in each]
    return SagToRead(first.mass_kg, first.below_bare_m, first.from_a_m, min(depths), max(depths))
