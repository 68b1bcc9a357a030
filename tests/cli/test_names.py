"""Names of files that look like options: whoever commits them must not choose policy, code, output or exit status.

What a hook runner hands over is its own documented way: the words of `entry`, then the names of the changed files.
"""

import os
import shlex
from pathlib import Path

import pytest
import yaml

from tests.cli.calling import CHECKOUT, DAY, SHORT_TAIL, SOUND, git, run, write

POLICY = (
    "riglint: policy/1\ntitle: Nobody's\noff:\n  - {rule: tail/webbing, because: a file name asked for it}\n"
)
HOSTILE = (
    "--policy=p.yaml",
    "--house-rules=a.yaml",
    "--output=rigs/low.yaml",
    "--write=json=rigs/low.yaml",
    "--format=json.yaml",
    "--stop-at=DANGER",
    "--on=2000-01-01",
    "--root=..",
    "--if-any",
    "--leave-out=accepted",
    "--version",
    "-h",
    "--",
)
WARNING = ("--stop-at", "CAUTION", *DAY)  # the short tail of a low line is a CAUTION


@pytest.fixture
def repository(library: Path) -> Path:
    """A library with a faulty rig, and beside it files with names that are options."""
    write(library / "rigs/low.yaml", SHORT_TAIL)
    write(library / "p.yaml", POLICY)
    rule = 'from pathlib import Path\nPath("RAN").write_text("house rules ran")\n'
    write(library / "set/tail/own.py", rule)
    (library / "a.yaml").symlink_to("set")
    for name in HOSTILE:
        write(library / name, SOUND)
    git(library, "init", "-q")
    git(library, "add", "-A")  # the hook judges what is staged
    return library


def entry() -> list[str]:
    hooks = yaml.safe_load((CHECKOUT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))
    (changed,) = [hook for hook in hooks if hook["id"] == "riglint"]
    words = shlex.split(changed["entry"])
    assert words[:2] == ["riglint", "audit"]
    assert "args" not in changed  # they would follow the --
    return words[1:]


def test_the_entry_of_the_hook_ends_its_options() -> None:
    assert entry()[-1] == "--"


@pytest.mark.parametrize("name", HOSTILE)
def test_a_committed_name_is_a_name(repository: Path, name: str) -> None:
    options = [*entry()[:-1], *WARNING, "--"]
    faulty = run(repository, *options, "rigs/low.yaml")
    assert faulty[0] == 1
    status, out, err = run(repository, *options, name, "rigs/low.yaml")
    assert (status, err) == (1, "")
    assert "tail/webbing" in out
    assert (repository / "rigs/low.yaml").read_text(encoding="utf-8") == SHORT_TAIL
    assert not (repository / "RAN").exists()


@pytest.mark.parametrize("name", [one for one in HOSTILE if one != "--"])
def test_without_the_two_dashes_such_a_name_is_refused(repository: Path, name: str) -> None:
    status, out, err = run(repository, "audit", *WARNING, name, "rigs/low.yaml")
    assert (status, out) == (2, "")
    assert err == (
        f"'{name}' is an option, and a file here is called the same. Write -- before the first file name, "
        "or rename that file.\n"
    )
    assert (repository / "rigs/low.yaml").read_text(encoding="utf-8") == SHORT_TAIL
    assert not (repository / "RAN").exists()


def test_an_option_among_the_names_is_not_passed_over(repository: Path) -> None:
    """A hook's `args` follow its entry; one that asks for a stricter policy must not be lost without a word."""
    os.unlink(repository / "--policy=p.yaml")  # noqa: PTH108 - a name that begins with dashes
    status, out, err = run(repository, *entry(), "--policy=p.yaml", "rigs/low.yaml")
    assert (status, out) == (2, "")
    assert err.startswith("'--policy=p.yaml' comes after -- among the file names, and there is no such file.")


@pytest.mark.parametrize("short", ["--pol=p.yaml", "--out=x.txt", "--house=set"])
def test_half_an_option_is_none(library: Path, short: str) -> None:
    write(library / "low.yaml", SOUND)
    status, out, err = run(library, "audit", "low.yaml", short)
    assert (status, out) == (2, "")
    assert err.startswith(f"'{short.partition('=')[0]}' is no option of riglint audit.")
