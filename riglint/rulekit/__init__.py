"""All that a rule needs: the case it judges, its limits and sources, and how it says what it found.

A rule is one file with one decorated function. It gets one rig, computed, and one subject of it at a time (a part,
a piece of gear, an anchor), compares, and yields a `Fault` for each thing that is wrong. It computes no physics.
"""

from __future__ import annotations

from riglint.loadpath import Placed, gear_named
from riglint.loadpath.path import first_up
from riglint.loads import PartLoad, State
from riglint.loads.day.between_lines import (
    Meeting,
    bare_m,
    distance_m,
    laid,
    lowest_m,
    meetings,
    names_of,
    walked_apart_m,
)
from riglint.loads.day.shared_anchor import LinePull, SharedAnchor, SharedBolt, Together
from riglint.loads.inputs import At, MissingInput, NotComputable, known, need, need_all, unanswered
from riglint.loads.measure.measured import Reading
from riglint.loads.path.edges import Drop, drops_at
from riglint.loads.path.ends import End
from riglint.loads.path.geometry import G
from riglint.loads.path.hanging import hanging
from riglint.loads.path.parts import Worst
from riglint.loads.path.used import used_items
from riglint.loads.states.backup import BackupLine
from riglint.loads.states.person import Arrest, Arrests
from riglint.loads.states.rig_states import NO_LEASH
from riglint.loads.states.state_kinds import when
from riglint.loads.strength.label_bands import Plausible, beyond_label, plausible, stretch_points
from riglint.loads.strength.points import PointLoad
from riglint.loads.strength.slings import LaidSling
from riglint.loads.strength.strength import Strength
from riglint.loads.strength.strengths import is_slick
from riglint.loads.what_if.adjustable import (
    anchor_height,
    backup_length,
    fewer_at_once,
    fewer_haulers,
    heavier_user,
    higher_anchors,
    lighter_user,
    longer_rope,
    lower_anchors,
    lower_tension,
    more_haulers,
    more_tension,
    more_turns,
    one_value,
    open_blocks,
    set_to,
)
from riglint.loads.what_if.left import Removal
from riglint.loads.what_if.removal import MayGo
from riglint.loads.what_if.solved_for import Direction, Edit, Remedy
from riglint.mechanics.anchors.connector_class import connector_class
from riglint.model.documents.parts import Part
from riglint.model.documents.rig import Check, Leash
from riglint.model.documents.spot_plan import by_plan
from riglint.model.library import Item
from riglint.model.values.knots import HOLDING, KNOTS, UNKNOTTED
from riglint.model.values.sources import OWN, PRACTICE, Source
from riglint.model.vocabulary.numbered import numbered
from riglint.model.vocabulary.words import FIBRES, in_prose
from riglint.read.quantity import Quantity
from riglint.rulekit.case import Case
from riglint.rulekit.days import last_day, until
from riglint.rulekit.examples import REMOVE, Example, faulty, insert_before, open_, review, sound
from riglint.rulekit.gear_book import asks_for_release, cleared, is_textile, last_check
from riglint.rulekit.library import LibraryCase, Shared, Sharing
from riglint.rulekit.remedies import Remedies
from riglint.rulekit.rope_ends import RopeEnd, each_rope_end
from riglint.rulekit.rules import Due, Each, OnCard, Rule, rule
from riglint.rulekit.subjects import (
    anchors,
    each_backup,
    each_item,
    each_load,
    each_piece,
    each_removal,
    each_sharing,
    each_sharing_days,
    each_sling,
    each_two_lines,
    ends,
    everywhere,
    months_after,
    parts,
    shared_anchors,
    the_haul,
    the_haul_that_stays,
    the_leash,
    the_library,
    the_rig,
)
from riglint.rulekit.ticks import (
    after_today,
    built_ahead,
    confirming_nothing,
    due,
    in_time,
    strength_inputs,
    tick,
)
from riglint.rulekit.tie_backs import loose_or_askew, on_webbing_side, own_sling
from riglint.rulekit.together import AnchorOfDay, Company, TwoLines, in_each_file
from riglint.rulekit.verdicts import (
    LOWER_OR_LEASH,
    Fault,
    Input,
    Limit,
    Signal,
    either,
    in_kn,
    listed,
    rounded,
    to_the_cm,
)

__all__ = [
    "FIBRES",
    "HOLDING",
    "KNOTS",
    "LOWER_OR_LEASH",
    "NO_LEASH",
    "OWN",
    "PRACTICE",
    "REMOVE",
    "UNKNOTTED",
    "AnchorOfDay",
    "Arrest",
    "Arrests",
    "At",
    "BackupLine",
    "Case",
    "Check",
    "Company",
    "Direction",
    "Drop",
    "Due",
    "Each",
    "Edit",
    "End",
    "Example",
    "Fault",
    "G",
    "Input",
    "Item",
    "LaidSling",
    "Leash",
    "LibraryCase",
    "Limit",
    "LinePull",
    "MayGo",
    "Meeting",
    "MissingInput",
    "NotComputable",
    "OnCard",
    "Part",
    "PartLoad",
    "Placed",
    "Plausible",
    "PointLoad",
    "Quantity",
    "Reading",
    "Remedies",
    "Remedy",
    "Removal",
    "RopeEnd",
    "Rule",
    "Shared",
    "SharedAnchor",
    "SharedBolt",
    "Sharing",
    "Signal",
    "Source",
    "State",
    "Strength",
    "Together",
    "TwoLines",
    "Worst",
    "after_today",
    "anchor_height",
    "anchors",
    "asks_for_release",
    "backup_length",
    "bare_m",
    "beyond_label",
    "built_ahead",
    "by_plan",
    "cleared",
    "confirming_nothing",
    "connector_class",
    "distance_m",
    "drops_at",
    "due",
    "each_backup",
    "each_item",
    "each_load",
    "each_piece",
    "each_removal",
    "each_rope_end",
    "each_sharing",
    "each_sharing_days",
    "each_sling",
    "each_two_lines",
    "either",
    "ends",
    "everywhere",
    "faulty",
    "fewer_at_once",
    "fewer_haulers",
    "first_up",
    "gear_named",
    "hanging",
    "heavier_user",
    "higher_anchors",
    "in_each_file",
    "in_kn",
    "in_prose",
    "in_time",
    "insert_before",
    "is_slick",
    "is_textile",
    "known",
    "laid",
    "last_check",
    "last_day",
    "lighter_user",
    "listed",
    "longer_rope",
    "loose_or_askew",
    "lower_anchors",
    "lower_tension",
    "lowest_m",
    "meetings",
    "months_after",
    "more_haulers",
    "more_tension",
    "more_turns",
    "names_of",
    "need",
    "need_all",
    "numbered",
    "on_webbing_side",
    "one_value",
    "open_",
    "open_blocks",
    "own_sling",
    "parts",
    "plausible",
    "review",
    "rounded",
    "rule",
    "set_to",
    "shared_anchors",
    "sound",
    "strength_inputs",
    "stretch_points",
    "the_haul",
    "the_haul_that_stays",
    "the_leash",
    "the_library",
    "the_rig",
    "tick",
    "to_the_cm",
    "unanswered",
    "until",
    "used_items",
    "walked_apart_m",
    "when",
]
