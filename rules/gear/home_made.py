"""What carries people was sewn, spliced or built by its maker or a workshop that tests, not at home."""

import re
from collections.abc import Iterator

from riglint.rulekit import PRACTICE, Case, Fault, Item, Signal, each_item, faulty, rule, sound

HOME = re.compile(
    r"\b(?:home|self|hand)[- ]?(?:made|sewn|sewing|built|spliced)\b|\bsewn at home\b|\bDIY\b", re.IGNORECASE
)
SE = "shelf[0].items.SE-1"


@rule(
    title="Gear that was made at home",
    each=each_item(),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    why=(
        "A seam with the wrong thread, pattern or machine looks like any other, and opens at a "
        "third of its strength."
    ),
    formula="made_by is not `home`, and neither title, note nor standard says so",
    sources=(PRACTICE,),
    prevents=("sewn_at_home",),
    examples=(
        sound("low"),
        sound("highline"),
        faulty("low", {f"{SE}.made_by": "home"}, at=f"{SE}.made_by", signal=Signal.WARNING),
        faulty("low", {f"{SE}.made_by": "home", "plan.consequence": "life"}, signal=Signal.DANGER),
        sound("low", {f"{SE}.made_by": "workshop"}),
        sound("low", {f"{SE}.made_by": "maker", f"{SE}.title": "replaces the home-made one"}),
        faulty("low", {f"{SE}.title": "home-sewn loop"}, at=f"{SE}.title", signal=Signal.WARNING),
        faulty("low", {f"{SE}.note": "Self-made last winter."}, at=f"{SE}.note"),
        faulty("low", {f"{SE}.standard": "homemade"}, at=f"{SE}.standard"),
        sound("low", {f"{SE}.title": "stays at home in winter"}),
        sound("low", {"shelf[0].items.TP-1.made_by": "home"}),  # a carpet on loops carries nobody
    ),
)
def home_made(case: Case, item: Item) -> Iterator[Fault]:
    gear = item.gear
    if gear.kind == "protector" or gear.made_by in {"maker", "workshop"}:
        return
    told = [key for key in ("title", "note", "standard") if HOME.search(getattr(gear, key) or "")]
    if gear.made_by != "home" and not told:
        return
    key = "made_by" if gear.made_by == "home" else told[0]
    yield Fault(
        case.on_item(item, key),
        f"{item.id} was made at home, as its {key} says. Nobody tested what it holds.",
        f"Use a piece that its maker sewed and labelled instead of {item.id}. If a workshop made "
        "and tested it, enter made_by: workshop.",
        value=getattr(gear, key),
    )
