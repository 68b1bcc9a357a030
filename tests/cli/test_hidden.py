"""What a file says steers nothing that shows it: no letter is hidden, no row is a command, and pages run nothing.

Letters are those of the Unicode Standard (Default_Ignorable_Code_Point, DerivedCoreProperties.txt), as Node's regular
expressions know them. Commands are those that hosts of CI document: a row that begins with `::`, and `##[` or
`##vso[` anywhere. The policy of pages is that of W3C Content Security Policy Level 3.
"""

import base64
import hashlib
import itertools
import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from riglint.cli import main
from riglint.read.problems import HIDDEN, UNSEEN, visible
from tests.cli.calling import DAY, SHORT_TAIL, SOUND, write

LETTERS = "\u3164\u2800\u034f\ufe0f\u115f\u17b4\uffa0\u00ad\U000e0100\u2064"
FORMS = ("text", "json", "markdown", "html", "sarif", "junit")
# The report in Markdown parts mentions with one of these, on purpose: it stands in what riglint writes, not in names.
MARKDOWN_OWN = "\u200b"


def test_the_list_is_that_of_the_standard() -> None:
    node = shutil.which("node")
    if node is None:
        pytest.skip("node is not installed, so nobody else has counted the letters")
    script = (
        "for (let n = 0; n < 0x110000; n++)"
        " if ((n < 0xd800 || n > 0xdfff) && /\\p{Default_Ignorable_Code_Point}/u.test(String.fromCodePoint(n)))"
        " console.log(n)"
    )
    said = subprocess.run([node, "-e", script], capture_output=True, check=True).stdout.split()
    theirs = {int(number) for number in said}
    ours = {number for number in range(sys.maxunicode + 1) if HIDDEN.match(chr(number))}
    assert ours == theirs | {0x2800}


@pytest.mark.parametrize("letter", LETTERS)
def test_a_letter_that_nobody_sees_is_shown_by_its_number(letter: str) -> None:
    assert visible(f"SH{letter}-1").isascii()
    assert f"{ord(letter):x}" in visible(f"SH{letter}-1")


def hostile(text: str, name: str = "tail end") -> str:
    """Return a rig with a short tail, and this text as its title, as the id of the part and in an acceptance."""
    rig = re.sub(r"(?m)^title: .*$", lambda _: f"title: {json.dumps(text)}", SHORT_TAIL)
    quoted = json.dumps(text)
    entry = f"{{rule: {quoted}, part: {quoted}, reason: {quoted}, role: x, until: 2026-06-01}}"
    rig = rig.replace("accepted: []", f"accepted: [{entry}]")
    return rig.replace(
        "{part: webbing_anchor,", f"{{part: webbing_anchor, id: {json.dumps(f'{name} {text}')},", 1
    )


@pytest.mark.usefixtures("by_one_rule")
@pytest.mark.parametrize("form", FORMS)
def test_no_report_holds_a_hidden_letter(
    library: Path, capsys: pytest.CaptureFixture[str], form: str
) -> None:
    write(library / f"low{LETTERS}.yaml", hostile(f"a{LETTERS}b"))
    main(["audit", str(library), *DAY, "--format", form])
    said = capsys.readouterr().out.replace(MARKDOWN_OWN, "" if form == "markdown" else MARKDOWN_OWN)
    assert HIDDEN.findall(said) == []
    assert UNSEEN.findall(said) == []
    assert "3164" in said


@pytest.mark.usefixtures("by_one_rule")
@pytest.mark.parametrize("form", FORMS)
def test_a_name_that_turns_the_reading_direction_is_shown_by_number(
    library: Path, capsys: pytest.CaptureFixture[str], form: str
) -> None:
    name = "low\u202elmay.yaml"
    write(library / name, SHORT_TAIL)
    main(["audit", str(library), *DAY, "--format", form])
    said = capsys.readouterr().out
    assert "\u202e" not in said
    if form == "json":  # and programs still find the file
        assert [file["path"] for file in json.loads(said)["files"]] == [name]


@pytest.mark.usefixtures("by_one_rule")
@pytest.mark.parametrize("form", FORMS)
def test_no_tab_and_no_line_end_of_a_name_reaches_a_sentence(
    library: Path, capsys: pytest.CaptureFixture[str], form: str
) -> None:
    write(library / "low.yaml", hostile("a\tb\nc"))
    main(["audit", str(library), *DAY, "--format", form])
    said = capsys.readouterr().out
    assert "\t" not in said
    if form == "json":
        for file in json.loads(said)["files"]:
            for one in file["findings"]:
                assert one["message"].isprintable()
                assert one["do"].isprintable()


