"""The ± of inputs: first order against sampling, verdicts that flip inside it, and which input matters most."""

import json
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path
from random import Random
from statistics import stdev
from typing import Any

import pytest

from riglint.findings import Audit, FileResult, Finding, judge
from riglint.loadpath import Placed, build
from riglint.loads import Loads
from riglint.loads.what_if.sensitivity import ranking, results, sensitivities
from riglint.loads.what_if.uncertain_inputs import MOST_WEIGHED, nudged, uncertain_inputs
from riglint.model.library import Library, RigFile
from riglint.model.references import resolve
from riglint.model.values.policy import Values
from riglint.policy import DEFAULT
from riglint.read.quantity import Quantity
from riglint.reports.audit.json_report import audit_json
from riglint.reports.audit.text import audit_text
from riglint.reports.layout.spans import characters
from riglint.rulebook import Rulebook, load_rulebook
from riglint.rulekit import Case, Fault, Signal, sound
from riglint.testing import edited, rig_of

ON = date(2026, 5, 2)
EXACT = {"spot.span": "16 m"}
WEB = "shelf[0].items.W-1.mass_per_metre"
LEAST_TAIL = "tail/webbing"


@cache
def book() -> Rulebook:
    return load_rulebook()


def rig(edits: dict[str, Any], baseline: str = "low") -> RigFile:
    return rig_of(edited(sound(baseline, edits)))


def loads(file: RigFile) -> Loads:
    return Loads(build(file), Values(), ON)


def judged(edits: dict[str, Any], *, weighed: bool = True) -> list[Finding]:
    return judge(rig(edits), book(), ON, weighed=weighed).findings


def of(rule: str, findings: list[Finding]) -> list[Finding]:
    return [one for one in findings if one.rule == rule]


def test_every_value_with_a_plus_minus_is_found() -> None:
    file = rig(
        {
            "plan.standing_tension": "3 kN ± 0.2 kN",
            WEB: "58 g/m ± 2 g/m",
            "plan.users[0].mass": "80 kg ± 5 kg",
        }
    )
    found = {one.at.key_text: one.plus_minus for one in uncertain_inputs(file)}
    assert found == pytest.approx(
        {
            "plan.standing_tension": 200.0,
            "plan.users[0].mass": 5.0,
            "spot.span": 0.1,
            "shelf[0].items.W-1.mass_per_metre": 0.002,
        }
    )


def test_gear_that_the_rig_does_not_name_is_left_alone() -> None:
    spare = {"kind": "shackle", "material": "steel", "mbs": "40 kN ± 1 kN"}
    assert uncertain_inputs(rig({**EXACT, "shelf[0].items.SPARE": spare})) == []


def test_one_value_is_moved_and_nothing_else() -> None:
    file = rig({"plan.standing_tension": "3 kN ± 0.2 kN"})
    tension = uncertain_inputs(file)[0]
    moved = nudged(file, tension, 1.0)
    assert moved.rig.plan is not None
    assert file.rig.plan is not None
    assert moved.rig.plan.standing_tension == Quantity(3200.0, 0.0, "3 kN ± 0.2 kN")
    assert file.rig.plan.standing_tension == Quantity(3000.0, 200.0, "3 kN ± 0.2 kN")
    assert moved.rig.plan.users == file.rig.plan.users
    assert (moved.spot, moved.items) == (file.spot, file.items)


def test_the_ground_goes_with_the_span() -> None:
    file = rig({})
    moved = nudged(file, uncertain_inputs(file)[0], 1.0)
    assert loads(moved).geometry.ground()[-1][0] == pytest.approx(16.1)


PULSE = {
    "what": "pulse",
    "date": "2026-05-01",
    "returns": 10,
    "time": "4.6 s ± 0.1 s",
    "over": "73 m ± 0.3 m",
}
SAMPLED: dict[str, tuple[str, dict[str, Any]]] = {
    "as planned": (
        "low",
        {
            "plan.standing_tension": "3 kN ± 0.15 kN",
            "plan.users[0].mass": "80 kg ± 4 kg",
            WEB: "58 g/m ± 3 g/m",
        },
    ),
    "as read on site": (
        "long_haul",
        {"stage": "built", "plan.standing_from": "measured", "measured": [PULSE], WEB: "58 g/m ± 2 g/m"},
    ),
}


