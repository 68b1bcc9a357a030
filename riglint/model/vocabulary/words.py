"""The words that a rig file may use: each a closed list, in the trade's or a standard's own terms."""

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


def in_prose(word: str) -> str:
    """Return what people say for a word of the file format: `sewn loop` for `sewn_end`."""
    return TRADE.get(word, word.replace("_", " "))
