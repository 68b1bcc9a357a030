"""The kept corpus, and a few seconds of every target; `python -m tests.fuzz` is the long run."""

import json
import time
from collections.abc import Iterator
from pathlib import Path
from random import Random

import pytest

from tests.fuzz.__main__ import CORPUS, tried_out
from tests.fuzz.making import TARGETS
from tests.fuzz.trying import leave_editor, loaded_once

SECONDS = 2.0  # for each target
KEPT = sorted(CORPUS.glob("*.json"))


@pytest.fixture(scope="module", autouse=True)
def _by_loaded_rules() -> Iterator[None]:
    with loaded_once():
        yield
    leave_editor()


@pytest.mark.parametrize("file", KEPT, ids=lambda file: file.stem)
def test_what_once_broke_something_breaks_nothing(file: Path) -> None:
    assert tried_out(json.loads(file.read_text(encoding="utf-8"))) == ""


@pytest.mark.parametrize("target", TARGETS)
def test_no_input_breaks_anything(target: str) -> None:
    ends = time.monotonic() + SECONDS
    for number in range(1_000_000):
        given = TARGETS[target](Random(f"suite {target} {number}"))  # noqa: S311 - the same each time
        assert tried_out(given) == "", json.dumps(given)[:2000]
        if time.monotonic() > ends:
            break


def test_every_target_has_something_in_the_corpus() -> None:
    assert {file.stem.partition("-")[0] for file in KEPT} == set(TARGETS)
