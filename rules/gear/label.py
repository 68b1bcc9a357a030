"""A lifting sling has a label that can be read."""

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
    need,
    open_,
    rule,
    sound,
)

SLING = "shelf[0].items.RS-1"


@rule(
    title="A sling's label cannot be read",
    each=each_item("round_sling", "flat_sling"),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    why="Without its label nobody knows what the sling bears, what it is made of and how old it is.",
    formula="label is readable",
    sources=(
        Source(
            "lifting practice: retire a sling with an unreadable label, several safety texts", "published"
        ),
    ),
    prevents=("sling_without_label",),
    examples=(
        sound("long_haul"),
        faulty("long_haul", {f"{SLING}.label": "unreadable"}, at=f"{SLING}.label", signal=Signal.WARNING),
        faulty("long_haul", {f"{SLING}.label": "missing", "plan.consequence": "life"}, signal=Signal.DANGER),
        open_("long_haul", {f"{SLING}.label": REMOVE}, at=f"{SLING}.label"),
    ),
)
def label(case: Case, item: Item) -> Iterator[Fault]:
    at = case.on_item(item, "label")
    state = need(item.gear.label, at)
    if state != "readable":
        what = "has no label" if state == "missing" else "has a label that nobody can read"
        yield Fault(
            at,
            f"The sling {item.id} {what}, so its rated load is hearsay.",
            f"Take {item.id} out of use; only its maker can label it again.",
        )
