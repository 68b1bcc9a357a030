"""The words that a rig file may use: each a closed list, in the trade's or a standard's own terms."""

from collections.abc import Iterable
from typing import Literal

Use = Literal["lowline", "longline", "jumpline", "midline", "highline", "waterline", "slackrope"]
Move = Literal["walk", "bounce", "surf", "jump", "fall_on_leash"]
Level = Literal["beginner", "practised", "expert"]
Stage = Literal["planned", "built", "walking", "lowered"]
Lowering = Literal["brake", "haul_back", "cut", "tripped"]
StandingAt = Literal["haul", "start", "end"]
StandingFrom = Literal["plan", "measured"]
Consequence = Literal["ground", "fall", "life"]
SignalWord = Literal["NOTICE", "CAUTION", "WARNING", "DANGER"]
KnownWord = Literal["NOTICE", "CAUTION", "WARNING"]
KnownKind = Literal["fail", "review"]
Units = Literal["metric", "imperial", "both"]

PartKind = Literal[
    "anchor",
    "protector",
    "sling",
    "legs",
    "shackle",
    "connector",
    "quick_link",
    "ring",
    "swivel",
    "plate",
    "webbing_anchor",
    "webbing",
    "sewn_end",
    "webbing_knot",
    "webbing_join",
    "rope",
    "rope_knot",
    "haul",
    "puller",
]
GearKind = Literal[
    "webbing",
    "sewn_end",
    "webbing_anchor",
    "round_sling",
    "flat_sling",
    "shackle",
    "connector",
    "quick_link",
    "ring",
    "swivel",
    "plate",
    "pulley",
    "puller",
    "rope",
    "cord",
    "brake",
    "grip",
    "leash",
    "harness",
    "protector",
    "dynamometer",
    "bolt",
]
AnchorKind = Literal["tree", "bolts", "boulder", "ground", "structure"]
FIBRES = frozenset({"polyamide", "polyester", "uhmwpe", "aramid", "polypropylene", "mixed"})
Material = Literal[
    "polyamide",
    "polyester",
    "uhmwpe",
    "aramid",
    "polypropylene",
    "mixed",
    "steel",
    "stainless",
    "aluminium",
    "titanium",
]

Hitch = Literal["straight", "basket", "choke", "larks_foot", "wrap"]
Knot = Literal[
    "overhand",
    "double_overhand",
    "figure_eight",
    "figure_nine",
    "bowline",
    "butterfly",
    "double_fisherman",
    "clove_hitch",
    "round_turn",
    "barrel",
    "water_knot",
    "other",
    "none",
]
RopeEnd = Literal["sewn", "spliced", Knot]  # one list: a union would name its branches in places of errors
ShackleShape = Literal["bow", "dee"]
Pin = Literal["screw", "screw_moused", "bolt_nut_cotter"]
ConnectorClass = Literal["B", "H", "K", "A", "T", "Q", "X"]
Gate = Literal["screw", "twist", "auto", "none"]
Bearing = Literal["ball", "bushing", "none"]
Side = Literal["fixed", "moving"]
BlockName = Literal["moving_block", "fixed_block"]
Strand = Literal["lead", "tail"]
Bites = Literal["toward_load", "toward_hand"]
PullFrom = Literal["aside", "behind"]
PullerForm = Literal["ratchet", "lever_hoist", "webbing_tackle"]
RopeType = Literal["low_stretch", "dynamic", "hmpe"]
Share = Literal["fixed", "sliding", "sliding_limited", "slack_spare"]

Bark = Literal["smooth", "rough"]
Health = Literal["sound", "doubtful", "dead"]
Fork = Literal["none", "u", "v"]
Soil = Literal["dry", "wet", "shallow", "rock"]
Surface = Literal["grass", "soil", "sand", "gravel", "rock", "asphalt", "concrete", "mat", "water"]
SpanBetween = Literal["faces", "points", "webbing"]

