"""The scripts for the Tab key, read and asked by the shells that they are for."""

import shutil
import subprocess
from pathlib import Path

import pytest

from riglint.cli import main
from riglint.cli.draft import KINDS
from riglint.rulebook import load_rulebook


def _script(capsys: pytest.CaptureFixture[str], shell: str) -> str:
    assert main(["tab-key", shell]) == 0
    return capsys.readouterr().out


def _shell(name: str, *call: str) -> list[str]:
    found = shutil.which(name)
    if found is None:
        pytest.skip(f"{name} is not installed here")
    ran = subprocess.run([found, *call], capture_output=True, text=True, check=False, timeout=60)
    assert (ran.returncode, ran.stderr) == (0, "")
    return ran.stdout.split()


def _in_bash(script: str, *words: str) -> list[str]:
    """Return what bash offers once these words are typed, the last of them begun."""
    typed = " ".join(f"'{word}'" for word in words)
    ask = f'COMP_WORDS=({typed}); COMP_CWORD=$(({len(words)} - 1)); _riglint; printf "%s\\n" "${{COMPREPLY[@]}}"'
    return _shell("bash", "-c", f"{script}\n{ask}")


def _in_fish(folder: Path, script: str, line: str) -> list[str]:
    (folder / "riglint.fish").write_text(script, encoding="utf-8")
    ask = f"source {folder}/riglint.fish; complete -C '{line}'"
    return [row for row in _shell("fish", "--no-config", "-c", ask) if not row[:1].isupper()]


@pytest.mark.parametrize(
    ("words", "offered"),
    [
        (["riglint", "au"], ["audit"]),
        (["riglint", "g"], ["gauge", "gear"]),
        (["riglint", "audit", "--form"], ["--format"]),
        (["riglint", "audit", "--format", "g"], ["github", "gitlab"]),
        (["riglint", "audit", "--format", "=", "gith"], ["github"]),
        (
            ["riglint", "audit", "--format", "="],
            ["text", "json", "sarif", "junit", "markdown", "html", "lines", "github", "gitlab"],
        ),
        (["riglint", "audit", "rigs/low.yaml", "--stop-at", "W"], ["WARNING"]),
        (["riglint", "audit", "rigs/lo"], []),  # bash goes on with files
        (["riglint", "sheet", "--output", "sh"], []),
        (["riglint", "draft", ""], list(KINDS)),
        (["riglint", "rulebook", "tail/web"], ["tail/webbing"]),
        (["riglint", "no-command", "-"], []),
    ],
)
def test_bash_offers_what_the_parser_takes(
    capsys: pytest.CaptureFixture[str], words: list[str], offered: list[str]
) -> None:
    found = _in_bash(_script(capsys, "bash"), *words)
    assert found[: len(offered)] == offered
    assert len(found) == len(offered) or words[-1] == "="


def test_bash_offers_every_rule_once(capsys: pytest.CaptureFixture[str]) -> None:
    assert _in_bash(_script(capsys, "bash"), "riglint", "rulebook", "") == list(load_rulebook().rules)


def test_zsh_reads_its_script(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    file = tmp_path / "riglint.zsh"
    file.write_text(_script(capsys, "zsh"), encoding="utf-8")
    ask = (
        "compset() { PREFIX=${PREFIX#*=}; }; compadd() { shift; print -l -- ${(M)@:#$PREFIX*}; }"
        f"; _files() {{ print files; }}; compdef() {{ :; }}; source {file}"
        "; words=(riglint audit --format g); CURRENT=4; PREFIX=g; _riglint"
        "; words=(riglint audit --format=gith); CURRENT=3; PREFIX=--format=gith; _riglint"
        "; words=(riglint au); CURRENT=2; PREFIX=au; _riglint"
        "; words=(riglint audit rig); CURRENT=3; PREFIX=rig; _riglint"
    )
    assert _shell("zsh", "-f", "-c", ask) == ["github", "gitlab", "github", "audit", "files"]


def test_fish_offers_what_the_parser_takes(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    script = _script(capsys, "fish")
    assert _in_fish(tmp_path, script, "riglint au")[0] == "audit"
    assert _in_fish(tmp_path, script, "riglint audit --format gi") == ["github", "gitlab"]
    assert set(KINDS) <= set(_in_fish(tmp_path, script, "riglint draft "))


def test_another_shell_is_refused_with_those_that_there_are(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["tab-key", "ksh"]) == 2
    assert "bash, zsh, fish" in capsys.readouterr().err
