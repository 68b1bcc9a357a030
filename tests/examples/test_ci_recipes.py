"""The recipes for continuous integration: read by the hosts' published schemas, and their shell steps run for real.

The schemas are those that check-jsonschema carries. What only a host can do (upload, comment) is not tried.
"""

import html
import json
import re
import shutil
import sys
from pathlib import Path
from typing import Any
from urllib.parse import unquote
from xml.etree import ElementTree as ET

import pytest
import yaml
from jsonschema import Draft4Validator
from markdown_it import MarkdownIt

from tests.package.checkout import CHECKOUT, program, started

CI = CHECKOUT / "examples/ci"
BROKEN = "riglint: rig/1\ntitle: nothing else\n"
ACCEPTED = (
    "accepted: [{rule: anchor/sling_angle, reason: measured on site, role: gear keeper, until: 2028-01-01}]"
)
LIBRARIES = {"sound": 0, "faulty": 1, "broken": 2}


@pytest.fixture(params=LIBRARIES)
def library(request: pytest.FixtureRequest, tmp_path: Path) -> tuple[Path, int]:
    """A copy of some examples, and the exit status that they end with. Dates are left out: they run out."""
    rig = "rigs" if request.param == "sound" else "faulty"
    for name in ("spots/orchard.yaml", "shelf/club.yaml", f"{rig}/low-line.yaml"):
        (tmp_path / name).parent.mkdir()
        shutil.copy(CHECKOUT / "examples" / name, tmp_path / name)
    (tmp_path / "rig-library").touch()
    answered = tmp_path / f"{rig}/low-line.yaml"
    text = answered.read_text("utf-8").replace("accepted: []", ACCEPTED)
    answered.write_text(text, encoding="utf-8")
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
    [
        ("vendor.github-workflows", "github-actions.yaml"),
        ("vendor.github-actions", "action.yaml"),
        ("vendor.gitlab-ci", "gitlab-ci.yaml"),
        ("vendor.gitlab-ci", "gitlab-include.yaml"),
    ],
)
def test_the_host_would_read_it(schema: str, recipe: str, tmp_path: Path) -> None:
    call = [sys.executable, "-m", "check_jsonschema", "--builtin-schema", schema]
    assert started([*call, str(CI / recipe)], CHECKOUT).returncode == 0
    wrong = tmp_path / "wrong.yaml"
    text = (CI / recipe).read_text("utf-8")
    wrong.write_text(text.replace("timeout", "timeuot").replace("using:", "usign:"), encoding="utf-8")
    if recipe in {
        "github-actions.yaml",
        "action.yaml",
    }:  # the other host takes any key for a name or a variable
        assert started([*call, str(wrong)], CHECKOUT).returncode == 1


def read(recipe: str) -> Any:
    return yaml.safe_load((CI / recipe).read_text("utf-8"))


def inputs_of(action: Any, given: dict[str, str]) -> dict[str, str]:
    """Return what the inputs of the action are, as the host fills them in."""
    return {name: given.get(name, one["default"]) for name, one in action["inputs"].items()}


def environment(step: Any, inputs: dict[str, str]) -> dict[str, str]:
    """Return the environment of a step, each `${{ inputs.NAME }}` filled in; nothing else may stand there."""
    found = {
        name: INPUT.sub(lambda one: inputs[one["name"]], text) for name, text in step.get("env", {}).items()
    }
    assert not any("${{" in text for text in found.values())
    return found


INPUT = re.compile(r"\$\{\{ inputs\.(?P<name>[a-z]+) \}\}")


