"""What an editor marks and what the reader refuses is the same in every changed document; exceptions stand below.

Outside references: the `yaml` package reads each document as a schema-driven editor does (YAML 1.2), and ajv checks it
against the schema. The reader reads the same text. Without node or the registry these tests are skipped.
"""

import re
from pathlib import Path
from typing import NamedTuple

import pytest

from riglint.model.compact.short_parts import written_out
from riglint.model.load import kind_of, load_as
from riglint.model.schema import EDITOR_KEYWORDS, MODELS, schema_of
from riglint.read.problems import Problem
from riglint.read.yaml_text import read_yaml
from tests.schema.mutations import Mutant, Written, mutants
from tests.schema.node_programs import run_script

CHECKOUT = Path(__file__).parents[2]
# Each document, and how many of its mutants one stands for in the suite; the slow test takes all.
FILES = {
    "riglint/baselines/low.yaml": ("rig", 131),
    "riglint/baselines/highline.yaml": ("rig", 311),
    "riglint/baselines/long_haul.yaml": ("rig", 151),
    "examples/rigs/waterline.yaml": ("rig", 35),
    "examples/rigs/slackrope.yaml": ("rig", 23),
    "examples/spots/orchard.yaml": ("spot", 17),
    "examples/spots/gully.yaml": ("spot", 35),
    "tests/broken/beside/shelf.yaml": ("shelf", 23),
    "examples/ordinary/policies/city-park.yaml": ("policy", 17),
}

# What the reader refuses and a schema takes: why no schema can say it, the reader's words, a document that shows it.
EXCEPTIONS = {
    "a number with a unit beyond its bounds": (
        "a schema cannot compare numbers that stand in text",
        r"can't be .*\. Expected .* to ",
        "{riglint: rig/1, title: x, chain: [], plan: {wind: 300 km/h}}",
    ),
    "a ± as large as its value": (
        "a schema cannot compare numbers that stand in text",
        r"The ± of .* is as large as the value",
        "{riglint: shelf/1, items: {A: {kind: rope, mbs: 20 kN ± 20 kN}}}",
    ),
    "a name that is nowhere": (
        "a schema does not know which names there are",
        r"is no (?:anchor of this spot|line of this rig|line or part of this rig)\.",
        "{riglint: spot/1, anchors: {}, ground: {profile_from: north}}",
    ),
    "a number with a nought in front": (
        "an editor reads 010 as 10 before it asks a schema, other programs as 8",
        r"found '010'",
        "{riglint: rig/1, title: x, chain: [], plan: {spotters: 010}}",
    ),
    "stretch that does not rise": (
        "a schema cannot compare two values",
        r"stretch",
        "{riglint: shelf/1, items: {A: {kind: rope, stretch: {1 kN: 2 %, 2 kN: 1 %}}}}",
    ),
}


# Documents of a library itself; the examples have none that hold every key.
SETTINGS = {
    "library": "riglint: library/1\ntitle: Club\nnote: x\npolicy: policy.yaml\nknown: known.yaml\nunits: both\n"
    "leave_out: [{path: old/, because: retired}]\ndays: [2026-05-02, 2026-06]\n",
    "known": "riglint: known/1\ntitle: Club\nknown: [{rule: tail/webbing, file: a.yaml, cause: 0123456789abcdef, "
    "word: WARNING, since: 2026-05-02, until: 2026-09-02, role: gear keeper, reason: new webbing comes}]\n",
}


class Apart(NamedTuple):
    """A document on which the two differ: which of them takes it, and what the reader said."""

    done: str
    taken_by: str
    said: str


def refused(kind: str, text: str) -> list[Problem]:
    """Return what the reader has against a document of a kind."""
    document, problems = read_yaml(text.encode(), "a.yaml")
    if document is None or problems:
        return problems
    said, wrong = kind_of(document)
    if said != kind or wrong is not None:
        return [wrong] if wrong is not None else [Problem("file/kind", document.place(()), "", str(said), "")]
    whole, short = written_out(document, None) if kind in {"rig", "shelf"} else (document, [])
    return [*short, *load_as(whole, MODELS[kind], kind)[1]]


def apart(kind: str, changed: list[Mutant]) -> list[Apart]:
    """Return the documents on which the reader and the schema, as an editor asks it, differ."""
    asked = {
        "keywords": EDITOR_KEYWORDS,
        "schemas": {kind: schema_of(kind)},
        "documents": [{"schema": kind, "text": one.text} for one in changed],
    }
    found = []
    for one, taken in zip(changed, run_script("editor_reads.cjs", asked), strict=True):
        problems = refused(kind, one.text)
        if taken == bool(problems):
            said = " | ".join(problem.message for problem in problems)
            found.append(Apart(one.done, "schema" if taken else "reader", said))
    return found


def exception(one: Apart) -> str | None:
    """Return which exception a difference is; None for none of them."""
    if one.taken_by == "reader":
        return None
    return next((name for name, (_, said, _) in EXCEPTIONS.items() if re.search(said, one.said)), None)


@pytest.mark.parametrize("name", FILES)
def test_both_say_the_same_of_every_changed_document(name: str) -> None:
    kind, every = FILES[name]
    changed = mutants(CHECKOUT / name, every)
    assert len(changed) > 100, "too few to say anything"
    assert [one for one in apart(kind, changed) if exception(one) is None] == []


@pytest.mark.parametrize("kind", SETTINGS)
def test_both_say_the_same_of_the_settings_of_a_library(kind: str, tmp_path: Path) -> None:
    file = tmp_path / f"{kind}.yaml"
    file.write_text(SETTINGS[kind], encoding="utf-8")
    changed = mutants(file, 2)
    assert refused(kind, changed[0].text) == []
    assert [one for one in apart(kind, changed) if exception(one) is None] == []


@pytest.mark.slow
@pytest.mark.parametrize("name", FILES)
def test_both_say_the_same_of_all_of_them(name: str) -> None:
    kind, _ = FILES[name]
    assert [one for one in apart(kind, mutants(CHECKOUT / name, 1)) if exception(one) is None] == []


@pytest.mark.parametrize("name", EXCEPTIONS)
def test_each_exception_is_one(name: str) -> None:
    text = EXCEPTIONS[name][2]
    document, _ = read_yaml(text.encode(), "a.yaml")
    assert document is not None
    kind = str(document.data["riglint"]).partition("/")[0]
    (found,) = apart(kind, [Mutant(name, name, Written(text))])
    assert exception(found) == name


# Ways to write one value, tried by name: both take it, or both refuse it.
BOTH = {
    "spotters: 0x10": True, "spotters: 16": True, "spotters: 1e1": True, "spotters: 3.0": True,
    "spotters: 1_000": False, "spotters: yes": False, "spotters: '3'": False, "spotters: 12:30": False,
    "spotters: .inf": False,
    "spotters: Null": True, "spotters: ~": True, "public: True": True, "public: yes": False, "public: 1": False,
    "first_day: 2026-05-02": True, "first_day: 2026-05": True, "first_day: 02.05.2026": False, "wind: 0x10": False,
    "first_day: 2026-05-02T10:00:00Z": False, "spoters: 3": False, "Spotters: 3": False,
}  # fmt: skip


def test_each_way_to_write_a_value() -> None:
    texts = {line: f"{{riglint: rig/1, title: x, chain: [], plan: {{{line}}}}}" for line in BOTH}
    assert {line: refused("rig", text) == [] for line, text in texts.items()} == BOTH
    assert apart("rig", [Mutant("", line, Written(text)) for line, text in texts.items()]) == []
