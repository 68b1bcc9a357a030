"""The example library: sound rigs stay quiet, faulty ones are found out, open ones name what is missing.

What is wrong with a faulty rig was put there by hand, one mistake at a time (common practice, no source); the
`.expected.json` beside it lists what an audit must say of it, in the order of the report.
"""

import json
import subprocess
import sys
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from riglint.findings import Audit, Finding, audit
from riglint.reports.audit.text import audit_text
from riglint.reports.layout.spans import characters
from riglint.rulebook import load_rulebook
from riglint.rulekit import Signal

ROOT = Path(__file__).parents[2]
EXAMPLES = ROOT / "examples"
ON = date(2026, 5, 2)
PULLED_BY_HAND = ("rigs/highline-rope-backup", "rigs/slackrope")  # sound rigs without a haul
HIGHLINES = ("rigs/highline-webbing-backup", "rigs/highline-rope-backup")
SOUND = (
    "rigs/low-line",
    "rigs/long-line",
    "rigs/modest-low-line",
    "rigs/highline-webbing-backup",
    "rigs/highline-rope-backup",
    "rigs/waterline",
    "rigs/slackrope",
    "built/low-line",
    "built/long-line",
    "built/long-line-measured",
)
# Where the three mistakes of each faulty rig are found.
MISTAKES = {
    # A bolt for both lines, a backup that is too long, a pad under the main line only.
    "faulty/highline-webbing-backup": {"backups[0].chain[0]", "backups[0].extra", "edges[1].padded"},
    # One sling round the oak, a short tail at a knot, a connector for a leash ring.
    "faulty/highline-rope-backup": {"chain[9].at", "backups[0].chain[5].tail", "leash.rings[1]"},
    # Slings higher than the water is deep for, a brake out on the webbing side, a slack tie-back.
    "faulty/waterline": {"ground.water_depth", "chain[8].brake.side", "chain[8].tie_back.slack"},
    # A knot in the webbing, told of as a knot and by what the webbing still holds; a short tail; a basket
    # where the line comes off steeply.
    "faulty/slackrope": {"chain[4]", "items.W-20.mbs", "chain[6].tail", "chain[10].height"},
    "faulty/low-line": {"chain[2].gear", "chain[8].tail.stopper", "items.SH-7.inspected"},
    "faulty/long-line": {"chain[8].multiplier.left_on", "chain[8].rope.length", "chain[8].pull.stand"},
}
FAULTY = tuple(MISTAKES)
OPEN = "open/low-line-six-open"
LEFT_OUT = (
    "plan.users[0].mass",
    "chain[4].tail",
    "spot.anchors.gate.bark",
    "spot.anchors.gate.health",
    "spot.ground.soil",
    "shelf[1].items.SH-guest.inspected",
)


@cache
def audited(*names: str) -> Audit:
    """Audit rigs of the library by name, or the whole library."""
    paths = [EXAMPLES / f"{name}.yaml" for name in names] or [EXAMPLES]
    return audit(paths, load_rulebook(), ON)


def told(result: Audit) -> list[Finding]:
    """Return what is wrong or missing; what only eyes on site can see is left out."""
    return [finding for finding in result.findings if finding.kind != "review"]


def row(finding: Finding) -> dict[str, str | None]:
    """Return a finding as an expected file lists it."""
    at = finding.at
    return {
        "rule": finding.rule,
        "signal": finding.signal.name,
        "kind": finding.kind,
        "key": at.key,
        "part": at.part,
    }


def expected(name: str) -> list[dict[str, str | None]]:
    """Return the rows of an expected file."""
    rows: list[dict[str, str | None]] = json.loads((EXAMPLES / f"{name}.expected.json").read_text("utf-8"))
    return rows


@pytest.mark.parametrize("name", SOUND)
def test_a_sound_rig_stays_quiet(name: str) -> None:
    result = audited(name)
    loud = [(one.rule, one.signal.name, one.message) for one in result.findings if one.signal > Signal.NOTICE]
    assert loud == []
    assert [one.message for one in result.findings if one.kind == "open"] == []
    assert [one.because for file in result.files for one in file.not_judged] == []
    assert result.status(Signal.CAUTION) == 0


