"""A standing tension from a reading: what the model says would be read gives back the tension it was made with."""

from datetime import date
from math import sqrt
from typing import Any

import pytest

from riglint.findings import Audit, FileResult, judge
from riglint.loadpath import build
from riglint.loads import Loads
from riglint.loads.inputs import MissingInput, NotComputable
from riglint.loads.path.geometry import G
from riglint.loads.states.standing import rest_of, stand
from riglint.loads.what_if.sensitivity import sensitivities
from riglint.mechanics.span.line import hang
from riglint.model.values.policy import Values
from riglint.policy import DEFAULT
from riglint.reports.audit.text import audit_text
from riglint.reports.layout.spans import characters
from riglint.rulebook import load_rulebook
from riglint.rulekit import REMOVE, sound
from riglint.testing import edited, rig_of

ON = date(2026, 5, 2)
TOLD = {"stage": "built", "plan.standing_from": "measured"}
FORCE = {"what": "force", "date": "2026-05-01", "where": "line", "value": "5.2 kN"}
LEAD = {**FORCE, "where": "lead_strand", "value": "1.3 kN"}


def loads(edits: dict[str, Any], baseline: str = "long_haul") -> Loads:
    return Loads(build(rig_of(edited(sound(baseline, edits)))), Values(), ON)


def read(*readings: dict[str, Any], **edits: Any) -> Loads:
    return loads({**TOLD, "measured": list(readings), **edits})


def standing_at(tension_n: float, baseline: str = "long_haul") -> Loads:
    return loads({"plan.standing_tension": f"{tension_n / 1000.0:.6f} kN"}, baseline)


def sag_under(of: Loads, mass_kg: float, at_m: float) -> tuple[float, float]:
    """Return the sag below the chord and below the bare line, as a folding rule would find it."""
    line = of.standing.line
    between = line.span_m - line.reach_a.length_m - line.reach_b.length_m
    fraction = (at_m - line.reach_a.length_m) / between
    loaded, bare = rest_of(hang(line, mass_kg * G, fraction)), rest_of(hang(line, 0.0, fraction))
    return loaded.sag_m, loaded.sag_m - bare.sag_m


@pytest.mark.parametrize("tension_n", [3000.0, 5500.0, 8000.0])
@pytest.mark.parametrize("returns", [1, 10])
def test_a_pulse_gives_back_the_tension_that_it_ran_at(tension_n: float, returns: int) -> None:
    # A wave on a string, OpenStax University Physics 1, section 16.3: c = √(T/μ), here of the stretched webbing.
    rest = standing_at(tension_n).standing.equilibrium
    line = standing_at(tension_n).standing.line
    mass = line.webbings[0].weight_n_per_m / G * line.unstressed_m / rest.stretched_m
    time_s = 2.0 * returns * rest.stretched_m / sqrt(tension_n / mass)
    pulse = {"what": "pulse", "date": "2026-05-01", "returns": returns}
    found = read({**pulse, "time": f"{time_s:.5f} s", "over": f"{rest.stretched_m:.4f} m"})
    assert found.standing_tension_n == pytest.approx(tension_n, rel=1e-3)
    assert found.standing.tension_n == pytest.approx(found.standing_tension_n, rel=1e-9)


@pytest.mark.parametrize("tension_n", [3000.0, 5500.0, 8000.0])
@pytest.mark.parametrize("start", ["chord", "still_line"])
@pytest.mark.parametrize("planned", ["6 kN", REMOVE])
def test_a_sag_gives_back_the_tension_that_it_hung_at(tension_n: float, start: str, planned: Any) -> None:
    # There and back through the same line model: own; the blocks of the haul move with the tension.
    below_chord, below_bare = sag_under(standing_at(tension_n), 75.0, 38.0)
    depth = below_chord if start == "chord" else below_bare
    sag = {"what": "sag", "date": "2026-05-01", "under": "75 kg", "at": "38 m", "from": start}
    found = read({**sag, "depth": f"{depth:.6f} m"}, **{"plan.standing_tension": planned})
    assert found.standing_tension_n == pytest.approx(tension_n, rel=1e-5)


def test_a_sag_gives_back_the_tension_of_a_line_without_blocks_too() -> None:
    below_chord, _ = sag_under(standing_at(2500.0, "highline"), 75.0, 20.0)
    sag = {"what": "sag", "date": "2026-05-01", "under": "75 kg", "at": "20 m", "from": "chord"}
    found = loads({**TOLD, "measured": [{**sag, "depth": f"{below_chord:.6f} m"}]}, "highline")
    assert found.standing_tension_n == pytest.approx(2500.0, rel=1e-5)


def test_every_state_is_computed_with_the_reading() -> None:
    by_plan, by_reading = standing_at(5200.0), read(FORCE)
    assert by_reading.peaks()[0].tension_n == pytest.approx(by_plan.peaks()[0].tension_n, rel=1e-9)
    assert by_reading.lowering_state.tension_n == 5200.0
    assert (
        by_reading.planned_standing_tension_n == 6000.0
    )  # the plan stays what it is, and is held against the reading


def test_without_the_key_a_reading_changes_nothing() -> None:
    assert loads({"stage": "built", "measured": [FORCE]}).standing_tension_n == 6000.0
    assert loads({"stage": "built", "measured": [FORCE]}).tension_reading is None


