"""`riglint compare`: what a change does, between files, folders and revisions of a real repository."""

import json
from pathlib import Path
from typing import Any

import pytest

from riglint.testing import BASELINES
from tests.cli.calling import BROKEN, DAY, SHORT_TAIL, SOUND, commit, git, run, write

LONG = (BASELINES / "long_haul.yaml").read_text("utf-8")


def changed(library: Path, *call: str, status: int = 0) -> dict[str, Any]:
    got, out, err = run(library, "compare", *call, *DAY, "--format", "json")
    assert (got, err) == (status, "")
    report: dict[str, Any] = json.loads(out)
    assert report["riglint"] == "compare/1"
    return report


def two(library: Path, old: str, new: str) -> tuple[str, str]:
    write(library / "old/rig.yaml", old)
    write(library / "new/rig.yaml", new)
    return "old", "new"


def names(changes: list[dict[str, Any]]) -> dict[str, tuple[Any, Any]]:
    return {one["name"]: (one["old"], one["new"]) for one in changes}


def test_nothing_changed_is_said_in_one_sentence(library: Path) -> None:
    sides = two(library, SOUND, SOUND)
    (rig,) = changed(library, *sides)["rigs"]
    assert rig["status"] == "same"
    assert [rig[part] for part in ("findings", "states", "ratios", "inputs")] == [[], [], [], []]
    _, out, _ = run(library, "compare", *sides, *DAY)
    assert out.endswith("0 of 1 rig changed; findings: the same as before.\n")


def test_more_tension_shows_in_input_forces_and_ratios(library: Path) -> None:
    harder = LONG.replace("standing_tension: 6 kN", "standing_tension: 7 kN")
    (rig,) = changed(library, *two(library, LONG, harder), status=0)["rigs"]
    assert names(rig["inputs"]) == {"plan.standing_tension": ("6 kN", "7 kN")}
    assert names(rig["states"])["standing"] == (6, 7)
    assert all(new > old for old, new in names(rig["states"]).values())
    ratios = names(rig["ratios"])
    assert "webbing W-1" in ratios
    assert all(new < old for old, new in ratios.values())


@pytest.mark.parametrize("form", ["text", "markdown"])
def test_keys_stand_as_the_file_writes_them_and_states_in_words(library: Path, form: str) -> None:
    harder = LONG.replace("standing_tension: 6 kN", "standing_tension: 7 kN")
    _, out, _ = run(library, "compare", *two(library, LONG, harder), *DAY, "--format", form)
    told = out.replace("\\", "")
    assert "plan.standing_tension" in told
    assert "moving block of the pulley system" in told
    assert "brake slip" in told
    assert "brake_slip" not in told


def test_a_fault_put_in_is_new_and_stops_taken_out_it_is_gone(library: Path) -> None:
    old, new = two(library, SOUND, SHORT_TAIL)
    report = changed(library, old, new, "--stop-at", "CAUTION", status=1)
    (fault,) = (one for one in report["rigs"][0]["findings"] if one["rule"] == "tail/webbing")
    assert (fault["fate"], fault["old"], fault["new"], fault["at"]["key"]) == (
        "new",
        None,
        "CAUTION",
        "chain[4].tail",
    )
    (back,) = (
        one for one in changed(library, new, old)["rigs"][0]["findings"] if one["rule"] == "tail/webbing"
    )
    assert (back["fate"], back["old"], back["new"]) == ("gone", "CAUTION", None)


def test_a_finding_that_was_there_before_stops_nothing(library: Path) -> None:
    sides = two(library, SHORT_TAIL, SHORT_TAIL)
    assert changed(library, *sides, "--stop-at", "NOTICE")["rigs"][0]["findings"] == []


def test_a_finding_whose_word_rises_is_worse(library: Path) -> None:
    grave = SHORT_TAIL.replace("plan:\n", "plan:\n  consequence: life\n", 1)
    report = changed(library, *two(library, SHORT_TAIL, grave), status=1)
    (fault,) = (one for one in report["rigs"][0]["findings"] if one["rule"] == "tail/webbing")
    assert (fault["fate"], fault["old"], fault["new"]) == ("worse", "CAUTION", "WARNING")


def test_a_part_put_in_between_moves_no_other_part(library: Path) -> None:
    link = "- {part: quick_link, gear: QL-1}\n  - {part: webbing_anchor"
    more = SOUND.replace("- {part: webbing_anchor", link, 1)
    assert more != SOUND
    status, out, _ = run(library, "compare", *two(library, SOUND, more), *DAY, "--format", "json")
    assert status in {0, 1}
    (rig,) = json.loads(out)["rigs"]
    own = {name for name in names(rig["inputs"]) if not name.startswith("gear ")}
    assert own == {"quick link QL-1.part", "quick link QL-1.gear"}


