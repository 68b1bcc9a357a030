"""What a policy does to an audit: findings, words, forces, what is told of it, exit status."""

import json
from pathlib import Path
from typing import Any

import pytest

from riglint.cli import main
from riglint.model.values.policy import Values
from riglint.rulebook import Rulebook
from tests.policy.conftest import FEW
from tests.policy.policies import DAY, audited, findings, loaded, rig_text, written
from tests.rigs import loads_of, rig_data

pytestmark = pytest.mark.usefixtures("by_few_rules")


@pytest.fixture
def rig(tmp_path: Path) -> Path:
    """A low line with 0.6 m of tail: sound by default, short for a club that asks 1 m."""
    file = tmp_path / "low.yaml"
    file.write_text(rig_text("low", {"chain[4].tail": "0.6 m"}), encoding="utf-8")
    return file


def judged(
    capsys: pytest.CaptureFixture[str], rig: Path, body: str, rule: str
) -> tuple[list[str], dict[str, Any]]:
    """Return the words of the faults of one rule under a policy, and the report."""
    _, report = audited(capsys, rig, "--policy", written(rig.parent, body))
    return [one["signal"] for one in findings(report, rule) if one["kind"] == "fail"], report


def test_a_tightened_limit_finds_more_and_is_told(capsys: pytest.CaptureFixture[str], rig: Path) -> None:
    assert judged(capsys, rig, "", "tail/webbing")[0] == []
    words, report = judged(capsys, rig, "values: {tail/webbing.least_tail: 1 m}", "tail/webbing")
    assert words == ["CAUTION"]
    (fault,) = (one for one in findings(report, "tail/webbing") if one["kind"] == "fail")
    assert (fault["value"], fault["limit"]) == (0.6, 1.0)
    assert report["policy"]["title"] == "Meadow club"
    assert report["policy"]["changed"] == [
        {"name": "tail/webbing.least_tail", "from": "0.5 m", "to": "1 m", "because": None, "loosens": False}
    ]


def test_signals_are_raised_and_lowered(capsys: pytest.CaptureFixture[str], rig: Path) -> None:
    tight = (
        "values: {tail/webbing.least_tail: 1 m}\nsignals: [{rule: tail/webbing, consequence: ground, signal: "
    )
    assert judged(capsys, rig, f"{tight}WARNING}}]", "tail/webbing")[0] == ["WARNING"]
    assert judged(capsys, rig, f"{tight}NOTICE, because: x}}]", "tail/webbing")[0] == ["NOTICE"]


def test_off_is_not_run_and_told(capsys: pytest.CaptureFixture[str], rig: Path) -> None:
    _, before = judged(capsys, rig, "", "placement/pins")
    assert findings(before, "placement/pins")
    _, report = judged(capsys, rig, "off: [{rule: placement/pins, because: hall}]", "placement/pins")
    assert findings(report, "placement/pins") == []
    assert report["policy"]["changed"] == [
        {"name": "placement/pins", "from": "on", "to": "off", "because": "hall", "loosens": True}
    ]


def test_recalled_gear_is_found(capsys: pytest.CaptureFixture[str], rig: Path) -> None:
    words, report = judged(capsys, rig, "recalled: [SH-2]", "gear/recalled")
    assert words == ["DANGER"]
    assert findings(report, "gear/recalled")[0]["at"]["key"] == "shelf[0].items.SH-2"


def test_required_ratios_tighten(capsys: pytest.CaptureFixture[str], rig: Path) -> None:
    assert judged(capsys, rig, "", "ratio/peak")[0] == []
    body = "required: [{state: peak, part: webbing, consequence: ground, ratio: 30}]"
    words, report = judged(capsys, rig, body, "ratio/peak")
    assert words
    assert {one["limit"] for one in findings(report, "ratio/peak")} == {30.0}


