"""Webbing that stretches much is not joined to webbing that hardly stretches."""

from collections.abc import Iterator
from itertools import pairwise

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Signal,
    Source,
    faulty,
    insert_before,
    need_all,
    open_,
    rule,
    sound,
    the_rig,
)

# Polyester stretches between the two, and goes with either.
STRETCHY, STIFF = {"polyamide"}, {"uhmwpe", "aramid"}
WORDS = {"polyamide": "nylon", "uhmwpe": "UHMWPE", "aramid": "aramid"}
WEBBING = {"kind": "webbing", "width": "25 mm", "mbs": "40 kN", "made": "2024-03", "inspected": "2026-04-02"}


def _joined(first: str, second: str | None) -> dict[str, object]:
    """Lengthen the low line by a second webbing behind a join."""
    join = {"part": "webbing_join", "gear": "QL-9"}
    more = {"material": second} if second else {}
    return {
        "shelf[0].items.QL-9": {"kind": "quick_link", "material": "steel", "connector_class": "Q"},
        "shelf[0].items.W-1.material": first,
        "shelf[0].items.W-9": WEBBING | more,
        "chain[6]": insert_before(join, {"part": "webbing", "gear": "W-9", "length": "4 m"}),
    }


@rule(
    title="Webbings with very different stretch are joined",
    each=the_rig,
    signal=Signal.CAUTION,
    raised={"life": Signal.WARNING},
    why="Nylon rubs on UHMWPE where they join. The slippery fibre melts early, at 144 to 152 °C.",
    formula="no polyamide in series with UHMWPE or aramid",
    sources=(
        Source("test digest of knots in UHMWPE tape: breaks or slips low, melts at 144-152 °C", "unnamed"),
        Source("one material in a line", "practice"),
    ),
    prevents=("unlike_webbings_joined",),
    examples=(
        sound("low"),
        sound("highline"),
        sound("low", _joined("polyester", "polyester")),
        sound("low", _joined("polyester", "uhmwpe")),
        faulty("low", _joined("polyamide", "uhmwpe"), at="chain[7].gear", signal=Signal.CAUTION),
        faulty("low", _joined("aramid", "polyamide"), at="chain[7].gear"),
        faulty("low", _joined("polyamide", "uhmwpe") | {"plan.consequence": "life"}, signal=Signal.WARNING),
        sound("low", {"shelf[0].items.W-1.material": REMOVE}),
        open_("low", _joined("polyester", None), at="shelf[0].items.W-9.material"),
        open_("low", _joined("polyester", "polyester") | {"chain[7].gear": REMOVE}, at="chain[7].gear"),
    ),
)
def materials(case: Case, _rig: None) -> Iterator[Fault]:
    webbings = [one for one in case.path.webbings if one.part.part == "webbing"]
    if len(webbings) < 2:  # noqa: PLR2004 - one alone is joined to nothing
        return
    named = [(one, one.item.gear.material) for one in webbings if one.item is not None]
    for (first, made_of), (one, material) in pairwise(named):
        pair = {str(made_of), str(material)}
        if pair & STRETCHY and pair & STIFF:
            both = f"{WORDS[str(made_of)]} ({first.part.gear}) and {WORDS[str(material)]} ({one.part.gear})"
            yield Fault(
                case.on_part(one, "gear"),
                f"The line joins {both}. One of them stretches many times as far as the other.",
                f"Replace {one.part.gear} with webbing of the same material as {first.part.gear}, "
                "or look at the join after every session.",
            )
    need_all(*((one.item, case.on_part(one, "gear")) for one in webbings))
    need_all(*((one.item.gear.material, case.on_item(one.item, "material")) for one in webbings if one.item))
