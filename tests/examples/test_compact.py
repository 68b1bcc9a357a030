"""Rigs written short: few lines, judged without an open question, and what they leave out is told."""

from datetime import date
from pathlib import Path

import pytest

from riglint.findings import audit
from riglint.rulebook import load_rulebook
from riglint.rulekit import Signal

COMPACT = Path(__file__).parents[2] / "examples/compact"
ON = date(2026, 5, 2)
WIDEST = 100  # characters of a line
# The most lines, comments and spot counted, gear list not; and what is assumed.
RIGS = {
    "park-line": (25, {"stretch of P-15", "mass of P-15", "hitch of PS-1 and PS-2"}),
    "long-line": (
        45,
        {
            "mass of W-90",
            "length of rope RP-45 in the pulley system",
            "block that the rope ends on",
            "distance between the blocks when closed",
            "hitch of LS-1 and LS-2",
        },
    ),
    "highline": (70, {"mass of H-60", "mass of H-61"}),
}


@pytest.mark.parametrize("name", RIGS)
def test_a_rig_written_short_has_few_lines_and_no_open_question(name: str) -> None:
    most, assumed = RIGS[name]
    lines = (COMPACT / f"{name}.yaml").read_text(encoding="utf-8").splitlines()
    assert len(lines) <= most
    assert max(map(len, lines)) <= WIDEST
    (result,) = (
        one for one in audit([COMPACT], load_rulebook(), ON).files if one.path.endswith(f"{name}.yaml")
    )
    assert [one for one in result.findings if one.kind != "review" or one.signal > Signal.CAUTION] == []
    assert {one.name for one in result.assumed} == assumed
    assert [one.decides for one in result.assumed if one.decides] == []


def test_they_are_all_there() -> None:
    assert {path.stem for path in COMPACT.glob("*.yaml")} == {*RIGS, "gear"}
