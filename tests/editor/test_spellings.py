"""Whatever a message says to write, the editor offers to write, and written so the finding ends.

The slips are those of `tests/broken`, and slips drawn by a fixed seed in the example library: in words, keys, units and
numbers, and in the names of gear, anchors and files. Texts are held as an editor holds them; the server's conversation
is tested elsewhere.
"""

import re
import shutil
from collections import Counter
from datetime import date
from pathlib import Path

import pytest
from lsprotocol import types

from riglint.editor.answers import fixes
from riglint.editor.open_files import Judging, OpenFiles
from riglint.findings import Finding
from riglint.rulebook import load_rulebook
from tests.broken.test_typos import SLIPS, Draw, misspelt, slipped
from tests.editor.client import CHECKOUT, changed

BROKEN = CHECKOUT / "tests/broken"
# Sentences that name the very text to write. The second: `Write 3 kN.`, but not `Write a number`.
SAYS = re.compile(
    r"Write '[^']+: |Write the nearest name|if you mean|whichever is meant|behind it: | behind it \("
)
OPEN = "a |an |the |them|it |one |two |how |its |year|tensions|in |on "
PLAIN = re.compile(rf"Write (?!{OPEN})[^ …]+[^…]*?(?:, with|, without|\.)(?: |$)")
# Sentences that name something to write and for which nothing is offered, each with the reason.
NOT_OFFERED = {
    "is too small. At least": "only the writer knows how many",
    "Write ] where the group ends": "only the writer knows where",
    "Write it from this file on": "only the writer knows the folder",
    "In the row": "its place is that of the whole table",
}


def says_what(finding: Finding) -> bool:
    """Whether a sentence names the very text to write."""
    return bool(SAYS.search(finding.do) or PLAIN.search(finding.do))


def told(editor: OpenFiles, file: Path, text: str) -> list[Finding]:
    """Return what the reader has to say of a file, of whichever file it stands in."""
    editor.texts = {file: text}
    editor.audits = {file: editor.audited(file, editor.texts)}
    return [one for one in editor.findings(file) if one.rule in READER]


LEAST_OFFERED = 45  # of the problems of the broken files
READER = {
    "file/key",
    "file/value",
    "file/unit",
    "file/reference",
    "file/kind",
    "file/yaml",
    "file/accepted",
    "file/policy",
}


def offered(editor: OpenFiles, file: Path, finding: Finding) -> list[types.CodeAction]:
    line = types.Position(finding.at.line - 1, 0)
    found = fixes(editor, file, types.Range(line, line), len)
    mine = [one for one in found if any(finding.message in shown.message for shown in one.diagnostics or ())]
    return [one for one in mine if one.title.startswith("Write ")]


def ends(editor: OpenFiles, file: Path, text: str, finding: Finding, action: types.CodeAction) -> str:
    """Take one action over; return what is then said at that place, "" where nothing is."""
    assert action.edit is not None
    assert action.edit.changes is not None
    edits = [{"range": range_of(one), "newText": one.new_text} for one in action.edit.changes[file.as_uri()]]
    left = told(editor, file, changed(text, edits))
    place = finding.at.line, finding.at.column
    same = [one for one in left if one.message == finding.message or (one.at.line, one.at.column) == place]
    return "; ".join(f"{one.message} {one.do}" for one in same)


def range_of(edit: types.TextEdit) -> dict[str, dict[str, int]]:
    start, end = edit.range.start, edit.range.end
    return {
        "start": {"line": start.line, "character": start.character},
        "end": {"line": end.line, "character": end.character},
    }


def gaps_of(editor: OpenFiles, file: Path, text: str, counted: Counter[str]) -> list[str]:
    """Return what the editor leaves open of one file: nothing offered, or offered and no help."""
    gaps = []
    for finding in told(editor, file, text):
        if not says_what(finding) or any(one in finding.message + finding.do for one in NOT_OFFERED):
            continue
        said = f"{file.name}:{finding.at.line}: {finding.message} {finding.do}"
        told(editor, file, text)
        actions = offered(editor, file, finding)
        counted["offered" if actions else "nothing"] += 1
        gaps += [] if actions else [f"Nothing is offered. {said}"]
        for action in actions:
            left = ends(editor, file, text, finding, action)
            gaps += [f"{action.title} leaves: {left} {said}"] if left else []
    return gaps


