"""A festival day: five lines on seven trees of one meadow, one tree in two lines, two lines that cross."""

from pathlib import Path
from typing import Any

import yaml

from tests.rigs import rig_data

DAY = "2026-05-09"
PLACES = {
    "oak": (0.0, 0.0),
    "ash": (16.4, 0.0),
    "elm": (0.0, 16.4),
    "lime": (8.2, -8.2),
    "maple": (8.2, 8.2),
    "beech": (30.0, 0.0),
    "birch": (30.0, 16.4),
}
# The second line shares the oak with the first; the third crosses the first high above it; the fourth and fifth stand
# apart on the beech.
LINES = {
    "Morning line": ("oak", "ash", "1.35 m"),
    "Shade line": ("oak", "elm", "1.35 m"),
    "Bridge line": ("lime", "maple", "6 m"),
    "Beech line": ("beech", "birch", "1.35 m"),
    "Evening line": ("ash", "beech", "1.35 m"),
}


def spot(girth: str = "1.4 m") -> dict[str, Any]:
    """The meadow with its plan; each line has its span from it, and level ground of its own."""
    meadow = rig_data("low")["spot"]
    del meadow["span"]
    meadow["title"] = "Festival meadow"
    meadow["ground"] = {"surface": "grass", "soil": "dry"}
    tree = {
        "kind": "tree",
        "girth_at": "1.3 m",
        "bark": "rough",
        "health": "sound",
        "fork": "none",
        "species": "oak",
    }
    anchors = {name: tree | {"girth": girth, "plan": [f"{x} m", f"{y} m"]} for name, (x, y) in PLACES.items()}
    spans = [
        {"between": [a, b], "ground": {"profile_from": a, "profile": [["0 m", "0 m"], ["20 m", "0 m"]]}}
        for a, b, _ in LINES.values()
    ]
    return {"riglint": "spot/1", **meadow, "anchors": anchors, "spans": spans}


def rigs() -> dict[str, dict[str, Any]]:
    """The five rigs, each with gear of its own."""
    found = {}
    for n, (title, (first, last, height)) in enumerate(LINES.items(), 1):
        edits = {"title": title, "plan.first_day": DAY, "chain[0].at": first, "chain[12].at": last}
        edits |= {"chain[8].tie_back.to": last, "chain[0].height": height, "chain[12].height": height}
        data = rig_data("low", edits)
        data["spot"] = "spot.yaml"
        found[f"line-{n}.yaml"] = data
    return found


def write_festival(folder: Path, *, girth: str = "1.4 m") -> Path:
    """Write the library of the day, and return its folder."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "rig-library").touch()
    files = {"spot.yaml": spot(girth), **rigs()}
    for name, data in files.items():
        text = yaml.safe_dump(data, sort_keys=False, allow_unicode=True, width=1000)
        (folder / name).write_text(text, encoding="utf-8")
    return folder