COMMANDS = ("::set-output name=x::y", "::add-mask::x", "##[error]x", "##vso[task.complete result=Succeeded]")


@pytest.mark.usefixtures("by_one_rule")
@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("before", range(0, 80, 7))
def test_no_row_is_a_command_of_a_host(
    library: Path, capsys: pytest.CaptureFixture[str], form: str, before: int
) -> None:
    words = " ".join(itertools.repeat("x" * 6, before // 7))
    text = f"{words} " + " ".join(f"{one} {'y' * 70} {one}" for one in COMMANDS)
    write(library / "low.yaml", hostile(text))
    main(["audit", str(library), *DAY, "--format", form])
    said = capsys.readouterr()
    for row in (said.out + said.err).splitlines():
        assert not row.lstrip().startswith("::"), row
        assert "##[" not in row
        assert "##vso[" not in row
    if form in {"json", "sarif"}:
        assert any(one in json.dumps(json.loads(said.out)) for one in COMMANDS)  # and they read back whole


def test_what_is_complained_of_is_no_command_either(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheet", "::error::x", *DAY]) == 2
    assert main(["audit", "x.yaml", "--policy", "##[error]\u202ex", *DAY]) == 2
    for row in capsys.readouterr().err.splitlines():
        assert not row.startswith("::")
        assert "##[" not in row
        assert "\u202e" not in row


@pytest.mark.parametrize("command", ["audit", "sheet", "card"])
def test_a_page_lets_nothing_run_and_nothing_be_fetched(
    library: Path, capsys: pytest.CaptureFixture[str], command: str
) -> None:
    low = write(library / "low.yaml", SOUND)
    main([command, str(low), *DAY, "--format", "html"])
    page = capsys.readouterr().out
    head = page[: page.index("<style>")]
    (policy,) = re.findall(r'<meta http-equiv="Content-Security-Policy" content="([^"]*)">', head)
    (style,) = re.findall(r"<style>(.*?)</style>", page, re.DOTALL)
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    rules = dict(rule.strip().split(" ", 1) for rule in policy.split(";"))
    scripts = re.findall(r"<script>(.*?)</script>", page, re.DOTALL)
    assert len(scripts) == (command == "card")  # which keeps its ticks
    if scripts:
        ours = base64.b64encode(hashlib.sha256(scripts[0].encode()).digest()).decode()
        assert rules.pop("script-src") == f"'sha256-{ours}'"
        page = page.replace(f"<script>{scripts[0]}</script>", "")
    assert rules == {
        "default-src": "'none'",
        "style-src": f"'sha256-{digest}'",
        "base-uri": "'none'",
        "form-action": "'none'",
    }
    assert not re.findall(r"<[^>]*\sstyle=", page)  # such styles would not be taken
    assert not re.findall(r"<(?:script|iframe|object|embed|link|img|form)\b|\son\w+=", page)


# One library, however it is named


@pytest.mark.parametrize("marked", [True, False])
@pytest.mark.parametrize("form", ["text", "json", "markdown", "sarif", "junit", "html"])
def test_naming_a_folder_and_naming_its_files_give_the_same_bytes(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], form: str, *, marked: bool
) -> None:
    folder = tmp_path / "library"
    found = re.search(r"(?ms)^shelf:\n  - items:\n(.*?)(?=^\S)", SHORT_TAIL)
    assert found is not None
    items = re.sub(r"(?m)^    ", "", found[1]).replace("inspected: 2026-04-02", "inspected: 2024-04-02")
    write(folder / "shelf.yaml", f"riglint: shelf/1\ntitle: Shelf\nitems:\n{items}")
    for name in ("b", "a", "c"):
        write(folder / f"{name}.yaml", SHORT_TAIL.replace(found[0], "shelf: [shelf.yaml]\n"))
    write(folder / "d.yaml", SOUND)
    if marked:
        write(folder / "rig-library", "")
    files = [str(folder / f"{name}.yaml") for name in ("d", "c", "shelf", "a", "b")]
    said = []
    for named in ([str(folder)], files, files[::-1], [*files, str(folder)]):
        main(["audit", *named, *DAY, "--format", form, "--remedies-from", "NOTICE"])
        said.append(capsys.readouterr().out)
    assert len(set(said)) == 1
