"""What the README promises is so: its commands, its sample finding, its piece of a rig file."""

import re
import shlex
import sys
from pathlib import Path

import pytest

from tests.package.checkout import CHECKOUT, started
from tests.package.test_commands import COMMANDS

README = (CHECKOUT / "README.md").read_text(encoding="utf-8")
OPTIONS = (CHECKOUT / "examples/guides/commands.md").read_text(encoding="utf-8")
BLOCKS = [block.strip() for block in re.findall(r"^```sh\n(.*?)^```", README, re.MULTILINE | re.DOTALL)]
INSTALL, TEST, *_ = BLOCKS  # the others are run by test_commands.py


def block(language: str, begins: str) -> str:
    """Return the one block of that language that begins so."""
    blocks = re.findall(rf"^```{language}\n(.*?)^```", README, re.MULTILINE | re.DOTALL)
    (found,) = (one for one in blocks if one.startswith(begins))
    return str(found)


def riglint(*call: str) -> tuple[int, str]:
    result = started([sys.executable, "-m", "riglint", *call], CHECKOUT, COLUMNS="80")
    return result.returncode, result.stdout


def test_the_first_command_finds_nothing_in_the_sound_examples() -> None:
    command = shlex.split(INSTALL)
    assert command[command.index("audit") - 1] == ".venv/bin/riglint"
    status, said = riglint(*command[command.index("audit") :])
    assert status == 0, said
    rigs = list((CHECKOUT / "examples/rigs").glob("*.yaml"))
    assert said.startswith(f"Audit of {len(rigs)} rigs ")


def test_continuous_integration_runs_the_second_command() -> None:
    script = (CHECKOUT / ".ci/run").read_text(encoding="utf-8")
    assert script.splitlines()[-1] == TEST


def test_the_sample_finding_is_a_real_one() -> None:
    status, said = riglint("audit", "examples/faulty", "--on", "2026-05-02")
    assert status == 1
    assert block("text", "  WARNING") in said, "the README shows a finding that is no longer given so"


def test_the_piece_of_a_rig_file_is_from_the_example() -> None:
    example = iter((CHECKOUT / "examples/rigs/low-line.yaml").read_text(encoding="utf-8").splitlines())
    # Each line is looked for after the one before it: `in` moves the iterator on.
    strange = [line for line in block("yaml", "riglint: rig/1").splitlines() if line and line not in example]
    assert strange == []


def test_the_policy_is_one(tmp_path: Path) -> None:
    policy = tmp_path / "meadow.yaml"
    policy.write_text(block("yaml", "riglint: policy/1"), encoding="utf-8")
    status, said = riglint(
        "audit", "examples/rigs/low-line.yaml", "--on", "2026-05-02", "--policy", str(policy)
    )
    assert status == 0, said
    assert "model.bounce_height from 0.5 m to 0.4 m, because beginners" in said


@pytest.mark.parametrize("word", COMMANDS)
def test_every_command_is_listed(word: str) -> None:
    status, said = riglint(word, "--help")
    assert status == 0
    assert re.search(rf"^\| `riglint {word}[ `]", README, re.MULTILINE)
    options = set(re.findall(r"--[a-z][a-z-]+", said)) - {"--help"}
    assert options or word in {"examples", "tab-key"}  # which take none
    assert {option for option in options if f"`{option}" not in OPTIONS} == set()


def test_no_other_command_is_listed() -> None:
    _, said = riglint("--help")
    (commands,) = re.findall(r"COMMAND\n((?: {4}\w.*\n)+)", said)
    offered = {line.split()[0] for line in commands.splitlines()}
    assert set(re.findall(r"^\| `riglint ([\w-]+)", README, re.MULTILINE)) == offered


def test_links_lead_somewhere() -> None:
    links = re.findall(r"\]\((?!https?:)([^)#]+)", README)
    assert links
    assert [link for link in links if not Path(CHECKOUT, link).exists()] == []
