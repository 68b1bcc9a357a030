"""The worst word of each closed list is heard in a rig that is sound otherwise.

Which word is worst, and how loud it must be, is common practice, no source. None stands where no word of the list is
worse than another: then something must be said or a number of the sheet change.
"""

from typing import Any, Literal, NamedTuple, get_args, get_origin

import pytest

from riglint.model.documents.rig import Rig
from riglint.rulekit import Signal
from tests.faults.seeded import new, text_of, told
from tests.silence.reads import fields_of, models_below
from tests.silence.sweep import heard

NOTICE, CAUTION, WARNING, DANGER = Signal.NOTICE, Signal.CAUTION, Signal.WARNING, Signal.DANGER
HIGH = "rigs/highline-rope-backup"
SAG = {"what": "sag", "under": "80 kg", "at": "6 m", "depth": "1 m", "from": "chord", "date": "2026-05-02"}
SPOILT = {"date": "2026-03-01", "what": "chemical"}
SHELF = "shelf[0].items"


class Worst(NamedTuple):
    """A field by its model, a rig with the worst word in it, and the least word that must be heard."""

    field: str
    rig: str
    patch: dict[str, Any]
    least: Signal | None


WORST = (
    Worst("Rig.use", "low", {"use": "highline"}, DANGER),
    Worst("Rig.stage", "low", {"stage": "walking"}, CAUTION),
    Worst("Spot.span_between", "low", {"spot.span_between": "webbing"}, CAUTION),
    Worst("Anchor.kind", "low", {"spot.anchors.gate": {"kind": "ground"}}, DANGER),
    Worst("Anchor.bark", "low", {"spot.anchors.gate.bark": "smooth"}, CAUTION),
    Worst("Anchor.health", "low", {"spot.anchors.gate.health": "dead"}, DANGER),
    Worst("Anchor.fork", "low", {"spot.anchors.gate.fork": "v"}, WARNING),
    Worst("Ground.surface", "low", {"spot.ground.surface": "concrete"}, CAUTION),
    Worst("Ground.soil", "low", {"spot.ground.soil": "wet"}, CAUTION),
    Worst("Gear.material", "low", {f"{SHELF}.SH-1.material": "aluminium"}, WARNING),
    Worst("Gear.made_by", "low", {f"{SHELF}.W-1.made_by": "home"}, WARNING),
    Worst("Gear.label", "low", {f"{SHELF}.W-1.label": "missing"}, WARNING),
    Worst("Gear.pin", "built_for_two_days", {f"{SHELF}.SH-1.pin": "screw"}, CAUTION),
    Worst("Gear.connector_class", "low", {f"{SHELF}.QL-1.connector_class": "A"}, WARNING),
    Worst("Gear.gate", "low", {f"{SHELF}.CN-1.gate": "none"}, WARNING),
    Worst("Gear.bearing", "low", {f"{SHELF}.DB-1.bearing": "none"}, CAUTION),
    Worst("Gear.form", "ordinary/rigs/07-jumpline-hoist", {f"{SHELF}.LH-1.form": "ratchet"}, None),
    Worst("Gear.type", "low", {f"{SHELF}.RP-1.type": "dynamic"}, CAUTION),
    Worst("Event.what", "low", {f"{SHELF}.RS-1.events": [SPOILT]}, DANGER),
    Worst(
        "Event.releases",
        "low",
        {f"{SHELF}.RS-1.events": [SPOILT, {"date": "2026-03-02", "what": "released", "releases": "dropped"}]},
        DANGER,
    ),
    Worst("Plan.standing_at", "low", {"plan.standing_at": "start"}, None),
    Worst("Plan.standing_from", "low", {"plan.standing_from": "measured"}, WARNING),
    Worst("Plan.moves", "highline", {"plan.moves": ["jump"]}, WARNING),
    Worst("Plan.lowering", "low", {"plan.lowering": "tripped"}, DANGER),
    Worst("Plan.consequence", "low", {"plan.consequence": "life"}, DANGER),
    Worst("User.level", "low", {"plan.users[0].level": "beginner"}, CAUTION),
    Worst("Part.hitch", "low", {"chain[2].hitch": "larks_foot"}, None),
    Worst("Part.share", HIGH, {"chain[1].share": "sliding"}, DANGER),
    Worst("Part.knot", HIGH, {"backups[0].chain[3].knot": "none"}, DANGER),
    Worst("RopeTail.stopper", "low", {"chain[8].tail.stopper": "none"}, WARNING),
    Worst("DeadEnd.on", "low", {"chain[8].rope.dead_end.on": "fixed_block"}, WARNING),
    Worst("DeadEnd.ends", "low", {"chain[8].rope.dead_end.ends": "none"}, DANGER),
    Worst("Brake.side", "low", {"chain[8].brake.side": "moving"}, CAUTION),
    Worst("Multiplier.strand", "low", {"chain[8].multiplier.strand": "tail"}, CAUTION),
    Worst("Multiplier.bites", "low", {"chain[8].multiplier.bites": "toward_hand"}, WARNING),
    Worst("TieBack.ends", "low", {"chain[8].tie_back.ends": "none"}, DANGER),
    Worst("Pull.stand", "low", {"chain[8].pull.stand": "behind"}, WARNING),
    Worst("Leash.ring_knot", HIGH, {"leash.ring_knot": "none"}, DANGER),
    Worst("Leash.harness_knot", HIGH, {"leash.harness_knot": "none"}, DANGER),
    Worst("Measured.what", "low", {"measured": [SAG]}, CAUTION),
    Worst("Measured.from_", "low", {"measured": [{**SAG, "from": "still_line"}]}, CAUTION),
    Worst(
        "Measured.where",
        "low",
        {"measured": [{"what": "force", "where": "lead_strand", "value": "9 kN", "date": "2026-05-02"}]},
        CAUTION,
    ),
)
# Lists whose words are kinds and no grades, and a shape that no figure hangs on.
NO_GRADES = {
    "Gear.kind": "another kind is other gear, and the reader refuses it in the wrong place",
    "Part.part": "another kind is another part, and chain/order looks at the order",
    "Gear.shape": "bow or dee are rated alike; the jaw is what a sling must fit",
    "Rig.riglint": "the one kind of document",
}


@pytest.mark.parametrize("one", WORST, ids=lambda one: one.field)
def test_worst_word_is_heard(one: Worst) -> None:
    before, after = text_of(one.rig), text_of(one.rig, one.patch)
    said = {each.signal for each in new(told(before), told(after))}
    if one.least is None:
        assert said or heard(before, after) == "number"
    else:
        assert max(said, default=None) is not None
        assert max(said) >= one.least


def test_every_closed_list_has_its_worst_word_or_no_grades() -> None:
    lists = {
        f"{model.__name__}.{name}"
        for model in models_below(Rig)
        for name, field in fields_of(model)
        if any(len(words) > 1 for words in _lists(field.annotation))
    }
    assert lists - set(NO_GRADES) == {one.field for one in WORST}


def _lists(annotation: Any) -> list[tuple[Any, ...]]:
    """Return the closed lists of words in an annotation, those of models inside it left out."""
    mine = [get_args(annotation)] if get_origin(annotation) is Literal else []
    return mine + [
        each for inner in get_args(annotation) if not isinstance(inner, str) for each in _lists(inner)
    ]
