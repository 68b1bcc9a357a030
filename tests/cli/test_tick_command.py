"""`riglint tick`: what you say yes to stands in the file, and nothing else in it changes."""

import json
from pathlib import Path

import pytest

from riglint.cli import main
from riglint.cli.one_rig import tick
from riglint.read.yaml_edit import CannotEditError, Nodes, edited
from riglint.read.yaml_text import read_yaml
from tests.cli.calling import DAY, club_of

LAKE = "17-lake.yaml"


@pytest.fixture
def lake(tmp_path: Path) -> Path:
    """Return a planned rig with a pulley system, in a club of its own."""
    return club_of(tmp_path, f"rigs/{LAKE}", "shelf/long.yaml", "spots/lake-bay.yaml") / "rigs" / LAKE


def said(monkeypatch: pytest.MonkeyPatch, file: Path, *answers: str) -> int:
    """Tick with these answers, one a line."""

    class Typed:
        def __init__(self) -> None:
            self.left = list(answers)

        def readline(self) -> str:
            return f"{self.left.pop(0)}\n" if self.left else ""

        def isatty(self) -> bool:
            return False

    monkeypatch.setattr("sys.stdin", Typed())
    return main(["tick", str(file), *DAY])


def boxes(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, file: Path) -> int:
    """Return how many boxes a rig has left."""
    said(monkeypatch, file)
    first = capsys.readouterr().out.split("1 of ")
    return int(first[1].split()[0]) if len(first) > 1 else 0


def is_kept(old: str, new: str) -> bool:
    """Whether every letter of a text stands in another one, in its order."""
    letters = iter(new)
    return all(letter in letters for letter in old)


def opened(capsys: pytest.CaptureFixture[str], file: Path) -> list[str]:
    """Return the ticks that an audit still asks for; twists are a number, and no box."""
    main(["audit", str(file), *DAY, "--format", "json"])  # whose exit status is that of the findings
    report = json.loads(capsys.readouterr().out)
    return [
        one["at"]["key"]
        for each in report["files"]
        for one in each["findings"]
        if one["kind"] == "open"
        and any(word in one["at"]["key"] for word in ("chain", "checks"))
        and "twists" not in one["at"]["key"]
    ]


def all_ticked(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, file: Path, *end: str
) -> int:
    count = boxes(capsys, monkeypatch, file)
    assert count > 5
    return said(monkeypatch, file, *["y"] * count, "y", "second person", "5 kN", *(end or ("y",)))


@pytest.mark.parametrize("mark", ["", "\ufeff"])
@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_a_rig_ticked_is_built_and_loses_no_letter(
    lake: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, newline: str, mark: str
) -> None:
    text = lake.read_text(encoding="utf-8").replace(
        "checks: []\n", "checks:  # on site\n  # the first ones\n"
    )
    text = text.replace("stage: planned\n", "").replace("{part: shackle, gear: LH-1}", "LH-1  # the bent one")
    text = text.replace(
        "  - {part: shackle, gear: LH-2}\n", "  - part: shackle  # lines\n    gear: LH-2\n    pins:\n"
    )
    old = mark + text.replace("\n", newline)
    lake.write_bytes(old.encode())
    assert all_ticked(capsys, monkeypatch, lake) == 0
    out = capsys.readouterr().out
    assert "+stage: built" in out
    new = lake.read_bytes().decode()
    assert is_kept(old, new)
    assert new.count("\r\n") == (new.count("\n") if newline == "\r\n" else 0)
    assert "{gear: LH-1, pins: true}  # the bent one" in new
    assert opened(capsys, lake) == []
    assert boxes(capsys, monkeypatch, lake) == 0


