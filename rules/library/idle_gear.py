"""Gear that lies on the shelf unused is fit to be rigged, or it is taken off."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Fault,
    Item,
    LibraryCase,
    Limit,
    Shared,
    Signal,
    Source,
    asks_for_release,
    cleared,
    each_piece,
    faulty,
    last_check,
    months_after,
    rule,
    sound,
)

LONGEST = Limit(
    name="longest_months",
    text="12",
    dimension=None,
    tighter="lower",
    because="A competent person checks it at least once a year.",
    source=Source("EN 365 practice, from two pages on periodic checks", "standard", ("en_365",)),
)
SPARE = "shelf[0].items.SH-9"
OUT = {"retired", "recalled"}
ASKS = {"hard_catch", "overload", "cut", "burn", "chemical", "stitching", "abrasion", "dropped"}
WEBBING = {"kind": "webbing", "material": "polyester", "inspected": "2026-04-02"}
RELEASED = {"date": "2026-04-02", "what": "released", "releases": "chemical"}


def _spare(**more: object) -> dict[str, object]:
    """Return a shackle that no rig uses."""
    kept = {
        "kind": "shackle",
        "material": "steel",
        "shape": "bow",
        "wll": "3.25 t",
        "inspected": "2026-04-02",
    }
    return {SPARE: {name: value for name, value in {**kept, **more}.items() if value is not REMOVE}}


def _event(what: str, day: str = "2026-04-20") -> list[dict[str, str]]:
    return [{"date": day, "what": what}]


@rule(
    title="Unfit gear in the gear list",
    each=each_piece,
    signal=Signal.NOTICE,
    why="When something is missing, people grab what is in the store, in a hurry and without a check.",
    formula="of gear in no rig: not recalled or retired, nothing happened since its check, checked within the year",
    limits=(LONGEST,),
    prevents=("check_overdue", "bad_event_forgotten", "recalled_piece_in_use"),
    beside_rigs=True,
    examples=(
        sound("low"),
        sound("low", _spare()),
        sound("low", _spare(inspected="2025-05-02")),
        faulty(
            "low",
            _spare(inspected="2025-05-01"),
            at="items.SH-9.inspected",
            signal=Signal.NOTICE,
            shows="check_overdue",
        ),
        faulty("low", _spare(inspected=REMOVE), at="items.SH-9.inspected"),
        faulty("low", _spare(events=_event("retired", "2024-04-20")), at="items.SH-9"),
        faulty("low", _spare(events=_event("hard_catch")), at="items.SH-9", shows="bad_event_forgotten"),
        faulty("low", _spare(events=_event("hard_catch", "2026-04-02")), at="items.SH-9"),
        sound("low", _spare(events=_event("hard_catch", "2026-04-01"))),
        sound("low", _spare(events=[*_event("cut"), *_event("repaired", "2026-04-21")])),
        # A routine check does not clear fibres of acid; a release by name does.
        faulty("low", {SPARE: WEBBING | {"events": _event("chemical", "2026-03-01")}}, at="items.SH-9"),
        sound("low", {SPARE: WEBBING | {"events": [*_event("chemical", "2026-03-01"), RELEASED]}}),
        faulty("low", _spare(events=[*_event("cut"), *_event("inspected", "2026-05-03")])),
        faulty("low", _spare(), recalled=("SH-9",), at="items.SH-9", shows="recalled_piece_in_use"),
        # What a rig uses is judged by the rules for gear in use.
        sound("low", {"shelf[0].items.SH-1.inspected": "2020-01-01"}),
        faulty(
            "low", {"stage": "lowered", "shelf[0].items.SH-1.inspected": "2020-01-01"}, signal=Signal.NOTICE
        ),
        sound("low", {"shelf[0].items.P-9": {"kind": "protector"}}),
        # A check on the day itself counts.
        sound("low", _spare(inspected="2026-05-02", events=_event("cut"))),
        sound("low", _spare(events=[*_event("cut"), *_event("inspected", "2026-05-02")])),
        sound("low", _spare(inspected="2026-05-02")),
        sound("low", _spare(inspected=REMOVE, events=_event("inspected"))),
    ),
)
def idle_gear(library: LibraryCase, piece: Shared) -> Iterator[Fault]:
    item = piece.item
    if any(one.stage != "lowered" for one in piece.rigs) or item.gear.kind == "protector":
        return
    what = _unfit(library, item)
    if what:
        yield Fault(
            library.on_item(item),
            f"{item.id} is in the gear list, unused, and {what}.",
            f"Take {item.id} out of the store, and keep it where nobody can pick it up.",
        )
        return
    yield from _overdue(library, item)


def _overdue(library: LibraryCase, item: Item) -> Iterator[Fault]:
    last, months = last_check(item, library.on), library.limit(LONGEST)
    if last is None or library.on > months_after(last, round(months)):
        said = "has no check on record" if last is None else f"was last checked on {last}"
        yield Fault(
            library.on_item(item, "inspected"),
            f"{item.id} is in the gear list, unused, and {said}.",
            f"Have a competent person check {item.id} before you rig it, and enter the date.",
            value=None if last is None else round((library.on - last).days / 30.44, 1),
            limit=months,
            unit="months",
        )


def _unfit(library: LibraryCase, item: Item) -> str:
    """Say why a piece must not be rigged as it is; empty if nothing speaks against it."""
    if item.id in library.recalled:
        return "is on the list of recalled gear"
    for n, one in enumerate(item.gear.events):
        if one.what in OUT:
            return f"was {one.what} on {one.date}"
        if one.what in ASKS and not cleared(item, n, library.on):
            word = "released" if asks_for_release(item, n) else "checked"
            return f"nobody has {word} it since {one.date} ({one.what.replace('_', ' ')})"
    return ""
