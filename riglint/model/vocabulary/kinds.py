"""Which keys each kind of part, gear and anchor takes, and which it needs.

The one table behind both the check of a file and its JSON Schema.
"""

from typing import NamedTuple


class Kind(NamedTuple):
    """The keys of one kind beside those that all kinds share."""

    takes: frozenset[str]
    needs: frozenset[str] = frozenset()


def _kind(takes: str = "", needs: str = "") -> Kind:
    return Kind(frozenset(takes.split()) | frozenset(needs.split()), frozenset(needs.split()))


PART_SHARED = frozenset({"part", "id", "note"})
PART: dict[str, Kind] = {
    "anchor": _kind("height", needs="at"),
    "protector": _kind("gear length"),
    "sling": _kind("gear hitch around knotted stop_cord included_angle reach"),
    "legs": _kind("share included_angle extension", needs="legs"),
    "shackle": _kind("gear pins side_load reach"),
    "connector": _kind("gear pins reach"),
    "quick_link": _kind("gear pins reach"),
    "ring": _kind("gear reach"),
    "swivel": _kind("gear reach"),
    "plate": _kind("gear reach"),
    "webbing_anchor": _kind("gear tail tail_tied pins reach"),
    "webbing": _kind("gear cut length twists"),
    "sewn_end": _kind("gear"),
    "webbing_knot": _kind("knot tail tail_tied"),
    "webbing_join": _kind("gear knot tail pins reach"),
    "rope": _kind("gear cut length"),
    "rope_knot": _kind("knot tail"),
    "haul": _kind(
        "strands moving_block fixed_block plate rope open closed at_standing stays made_fast brake tail "
        "multiplier tie_back pull efficiency"
    ),
    "puller": _kind("gear ratio reach tie_back stands_at"),
}

# What is looked at on site belongs to a rig and to no kit: a call says it for all parts of the kit that have the key.
TICKED = frozenset({"pins", "tail_tied"})
TICKED_INSIDE = frozenset(
    {"brake", "tail", "multiplier"}
)  # of a pulley system, where a call has a group there
SEEN_ON_SITE = TICKED | {"locked", "threading_checked", "tied_off", "left_on", "partner_check"}

GEAR_SHARED = _kind(
    "kind title note serial material standard mbs wll made made_by first_used inspected label events days_used reach"
).takes
GEAR: dict[str, Kind] = {
    "webbing": _kind("width thickness mass_per_metre stretch stretch_in_use length"),
    "sewn_end": _kind("width length"),
    "webbing_anchor": _kind("width_min width_max pin"),
    "round_sling": _kind("length width thickness colour"),
    "flat_sling": _kind("length width thickness colour"),
    "shackle": _kind("shape pin jaw diameter"),
    "connector": _kind("connector_class gate mbs_minor"),
    "quick_link": _kind("connector_class mbs_minor diameter"),
    "ring": _kind("forged diameter"),
    "swivel": _kind(),
    "plate": _kind("hole mass"),
    "pulley": _kind("sheaves bearing sheave_diameter rope_max efficiency mass"),
    "puller": _kind("form width"),
    "rope": _kind("type diameter stretch stretch_in_use mass_per_metre length doubled"),
    "cord": _kind("diameter length"),
    "brake": _kind("rope_min rope_max holds mass"),
    "grip": _kind("rope_min rope_max max_load"),
    "leash": _kind("type diameter length doubled stretch_per_kn"),
    "harness": _kind(),
    "protector": _kind("length width thickness"),
    "dynamometer": _kind(),
    "bolt": _kind("radial axial diameter"),
}

# What is sewn, woven or braided: it ages, and hides what acid, heat or an edge did to it.
TEXTILE_KINDS = frozenset(
    {"webbing", "sewn_end", "round_sling", "flat_sling", "rope", "cord", "leash", "harness"}
)
TEXTILE_FORMS = frozenset({"ratchet", "webbing_tackle"})  # pullers that hold by a band of webbing

ANCHOR_SHARED = frozenset({"kind", "note", "plan"})
ANCHOR: dict[str, Kind] = {
    "tree": _kind("species girth girth_at bark health fork deadwood lean"),
    "bolts": _kind("rock points"),
    "boulder": _kind("mass friction rock"),
    "ground": _kind("tested_force tested"),
    "structure": _kind("owner_agrees design_force tested_force tested"),
}

# Kind of gear that each kind of part may be made of.
GEAR_OF_PART: dict[str, frozenset[str]] = {
    "protector": frozenset({"protector"}),
    "sling": frozenset({"round_sling", "flat_sling", "rope", "cord"}),
    "shackle": frozenset({"shackle"}),
    "connector": frozenset({"connector"}),
    "quick_link": frozenset({"quick_link", "connector"}),
    "ring": frozenset({"ring"}),
    "swivel": frozenset({"swivel"}),
    "plate": frozenset({"plate"}),
    "webbing_anchor": frozenset({"webbing_anchor"}),
    "webbing": frozenset({"webbing"}),
    "rope": frozenset({"rope"}),
    "sewn_end": frozenset({"sewn_end"}),
    "webbing_join": frozenset({"webbing_anchor", "quick_link", "connector", "ring", "sewn_end"}),
    "puller": frozenset({"puller"}),
}

# The same for the places inside a haul, by the key that names the gear.
GEAR_OF_HAUL: dict[str, frozenset[str]] = {
    "moving_block": frozenset({"pulley"}),
    "fixed_block": frozenset({"pulley"}),
    "plate": frozenset({"plate"}),
    "rope.gear": frozenset({"rope"}),
    "rope.dead_end.by": frozenset({"shackle", "connector", "quick_link", "ring"}),
    "brake.gear": frozenset({"brake"}),
    "brake.connector": frozenset({"shackle", "connector", "quick_link"}),
    "multiplier.grip": frozenset({"grip"}),
    "multiplier.pulley": frozenset({"pulley", "connector", "quick_link"}),
    "multiplier.connector": frozenset({"shackle", "connector", "quick_link"}),
    "tie_back.gear": frozenset({"rope", "cord", "round_sling", "flat_sling", "webbing"}),
    "tie_back.sling": frozenset({"round_sling", "flat_sling"}),
    "pull.redirect.gear": frozenset({"pulley"}),
}

# Which part a piece of gear is where its chain gives only its name; what can be several parts is not told by it.
PART_OF_GEAR: dict[str, str] = {
    "protector": "protector",
    "round_sling": "sling",
    "flat_sling": "sling",
    "shackle": "shackle",
    "connector": "connector",
    "quick_link": "quick_link",
    "ring": "ring",
    "swivel": "swivel",
    "plate": "plate",
    "webbing_anchor": "webbing_anchor",
    "webbing": "webbing",
    "sewn_end": "sewn_end",
    "puller": "puller",
}
# Keys of a part that tell which part it is.
TELLING = ("gear", "at", "legs")
