"""Strength of a part in its place: breaking strength from the label, times what the place takes off it."""

from __future__ import annotations

from dataclasses import replace
from math import degrees, radians

from riglint.loadpath import Contact, Placed, toward_anchor
from riglint.loads.inputs import At, MissingInput, NotComputable, need, unanswered
from riglint.loads.path.geometry import Geometry
from riglint.loads.strength.strength import Reduction, Strength
from riglint.mechanics.anchors.connector_class import connector_class
from riglint.mechanics.anchors.sling import mode_factor
from riglint.model.library import Item
from riglint.model.values.defaults import DEFAULTS
from riglint.model.values.knots import UNKNOTTED
from riglint.model.values.sources import Source
from riglint.model.vocabulary.words import Hitch

SLINGS = frozenset({"round_sling", "flat_sling"})
# What no standard rates in use with a known factor: its rated load says nothing of where it breaks.
NO_FACTOR = frozenset({"webbing", "sewn_end", "webbing_anchor", "puller"})
RATED_ONLY = "has a rated load but no breaking strength"
BREAKS_AT = "Fill in mbs, the breaking strength by label or maker. No fixed factor converts a rated load."
NOTHING_TIED = "nothing is tied, so nothing holds the rope"
NARROW = radians(1.0)  # legs that lie side by side, though not so that anybody would call them parallel
MODES = Source("EN 1492 mode factors, from a sling user manual", "standard", ("en_1492",))


def screwed(item: Item) -> bool:
    """Return whether a link is closed by a sleeve that screws over its gap; any other connector has a gate."""
    return item.gear.kind == "quick_link" or item.gear.connector_class == "Q"


def is_slick(rope: Item) -> bool:
    """Return whether a rope is of UHMWPE, in which knots slip."""
    return rope.gear.type == "hmpe" or rope.gear.material == "uhmwpe"


