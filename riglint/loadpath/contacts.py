"""Contacts: what each sling goes round or hangs in, and which protectors lie between. No forces, no lengths.

A sling that is nearest to its anchor goes round the anchor's structure. One that has other parts on both sides joins
these two, and goes round the one on its anchor's side. What `around` says goes before both.
"""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import takewhile
from typing import Literal

from riglint.loadpath.path import LoadPath, Placed
from riglint.model.documents.parts import Leg
from riglint.model.documents.spot import Anchor
from riglint.model.library import Item
from riglint.model.vocabulary.words import in_prose
from riglint.records import dataclass

Touched = Literal["tree", "boulder", "bolts", "ground", "structure", "textile", "metal", "unknown"]

TEXTILE = frozenset({"sling", "sewn_end", "webbing", "webbing_knot", "rope", "rope_knot"})
TEXTILE_GEAR = frozenset({"round_sling", "flat_sling", "rope", "cord", "webbing", "sewn_end", "leash"})
# Words of `around` that name no part, in the order in which they count: "the tree's ring" is a ring.
WORDS: tuple[tuple[Touched, str], ...] = (
    ("metal", r"\b(ring|shackle|pin|bow|link|connector|carabiner|plate|block|pulley|swivel|eye|hook)s?\b"),
    ("textile", r"\b(sling|loop|strop|webbing|rope|cord)s?\b"),
    ("bolts", r"\b(bolt|hanger)s?\b"),
    ("tree", r"\b(tree|trunk|stem|log)s?\b"),
    ("boulder", r"\b(boulder|rock|block of stone|stone)s?\b"),
    ("structure", r"\b(post|pole|beam|pillar|frame|wall|structure)s?\b"),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Contact:
    """What a sling goes round or hangs in, on the side of its anchor."""

    kind: Touched
    words: str  # such as `the tree 'gate'` or `shackle SH-1`
    anchor: str | None = None  # the structure's name on the spot, where it is one
    structure: Anchor | None = None
    part: Placed | None = None  # the part of the chain, where it is one
    covers: tuple[Placed, ...] = ()  # protectors between the sling and the structure
    stated: bool = False  # whether the file says so itself, under `around`

    @property
    def thin(self) -> bool:
        """Whether it is as thin as a sling or thinner: textile, metal, or what only the file has a word for.

        An anchor that no spot describes may be of any size.
        """
        return self.kind in {"textile", "metal"} or (self.kind == "unknown" and self.stated)


def contact_of(path: LoadPath, sling: Placed) -> Contact:
    """Return what a sling goes round or hangs in."""
    if sling.part.around is not None:
        return _with_covers(path, sling, replace(_named(path, sling, sling.part.around), stated=True))
    return _with_covers(path, sling, toward_anchor(path, sling))


def toward_anchor(path: LoadPath, placed: Placed) -> Contact:
    """Return what lies next to a part on the side of its anchor; protectors lie beside the load's way."""
    run, step = path.run_of(placed), path.step_to_anchor(placed)
    # Between two webbings neither side is the anchor's, so the one that is written first counts.
    beside = _next(run, placed, step) if step else _next(run, placed, -1)
    if beside is not None and beside.part.part != "anchor":
        return _part(beside)
    leg = path.leg_of(placed)
    if leg is not None:
        return _structure(path, placed, leg.to) if leg.to else _anchor(path, placed)
    holder = path.parts[path.number(placed)]
    if holder.key != placed.key and step:  # the end of what is made fast: on with the chain
        return toward_anchor(path, holder)
    return _anchor(path, placed)


def toward_line(path: LoadPath, placed: Placed) -> Placed | None:
    """Return the part next to another on the webbing's side; the one that a spread is joined to for its last parts."""
    run, step = path.run_of(placed), path.step_to_anchor(placed)
    beside = _next(run, placed, -step) if step else _next(run, placed, 1)
    holder = path.parts[path.number(placed)]
    if beside is None and holder.key != placed.key:
        return toward_line(path, holder)
    return beside


def _next(run: tuple[Placed, ...], placed: Placed, step: int) -> Placed | None:
    n = next(m for m, one in enumerate(run) if one.key == placed.key)
    rest = run[n + 1 :] if step > 0 else run[:n][::-1]
    return next((one for one in rest if one.part.part != "protector"), None)


def _part(placed: Placed) -> Contact:
    """Return a part of the chain as what is touched; a spread of legs ends in its slings."""
    kind = placed.part.part
    soft = kind in TEXTILE or (placed.item is not None and placed.item.gear.kind in TEXTILE_GEAR)
    if kind == "legs":
        ends = [leg.chain[-1].part if leg.chain else "sling" for leg in placed.part.legs or []]
        soft = any(end in TEXTILE for end in ends)
    return Contact("textile" if soft else "metal", placed.words, part=placed)


def _anchor(path: LoadPath, placed: Placed) -> Contact:
    anchor = path.anchor_of(placed)
    return _structure(path, placed, anchor.part.at or anchor.id)


def _structure(path: LoadPath, placed: Placed, name: str) -> Contact:
    """Return an anchor of the spot, or a bolt of one, by its name."""
    spot = path.rig.spot
    home = path.anchor_of(placed).part.at
    anchors = spot.anchors if spot else {}
    if home in anchors and name in anchors[home].points:
        return Contact("bolts", f"the bolt '{name}'", home, anchors[home])
    if name in anchors:
        kind = anchors[name].kind
        words = f"the {'anchor' if kind == 'bolts' else kind} '{name}'"
        return Contact(kind, words, name, anchors[name])
    for other, structure in anchors.items():
        if name in structure.points:
            return Contact("bolts", f"the bolt '{name}'", other, structure)
    return Contact("unknown", f"'{name}'")


def _named(path: LoadPath, sling: Placed, name: str) -> Contact:
    """Return what `around` means: an anchor, a bolt, a part or a piece of gear by its name, else by its words."""
    found = _structure(path, sling, name)
    if found.kind != "unknown":
        return found
    for one in path.everything:
        if name in one.names and one.key != sling.key:
            return _part(one)
    item = path.rig.items.get(name)
    if item is not None:
        return Contact("textile" if item.gear.kind in TEXTILE_GEAR else "metal", _gear(item))
    kind: Touched = next((kind for kind, words in WORDS if re.search(words, name.lower())), "unknown")
    home = _anchor(path, sling)
    # `around: the tree` means the tree that this end hangs on.
    return home if kind == home.kind else Contact(kind, name)


def _gear(item: Item) -> str:
    return f"{in_prose(item.gear.kind)} {item.id}"


def _with_covers(path: LoadPath, sling: Placed, contact: Contact) -> Contact:
    """Add the protectors: those beside the sling, else those of the chain where both mean the same anchor."""
    if contact.structure is None:
        return contact
    run = path.run_of(sling)
    n = next(m for m, one in enumerate(run) if one.key == sling.key)
    beside = [*takewhile(_covers, run[:n][::-1]), *takewhile(_covers, run[n + 1 :])]
    if not beside and contact.anchor == path.anchor_of(sling).part.at:
        nearest = path.beside(path.parts[path.number(sling)], "protector")
        beside = [nearest] if nearest is not None else []
    return replace(contact, covers=tuple(beside))


def _covers(placed: Placed) -> bool:
    return placed.part.part == "protector"


def leg_target(path: LoadPath, holder: Placed, leg: Leg) -> Contact:
    """Return what a leg of a spread goes to; the chain's own anchor where it does not say."""
    return _structure(path, holder, leg.to) if leg.to else _anchor(path, holder)