def run_action(where: Path, **given: str) -> tuple[dict[str, str], str, str]:
    """Run the shell steps of the action but the installation; return its outputs, its summary and its log."""
    action, log = read("action.yaml"), ""
    inputs = inputs_of(action, given)
    summary, steps = where / "summary.md", dict[str, str]()
    summary.touch()
    for step in action["runs"]["steps"]:
        assert "${{" not in step["run"], "what a proposal holds never becomes a piece of a script"
        if step["name"] == "Install" or (step.get("if") == "inputs.before != ''" and not inputs["before"]):
            continue
        given_to_it, output = environment(step, inputs), where / "output.txt"
        output.write_text("", encoding="utf-8")
        files = {"GITHUB_OUTPUT": str(output), "GITHUB_STEP_SUMMARY": str(summary)}
        status, said = run(["bash", "-eo", "pipefail", "-c", step["run"]], where, **files, **given_to_it)
        assert status == 0, said
        log += said
        named = (line.partition("=") for line in output.read_text("utf-8").splitlines())
        steps |= {f"${{{{ steps.{step['id']}.outputs.{name} }}}}": value for name, _, value in named}
    outputs = {name: steps.get(one["value"], "") for name, one in action["outputs"].items()}
    return outputs, summary.read_text("utf-8"), log


def test_the_action_delivers_every_report_and_its_workflow_the_verdict(library: tuple[Path, int]) -> None:
    where, expected = library
    outputs, summary, log = run_action(where)
    assert outputs == {"status": str(expected), "compared": ""}
    see_reports(where)
    assert summary == (where / "audit.md").read_text("utf-8")
    commands = [line for line in log.splitlines() if line.startswith("::")]
    assert any(
        re.match(r"::(error|warning|notice) file=[^,]+,line=\d+,col=\d+,title=", line) for line in commands
    )
    assert any(line.startswith("::error ") for line in commands) == (expected > 0)
    assert decided(where, status=outputs["status"], compared="") == expected
    assert decided(where, status="", compared="") == 3, "an audit that never ran is no pass"


def decided(where: Path, *, status: str, compared: str) -> int:
    """Return what the last step of the workflow makes of two statuses."""
    (job,) = read("github-actions.yaml")["jobs"].values()
    verdict = next(step for step in job["steps"] if step.get("name") == "Verdict")
    return run(["bash", "-e", "-c", verdict["run"]], where, STATUS=status, COMPARED=compared)[0]


@pytest.mark.parametrize(
    ("status", "compared", "worst"),
    [("0", "0", 0), ("0", "1", 1), ("0", "2", 0), ("1", "0", 1), ("2", "1", 2), ("3", "0", 3), ("", "0", 3)],
)
def test_the_verdict_is_that_of_the_audit_and_red_where_the_settings_change(
    tmp_path: Path, status: str, compared: str, worst: int
) -> None:
    """A comparison that cannot read the state before, status 2, stops no proposal that mends it."""
    assert decided(tmp_path, status=status, compared=compared) == worst


def test_the_workflow_uses_the_action_as_it_is() -> None:
    """Every input that it gives and every output that it takes is one of the action's; so are the files it delivers."""
    action, (job,) = read("action.yaml"), read("github-actions.yaml")["jobs"].values()
    used = next(step for step in job["steps"] if step.get("uses", "").startswith("./"))
    assert used["uses"] == "./.github/actions/rig-audit"
    assert set(used["with"]) <= set(action["inputs"])
    assert set(re.findall(r"steps\.audit\.outputs\.(\w+)", str(job))) <= set(action["outputs"])
    written = {
        name
        for step in action["runs"]["steps"]
        for name in re.findall(r"\b(?:audit|compare)\.\w+", step["run"])
    }
    delivered = set(re.findall(r"\b(?:audit|compare)\.(?:xml|md|sarif)", str(job["steps"])))
    assert delivered <= written


