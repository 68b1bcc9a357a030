"""A spot or a shelf by itself is judged by all that can be judged without a rig, and says that none was there."""

import json
from pathlib import Path
from typing import Any

import pytest
import yaml

from riglint.testing import edited_data
from tests.cli.calling import CHECKOUT, DAY, run, write

EXAMPLES = CHECKOUT / "examples"
SPOTS = sorted([*(EXAMPLES / "spots").glob("*.yaml"), *(EXAMPLES / "ordinary/spots").glob("*.yaml")])
SHELVES = sorted((EXAMPLES / "ordinary/shelf").glob("*.yaml"))
BAD_SPOT = {
    "anchors.gate.health": "dead",
    "surroundings.path_crosses": True,
    "surroundings.wires": [{"distance": "1 m"}],
}


def text(data: object) -> str:
    return str(yaml.safe_dump(data, sort_keys=False, allow_unicode=True))


def spot_of(baseline: str, edits: dict[str, Any]) -> dict[str, Any]:
    changes = [(f"spot.{key}", value) for key, value in edits.items()]
    return {"riglint": "spot/1", **edited_data(baseline, changes)["spot"]}


def shelf_of(baseline: str, edits: dict[str, Any]) -> dict[str, Any]:
    changes = [(f"shelf[0].{key}", value) for key, value in edits.items()]
    return {"riglint": "shelf/1", **edited_data(baseline, changes)["shelf"][0]}


def audited(library: Path, *files: str) -> tuple[int, list[dict[str, Any]], str]:
    """Return the exit status, what was found, and the text in one line."""
    status, out, err = run(library, "audit", *files, *DAY, "--format", "json")
    assert err == ""
    found = [one for file in json.loads(out)["files"] for one in file["findings"]]
    _, printed, _ = run(library, "audit", *files, *DAY)
    return status, found, " ".join(printed.split())


def loud(found: list[dict[str, Any]]) -> set[tuple[str, str, str, str]]:
    quiet = {"NOTICE"}
    return {
        (one["rule"], one["signal"], one["kind"], one["at"]["key"])
        for one in found
        if one["signal"] not in quiet
    }


def test_a_spot_is_judged_without_a_rig(library: Path) -> None:
    write(library / "spot.yaml", text(spot_of("low", BAD_SPOT)))
    status, found, last = audited(library, "spot.yaml")
    assert status == 1
    assert loud(found) == {
        ("anchor/tree_stem", "DANGER", "fail", "anchors.gate.health"),
        ("site/paths", "DANGER", "fail", "surroundings.path_crosses"),
        ("site/wires", "DANGER", "fail", "surroundings.wires[0].distance"),
    }
    assert "No rig was there: spot alone was judged, without any force." in last


def test_bolts_of_a_spot_are_judged_one_by_one(library: Path) -> None:
    point = "anchors.east.points.e6"  # the last of six
    write(
        library / "spot.yaml",
        text(spot_of("highline", {f"{point}.radial": "25 lbf", f"{point}.edge": "50 mm"})),
    )
    _, found, _ = audited(library, "spot.yaml")
    assert {(rule, key) for rule, _, _, key in loud(found)} == {
        ("anchor/bolt_figures", f"{point}.radial"),
        ("anchor/bolt_spacing", f"{point}.edge"),
    }


def test_a_shelf_is_judged_without_a_rig(library: Path) -> None:
    edits = {
        "items.W-1.events": [{"date": "2026-04-10", "what": "cut"}],
        "items.SH-1.inspected": "2020-01-01",
        "items.RS-1.label": "missing",
        "items.RP-1.diameter": "100 mm",
    }
    write(library / "shelf.yaml", text(shelf_of("low", edits)))
    status, found, last = audited(library, "shelf.yaml")
    assert status == 1
    assert {rule for rule, *_ in loud(found)} == {
        "gear/event",
        "gear/inspection",
        "gear/label",
        "gear/rating",
        "gear/size",
    }
    assert [one for one in found if one["rule"] == "library/idle_gear"] == []  # said once
    assert "No rig was there: gear alone was judged, without any force." in last


@pytest.mark.parametrize(
    ("name", "data", "key"),
    [
        ("shelf.yaml", {"riglint": "shelf/1", "items": {}}, "items"),
        ("spot.yaml", {"riglint": "spot/1", "anchors": {}}, "anchors"),
    ],
)
def test_one_with_nothing_in_it_does_not_pass(
    library: Path, name: str, data: dict[str, Any], key: str
) -> None:
    write(library / name, text(data))
    status, found, _ = audited(library, name)
    assert status == 1
    assert loud(found) == {("file/empty", "WARNING", "open", key)}


def test_what_a_rig_refers_to_is_judged_with_it(library: Path) -> None:
    rig = edited_data("low", ())
    write(library / "spot.yaml", text(spot_of("low", {})))
    write(library / "shelf.yaml", text(shelf_of("low", {})))
    write(library / "rig.yaml", text({**rig, "spot": "spot.yaml", "shelf": ["shelf.yaml"]}))
    status, found, last = audited(library, "rig.yaml", "spot.yaml", "shelf.yaml")
    assert (status, loud(found)) == (0, set())
    assert "No rig was there" not in last


def test_spots_and_shelves_of_the_examples_bring_no_warning() -> None:
    files = [str(file) for file in (*SPOTS, *SHELVES)]
    status, out, _ = run(CHECKOUT, "audit", *files, *DAY, "--format", "json")
    found = [one for file in json.loads(out)["files"] for one in file["findings"]]
    assert (status, loud(found)) == (0, set())
    assert len(files) > 20
