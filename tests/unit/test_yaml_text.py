"""The reader gives each value its place and refuses whatever could mean two things.

Lines and columns in the tables were counted by hand in the text beside them. What is well-formed YAML follows
the YAML 1.2.2 specification (yaml.org/spec/1.2.2, cited from memory); the refusals are riglint's own.
"""

import subprocess
import sys
import time

import pytest
import yaml

from riglint.read.document import LONGEST_NUMBER, Document, Plain
from riglint.read.problems import Place, Problem, key_text, shown
from riglint.read.yaml_text import MAX_PROBLEMS, read_yaml, resolved

RIG = """\
# a comment
riglint: rig/1
title: "Larch: evening"
wet: no
backups: []
moves: ~
plan:
  users: [{mass: 82 kg, level: practised}]
  at: 12:30
chain:
  - {part: anchor, at: north}
  - part: webbing
    cut: 74.5 m
"""


@pytest.fixture(params=["libyaml", "pure"])
def parser(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Both of PyYAML's parsers: some installations have no libyaml."""
    monkeypatch.setattr(yaml, "__with_libyaml__", request.param == "libyaml")
    return str(request.param)


def whole(text: str | bytes) -> Document:
    document, problems = read_yaml(text.encode() if isinstance(text, str) else text, "a.yaml")
    assert problems == []
    assert document is not None
    return document


def problems_of(text: str | bytes) -> list[Problem]:
    document, problems = read_yaml(text.encode() if isinstance(text, str) else text, "a.yaml")
    assert document is not None or problems
    return problems


@pytest.mark.usefixtures("parser")
def test_values_are_text_and_none_only() -> None:
    data = whole(RIG).data
    assert data["wet"] == "no"
    assert isinstance(data["wet"], Plain)
    assert data["title"] == "Larch: evening"
    assert not isinstance(data["title"], Plain)
    assert data["moves"] is None
    assert data["backups"] == []
    assert data["plan"] == {"users": [{"mass": "82 kg", "level": "practised"}], "at": "12:30"}


@pytest.mark.usefixtures("parser")
def test_each_value_and_key_has_its_place() -> None:
    document = whole(RIG)
    assert document.places["riglint",] == Place(2, 10)
    assert document.key_places["plan", "users"] == Place(8, 3)
    assert document.places["plan", "users", 0, "mass"] == Place(8, 18)
    assert document.places["chain", 1] == Place(12, 5)
    assert document.key_places["chain", 1, "cut"] == Place(13, 5)
    assert document.places["chain", 1, "cut"] == Place(13, 10)


def test_a_missing_value_stands_where_its_nearest_holder_stands() -> None:
    document = whole(RIG)
    assert document.place(("chain", 1, "gear")) == document.places["chain", 1]
    assert document.place(("spot", "span")) == document.places[()]


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
@pytest.mark.usefixtures("parser")
def test_line_ends_and_byte_order_mark_move_nothing(end: str, mark: str) -> None:
    document = whole((mark + RIG).replace("\n", end))
    assert document.places == whole(RIG).places
    assert document.data == whole(RIG).data


@pytest.mark.usefixtures("parser")
def test_columns_count_characters() -> None:
    document = whole("riglint: rig/1\na: {title: 'Lärche 🌲', b: x}\n")
    assert document.places["a", "b"] == Place(2, 27)


# text, key, line, column, rule, a part of the message
REFUSED = [
    ("a: &x 1 m\n", "a", 1, 4, "file/yaml", "'&x' is a YAML anchor"),
    ("a: 1\nb: *x\n", "b", 2, 4, "file/yaml", "'*x' is an alias"),
    ("a:\n  <<: {b: 1}\n", "a", 2, 3, "file/yaml", "<< merges keys"),
    ("a: !!str x\n", "a", 1, 4, "file/yaml", "'!!str' is a YAML tag"),
    ("a: !x {b: c}\n", "a", 1, 4, "file/yaml", "'!x' is a YAML tag"),
    ("a: !!python/object/apply:os.system [x]\n", "a", 1, 4, "file/yaml", "is a YAML tag"),
    ("a: 1\n---\nb: 2\n", "", 2, 1, "file/yaml", "A second document"),
    ("a: [.nan]\n", "a[0]", 1, 5, "file/yaml", "A rig can't be calculated with '.nan'"),
    ("a: -.Inf\n", "a", 1, 4, "file/yaml", "A rig can't be calculated with '-.Inf'"),
    ("a: 1\nb:\n  c: 1\na: 2\n", "a", 4, 1, "file/duplicate", "on lines 1 and 4"),
    ("a: {b: 1, b: 2}\n", "a.b", 1, 11, "file/duplicate", "on line 1"),
    ("? [a, b]\n: c\n", "", 1, 3, "file/yaml", "Expected one key"),
    ("a:\n  ?\n  : c\n", "a", 2, 4, "file/yaml", "without a key"),
    ("a: {part:anchor}\n", "a.part:anchor", 1, 5, "file/yaml", "there is no space after its colon"),
    ("- a\n- b\n", "", 1, 1, "file/yaml", "The file is a list"),
    ("riglint:rig/1\n", "", 1, 1, "file/yaml", "The file is one text"),
    ("", "", 1, 1, "file/yaml", "empty"),
    ("# only a comment\n", "", 1, 1, "file/yaml", "empty"),
    ("---\n", "", 1, 1, "file/yaml", "empty"),
    ('a: "\\e[31m"\n', "a", 1, 4, "file/yaml", "invisible character"),
    ("a: 1\nb: x\u2028y\n", "", 2, 5, "file/readable", "U+2028"),
    ("a: 1\nb: x\x85y\n", "", 2, 5, "file/readable", "U+0085"),
    ("a: x\x1b[31m\n", "", 1, 5, "file/readable", "U+001B"),
    ("a: x\u202ey\n", "", 1, 5, "file/readable", "U+202E"),
    ("a: x\ufeff\n", "", 1, 5, "file/readable", "byte order mark"),
]


@pytest.mark.parametrize(("text", "key", "line", "column", "rule", "part"), REFUSED)
def test_refused(  # noqa: PLR0917 - the columns of the table
    text: str, key: str, line: int, column: int, rule: str, part: str
) -> None:
    (problem,) = problems_of(text)
    assert (problem.key, problem.place, problem.rule) == (key, Place(line, column), rule)
    assert part in problem.message
    assert problem.do


# text, line, column, a part of the message, a part of what to do
BROKEN = [
    ("a: 1 m\nb: 'x\nc: 1\n", 2, 4, "never closed", "same quote"),
    ('b: "x\nc: 1\n', 1, 4, "never closed", "same quote"),
    ("a:\n\tb: 1\n", 2, 1, "There is a tab here. YAML needs spaces", "spaces"),
    ("a:\n  b: 1\n\tc: 2\n\td: 2\n", 3, 1, "There is a tab", "2 lines"),
    ("a: 1\nlength 4 m\nb: 2\n", 2, 1, "'length 4 m' has no colon", "'length: 4 m'"),
    ("a:\n  - b:1\n    c: 2\n", 3, 5, "under a line that already has its value", "indentation"),
    ("a:\n  b: 1\n c: 2\n", 3, 2, "'c: 2' is indented by 1 space", "indentation"),
    ("a: 1\n   b: 2\n", 2, 4, "'b: 2' is indented by 3 spaces", "indentation"),
    ("title: Meadow: evening\n", 1, 14, "second colon", "quotes"),
    ("chain: - a\n", 1, 8, "A list begins", "next line"),
    ("a: [1 m, 2 m\nb: 3\n", 1, 4, "[ on line 1, column 4 is not closed before line 2", "]"),
    ("a:\n  - {b: 1\n  - {c: 2}\n", 2, 5, "{ on line 2, column 5 is not closed before line 3", "}"),
    ('a: {b: "x" c: 1}\n', 1, 12, "a comma or }", "comma"),
    ("a: 1\n]\n", 2, 1, "']' closes a bracket that is not open", "opening"),
    ("a: @x\n", 1, 4, "begins with @", "quotes"),
    ("a: *important*\n", 1, 4, "begins with *", "quotes"),
    ('a: "x" y\n', 1, 8, "'y' follows a value that has already ended", "quotes"),
    ("a:\n- b\nc\n", 3, 1, "'c' has no colon", "colon"),
    ("a: }\n", 1, 4, "Expected a value, found '}'", "value"),
    ('a: "C:\\quick"\n', 1, 7, "backslash", "single quotes"),
    ("%YAML 3.0\n---\na: 1\n", 1, 1, "directive", "%"),
    ("a:\n  : c\n", 2, 3, "Expected a key and a colon, found ': c'", "key"),
    ("a: |x\n  b\n", 1, 5, "Something follows", "next line"),
]


@pytest.mark.parametrize(("text", "line", "column", "part", "do"), BROKEN)
def test_broken(  # noqa: PLR0917 - the columns of the table
    parser: str, text: str, line: int, column: int, part: str, do: str
) -> None:
    (problem,) = problems_of(text)
    # Python's parser counts the letter after a backslash, libyaml the backslash.
    pure_backslash = parser == "pure" and part == "backslash"
    assert problem.place == Place(line, column + pure_backslash)
    assert part in problem.message
    assert do in problem.do


def test_our_words_are_used_for_every_broken_text_above() -> None:
    """No jargon of the parser (block end, flow mapping, simple key, token, scalar) comes through."""
    messages = " ".join(problems_of(row[0])[0].message for row in BROKEN)
    for jargon in ("block", "flow", "simple key", "token", "scalar", "node", "mapping"):
        assert jargon not in messages


def test_all_problems_come_in_one_run_and_in_order() -> None:
    problems = problems_of("a: &x 1\na: 2\nb: !t c\nd: x\u200by\ne: [1\n")
    assert [problem.place.line for problem in problems] == [1, 2, 3, 4, 5]


def test_a_document_beside_problems_has_all_its_values() -> None:
    document, problems = read_yaml(b"a: &x 1 m\na: 2 m\nb: !t c\n", "a.yaml")
    assert len(problems) == 3
    assert document is not None
    assert document.data == {"a": "1 m", "b": "c"}
    assert read_yaml(b"a: *x\n", "a.yaml")[0] is None


@pytest.mark.parametrize(
    ("raw", "line", "column", "part"),
    [
        ("a: 1\nb: ä\n".encode("utf-16"), 1, 1, "UTF-16"),
        ("a: 1\nb: ä\n".encode("utf-16-le"), 1, 1, "UTF-16"),
        ("a: 1\nb: ä\n".encode("latin-1"), 2, 4, "0xE4"),
        ("ü: 1\r\nb: ".encode() + b"\xff", 2, 4, "0xFF"),
        (b"a: " + b"x" * 2_000_000, 1, 1, "larger than 2 MB"),
    ],
)
def test_unreadable(raw: bytes, line: int, column: int, part: str) -> None:
    document, (problem,) = read_yaml(raw, "a.yaml")
    assert document is None
    assert (problem.rule, problem.place, problem.key) == ("file/readable", Place(line, column), "")
    assert part in problem.message


def deep(levels: int) -> str:
    return "".join(" " * level + f"k{level}:\n" for level in range(levels)) + " " * levels + "end: x\n"


@pytest.mark.usefixtures("parser")
def test_forty_levels_are_read_and_one_more_is_not() -> None:
    assert whole(deep(39)).data
    (problem,) = problems_of(deep(40))
    assert problem.place == Place(41, 41)
    assert "more than 40 levels" in problem.message


HOSTILE = {
    "nested brackets": b"a: " + b"[" * 20_000,
    "nested braces": b"{a: " * 20_000,
    "nested keys": "".join(" " * level + "a:\n" for level in range(1900)).encode(),
    "nested dashes": b"- " * 900_000,
    "alias bomb": b"a: &a [x]\n" + b"".join(b"b%d: &b%d [*a,*a,*a,*a]\n" % (n, n) for n in range(9)),
    "cycle": b"a: &a {b: *a}\n",
    "ten megabytes": b"a: b\n" * 2_000_000,
    "one key many times": b"a:\n" * 600_000,
    "many values": b"a: [" + b"x," * 900_000 + b"]",
    "one long line": b"x" * 1_900_000 + b": 1",
    "open quote": b'a: "' + b"x" * 1_900_000,
    "control characters": b"a: " + b"\x01" * 1_900_000,
    "colons": b":" * 1_900_000,
    "tabs": b"a:\n" + b"\tb: 1\n" * 300_000,
    "escape out of range": b'a: "\\UFFFFFFFF"',
    "half a surrogate pair": b'a: "\\ud800"',
}


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_files_are_refused_soon(name: str) -> None:
    start = time.process_time()
    document, problems = read_yaml(HOSTILE[name], "a.yaml")
    assert time.process_time() - start < 5  # under one second on two slow cores; the rest is room
    assert problems
    assert len(problems) <= MAX_PROBLEMS + 1
    assert document is None or name == "control characters"


@pytest.mark.parametrize(
    "name", ["nested brackets", "alias bomb", "cycle", "escape out of range", "half a surrogate pair"]
)
def test_hostile_files_are_refused_without_libyaml(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(yaml, "__with_libyaml__", False)
    assert problems_of(HOSTILE[name])


def test_resolved_gives_what_a_schema_validator_needs() -> None:
    document = whole(
        'a: true\nb: "true"\nc: 5\nd: -0.25\ne: 017\nf: 1_000\ng: yes\nh: [1, 2 m]\ni: 1e3\nj:\nk: 0x10\nl: True\n'
    )
    assert resolved(document.data) == {
        "a": True,
        "b": "true",
        "c": 5,
        "d": -0.25,
        "e": "017",
        "f": "1_000",
        "g": "yes",
        "h": [1, "2 m"],
        "i": 1000.0,
        "j": None,
        "k": 16,
        "l": True,
    }
    assert type(resolved(Plain("x"))) is str
    assert resolved(Plain("9" * 5000)) == "9" * 5000


def test_key_text() -> None:
    assert key_text(("chain", 5, "length")) == "chain[5].length"
    assert key_text(("items", "W-1 / ö.2", "mbs")) == "items.W-1 / ö.2.mbs"
    assert key_text(()) == ""


def test_shown_is_one_short_line() -> None:
    assert shown("a\nb\x1b[31m") == "'a b\\u001b[31m'"
    assert len(shown("x" * 1000)) == 62


def test_problems_do_not_cost_the_import_of_yaml() -> None:
    code = "import sys, riglint.read.problems; sys.exit('yaml' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_a_number_is_one_up_to_the_longest_that_stays_finite() -> None:
    longest = "9" * LONGEST_NUMBER
    assert resolved(Plain(longest)) == int(longest)
    assert resolved(Plain(f"{longest}9")) == f"{longest}9"