@pytest.fixture
def proposal(tmp_path: Path) -> tuple[Path, str]:
    """A repository with a branch that makes one rig worse; the revision that it begins at."""
    for name in ("spots/orchard.yaml", "shelf/club.yaml", "rigs/low-line.yaml"):
        (tmp_path / name).parent.mkdir()
        shutil.copy(CHECKOUT / "examples" / name, tmp_path / name)
    (tmp_path / "rig-library").touch()
    git(tmp_path, "init", "--quiet", "--initial-branch=main")
    git(tmp_path, "add", "-A")
    git(tmp_path, "commit", "--quiet", "-m", "sound")
    base = git(tmp_path, "rev-parse", "HEAD").strip()
    git(tmp_path, "switch", "--quiet", "-c", "proposal")
    rig = tmp_path / "rigs/low-line.yaml"
    text = rig.read_text("utf-8")
    assert "stopper: double_overhand" in text
    rig.write_text(text.replace("stopper: double_overhand", "stopper: overhand"), encoding="utf-8")
    git(tmp_path, "commit", "--quiet", "-am", "worse")
    return tmp_path, base


def git(where: Path, *call: str) -> str:
    author = ("-c", "user.name=nobody", "-c", "user.email=nobody@example.org")
    result = started(["git", *author, *call], where)
    assert result.returncode == 0, result.stdout
    return str(result.stdout)


def test_the_comment_says_what_the_proposal_does(proposal: tuple[Path, str]) -> None:
    where, base = proposal
    outputs, summary, _ = run_action(where, before=base)
    assert outputs == {"status": "1", "compared": "1"}
    comment = (where / "compare.md").read_text("utf-8")
    assert "rigs/low-line.yaml" in comment
    assert "overhand" in comment
    assert summary.startswith(comment)


def run_job(where: Path, before: str = "", **given: str) -> tuple[int, str]:
    """Run the script of the other host's job as its runner does, which stops where a line fails; return that status."""
    include = read("gitlab-include.yaml")
    job = include["rig-audit"]
    variables = {name: str(value) for name, value in {**include["variables"], **job["variables"]}.items()}
    script = "\n".join([before, "set -eo pipefail", *job["script"]])
    return run(["bash", "-c", script], where, **variables, **given)


MARKDOWN = MarkdownIt("commonmark").enable("table")
SARIF = json.loads((CHECKOUT / "tests/reports/schemas/sarif-2.1.0-rtm.5.json").read_text("utf-8"))


def see_markdown(text: str) -> str:
    """Return what a person reads of a page of Markdown: no tags show through, and no row of a table is broken."""
    tokens = MARKDOWN.parse(text)
    assert not [one.content for one in tokens if one.type == "html_block"]
    inline = [one for one in tokens if one.type == "inline"]
    assert not [part.content for one in inline for part in one.children or [] if part.type == "html_inline"]
    assert not [one.content for one in inline if one.content.startswith("|")], "a table that is none"
    assert tokens[0].type == "heading_open"
    return html.unescape(re.sub(r"<[^>]+>", "", MARKDOWN.render(text)))


@pytest.fixture
def clone(proposal: tuple[Path, str], tmp_path: Path) -> tuple[Path, str]:
    """What a host has of a proposal: a clone, with the commit of the branch checked out and no branch."""
    where, base = proposal
    git(tmp_path, "clone", "--quiet", "--no-local", str(where), "clone")
    git(tmp_path / "clone", "checkout", "--quiet", "--detach", "origin/proposal")
    return tmp_path / "clone", base


