"""Keys that a rig may leave out because its parts tell them: where they stand, and what they may say instead."""

from __future__ import annotations

from collections.abc import Iterator
from copy import deepcopy
from typing import Any, NamedTuple

from riglint.findings import judge
from riglint.findings.finding import AssumedValue, Finding
from riglint.rulekit import REMOVE
from riglint.testing import as_text, edit_value, rig_of
from tests.faults.seeded import BOOK, ON, data_of

ROUND_A_TREE = ("choke", "basket", "wrap", "larks_foot")
IN_A_PART = ("straight", "choke", "basket", "larks_foot")


class LeftOut(NamedTuple):
    """One key of one rig that can be left out, as a path of steps."""

    rig: str
    keys: tuple[str, ...]  # several that are left out together
    kind: str  # mass, stretch, length, dead_end, closed, hitch


def left_out(rig: str) -> Iterator[LeftOut]:
    """Yield each key of a sound rig that its parts tell too."""
    data = data_of(rig)
    for n, shelf in enumerate(data["shelf"]):
        for name, item in shelf["items"].items() if isinstance(shelf, dict) else ():
            if item["kind"] == "webbing" and _names(data["chain"], name) + _names(data.get("backups"), name):
                place = f"shelf[{n}].items.{name}"
                if "mbs" in item and "mass_per_metre" in item:
                    yield LeftOut(rig, (f"{place}.mass_per_metre",), "mass")
                if "mbs" in item and "stretch" in item:
                    yield LeftOut(rig, (f"{place}.stretch",), "stretch")
    for n, part in enumerate(data["chain"]):
        if part.get("hitch"):
            yield LeftOut(rig, (f"chain[{n}].hitch",), "hitch")
        rope = part.get("rope") or {}
        if (rope.get("dead_end") or {}).get("on"):
            yield LeftOut(rig, (f"chain[{n}].rope.dead_end.on",), "dead_end")
        if part.get("closed"):
            yield LeftOut(rig, (f"chain[{n}].closed",), "closed")


def _names(data: Any, name: str) -> int:
    """How often a piece is named in some parts."""
    return str(data).count(f"'{name}'")


def without(one: LeftOut) -> dict[str, Any]:
    """Return a rig with its key left out."""
    data: dict[str, Any] = deepcopy(data_of(one.rig))
    for key in one.keys:
        edit_value(data, key, REMOVE)
    return data


def with_value(one: LeftOut, value: Any) -> dict[str, Any]:
    """Return the same rig with a value of our choice."""
    data: dict[str, Any] = deepcopy(data_of(one.rig))
    for key in one.keys:
        edit_value(data, key, value)
    return data


def judged(data: dict[str, Any]) -> tuple[list[Finding], tuple[AssumedValue, ...]]:
    """Return what the whole rulebook says of a rig, with what its parts tell."""
    found = judge(rig_of(as_text(data)), BOOK, ON, with_remedies=False)
    return found.findings, found.assumed


def quieter(explicit: list[Finding], assumed: list[Finding]) -> list[str]:
    """Return what is said with a value written out and not, or with a milder word, where it is left out."""
    lost = []
    nothing = max((one.signal for one in assumed if one.rule in BOOK.explaining), default=0)
    for one in explicit:
        said = [
            other.signal
            for other in assumed
            if one.rule in {other.rule, *other.rules}
            # A fault at a weaker place speaks for milder ones of its rule elsewhere.
            and (other.at.key == one.at.key or other.at.part == one.at.part or other.signal > one.signal)
        ]
        if max([*said, nothing]) < one.signal:  # of what nobody can compute, one finding speaks for all
            lost.append(f"{one.rule} {one.signal.name} at {one.at.key}: {one.message}")
    return lost


def allowed(one: LeftOut, assumed: tuple[AssumedValue, ...]) -> list[Any]:
    """Return values that the key may have, from end to end of what is assumed of it."""
    if one.kind == "hitch":
        (said,) = (value.value for value in assumed if value.at.key == one.keys[0])
        return list(IN_A_PART if "straight" in said else ROUND_A_TREE)
    item = _item(one)
    if one.kind == "mass":
        return [f"{grams:.3f} g/m" for grams in _between(*_masses(item))]
    if one.kind == "stretch":
        return [table for share in _between(*_shares(item)) for table in _tables(item, share)]
    if one.kind == "closed":
        return ["0.2 m", "0.5 m", "0.7 m", "0.9 m"]
    return [_at(data_of(one.rig), one.keys[0])]


def _between(low: float, high: float) -> list[float]:
    inside = 1e-3 * (high - low)  # a figure that is written down is rounded
    return [low + inside + (high - low - 2 * inside) * n / 4.0 for n in range(5)]


def _masses(item: dict[str, Any]) -> tuple[float, float]:
    """Between which masses its label leaves webbing, g/m; the bands are those of gear/rating and gear/size."""
    per_gram = {"polyamide": (120, 900), "polyester": (120, 870), "uhmwpe": (300, 3300)}[item["material"]]
    breaking, width = _number(item["mbs"]) * 1000.0, _number(item["width"]) if "width" in item else None
    low, high = breaking / per_gram[1], breaking / per_gram[0]
    return (low, high) if width is None else (max(low, 0.8 * width), min(high, 6.0 * width))


def _shares(item: dict[str, Any]) -> tuple[float, float]:
    """Between which shares of strength over stretch the band of gear/stretch leaves webbing."""
    return {"polyamide": (0.5, 4.5), "polyester": (1.6, 14.0), "uhmwpe": (5.0, 60.0)}[item["material"]]


def _tables(item: dict[str, Any], share: float) -> Iterator[dict[str, str]]:
    """Yield a straight table, and where they fit between the ends one that is softer at first and one stiffer."""
    breaking, (soft, stiff) = _number(item["mbs"]), _shares(item)
    for bend in (1.0, 0.8, 1.25):  # of the stretch at a quarter of the strength, against a straight line
        first = 100.0 * 0.25 / share * bend
        if 100.0 * 0.25 / stiff <= first <= 100.0 * 0.25 / soft and first < 99.0 / share:
            strains = (first, 100.0 / share)
            points = [(0.25, strains[0]), (1.0, strains[1])]
            yield {f"{breaking * at:.4f} kN": f"{strain:.5f} %" for at, strain in points if strain < 100.0}


def _number(text: str) -> float:
    return float(text.split(maxsplit=1)[0])


def _item(one: LeftOut) -> dict[str, Any]:
    key = one.keys[0]
    found: dict[str, Any] = _at(data_of(one.rig), key.rpartition(".")[0]) if "items." in key else {}
    return found


def _at(data: Any, key: str) -> Any:
    from riglint.model.what_if import key_of  # noqa: PLC0415

    for step in key_of(key):
        data = data[step]
    return data
