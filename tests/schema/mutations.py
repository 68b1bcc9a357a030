"""Example documents with one thing changed in each: a key dropped, misspelt or moved, a value written otherwise."""

import json
from collections.abc import Iterator
from itertools import islice
from pathlib import Path
from typing import NamedTuple

from riglint.read.document import Plain, Value
from riglint.read.yaml_text import read_yaml

Key = tuple[str | int, ...]

# What is written in place of a value. What each of them is, is for the reader and the schema to say.
NUMBERS = (
    "0x10",
    "0o17",
    "010",
    "1_000",
    "1e3",
    "1E-2",
    ".5",
    "1.",
    "3.0",
    "-3",
    "+3",
    "12:30",
    ".inf",
    ".nan",
    "0x",
)
WORDS = ("~", "null", "Null", "yes", "no", "on", "True", "FALSE", "tRUE", "true", "x", "''", "'3'", "'true'")
DAYS = ("2026-05-02", "2026-05", "2026-02-30", "02.05.2026", "2026-05-02T10:00:00Z", "20260502")
QUANTITIES = (
    "3 m", "3m", "3 cm", "-3 m", "0 m", "3", "3,5 m", "3 kN", "3 KN", "3 kN ± 4 kN", "3 kg", "99999 kN", "3 %", "3 deg",
    "3 kN/m", "3 km/h", "10000000 m",
)  # fmt: skip
KINDS = ("[]", "{}", "[x]", "{x: 1}", "[[]]")
FORMS = (*NUMBERS, *WORDS, *DAYS, *QUANTITIES, *KINDS)


class Mutant(NamedTuple):
    """One changed document: what it was made of, and what was done where."""

    file: str
    done: str
    value: Value

    @property
    def text(self) -> str:
        """Return the document as one line of YAML."""
        return written(self.value)


class Written(str):
    """A piece of YAML as it stands."""

    __slots__ = ()


def mutants(file: Path, every: int) -> list[Mutant]:
    """Return the mutants of a file, as it is among them; of a large one only some, `every` so many."""
    document, problems = read_yaml(file.read_bytes(), file.name)
    assert document is not None
    assert not problems
    data = document.data
    return [Mutant(file.name, "as it is", data), *islice(_changed(file.name, data), 0, None, every)]


def _changed(file: str, data: Value) -> Iterator[Mutant]:
    for key in keys_in(data):
        where, name = ".".join(map(str, key)), key[-1]
        if isinstance(name, str):
            yield Mutant(file, f"{where} dropped", without(data, key))
            for other in (misspelt(name), name.upper()):
                yield Mutant(file, f"{where} spelt {other}", renamed(data, key, other))
        for form in FORMS:
            yield Mutant(file, f"{where} = {form}", replaced(data, key, Written(form)))


def keys_in(value: Value, before: Key = ()) -> Iterator[Key]:
    """Yield the key of every value below one."""
    pairs = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for step, one in pairs:
        yield (*before, step)
        yield from keys_in(one, (*before, step))


def misspelt(word: str) -> str:
    """Return a word with two letters in each other's place; a short one with one more."""
    return word[0] + word[2] + word[1] + word[3:] if len(word) > 2 and word[1] != word[2] else word + "x"


def replaced(value: Value, key: Key, new: Value) -> Value:
    """Return a value with another one at a key below it."""
    if not key:
        return new
    if isinstance(value, dict):
        return {step: replaced(one, key[1:], new) if step == key[0] else one for step, one in value.items()}
    assert isinstance(value, list)
    return [replaced(one, key[1:], new) if step == key[0] else one for step, one in enumerate(value)]


def renamed(value: Value, key: Key, name: str) -> Value:
    """Return a value with another name for a key below it."""
    above = at(value, key[:-1])
    assert isinstance(above, dict)
    return replaced(value, key[:-1], {name if step == key[-1] else step: one for step, one in above.items()})


def without(value: Value, key: Key) -> Value:
    """Return a value without a key below it."""
    above = at(value, key[:-1])
    assert isinstance(above, dict)
    return replaced(value, key[:-1], {step: one for step, one in above.items() if step != key[-1]})


def at(value: Value, key: Key) -> Value:
    """Return what stands at a key."""
    for step in key:
        value = value[step]  # type: ignore[index]
    return value


def written(value: Value) -> str:
    """Return a value as YAML on one line; what was plain stays plain where it can."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{json.dumps(key)}: {written(one)}" for key, one in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(written, value)) + "]"
    if value is None or isinstance(value, Written):
        return "null" if value is None else str(value)
    bare = isinstance(value, Plain) and not set(value) & set(",[]{}#:\"'")
    return str(value) if bare else json.dumps(value)
