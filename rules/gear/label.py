"""A lifting sling has a label that can be read; of any other gear nobody says that it has none."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Item,
    Signal,
    Source,
    each_item,
    faulty,
    in_prose,
    need,
    open_,
    rule,
    sound,
)

SLINGS = {"round_sling", "flat_sling"}
SLING = "shelf[0].items.RS-1"


@rule(
    title="A label can't be read",
    each=each_item(),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    why="Without a label nobody knows what a piece holds, what it is made of and how old it is.",
    formula="label is readable; a sling must say so",
    sources=(
        Source(
            "29 CFR 1926.251(e), WAC 296-155-55820: a sling is marked; out of service once that cannot be read",
            "standard",
            ("osha_1926_251", "wac_296_155_55820"),
        ),
    ),
    prevents=("sling_without_label", "unrated_hardware"),
    examples=(
        sound("long_haul"),
        faulty(
            "long_haul",
            {f"{SLING}.label": "unreadable"},
            at=f"{SLING}.label",
            signal=Signal.WARNING,
            shows="sling_without_label",
        ),
        faulty(
            "long_haul",
            {"shelf[0].items.SH-1.label": "missing"},
            at="shelf[0].items.SH-1.label",
            signal=Signal.WARNING,
            shows="unrated_hardware",
        ),
        faulty("long_haul", {"shelf[0].items.SE-1.label": "missing"}, at="shelf[0].items.SE-1.label"),
        sound("long_haul", {"shelf[0].items.TP-1.label": "missing"}),
        faulty("long_haul", {f"{SLING}.label": "missing", "plan.consequence": "life"}, signal=Signal.DANGER),
        open_("long_haul", {f"{SLING}.label": REMOVE}, at=f"{SLING}.label"),
    ),
)
def label(case: Case, item: Item) -> Iterator[Fault]:
    at, kind = case.on_item(item, "label"), item.gear.kind
    if kind == "protector":
        return
    state = need(item.gear.label, at) if kind in SLINGS else item.gear.label
    if state not in {None, "readable"}:
        what = "has no label" if state == "missing" else "has a label that nobody can read"
        yield Fault(
            at,
            f"The {in_prose(kind)} {item.id} {what}, so its strength is a guess.",
            f"Take {item.id} out of use. Only its maker can label it again.",
        )
