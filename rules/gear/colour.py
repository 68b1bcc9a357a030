"""The colour of a lifting sling agrees with the rated load on its label."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Item,
    Limit,
    Signal,
    Source,
    each_item,
    faulty,
    rounded,
    rule,
    sound,
)

# Labels of lifting slings give a mass; what hangs on them is its weight.
TONNE_N = 9806.65
CODE = {"violet": 1, "green": 2, "yellow": 3, "grey": 4, "red": 5, "brown": 6, "blue": 8, "orange": 10}
OTHER_NAMES = {"purple": "violet", "gray": "grey"}
ROUNDING = Limit(
    name="rounding",
    text="0.02",
    dimension=None,
    tighter="lower",
    because="Labels round tonnes to kilonewtons: 2 t to 19.6 kN or to 20 kN.",
    source=Source("own proposal: what rounding of a label can make", "own"),
)
SLING = "shelf[0].items.RS-1"  # rated at 2 t
PRINTED = (("yellow", "3 t"), ("grey", "4 t"), ("red", "5 t"), ("brown", "6 t"), ("blue", "8 t"))


@rule(
    title="A sling's colour and label disagree",
    each=each_item("round_sling", "flat_sling"),
    signal=Signal.CAUTION,
    why="A crew that picks slings by colour picks the wrong one if the dye and the label give two loads.",
    formula="rated load = the load of its colour; orange 10 t or more",
    limits=(ROUNDING,),
    sources=(Source("EN 1492 colour code, from a sling user manual", "standard", ("en_1492",)),),
    prevents=("colour_taken_for_label",),
    examples=(
        sound("low"),
        sound("low", {f"{SLING}.colour": "green"}),
        sound("low", {f"{SLING}.colour": "Green", f"{SLING}.wll": "20 kN"}),
        faulty("low", {f"{SLING}.colour": "green", f"{SLING}.wll": "20.1 kN"}, at=f"{SLING}.colour"),
        sound("low", {f"{SLING}.colour": "green", f"{SLING}.wll": "1.961 t"}),
        faulty("low", {f"{SLING}.colour": "green", f"{SLING}.wll": "1.959 t"}, at=f"{SLING}.colour"),
        faulty("low", {f"{SLING}.colour": "violet"}, at=f"{SLING}.colour", signal=Signal.CAUTION),
        faulty("low", {f"{SLING}.colour": "purple"}, at=f"{SLING}.colour"),
        sound("low", {f"{SLING}.colour": "orange", f"{SLING}.wll": "12 t"}),
        faulty("low", {f"{SLING}.colour": "orange", f"{SLING}.wll": "8 t"}, at=f"{SLING}.colour"),
        sound("low", {f"{SLING}.colour": "white"}),
        sound("low", {f"{SLING}.colour": "violet", f"{SLING}.standard": "EN 566"}),
        sound("low", {f"{SLING}.colour": "violet", f"{SLING}.wll": REMOVE}),
        # Other rows of the table.
        *(sound("low", {f"{SLING}.colour": dye, f"{SLING}.wll": load}) for dye, load in PRINTED),
    ),
)
def colour(case: Case, item: Item) -> Iterator[Fault]:
    gear = item.gear
    word = (gear.colour or "").strip().lower()
    tonnes = CODE.get(OTHER_NAMES.get(word, word))
    # Climbing slings do not follow the code; without a rated load there is nothing to compare.
    if tonnes is None or gear.wll is None or (gear.standard and "1492" not in gear.standard):
        return
    rated, slack = gear.wll.si / TONNE_N, case.limit(ROUNDING)
    # The code ends there: orange stands for ten tonnes and for all above.
    most = float("inf") if word == "orange" else tonnes * (1.0 + slack)
    if tonnes * (1.0 - slack) <= rated <= most:
        return
    at = case.on_item(item, "colour")
    least = f"{tonnes} t" + (" or more" if word == "orange" else "")
    yield Fault(
        at,
        f"{item.id} is {word}, the colour of {least}, but is rated at {gear.wll.text}.",
        f"Read the sewn label of {item.id}. Until then use it for "
        f"{rounded(min(rated, tonnes), 'down')} t at most.",
        value=rated,
        limit=float(tonnes),
        unit="t",
        inputs=(case.given("rated load", "WLL", gear.wll, case.on_item(item, "wll")),),
        source=Source("EN 1492 colour code, from a sling user manual", "standard", ("en_1492",)),
    )
