"""Whether the parts of a chain hold together: every break that a look at the order shows."""

from collections.abc import Iterator
from dataclasses import replace

from riglint.loadpath.gear import gear_named
from riglint.loadpath.joints import inside_legs, unjoined
from riglint.loadpath.path import AGAINST, ENDS, IDLE, SPANNING, Break, LoadPath, Placed, first_up, place
from riglint.model.documents.parts import Part
from riglint.model.library import RigFile
from riglint.model.load import Key
from riglint.read.problems import key_text


def build(rig: RigFile) -> LoadPath:
    """Return the load path of a rig with every break that a look at the order shows."""
    return build_chain(rig, ("chain",), rig.rig.chain)


def build_chain(rig: RigFile, key: Key, chain: list[Part]) -> LoadPath:
    """Return the load path of one chain of a rig: the main line's or a backup's."""
    parts = place(rig, key, chain)
    bare = LoadPath(rig, parts, (), key)
    return replace(bare, breaks=(*_breaks(rig, key, parts), *unjoined(bare), *inside_legs(bare)))


def _breaks(rig: RigFile, key: Key, parts: tuple[Placed, ...]) -> list[Break]:
    if not parts:
        return [
            Break(
                key_text(key),
                key,
                "The chain is empty.",
                "List every part from one anchor to the other.",
                True,
            )
        ]
    return [
        *_at_the_ends(parts),
        *_at_the_webbing(key, parts),
        *_against_the_anchors(rig, parts),
        *_beside_protectors(parts),
        *_doubled(rig, parts),
    ]


def _at_the_ends(parts: tuple[Placed, ...]) -> list[Break]:
    found: list[Break] = []
    for placed, where in ((parts[0], "begins"), (parts[-1], "ends")):
        if placed.part.part != "anchor":
            message = f"The chain {where} with {placed.words}, so nothing holds that end."
            found.append(
                Break(placed.id, placed.key, message, "Begin and end the chain with its anchors.", True)
            )
    for placed in parts[1:-1]:
        if placed.part.part == "anchor":
            message = f"An anchor is inside the chain, as part {parts.index(placed) + 1} of {len(parts)}."
            found.append(
                Break(placed.id, placed.key, message, "Keep two anchors: the first part and the last.", True)
            )
    first, last = parts[0].part.at, parts[-1].part.at
    if len(parts) > 1 and first is not None and first == last:
        message = f"Both ends of the chain go to the anchor '{first}'."
        found.append(
            Break(parts[-1].id, parts[-1].key, message, "Name the two anchors at the ends of the line.", True)
        )
    return found


def _at_the_webbing(key: Key, parts: tuple[Placed, ...]) -> list[Break]:
    if not any(placed.part.part in SPANNING for placed in parts):
        do = "Add the webbing with the parts that hold it at both ends."
        return [Break(key_text(key), key, "There is no webbing between the anchors.", do, True)]
    found = [one for n in range(len(parts)) for one in _at_one_part(parts, n)]
    return found + _second_haul(parts)


def _at_one_part(parts: tuple[Placed, ...], n: int) -> Iterator[Break]:
    """Yield what is wrong between one part and those beside it: webbing held by nothing, an end that holds none."""
    placed = parts[n]
    beside = [parts[m] for m in (n - 1, n + 1) if 0 <= m < len(parts)]
    if placed.part.part in SPANNING:
        for other in beside:
            if not _holds_webbing(other):
                message = f"{first_up(placed.words)} runs straight into {other.words}. Nothing holds its end."
                do = "Put a webbing anchor, a sewn loop or a join between the two."
                yield Break(placed.id, placed.key, message, do, True)
    elif placed.part.part in ENDS and not any(other.part.part in _held_by(placed) for other in beside):
        message = f"{first_up(placed.words)} isn't next to any webbing, so it holds none."
        yield Break(placed.id, placed.key, message, "Put it next to the webbing that it holds.", True)


def _second_haul(parts: tuple[Placed, ...]) -> list[Break]:
    hauls = [placed for placed in parts if placed.part.part == "haul"]
    if len(hauls) < 2:  # noqa: PLR2004 - one is what can be calculated
        return []
    message = "The chain has two pulley systems. We can calculate one, not two."
    do = "Keep the one that is loaded at standing tension."
    return [Break(hauls[-1].id, hauls[-1].key, message, do, True)]


def _held_by(placed: Placed) -> frozenset[str]:
    """Return what an end may lie beside: webbing, and for a join the sewn ends of the two pieces as well."""
    return SPANNING | {"sewn_end"} if placed.part.part == "webbing_join" else SPANNING


def _holds_webbing(placed: Placed) -> bool:
    """Return whether a part holds an end of webbing: a ratchet has it wound on its own axle."""
    ratchet = placed.item is not None and placed.item.gear.form == "ratchet"
    return placed.part.part in ENDS or (placed.part.part == "puller" and ratchet)


def _against_the_anchors(rig: RigFile, parts: tuple[Placed, ...]) -> list[Break]:
    found: list[Break] = []
    inner = [placed for placed in parts if placed.part.part not in IDLE]
    if not inner or rig.spot is None:
        return found
    for anchor, against in ((parts[0], inner[0]), (parts[-1], inner[-1])):
        structure = rig.spot.anchors.get(anchor.part.at or "")
        if structure is None or anchor.part.part != "anchor" or against.part.part in AGAINST[structure.kind]:
            continue
        what = f"{structure.kind} '{anchor.part.at}'"
        message = f"{first_up(against.words)} is next to the {what} with nothing round it."
        do = f"Add the sling or spread that holds it to the {structure.kind}."
        found.append(Break(against.id, against.key, message, do, False))
    return found


def _beside_protectors(parts: tuple[Placed, ...]) -> list[Break]:
    found: list[Break] = []
    for n, placed in enumerate(parts):
        if placed.part.part != "protector":
            continue
        beside = {parts[m].part.part for m in (n - 1, n + 1) if 0 <= m < len(parts)}
        if not beside & {"anchor", "sling", "protector"}:
            message = f"{first_up(placed.words)} isn't next to a sling or an anchor, so it protects nothing."
            found.append(Break(placed.id, placed.key, message, "Put it next to its sling.", False))
    return found


def _doubled(rig: RigFile, parts: tuple[Placed, ...]) -> list[Break]:
    found: list[Break] = []
    seen: dict[str, str] = {}
    for key, name in gear_named(parts):
        if name in seen:
            message = f"{name} is in two places of the chain: {seen[name]} and {key_text(key)}."
            do = "One piece of gear can only be in one place. Name another."
            cover = name in rig.items and rig.items[name].gear.kind == "protector"  # it carries nothing
            found.append(Break(key_text(key[:2]), key, message, do, False, "CAUTION" if cover else None))
        elif name in rig.items:
            seen[name] = key_text(key)
    return found
