"""Whatever is done between two calls, the second answers what would be worked out now."""

import os
import shutil
from pathlib import Path

import pytest

from tests.cli.calling import DAY, commit, git
from tests.remembered.asking import Memory
from tests.remembered.conftest import RIG, SHELF, SPOT

POLICY = "riglint: policy/1\ntitle: Ours\nvalues:\n  tail/webbing.least_tail: {} m\n"


def edit(file: Path, old: str, new: str) -> None:
    text = file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), "utf-8")


def test_same_length_and_same_time(memory: Memory, club: Path) -> None:
    before, seen = memory.fill(), (club / RIG).stat()
    edit(club / RIG, "standing_tension: 4 kN", "standing_tension: 9 kN")
    os.utime(club / RIG, ns=(seen.st_atime_ns, seen.st_mtime_ns))
    now = (club / RIG).stat()
    assert (now.st_size, now.st_mtime_ns) == (seen.st_size, seen.st_mtime_ns)
    memory.is_not_deceived(before)


def test_another_file_in_the_place_with_same_length_and_time(memory: Memory, club: Path) -> None:
    before, seen = memory.fill(), (club / RIG).stat()
    other = club.parent / "other.yaml"
    shutil.copy2(club / RIG, other)
    edit(other, "standing_tension: 4 kN", "standing_tension: 9 kN")
    os.utime(other, ns=(seen.st_atime_ns, seen.st_mtime_ns))
    other.replace(club / RIG)
    memory.is_not_deceived(before)


def test_the_gear_list_is_edited(memory: Memory, club: Path) -> None:
    before = memory.fill()
    edit(club / SHELF, "items:", "items:\n  X-1: {kind: shackle}")
    memory.is_not_deceived(before, changes=False)


def test_the_spot_is_edited(memory: Memory, club: Path) -> None:
    before = memory.fill()
    (club / SPOT).write_text("riglint: spot/1\ntitle: Nothing\nanchors: {}\n", "utf-8")
    memory.is_not_deceived(before)


def test_the_spot_is_gone(memory: Memory, club: Path) -> None:
    before = memory.fill()
    (club / SPOT).unlink()
    memory.is_not_deceived(before)


def test_a_spot_that_was_missing_appears(memory: Memory, club: Path) -> None:
    text = (club / SPOT).read_bytes()
    (club / SPOT).unlink()
    before = memory.fill() if memory.ask()[0] < 2 else memory.ask()
    (club / SPOT).write_bytes(text)
    memory.is_not_deceived(before)


def test_a_nearer_mark_file(memory: Memory, club: Path) -> None:
    before = memory.fill()
    (club / "rigs/rig-library").touch()
    memory.is_not_deceived(before)


def test_what_stands_in_the_mark_file(memory: Memory, club: Path) -> None:
    before = memory.fill()
    (club / "rig-library").write_text("anything\n", "utf-8")
    memory.is_not_deceived(before, changes=False)


def test_the_mark_file_is_gone(memory: Memory, club: Path) -> None:
    before = memory.fill()
    (club / "rig-library").unlink()
    memory.is_not_deceived(before)


def test_the_policy_is_edited(memory: Memory, club: Path) -> None:
    policy = club / "ours.yaml"
    policy.write_text(POLICY.format("0.6"), "utf-8")
    memory.call += ["--policy", "ours.yaml"]
    before = memory.fill()
    policy.write_text(POLICY.format("9.9"), "utf-8")
    memory.is_not_deceived(before)


def test_a_link_is_swapped(memory: Memory, club: Path) -> None:
    for name, tension in (("low", "4 kN"), ("high", "9 kN")):
        shutil.copy(club / RIG, club / f"rigs/{name}.yaml")
        edit(club / f"rigs/{name}.yaml", "4 kN", tension)
    link = club / "rigs/today.yaml"
    link.symlink_to("low.yaml")
    memory.call[1] = "rigs/today.yaml"
    before = memory.fill()
    link.unlink()
    link.symlink_to("high.yaml")
    memory.is_not_deceived(before)


def test_a_file_becomes_a_link_to_the_same_bytes_elsewhere(of_folder: Memory, club: Path) -> None:
    before = of_folder.fill()
    (club / RIG).rename(club.parent / "outside.yaml")
    (club / RIG).symlink_to(club.parent / "outside.yaml")
    of_folder.is_not_deceived(before)


def test_a_new_rig_in_the_folder(of_folder: Memory, club: Path) -> None:
    before = of_folder.fill()
    shutil.copy(club / RIG, club / "rigs/new.yaml")
    of_folder.is_not_deceived(before)