def test_in_a_clone_both_hosts_deliver_what_their_pages_can_show(clone: tuple[Path, str]) -> None:
    where, base = clone
    outputs, summary, _ = run_action(where, before=base)
    assert outputs == {"status": "1", "compared": "1"}
    for page in (summary, (where / "compare.md").read_text("utf-8")):
        shown = see_markdown(page)
        assert "rigs/low-line.yaml" in shown
        assert "overhand" in shown
    sarif = json.loads((where / "audit.sarif").read_text("utf-8"))
    Draft4Validator(SARIF).validate(sarif)
    places = [
        one["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]
        for one in sarif["runs"][0]["results"]
    ]
    assert places
    assert all((where / unquote(one)).is_file() for one in places)
    status, said = run_job(where, CI_MERGE_REQUEST_DIFF_BASE_SHA=base)
    assert status == 1, said
    assert "overhand" in see_markdown((where / "compare.md").read_text("utf-8"))


def test_a_proposal_that_changes_the_settings_says_so_at_the_head_of_its_comment(
    proposal: tuple[Path, str],
) -> None:
    """The audit of its rigs may be green by what it sets; the comparison is not."""
    where, base = proposal
    git(where, "switch", "--quiet", "-C", "proposal", base)
    (where / "rig-library").write_text("riglint: library/1\ndays: [2026-05-09]\n", encoding="utf-8")
    git(where, "commit", "--quiet", "-am", "days")
    outputs, summary, _ = run_action(where, before=base)
    assert outputs["compared"] == "1"
    assert decided(where, status="0", compared=outputs["compared"]) == 1
    assert run_job(where, CI_MERGE_REQUEST_DIFF_BASE_SHA=base)[0] == 1
    shown = see_markdown(summary)
    assert shown.index("The mark file has changed.") < shown.index("Rig audit")


def test_the_job_delivers_every_report_and_the_verdict(library: tuple[Path, int]) -> None:
    where, expected = library
    status, said = run_job(where)
    assert status == expected, said
    see_reports(where)
    see_code_quality(where)
    assert not (where / "compare.md").exists()


def test_the_job_compares_a_merge_request(proposal: tuple[Path, str]) -> None:
    where, base = proposal
    status, said = run_job(where, CI_MERGE_REQUEST_DIFF_BASE_SHA=base)
    assert status == 1, said
    assert "overhand" in (where / "compare.md").read_text("utf-8")
    (found,) = [one for one in see_code_quality(where) if one["check_name"] == "tail/stopper"]
    assert found["location"]["path"] == "rigs/low-line.yaml"


@pytest.mark.parametrize(
    ("audited", "compared", "worst"), [(0, 0, 0), (0, 1, 1), (0, 2, 0), (1, 0, 1), (2, 1, 2)]
)
def test_the_job_weighs_both_statuses_as_the_workflow_does(
    tmp_path: Path, audited: int, compared: int, worst: int
) -> None:
    """A stand-in for riglint gives the two statuses."""
    script = f"#!/bin/sh\ncase $1 in audit) exit {audited} ;; *) exit {compared} ;; esac\n"
    (tmp_path / "riglint").write_text(script, encoding="utf-8")
    (tmp_path / "riglint").chmod(0o755)
    path = f"PATH={tmp_path}:$PATH\n"
    assert run_job(tmp_path, path, CI_MERGE_REQUEST_DIFF_BASE_SHA="x")[0] == worst


def see_code_quality(where: Path) -> list[dict[str, Any]]:
    """The fields are those that the host's documentation asks of each entry (Code Quality, custom tools)."""
    entries: list[dict[str, Any]] = json.loads((where / "quality.json").read_text("utf-8"))
    for one in entries:
        assert {"description", "check_name", "fingerprint", "severity", "location"} <= one.keys()
        assert one["severity"] in {"info", "minor", "major", "critical", "blocker"}
        assert (where / one["location"]["path"]).is_file()
        assert one["location"]["lines"]["begin"] >= 1
    assert len({one["fingerprint"] for one in entries}) == len(entries)
    return entries


def test_the_pipeline_includes_the_job_as_it_is() -> None:
    pipeline, include = read("gitlab-ci.yaml"), read("gitlab-include.yaml")
    assert [Path(one["local"]).name for one in pipeline["include"]] == ["gitlab-include.yaml"]
    assert pipeline["rig-audit"].keys() == {"stage", "variables"}
    assert pipeline["rig-audit"]["variables"].keys() <= include["variables"].keys()
    written = set(re.findall(r"\b(?:audit|compare|quality)\.\w+", str(include["rig-audit"]["script"])))
    kept = include["rig-audit"]["artifacts"]
    assert {*kept["paths"], *kept["reports"].values()} <= written


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
