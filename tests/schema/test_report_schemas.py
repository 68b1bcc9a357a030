"""Every JSON report keeps the schema of its shape, and tells nothing that the schema does not name."""

import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from riglint.cli import main
from riglint.testing import BASELINES
from tests.package.checkout import CHECKOUT

FOLDER = CHECKOUT / "schemas/reports"
DAY = ("--on", "2026-05-02")
EXAMPLES = CHECKOUT / "examples"
LOW, FAULTY = EXAMPLES / "rigs/low-line.yaml", EXAMPLES / "faulty/low-line.yaml"
PARK = ("--policy", str(EXAMPLES / "ordinary/policies/city-park.yaml"))
PULSE = ("--over", "60 m", "--mass-per-metre", "60 g/m", "--time", "7.9 s ± 0.1 s", "--returns", "10")
CALLS = {
    "audit": ("audit", str(EXAMPLES / "open"), *DAY),
    "audit with a policy": ("audit", str(FAULTY), *PARK, *DAY),
    "audit of faulty rigs": ("audit", str(EXAMPLES / "faulty"), *DAY),
    "audit with accepted findings": ("audit", str(EXAMPLES / "ordinary/rigs/22-highline-long.yaml"), *DAY),
    "audit of broken files": ("audit", str(CHECKOUT / "tests/broken"), *DAY),
    "sheet": ("sheet", str(LOW), *DAY),
    "card": ("card", str(FAULTY), *DAY),
    "compare": ("compare", str(LOW), str(FAULTY), *DAY),
    "choose": ("choose", str(LOW), *PARK, *DAY),
    "plot": ("plot", str(LOW), "--over", "plan.standing_tension", "--points", "3", *DAY),
    "limits": ("limits", str(LOW), *PARK, *DAY),
    "gauge": ("gauge", *PULSE),
    "gear": ("gear", str(EXAMPLES), "--on", "2026-05-02"),
    "gauge of a rig": ("gauge", str(EXAMPLES / "rigs/long-line.yaml"), "--sag", "2.4 m", "--under", "78 kg"),
    "rulebook": ("rulebook",),
    "a rule": ("rulebook", "tail/webbing"),
    "rule sets": ("rulebook", "--installed"),
}
RIGS = sorted(
    [*EXAMPLES.glob("rigs/*.yaml"), *EXAMPLES.glob("*/rigs/*.yaml"), *EXAMPLES.glob("built/*.yaml")]
)
SHOWN = [
    BASELINES / "highline.yaml",
    EXAMPLES / "rigs/slackrope.yaml",
]


@cache
def schema_of(shape: str) -> Any:
    return json.loads((FOLDER / f"{shape.replace('/', '-')}.schema.json").read_text(encoding="utf-8"))


def closed(schema: Any) -> Any:
    """Return a schema that takes no key beyond those that it names."""
    if isinstance(schema, dict):
        inside = {key: closed(value) for key, value in schema.items()}
        is_object = "properties" in schema and "type" in schema
        return {**inside, "additionalProperties": False} if is_object else inside
    return [closed(one) for one in schema] if isinstance(schema, list) else schema


def wrong_with(text: str) -> list[str]:
    data = json.loads(text)
    validator = Draft202012Validator(closed(schema_of(data["riglint"])))
    return [f"{error.json_path}: {error.message[:200]}" for error in validator.iter_errors(data)]


@pytest.mark.parametrize("call", CALLS.values(), ids=CALLS)
def test_a_report_keeps_its_schema(call: tuple[str, ...], capsys: pytest.CaptureFixture[str]) -> None:
    main([*call, "--format", "json"])
    assert wrong_with(capsys.readouterr().out) == []


@pytest.mark.slow
def test_the_audit_of_all_examples_keeps_its_schema(capsys: pytest.CaptureFixture[str]) -> None:
    main(["audit", str(EXAMPLES), *DAY, "--format", "json"])
    assert wrong_with(capsys.readouterr().out) == []


def each_rig() -> Iterator[Any]:
    for rig in sorted({*RIGS, *SHOWN}):
        yield pytest.param(
            rig, id=f"{rig.parent.name}-{rig.stem}", marks=() if rig in SHOWN else pytest.mark.slow
        )


@pytest.mark.parametrize("command", ["sheet", "card"])
@pytest.mark.parametrize("rig", list(each_rig()))
def test_sheet_and_card_of_every_example_keep_their_schema(
    rig: Path, command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    main([command, str(rig), *DAY, "--format", "json"])
    assert wrong_with(capsys.readouterr().out) == []


def test_every_shape_has_its_schema_and_none_is_idle() -> None:
    shapes = {file.name.removesuffix(".schema.json") for file in FOLDER.glob("*.json")}
    assert shapes == {
        f"{name}-1"
        for name in [
            "audit",
            "card",
            "choose",
            "compare",
            "gauge",
            "gear",
            "limits",
            "plot",
            "rule_sets",
            "rulebook",
            "sheet",
        ]
    }
    for file in FOLDER.glob("*.json"):
        Draft202012Validator.check_schema(json.loads(file.read_text(encoding="utf-8")))


def test_a_key_too_many_or_too_few_is_seen(capsys: pytest.CaptureFixture[str]) -> None:
    main(["rulebook", "tail/webbing", "--format", "json"])
    data = json.loads(capsys.readouterr().out)
    assert wrong_with(json.dumps({**data, "more": 1}))
    assert wrong_with(json.dumps({key: value for key, value in data.items() if key != "rules"}))
