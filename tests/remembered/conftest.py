"""A club with a line, its spot and its gear list, and an empty memory."""

from pathlib import Path

import pytest

from tests.cli.calling import DAY, club_of
from tests.remembered.asking import Memory

RIG, SPOT, SHELF = "rigs/05-park-five-to-one.yaml", "spots/willow-bank.yaml", "shelf/park.yaml"


@pytest.fixture
def club(tmp_path: Path) -> Path:
    folder = tmp_path / "club"
    folder.mkdir()
    return club_of(folder, RIG, SPOT, SHELF)


@pytest.fixture
def memory(tmp_path: Path, club: Path) -> Memory:
    """A memory, and the audit of the club's rig."""
    return Memory(tmp_path / "cache", club, ["audit", RIG, *DAY, "--format", "json"])


@pytest.fixture
def of_folder(memory: Memory) -> Memory:
    """A memory, and the audit of the whole club."""
    memory.call = ["audit", ".", *DAY, "--format", "json"]
    return memory
