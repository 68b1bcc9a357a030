"""The commit hook, for real: a rig library under Git, a hook runner, and commits that pass or do not.

The hook runner builds an environment of its own and needs the package index for it; without one, these tests
are skipped and say so.
"""

import sys
from copy import deepcopy
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
import yaml

from riglint.rulekit import faulty
from riglint.testing import edited
from tests.package.checkout import CHECKOUT, copy_sources, program, started

RELEASE = "v0.0.1"
SOUND = edited(faulty("low"))
FAULTY = edited(faulty("low", {"chain[4].tail_tied": False, "chain[8].brake.locked": False}))
FOREIGN = "jobs:\n  - on: push\n  - tail: none\n"


@dataclass(frozen=True)
class Repository:
    """A Git repository in a folder of the test's own."""

    folder: Path
    cache: Path

    def run(self, *call: str) -> tuple[int, str]:
        identity = {
            f"GIT_{role}_{what}": "nobody" for role in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")
        }
        apart = {
            "GIT_CONFIG_GLOBAL": "/dev/null",
            "GIT_CONFIG_SYSTEM": "/dev/null",
            "PRE_COMMIT_HOME": str(self.cache),
        }
        result = started(call, self.folder, **identity, **apart)
        return result.returncode, result.stdout

    def must(self, *call: str) -> str:
        status, said = self.run(*call)
        assert status == 0, said
        return said

    def commit(self, name: str, text: str) -> tuple[int, str]:
        """Write a file and commit it, with whatever hooks are installed."""
        file = self.folder / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8")
        self.must("git", "add", "--all")
        return self.run("git", "commit", "--quiet", "--message", name)

    def accepts(self, name: str, text: str) -> None:
        """Commit, and see that the hook ran and let it pass."""
        status, said = self.commit(name, text)
        assert status == 0, said
        assert said.endswith("Passed\n"), said

    def commits(self) -> int:
        return int(self.must("git", "rev-list", "--count", "HEAD"))


def index_answers() -> bool:
    """Ask the package index for what the hook's environment needs first."""
    call = [sys.executable, "-m", "pip", "install", "--dry-run", "--ignore-installed", "--no-deps", "--quiet"]
    return started([*call, "--retries", "1", "--timeout", "10", "hatchling"], CHECKOUT).returncode == 0


@pytest.fixture(scope="module")
def release(tmp_path_factory: pytest.TempPathFactory) -> Repository:
    """Return a repository that holds this checkout, as it is now, as a tagged release."""
    if not index_answers():
        pytest.skip("the package index does not answer: the commit hook was NOT tried")
    folder, cache = tmp_path_factory.mktemp("release"), tmp_path_factory.mktemp("cache")
    copy_sources(folder)
    repository = Repository(folder, cache)
    repository.must("git", "init", "--quiet", "--template=")
    repository.must("git", "add", "--all")
    repository.must("git", "commit", "--quiet", "--message", "release")
    repository.must("git", "tag", RELEASE)
    return repository


@pytest.fixture(params=["riglint", "riglint-library"])
def hook(request: pytest.FixtureRequest) -> str:
    name: str = request.param
    return name


@pytest.fixture
def club(hook: str, release: Repository, tmp_path: Path) -> Repository:
    """Return an empty rig library with one of our hooks installed; the hooks share one environment."""
    made = Repository(tmp_path, release.cache)
    made.must("git", "init", "--quiet")
    config = {"repos": [{"repo": release.folder.as_uri(), "rev": RELEASE, "hooks": [{"id": hook}]}]}
    (tmp_path / ".pre-commit-config.yaml").write_text(yaml.safe_dump(config), encoding="utf-8")
    made.must(program("pre-commit"), "install", "--install-hooks")
    return made


def test_a_club_commits(club: Repository, hook: str) -> None:
    club.accepts("foreign.yaml", FOREIGN)
    club.accepts("rigs/sound.yaml", SOUND)
    assert club.commits() == 2

    status, said = club.commit("rigs/faulty.yaml", FAULTY)
    assert status == 1, said
    assert "- exit code: 1" in said  # findings, not a crash or an unread file
    assert "rigs/faulty.yaml" in said
    assert "tail" in said
    assert ("rigs/sound.yaml" in said) == (hook == "riglint-library")
    assert club.commits() == 2

    club.accepts("rigs/faulty.yaml", SOUND)
    assert club.commits() == 3


