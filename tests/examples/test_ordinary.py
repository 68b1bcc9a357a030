"""Ordinary rigs: what clubs rig every weekend brings no DANGER and no WARNING, and leaves nothing open.

The rigs were written from practice first and audited afterwards (common practice, no source). A finding here is
a question: is the rig wrong, or does a rule raise a false alarm?
"""

from datetime import date
from functools import cache
from pathlib import Path
from typing import get_args

import pytest

from riglint.findings import Audit, FileResult, audit
from riglint.loads import Loads
from riglint.model.library import RigFile
from riglint.model.vocabulary.words import AnchorKind, Move, PullerForm, Stage, Use
from riglint.rulebook import load_rulebook
from riglint.rulekit import Signal

LIBRARY = Path(__file__).parents[2] / "examples/ordinary"
RIGS = tuple(sorted(file.stem for file in (LIBRARY / "rigs").glob("*.yaml")))
HIGHLINES = tuple(name for name in RIGS if "highline" in name)
ON = date(2026, 5, 2)
AT_LEAST = 20
# Standing tension and worst peak in kN, by use (common practice, no source).
USUAL = {
    "lowline": ((1, 5), (3, 10)),
    "jumpline": ((5, 12), (7, 16)),
    "longline": ((3, 12), (4, 15)),
    "midline": ((1, 4), (3, 10)),
    "highline": ((1, 6), (4, 10)),
    "waterline": ((2, 6), (4, 10)),
    "slackrope": ((0, 0.3), (2, 8)),
}


@cache
def audited() -> Audit:
    """Audit the whole library."""
    return audit([LIBRARY], load_rulebook(), ON)


def of(name: str) -> FileResult:
    """Return what an audit says of one rig."""
    return next(file for file in audited().files if file.path == f"examples/ordinary/rigs/{name}.yaml")


def loads_of(name: str) -> Loads:
    """Return the computed loads of one rig."""
    loads = of(name).loads
    assert loads is not None
    return loads


def files() -> list[RigFile]:
    """Return all rigs as they were read."""
    return [loads_of(name).path.rig for name in RIGS]


@pytest.mark.parametrize("name", RIGS)
def test_an_ordinary_rig_brings_no_warning(name: str) -> None:
    loud = [
        (one.rule, one.signal.name, one.message)
        for one in of(name).findings
        if one.signal >= Signal.WARNING and one.accepted is None
    ]
    assert loud == []


def test_the_library_as_a_whole_is_quiet_and_complete() -> None:
    result = audited()
    assert result.status(Signal.WARNING) == 0
    assert [one.message for one in result.findings if one.kind == "open"] == []
    assert [one.because for file in result.files for one in file.not_judged] == []
    assert all(file.judged for file in result.files)
    assert result.left_out == ()


def test_there_are_rigs_of_every_kind() -> None:
    rigs = [file.rig for file in files()]
    assert len(rigs) >= AT_LEAST
    assert {rig.use for rig in rigs} == set(get_args(Use))
    assert {rig.stage for rig in rigs} == set(get_args(Stage))
    assert {move for rig in rigs if rig.plan for move in rig.plan.moves} == set(get_args(Move))
    spots = [file.spot for file in files() if file.spot]
    assert {one.kind for spot in spots for one in spot.anchors.values()} == set(get_args(AnchorKind))
    gear = [placed.item.gear for name in RIGS for placed in loads_of(name).path.parts if placed.item]
    fibres = {one.material for one in gear if one.kind == "webbing"}
    assert {"polyamide", "polyester", "uhmwpe"} <= fibres
    assert {one.form for one in gear if one.kind == "puller"} == set(get_args(PullerForm))


def test_hauls_and_pullers_of_every_usual_ratio_are_there() -> None:
    hauls = [placed.part for name in RIGS if (placed := loads_of(name).path.haul) is not None]
    ratios = {(one.strands or 0) * (one.multiplier.ratio or 1 if one.multiplier else 1) for one in hauls}
    assert {5, 9, 15, 21} <= ratios
    assert {one.stays for one in hauls} == {True, False}


@pytest.mark.parametrize("name", RIGS)
def test_forces_lie_where_clubs_are_used_to_them(name: str) -> None:
    loads = loads_of(name)
    (least, most), (softest, hardest) = USUAL[loads.path.rig.rig.use or ""]
    assert least <= loads.standing.tension_n / 1e3 <= most
    assert softest <= max(state.soft.rest.tension_n for state in loads.peaks() if state.soft) / 1e3 <= hardest


@pytest.mark.parametrize("name", HIGHLINES)
def test_peaks_of_a_highline_stay_below_10_kn(name: str) -> None:
    """The Swiss alpine club's article on highlines expects 10 kN at most of a line that is built right."""
    states = [state for state in loads_of(name).peaks() if state.name in {"leash_fall", "bounce"}]
    falls = [state.soft.rest.tension_n for state in states if state.soft]
    assert len(falls) > 1
    assert max(falls) <= 10e3