def test_a_model_value_changes_the_forces(tmp_path: Path, book: Rulebook) -> None:
    """Whoever drops further onto the line comes down harder; nobody on it, nothing changes."""
    values = loaded(tmp_path, "values: {model.bounce_height: 0.7 m}", book).values
    assert values["bounce_height"] == 0.7
    default, higher = loads_of(rig_data("low")), loads_of(rig_data("low"))
    assert default.geometry.values == Values()
    changed = type(higher)(higher.path, values, default.on)

    def tension(loads: Any, name: str) -> float:
        return float(next(state.tension_n for state in loads.people() if state.name == name))

    assert tension(changed, "bounce") > 1.02 * tension(default, "bounce")
    assert tension(changed, "walker") == tension(default, "walker")


def test_the_foot_of_the_text_tells_the_changes(capsys: pytest.CaptureFixture[str], rig: Path) -> None:
    body = """values:
  tail/webbing.least_tail: 0.55 m
  model.bounce_height: {value: 0.4 m, because: beginners walk here only}"""
    main(["audit", str(rig), *DAY, "--policy", str(written(rig.parent, body))])
    foot = " ".join(capsys.readouterr().out.split()).partition("The policy Meadow club")[2]
    assert "tightens 1 value and loosens 1." in foot
    assert "tightened tail/webbing.least_tail from 0.5 m to 0.55 m" in foot
    assert "loosened model.bounce_height from 0.5 m to 0.4 m, because beginners walk here only" in foot
    assert foot.index("loosened") < foot.index("A calculation is no inspection.")


