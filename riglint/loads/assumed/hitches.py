"""How slings are laid, where the rig does not say: every way in which they can lie there is judged."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.loads.rig_loads import Loads
from riglint.loads.strength.slings import LaidSling, slings_of
from riglint.loads.strength.strengths import MODES
from riglint.model.compact.assumption import AssumedEnd, Assumption

# The weakest first, by which numbers are computed. A lark's foot is judged as a choke everywhere.
ROUND_A_TREE = ("choke", "basket", "wrap")
FIRST_NAMED = 2  # slings; of more than these only the number is told
IN_A_PART = ("choke", "straight", "basket")


def of_slings(loads: Loads) -> Iterator[Assumption]:
    """Yield the hitch of the slings that do not say, those together that can lie in the same ways.

    Slings that hang alike are taken to be laid alike. Round rock, posts or an unknown anchor the angle decides, which
    nothing tells, so there it stays open.
    """
    open_ = [one for one in slings_of(loads) if one.placed.part.hitch is None and one.placed.item is not None]
    trees = [one for one in open_ if one.contact.kind == "tree"]
    yield from _laid(trees, ROUND_A_TREE, "how a sling can lie round a tree")
    thin = [one for one in open_ if one.contact.kind in {"metal", "textile"}]
    yield from _laid(thin, IN_A_PART, "how a sling can hang in a part")


def _laid(slings: list[LaidSling], hitches: tuple[str, ...], why: str) -> Iterator[Assumption]:
    if not slings:
        return
    names = _names([one.placed.part.gear or one.words for one in slings])
    yield Assumption(
        f"hitch of {names}",
        "rig",
        tuple((*one.placed.key, "hitch") for one in slings),
        "",
        tuple(AssumedEnd(one, one) for one in hitches),
        f"{', '.join(hitches[:-1])} or {hitches[-1]}",
        of_line=False,
        why=why,
        look_up="look how the sling is laid" if len(slings) == 1 else "look how the slings are laid",
        source=MODES,
    )


def _names(names: list[str]) -> str:
    first, more = names[:FIRST_NAMED], len(names) - FIRST_NAMED
    return f"{', '.join(first)} and {more} more" if more > 0 else " and ".join(first)
