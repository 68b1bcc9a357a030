"""A rule is one file: nothing else knows it by its id, no page counts the rules, few files change with a new one."""

import ast
import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from riglint.reports.rules.hazard_table import hazard_table
from riglint.reports.rules.pages import head_page
from riglint.rulebook import Rulebook, load_rulebook
from tests.package.checkout import CHECKOUT

BOOK = load_rulebook()


def texts(file: Path) -> Iterator[str]:
    """Yield all texts of a module that stand for themselves."""
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.value


def test_no_module_of_riglint_knows_a_rule_by_its_id() -> None:
    files = sorted((CHECKOUT / "riglint").rglob("*.py"))
    assert [(file.name, text) for file in files for text in texts(file) if text in BOOK.rules] == []


def test_no_page_counts_the_rules() -> None:
    pages_read = [*CHECKOUT.glob("*.md"), *CHECKOUT.glob("*/**/*.md")]
    own = [
        page
        for page in pages_read
        if not any(part.startswith(".") for part in page.relative_to(CHECKOUT).parts)
    ]
    counted = re.compile(rf"\b{len(BOOK.rules)} rules\b")
    assert [page.name for page in own if counted.search(page.read_text(encoding="utf-8"))] == []


def test_a_new_rule_changes_no_other_page() -> None:
    """By hand its file, a seeded fault and the changelog; anew the seal, the tables of hazards, and what it says."""
    more = Rulebook({**BOOK.rules, "haul/more": replace(BOOK.rules["haul/brake_locked"], title="One more")})
    assert head_page(more) == head_page(BOOK)
    assert hazard_table(more) != hazard_table(BOOK)
