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
    "webbing_anchor": (6, "mbs", False),
}
FORMS = {"ratchet": "ratchet", "tackle": "webbing_tackle"}
STRETCH_AT = ("1 kN", "5 kN", "10 kN")
BOTH_ENDS = ("sling", "shackle", "protector")
TIE_BACK = (
    "tie-back",
    "tie-back anchor",
)  # the sling that ties back, and the sling round the trunk that holds it


def generic_name(kind: str, part: str, end: str = "") -> str | None:
    """Return the name of a piece without a list, on a line of a kind: by the end where there are two of them."""
    if part == "puller":
        return kind
    if part == "sewn_end":
        return "sewn loop"
    if part in BOTH_ENDS:
        return f"{end} {part}"
    return part.replace("_", " ") if part in LABELS else None


def tie_back_names() -> tuple[str, str]:
    """Return the names of a tie-back without a list, and of the sling that it goes to."""
    return TIE_BACK


def generic_items(kind: str, answers: Answers) -> dict[str, Any]:
    """Return the pieces of a line, each under the name that its chain calls it by."""
    found: dict[str, Any] = {}
    for part in LABELS:
        if part == "webbing_anchor" and kind != "tackle":
            continue
        for end in ("near", "far") if part in BOTH_ENDS else ("",):
            found[str(generic_name(kind, part, end))] = _item(kind, part, answers)
    length, width, tie_back = (word(answers, "around", n) for n in range(3))
    if length not in {None, "none"}:
        for end in ("near", "far"):
            found[str(generic_name(kind, "protector", end))] = _protector(length, width)
    if tie_back not in {None, "none"}:
        sling = _item(kind, "sling", answers)
        found |= {TIE_BACK[0]: sling | {"length": tie_back}, TIE_BACK[1]: sling}
    return found


def _protector(length: str | None, width: str | None) -> dict[str, Any]:
    return {"kind": "protector", "length": length, "width": width}


def _item(kind: str, part: str, answers: Answers) -> dict[str, Any]:
    place, key, textile = LABELS[part]
    found: dict[str, Any] = {
        "kind": "round_sling" if part == "sling" else part,
        "form": FORMS.get(kind) if part == "puller" else None,
        **_made_of(kind, part, answers),
        key: word(answers, "labels", place),
        "made": word(answers, "dates", 1) if textile else None,
        "inspected": word(answers, "dates", 2),
        "label": word(answers, "labels", 5),
    }
    return found


def _made_of(kind: str, part: str, answers: Answers) -> dict[str, Any]:
    """Return material, sizes and stretch of a piece."""
    width, fibre, mass = (word(answers, "data_sheet", n) for n in range(3))
    length, sling_width, sling_fibre, _, metal = (word(answers, "sizes", n) for n in range(5))
    if part == "sling":
        return {"material": sling_fibre, "length": length, "width": sling_width}
    if part == "puller":
        return {"material": "mixed" if kind == "tackle" else metal, "width": width}
    if part in {"webbing", "sewn_end"}:
        stretch = {at: word(answers, "data_sheet", 3 + n) for n, at in enumerate(STRETCH_AT)}
        law = {"mass_per_metre": mass, "stretch": stretch} if part == "webbing" else {}
        return {"material": fibre, "width": width, **law}
    widest = word(answers, "labels", 7) if part == "webbing_anchor" else None
    return {"material": metal, "width_max": widest}