def test_the_newest_reading_counts_and_none_of_tomorrow() -> None:
    older, later = {**FORCE, "date": "2026-04-01", "value": "7 kN"}, {**FORCE, "date": "2026-06-01"}
    found = read(FORCE, older, later).tension_reading
    assert found is not None
    assert (found.number, found.tension_n, found.words) == (0, 5200.0, "force read on 2026-05-01")


def test_a_force_in_the_lead_strand_is_passed_over() -> None:
    newer = {**LEAD, "date": "2026-05-02"}
    found = read(FORCE, newer).tension_reading
    assert found is not None
    assert found.number == 0


@pytest.mark.parametrize(
    ("readings", "edits", "said"),
    [
        ([], {}, "'measured' has no entry"),
        ([LEAD], {}, "only bounds the tension"),
        ([{**FORCE, "date": "2026-05-03"}], {}, "dated 2026-05-02 or earlier"),
        ([FORCE], {"stage": "planned"}, "the stage is 'planned'"),
        ([FORCE], {"chain[5].length": "73 m", "chain[8].at_standing": "4.8 m"}, "fix the tension already"),
    ],
)
def test_what_cannot_be_followed_says_why(readings: list[Any], edits: dict[str, Any], said: str) -> None:
    found = read(*readings, **edits)
    with pytest.raises(NotComputable, match=said):
        _ = found.standing_tension_n
    with pytest.raises(NotComputable, match=said):
        _ = found.standing


@pytest.mark.parametrize(
    ("entry", "missing"),
    [
        ({name: value for name, value in FORCE.items() if name != "date"}, "measured[0].date"),
        ({name: value for name, value in FORCE.items() if name != "where"}, "measured[0].where"),
        ({"what": "pulse", "date": "2026-05-01", "time": "1 s"}, "measured[0].over"),
        ({"what": "sag", "date": "2026-05-01", "under": "75 kg", "at": "38 m"}, "measured[0].depth"),
    ],
)
def test_a_value_left_out_of_the_newest_reading_is_an_open_question(
    entry: dict[str, Any], missing: str
) -> None:
    older = {**FORCE, "date": "2026-01-01"}
    with pytest.raises(MissingInput, match=r"measured\[0\]") as asked:
        _ = read(entry, older).standing
    assert missing in [at.key_text for at in asked.value.fields]


@pytest.mark.parametrize("depth", ["0 m", "60 m", "0.001 m"])
def test_a_sag_that_no_line_has_is_said_and_crashes_nothing(depth: str) -> None:
    sag = {"what": "sag", "date": "2026-05-01", "under": "75 kg", "at": "38 m", "from": "chord"}
    edits = {**TOLD, "measured": [{**sag, "depth": depth}]}
    found = judge(rig_of(edited(sound("long_haul", edits))), load_rulebook(), ON, DEFAULT, weighed=True)
    assert not [one.message for one in found.findings if one.crashed]
    told = [one for one in found.findings if one.rule == "chain/computed" and one.kind == "fail"]
    assert {one.at.key for one in told} == {"plan.standing_from"}


def test_the_plus_minus_of_a_reading_is_carried_like_any_other() -> None:
    found = read({**FORCE, "value": "5.2 kN ± 0.2 kN"}, **{"spot.span": "82 m"})
    (one,) = sensitivities(found)
    planned = loads({"plan.standing_tension": "5.2 kN ± 0.2 kN", "spot.span": "82 m"})
    (same,) = sensitivities(planned)
    assert one.input.at.key_text == "measured[0].value"
    assert one.peak_n == pytest.approx(same.peak_n, rel=1e-9)
    assert one.peak_n is not None
    assert one.peak_n > 50.0


def test_findings_name_the_reading_that_they_rest_on() -> None:
    edits = {**TOLD, "measured": [{**FORCE, "value": "20 kN"}]}
    found = judge(rig_of(edited(sound("long_haul", edits))), load_rulebook(), ON, DEFAULT).findings
    ratios = [one for one in found if one.rule == "ratio/peak" and one.kind == "fail"]
    assert ratios
    for one in ratios:
        named = [given for given in one.inputs if given.symbol == "T0"]
        assert [given.name for given in named] == ["standing tension, force read on 2026-05-01"]
        assert named[0].where is not None
    assert [one for one in found if one.rule == "measure/tension"]  # the plan's 6 kN is still held against it


def test_the_report_says_which_reading_the_line_was_computed_with() -> None:
    rig = rig_of(edited(sound("long_haul", {**TOLD, "measured": [FORCE]})))
    judged = judge(rig, load_rulebook(), ON, DEFAULT)
    result = FileResult("rig.yaml", "rig", findings=judged.findings, loads=judged.loads)
    said = " ".join(characters(audit_text(Audit(ON, [result], rules=1, force=DEFAULT), 100)).split())
    assert "standing 5.2, " in said
    assert "kN; standing tension by the force read on 2026-05-01, line " in said


def test_a_word_that_is_neither_is_refused_with_both() -> None:
    with pytest.raises(ValueError, match="'standing_from' does not take the word"):
        rig_of(edited(sound("low", {"plan.standing_from": "reading"})))


def test_the_line_is_the_planned_one_where_the_reading_says_the_same() -> None:
    same = read({**FORCE, "value": "6 kN"})
    assert stand(same.geometry, 6000.0).line == loads({}).standing.line