@pytest.mark.parametrize("name", SOUND)
def test_a_sound_rig_is_computed_in_full(name: str) -> None:
    # Quiet because it was judged, not because there was nothing to judge by.
    loads = next(file.loads for file in audited(name).files if file.kind == "rig")
    assert loads is not None
    assert {"walker", "bounce"} <= {state.name for state in loads.people()}
    assert (loads.haul is None) == (name in PULLED_BY_HAND)


@pytest.mark.parametrize("name", HIGHLINES)
def test_falls_and_catches_of_a_sound_highline_are_computed(name: str) -> None:
    loads = next(file.loads for file in audited(name).files if file.kind == "rig")
    assert loads is not None
    lowest = {one.name: one.least_clearance_m for one in loads.computable()}
    assert {"leash_fall", "backup_catch"} <= lowest.keys()
    for state in ("leash_fall", "backup_catch"):
        room = lowest[state]
        assert room is not None
        assert room > 2.0  # common practice, no source


@pytest.mark.parametrize("name", FAULTY)
def test_a_faulty_rig_is_found_out(name: str) -> None:
    result = audited(name)
    assert [row(finding) for finding in told(result)] == expected(name)
    assert result.status(Signal.WARNING) == 1


@pytest.mark.parametrize("name", FAULTY)
def test_a_faulty_rig_is_told_of_its_mistakes_only(name: str) -> None:
    # What is only a NOTICE belongs to the sound twin too.
    places = {finding.at.key for finding in told(audited(name)) if finding.signal > Signal.NOTICE}
    assert places == MISTAKES[name]


@pytest.mark.parametrize("name", FAULTY)
def test_the_sound_twin_has_none_of_it(name: str) -> None:
    wrong = {finding.rule for finding in told(audited(name)) if finding.signal > Signal.NOTICE}
    twin = audited(name.replace("faulty", "rigs"))
    assert wrong
    assert not wrong & {finding.rule for finding in told(twin)}


def test_six_fields_left_out_are_six_open_questions() -> None:
    result = audited(OPEN)
    assert [row(finding) for finding in told(result)] == expected(OPEN)
    assert sorted(finding.at.key for finding in result.findings if finding.kind == "open") == sorted(LEFT_OUT)
    assert result.status(Signal.WARNING) == 1


def test_a_fault_of_the_shared_shelf_names_the_rig_that_it_touches() -> None:
    touched = [finding for finding in audited().findings if finding.at.key == "items.SH-7.inspected"]
    assert [finding.rigs for finding in touched] == [("examples/faulty/low-line.yaml",)]


def test_every_file_of_the_library_is_read_and_judged() -> None:
    result = audited()
    ordinary = EXAMPLES / "ordinary"  # a library of its own
    beside = {
        f"examples/ordinary/{file.relative_to(ordinary).as_posix()}"
        for folder in ("rigs", "against_park_rules")
        for file in (ordinary / folder).glob("*.yaml")
    }
    beside |= {
        f"examples/festival/rigs/{file.name}" for file in (EXAMPLES / "festival" / "rigs").glob("*.yaml")
    }
    beside |= {f"examples/compact/{name}.yaml" for name in ("park-line", "long-line", "highline")}
    rigs = {f"examples/{name}.yaml" for name in (*SOUND, *FAULTY, OPEN)} | beside
    assert {file.path for file in result.files if file.kind == "rig"} == rigs
    assert all(file.judged for file in result.files)
    assert len(result.left_out) == len(list((EXAMPLES / "ci").glob("*.yaml")))  # recipes for CI are no rigs


@pytest.mark.parametrize("width", [60, 160])
def test_no_line_of_the_report_is_wider_than_asked(width: int) -> None:
    text = characters(audit_text(audited(), width))
    assert [line for line in text.splitlines() if len(line) > width] == []
    assert max(len(line) for line in text.splitlines()) > width * 0.9


@pytest.mark.parametrize(("folders", "status"), [(("rigs", "built"), 0), (("faulty",), 1), (("open",), 1)])
def test_the_command_answers_with_its_exit_status(folders: tuple[str, ...], status: int) -> None:
    paths = [str(EXAMPLES / folder) for folder in folders]
    command = [sys.executable, "-m", "riglint", "audit", *paths, "--on", ON.isoformat()]
    done = subprocess.run(command, capture_output=True, text=True, cwd=ROOT, check=False)
    assert done.returncode == status, done.stdout + done.stderr
    assert done.stderr == ""
    for folder in folders:
        assert f"{folder}/low-line" in done.stdout
