"""Style, types and layers are checked with the tests, so that one command is all there is to run."""

import sys

import pytest

from tests.package.checkout import CHECKOUT, program, started

PYTHON = sys.executable
CHECKS = {
    "lint": [PYTHON, "-m", "ruff", "check", "--output-format", "concise"],
    "layout": [PYTHON, "-m", "ruff", "format", "--check"],
    "types": [PYTHON, "-m", "mypy"],
    "layers": [program("lint-imports"), "--no-logo"],
}


@pytest.mark.parametrize("name", CHECKS)
def test_the_checkout_passes(name: str) -> None:
    result = started(CHECKS[name], CHECKOUT)
    assert result.returncode == 0, result.stdout