Maker = Literal["maker", "workshop", "home"]
Label = Literal["readable", "unreadable", "missing"]
EventKind = Literal[
    "hard_catch",
    "overload",
    "cut",
    "abrasion",
    "burn",
    "chemical",
    "stitching",
    "dropped",
    "repaired",
    "recalled",
    "retired",
    "inspected",
    "released",
]
ForceAt = Literal["lead_strand", "line", "start", "end"]

# What people say for words of the file format that are ours alone.
TRADE = {
    "haul": "pulley system",
    "puller": "tensioner",
    "sewn_end": "sewn loop",
    "slackrope": "rodeo line",
    "low_stretch": "static",
}

# What people may write for a word of the format; where there are two, the one that the place takes is meant.
SYNONYMS: dict[str, tuple[str, ...]] = {
    "carabiner": ("connector",),
    "karabiner": ("connector",),
    "biner": ("connector",),
    "maillon": ("quick_link",),
    "screw_link": ("quick_link",),
    "ratchet": ("puller",),
    "hoist": ("lever_hoist", "puller"),
    "lever_hoist": ("puller",),
    "webbing_tackle": ("puller",),
    "tensioner": ("puller",),
    "pulley_system": ("haul",),
    "tackle": ("haul",),
    "mechanical_advantage": ("haul",),
    "primitive": ("webbing_tackle", "puller"),
    "block": ("pulley",),
    "sewn_loop": ("sewn_end",),
    "stitched_loop": ("sewn_end",),
    "sewn": ("sewn_end",),
    "spliced_loop": ("spliced", "sewn_end"),
    "loop": ("sewn_end",),
    "descender": ("brake",),
    "rope_clamp": ("grip",),
    "rope_grab": ("grip",),
    "ascender": ("grip",),
    "tree_protector": ("protector",),
    "tree_protection": ("protector",),
    "spreader": ("legs",),
    "rigging_plate": ("plate",),
    "round_sling": ("sling",),
    "flat_sling": ("sling",),
    "hanger": ("bolt",),
    "load_cell": ("dynamometer",),
    "static": ("low_stretch",),
    "semi_static": ("low_stretch",),
    "static_rope": ("low_stretch", "rope"),
    "dynamic_rope": ("dynamic", "rope"),
    "hmpe": ("uhmwpe",),
    "uhmwpe": ("hmpe",),
    "nylon": ("polyamide",),
    "rodeo_line": ("slackrope",),
    "rodeoline": ("slackrope",),
    "rodeo": ("slackrope",),
    "low_line": ("lowline",),
    "long_line": ("longline",),
    "high_line": ("highline",),
    "girth_hitch": ("larks_foot",),
    "cow_hitch": ("larks_foot",),
    "choked": ("choke",),
    "figure_8": ("figure_eight",),
    "figure8": ("figure_eight",),
    "figure_of_eight": ("figure_eight",),
    "figure_of_8": ("figure_eight",),
    "eight": ("figure_eight",),
    "figure_9": ("figure_nine",),
    "figure_of_nine": ("figure_nine",),
    "gear_list": ("shelf",),
    "inventory": ("shelf",),
    "gear_book": ("shelf",),
    "pretension": ("standing_tension",),
    "breaking_strength": ("mbs",),
    "working_load_limit": ("wll",),
    "rated_load": ("wll",),
}


def our_word(written: str, known: Iterable[str]) -> str | None:
    """Return the word of the format that a word of the trade stands for at this place; None where there is none.

    >>> our_word("Pulley system", ["haul", "puller"])
    'haul'
    """
    places = set(known)
    meant = SYNONYMS.get(written.strip().casefold().replace("-", "_").replace(" ", "_"), ())
    return next((one for one in meant if one in places), None)


def in_prose(word: str) -> str:
    """Return what people say for a word of the file format: `sewn loop` for `sewn_end`."""
    return TRADE.get(word, word.replace("_", " "))