@pytest.fixture(scope="module")
def editor() -> OpenFiles:
    return OpenFiles(Judging(load_rulebook(), None, lambda: date(2026, 5, 2)))


@pytest.fixture(scope="module")
def broken(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("broken")
    return Path(shutil.copytree(BROKEN, folder / "club"))


def test_each_spelling_of_the_broken_files_is_offered(editor: OpenFiles, broken: Path) -> None:
    counted, gaps = Counter[str](), list[str]()
    for file in sorted(broken.glob("*.yaml")):
        if file.stem != "expected":
            text = file.read_bytes().decode("utf-8", "replace")
            gaps += gaps_of(editor, file, text, counted)
    assert gaps == []
    assert counted["offered"] >= LEAST_OFFERED, counted


# Slips in names, which no list of the format holds: gear, anchors, files and the folders on the way to them.
NAMES: dict[str, re.Pattern[str]] = {
    "gear": re.compile(r"(?<=gear: )[A-Z]{2}-\d+"),
    "anchor": re.compile(r"(?<=at: )(?!back|mid)[a-z]{4,}"),
    "file": re.compile(r"(?<=/)[a-z-]{4,}(?=\.yaml)"),
    "folder": re.compile(r"(?<=\.\./)[a-z]{4,}(?=/)"),
    "way": re.compile(r"(?<=[ \[])\.\./(?=[a-z])"),
}
COUNT = 24  # of each kind


def misnamed(text: str, kind: str, draw: Draw) -> str | None:
    found = [*NAMES[kind].finditer(text)]
    if not found:
        return None
    one = draw.choice(found)
    word = one[0]
    slips = {"gear": word.lower().replace("-", ""), "way": draw.choice(("", "../../"))}
    wrong = slips[kind] if kind in slips else misspelt(one, draw)
    return text[: one.start()] + wrong + text[one.end() :] if wrong != word else None


@pytest.mark.parametrize("kind", [*SLIPS, *NAMES])
def test_each_slip_in_the_examples_is_put_right(editor: OpenFiles, club: Path, kind: str) -> None:
    draw, counted, gaps = Draw(f"actions for {kind}"), Counter[str](), list[str]()
    rigs = sorted(club.glob("rigs/*.yaml"))
    while sum(counted.values()) < COUNT:
        file = draw.choice(rigs)
        right = file.read_text(encoding="utf-8")
        slip = slipped(right, kind, draw) if kind in SLIPS else (misnamed(right, kind, draw), 0)
        if slip is not None and slip[0] is not None and told(editor, file, slip[0]):
            gaps += gaps_of(editor, file, slip[0], counted)
            counted["not named"] += not any(map(says_what, told(editor, file, slip[0])))
    assert gaps == []
    assert counted["not named"] <= 0.1 * COUNT, counted  # two letters, such as a plate's, are near to many


@pytest.fixture(scope="module")
def club(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return Path(shutil.copytree(CHECKOUT / "examples", tmp_path_factory.mktemp("club") / "club"))


CLUB = "riglint: policy/1\ntitle: Club\n"
OTHERS = {  # what is written, and what is offered
    "policies/club.yaml": (CLUB + "values: {tail/webing.least_tail: 1 m}\n", "tail/webbing.least_tail"),
    "policies/units.yaml": (CLUB + "values: {tail/webbing.least_tail: 1 M}\n", "1 m"),
    "policies/off.yaml": (CLUB + "off: [{rule: tail/webing, because: hall}]\n", "tail/webbing"),
    "policies/ratio.yaml": (CLUB + "required: [{part: textil, consequence: fall, state: peak, ratio: 5}]\n", "textile"),
    "rig-library": ("riglint: library/1\npolicy: policies/housse.yaml\n", "policies/house.yaml"),
}  # fmt: skip


@pytest.mark.parametrize("name", OTHERS)
def test_what_settles_a_library_is_put_right_as_well(editor: OpenFiles, club: Path, name: str) -> None:
    text, right = OTHERS[name]
    (club / "policies").mkdir(exist_ok=True)
    (club / "policies/house.yaml").write_text(CLUB, encoding="utf-8")
    (finding,) = told(editor, club / name, text)
    (action,) = offered(editor, club / name, finding)
    assert action.title == f"Write {right}"
    assert ends(editor, club / name, text, finding, action) == ""