CHECKED = LONG.replace(
    "checks: []",
    'checks:\n  - {what: "chain[7].pins", by: second person, date: 2026-05-02, after_tension: 6 kN}\n'
    '  - {what: "chain[3].pins", by: second person, date: 2026-05-02, after_tension: 6 kN}',
)
PUT_IN = (
    "  - {part: shackle, gear: SH-1}\n",
    "  - {part: quick_link, gear: QL-1}\n  - {part: shackle, gear: SH-1}\n",
)


def test_a_check_by_number_that_means_another_part_now_stops(library: Path) -> None:
    """A part put in before it: the pins that were looked at are no longer those that count as looked at."""
    sides = two(library, CHECKED, CHECKED.replace(*PUT_IN))
    (rig,) = changed(library, *sides, status=1)["rigs"]
    assert [(one["says"], one["was"], one["now"], one["write"]) for one in rig["moved_references"]] == [
        ("chain[7]", "shackle SH-2", "sewn loop SE-1", "chain[8]"),  # where the tie-back begins
        ("chain[7].pins", "shackle SH-2", "sewn loop SE-1", "chain[8].pins"),
        ("chain[3].pins", "shackle SH-1", "quick link QL-1", "chain[4].pins"),
    ]
    assert '"chain[7].pins"' in CHECKED.replace(*PUT_IN).splitlines()[rig["moved_references"][1]["line"] - 1]
    for form in ("text", "markdown"):
        _, out, _ = run(library, "compare", *sides, *DAY, "--format", form)
        told = " ".join(out.replace("\\", "").split())
        assert "still says chain[7].pins. It meant shackle SH-2. Now it means sewn loop SE-1." in told
        assert "Write chain[8].pins, or give the part an `id`." in told


def test_a_check_whose_part_is_gone_is_told(library: Path) -> None:
    less = CHECKED.replace("  - {part: shackle, gear: SH-1}\n", "")
    (rig,) = changed(library, *two(library, CHECKED, less), status=1)["rigs"]
    assert {one["says"]: one["write"] for one in rig["moved_references"]} == {
        "chain[7]": "chain[6]",
        "chain[7].pins": "chain[6].pins",
        "chain[3].pins": None,
    }


@pytest.mark.parametrize(
    "change",
    [
        [PUT_IN, ("chain[7]", "chain[8]"), ("chain[3]", "chain[4]")],  # moved along
        [("{part: shackle, gear: SH-1}", "{part: shackle, gear: SH-3}")],  # other gear in the same place
    ],
)
def test_references_that_still_mean_their_part_are_not_told(
    library: Path, change: list[tuple[str, str]]
) -> None:
    new = CHECKED
    for old_text, new_text in change:
        new = new.replace(old_text, new_text)
    _, out, _ = run(library, "compare", *two(library, CHECKED, new), *DAY, "--format", "json")
    (rig,) = json.loads(out)["rigs"]
    assert rig["moved_references"] == []


def test_rigs_that_come_and_go_are_told(library: Path) -> None:
    write(library / "old/a.yaml", SOUND)
    write(library / "new/b.yaml", SOUND)
    report = changed(library, "old", "new")
    assert {rig["path"]: rig["status"] for rig in report["rigs"]} == {
        "old/a.yaml": "removed",
        "new/b.yaml": "added",
    }


def test_two_files_are_compared_whatever_they_are_called(library: Path) -> None:
    write(library / "a.yaml", SOUND)
    write(library / "b.yaml", SOUND.replace("title: Low line", "title: Lower line"))
    (rig,) = changed(library, "a.yaml", "b.yaml")["rigs"]
    assert set(names(rig["inputs"])) == {"title"}


def test_gear_and_spot_in_other_files_count_as_inputs(library: Path) -> None:
    for side, mbs in (("old", "42 kN"), ("new", "40 kN")):
        shelf = f"riglint: shelf/1\nitems:\n  X-1: {{kind: webbing, mbs: {mbs}}}\n"
        text = SOUND.replace("shelf:\n", "shelf:\n  - shelf.yaml\n", 1).replace("gear: W-1", "gear: X-1", 1)
        write(library / side / "shelf.yaml", shelf)
        write(library / side / "rig.yaml", text)
    _, out, _ = run(library, "compare", "old", "new", *DAY, "--format", "json")
    (rig,) = json.loads(out)["rigs"]
    assert names(rig["inputs"]) == {"gear X-1.mbs": ("42 kN", "40 kN")}