def test_a_no_at_the_end_writes_nothing(
    lake: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    old = lake.read_bytes()
    assert all_ticked(capsys, monkeypatch, lake, "n") == 0
    assert "Nothing was written" in capsys.readouterr().out
    assert lake.read_bytes() == old
    assert said(monkeypatch, lake, *["n"] * 20) == 0
    assert "Nothing was ticked" in capsys.readouterr().out
    assert lake.read_bytes() == old


def test_what_is_not_ticked_stays_open(
    lake: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    count = boxes(capsys, monkeypatch, lake)
    assert said(monkeypatch, lake, *["y"] * (count - 1), "n", "y", "rigger", "", "y") == 0
    capsys.readouterr()
    assert len(opened(capsys, lake)) == 1
    assert boxes(capsys, monkeypatch, lake) == 1
    assert 'what: "chain[3].pins", by: rigger, date: 2026-05-02, after_tension: 4.5 kN' in lake.read_text(
        "utf-8"
    )


@pytest.mark.parametrize(("role", "tension"), [("a, {b}", "5 kN"), ("rigger", "5")])
def test_what_is_no_role_or_tension_is_refused(
    lake: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, role: str, tension: str
) -> None:
    old, count = lake.read_bytes(), boxes(capsys, monkeypatch, lake)
    assert said(monkeypatch, lake, *["y"] * count, "y", role, tension, "y") == 2
    assert "Nothing was written" in capsys.readouterr().err
    assert lake.read_bytes() == old


def test_a_file_that_somebody_else_changes_meanwhile_is_left_alone(
    lake: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    shown = tick._diff  # the moment between reading and writing

    def meanwhile(*given: object) -> list[str]:
        lake.write_bytes(lake.read_bytes() + b"# theirs\n")
        return shown(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(tick, "_diff", meanwhile)
    assert all_ticked(capsys, monkeypatch, lake) == 2
    assert "has changed meanwhile" in capsys.readouterr().err
    assert lake.read_text("utf-8").endswith("# theirs\n")
    assert "pins" not in lake.read_text("utf-8")


def with_kits(lake: Path, kits: str, *calls: tuple[str, str]) -> Path:
    """Write kits into the gear list of a rig, and calls of them into the rig; return the gear list."""
    shelf = lake.parents[1] / "shelf/long.yaml"
    shelf.write_text(shelf.read_text("utf-8") + f"kits:\n{kits}", encoding="utf-8")
    text = lake.read_text("utf-8")
    for old, new in calls:
        assert old in text
        text = text.replace(old, new)
    lake.write_text(text, encoding="utf-8")
    return shelf


FAR = "  - {part: shackle, gear: LH-3}\n  - {part: sling, gear: LS-2, hitch: basket}\n"
NEAR = FAR.replace("LH-3", "LH-1").replace("LS-2", "LS-1")
NEAR = "".join(reversed(NEAR.splitlines(keepends=True))) + "  - {part: sewn_end, gear: LE-60}\n"
NEAR_KIT = "near: [{kit: slung}, LE-60]\n  slung: [{gear: LS-1, hitch: basket}, LH-1]\n"


def test_what_a_kit_holds_is_ticked_in_the_rig_that_calls_it(
    lake: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    kits = f"  {NEAR_KIT}  far: [LH-3, {{gear: LS-2, hitch: basket}}]\n"
    shelf = with_kits(lake, kits, (NEAR, "  - {kit: near}  # tree one\n"), (FAR, "  - kit: far\n"))
    kept = shelf.read_bytes()
    assert all_ticked(capsys, monkeypatch, lake) == 0
    new = lake.read_text("utf-8")
    assert "- {kit: near, pins: true}  # tree one\n" in new
    assert "- kit: far\n    pins: true\n" in new
    assert 'what: "chain[3].pins"' in new
    assert shelf.read_bytes() == kept
    capsys.readouterr()
    assert opened(capsys, lake) == []
    assert boxes(capsys, monkeypatch, lake) == 0


def test_a_whole_pulley_system_out_of_a_kit_is_ticked_in_its_call(
    lake: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    text = lake.read_text("utf-8")
    haul = text[text.index("  - part: haul\n") : text.index("  - {part: shackle, gear: LH-3}")]
    kit = "  five to one:\n" + "".join(f"  {line}\n" for line in haul.splitlines()) + "    - LH-3\n"
    called = (haul + "  - {part: shackle, gear: LH-3}\n", "  - {kit: five to one}\n")
    shelf = with_kits(lake, kit.replace('"chain[6]"', "LA-1"), called)
    kept = shelf.read_bytes()
    assert all_ticked(capsys, monkeypatch, lake) == 0
    new = " ".join(lake.read_text("utf-8").split())
    for said in ("brake: {locked: true, threading_checked: true}", "tail: {tied_off: true}", "pins: true"):
        assert said in new
    assert 'what: "chain[8].brake.locked"' in new
    assert shelf.read_bytes() == kept
    capsys.readouterr()
    assert opened(capsys, lake) == []


def test_what_lies_deeper_in_a_kit_is_ticked_by_hand_and_said(
    lake: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    legs = "[{legs: [{to: pine, chain: [{gear: LS-2, hitch: basket}, LH-3]}]}]"
    shelf = with_kits(lake, f"  far: {legs}\n", (FAR, "  - {kit: far}\n"))
    kept = shelf.read_bytes()
    assert boxes(capsys, monkeypatch, lake) > 5
    said(monkeypatch, lake)
    out = " ".join(capsys.readouterr().out.split())
    assert "By hand: Every pin and gate is closed: shackle LH-3" in out
    assert "Write that kit's parts out in this rig" in out
    assert shelf.read_bytes() == kept


def test_a_call_of_several_parts_takes_only_what_is_ticked_on_site(
    lake: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with_kits(
        lake, "  far: [LH-3, {gear: LS-2, hitch: basket}]\n", (FAR, "  - {kit: far, tail_tied: true}\n")
    )
    assert main(["audit", str(lake), *DAY]) == 2
    assert "it can't tell which of them tail_tied is for" in " ".join(capsys.readouterr().out.split())


CHECKS = [
    ("a: 1\n", "a: 1\nchecks:\n  - {x: 1}\n"),
    ("a: 1", "a: 1\nchecks:\n  - {x: 1}\n"),
    ("checks: []  # none\na: 1\n", "checks: \n  - {x: 1}  # none\na: 1\n"),
    ("checks:\na: 1\n", "checks:\n  - {x: 1}\na: 1\n"),
    ("checks: [{y: 2}]\n", "checks: [{y: 2}, {x: 1}]\n"),
    ("checks:\n- {y: 2}  # two\n\n# end\na: 1\n", "checks:\n- {y: 2}  # two\n- {x: 1}\n\n# end\na: 1\n"),
    ("checks:\n    - y: 2\n      z: 3\na: 1\n", "checks:\n    - y: 2\n      z: 3\n    - {x: 1}\na: 1\n"),
]


@pytest.mark.parametrize(("old", "new"), CHECKS)
def test_entries_are_added_as_the_list_is_written(old: str, new: str) -> None:
    made = edited(old, [Nodes(old).add_entries("checks", ["{x: 1}"])])
    assert made == new
    document, problems = read_yaml(made.encode(), "a.yaml")
    assert document is not None
    assert problems == []
    assert document.data["checks"][-1] == {"x": "1"}  # type: ignore[index]


def test_what_cannot_be_edited_is_said() -> None:
    with pytest.raises(CannotEditError, match="holds no list"):
        Nodes("checks: {a: 1}\n").add_entries("checks", ["{x: 1}"])
    with pytest.raises(CannotEditError, match="holds no keys"):
        Nodes("- 1\n")
    nodes = Nodes("a: {b: {c: 1}}\n")
    with pytest.raises(CannotEditError, match="holds a group"):
        nodes.set_key(nodes.root, "a", "1")
