"""The page of file formats: as it is today, every key of the published schemas in it, every link with its heading."""

import json
import re
from collections.abc import Iterator
from typing import Any, get_args

from riglint.model.vocabulary.words import GearKind
from riglint.read.units import UNITS
from riglint.reports.rules.format_page import format_page
from tests.package.checkout import CHECKOUT

SCHEMAS = CHECKOUT / "schemas"
PAGE = (SCHEMAS / "README.md").read_text(encoding="utf-8")


def keys_and_words(schema: Any) -> Iterator[str]:
    """Yield every key and every word of a closed list that a schema names."""
    if isinstance(schema, dict):
        yield from schema.get("properties", {})
        yield from (one for one in schema.get("enum", []) if isinstance(one, str))
        for part in schema.values():
            yield from keys_and_words(part)
    elif isinstance(schema, list):
        for part in schema:
            yield from keys_and_words(part)


def test_it_is_not_stale() -> None:
    assert format_page() == PAGE, "run python -m riglint.reports.rules.format_page"


def test_every_key_and_word_of_the_schemas_is_told() -> None:
    files = sorted(SCHEMAS.glob("*.schema.json"))
    assert len(files) == 6
    named = {one for file in files for one in keys_and_words(json.loads(file.read_text(encoding="utf-8")))}
    assert len(named) > 200
    assert sorted(one for one in named if f"`{one}`" not in PAGE) == []


def test_every_kind_of_gear_and_every_unit_is_told() -> None:
    words = [*get_args(GearKind), *(unit for units in UNITS.values() for unit in units)]
    assert [one for one in words if f"`{one}`" not in PAGE] == []


def test_every_link_has_its_heading() -> None:
    headings = {
        re.sub(r"[^\w -]", "", line.lstrip("# ")).lower().replace(" ", "-")
        for line in PAGE.splitlines()
        if line.startswith("#")
    }
    links = set(re.findall(r"\]\(#([\w-]+)\)", PAGE))
    assert len(links) > 20
    assert links - headings == set()
    files = set(re.findall(r"\]\(([\w.-]+\.json)\)", PAGE))
    assert files == {file.name for file in SCHEMAS.glob("*.json")}
