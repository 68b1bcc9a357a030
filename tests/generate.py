"""Writes every text that is made from code anew: `python -m tests.generate`.

With `--golden` it writes the reports that were read through, too. Tests compare each of them. Read the difference
before you commit: it is what people will read. Pictures need Chromium and have a command of their own,
`python -m tests.pictures`.
"""

import os
import subprocess
import sys

from riglint.model.schema import write_schemas
from riglint.reports.rules import format_page, hazard_table, pages
from riglint.rulebook import shipped
from tests.faults import __main__ as seeded_faults

GOLDEN = ("tests/golden", "tests/reports/test_card.py", "tests/broken")


def main() -> None:
    """Write all, in an order in which none rests on one that comes later."""
    pages.main()  # seals the rule files: what follows loads them
    write_schemas(shipped("schemas"))
    format_page.main()
    hazard_table.main()
    seeded_faults.main()
    if "--golden" in sys.argv[1:]:
        call = [sys.executable, "-m", "pytest", "-q", "-n", "auto", *GOLDEN]
        subprocess.run(
            call, env={**os.environ, "UPDATE_GOLDEN": "1"}, check=False
        )  # red where it wrote: read the difference


if __name__ == "__main__":
    main()
