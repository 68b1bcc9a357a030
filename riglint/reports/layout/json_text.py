"""JSON as reports print it: letters that cannot be seen stand by their number, and read back as what they are."""

from __future__ import annotations

import json
import re
from typing import Any

from riglint.read.problems import HIDDEN, UNSEEN, command_escaped

_RAW = re.compile(f"{HIDDEN.pattern}|{UNSEEN.pattern}")


def six_digits(value: float | None) -> float | None:
    """Return a figure as far as anybody reads it; None for what is not known."""
    return None if value is None else float(f"{value:.6g}")


def json_text(data: Any) -> str:
    """Return data as JSON, one value a line."""
    text = json.dumps(data, indent=1, ensure_ascii=False) + "\n"
    return command_escaped(_RAW.sub(lambda found: json.dumps(found[0])[1:-1], text), r"\u0023")
