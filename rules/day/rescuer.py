"""Nobody is counted on to fetch people from two lines at once."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    Fault,
    LibraryCase,
    Signal,
    TwoLines,
    each_two_lines,
    faulty,
    need_all,
    open_,
    rule,
    sound,
)

AT = "plan.rescuer"
FIRST, SECOND = {AT: "rescue crew one"}, {AT: "rescue crew two"}


@rule(
    title="One rescuer for two lines",
    each=each_two_lines,
    signal=Signal.WARNING,
    why="If a walker hangs on each of two lines, one rescuer can only reach one. Hanging still harms within minutes.",
    formula="rescuers of two highlines of one spot and day are not the same",
    sources=(PRACTICE,),
    prevents=("help_counted_twice",),
    examples=(
        sound("highline"),
        sound("highline", FIRST, beside=(SECOND,)),
        faulty("highline", FIRST, beside=(FIRST | {"title": "Second line"},), at=AT, signal=Signal.WARNING),
        faulty("highline", FIRST, beside=({AT: "Rescue  crew one", "title": "Second line"},), at=AT),
        sound("highline", FIRST, beside=(FIRST | {"spot.title": "Elsewhere"},)),
        sound("highline", FIRST, beside=(FIRST | {"stage": "lowered"},)),
        # Where no rescue is planned its own rule speaks.
        sound("highline", FIRST, beside=(FIRST | {"plan.rescue": False},)),
        sound("low", beside=({"title": "Second line"},)),
        open_("highline", FIRST, beside=({"title": "Second line"},), at=AT),
    ),
)
def rescuer(_library: LibraryCase, two: TwoLines) -> Iterator[Fault]:
    cases = (two.one, two.other)
    plans = [case.plan for case in cases if case.rig.leash is not None]
    if len([plan for plan in plans if plan is not None and plan.rescue]) < len(cases):
        return
    names = [plan.rescuer if plan else None for plan in plans]
    need_all((names[0], two.one.at("plan", "rescuer")), (names[1], two.other.at("plan", "rescuer")))
    first, second = (" ".join((name or "").casefold().split()) for name in names)
    if first == second:
        yield Fault(
            two.other.at("plan", "rescuer"),
            f"'{names[0]}' is the rescuer for '{two.one.rig.title}' and for '{two.other.rig.title}'.",
            "Name a second rescuer with gear of their own, or let only one of the two lines be walked at a time.",
            rigs=two.paths,
        )
