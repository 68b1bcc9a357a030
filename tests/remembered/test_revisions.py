"""Content of git: what is staged and what a revision holds is judged as it is, whatever was remembered of it.

The calls that are asked again may take out only a few files and remember the rest; `afresh` takes out every file.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.cli.calling import DAY, club_of, commit, git
from tests.remembered.asking import Memory
from tests.remembered.conftest import RIG, SHELF, SPOT

OTHER, ITS_SPOT = "rigs/06-trickline.yaml", "spots/fairground.yaml"
HOOK = ["audit", "--revision", "staged", "--if-any", "--with-rigs", *DAY, "--format", "json", "--"]
POLICY = "riglint: policy/1\ntitle: Ours\nvalues: {tail/webbing.least_tail: 9 m}\n"


@pytest.fixture
def hook(memory: Memory, club: Path) -> Memory:
    """A memory, and what a hook asks of a commit that changes one rig."""
    club_of(club, OTHER, ITS_SPOT)
    git(club, "init", "-q", "-b", "main")
    git(club, "config", "core.autocrlf", "false")
    commit(club, "A club's rigs")
    retitle(club / RIG, "Staged")
    git(club, "add", "-A")
    memory.call = [*HOOK, RIG]
    return memory


def retitle(file: Path, title: str) -> None:
    text = file.read_text("utf-8")
    head, _, rest = text.partition("\ntitle: ")
    file.write_text(f"{head}\ntitle: {title}\n{rest.partition(chr(10))[2]}", "utf-8")


def stage(club: Path, file: str, text: str) -> None:
    """Put a text into the index alone, and not into the folder."""
    name = git(club, "hash-object", "-w", "--stdin", given=text.encode())
    git(club, "update-index", "--add", "--cacheinfo", f"100644,{name},{file}")


def in_index_alone(file: str, old: str, new: str) -> Callable[[Path], object]:
    def change(club: Path) -> None:
        text = (club / file).read_text("utf-8")
        assert old in text
        stage(club, file, text.replace(old, new))

    return change


def staged(file: str, text: str) -> Callable[[Path], object]:
    """Write a file and stage it."""

    def change(club: Path) -> None:
        (club / file).parent.mkdir(parents=True, exist_ok=True)
        (club / file).write_text(text, "utf-8")
        git(club, "add", "-A")

    return change


def several(*changes: Callable[[Path], object]) -> Callable[[Path], object]:
    def change(club: Path) -> None:
        for one in changes:
            one(club)

    return change


def by_git(*call: str) -> Callable[[Path], object]:
    return lambda club: git(club, *call)


def sets(*rows: str) -> Callable[[Path], object]:
    """Let the mark file set something, as it is staged."""
    return staged("rig-library", "\n".join(["riglint: library/1", *rows, ""]))


def merged(club: Path) -> None:
    """Begin a merge that changes what the rig rests on."""
    git(club, "commit", "-q", "-m", "One side")
    git(club, "checkout", "-q", "-b", "other", "HEAD~1")
    text = (club / SHELF).read_text("utf-8")
    (club / SHELF).write_text(text.replace("mbs: 40 kN", "mbs: 4 kN"), "utf-8")
    commit(club, "Other side")
    git(club, "checkout", "-q", "main")
    git(club, "merge", "-q", "--no-commit", "--no-ff", "other")


def another_repository(club: Path) -> None:
    git(club, "commit", "-q", "-m", "So far")
    (club / ".git").rename(club.parent / "away")
    git(club, "init", "-q")
    (club / SPOT).unlink()
    git(club, "add", "-A")


def unseen_change(club: Path) -> None:
    """Change a file that git was told not to look at, in the index."""
    git(club, "update-index", "--skip-worktree", SPOT)
    in_index_alone(SPOT, "girth", "girth_at_no_height")(club)
    git(club, "update-index", "--skip-worktree", SPOT)


def linked(club: Path) -> None:
    (club / "rigs/link.yaml").symlink_to(club / OTHER)
    git(club, "add", "-A")


CHANGES = {
    "the rig, in the index alone": in_index_alone(RIG, "standing_tension: 4 kN", "standing_tension: 9 kN"),
    "the gear list, in the index alone": in_index_alone(SHELF, "mbs: 40 kN", "mbs: 14 kN"),
    "the gear list goes and stays in the folder": by_git("rm", "-q", "--cached", SHELF),
    "the spot goes": by_git("rm", "-q", SPOT),
    "the spot is renamed": by_git("mv", SPOT, "spots/other.yaml"),
    "the spot is a folder now": several(
        by_git("rm", "-q", "--cached", SPOT), lambda club: stage(club, f"{SPOT}/a.yaml", "riglint: spot/1\n")
    ),
    "the other rig is broken": in_index_alone(OTHER, "spot: ", "spot: ["),
    "another rig refers to what is gone": in_index_alone(OTHER, ITS_SPOT, "spots/nowhere.yaml"),
    "another rig refers to the changed rig": in_index_alone(
        OTHER, f"../{ITS_SPOT}", "05-park-five-to-one.yaml"
    ),
    "another rig leads out of the repository": in_index_alone(OTHER, f"../{ITS_SPOT}", "../../../none.yaml"),
    "a name that no file can have": in_index_alone(OTHER, f"../{ITS_SPOT}", "x" * 300),
    "a nearer mark": several(staged("rigs/rig-library", "")),
    "the mark names a policy": several(staged("ours.yaml", POLICY), sets("policy: ours.yaml")),
    "the mark leaves out folders": sets("leave_out: [{path: rigs/06*, because: an old one}]"),
    "the mark is broken": sets("nonsense: 1"),
    "a link": linked,
    "a hidden rig": several(
        staged(".old/rigs/a.yaml", "riglint: rig/1\ntitle: Old\nspot: ../spots/nowhere.yaml\n")
    ),
    "a rig that refers to nothing there": staged(
        "more/a.yaml", "riglint: rig/1\ntitle: New\nspot: ../spots/nowhere.yaml\n"
    ),
    "a rig saved under another name": staged("rigs/low.yaml.txt", "riglint: rig/1\ntitle: Low\n"),
    "two branches": merged,
    "another repository": another_repository,
    "a file that git does not look at": unseen_change,
    "line ends and filters": several(
        staged(".gitattributes", "*.yaml text eol=crlf filter=none\n"), by_git("add", "--renormalize", ".")
    ),
}
SAME = {  # the answer stays, though something did change
    "the rig, in the folder alone": lambda club: retitle(club / RIG, "In the folder alone"),
    "a gear list that is not staged": lambda club: (club / "shelf/new.yaml").write_text(
        "riglint: shelf/1\n", "utf-8"
    ),
    "the folder is empty": lambda club: [(club / one).unlink() for one in (RIG, SPOT, SHELF)],
    "what is stored is packed": by_git("gc", "-q"),
    "a file of somebody else": staged("notes.txt", "Bring water.\n"),
}
ALSO_SAME = {
    "line ends and filters",
    "a hidden rig",
    "a link",
    "a name that no file can have",
    "a rig saved under another name",
    "the mark leaves out folders",
    "the other rig is broken",
}


@pytest.mark.parametrize("change", CHANGES)
def test_what_is_staged_is_judged_as_it_is(hook: Memory, club: Path, change: str) -> None:
    before = hook.fill()
    CHANGES[change](club)
    hook.is_not_deceived(before, changes=change not in ALSO_SAME)


@pytest.mark.parametrize("change", SAME)
def test_what_is_not_staged_changes_nothing(hook: Memory, club: Path, change: str) -> None:
    before = hook.fill()
    SAME[change](club)
    hook.is_not_deceived(before, changes=False)
    assert hook.ask() == before


@pytest.mark.parametrize(
    "names",
    [
        (SHELF,),
        (SPOT,),
        (RIG, OTHER),
        ("rigs",),
        ("spots/gone.yaml",),
        ("rigs/gone.yaml", SHELF),
        (),
        ("rig-library",),
    ],
)
def test_whatever_a_hook_names_a_few_files_tell_the_same_as_all(
    hook: Memory, club: Path, names: tuple[str, ...]
) -> None:
    hook.call = [*HOOK, *names]
    assert hook.ask() == hook.afresh()
    in_index_alone(SHELF, "mbs: 40 kN", "mbs: 14 kN")(club)
    assert hook.ask() == hook.afresh()
    assert hook.ask() == hook.afresh()


def test_what_settings_name_is_among_the_few_files(hook: Memory, club: Path) -> None:
    known = "riglint: known/1\nknown: []\n"
    several(
        staged("ours.yaml", POLICY),
        staged("known.yaml", known),
        sets("policy: ours.yaml", "known: known.yaml"),
    )(club)
    commit(club, "Settings")
    retitle(club / RIG, "Once more")
    git(club, "add", "-A")
    before = hook.fill()
    in_index_alone("ours.yaml", "9 m", "8 m")(club)
    hook.is_not_deceived(before)


def test_the_commit_is_made(hook: Memory, club: Path) -> None:
    """What a commit does to settings is told against the last one, so the last one counts as well."""
    staged("rig-library", "# ours\n")(club)
    before = hook.fill()
    git(club, "commit", "-q", "-m", "A line")
    hook.is_not_deceived(before)


def test_another_index(hook: Memory, club: Path) -> None:
    """A commit of single files has an index of its own; git names it to the hook."""
    before = hook.fill()
    (club.parent / "index").write_bytes((club / ".git/index").read_bytes())
    in_index_alone(RIG, "standing_tension: 4 kN", "standing_tension: 9 kN")(club)
    hook.is_not_deceived(before)
    hook.is_not_deceived(before, changes=False, GIT_INDEX_FILE=str(club.parent / "index"))


def test_a_revision_by_a_name_that_moves(hook: Memory, club: Path) -> None:
    hook.call[hook.call.index("staged")] = "HEAD"
    before = hook.fill()
    git(club, "commit", "-q", "-m", "A line")
    hook.is_not_deceived(before)


def test_a_revision_in_a_comparison(hook: Memory, club: Path) -> None:
    hook.call = ["compare", "HEAD", "staged", *DAY]
    before = hook.fill()
    in_index_alone(RIG, "standing_tension: 4 kN", "standing_tension: 9 kN")(club)
    hook.is_not_deceived(before)


def test_a_damaged_record_of_what_refers_to_what(hook: Memory, club: Path) -> None:
    hook.fill()
    (record,) = (hook.cache / "riglint").glob("*.refers")
    raw = record.read_bytes()
    for text in (raw.replace(b"willow", b"fallow"), raw[:-1], b"", b"nonsense"):
        record.write_bytes(text)
        hook.call = [*HOOK, SPOT]
        in_index_alone(SPOT, "girth", f"girth_{len(text)}")(club)
        assert hook.ask() == hook.afresh()


def test_the_moment_of_a_commit_does_not_count(hook: Memory) -> None:
    before = hook.fill()
    assert hook.ask(GIT_AUTHOR_DATE="@1790000000 +0000") == before
    assert hook.remembered


def test_nothing_is_left_behind(hook: Memory, tmp_path: Path) -> None:
    room = tmp_path / "room"
    room.mkdir()
    hook.ask(TMPDIR=str(room))
    assert list(room.iterdir()) == []
