"""A fault of a spot or a shelf that three rigs rest on: told once, in that file, with the names of all three."""

import json
import re
from pathlib import Path

import pytest

from tests.cli.calling import DAY, run, write

EXAMPLES = Path(__file__).parents[2] / "examples"
SHARED = {
    "spots/orchard.yaml": (
        "health: sound",
        "health: doubtful",
        "'gate' is doubtful. We credit its stem with no",
    ),
    "shelf/club.yaml": (
        "2 m\n    width: 55 mm\n    made: 2023-05",
        "2 m\n    width: 55 mm\n    made: 2009-05",
        "RS-2 was made 2009",
    ),
}
RIGS = ["rigs/1.yaml", "rigs/2.yaml", "rigs/3.yaml"]


@pytest.fixture
def three(tmp_path: Path) -> Path:
    """Three versions of the low line on other days, each on the same doubtful tree with the same old sling."""
    for path, (sound, faulty, _) in SHARED.items():
        text = (EXAMPLES / path).read_text(encoding="utf-8")
        write(tmp_path / path, text.replace(sound, faulty, 1))
    line = (EXAMPLES / "rigs" / "low-line.yaml").read_text(encoding="utf-8")
    for n, path in enumerate(RIGS):
        on_its_day = line.replace("first_day: 2026-05-03", f"first_day: 2026-05-1{n}")
        write(tmp_path / path, on_its_day.replace("title: Orchard, low evening line", f"title: Line {n}"))
    (tmp_path / "rig-library").touch()
    return tmp_path


@pytest.mark.parametrize(("path", "words"), [(path, words) for path, (_, _, words) in SHARED.items()])
def test_it_stands_once_in_the_shared_file_and_names_the_rigs(three: Path, path: str, words: str) -> None:
    report = json.loads(run(three, "audit", ".", *DAY, "--format", "json")[1])
    told = [
        (file["path"], one) for file in report["files"] for one in file["findings"] if words in one["message"]
    ]
    assert [(file, one["rigs"]) for file, one in told] == [(path, RIGS)]
    text = run(three, "audit", ".", *DAY)[1]
    body = " ".join(text[text.index("rigs/1.yaml · Line 0") :].split())
    assert body.count(words) == 1
    assert f"rigs {', '.join(RIGS)}" in body
    assert len(re.findall(rf"{path}, \d findings? up to", body)) == 3  # each rig says where to look
    lines = [
        one for one in run(three, "audit", ".", *DAY, "--format", "lines")[1].splitlines() if words in one
    ]
    assert len(lines) == 1
    assert f"Touches {', '.join(RIGS)}." in lines[0]


def test_no_rig_is_quieter_for_it(three: Path) -> None:
    """The answer of each rig is the one that it has when it is audited alone."""
    together = run(three, "audit", ".", *DAY, "--brief")[1]
    for path in RIGS:
        answer = f"DANGER     {path}: Do not tension."
        assert answer in run(three, "audit", path, *DAY, "--brief")[1]
        assert answer in together
    page = run(three, "audit", ".", *DAY, "--format", "html")[1]
    assert page.count("DANGER: The tree &#x27;gate&#x27; is doubtful") == 3  # on each drawing of a chain


def test_what_one_rig_alone_says_stays_with_it(three: Path) -> None:
    report = json.loads(run(three, "audit", RIGS[0], *DAY, "--format", "json")[1])
    (told,) = [
        file["path"]
        for file in report["files"]
        for one in file["findings"]
        if one["rule"] == "anchor/tree_stem"
    ]
    assert told == RIGS[0]
