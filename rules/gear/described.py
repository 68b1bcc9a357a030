"""Each piece that carries the line says what it is made of, and whether its label can be read.

Which material breaks a rule, and that a label is missing, is told by other rules; a lifting sling is asked for its
label by `gear/label`. Here speaks what a file leaves out, once for all pieces.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    OnCard,
    Signal,
    numbered,
    review,
    rule,
    sound,
    the_rig,
    used_items,
)

NO_FIBRE_NO_METAL = {"protector", "brake", "grip", "harness", "dynamometer", "bolt"}
NEVER_LABELLED = {"protector", "dynamometer", "bolt", "round_sling", "flat_sling"}
SAYS = {"material": "what these are made of", "label": "whether these labels can be read"}
SHACKLE, ROPE = "shelf[0].items.SH-1", "shelf[0].items.RP-1"


@rule(
    title="The gear list leaves out what a piece is",
    each=the_rig,
    signal=Signal.NOTICE,
    raised={"life": Signal.CAUTION},
    why="Aluminium wears out where steel does not, polypropylene rots in the sun, and a copy carries no label.",
    formula="material and label are on file for each piece that carries the line",
    sources=(PRACTICE,),
    prevents=("unrated_hardware",),
    on_card=OnCard(advice=True),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        review("low", {f"{SHACKLE}.material": REMOVE}, at=f"{SHACKLE}.material", signal=Signal.NOTICE),
        review("low", {f"{SHACKLE}.label": REMOVE}, at=f"{SHACKLE}.label", signal=Signal.NOTICE),
        review("low", {f"{ROPE}.material": REMOVE, f"{ROPE}.label": REMOVE}, at=f"{ROPE}.material"),
        review("highline", {f"{SHACKLE}.label": REMOVE}, at=f"{SHACKLE}.label", signal=Signal.CAUTION),
        sound("low", {"shelf[0].items.BR-1.label": "readable"}),
        sound("low", {"shelf[0].items.RS-1.label": REMOVE}),  # gear/label asks for it
    ),
)
def described(case: Case, _rig: None) -> Iterator[Fault]:
    asked = set(_asked_elsewhere(case))
    pieces = used_items(case.loads)
    silent = {
        key: [one for one in pieces if one.gear.kind not in left_out and getattr(one.gear, key) is None]
        for key, left_out in (("material", NO_FIBRE_NO_METAL), ("label", NEVER_LABELLED))
    }
    silent["material"] = [one for one in silent["material"] if one.id not in asked]
    keys = [key for key, found in silent.items() if found]
    if keys:
        yield Fault(
            case.on_item(silent[keys[0]][0], keys[0]),
            " ".join(_said({key: [one.id for one in found] for key, found in silent.items()})),
            f"Look at each, and enter {' and '.join(f'`{key}`' for key in keys)}.",
            kind="review",
            signal=Signal.CAUTION if case.consequence == "life" else Signal.NOTICE,
        )


def _said(names: dict[str, list[str]]) -> Iterator[str]:
    """Yield what is not on file of which pieces; those that lack both are named once."""
    both = [one for one in names["material"] if one in names["label"]]
    if both:
        yield f"The gear list lacks the material and label of {numbered(both)}."
    for key, found in names.items():
        if alone := [one for one in found if one not in both]:
            yield (
                f"It lacks the {key} of {numbered(alone)}."
                if both
                else f"The gear list doesn't say {SAYS[key]}: {numbered(alone)}."
            )


def _asked_elsewhere(case: Case) -> Iterator[str]:
    """Yield the pieces whose material another rule asks for: over a drop, at a join, in the line, and the leash."""
    if case.rig.leash is not None and case.rig.leash.gear is not None:
        yield case.rig.leash.gear
    joined = sum(one.part.part == "webbing" for one in case.path.webbings) > 1
    for one in (each for run in case.loads.runs for each in run):
        webbing = one.part.part == "webbing" and (joined or case.consequence == "life")
        if one.part.gear is not None and (webbing or one.part.part == "connector"):
            yield one.part.gear
