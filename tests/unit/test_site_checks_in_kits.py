"""A kit stands in many rigs: what somebody sees on site can't be said in it for all of them."""

from pathlib import Path

import pytest

from riglint.model.library import load_file

SHELF = """riglint: shelf/1
title: Club store
items:
  SH-1: {kind: shackle, mbs: 60 kN}
  W-1: {kind: webbing_anchor, mbs: 40 kN}
kits:
  end: [SH-1, {gear: W-1, KEY}]
"""


@pytest.mark.parametrize("key", ["pins: true", "pins: false", "tail_tied: true"])
def test_what_is_ticked_on_site_is_refused_in_a_kit(tmp_path: Path, key: str) -> None:
    file = tmp_path / "gear.yaml"
    file.write_text(SHELF.replace("KEY", key), encoding="utf-8")
    (problem,) = load_file(file, "gear.yaml").problems
    assert problem.key == f"kits.end[1].{key.split(':', maxsplit=1)[0]}"
    assert problem.place.line == 7
    assert "it is looked at on site, in each rig anew" in problem.message


@pytest.mark.parametrize("key", ["tail: 1 m", "tail_ties: 1"])
def test_what_does_not_change_on_site_may_stand_in_a_kit(tmp_path: Path, key: str) -> None:
    file = tmp_path / "gear.yaml"
    file.write_text(SHELF.replace("KEY", key), encoding="utf-8")
    assert not [one for one in load_file(file, "gear.yaml").problems if "on site" in one.message]