@pytest.mark.parametrize("name", SAMPLED)
def test_first_order_agrees_with_sampling(name: str) -> None:
    # Law of propagation against propagation of distributions: JCGM 101:2008, with 300 seeded draws of independent
    # normal inputs; the standard deviation of 300 draws is itself known to about 4 %.
    baseline, edits = SAMPLED[name]
    file = rig(edits, baseline)
    inputs, draw = uncertain_inputs(file), Random(1)  # noqa: S311 - a seeded sample, no secret
    assert len(inputs) == 4
    sampled = []
    for _ in range(300):
        drawn = file
        for one in inputs:
            drawn = nudged(drawn, one, draw.gauss(0.0, 1.0))
        sampled.append(results(loads(drawn)))
    ranked = ranking(loads(file))
    for result, least in (("peak_n", 50.0), ("ratio", 0.01), ("clearance_m", 0.01)):
        first_order = ranked.plus_minus(result)
        assert first_order is not None
        assert first_order > least
        assert first_order == pytest.approx(stdev(getattr(one, result) for one in sampled), rel=0.15), result


def test_what_matters_most_stands_first() -> None:
    file = rig({"plan.standing_tension": "3 kN ± 0.3 kN", WEB: "58 g/m ± 1 g/m"})
    ranked = [one.input.at.key_text for one in sensitivities(loads(file))]
    assert ranked[0] == "plan.standing_tension"
    assert len(ranked) == 3
    first = sensitivities(loads(file))[0]
    assert first.peak_n is not None
    assert first.ratio is not None
    assert first.clearance_m is not None
    assert first.peak_n > 0.0  # tighter: a greater peak, less to spare, less sag
    assert first.ratio < 0.0
    assert first.clearance_m > 0.0


def test_no_plus_minus_changes_nothing() -> None:
    assert sensitivities(loads(rig(EXACT))) == []
    assert judged(EXACT) == judged(EXACT, weighed=False)


def test_a_fail_inside_the_uncertainty_stays_a_fail_and_says_so() -> None:
    # The rule asks for 0.5 m of tail.
    (found,) = of(LEAST_TAIL, judged({**EXACT, "chain[4].tail": "0.48 m ± 0.05 m"}))
    assert found.kind == "fail"
    assert "within the uncertainty of the inputs" in found.message
    assert "chain[4].tail (0.48 m ± 0.05 m)" in found.message
    (plain,) = of(LEAST_TAIL, judged({**EXACT, "chain[4].tail": "0.48 m"}))
    assert found.signal == plain.signal


def test_a_fail_outside_it_only_gets_its_plus_minus() -> None:
    (found,) = of(LEAST_TAIL, judged({**EXACT, "chain[4].tail": "0.3 m ± 0.05 m"}))
    assert "uncertainty" not in found.message
    assert found.plus_minus == pytest.approx(0.05)


def test_a_pass_that_would_fail_is_open_at_the_rules_own_word() -> None:
    (found,) = of(LEAST_TAIL, judged({**EXACT, "chain[4].tail": "0.52 m ± 0.05 m"}))
    (failing,) = of(LEAST_TAIL, judged({**EXACT, "chain[4].tail": "0.47 m"}))
    assert (found.kind, found.signal, found.at.key) == ("open", failing.signal, "chain[4].tail")
    assert found.message.startswith(
        f"This passes as written, but {failing.signal.name} at the − end of chain[4].tail (0.52 m ± 0.05 m): "
    )
    assert found.rules == (LEAST_TAIL,)
    assert of(LEAST_TAIL, judged({**EXACT, "chain[4].tail": "0.58 m ± 0.05 m"})) == []


@pytest.mark.parametrize("consequence", ["ground", "fall", "life"])
def test_the_word_is_not_capped(consequence: str) -> None:
    grave = {**EXACT, "plan.consequence": consequence}
    (found,) = of(LEAST_TAIL, judged({**grave, "chain[4].tail": "0.52 m ± 0.05 m"}))
    (failing,) = of(LEAST_TAIL, judged({**grave, "chain[4].tail": "0.47 m"}))
    assert found.signal == failing.signal


