"""`riglint limits`: one rig, how far its values may move."""

import json
from pathlib import Path

from tests.cli.calling import DAY, SOUND, run, write


def test_limits_of_a_rig_as_text_and_json(library: Path) -> None:
    write(library / "rig.yaml", SOUND)
    status, out, err = run(library, "limits", "rig.yaml", *DAY, "--write", "json=limits.json")
    assert (status, err) == (0, "")
    assert "Standing tension" in out
    assert "does not mean that a rig may be used" in " ".join(out.split())
    told = json.loads((library / "limits.json").read_text("utf-8"))
    assert (told["riglint"], told["path"], told["stop_at"]) == ("limits/1", "rig.yaml", "WARNING")
    haulers = next(one for one in told["ranges"] if one["name"] == "haulers")
    assert haulers["upper"]["beyond"]["rule"] == "ratio/haul_overshoot"


def test_limits_stop_at_the_word_that_is_asked_for(library: Path) -> None:
    write(library / "rig.yaml", SOUND)
    status, out, _ = run(library, "limits", "rig.yaml", *DAY, "--stop-at", "CAUTION", "--format", "json")
    height = next(one for one in json.loads(out)["ranges"] if one["name"] == "height of both anchors")
    assert status == 0
    assert height["lower"]["last"] == "1 m"  # its clearance of 0.3 m ends at 0.97 m, advised only
    assert (height["lower"]["beyond"]["rule"], height["lower"]["beyond"]["signal"]) == (
        "ground/clearance",
        "CAUTION",
    )


def test_limits_of_what_is_no_rig(library: Path) -> None:
    write(library / "spot.yaml", "riglint: spot/1\ntitle: A spot\nanchors: {}\n")
    status, out, err = run(library, "limits", "spot.yaml", *DAY)
    assert (status, out) == (2, "")
    assert "name a rig" in err