@pytest.mark.parametrize("command", ["audit", "sheet"])
@pytest.mark.parametrize("body", ["values: {tail/webing.least_tail: 1 m}", "valus: {}", None])
def test_a_problem_gives_2_and_nothing_is_judged(
    capsys: pytest.CaptureFixture[str], rig: Path, command: str, body: str | None
) -> None:
    policy = rig.parent / "nowhere.yaml" if body is None else written(rig.parent, body)
    assert main([command, str(rig), *DAY, "--policy", str(policy)]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith(f"{policy.as_posix()} line {1 if body is None else 3}: ")


def test_two_runs_give_the_same_bytes(capsys: pytest.CaptureFixture[str], rig: Path) -> None:
    policy = written(rig.parent, "values: {tail/webbing.least_tail: 1 m}\nrecalled: [SH-2, SH-1]")
    for form in ("text", "json"):
        said = []
        for _ in range(2):
            main(["audit", str(rig), *DAY, "--policy", str(policy), "--format", form])
            said.append(capsys.readouterr().out)
        assert said[0] == said[1]
        assert form == "text" or json.loads(said[0])["policy"]["sha256"]


# A policy that leaves nothing to judge by

EMPTIES = "The policy Meadow club turns off every rule of tail: nobody answers these questions."


def switched_off(*rules: str) -> str:
    return "off:\n" + "".join(f"  - {{rule: {rule}, because: indoor hall}}\n" for rule in rules)


@pytest.mark.parametrize("form", ["text", "json", "markdown", "html", "sarif", "junit"])
def test_an_emptied_family_is_said_at_the_top_and_gives_2(
    capsys: pytest.CaptureFixture[str], rig: Path, form: str
) -> None:
    policy = written(rig.parent, switched_off("tail/webbing"))
    call = ("audit", str(rig), *DAY, "--policy", str(policy), "--format", form)
    assert main(call) == 2
    said = " ".join(capsys.readouterr().out.split())
    assert EMPTIES in said
    if form in {"text", "html"}:  # before what is said of the rig
        assert said.index(EMPTIES) < said.index("placement/pins" if form == "html" else "consequence")


def test_limits_by_such_a_policy_give_2(capsys: pytest.CaptureFixture[str], rig: Path) -> None:
    policy = written(rig.parent, switched_off("tail/webbing"))
    assert main(["limits", str(rig), *DAY, "--policy", str(policy)]) == 2
    assert EMPTIES in " ".join(capsys.readouterr().out.split())


def test_a_comparison_by_such_a_policy_gives_2(capsys: pytest.CaptureFixture[str], rig: Path) -> None:
    policy = written(rig.parent, switched_off("tail/webbing"))
    assert main(["compare", str(rig), str(rig), *DAY, "--policy", str(policy)]) == 2
    assert EMPTIES in " ".join(capsys.readouterr().out.split())


def test_a_family_with_one_rule_left_is_not_empty(capsys: pytest.CaptureFixture[str], rig: Path) -> None:
    policy = written(rig.parent, switched_off("gear/inspection"))
    status, report = audited(capsys, rig, "--policy", policy)
    assert (status, report["rulebook"]["unfit"]) == (0, [])


NONE_LEFT = "No rule is in force: nothing was judged. The policy Meadow club turns off every rule."


@pytest.mark.parametrize("form", ["text", "json", "markdown", "html", "sarif", "junit"])
def test_all_rules_off_is_no_audit(capsys: pytest.CaptureFixture[str], rig: Path, form: str) -> None:
    policy = written(rig.parent, switched_off(*FEW))
    assert main(["audit", str(rig), *DAY, "--policy", str(policy), "--format", form]) == 3
    said = " ".join(capsys.readouterr().out.split())
    assert NONE_LEFT in said
    assert "no problems found" not in said.lower()


def test_the_last_sentence_says_that_no_rule_is_in_force(
    capsys: pytest.CaptureFixture[str], rig: Path
) -> None:
    policy = written(rig.parent, switched_off(*FEW))
    broken = rig.with_name("broken.yaml")
    broken.write_text("riglint: rig/1\ntitel: x\n", encoding="utf-8")
    for files, last in (([rig], ""), ([rig, broken], ", one file not judged")):
        assert main(["audit", *map(str, files), *DAY, "--policy", str(policy)]) == 3
        *_, closing, _ = capsys.readouterr().out.splitlines()
        assert closing == f"No rule is in force: nothing was judged{last}."


def test_the_last_sentence_names_what_a_policy_leaves_out(
    capsys: pytest.CaptureFixture[str], rig: Path
) -> None:
    policy = written(rig.parent, switched_off(*set(FEW) - {"gear/recalled"}))
    assert main(["audit", str(rig), *DAY, "--policy", str(policy)]) == 2
    last = " ".join(capsys.readouterr().out.rpartition("come first;")[2].split())
    assert (
        "No problems found by the rules that are left. The policy Meadow club turns off every rule of" in last
    )


@pytest.mark.parametrize("command", ["limits", "compare", "choose", "plot"])
def test_with_all_rules_off_no_command_passes(
    capsys: pytest.CaptureFixture[str], rig: Path, command: str
) -> None:
    policy = written(rig.parent, switched_off(*FEW))
    files = [str(rig)] * (2 if command == "compare" else 1)
    more = ["--over", "plan.standing_tension", "--points", "2"] if command == "plot" else []
    assert main([command, *files, *DAY, *more, "--policy", str(policy)]) == 3
    assert NONE_LEFT in " ".join(capsys.readouterr().out.split())


@pytest.mark.parametrize(
    "blank", ['""', '" "', '"\\t"', "null", '"."', '"-"', '"\\u3164"', '"\\u00a0\\u2800"']
)
def test_a_reason_that_says_nothing_is_none(
    capsys: pytest.CaptureFixture[str], rig: Path, blank: str
) -> None:
    for body in (
        f"off: [{{rule: tail/webbing, because: {blank}}}]",
        f"values: {{tail/webbing.least_tail: {{value: 0.2 m, because: {blank}}}}}",
        f"signals: [{{rule: placement/pins, consequence: life, signal: NOTICE, because: {blank}}}]",
        f"required: [{{state: peak, part: webbing, consequence: life, ratio: 1.0, because: {blank}}}]",
    ):
        policy = written(rig.parent, body)
        assert main(["audit", str(rig), *DAY, "--policy", str(policy)]) == 2
        assert capsys.readouterr().out == ""
