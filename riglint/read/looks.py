"""Whether a file is ours, looks like one of ours, or is somebody else's, told from its bytes.

Ours is a file whose first key is `riglint`. A file that looks like ours and is not read is told of aloud: somebody
wrote a rig there and believes that it is audited.
"""

import codecs
import re
from collections.abc import Iterator
from typing import Any, Literal, NamedTuple

import yaml
from yaml import events

from riglint.read.problems import UNSEEN, Place, Problem, shown
from riglint.read.spelling import nearest

OURS, SCHEMA = "riglint", "$schema"
LIKENESS = 0.8  # of a misspelt `riglint`; lower would take foreign files that begin with `lint` or `rigging`
MOST_EVENTS = 300_000  # of a foreign file; what stands behind them is looked for as text
NOT_OURS = "it does not begin with the key riglint"

# The first bytes tell the encoding (YAML 1.2.2, section 5.2).
_MARKS = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF32_LE, "utf-32-le"),
    (codecs.BOM_UTF32_BE, "utf-32-be"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)
_WITHOUT_MARK = (
    (re.compile(rb"\0\0\0[^\0]", re.DOTALL), "utf-32-be"),
    (re.compile(rb"[^\0]\0\0\0", re.DOTALL), "utf-32-le"),
    (re.compile(rb"\0[^\0]", re.DOTALL), "utf-16-be"),
    (re.compile(rb"[^\0]\0", re.DOTALL), "utf-16-le"),
)
# Compiled when they are first asked for: of a file of ours most of them never are.
_KIND = r"(?:rig|spot|shelf|policy|library)/\d+"
_MAY_BE = rf"(?i)r.?i.?g.?l.?i.?n.?t|chain['\"]?\s*:|:\s*['\"]?{_KIND}"
_AS_TEXT = rf"(?im)^(?P<before>[^#\n]*?['\"]?)riglint['\"]?\s*:\s*['\"]?{_KIND}|^chain\s*:"

_ONE_TEXT = rf"\s*riglint\s*:\s*{_KIND}"  # without a space behind the colon it is no key


class Look(NamedTuple):
    """What a file is, and why it is not read where it looks like one of ours."""

    verdict: Literal["yes", "no", "near miss"]
    problem: Problem | None = None


class _Key(NamedTuple):
    """A key of a file, wherever it stands."""

    text: str
    place: Place
    value: str | None  # where it is a scalar
    document: int
    depth: int  # 1 at the top of a document that is a mapping
    first: bool  # whether only $schema stands before it


def look(raw: bytes) -> Look:
    """Tell what a file is from its bytes, as many as there are."""
    text = UNSEEN.sub(" ", as_text(raw))
    suspect = re.search(_MAY_BE, text) is not None
    try:
        for key in _keys(text):
            if key.text == OURS and key.first:
                return Look("yes")
            problem = _near_miss(key)
            if problem is not None:
                return Look("near miss", problem)
            if not suspect and not (key.first and key.text == SCHEMA):
                return Look("no")
    except (yaml.YAMLError, ValueError, OverflowError):  # the last two: \U escapes, pure parser
        return _as_text(text) if suspect else Look("no")
    return _one_text(text) if re.match(_ONE_TEXT, text) else Look("no")


def only_comments(head: bytes) -> bool:
    """Whether the beginning of a file holds comments and blank lines alone, so that nothing is known of the rest."""
    return all(not row.strip() or row.lstrip().startswith("#") for row in as_text(head).split("\n"))


def begins_as_ours(head: bytes) -> bool:
    """Whether the beginning of a file is that of a rig, spot, shelf or policy, whatever the file is called."""
    try:
        first = next((key for key in _keys(UNSEEN.sub(" ", as_text(head))) if key.value is not None), None)
    except (yaml.YAMLError, ValueError, OverflowError):
        return False
    ours = first is not None and first.text == OURS and first.first
    return ours and first is not None and re.fullmatch(_KIND, first.value or "") is not None


def is_ours(raw: bytes) -> Literal["yes", "no", "near miss"]:
    """Whether a file is ours: `riglint` is its first key.

    `$schema`, comments, blank lines, a byte order mark and `---` may precede. A near miss has the key misspelt,
    further down, in a list, in a group or in a second document, or has a top-level `chain` without it.
    """
    return look(raw).verdict


