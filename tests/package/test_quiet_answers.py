"""The page of riglint's own quiet failures names tests that exist, and at least one in each row."""

import re

from tests.package.checkout import CHECKOUT

TESTS = CHECKOUT / "tests"
PAGE = (TESTS / "quiet_answers.md").read_text(encoding="utf-8")
ROWS = [row for row in PAGE.splitlines() if row.startswith("| ") and not row.startswith("| it could")]
NAMED = re.compile(r"`(\w+/test_\w+\.py)(?:::(test_\w+))?`")


def test_every_row_names_tests_that_exist() -> None:
    assert len(ROWS) > 50
    gone = []
    for row in ROWS:
        *_, prevents, tests, _ = row.split("|")
        assert prevents.strip(), row
        found = NAMED.findall(tests)
        assert found, row
        gone += [f"{file}::{name}" for file, name in found if not there(file, name)]
    assert gone == []


def there(file: str, name: str) -> bool:
    path = TESTS / file
    return path.is_file() and f"def {name or 'test_'}" in path.read_text(encoding="utf-8")


def test_contributors_are_led_to_it() -> None:
    assert "(tests/quiet_answers.md)" in (CHECKOUT / "DEVELOPERS.md").read_text(encoding="utf-8")
