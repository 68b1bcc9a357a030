"""Nothing in the rig is on the club's list of recalled gear."""

from collections.abc import Iterator

from riglint.rulekit import PRACTICE, Case, Fault, Item, Signal, each_item, faulty, rule, sound


@rule(
    title="Gear on the club's recall list",
    each=each_item(),
    signal=Signal.DANGER,
    why="A maker or the club took this piece out of use. The same fault can fail under load without warning.",
    formula="the piece does not stand in `recalled` of the policy",
    sources=(PRACTICE,),
    prevents=("recalled_piece_in_use",),
    examples=(
        sound("long_haul"),
        sound("low", recalled=("SH-99",)),
        faulty("low", recalled=("SH-3",), at="shelf[0].items.SH-3", signal=Signal.DANGER),
    ),
)
def recalled(case: Case, item: Item) -> Iterator[Fault]:
    if item.id in case.recalled:
        yield Fault(
            case.on_item(item),
            f"{item.id} is on the list of recalled gear.",
            f"Take {item.id} out of the rig, and keep it where nobody can pick it up again.",
        )
