"""Any bytes give a document or problems with a place, never a traceback; and what is read is what YAML says.

Outside reference: the composer of PyYAML, a general-purpose library.
"""

import re
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from riglint.read.document import Value
from riglint.read.looks import is_ours
from riglint.read.quantity import Dimension, QuantityError, parse_quantity, units_of
from riglint.read.yaml_text import read_yaml, resolved

quick = settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.too_slow])

PIECES = [
    "riglint: rig/1\n", "a: ", "b:", "\n", "\r\n", "\r", "  ", " ", "\t", "- ", "[", "]", "{", "}", ",", "? ",
    ": ", "&x ", "*x", "!!str ", "!", "<<: ", "|", ">", "\n  text\n", '"', "'", "\\", "\\x1b", "#", "---\n",
    "...\n", "%YAML 1.1\n", "%", "@", "`", "~", ".nan", "82 m", "ä", "🌲", "\u2028", "\x85", "\ufeff", "\x00",
    "\u202e", "=",
]  # fmt: skip

yaml_like = st.lists(st.sampled_from(PIECES), max_size=40).map("".join)
any_bytes = st.one_of(
    st.binary(max_size=200), yaml_like.map(str.encode), st.text(max_size=100).map(str.encode)
)


def judge(raw: bytes) -> None:
    """Assert what holds for whatever bytes."""
    document, problems = read_yaml(raw, "a.yaml")
    lines = raw.count(b"\n") + raw.count(b"\r") + 1
    assert document is not None or problems
    assert problems == sorted(problems, key=lambda problem: problem.place)
    for problem in problems:
        assert problem.message
        assert problem.message.isprintable()
        assert problem.do
        assert problem.do.isprintable()
        assert 1 <= problem.place.line <= lines
        assert 1 <= problem.place.column <= len(raw) + 1
    if document is not None:
        resolved(document.data)
        # libyaml puts an empty value at the end of a file without a last line end on the line below.
        assert all(place.line <= lines + 1 for place in document.places.values())


@quick
@given(any_bytes)
def test_any_bytes(raw: bytes) -> None:
    judge(raw)
    assert is_ours(raw) in ("yes", "no", "near miss")


@quick
@given(any_bytes)
def test_any_bytes_without_libyaml(raw: bytes) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(yaml, "__with_libyaml__", False)
        judge(raw)


words = st.text(
    st.characters(codec="utf-8", categories=["L", "N", "P", "S", "Zs"], exclude_characters="\ufffe\uffff"),
    max_size=12,
)
values = st.recursive(
    st.none() | st.booleans() | st.integers(-999, 999) | words,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(words.filter(bool), inner, max_size=4),
    max_leaves=15,
)
mappings = st.dictionaries(words.filter(bool), values, min_size=1, max_size=5)


def plain_text(node: yaml.Node | None) -> Value:
    """Return what the composer found, scalars as text, an unquoted null as None."""
    if isinstance(node, yaml.MappingNode):
        return {key.value: plain_text(value) for key, value in node.value}
    if isinstance(node, yaml.SequenceNode):
        return [plain_text(value) for value in node.value]
    assert isinstance(node, yaml.ScalarNode)
    return None if not node.style and node.value in ("null", "~", "") else node.value


def marks(node: yaml.Node, path: tuple[str | int, ...], found: dict[Any, tuple[int, int]]) -> dict[Any, Any]:
    found[path] = (node.start_mark.line + 1, node.start_mark.column + 1)
    if isinstance(node, yaml.MappingNode):
        for key, value in node.value:
            marks(value, (*path, key.value), found)
    if isinstance(node, yaml.SequenceNode):
        for number, value in enumerate(node.value):
            marks(value, (*path, number), found)
    return found


@quick
@given(mappings, st.booleans(), st.sampled_from([None, True, False]))
def test_values_and_places_agree_with_the_composer(data: Any, in_words: bool, flow: bool | None) -> None:
    text = yaml.safe_dump(data, allow_unicode=in_words, default_flow_style=flow, width=40)
    node = yaml.compose(text, yaml.BaseLoader)
    assert node is not None
    document, problems = read_yaml(text.encode(), "a.yaml")
    if (
        problems
    ):  # an anchor that the writer set for a repeated list, unseen characters, `key:` without a space
        assert all(problem.rule in ("file/yaml", "file/readable") for problem in problems)
        return
    assert document is not None
    assert document.data == plain_text(node)
    assert document.places == marks(node, (), {})


dimensions = st.sampled_from(
    ["length", "force", "mass", "mass_per_length", "strain_or_ratio", "angle", "speed", "temperature",
     "voltage", "pressure", "stiffness", "duration", "force_or_mass"]
)  # fmt: skip
quantity_like = st.lists(
    st.sampled_from(
        [*"0123456789.,+-eE'_ /%°±", "m", "kN", "kg", "/100 ft", "+/-", "\u00a0", "−", "८", "½", "\x00"]
    ),
    max_size=14,
).map("".join)


@quick
@given(st.one_of(quantity_like, st.text(max_size=30)), dimensions)
def test_any_text_is_a_finite_quantity_or_an_error_that_helps(text: str, dimension: Dimension) -> None:
    try:
        quantity = parse_quantity(text, dimension)
    except QuantityError as raised:
        error = raised
    else:
        assert abs(quantity.si) < 1e30
        assert 0.0 <= quantity.plus_minus < 1e30
        assert any(unit.replace(" ", "") in re.sub(r"\s", "", text) for unit in units_of(dimension))
        return
    assert error.message.isprintable()
    assert error.do.startswith("Write")
    assert error.do.isprintable()