def test_what_is_graver_at_an_end_is_open_beside_the_fault() -> None:
    # Below 1.5 times its load any part is a DANGER; as written the fault is milder.
    key = "shelf[0].items.SE-1.mbs"

    def sewn_end(text: str) -> list[Finding]:
        return [one for one in of("ratio/peak", judged({**EXACT, key: text})) if one.at.part == "chain[6]"]

    assert [(one.kind, one.signal) for one in sewn_end("13 kN")] == [("fail", Signal.WARNING)]
    assert [(one.kind, one.signal) for one in sewn_end("11.5 kN")] == [("fail", Signal.DANGER)]
    found = {one.kind: one for one in sewn_end("13 kN ± 1.5 kN")}
    assert {kind: one.signal for kind, one in found.items()} == {
        "fail": Signal.WARNING,
        "open": Signal.DANGER,
    }
    assert found["open"].message.startswith(
        f"This is WARNING as written, but DANGER at the − end of {key} (13 kN ± 1.5 kN): "
    )


def test_an_end_where_no_line_is_silences_nothing() -> None:
    found = judged({**EXACT, "spot.span": "16 m ± 15.9 m"})
    opened = [one for one in found if one.kind == "open" and one.at.key == "spot.span"]
    assert opened
    assert all("end of spot.span (16 m ± 15.9 m)" in one.message for one in opened)
    assert max(one.signal for one in opened) == Signal.DANGER
    assert {"ratio/peak", "ground/clearance"} <= {rule for one in found for rule in one.rules} | {
        one.rule for one in found if one.signal >= Signal.CAUTION
    }


def test_a_rule_that_crashes_only_at_an_end_is_a_crash() -> None:
    whole = book().rules[LEAST_TAIL]

    def check(_case: Case, subject: Placed) -> Iterator[Fault]:
        assert subject.part.webbing_tail is not None
        if subject.part.webbing_tail.si < 0.5:
            raise ZeroDivisionError("float division by zero")
        yield from ()

    few = Rulebook({LEAST_TAIL: replace(whole, check=check)})
    edits = {**EXACT, "chain[4].tail": "0.52 m ± 0.05 m"}
    (found,) = judge(rig(edits), few, ON, weighed=True).findings
    assert (found.crashed, found.signal) == (True, Signal.DANGER)
    assert found.message.startswith("At the − end of chain[4].tail (0.52 m ± 0.05 m): The rule tail/webbing")


def test_a_rule_that_takes_the_near_end_itself_is_not_charged_twice() -> None:
    # The rule judges the near end, 3.5 m, against 3.05 m; another metre off would be 2.5 m and a fault.
    wires = {"spot.surroundings.wires": [{"distance": "4.5 m ± 1 m", "voltage": "20 kV"}]}
    written = of("site/wires", judged({**EXACT, **wires}, weighed=False))
    assert [one.kind for one in written] == ["review"]  # within reach of a broken line, but not too near
    assert of("site/wires", judged({**EXACT, **wires})) == written


def test_a_computed_verdict_flips_too_and_names_what_matters_most() -> None:
    # A sling whose ratio at the peak crosses what is asked for between 3 kN and 3.6 kN, found by looking.
    file = rig(EXACT)
    ratios = {one.id: one.worst(loads(file).peaks()) for one in loads(file).parts}
    sling = ratios["chain[2]"]
    assert sling is not None
    asked = next(one for one in loads(file).parts if one.id == "chain[2]").required_at("ground")
    assert asked is not None
    # Rated so that it just keeps the ratio as written: a rated load is a share of the breaking strength.
    wll_t = 2.0 * asked / sling.ratio * 1.01
    edits = {
        "plan.standing_tension": "3 kN ± 0.4 kN",
        "shelf[0].items.RS-1.wll": f"{wll_t:.4f} t",
    }
    found = [one for one in of("ratio/peak", judged(edits)) if one.at.part == "chain[2]"]
    assert [one.kind for one in found] == ["open"]
    assert "plan.standing_tension (3 kN ± 0.4 kN)" in found[0].message


