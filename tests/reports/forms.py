"""Audits that the tests of report forms look at: the example library, and a library in which much is odd."""

import re
from datetime import date
from pathlib import Path

from riglint.findings import Audit, audit
from riglint.rulebook import Rulebook, load_rulebook
from riglint.rulekit import Signal
from riglint.testing import BASELINES

CHECKOUT = Path(__file__).parents[2]
EXAMPLES = CHECKOUT / "examples"
ON = date(2026, 5, 2)
SOUND = (BASELINES / "low.yaml").read_text(encoding="utf-8").replace("accepted: []\n", "")
SHORT_TAIL = SOUND.replace("tail: 1 m,", "tail: 0.1 m,")
OPEN = SOUND.replace("tail: 1 m, ", "")
BROKEN = SOUND.replace("hitch: basket", "hich: basket", 1)
HOSTILE = (
    "<img src=x> | @crew #12 `x` [link](http://evil.example) www.evil.example \u202e\U0001f9d7 ]]> &amp; $a$"
)
ACCEPTED = """
accepted:
  - {rule: tail/webbing, reason: "the line is lowered tonight", role: gear keeper, until: 2026-06-01}
"""
BOOK: Rulebook = load_rulebook()
FAULTY: Audit = audit([EXAMPLES / "faulty"], BOOK, ON)
STOP = Signal.WARNING


def titled(title: str, text: str = SOUND) -> str:
    """Return a rig with another title, quoted so that YAML keeps every letter."""
    escaped = title.replace("\\", "\\\\").replace('"', '\\"')
    return re.sub(r"(?m)^title: .*$", lambda _: f'title: "{escaped}"', text, count=1)


def library_of(folder: Path, **files: str) -> Path:
    """Return a library that holds rigs by name."""
    (folder / "rig-library").touch()
    for name, text in files.items():
        (folder / f"{name}.yaml").write_text(text, encoding="utf-8")
    return folder


def audited(folder: Path, **files: str) -> Audit:
    return audit([library_of(folder, **files)], BOOK, ON)
