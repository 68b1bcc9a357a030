"""Every key that is taken out of a sound rig is heard of, or it is declared: for people, or only compared."""

from collections.abc import Iterator
from functools import cache
from random import Random
from typing import Any

import pytest
from pydantic import BaseModel

from riglint.model.documents.gear import Shelf
from riglint.model.documents.rig import Rig
from riglint.model.documents.spot import Spot
from tests.faults.matrix import sound_rigs
from tests.faults.seeded import data_of
from tests.silence.compared import COMPARED
from tests.silence.sweep import Taken, keys, sweep, taken

# How many keys of a rig are drawn in the suite, always the same; with `-m slow` every key of every rig is taken out.
DRAWN = {"ordinary/rigs/01-beginner-set": 24, "low": 24, "rigs/highline-rope-backup": 12}
SEED = 20260502
# An entry of a list that is gone makes another rig, not a question: nobody can tell that it ever stood there.
OTHER_RIG = {
    "plan.moves[]": "a move that nobody plans",
    "plan.users[]": "somebody who does not come",
    "spot.ground.profile[]": "a coarser profile",
    "spot.surroundings.obstacles[]": "a place without that thing",
    "checks[]": "a look that nobody took",
    "shelf[].items.*.events[]": "a piece to which nothing happened",
    "measured[]": "a reading that nobody took",
    "leash.rings[]": "a leash on the other ring alone; leash/rings asks for two",
    "backups[].chain[]": "a backup that ends sooner",
}
# Where each group of keys stands, as the end of a place.
PLACES = {
    "Rig": "",
    "Spot": "spot.",
    "Shelf": "shelf[].",
    "Gear": "items.*.",
    "Event": "events[].",
    "Anchor": "anchors.*.",
    "Part": "chain[].",
    "Check": "checks[].",
}
FORBIDDEN = ("quantity", "date", "table")  # in a field's schema: strengths, loads, lengths, dates, curves


def silent(found: Iterator[Taken] | tuple[Taken, ...]) -> list[str]:
    """Return the keys whose absence nobody hears of and that nothing declares."""
    return [
        f"{one.rig} {one.key}"
        for one in found
        if one.heard == "silent" and one.field not in OTHER_RIG | COMPARED and not declared(one.field)
    ]


def declared(field: str) -> bool:
    """Return whether the model says that a key is for people."""
    return any(
        field.endswith(place) and field.removesuffix(place)[-1:] in {"", "."} for place in for_people()
    )


@cache
def for_people() -> dict[str, dict[str, Any]]:
    """Return each field that is declared for people, as the end of its place, with its schema."""
    groups: dict[str, Any] = {}
    for model in (Rig, Spot, Shelf):
        raw = model.model_json_schema(by_alias=True)
        groups |= {model.__name__: raw} | raw["$defs"]
    return {
        f"{place}{key}": field
        for name, place in PLACES.items()
        for key, field in groups[name]["properties"].items()
        if "for_people" in field
    }


@pytest.mark.parametrize("rig", DRAWN)
def test_no_key_drawn_of_a_rig_goes_unheard(rig: str) -> None:
    drawn = Random(SEED).sample(list(keys(data_of(rig))), DRAWN[rig])  # noqa: S311 - no secret
    assert silent(taken(rig, key) for key in drawn) == []


@pytest.mark.slow
@pytest.mark.parametrize("rig", sound_rigs())
def test_no_key_of_any_sound_rig_goes_unheard(rig: str) -> None:
    assert silent(sweep(rig)) == []


def test_no_strength_load_length_date_or_part_is_for_people() -> None:
    for place, field in for_people().items():
        assert field["for_people"].endswith("."), place
        assert not any(word in str(field) for word in FORBIDDEN), place
        assert "by its name in the gear list" not in field["description"], place


def test_every_field_for_people_is_known_by_its_place() -> None:
    groups = {name for model in (Rig, Spot, Shelf) for name in _with_declared(model)}
    assert groups <= set(PLACES)


def _with_declared(model: type[BaseModel]) -> Iterator[str]:
    raw = model.model_json_schema(by_alias=True)
    for name, group in {model.__name__: raw, **raw["$defs"]}.items():
        if any("for_people" in field for field in group["properties"].values()):
            yield name
