"""Sound rigs with edits, computed: for tests that look at the forces of a whole rig."""

from datetime import date
from pathlib import Path
from typing import Any

import yaml

from riglint.loadpath import build
from riglint.loads import Loads
from riglint.model.library import Library
from riglint.model.references import resolve
from riglint.model.values.policy import Values
from riglint.rulekit import sound
from riglint.testing import edited

ON = date(2026, 5, 2)


def rig_data(baseline: str, edits: dict[str, Any] | None = None) -> dict[str, Any]:
    """A sound rig with edits, as plain data."""
    data: dict[str, Any] = yaml.safe_load(edited(sound(baseline, edits or {})))
    return data


def loads_of(data: dict[str, Any]) -> Loads:
    """What a rig given as plain data sees."""
    path = Path("/example/rig.yaml")
    library = Library(path.parent)
    library.take(path, yaml.safe_dump(data, sort_keys=False, allow_unicode=True, width=1000).encode())
    rig, problems, _ = resolve(library, path)
    if rig is None:
        raise ValueError("; ".join(f"{one.key}: {one.message}" for one in problems))
    return Loads(build(rig), Values(), ON)
