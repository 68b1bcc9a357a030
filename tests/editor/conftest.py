"""What the tests of the editor's server start from: the example library, copied, and a server that is ended after."""

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests.editor.client import CHECKOUT, Editor


@pytest.fixture
def library(tmp_path: Path) -> Path:
    """The example library in a folder that no other library holds."""
    folder = tmp_path / "club"
    shutil.copytree(CHECKOUT / "examples", folder)
    return folder


@pytest.fixture
def start() -> Iterator[Callable[..., Editor]]:
    """Start servers; each must end as the protocol asks, without a word on standard error."""
    editors: list[Editor] = []

    def started(*options: str, encodings: tuple[str, ...] = ()) -> Editor:
        editors.append(Editor(*options, encodings=encodings))
        return editors[-1]

    yield started
    for editor in editors:
        if editor.process.poll() is None:
            assert editor.leave() == (0, "")


@pytest.fixture(scope="module")
def editor() -> Iterator[Editor]:
    """One server for all tests that ask nothing special of it; each has files of its own."""
    started = Editor()
    yield started
    assert started.leave() == (0, "")