def test_too_many_to_weigh_are_named() -> None:
    users = [{"mass": f"{60 + n} kg ± 1 kg", "level": "practised"} for n in range(MOST_WEIGHED + 2)]
    few = Rulebook({name: rule for name, rule in book().rules.items() if name == LEAST_TAIL})
    found = judge(rig({**EXACT, "plan.users": users}), few, ON, weighed=True).findings
    (said,) = of("file/uncertainty", found)
    assert said.message.startswith("2 values")
    assert (said.kind, said.signal) == ("open", Signal.WARNING)  # the worst that the one rule could say


def test_reports_show_it_and_are_the_same_bytes_every_time() -> None:
    edits = {"chain[4].tail": "0.48 m ± 0.05 m", "plan.standing_tension": "3 kN ± 0.3 kN"}

    def report() -> tuple[str, str]:
        found = judged(edits)
        result = Audit(
            ON, [FileResult("rig.yaml", "rig", findings=found)], rules=len(book().rules), force=DEFAULT
        )
        return audit_json(result), "".join(characters(audit_text(result, 100)))

    as_json, text = report()
    assert (as_json, text) == report()
    (tail,) = [one for one in json.loads(as_json)["files"][0]["findings"] if one["rule"] == LEAST_TAIL]
    assert tail["plus_minus"] == pytest.approx(0.05)
    assert "0.48 ± 0.05 m against 0.5 m" in text


BEYOND = [
    ("spot.span", "16 m ± 16 m"),
    ("spot.span", "16 m ± 900000 m"),
    ("plan.standing_tension", "3 kN ± 98 kN"),
    ("plan.standing_tension", "3 kN ± 999999999 kN"),
    ("plan.users[0].mass", "80 kg ± 90 kg"),
    ("spot.anchors.gate.girth", "140 cm ± 2 m"),
    ("shelf[0].items.W-1.mass_per_metre", "58 g/m ± 90 g/m"),
    ("shelf[0].items.SE-1.mbs", "32 kN ± 40 kN"),
    ("chain[4].tail", "0 m ± 0.1 m"),
]


@pytest.mark.parametrize(("key", "text"), BEYOND)
def test_a_plus_minus_of_the_value_or_more_is_an_error(key: str, text: str) -> None:
    path = Path("/example/rig.yaml")
    library = Library(path.parent)
    library.take(path, edited(sound("low", {**EXACT, key: text})).encode())
    found, problems, _ = resolve(library, path)
    assert found is None
    (said,) = problems
    assert said.key == key
    assert said.message == f"The ± of '{text}' is as large as the value itself, so it tells us nothing."
    assert said.do.startswith("Measure it more closely")


@pytest.mark.parametrize(("key", "text"), BEYOND)
def test_a_plus_minus_just_below_the_value_crashes_nothing(key: str, text: str) -> None:
    number, unit = text.split(" ± ", maxsplit=1)[0].split(" ")
    if float(number) == 0.0:
        number = "1"
    edits = {**EXACT, key: f"{number} {unit} ± {0.99 * float(number):g} {unit}"}
    found = judged(edits)
    assert not [one.message for one in found if one.crashed]
    assert len(found) >= len(judged(edits, weighed=False))
    assert sensitivities(loads(rig(edits)))


def test_what_may_lie_on_both_sides_of_zero_may_have_any_plus_minus() -> None:
    assert rig({**EXACT, "chain[0].height": "0.2 m ± 0.3 m"}).rig.chain[0].height is not None


def test_what_moves_a_result_less_than_rounding_moves_it_by_nothing() -> None:
    """A rodeo line's sag is planned, so its span moves the clearance only in the last digits of a platform."""
    path = Path(__file__).parents[2] / "examples/rigs/slackrope.yaml"
    library = Library(path.parents[1])
    found, problems, _ = resolve(library, path)
    assert found is not None, problems
    (span,) = sensitivities(Loads(build(found), DEFAULT.values, date(2026, 5, 2)))
    assert span.input.at.key_text == "span"
    assert span.clearance_m == 0.0
    assert span.peak_n is not None
    assert abs(span.peak_n) > 1.0
