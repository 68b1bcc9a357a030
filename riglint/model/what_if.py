"""Other values than a rig file has, for one run: the file stays as it is, and the report says so."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from riglint.model.changed import value_at
from riglint.model.sentences import Key
from riglint.read.document import Document
from riglint.read.problems import shown
from riglint.read.yaml_text import read_yaml
from riglint.records import dataclass

STEP = r"(?P<name>[^.\[\]]+)|\[(?P<number>[0-9]{1,4})\]"  # compiled when it is first asked for
KEY = r"[^.\[\]]+(?:\.[^.\[\]]+|\[[0-9]{1,4}\])*"


class WhatIfError(ValueError):
    """A value that cannot be set: one sentence."""


@dataclass(frozen=True, slots=True)
class WhatIf:
    """One value to take instead of the file's."""

    key_text: str
    key: Key
    value: Any
    text: str

    def sentence(self, document: Document | None) -> str:
        """Say what is taken, and what the file has."""
        old = value_at(document.data, self.key) if document is not None else None
        has = (
            "doesn't say"
            if old is None
            else f"says {old}"
            if not isinstance(old, dict | list)
            else "says otherwise"
        )
        return f"What if: {self.key_text} is {self.text} (the file {has}). The file itself is unchanged."


def what_if(given: str) -> WhatIf:
    """Return the value that `KEY=VALUE` sets, the value written as in a file.

    Raises:
        WhatIfError: it is written otherwise.

    >>> what_if("plan.standing_tension=5 kN").key
    ('plan', 'standing_tension')
    """
    key, equals, text = given.partition("=")
    if not equals or not re.fullmatch(KEY, key.strip()):
        raise WhatIfError(
            f"{shown(given)} names no key and value. Write such as plan.standing_tension='5 kN'."
        )
    document, problems = read_yaml(f"value: {text.strip()}\n".encode(), "--set")
    if problems:
        raise WhatIfError(
            f"{shown(text.strip())} can't be read as a value. Write it as in a rig file, such as 5 kN."
        )
    value = document.data["value"] if document is not None else None
    return WhatIf(key.strip(), key_of(key.strip()), value, text.strip())


def key_of(text: str) -> Key:
    """Return a key as it is written in reports, step by step.

    >>> key_of("plan.users[0].mass")
    ('plan', 'users', 0, 'mass')
    """
    return tuple(int(one["number"]) if one["number"] else one["name"] for one in re.finditer(STEP, text))


def with_values(document: Document, values: tuple[WhatIf, ...]) -> Document:
    """Return a document with other values in it; each stands where the one stands that it replaces.

    Raises:
        WhatIfError: the file has nothing that could hold one of them.
    """
    for one in values:
        document = replace(document, data=_with(document.data, one.key, one))
    return document


def _with(data: Any, key: Key, one: WhatIf) -> Any:
    if not key:
        return one.value
    first, rest = key[0], key[1:]
    fits = isinstance(data, list) and isinstance(first, int) and first < len(data)
    if not fits and not (isinstance(data, dict) and isinstance(first, str)):
        raise WhatIfError(
            f"{one.key_text} isn't in this file: nothing there can hold {shown(str(first))}. You "
            "can only set values of the rig file itself."
        )
    changed: Any = list(data) if isinstance(data, list) else dict(data)
    held = data[first] if fits or first in data else {}
    changed[first] = _with(held, rest, one)
    return changed
