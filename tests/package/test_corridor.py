"""The import contracts hold, and each of them notices what it is there for."""

from pathlib import Path

import pytest

from tests.package.checkout import CHECKOUT, copy_sources, program, started

CORRIDOR = "The corridor: a room imports only from the rooms below it"
NUMBERS = "Mechanics knows numbers only"
RULEKIT = "A rule sees riglint.rulekit and nothing else"
APART = "Rules do not import each other"
WRITERS = "Reports write what a view holds and compute nothing"
RUN_TIME = "What only the tests need is never imported at run time"

VIOLATIONS = [
    ("riglint/mechanics/rope/friction.py", "import riglint.model.documents.gear", NUMBERS),
    ("riglint/mechanics/rope/friction.py", "from riglint.loadpath import Placed", NUMBERS),
    ("riglint/mechanics/rope/friction.py", "from riglint.read.quantity import Quantity", NUMBERS),
    ("riglint/mechanics/rope/friction.py", "import yaml", NUMBERS),
    ("riglint/mechanics/rope/friction.py", "import riglint.loads", CORRIDOR),
    ("riglint/read/quantity.py", "import riglint.model.documents.gear", CORRIDOR),
    ("riglint/loadpath/path.py", "import riglint.mechanics.span.line", CORRIDOR),
    ("riglint/loads/haul/pulleys.py", "def late() -> None:\n    import riglint.rulekit", CORRIDOR),
    ("riglint/rulekit/rules.py", "import riglint.findings", CORRIDOR),
    ("riglint/shed.py", '"""A room that stands nowhere in the corridor."""', CORRIDOR),
    ("riglint/loads/haul/pulleys.py", "import numpy", RUN_TIME),
    ("riglint/views/figures.py", "import riglint.reports.layout.spans", CORRIDOR),
    ("riglint/findings/finding.py", "import riglint.views.figures", CORRIDOR),
    ("riglint/reports/sheet/text.py", "from riglint.loads import Loads", WRITERS),
    ("riglint/reports/sheet/json_report.py", "from riglint.loads.inputs import known", WRITERS),
    ("riglint/reports/gauge/text.py", "import riglint.mechanics.span.line", WRITERS),
    (
        "riglint/reports/drawing/chain.py",
        "def late() -> None:\n    from riglint.loadpath import Placed",
        WRITERS,
    ),
    ("riglint/reports/audit/html.py", "from riglint.loads.inputs import known", WRITERS),
    ("rules/tail/webbing.py", "import riglint.loads", RULEKIT),
    ("rules/tail/webbing.py", "from riglint.mechanics.span.line import Line", RULEKIT),
    ("rules/tail/webbing.py", "import pydantic", RULEKIT),
    ("rules/tail/webbing.py", "import rules.tail.invented", APART),
]


def contracts(where: Path) -> str:
    """Return what the contracts say of a copy, or nothing if all are kept."""
    result = started([program("lint-imports"), "--no-cache", "--no-logo"], where)
    if "kept" not in result.stdout:  # no verdict at all is no pass
        return f"the contracts were not checked: {result.stdout}"
    return "" if result.returncode == 0 else result.stdout


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    copy_sources(tmp_path, ("riglint", "rules", "pyproject.toml"))
    (tmp_path / "rules/tail/invented.py").write_text('"""Another rule."""\n', encoding="utf-8")
    return tmp_path


def test_an_untouched_copy_keeps_them(copy: Path) -> None:
    assert contracts(copy) == ""


@pytest.mark.parametrize(("file", "code", "contract"), VIOLATIONS)
def test_a_violation_is_seen(copy: Path, file: str, code: str, contract: str) -> None:
    with (copy / file).open("a", encoding="utf-8") as stream:
        stream.write(f"\n{code}\n")
    assert f"{contract} BROKEN" in contracts(copy)


def test_every_family_of_rules_is_seen() -> None:
    # Without its __init__.py a family loads all the same, and the contracts pass it over.
    families = {file.parent for file in (CHECKOUT / "rules").glob("*/*.py")}
    assert families
    assert [str(family) for family in families if not (family / "__init__.py").is_file()] == []
