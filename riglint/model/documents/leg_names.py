"""Where the legs of an anchor go: to bolts of the anchor at their end, or to another anchor of the spot."""

from collections.abc import Iterator

from riglint.model.documents.parts import Part
from riglint.model.documents.rig import Rig
from riglint.model.documents.spot import Spot
from riglint.model.sentences import Key


def legs_to_no_bolt(rig: Rig, spot: Spot) -> Iterator[tuple[Key, str, str]]:
    """Yield the place of each leg that goes to no bolt of its anchor, where it goes, and that anchor.

    Anchors whose bolts are not listed are left to the rules, which ask for them.
    """
    chains: list[tuple[Key, list[Part]]] = [(("chain",), rig.chain)]
    chains += [(("backups", n, "chain"), one.chain) for n, one in enumerate(rig.backups or [])]
    for key, parts in chains:
        for n, part in enumerate(parts):
            anchor = _nearest_anchor(parts, n) if part.legs else None
            if anchor is None or anchor not in spot.anchors or not spot.anchors[anchor].points:
                continue
            known = {*spot.anchors[anchor].points, *spot.anchors}
            for m, leg in enumerate(part.legs or []):
                if leg.to is not None and leg.to not in known:
                    yield (*key, n, "legs", m, "to"), leg.to, anchor


def _nearest_anchor(parts: list[Part], n: int) -> str | None:
    """Return the anchor at the end of a chain that a part is nearest to; None where an end is not tied to one."""
    first, last = parts[0], parts[-1]
    if first.part != "anchor" or last.part != "anchor":
        return None
    return (first if 2 * n < len(parts) else last).at
