"""Every force on the sheet is held against a strength by a rule, or stands here with the reason why not."""

import json
import re
from collections.abc import Iterator
from functools import cache
from typing import Any

import pytest

from riglint.reports.sheet.json_report import sheet_json
from riglint.rulebook import load_rulebook
from riglint.views.sheet.build import build_sheet
from tests.rigs import ON, loads_of, rig_data

PEAK = "ratio/peak"
SOFT = "not judged: the soft edge; the stiff edge beside it is never less"
# Where a force stands in the sheet's JSON: the rule that judges it, or a reason that begins with "not judged".
JUDGED = {
    r"states\[\]\.(webbing_in_use\.)?tension(_a|_b)?_kN": PEAK,
    r"states\[\]\.(webbing_in_use\.)?horizontal_kN": "not judged: a part of the tension beside it",
    r"states\[\]\.webbing_as_listed\..*_kN": SOFT,
    r"(states|backups\[\]\.catches)\[\]\.webbing_in_use\.load_kN": "not judged: weight or push, no part bears it",
    r"parts\[\]\.force_kN": PEAK,
    r"(backups\[\]\.)?parts\[\]\.(strength|breaking)_kN": "not judged: a strength",
    r"(backups\[\]\.)?parts\[\]\.rated_kN": "ratio/rated",
    r"uncertainty\.(results|stated\[\]|guidance\[\])\.peak_kN": "not judged: the ± of a peak among the states",
    r"haul\.hand_force_kN": "haul/crew",
    r"haul\.lead_rope_kN": "haul/brake",
    r"haul\.strands_kN(\[\])?": PEAK,
    r"haul\.grip_kN": "haul/grip",
    r"haul\.overshoot_kN": "ratio/haul_overshoot",
    r"haul\.hold_force_kN": "lowering/hold",
    r"haul\.tie_back_catch_kN": "haul/tie_back_catch",
    r"backups\[\]\.catches\[\]\.(webbing_in_use\.)?tension(_a|_b)?_kN": "backup/strength",
    r"backups\[\]\.catches\[\]\.(webbing_in_use\.)?horizontal_kN": "not judged: a part of the tension beside it",
    r"backups\[\]\.catches\[\]\.webbing_as_listed\..*_kN": SOFT,
    r"backups\[\]\.parts\[\]\.force_kN": "backup/strength",
    r"person\..*_kN": "leash/arrest_force",
    r"standing_from\.reading\..*_kN": "measure/tension",
}
FORCE = re.compile(r"_kN(\[\])?$")
READ = {
    "stage": "built",
    "plan.standing_from": "measured",
    "measured": [{"what": "force", "date": "2026-05-01", "where": "line", "value": "3 kN ± 0.1 kN"}],
}
RIGS = {"low": {}, "long_haul": {}, "highline": {}, "read": READ}


def _paths(node: Any, path: str = "") -> Iterator[str]:
    if isinstance(node, dict):
        for key, value in node.items():
            yield from _paths(value, f"{path}.{key}" if path else key)
    elif isinstance(node, list):
        for value in node:
            yield from _paths(value, f"{path}[]")
    if FORCE.search(path):
        yield path


@cache
def forces() -> frozenset[str]:
    """Return where forces stand on the sheets of all baselines."""
    found: set[str] = set()
    for name, edits in RIGS.items():
        loads = loads_of(rig_data("highline" if name == "read" else name, edits))
        found |= set(_paths(json.loads(sheet_json(build_sheet(loads, ON)))))
    return frozenset(found)


@pytest.mark.parametrize("path", sorted(forces()))
def test_the_force_has_a_judge(path: str) -> None:
    found = [judge for pattern, judge in JUDGED.items() if re.fullmatch(pattern, path)]
    assert len(found) == 1, path
    assert found[0].startswith("not judged: ") or found[0] in load_rulebook().rules


def test_every_row_stands_for_a_force() -> None:
    idle = [pattern for pattern in JUDGED if not any(re.fullmatch(pattern, path) for path in forces())]
    assert idle == []


@pytest.mark.parametrize(
    "rule_id", sorted({one for one in JUDGED.values() if not one.startswith("not judged")})
)
def test_the_judge_finds_fault(rule_id: str) -> None:
    assert any(one.verdict == "faulty" for one in load_rulebook().rules[rule_id].examples)
