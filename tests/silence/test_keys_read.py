"""Every key of the format is read while rigs are judged, or the model declares that people alone read it."""

from typing import Any

from riglint.model.documents.rig import Rig
from riglint.rulekit import Example
from riglint.testing import edited
from tests.faults.seeded import BOOK, text_of
from tests.silence.reads import fields, models_below, read_in, read_in_libraries

RIGS = (
    "low",
    "highline",
    "rigs/highline-rope-backup",
    "rigs/waterline",
    "built/long-line-measured",
    "ordinary/rigs/07-jumpline-hoist",
    "ordinary/rigs/14-two-pieces",
    "ordinary/rigs/16-beach",
    "ordinary/rigs/21-highline-boulder",
    "ordinary/rigs/23-lowered",
    "low_on_a_post",
    "low_joined",
)
# Rules with an example of a leg at a height of its own and of a bow that is too narrow.
EXAMPLES = (("anchor/tree_stem", "'height'"), ("anchor/sling_in_bow", "jaw"))
# Rules for several rigs with an example of a guy that pulls at a tree, of a rescuer who is named.
TOGETHER = (("day/tree_stem", "guys"), ("day/rescuer", "rescuer"))
DAY = "2026-05-02"
SPOILT = [
    {"date": "2026-03-01", "what": "chemical"},
    {"date": "2026-03-02", "what": "released", "releases": "chemical"},
]
SAG = {"what": "sag", "under": "80 kg", "at": "6 m", "depth": "1 m", "from": "chord", "date": DAY}
SURROUNDED = {
    "path_crosses": False,
    "wires": [{"distance": "9 m", "voltage": "20 kV"}],
    "obstacles": [{"what": "bench", "along": "5 m", "aside": "1 m", "height": "0.4 m"}],
}
# A screwed link between two slings that lie in it by both ends is pulled three ways.
PULLED_APART = {
    "before chain[3]": [{"part": "quick_link", "gear": "QL-1", "pins": True}],
    "chain[2].hitch": "basket",
}
# What none of them has.
MORE: tuple[tuple[str, dict[str, Any]], ...] = (
    ("low", {"chain[8].pull": {"stand": "behind", "redirect": {"gear": "SP-1", "turn": "30 deg"}}}),
    ("low", {"shelf[0].items.RS-1.events": SPOILT}),
    ("low", {"measured": [SAG], "plan.standing_from": "measured"}),
    ("low", {"measured": [SAG]}),
    ("low", PULLED_APART),
    ("low", {"measured": [{"what": "force", "where": "line", "value": "3 kN", "date": DAY}]}),
    ("low", {"spot.surroundings": SURROUNDED}),
    (
        "low",
        {"plan.standing_tension": None, "plan.sag_target": {"depth": "1 m", "under": "80 kg", "at": 0.4}},
    ),
    ("rigs/highline-rope-backup", {"plan.at_once": 2, "leash.one_each": False}),
    (
        "highline",
        {
            "spot.surroundings.obstacles": [
                {"what": "ledge", "along": "1 m", "aside": "0 m", "height": "0.4 m"}
            ]
        },
    ),
)
# What the reader takes and no rule can: which files belong together, and what accepts a finding.
BY_THE_READER = {
    ("Rig", "riglint"),
    ("Spot", "riglint"),
    ("Shelf", "riglint"),
    ("Rig", "spot"),
    ("Rig", "shelf"),
    ("Shelf", "items"),
    ("Shelf", "kits"),
}
# What holds between two anchors only: the reader puts it in place of what the whole spot says, and rules read it there.
BETWEEN = {
    ("Spot", "spans"),
    *(("SpotSpan", name) for name in ("between", "span", "ground", "surroundings")),
}
ACCEPTING = {("Accepted", name) for name in ("rule", "part", "reason", "role", "until")}
# A bolt on a shelf is stock, for `library/bolt_stock` of a whole library; what holds a line stands on the spot.
STOCK = {("Gear", "radial"), ("Gear", "axial")}
# The title of a rig heads its reports.
HEADS = {("Rig", "title")}


def test_every_key_is_read_or_declared() -> None:
    texts = [*(text_of(rig) for rig in RIGS), *(text_of(rig, patch) for rig, patch in MORE)]
    texts += [text for name, key in EXAMPLES for text in _examples(name, key)]
    together = [one for name, key in TOGETHER for one in _of_rule(name, key)]
    read = read_in(texts) | read_in_libraries(together)
    unread = fields() - read - BETWEEN - BY_THE_READER - ACCEPTING - STOCK - HEADS
    assert unread - _for_people() == set()


def _examples(name: str, key: str) -> list[str]:
    return [edited(one) for one in _of_rule(name, key)]


def _of_rule(name: str, key: str) -> list[Example]:
    return [one for one in BOOK.rules[name].examples if key in str(one.edits)][:8]


def _for_people() -> set[tuple[str, str]]:
    return {
        (model.__name__, name)
        for model in models_below(Rig)
        for name, field in model.model_fields.items()
        if isinstance(field.json_schema_extra, dict) and "for_people" in field.json_schema_extra
    }
