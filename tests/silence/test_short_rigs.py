"""A rig written short, with kits, is judged as if written out; a key taken out of it never makes it quieter."""

from copy import deepcopy
from functools import cache
from typing import Any

import pytest

from riglint.asking.writing.short_form import shortened
from riglint.model.vocabulary.kinds import SEEN_ON_SITE
from riglint.rulekit import REMOVE
from riglint.testing import as_text, edit_value
from tests.faults.seeded import data_of, told
from tests.silence.sweep import Taken, field_of, heard, keys
from tests.silence.test_deleted import silent

RIGS = ("low", "highline")
# A part that is gone makes another rig; what is said then is another matter.
PARTS = {"chain[]", "backups[].chain[]", "chain[].legs[]", "backups[].chain[].legs[]", "backups[]"}


@cache
def _short(rig: str) -> dict[str, Any]:
    """Return a sound rig written short, its first three parts but the anchor in a kit."""
    data: dict[str, Any] = deepcopy(data_of(rig))
    kinds = {name: item["kind"] for name, item in data["shelf"][0]["items"].items()}
    for held in (data, *(data.get("backups") or [])):
        held["chain"] = shortened(held["chain"], kinds)
    first, *kit, last = data["chain"][:4] + data["chain"][4:5]
    # What is ticked on site stands in the call.
    seen = {
        name: one.pop(name) for one in kit if isinstance(one, dict) for name in sorted(SEEN_ON_SITE & {*one})
    }
    data["shelf"][0]["kits"] = {"start": kit}
    data["chain"] = [first, {"kit": "start", **seen}, last, *data["chain"][5:]]
    return data


@pytest.mark.parametrize("rig", RIGS)
def test_it_is_judged_as_if_written_out(rig: str) -> None:
    long, short = (told(as_text(one)).findings for one in (data_of(rig), _short(rig)))
    assert [(one.rule, one.signal, one.message, one.at.part) for one in short] == [
        (one.rule, one.signal, one.message, one.at.part) for one in long
    ]
    assert len(as_text(_short(rig))) < len(as_text(data_of(rig)))


def taken_out(rig: str) -> list[str]:
    """Return the keys of parts and kits of a short rig, each part left whole."""
    found = [one for one in keys(_short(rig)) if one.startswith(("chain", "backups", "shelf[0].kits"))]
    return [one for one in found if field_of(one) not in PARTS and not one.endswith(("kits", "kits.start"))]


@pytest.mark.parametrize("rig", RIGS)
def test_a_key_taken_out_never_makes_it_quieter(rig: str) -> None:
    before = as_text(_short(rig))
    loudest = max(one.signal for one in told(before).findings)
    tried = taken_out(rig)
    quieter: list[str] = []
    found: list[Taken] = []
    for key in tried if rig == "low" else tried[::3]:
        without = deepcopy(_short(rig))
        edit_value(without, key, REMOVE)
        after = as_text(without)
        how = heard(before, after)
        found.append(Taken(rig, key, how))
        if how != "refused" and max(one.signal for one in told(after).findings) < loudest:
            quieter.append(key)
    assert quieter == []
    assert silent(tuple(found)) == []
    assert len(tried) > 15
