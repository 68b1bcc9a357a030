"""Keys that are only held against another value where they stand, so that nobody asks for them where they do not.

A wrong width beside a right one is told; a width that is not written down agrees with everything. Each is a place where
a file may say less in silence: the list is kept short, and a key that comes off it is asked for by a rule.
"""

LABEL = "held against what else its label says"
PLACE = "held against where else it stands"
GEAR = "shelf[].items.*."
TREE, BOLT, OBSTACLE = "spot.anchors.*.", "spot.anchors.*.points.*.", "spot.surroundings.obstacles[]."

COMPARED = {
    f"{GEAR}{key}": LABEL
    for key in (
        *(
            "mbs",
            "wll",
            "mbs_minor",
            "standard",
            "width",
            "thickness",
            "length",
            "diameter",
        ),
        *(
            "width_min",
            "width_max",
            "rope_min",
            "rope_max",
            "holds",
            "max_load",
            "sheaves",
            "type",
            "shape",
            "pin",
        ),
        *("connector_class", "made", "inspected", "days_used"),
    )
}
COMPARED |= {
    "use": "held against the moves that are planned",
    "backups": "without one the rig is judged as one without",
    **{
        f"plan.{key}": "held against what else is planned"
        for key in (
            "standing_at",
            "walk_zone",
            "moves",
            "first_day",
            "spotters",
            "watcher",
            "wet",
            "unattended",
        )
    },
    **{f"plan.crew.{key}": "held against the force that is needed" for key in ("haulers", "pull_each")},
    "chain[].cut": "held against the length between the fittings",
    "backups[].chain[].cut": "held against the length between the fittings",
    "backups[].holds": PLACE,
    **{f"checks[].{key}": "a check counts only with both" for key in ("date", "after_tension")},
    "edges[].from_anchor": PLACE,
    **{f"{TREE}{key}": PLACE for key in ("girth_at", "lean")},
    **{f"{BOLT}{key}": LABEL for key in ("standard", "spacing", "edge")},
    "spot.ground.profile_from": PLACE,
    "spot.permission.until": "held against the last day up",
    **{f"{OBSTACLE}{key}": PLACE for key in ("along", "aside", "height")},
}