def as_text(raw: bytes) -> str:
    """Return bytes as text in the encoding that their beginning tells; what is no text is replaced."""
    for mark, encoding in _MARKS:
        if raw.startswith(mark):
            return raw[len(mark) :].decode(encoding, errors="replace")
    encoding = next((name for pattern, name in _WITHOUT_MARK if pattern.match(raw)), "utf-8")
    return raw.decode(encoding, errors="replace")


def _near_miss(key: _Key) -> Problem | None:
    """Say why a file is not read where a key of it makes it look like one of ours."""
    written = shown(key.text)
    if key.depth == 1 and key.text == OURS:
        message = "riglint is below other keys, so the file is not read. It must come first."
        do = "Move this line to the top of the file."
        if key.document:
            message = "riglint is in a second document of this file, so the file is not read."
            do = "Move this document to a file of its own."
        return Problem("file/kind", key.place, key.text, message, do)
    if key.first and nearest(key.text, [OURS], likeness=LIKENESS):
        message = f"The first key is {written}, so the file is not read. Expected riglint."
        return Problem("file/kind", key.place, key.text, message, "Write riglint instead.", (OURS,))
    if key.depth == 1 and key.text == "chain":
        message = "The file holds a chain but does not begin with the key riglint, so it is not read."
        return Problem(
            "file/kind", key.place, key.text, message, "Begin the file with the line riglint: rig/1."
        )
    says_a_kind = key.value is not None and re.fullmatch(_KIND, key.value)
    if says_a_kind and nearest(key.text, [OURS], likeness=LIKENESS):
        message = f"{written} is inside a list or a group, so the file is not read. It belongs at the top."
        do = "Write this document into a file of its own, with the line riglint at its top."
        return Problem("file/kind", key.place, key.text, message, do)
    return None


def _one_text(text: str) -> Look:
    line = text[: len(text) - len(text.lstrip())].count("\n") + 1
    message = "The file begins with riglint and is one text, so it is not read. Expected keys with values."
    do = "Write a colon and a space after each key, such as riglint: rig/1."
    return Look("near miss", Problem("file/yaml", Place(line, 1), "", message, do))


def _as_text(text: str) -> Look:
    """Look for what the parser did not come to."""
    found = re.search(_AS_TEXT, text)
    if found is None:
        return Look("no")
    line, column = text.count("\n", 0, found.start()) + 1, len(found["before"] or "") + 1
    message = "The file can't be read as YAML, but this line looks like part of a rig."
    do = "Correct the YAML. The first line of a rig is riglint: rig/1."
    return Look("near miss", Problem("file/yaml", Place(line, column), "", message, do))


def _keys(text: str) -> Iterator[_Key]:
    """Yield every key of every document, in the order of the text.

    Raises:
        YAMLError: the text is no YAML from some place on, or too much of it.
    """
    loader: Any = yaml.CSafeLoader(text) if yaml.__with_libyaml__ else yaml.SafeLoader(text)
    open_: list[str] = []  # "key" and "value" for mappings, by what comes next; "item" for lists
    document, first, key = -1, True, None
    for _ in range(MOST_EVENTS):
        event = loader.get_event()
        if event is None or isinstance(event, events.StreamEndEvent):
            return
        if isinstance(event, events.DocumentStartEvent):
            document, first, open_ = document + 1, document < 0, []
        if isinstance(event, events.NodeEvent):
            scalar = event.value if isinstance(event, events.ScalarEvent) else None
            if key is not None:
                yield key._replace(value=scalar)
                key = None
            if open_ and open_[-1] == "key":
                key = _key(event, scalar, document, len(open_), first=first)
                first = first and (len(open_) > 1 or scalar == SCHEMA)
                if key is not None and key.first and key.text == OURS:
                    yield key
        _step(open_, event)
    raise yaml.YAMLError("more than is read of a foreign file")


def _key(event: Any, scalar: str | None, document: int, depth: int, *, first: bool) -> _Key | None:
    if scalar is None:
        return None
    place = Place(event.start_mark.line + 1, event.start_mark.column + 1)
    return _Key(scalar, place, None, document, depth, first and depth == 1)


def _step(open_: list[str], event: Any) -> None:
    """Follow which lists and mappings are open, and whether a key or a value comes next."""
    if isinstance(event, events.CollectionEndEvent):
        open_.pop()
    elif isinstance(event, events.NodeEvent) and open_ and open_[-1] != "item":
        open_[-1] = "value" if open_[-1] == "key" else "key"
    if isinstance(event, events.MappingStartEvent):
        open_.append("key")
    elif isinstance(event, events.SequenceStartEvent):
        open_.append("item")