class Strengths:
    """Finds the strength of every part of one rig."""

    def __init__(self, geometry: Geometry) -> None:
        self.geometry, self.values = geometry, geometry.values

    def _reduction(self, why: str, name: str) -> Reduction:
        return Reduction(why, self.values[name], DEFAULTS[name].source)

    def of_gear(self, item: Item, part: str, *more: Reduction) -> Strength:
        """Return the strength of a piece of gear: its label's, or its rated load times the factor of its standard.

        Raises:
            MissingInput: neither is on the shelf.
        """
        found = self.credited(item, part)
        reductions = (*more, *self._wet(item, part))
        return Strength(found.breaking_n, found.breaking_from, found.at, reductions, found.rated_n)

    def credited(self, item: Item, part: str | None = None) -> Strength:
        """Return what a label is credited with before its place takes anything off it.

        Raises:
            MissingInput: neither strength is on the shelf, or only the rated load of what has no factor of its own.
        """
        gear = item.gear
        at = At(item.document, (*item.key, "mbs" if gear.mbs or not gear.wll else "wll"), part)
        rated = gear.wll.si if gear.wll else None
        if gear.mbs is not None:
            return Strength(gear.mbs.si, "label", at, (), rated)
        rated = need(rated, At(item.document, (*item.key, "mbs"), part))
        if gear.kind in NO_FACTOR:
            raise MissingInput(unanswered(at, RATED_ONLY, BREAKS_AT))
        factor, words = self._rated_factor(item)
        return Strength(rated * factor, f"rated load × {factor:g}, {words}", at, (), rated)

    def _rated_factor(self, item: Item) -> tuple[float, str]:
        standard = item.gear.standard or ""
        if "1492" in standard:
            return self.values["factor_en_1492"], "the factor of EN 1492"
        if "13889" in standard:
            return self.values["factor_en_13889"], "the factor of EN 13889"
        if item.gear.kind in SLINGS:
            return self.values["sling_factor"], "for a sling that names no standard"
        return self.values["metal_factor"], "for metal that names no standard"

    def _wet(self, item: Item, part: str) -> tuple[Reduction, ...]:
        plan = self.geometry.rig.rig.plan
        wet = plan.wet if plan else None
        if item.gear.material == "polyamide":
            # Only nylon loses strength in water: polyester and UHMWPE keep theirs.
            if need(wet, At(self.geometry.rig.document, ("plan", "wet"))):
                return (self._reduction("wet polyamide", "wet_polyamide"),)
        # Of an unknown fibre, it might be nylon.
        elif wet and item.gear.material is None and item.gear.kind in SLINGS | {"webbing", "rope", "cord"}:
            raise MissingInput(At(item.document, (*item.key, "material"), part))
        return ()

    # Parts of the chain

    def of_part(self, placed: Placed) -> Strength:
        """Return the strength of a part by itself.

        Raises:
            MissingInput: something that it rests on is not given.
        """
        kind = placed.part.part
        if kind == "sling":
            return self.of_sling(placed)
        if kind == "sewn_end" and (placed.item is None or placed.item.gear.mbs is None):
            return self.of_webbing_at(placed, self._reduction("sewn loop", "sewn_end"))
        joined = kind == "webbing_join" and placed.part.gear is None and placed.part.knot is not None
        if kind == "webbing_knot" or joined:
            return self._of_webbing_knot(placed)
        if kind == "rope_knot":
            return self._of_rope_knot(placed)
        return self._of_link(kind, need(placed.item, self.geometry.on_part(placed, "gear")), placed)

    def _of_link(self, kind: str, item: Item, placed: Placed) -> Strength:
        """Return the strength of a piece of metal as it is pulled in its place."""
        if kind == "shackle" and placed.part.side_load is not None:
            return self._side_loaded(item, placed)
        if kind in {"connector", "quick_link"} and screwed(item) and self._pulled_apart(placed):
            return self._across(item, placed.id)
        return self.of_gear(item, placed.id)

    def _of_webbing_knot(self, placed: Placed) -> Strength:
        reduction = self._reduction(f"knot: {placed.part.knot or 'not named'}", "webbing_knot")
        strength = self.of_webbing_at(placed, reduction)
        return replace(strength, no_rating=NOTHING_TIED) if placed.part.knot == "none" else strength

    def _pulled_apart(self, placed: Placed) -> bool:
        """Return whether both ends of a sling in basket hang in a connector, so that it is pulled three ways."""
        beside = toward_anchor(self.geometry.path, placed).part
        return beside is not None and beside.part.part == "sling" and beside.part.hitch in {"basket", "wrap"}

    def _across(self, item: Item, part: str) -> Strength:
        """Return what a screwed link holds when it is pulled three ways, which nobody rates: its strength across.

        A connector with a gate may not hang there at all, which a rule of its own tells.

        By its label, else the least that its class must hold.

        Raises:
            MissingInput: the label gives neither.
        """
        at = At(item.document, (*item.key, "mbs_minor"), part)
        given, letter = item.gear.mbs_minor, item.gear.connector_class
        least = connector_class(letter).minor_n if letter else None
        if given is None and least is not None:
            return Strength(least, f"least across of class {letter}, pulled three ways", at)
        return Strength(need(given, at).si, "label: across, pulled three ways", at)

    def of_webbing_at(self, placed: Placed, reduction: Reduction) -> Strength:
        """Return the strength that the webbing keeps at one of its ends."""
        found = [
            self.of_gear(need(one.item, self.geometry.on_part(one, "gear")), placed.id, reduction)
            for one in self.geometry.path.spanning_beside(placed)
        ]
        if not found:
            raise NotComputable(f"{placed.words} ({placed.id}) has no webbing or rope beside it")
        return min(found, key=lambda strength: strength.strength_n)

    def in_webbing_anchor(self, placed: Placed) -> Strength:
        """Return the strength that the webbing keeps in its anchor."""
        return self.of_webbing_at(placed, self._reduction("in the webbing anchor", "webbing_anchor"))

    def _side_loaded(self, item: Item, placed: Placed) -> Strength:
        assert placed.part.side_load is not None  # noqa: S101 - for the type checker
        angle = degrees(placed.part.side_load.si)
        if angle > 90.0:  # noqa: PLR2004 - beyond it nobody rates a shackle
            strength = self.of_gear(item, placed.id)
            why = f"pulled {angle:.0f}° out of its plane, where no shackle is rated"
            return Strength(
                strength.breaking_n, strength.breaking_from, strength.at, (), strength.rated_n, why
            )
        factor = self._side_factor(angle)
        return self._in_place(
            self.of_gear(item, placed.id),
            Reduction(f"side load {angle:.0f}°", factor, DEFAULTS["side_load.45_deg"].source),
        )

    def _side_factor(self, angle_deg: float) -> float:
        """Return the share that a shackle keeps: straight lines between 0°, 45° and 90°."""
        half, side = self.values["side_load.45_deg"], self.values["side_load.90_deg"]
        if angle_deg <= 45.0:  # noqa: PLR2004 - where the two lines meet
            return 1.0 - (1.0 - half) * angle_deg / 45.0
        return half - (half - side) * (angle_deg - 45.0) / 45.0

    def of_sling(self, placed: Placed) -> Strength:
        """Return a sling's strength in its hitch: straight strength times the mode factor of its angle.

        Raises:
            MissingInput: sling, hitch, length or girth are not given.
        """
        item = need(placed.item, self.geometry.on_part(placed, "gear"))
        strength = self.of_gear(item, placed.id)
        hitch: Hitch = need(placed.part.hitch, self.geometry.on_part(placed, "hitch"))
        knotted = (self._reduction("knotted or twisted", "knotted_sling"),) if placed.part.knotted else ()
        contact = self.geometry.contact(placed)
        angle = self._sling_angle(placed, contact, hitch)
        too_short = contact.kind == "tree" and hitch != "straight" and angle is None
        mode = None if too_short else mode_factor(hitch, angle)
        if mode is None:
            why = (
                "too short to go round"
                if too_short
                else f"legs {degrees(angle or 0.0):.0f}° apart, beyond 120° no sling is rated"
            )
            return Strength(
                strength.breaking_n, strength.breaking_from, strength.at, (), strength.rated_n, why
            )
        words = f"{hitch.replace('_', ' ')}" + (f", {degrees(angle):.0f}° included" if angle else "")
        return self._in_place(strength, *self._laid(contact, hitch, words, mode), *knotted)

    def _sling_angle(self, placed: Placed, contact: Contact, hitch: Hitch) -> float | None:
        """Return the angle between a sling's legs; None where it has none, or does not close round its trunk.

        Round something thin its legs lie side by side.
        """
        if hitch == "straight":
            return None
        if placed.part.included_angle is not None:
            return placed.part.included_angle.si
        if contact.kind == "tree":
            return self.geometry.sling_shape(placed).angle_rad
        if hitch in {"choke", "larks_foot"}:
            return None
        if contact.thin:
            return NARROW
        raise MissingInput(self.geometry.on_part(placed, "included_angle"))

    def _laid(self, contact: Contact, hitch: Hitch, words: str, mode: float) -> list[Reduction]:
        """Return what its hitch takes off a sling, what decides its rated load first.

        Hitched to metal or to a textile it keeps what a test says, and no mode factor comes on top.
        """
        choked = hitch in {"choke", "larks_foot"}
        if not contact.thin or not (choked or contact.kind == "textile"):
            return [Reduction(words, mode, MODES)]
        hitched = self._reduction(f"{words} on {contact.words}", "sling_hitched")
        return [hitched] if choked or hitch == "straight" else [hitched, Reduction(words, mode, MODES)]

    def _in_place(self, strength: Strength, mode: Reduction, *more: Reduction) -> Strength:
        # A label rates a load by the hitch alone; knots and water count against the breaking strength.
        rated = None if strength.rated_n is None else strength.rated_n * mode.factor
        reductions = (mode, *more, *strength.reductions)
        return Strength(strength.breaking_n, strength.breaking_from, strength.at, reductions, rated)

    # Rope

    def of_rope(self, item: Item, end: str, part: str) -> Strength:
        """Return the strength of a rope with its end made that way."""
        return self._ended(self.of_gear(item, part), item, end, f"{end.replace('_', ' ')} end")

    def _of_rope_knot(self, placed: Placed) -> Strength:
        knot = need(placed.part.knot, self.geometry.on_part(placed, "knot"))
        words = f"{knot.replace('_', ' ')} knot"
        found = [
            self._ended(self.of_gear(rope, placed.id), rope, knot, words)
            for one in self.geometry.path.spanning_beside(placed)
            for rope in (need(one.item, self.geometry.on_part(one, "gear")),)
        ]
        if not found:
            raise NotComputable(f"{placed.words} ({placed.id}) has no webbing or rope beside it")
        return min(found, key=lambda strength: strength.strength_n)

    def _ended(self, strength: Strength, rope: Item, end: str, words: str) -> Strength:
        """Return the strength of a rope at an end: what its knot keeps, nothing where none is tied."""
        if end == "none":
            return replace(strength, no_rating=NOTHING_TIED)
        name = "knot_in_uhmwpe" if is_slick(rope) and end not in UNKNOTTED else f"knot.{end}"
        return replace(strength, reductions=(self._reduction(words, name), *strength.reductions))

    def of_tie_back(self, item: Item, placed: Placed) -> Strength:
        """Return the strength of the tie-back at a part, or of its sling, made fast as the file says.

        Where it does not say, rope and cord count with a figure-eight in their ends, webbing with a knot, a sling
        choked round its anchor.
        """
        tie = placed.part.tie_back
        ends = tie.ends if tie is not None and tie.gear == item.id else None
        if item.gear.kind in {"rope", "cord"}:
            return self.of_rope(item, ends or "figure_eight", placed.id)
        if item.gear.kind == "webbing" and ends in UNKNOTTED | {"none"}:
            return self.of_rope(item, str(ends), placed.id)
        if item.gear.kind == "webbing":
            return self.of_gear(item, placed.id, self._reduction("a knot in its ends", "webbing_knot"))
        choked = mode_factor("choke", None)
        return self.of_gear(
            item, placed.id, *([Reduction("choked", choked, MODES)] if choked is not None else [])
        )