def test_a_side_that_cannot_be_read_gives_2_and_says_so(library: Path) -> None:
    report = changed(library, *two(library, SOUND, BROKEN), status=2)
    (rig,) = report["rigs"]
    assert (report["judged"], rig["status"]) == (False, "unread")
    assert any("'hich' is not a key of a sling" in one["message"] for one in rig["findings"])


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (("here",), "'here' is one side only. Name OLD and NEW, or OLD..NEW such as main..HEAD."),
        (("a...b",), "'a...b' is one side only"),
        (
            ("nowhere", "."),
            "'nowhere' is not a file or folder, and there is no git repository here to look it up in.",
        ),
    ],
)
def test_a_wrong_call_gives_2_and_a_sentence(library: Path, call: tuple[str, ...], said: str) -> None:
    status, out, err = run(library, "compare", *call, *DAY)
    assert (status, out) == (2, "")
    assert said in err


def test_markdown_keeps_names_from_becoming_markup(library: Path) -> None:
    odd = SOUND.replace("title: Low line", "title: '<b>a|b</b> [x](y) ", 1).replace(
        "between two limes", "z'", 1
    )
    status, out, _ = run(library, "compare", *two(library, SOUND, odd), *DAY, "--format", "markdown")
    assert status == 0
    assert "<b>" not in out
    assert "a\\|b" in out


# Revisions


@pytest.fixture
def repository(library: Path) -> Path:
    """A repository with a sound rig in its first commit and a short tail in its second."""
    (library / "rig-library").unlink()
    git(library, "init", "-q", "-b", "main")
    write(library / "rigs/low line ü.yaml", SOUND)
    commit(library, "Low line")
    git(library, "tag", "before")
    write(library / "rigs/low line ü.yaml", SHORT_TAIL)
    commit(library, "Shorter tail")
    return library


@pytest.mark.parametrize("call", [("before..HEAD",), ("before", "HEAD"), ("HEAD~1", "main"), ("before", ".")])
def test_revisions_are_compared(repository: Path, call: tuple[str, ...]) -> None:
    report = changed(repository, *call, "--stop-at", "CAUTION", status=1)
    (rig,) = report["rigs"]
    assert rig["path"] == "rigs/low line ü.yaml"
    assert ("tail/webbing", "new") in {(one["rule"], one["fate"]) for one in rig["findings"]}


def test_what_is_staged_is_compared_and_what_is_not_is_left(repository: Path) -> None:
    rig = repository / "rigs/low line ü.yaml"
    write(rig, SOUND)
    git(repository, "add", "-A")
    write(rig, "torn: [")
    report = changed(repository, "HEAD", "staged")
    assert ("tail/webbing", "gone") in {(one["rule"], one["fate"]) for one in report["rigs"][0]["findings"]}
    assert rig.read_text("utf-8") == "torn: ["
    git(repository, "diff", "--cached", "--quiet", "before")  # the index is as it was left


def test_only_what_lies_below_is_compared(repository: Path) -> None:
    write(repository / "other/b.yaml", SHORT_TAIL)
    commit(repository, "Other")
    report = changed(repository / "rigs", "before..HEAD", "--stop-at", "CAUTION", status=1)
    assert [rig["path"] for rig in report["rigs"]] == ["rigs/low line ü.yaml"]


@pytest.mark.parametrize("name", ["no-such-branch", "--all", "HEAD:rigs"])
def test_a_revision_that_is_not_there_is_a_wrong_call(repository: Path, name: str) -> None:
    status, out, err = run(repository, "compare", "--", name, "HEAD")
    assert (status, out) == (2, "")
    assert f"'{name}' is not a file, a folder or a revision of this repository" in err


@pytest.mark.parametrize("call", [("rig.yaml", "shelf.yaml"), ("shelf.yaml", "rig.yaml")])
def test_a_name_typed_wrong_is_not_a_rig_taken_out(library: Path, call: tuple[str, str]) -> None:
    write(library / "rig.yaml", SOUND)
    write(library / "shelf.yaml", "riglint: shelf/1\nitems: {}\n")
    status, out, err = run(library, "compare", *call, *DAY)
    assert (status, out, err) == (2, "", "shelf.yaml is a shelf document. Name a rig.\n")
