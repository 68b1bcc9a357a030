"""The recipes for continuous integration: read by the hosts' published schemas, and their own lines run for real.

The schemas are those that check-jsonschema carries. What only a host can do (upload, comment) is not tried.
"""

import json
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import pytest
import yaml

from tests.package.checkout import CHECKOUT, program, started

CI = CHECKOUT / "examples/ci"
BROKEN = "riglint: rig/1\ntitle: nothing else\n"
LIBRARIES = {"sound": 0, "faulty": 1, "broken": 2}


def texts(value: Any) -> Iterator[str]:
    """Yield every text in a YAML file."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict | list):
        for one in value.values() if isinstance(value, dict) else value:
            yield from texts(one)


def riglint_lines(recipe: str) -> list[str]:
    data = yaml.safe_load((CI / recipe).read_text("utf-8"))
    rows = [row.strip() for text in texts(data) for row in text.splitlines()]
    return [row for row in rows if row.startswith("riglint ")]


@pytest.fixture(params=LIBRARIES)
def library(request: pytest.FixtureRequest, tmp_path: Path) -> tuple[Path, int]:
    """A copy of some examples, and the exit status that they end with. Dates are left out: they run out."""
    rig = "rigs" if request.param == "sound" else "faulty"
    for name in ("spots/orchard.yaml", "shelf/club.yaml", f"{rig}/low-line.yaml"):
        (tmp_path / name).parent.mkdir()
        shutil.copy(CHECKOUT / "examples" / name, tmp_path / name)
    (tmp_path / "rig-library").touch()
    if request.param == "broken":
        (tmp_path / "broken.yaml").write_text(BROKEN, encoding="utf-8")
    plain = started([sys.executable, "-m", "riglint", "audit", "."], tmp_path)
    # The sound rigs are audited as of today, when a check may be due: what counts is that the recipe says the same.
    assert plain.returncode == LIBRARIES[request.param] or request.param == "sound"
    return tmp_path, plain.returncode


def run(call: list[str], where: Path, **environment: str) -> tuple[int, str]:
    path = f"{Path(program('riglint')).parent}:/usr/bin:/bin"
    result = started(call, where, PATH=path, **environment)
    assert "Traceback" not in result.stdout
    return result.returncode, result.stdout


def see_reports(where: Path) -> None:
    """Every form was written, and is what it says."""
    sarif = json.loads((where / "audit.sarif").read_text("utf-8"))
    assert sarif["version"] == "2.1.0"
    assert not any(one.get("suppressions") for one in sarif["runs"][0]["results"])
    assert ET.parse(where / "audit.xml").getroot().tag == "testsuites"  # noqa: S314 - our own report
    assert (where / "audit.md").read_text("utf-8").startswith("## Rig audit")


@pytest.mark.parametrize(
    ("schema", "recipe"),
    [("vendor.github-workflows", "github-actions.yaml"), ("vendor.gitlab-ci", "gitlab-ci.yaml")],
)
def test_the_host_would_read_it(schema: str, recipe: str, tmp_path: Path) -> None:
    call = [sys.executable, "-m", "check_jsonschema", "--builtin-schema", schema]
    assert started([*call, str(CI / recipe)], CHECKOUT).returncode == 0
    wrong = tmp_path / "wrong.yaml"
    wrong.write_text((CI / recipe).read_text("utf-8").replace("timeout", "timeuot"), encoding="utf-8")
    if recipe == "github-actions.yaml":  # the other host takes any key for a job's name or a variable
        assert started([*call, str(wrong)], CHECKOUT).returncode == 1


@pytest.mark.parametrize("recipe", ["github-actions.yaml", "gitlab-ci.yaml"])
def test_every_riglint_line_works(recipe: str, library: tuple[Path, int]) -> None:
    where, expected = library
    lines = riglint_lines(recipe)
    assert len(lines) == 2
    for line in lines:
        status, said = run(["sh", "-eu", "-c", line.replace("|| status=$?", "")], where)
        assert status == (0 if line.endswith("|| true") else expected), said
    see_reports(where)


def test_the_workflow_ends_with_the_verdict_of_the_audit(library: tuple[Path, int]) -> None:
    where, expected = library
    (job,) = yaml.safe_load((CI / "github-actions.yaml").read_text("utf-8"))["jobs"].values()
    steps = {step.get("name"): step for step in job["steps"]}
    output = where / "output"
    status, said = run(["bash", "-e", "-c", steps["Audit"]["run"]], where, GITHUB_OUTPUT=str(output))
    assert (status, output.read_text("utf-8")) == (0, f"status={expected}\n"), said
    verdict = steps["Verdict"]["run"]
    assert run(["bash", "-e", "-c", verdict], where, STATUS=str(expected))[0] == expected
    assert run(["bash", "-e", "-c", verdict], where, STATUS="")[0] == 3, "an audit that never ran is no pass"


def test_the_plain_script(library: tuple[Path, int]) -> None:
    where, expected = library
    status, said = run(["sh", "-eu", str(CI / "plain.sh"), ".", "kept reports"], where)
    assert status == expected, said
    see_reports(where / "kept reports")
    assert json.loads((where / "kept reports/audit.json").read_text("utf-8"))["riglint"] == "audit/1"
    assert "\x1b" not in said
    assert "A calculation is no inspection." in said


@pytest.mark.parametrize("shell", [[], ["dash"], ["bash"]])
def test_the_plain_script_runs_in_other_shells_and_as_it_stands(shell: list[str], tmp_path: Path) -> None:
    if shell and shutil.which(shell[0]) is None:
        pytest.skip(f"no {shell[0]} here")
    (tmp_path / "broken.yaml").write_text(BROKEN, encoding="utf-8")
    status, said = run([*shell, str(CI / "plain.sh")], tmp_path)
    assert status == 2, said
    see_reports(tmp_path / "reports")
    assert said.endswith("Something could not be read or judged: read the report above.\n")
