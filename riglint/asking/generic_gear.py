"""Gear that stands on no list: sizes as measured, strengths as read from the labels, and nothing else."""

from __future__ import annotations

from typing import Any

from riglint.asking.question import Answers, word

# The place in the answer about labels, the key of the label, whether it is of textile, by kind of part.
LABELS = {
    "webbing": (0, "mbs", True),
    "sewn_end": (1, "mbs", True),
    "puller": (2, "mbs", True),
    "sling": (3, "wll", True),
    "shackle": (4, "wll", False),
}
FORMS = {"ratchet": "ratchet", "tackle": "webbing_tackle"}
NAMES = {"webbing": "webbing", "sewn_end": "sewn loop", "puller": "puller"}


def generic_name(part: str, end: str) -> str | None:
    """Return the name of a piece without a list: by the end where there are two of them."""
    if part not in LABELS:
        return None
    return NAMES.get(part, f"{part} {end}")


def generic_items(kind: str, answers: Answers) -> dict[str, Any]:
    """Return the pieces of a line, each under the name that its chain calls it by."""
    found = {}
    for part in LABELS:
        for end in ("near", "far") if part in {"sling", "shackle"} else ("",):
            found[str(generic_name(part, end))] = _item(kind, part, answers)
    return found


def _item(kind: str, part: str, answers: Answers) -> dict[str, Any]:
    place, key, textile = LABELS[part]
    width, material, length = (word(answers, "sizes", n) for n in range(3))
    banded = part in {"webbing", "sewn_end"}
    found: dict[str, Any] = {
        "kind": "round_sling" if part == "sling" else part,
        "form": FORMS.get(kind) if part == "puller" else None,
        "material": material if banded else None,
        "width": width if banded or part == "puller" else None,
        "length": length if part == "sling" else None,
        key: word(answers, "labels", place),
        "made": word(answers, "dates", 1) if textile else None,
        "inspected": word(answers, "dates", 2),
        "label": word(answers, "sizes", 4) if part == "sling" else None,
    }
    return found
