"""What shows only across files: gear in two rigs, unfit gear on a shelf, a spot told twice, a change after a check."""

import json
from pathlib import Path
from typing import Any

import pytest
import yaml

from riglint.testing import edited_data
from tests.cli.calling import DAY, run, write


@pytest.fixture
def shared(library: Path) -> Path:
    """A library of two rigs that name one spot and one shelf."""
    rig = edited_data("low", ())
    write(library / "spot.yaml", _yaml({"riglint": "spot/1", **rig["spot"]}))
    write(library / "shelf.yaml", _yaml({"riglint": "shelf/1", **rig["shelf"][0]}))
    put(library, "saturday", "2026-05-09")
    put(library, "sunday", "2026-05-10")
    return library


def put(library: Path, name: str, day: str, **more: object) -> None:
    """Write a rig that is up on a day and names the library's spot and shelf."""
    rig = edited_data("low", (("plan.first_day", day),))
    text = _yaml({**rig, "spot": "../spot.yaml", "shelf": ["../shelf.yaml"], **more})
    write(library / f"rigs/{name}.yaml", text)


def _yaml(data: object) -> str:
    return str(yaml.safe_dump(data, sort_keys=False, allow_unicode=True))


def told(library: Path, *call: str) -> list[tuple[str, dict[str, Any]]]:
    _, out, err = run(library, "audit", *(call or (".",)), *DAY, "--format", "json")
    assert err == ""
    found = [(file["path"], one) for file in json.loads(out)["files"] for one in file["findings"]]
    return [(path, one) for path, one in found if one["rule"].startswith(("library/", "site/changed"))]


def change(file: Path, old: str, new: str) -> None:
    text = file.read_text("utf-8")
    assert old in text
    write(file, text.replace(old, new, 1))


def test_two_rigs_on_different_days_share_their_gear_in_peace(shared: Path) -> None:
    assert told(shared) == []


def test_two_rigs_on_one_day_are_told_once_with_the_gear_and_both_files(shared: Path) -> None:
    change(shared / "rigs/sunday.yaml", "2026-05-10", "2026-05-09")
    ((path, finding),) = told(shared)
    assert (path, finding["rule"], finding["signal"]) == (
        "rigs/sunday.yaml",
        "library/double_booking",
        "NOTICE",
    )
    assert "on 2026-05-09, rigs/saturday.yaml and rigs/sunday.yaml: BR-1, " in finding["message"]
    assert finding["rigs"] == ["rigs/saturday.yaml", "rigs/sunday.yaml"]


def test_a_day_that_is_not_written_down_is_asked_for_once_a_rig(shared: Path) -> None:
    for name in ("saturday", "sunday"):
        change(shared / f"rigs/{name}.yaml", "first_day:", "note: x\n#")
        change(shared / f"rigs/{name}.yaml", "note: x\n", "")
    found = told(shared)
    assert [(path, one["kind"], one["at"]["key"]) for path, one in found] == [
        ("rigs/saturday.yaml", "open", "plan.first_day"),
        ("rigs/sunday.yaml", "open", "plan.first_day"),
    ]


def test_gear_in_no_rig_is_looked_at_when_its_shelf_is_audited_and_only_then(shared: Path) -> None:
    spare = "  SH-9: {kind: shackle, material: steel, wll: 2 t, inspected: 2024-01-01}\n"
    shelf = shared / "shelf.yaml"
    write(shelf, shelf.read_text("utf-8") + spare)
    ((path, finding),) = told(shared)
    assert (path, finding["rule"], finding["signal"]) == ("shelf.yaml", "library/idle_gear", "NOTICE")
    assert "SH-9 is in the gear list, unused, and was last checked on 2024-01-01." in finding["message"]
    assert told(shared, "rigs") == []


def test_a_spot_copied_and_corrected_in_one_place_is_told(shared: Path) -> None:
    change(shared / "spot.yaml", "span: 16 m ± 0.1 m", "span: 17 m ± 0.1 m")
    change(
        shared / "rigs/sunday.yaml",
        "spot: ../spot.yaml",
        f"spot: {json.dumps(edited_data('low', ())['spot'])}",
    )
    found = told(shared)
    assert [(path, one["rule"], one["at"]["key"]) for path, one in found] == [
        ("rigs/sunday.yaml", "library/spot_twice", "spot.span")
    ]
    assert (
        "17 m ± 0.1 m for rigs/saturday.yaml and 16 m ± 0.1 m for rigs/sunday.yaml" in found[0][1]["message"]
    )


# The fingerprint of a check


def checked(library: Path, fingerprint: str | None) -> None:
    check = {"what": "hand_tight_recheck", "date": "2026-05-02", "after_tension": "3 kN"}
    check |= {"fingerprint": fingerprint} if fingerprint else {}
    put(library, "saturday", "2026-05-09", stage="built", checks=[check])


@pytest.fixture
def stands(shared: Path) -> Path:
    """A line that stands and was checked with the files as they are."""
    checked(shared, None)
    ((_, asks),) = told(shared, "rigs/saturday.yaml")
    assert (asks["kind"], asks["signal"]) == ("review", "NOTICE")
    checked(shared, asks["do"].partition("fingerprint: ")[2].partition("`")[0])
    assert told(shared, "rigs/saturday.yaml") == []
    return shared


@pytest.mark.parametrize(
    ("file", "old", "new", "what"),
    [
        ("rigs/saturday.yaml", "tail: 1 m", "tail: 1.1 m", "the rig"),
        ("spot.yaml", "girth: 140 cm", "girth: 141 cm", "its spot"),
        ("shelf.yaml", "mbs: 42 kN", "mbs: 43 kN", "gear that it uses"),
    ],
)
def test_a_change_after_the_check_is_told_with_what_changed(
    stands: Path, file: str, old: str, new: str, what: str
) -> None:
    change(stands / file, old, new)
    ((_, finding),) = told(stands, "rigs/saturday.yaml")
    assert (finding["rule"], finding["signal"]) == ("site/changed_since_check", "CAUTION")
    assert f"The files have changed since the last check: {what}." in finding["message"]


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("rigs/saturday.yaml", "stage: built", "stage: walking"),
        ("rigs/saturday.yaml", "title: Low line between two limes", "title: Evening line"),
        (
            "shelf.yaml",
            "items:",
            "items:\n  SH-9: {kind: shackle, material: steel, wll: 2 t, inspected: 2026-04-02}",
        ),
    ],
)
def test_what_is_logged_or_not_used_changes_no_fingerprint(
    stands: Path, file: str, old: str, new: str
) -> None:
    change(stands / file, old, new)
    assert told(stands, "rigs/saturday.yaml") == []
