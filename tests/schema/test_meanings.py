"""Every word of a closed list has a meaning that editors and the page of the formats show."""

from typing import Any, get_args

import pytest

from riglint.model.schema import MODELS, schema_of
from riglint.model.vocabulary import words
from riglint.model.vocabulary.meanings import MEANINGS
from riglint.reports.rules.format_page import format_page

LISTS = [name for name in vars(words) if name[0].isupper() and get_args(getattr(words, name))]


def words_of(closed: Any) -> list[str]:
    return [word for one in get_args(closed) for word in ([one] if isinstance(one, str) else words_of(one))]


@pytest.mark.parametrize("name", LISTS)
def test_every_word_has_a_meaning(name: str) -> None:
    assert set(MEANINGS[name]) == set(words_of(getattr(words, name)))


@pytest.mark.parametrize("kind", MODELS)
def test_schemas_say_what_words_mean(kind: str) -> None:
    for closed in enums(schema_of(kind)):
        known = [word for word in closed["enum"] if word and not word.endswith("/1")]
        if known:
            assert len(closed["enumDescriptions"]) == len(closed["enum"]), closed


def enums(node: Any) -> list[dict[str, Any]]:
    if isinstance(node, dict):
        return ([node] if "enum" in node else []) + [one for value in node.values() for one in enums(value)]
    return [one for value in node for one in enums(value)] if isinstance(node, list) else []


def test_the_page_shows_each_meaning() -> None:
    page = format_page()
    assert "| part kind | `sewn_end` | sewn loop, or another stitched end of the webbing |" in page