def test_a_rig_is_renamed(of_folder: Memory, club: Path) -> None:
    before = of_folder.fill()
    (club / RIG).rename(club / "rigs/another.yaml")
    of_folder.is_not_deceived(before)


def test_a_file_saved_under_a_name_that_is_not_read(of_folder: Memory, club: Path) -> None:
    before = of_folder.fill()
    shutil.copy(club / RIG, club / "rigs/low.yaml.txt")
    of_folder.is_not_deceived(before)


def test_a_foreign_file_becomes_a_rig(of_folder: Memory, club: Path) -> None:
    (club / "notes.yaml").write_text("# nothing\n", "utf-8")
    before = of_folder.fill()
    shutil.copy(club / RIG, club / "notes.yaml")
    of_folder.is_not_deceived(before)


@pytest.fixture
def in_git(of_folder: Memory, club: Path) -> Memory:
    git(club, "init", "-q", "-b", "main")
    (club / "drafts").mkdir()
    shutil.copy(club / RIG, club / "drafts/low.yaml")
    git(club, "add", "rig-library", "rigs", "spots", "shelf")
    git(club, "commit", "-q", "-m", "Club")
    return of_folder


def test_gitignore_is_changed(in_git: Memory, club: Path) -> None:
    before = in_git.fill()
    (club / ".gitignore").write_text("drafts/\n", "utf-8")
    in_git.is_not_deceived(before)


def test_the_index_is_changed(in_git: Memory, club: Path) -> None:
    (club / ".gitignore").write_text("drafts/\n", "utf-8")
    before = in_git.fill()
    git(club, "add", "-f", "drafts")
    in_git.is_not_deceived(before)


def test_head_is_moved(in_git: Memory, club: Path) -> None:
    before = in_git.fill()
    edit(club / RIG, "standing_tension: 4 kN", "standing_tension: 9 kN")
    commit(club, "Tighter")
    in_git.is_not_deceived(before)


def test_a_revision_is_never_remembered(in_git: Memory, club: Path) -> None:
    in_git.call += ["--revision", "HEAD"]
    before = in_git.ask()
    edit(club / RIG, "standing_tension: 4 kN", "standing_tension: 9 kN")
    commit(club, "Tighter")
    in_git.is_not_deceived(before)


def test_a_revision_to_compare_with_is_moved(in_git: Memory, club: Path) -> None:
    in_git.call = ["compare", "HEAD", ".", *DAY]
    before = in_git.ask()
    edit(club / RIG, "standing_tension: 4 kN", "standing_tension: 9 kN")
    in_git.ask()
    commit(club, "Tighter")
    in_git.is_not_deceived(before, changes=False)


def test_the_clock_is_moved_a_day(memory: Memory) -> None:
    memory.call = [one for one in memory.call if one not in DAY]
    before = memory.fill()
    # The day is where this machine is; UTC+14 and UTC-12 are never on the same one (POSIX turns the sign round).
    zones = [memory.ask(TZ=zone) for zone in ("XXX-14", "YYY+12")]
    assert zones[0] != zones[1]
    memory.is_not_deceived(before, changes=False, TZ="XXX-14")
    memory.is_not_deceived(before, changes=False, TZ="YYY+12")


def test_another_option_and_another_form(memory: Memory) -> None:
    before = memory.fill()
    for more in (["--stop-at", "NOTICE"], ["--set", "plan.standing_tension=9 kN"], ["--units", "imperial"]):
        memory.call += more
        memory.is_not_deceived(before, changes=more[0] == "--set")


def test_another_working_folder(memory: Memory, club: Path, tmp_path: Path) -> None:
    before = memory.fill()
    other = tmp_path / "other"
    shutil.copytree(club, other)
    edit(other / RIG, "standing_tension: 4 kN", "standing_tension: 9 kN")
    memory.where = other
    memory.is_not_deceived(before)


def test_a_house_rule_is_edited(memory: Memory, club: Path) -> None:
    rules = club.parent / "meadow_club"
    shutil.copytree(Path(__file__).parents[2] / "examples/house_rules/meadow_club", rules)
    memory.call += ["--house-rules", str(rules)]
    before = memory.ask()
    assert not memory.ask_again()  # rules of somebody else's may do anything: they run each time
    for rule in rules.glob("*/*.py"):
        if rule.name != "__init__.py":
            rule.write_text("nonsense(", "utf-8")
    memory.is_not_deceived(before)


def test_a_narrower_line_and_no_colour(memory: Memory) -> None:
    memory.call = memory.call[:-2]
    before = memory.fill()
    memory.is_not_deceived(before, COLUMNS="40")
    memory.is_not_deceived(before, changes=False, NO_COLOR="1")
    memory.is_not_deceived(before, changes=False, PYTHONIOENCODING="ascii")