def shared(club: Repository, shelf: str = "shelf.yaml", rig: str = "rigs/shared.yaml") -> dict[str, Any]:
    """Commit a rig and the shelf that it refers to; return what stands on the shelf."""
    data = yaml.safe_load(SOUND)
    items: dict[str, Any] = data["shelf"][0]["items"]
    data["shelf"] = [f"../{shelf}"]
    (club.folder / shelf).write_text(on_shelf(items), encoding="utf-8")
    club.accepts(rig, yaml.safe_dump(data, sort_keys=False, width=1000, allow_unicode=True))
    return items


def on_shelf(items: dict[str, Any]) -> str:
    return yaml.safe_dump({"riglint": "shelf/1", "items": items}, sort_keys=False)


@pytest.mark.parametrize(
    ("shelf", "rig"),
    [("shelf.yaml", "rigs/shared.yaml"), ("Gerät №2 \U0001f9d7.yaml", "rigs/Lärche am Übergang.yaml")],
)
def test_a_changed_shelf_stops_the_rig_outside_the_commit(club: Repository, shelf: str, rig: str) -> None:
    items = shared(club, shelf, rig)
    items["W-1"]["mbs"] = "5 kN"
    status, said = club.commit(shelf, on_shelf(items))
    assert status == 1, said
    assert "- exit code: 1" in said
    assert rig in said
    assert club.commits() == 1

    items["W-1"]["mbs"] = "48 kN"
    club.accepts(shelf, on_shelf(items))


def test_a_rig_that_does_not_refer_to_the_changed_shelf_is_left_alone(club: Repository, hook: str) -> None:
    items = shared(club)
    club.must(
        "git", "commit", "--quiet", "--no-verify", "--allow-empty", "--message", "so that one can be forced"
    )
    (club.folder / "rigs/faulty.yaml").write_text(FAULTY, encoding="utf-8")
    club.must("git", "add", "--all")
    club.must("git", "commit", "--quiet", "--no-verify", "--message", "forced")
    status, said = club.commit("shelf.yaml", on_shelf(items | {"W-99": deepcopy(items["W-1"])}))
    assert ("rigs/faulty.yaml" in said) == (hook == "riglint-library")
    assert status == (1 if hook == "riglint-library" else 0), said


def test_a_deleted_shelf_stops_the_rig_that_refers_to_it(club: Repository, hook: str) -> None:
    """The runner names no deleted file and skips a hook without files, so the hook for the whole library is not run."""
    shared(club)
    club.must("git", "rm", "--quiet", "shelf.yaml")
    status, said = club.run("git", "commit", "--quiet", "--message", "without its shelf")
    if hook == "riglint-library":
        assert (status, "Skipped" in said) == (0, True), said
        return
    assert status == 1, said
    assert "- exit code: 2" in said
    assert "rigs/shared.yaml" in said
    assert club.commits() == 1


def test_committed_names_that_are_options_change_nothing(club: Repository) -> None:
    """Neither policy nor code nor output may come from where file names come from."""
    policy = "riglint: policy/1\ntitle: Nobody's\noff:\n"
    policy += "".join(
        f"  - {{rule: {rule}, because: a file name asked for it}}\n"
        for rule in ("tail/webbing", "haul/brake_locked")
    )
    ran = club.folder / "RAN"
    rule = f"from pathlib import Path\nPath({str(ran)!r}).write_text('ran')\n"
    club.accepts("foreign.yaml", FOREIGN)
    for name, text in (
        ("p.yaml", policy),
        ("--policy=p.yaml", SOUND),
        ("a.yaml/tail/own.py", rule),
        ("--house-rules=a.yaml", SOUND),
        ("--output=rigs/faulty.yaml", SOUND),
        ("--write=json=rigs/faulty.yaml", SOUND),
    ):
        (club.folder / name).parent.mkdir(parents=True, exist_ok=True)
        (club.folder / name).write_text(text, encoding="utf-8")
    status, said = club.commit("rigs/faulty.yaml", FAULTY)
    assert status == 1, said
    assert "- exit code: 1" in said
    assert "rigs/faulty.yaml" in said
    assert (club.folder / "rigs/faulty.yaml").read_text(encoding="utf-8") == FAULTY
    assert not ran.exists()
    assert club.commits() == 1
