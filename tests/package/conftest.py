"""What several tests of the package need: the wheel, built once."""

import sys
from pathlib import Path

import pytest

from tests.package.checkout import copy_sources, started


@pytest.fixture(scope="session")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build from a copy: a build leaves nothing in the checkout."""
    source, dist = tmp_path_factory.mktemp("source"), tmp_path_factory.mktemp("dist")
    copy_sources(source)
    call = [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(dist), str(source)]
    result = started(call, dist)
    assert result.returncode == 0, result.stdout
    (built,) = dist.glob("*.whl")
    return built
